// Where and when sticks and hands meet, the mark on the floor while they do, and the hands on their way there.
import { dance, lastBegun } from "./dance.js";
import { ink, pen } from "./pen.js";

/** How long before and after it a meeting is seen, counts. */
const SEEN = 0.5;
/** How many numbers there are for each. */
const EACH = 11;

/** @returns {Meet[]} */
function readMeets() {
  /** @type {Meet[]} */
  const list = [];
  for (let place = 0; place < dance.meets.length; place += EACH) {
    const [count, until, x, y, kind, ...hands] = dance.meets.slice(place, place + EACH);
    const both = [hands.slice(0, 3), hands.slice(3)].filter(([dancer]) => dancer >= 0);
    list.push({
      count: count / 1000,
      until: until / 1000,
      x: x / 1000,
      y: y / 1000,
      wood: kind !== 2 && kind !== 3,
      elsewhere: kind > 2,
      hands: both.map(([dancer, hand, end]) => ({ dancer, hand, end: end / 1000 })),
    });
  }
  return list;
}

const meets = readMeets();
const countsOfMeets = meets.map(({ count }) => count);
/** The longest that any stay together, counts. */
const longest = meets.reduce((most, { count, until }) => Math.max(most, until - count), 0);

/**
 * How much of a meeting is seen at a count, from 0 to 1.
 * @param {Meet} meet
 * @param {number} count
 */
const shareOf = ({ count: at, until }, count) => Math.max(1 - Math.max(at - count, count - until, 0) / SEEN, 0);

/**
 * What meets about a count, with how much of it is seen.
 * @param {number} count
 * @returns {[Meet, number][]}
 */
function meetsAt(count) {
  /** @type {[Meet, number][]} */
  const found = [];
  if (meets.length === 0) return found;
  for (let index = lastBegun(countsOfMeets, count + SEEN); index >= 0; index--) {
    if (meets[index].count < count - SEEN - longest) break;
    const share = shareOf(meets[index], count);
    if (share > 0) found.push([meets[index], share]);
  }
  return found;
}

/**
 * The hands that strike about a count, by whose they are: left and right.
 * @param {number} count
 */
export function reachesAt(count) {
  /** @type {Map<number, [Reach | null, Reach | null]>} */
  const all = new Map();
  for (const [meet, seen] of meetsAt(count)) {
    const share = seen * seen * (3 - 2 * seen);
    for (const { dancer, hand, end } of meet.hands) {
      const own = all.get(dancer) ?? [null, null];
      if ((own[hand]?.share ?? 0) < share) own[hand] = { x: meet.x, y: meet.y, end, share, wood: meet.wood, elsewhere: meet.elsewhere };
      all.set(dancer, own);
    }
  }
  return all;
}

/**
 * A star, aslant for hands.
 * @param {[number, number]} at
 * @param {number} size
 * @param {boolean} wood
 * @param {number} share how much of it is seen
 */
export function drawStar([right, down], size, wood, share) {
  const turn = wood ? 0 : Math.PI / 4;
  pen.globalAlpha = share;
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
  pen.globalAlpha = 1;
}

/**
 * Marks what meets about a count.
 * @param {Frame} frame
 * @param {number} count
 */
export function drawMeets(frame, count) {
  const size = Math.min(Math.max(frame.scale * 0.13, 6), 15);
  for (const [{ x, y, wood }, share] of meetsAt(count)) drawStar(frame.place(x, y), size, wood, share);
}
