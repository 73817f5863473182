// What the page lists of a dance: the numbers to choose from, the figures to go to, the steps in words, the notes and the side.
import { choose } from "./controls.js";
import { dance, nameOf, personOf } from "./dance.js";
import { find, put } from "./parts.js";
import { seek } from "./play.js";

/** @param {() => void} act */
function makeButton(act) {
  const button = document.createElement("button");
  button.type = "button";
  button.addEventListener("click", act);
  return button;
}

/**
 * @param {number} number
 * @param {string} text
 * @param {string} kind its class
 * @param {string} label for those who cannot see it
 */
function listNumber(number, text, kind, label) {
  const button = makeButton(() => choose(number));
  button.className = kind;
  button.dataset.value = String(number);
  button.textContent = text;
  button.setAttribute("aria-label", label);
  find("numbers").append(button);
}

/**
 * @param {DancedSpan} span
 * @param {number} index
 */
function listFigure(span, index) {
  const button = makeButton(() => seek(span.begin));
  const bars = document.createElement("span");
  bars.textContent = `${span.strain ? `${span.strain}, ` : ""}bar ${span.bar + 1}`;
  button.append(`${index + 1}. ${nameOf(span)}`, bars);
  const item = document.createElement("li");
  item.append(button);
  find("figures").append(item);
}

/** @param {string} told what a step is, count by count */
function listStep(told) {
  const item = document.createElement("li");
  item.textContent = told;
  find("steps-told").append(item);
}

/** Lists it all, once. */
export function makeLists() {
  for (let number = 1; number <= dance.dancers; number++) {
    listNumber(number, String(number), number % 2 ? "odd" : "even", personOf(number - 1));
  }
  listNumber(0, "None", "all", "None of them");
  dance.spans.forEach(listFigure);
  find("steps").hidden = dance.stepsTold.length === 0;
  dance.stepsTold.forEach(listStep);
  const ofFigures = dance.spans.filter((span) => span.notes).map((span) => `${span.name}: ${span.notes}`);
  const notesSaid = [dance.notes, ...new Set(ofFigures)].filter(Boolean);
  find("notes").hidden = notesSaid.length === 0;
  put("notes-text", notesSaid.join(" "));
  put("side", dance.side);
}
