// What can be chosen: each choice kept in the state, shown on its buttons, and followed by the page.
import { dance, personOf } from "./dance.js";
import { fromWords, lookedAt } from "./eye.js";
import { find, findAs, press, put } from "./parts.js";
import { readInk } from "./pen.js";
import { again } from "./play.js";
import { renew } from "./screen.js";
import { state } from "./state.js";

/** Where the browser keeps the number that was chosen last. */
const KEPT_NUMBER = "bellpad-number";

/**
 * Chooses a dancer, or none.
 * @param {number} number from 1
 */
export function choose(number) {
  const dancer = Number.isInteger(number) && number >= 1 && number <= dance.dancers ? number - 1 : null;
  state.chosen = dancer;
  put("you-name", dancer === null ? "Choose your number, to see your own feet, hands and words" : "You dance");
  press("numbers", dancer === null ? "0" : String(dancer + 1));
  try { localStorage.setItem(KEPT_NUMBER, String(number)); } catch { /* Not kept, then. */ }
  renew();
  put("said", dancer === null ? "No dancer chosen." : `You dance ${personOf(dancer)}.`);
}

/** The number that was chosen last time, or 0. */
export function keptNumber() {
  try {
    return Number(localStorage.getItem(KEPT_NUMBER)) || 0;
  } catch {
    return 0;
  }
}

/** @param {string | undefined} kind */
export function setLoop(kind) {
  state.loop = kind === "phrase" || kind === "figure" ? kind : "off";
  press("loop", state.loop);
  again();
}

/** @param {string | undefined} kind */
export function setView(kind) {
  state.view = kind === "own" ? "own" : "music";
  press("view", state.view);
  renew();
}

/** @param {string | undefined} from */
export function setSeen(from) {
  const known = from === "front" || from === "behind" || from === "side";
  state.seen = known && dance.bodies ? from : "above";
  press("seen", state.seen);
  // Which way up the floor is has no bearing on a body at eye level.
  for (const button of find("view").querySelectorAll("button")) button.disabled = state.seen !== "above";
  renew();
  put("said", state.seen === "above" ? "The set, from above." : `Number ${lookedAt() + 1} at eye level, ${fromWords()}.`);
}

/** @param {number} percent */
export function setSpeed(percent) {
  state.speed = Math.min(Math.max(Math.round(percent), 40), 120);
  findAs("speed", HTMLInputElement).value = String(state.speed);
  put("speed-said", `${state.speed} %`);
  again();
}

/** @param {string} look `slate` or `paper` */
export function setLook(look) {
  document.documentElement.dataset.look = look;
  find("look").setAttribute("aria-pressed", String(look === "paper"));
  readInk();
  renew();
}

export const otherLook = () => setLook(document.documentElement.dataset.look === "paper" ? "slate" : "paper");

/**
 * A button that turns a choice on and off.
 * @param {string} id
 * @param {"click" | "tune" | "taps" | "countIn" | "byCounts"} key
 */
export function makeSwitch(id, key) {
  const show = () => find(id).setAttribute("aria-pressed", String(state[key]));
  find(id).addEventListener("click", () => {
    state[key] = !state[key];
    show();
    again();
  });
  show();
}
