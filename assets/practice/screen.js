// Everything on the page that follows the moment, renewed together.
import { showClauses } from "./clauses.js";
import { callOf, nameOf, shownSpanAt, spanOf } from "./dance.js";
import { draw } from "./draw.js";
import { fromWords, lookedAt } from "./eye.js";
import { picture } from "./frame.js";
import { find, findAs, put } from "./parts.js";
import { shown, state } from "./state.js";
import { showStrip } from "./strip.js";
import { bodyWords, momentWords, sayPhrase, showWords } from "./words.js";

/**
 * The figure that the list of figures shows as the present one.
 * @type {number | null}
 */
let listed = null;

/**
 * What stands beside the name of a figure: its call and when that comes, or its strain.
 * @param {DancedSpan} span
 */
function besideName(span) {
  if (span.call && span.call !== span.name) return `call \u201C${span.call}\u201D, ${span.called}`;
  const strain = span.strain ? `strain ${span.strain}` : "";
  return span.called ? `${strain}${strain && ", "}called ${span.called}` : strain;
}

/**
 * What the picture shows.
 * @param {number} count
 */
function pictureWords(count) {
  const moment = `${nameOf(spanOf(count))}, ${momentWords(count)}`;
  if (state.seen === "above") {
    const who = state.chosen === null ? "" : `, ${state.chosen + 1} chosen`;
    return `The set from above: ${moment}${who}`;
  }
  const dancer = lookedAt();
  return `Number ${dancer + 1} at eye level, ${fromWords()}: ${moment}: ${bodyWords(dancer, count)}`;
}

/** Renews what follows the moment. */
export function renew() {
  const count = shown();
  const span = spanOf(count);
  put("figure", span.name);
  put("call", besideName(span));
  put("moment", momentWords(count));
  const scrub = findAs("scrub", HTMLInputElement);
  const moment = `${callOf(span)}, ${momentWords(count)}`;
  if (scrub.getAttribute("aria-valuetext") !== moment) scrub.setAttribute("aria-valuetext", moment);
  const value = String(Math.floor(count + 1e-6));
  if (scrub.value !== value) scrub.value = value;
  put("play", state.playing ? "Stop" : "Play");
  const index = shownSpanAt(count);
  if (listed !== index) {
    listed = index;
    find("figures").querySelectorAll("button").forEach((button, place) =>
      button.setAttribute("aria-current", String(place === index)));
  }
  showClauses(count);
  showWords(count);
  showStrip(count);
  const label = pictureWords(count);
  if (!state.playing && picture.getAttribute("aria-label") !== label) picture.setAttribute("aria-label", label);
  if (state.playing) sayPhrase();
  draw();
}
