// Where and when sticks and hands meet, and the mark on the floor while they do.
import { dance, lastBegun } from "./dance.js";
import { ink, line, pen } from "./pen.js";

/** How long a mark stays, counts. */
const STAYS = 0.75;

/** @returns {Meet[]} */
function readMeets() {
  /** @type {Meet[]} */
  const list = [];
  for (let place = 0; place < dance.meets.length; place += 4) {
    const [count, x, y, kind] = dance.meets.slice(place, place + 4);
    list.push({ count: count / 1000, x: x / 1000, y: y / 1000, wood: kind !== 2 });
  }
  return list;
}

const meets = readMeets();
const countsOfMeets = meets.map(({ count }) => count);

/**
 * Marks what meets at a count, or has met just before it: a cross for sticks, a ring for hands.
 * @param {Frame} frame
 * @param {number} count
 */
export function drawMeets(frame, count) {
  if (meets.length === 0) return;
  const size = Math.min(Math.max(frame.scale * 0.1, 5), 12);
  for (let index = lastBegun(countsOfMeets, count + 1e-3); index >= 0; index--) {
    const { count: at, x, y, wood } = meets[index];
    if (at > count + 1e-3) continue;
    if (at <= count - STAYS) break;
    const [right, down] = frame.place(x, y);
    if (wood) {
      for (const [colour, width] of /** @type {[string, number][]} */ ([[ink.floor, 6], [ink.words, 2.5]])) {
        line([[right - size, down - size], [right + size, down + size]], colour, width);
        line([[right - size, down + size], [right + size, down - size]], colour, width);
      }
    } else {
      pen.beginPath();
      pen.arc(right, down, size * 0.8, 0, Math.PI * 2);
      pen.fillStyle = ink.floor;
      pen.fill();
      pen.strokeStyle = ink.words;
      pen.lineWidth = 2.5;
      pen.stroke();
    }
  }
}
