// The strip of the feet and hands of who is looked at: this bar and the next, a cell for each count.
import { barAt, barShares, beginOf, counts, dance } from "./dance.js";
import { lookedAt } from "./eye.js";
import { find } from "./parts.js";
import { WEIGHTS, fallAt } from "./poses.js";
import { state } from "./state.js";

/** The dancer and the count that the strip begins with. */
let made = "";

/**
 * @param {string} name its class
 * @param {string} [text]
 */
function element(name, text = "") {
  const part = document.createElement("span");
  part.className = name;
  part.textContent = text;
  return part;
}

/**
 * The counts since the bar began.
 * @param {number} at a count
 */
const inBar = (at) => at - (at < counts ? beginOf(barAt(at)) : counts);

/**
 * The cell of a count.
 * @param {Fall} fall
 * @param {number} at the count
 */
function cellOf(fall, at) {
  const cell = element(`cell${inBar(at) === 0 ? " bar" : ""}`);
  cell.append(element("step", fall.begins ? dance.steps[fall.step][0] : ""));
  for (const [foot, letter] of /** @type {[number, string][]} */ ([[0, "L"], [1, "R"]])) {
    const lands = fall.lands === foot || fall.lands === 2;
    const print = () => element(`print${fall.hop ? " hop" : ""}`, letter);
    cell.append(lands ? print() : element("none", fall.lands === 3 ? "\u2191" : ""));
  }
  const hand = element("hand");
  const high = document.createElement("i");
  high.style.height = `${Math.round(Math.max(...fall.hands) * 100)}%`;
  hand.append(high);
  cell.append(hand, element("number", String(inBar(at) + 1)));
  return cell;
}

/**
 * The cell of a count after the end.
 * @param {number} at
 */
const cellAfterEnd = (at) => element(`cell${inBar(at) === 0 ? " bar" : ""} over`);

/** @param {Fall} fall */
const fallWords = (fall) =>
  `${fall.begins ? `${dance.steps[fall.step][1]}, ` : ""}${fall.hop ? "hop " : ""}${WEIGHTS[fall.lands]}`;

/**
 * Makes the strip anew.
 * @param {HTMLElement} host
 * @param {number} dancer
 * @param {number} first the count that it begins with
 */
function makeStrip(host, dancer, first) {
  const head = element("head cell");
  head.append(element("step"), element("", "L"), element("", "R"), element(""), element("number"));
  const cells = [head];
  /** @type {[string[], string[]]} */
  const said = [[], []];
  const bar = barAt(first);
  const second = first + barShares(bar).length - 1;
  const end = second + barShares(bar + 1).length - 1;
  host.style.setProperty("--counts", String(end - first));
  for (let at = first; at < end; at++) {
    if (at >= counts) {
      cells.push(cellAfterEnd(at));
      continue;
    }
    const fall = fallAt(dancer, at).now;
    cells.push(cellOf(fall, at));
    said[at < second ? 0 : 1].push(fallWords(fall));
  }
  host.replaceChildren(...cells);
  const [now, next] = said.map((falls) => falls.join("; "));
  const whose = state.chosen === null ? `The feet of ${dancer + 1}` : "Your feet";
  host.setAttribute("aria-label", `${whose} this bar: ${now}. Next bar: ${next || "the end"}.`);
}

/** @param {number} count */
export function showStrip(count) {
  const host = find("strip");
  // At eye level somebody is looked at with nobody chosen too.
  const dancer = state.seen === "above" ? state.chosen : lookedAt();
  host.hidden = dancer === null;
  if (dancer === null) return;
  const here = Math.min(Math.floor(count + 1e-6), counts - 1);
  const first = beginOf(barAt(here));
  const wanted = `${state.chosen} ${dancer} ${first}`;
  if (made !== wanted) {
    made = wanted;
    makeStrip(host, dancer, first);
  }
  [...host.children].forEach((cell, index) => cell.classList.toggle("now", index === here - first + 1));
}
