// The dance that the page holds: its figures by count, and what they and the dancers are called.
import { find } from "./parts.js";

/** @type {PageDance} */
export const dance = JSON.parse(find("dance").textContent ?? "");

/** The count at which each bar begins, and the end. */
const begins = [0];
/** @type {number[][]} */
const sharesOf = [];
for (const [bars, shares] of dance.runs) {
  for (let bar = 0; bar < bars; bar++) {
    sharesOf.push(shares);
    begins.push(begins[begins.length - 1] + shares.length - 1);
  }
}

/** How many counts the dance has. */
export const counts = begins[begins.length - 1];

/**
 * The index of the last of some numbers, which grow, that is not above another: the first where all are.
 * @param {number[]} numbers
 * @param {number} value
 */
export function lastBegun(numbers, value) {
  let begun = 0;
  let beyond = numbers.length;
  while (beyond - begun > 1) {
    const middle = Math.floor((begun + beyond) / 2);
    if (numbers[middle] <= value) begun = middle;
    else beyond = middle;
  }
  return begun;
}

/**
 * The bar, from 0, that a count is in; the end is in the last one.
 * @param {number} count
 */
export const barAt = (count) => Math.min(lastBegun(begins, count), begins.length - 2);

/**
 * The count at which a bar begins.
 * @param {number} bar from 0; beyond the last one, the end
 */
export const beginOf = (bar) => begins[Math.min(bar, begins.length - 1)];

/**
 * How many counts a bar has.
 * @param {number} bar from 0; beyond the last one as that
 */
export const countsOfBar = (bar) => barShares(bar).length - 1;

/**
 * The count at the same place in the next bar, or in the one before; the last count of it where it has not so many.
 * @param {number} count a whole one
 * @param {number} way 1 or -1
 */
export function aBarOn(count, way) {
  // The end is the beginning of a bar that is not danced.
  const bar = count < counts ? barAt(count) : begins.length - 1;
  const wanted = bar + way;
  if (wanted < 0 || wanted > begins.length - 1) return way > 0 ? counts : 0;
  return beginOf(wanted) + Math.min(count - beginOf(bar), countsOfBar(wanted) - 1);
}

/**
 * When the counts of a bar fall, and its end: parts of the bar.
 * @param {number} bar from 0; beyond the last one as that
 */
export const barShares = (bar) => sharesOf[Math.max(Math.min(bar, sharesOf.length - 1), 0)];

/**
 * Which figure a count is in: the last one that has begun, looked for by halves.
 * @param {number} count
 */
export function spanAt(count) {
  let begun = 0;
  let beyond = dance.spans.length;
  while (beyond - begun > 1) {
    const middle = Math.floor((begun + beyond) / 2);
    if (dance.spans[middle].begin <= count) begun = middle;
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
