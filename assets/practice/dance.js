// The dance that the page holds: its figures by count, and what they and the dancers are called.
import { find } from "./parts.js";

/** @type {PageDance} */
export const dance = JSON.parse(find("dance").textContent ?? "");

/** How many counts the dance has. */
export const counts = dance.bars * 4;

/**
 * Which figure a count is in: the last one that has begun, looked for by halves.
 * @param {number} count
 */
export function spanAt(count) {
  let begun = 0;
  let beyond = dance.spans.length;
  while (beyond - begun > 1) {
    const middle = Math.floor((begun + beyond) / 2);
    if (dance.spans[middle].bar * 4 <= count) begun = middle;
    else beyond = middle;
  }
  return begun;
}

/**
 * Which figure is shown at a count: at the very end still the last one.
 * @param {number} count
 */
export const shownSpanAt = (count) => spanAt(Math.min(count, counts - 1e-6));

/**
 * The figure that is shown at a count.
 * @param {number} count
 */
export const spanOf = (count) => dance.spans[shownSpanAt(count)];

/** @param {DancedSpan} span */
export const nameOf = (span) => span.call && span.call !== span.name ? `${span.call} (${span.name})` : span.name;

/** @param {DancedSpan} span */
export const callOf = (span) => span.call || span.name;

/**
 * A dancer's number and name.
 * @param {number} dancer from 0
 */
export const personOf = (dancer) => dance.names[dancer] ? `${dancer + 1}, ${dance.names[dancer]}` : `${dancer + 1}`;
