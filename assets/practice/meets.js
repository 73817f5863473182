// Where and when sticks and hands meet, and the mark on the floor while they do.
import { dance, lastBegun } from "./dance.js";
import { ink, pen } from "./pen.js";

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
 * Marks what meets at a count, or has met just before it: a star, aslant for hands.
 * @param {Frame} frame
 * @param {number} count
 */
export function drawMeets(frame, count) {
  if (meets.length === 0) return;
  const size = Math.min(Math.max(frame.scale * 0.13, 6), 15);
  for (let index = lastBegun(countsOfMeets, count + 1e-3); index >= 0; index--) {
    const { count: at, x, y, wood } = meets[index];
    if (at > count + 1e-3) continue;
    if (at <= count - STAYS) break;
    const [right, down] = frame.place(x, y);
    const turn = wood ? 0 : Math.PI / 4;
    pen.beginPath();
    for (let corner = 0; corner < 8; corner++) {
      const far = corner % 2 ? size * 0.36 : size;
      pen.lineTo(right + far * Math.cos(turn + (corner * Math.PI) / 4), down + far * Math.sin(turn + (corner * Math.PI) / 4));
    }
    pen.closePath();
    pen.fillStyle = ink.words;
    pen.fill();
    pen.strokeStyle = ink.outline;
    pen.lineWidth = 1;
    pen.stroke();
  }
}
