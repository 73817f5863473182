// What everyone does, unpacked from the page's bytes when it is first needed. `src/handout/page` packs it, in `moves.rs`
// and `feet.rs`, and `tests/page.rs` follows the arithmetic here: whoever changes one changes all.
import { dance } from "./dance.js";

/** @type {Map<number, Uint8Array>} */
const keptFeet = new Map();
/** @type {Map<number, Cell[]>} */
const keptMoves = new Map();

/**
 * Bytes from text in base 64.
 * @param {string} text
 */
export const bytesOf = (text) => Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0));

/**
 * Reads bytes one after the other: as they are, or as whole numbers in sevens of bits.
 * @param {Uint8Array} bytes
 * @returns {ByteReader}
 */
export function reader(bytes) {
  let at = 0;
  const number = () => {
    let value = 0;
    let scale = 1;
    for (;;) {
      const byte = bytes[at++];
      value += (byte & 127) * scale;
      if (byte < 128) break;
      scale *= 128;
    }
    return value % 2 ? -(value + 1) / 2 : value / 2;
  };
  return { number, byte: () => bytes[at++], more: () => at < bytes.length };
}

/**
 * A way through a figure: the place and the facing at the start of each count, and the parts in between.
 * @param {string} text
 * @param {number} length counts
 * @returns {Cell[]}
 */
function unpackMoves(text, length) {
  const { byte, number } = reader(bytesOf(text));
  let x = number();
  let y = number();
  let facing = number();
  /** @type {Cell[]} */
  const way = [];
  for (let count = 0; count < length; count++) {
    const levels = byte();
    const places = levels & 15 ? 1 << ((levels & 15) - 1) : 0;
    const facings = levels >> 4 ? 1 << ((levels >> 4) - 1) : 0;
    /** @type {Cell} */
    const cell = { places: [[x, y]], facings: [facing] };
    for (let part = 0; part < places; part++) cell.places.push([(x += number()), (y += number())]);
    for (let part = 0; part < facings; part++) cell.facings.push((facing += number()));
    way.push(cell);
  }
  return way;
}

/**
 * What is kept at an index, unpacked the first time.
 * @template Unpacked
 * @param {Map<number, Unpacked>} store
 * @param {number} index
 * @param {(text: string) => Unpacked} unpack
 * @returns {Unpacked}
 */
function kept(store, index, unpack) {
  const found = store.get(index);
  if (found !== undefined) return found;
  const made = unpack(dance.blobs[index]);
  store.set(index, made);
  return made;
}

/**
 * A dancer's way through a figure.
 * @param {DancedSpan} span
 * @param {number} dancer
 */
export const wayOf = (span, dancer) =>
  kept(keptMoves, dance.played[span.played].moves[dancer], (text) => unpackMoves(text, span.counts));

/**
 * A dancer's steps through a figure, four bytes a count.
 * @param {DancedSpan} span
 * @param {number} dancer
 */
export const feetOf = (span, dancer) => kept(keptFeet, dance.played[span.played].feet[dancer], bytesOf);

/**
 * What falls on a count of those steps.
 * @param {Uint8Array} bytes
 * @param {number} index the count
 * @returns {Fall}
 */
export function readFall(bytes, index) {
  const [marks, step, left, right] = bytes.subarray(index * 4, index * 4 + 4);
  return {
    lands: marks & 3,
    hop: (marks & 4) > 0,
    begins: (marks & 8) > 0,
    step,
    hands: [left / dance.handParts, right / dance.handParts],
  };
}

/**
 * Part of the way from one number to another.
 * @param {number} from
 * @param {number} to
 * @param {number} share 0 to 1
 */
export const straight = (from, to, share) => from + (to - from) * share;

/**
 * Between the two values on both sides, in a list that goes from 0 to 1.
 * @template Value
 * @param {Value[]} list
 * @param {number} share
 * @param {(from: Value, to: Value, share: number) => Value} mix
 * @returns {Value}
 */
export function between(list, share, mix) {
  const parts = list.length - 1;
  if (parts === 0) return list[0];
  const part = Math.min(Math.floor(share * parts), parts - 1);
  return mix(list[part], list[part + 1], share * parts - part);
}
