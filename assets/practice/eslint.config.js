// The linter of the practice page's script. The browser's own names are listed one by one, so that a name which a module
// forgot to import is never taken for one of them.
import js from "@eslint/js";

const browser = [
  "atob", "cancelAnimationFrame", "clearInterval", "clearTimeout", "document", "Element", "getComputedStyle",
  "HTMLButtonElement", "HTMLCanvasElement", "HTMLElement", "HTMLInputElement", "localStorage", "matchMedia", "navigator",
  "performance", "requestAnimationFrame", "ResizeObserver", "setInterval", "setTimeout", "window",
];

export default [
  { ignores: ["node_modules/"] },
  js.configs.recommended,
  {
    linterOptions: { reportUnusedDisableDirectives: "error" },
    languageOptions: {
      ecmaVersion: 2021,
      sourceType: "module",
      globals: Object.fromEntries(browser.map((name) => [name, "readonly"])),
    },
    rules: {
      curly: ["error", "multi-line"],
      eqeqeq: "error",
      "max-lines": ["error", 400],
      "no-implicit-globals": "error",
      "no-self-compare": "error",
      "no-unmodified-loop-condition": "error",
      "no-useless-assignment": "error",
      "no-var": "error",
      // The joiner knows a module's own names by their declarations, each of which begins a line.
      "one-var": ["error", "never"],
      "object-shorthand": "error",
      "prefer-arrow-callback": "error",
      "prefer-const": "error",
      "prefer-template": "error",
    },
  },
];
