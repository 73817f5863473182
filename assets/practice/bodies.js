// The bodies of the dancers in space, unpacked from the page's bytes when they are first looked at. `bodies.rs` in
// `src/handout/page` packs them, and `tests/page_bodies.rs` follows the arithmetic here: whoever changes one changes all.
import { barAt, beginOf, counts, dance } from "./dance.js";
import { between, bytesOf, reader, straight } from "./decode.js";

/** How many numbers each group of a body has: the trunk, two feet, two arms, and two sticks where some strike. */
const groups = dance.bodies ? dance.bodies.groups : [];
const numbersOfAll = groups.reduce((sum, numbers) => sum + numbers, 0);
/** Parts of a count in which it is kept when a foot takes the weight or gives it up. */
const FINEST = 16;

/**
 * The kinds of cells: what goes with the group first, and how each of its numbers changes from its first value.
 * @type {BodyCell[]}
 */
const cells = [];
/**
 * The cells of each kind of bar.
 * @type {number[][]}
 */
const passages = [];
/** @type {Map<number, BodyWay>} */
const keptWays = new Map();

/**
 * Unpacks what all dancers share, once.
 * @param {PageBodies} bodies
 */
function unpackShared(bodies) {
  const packed = reader(bytesOf(bodies.passages));
  while (packed.more()) passages.push(Array.from({ length: packed.number() }, packed.number));
  // What a cell is of is told by where it is first used: they stand one after the other without a mark between them.
  /** @type {number[]} */
  const ofCells = [];
  for (const passage of passages) {
    passage.forEach((cell, index) => { ofCells[cell] = index % groups.length; });
  }
  const bytes = reader(bytesOf(bodies.cells));
  for (const group of ofCells) cells.push(unpackCell(bytes, group));
}

/**
 * @param {ByteReader} bytes
 * @param {number} group
 * @returns {BodyCell}
 */
function unpackCell(bytes, group) {
  const head = group > 2 ? 0 : group === 0 ? bytes.number() : bytes.byte();
  const flies = group === 0 ? bytes.number() : 0;
  /** @type {number[]} */
  const levels = [];
  while (levels.length < groups[group]) {
    const pair = bytes.byte();
    levels.push(pair & 15, pair >> 4);
  }
  const ways = levels.slice(0, groups[group]).map((level) => {
    const way = [0];
    for (let part = 0; part < (level ? 1 << (level - 1) : 0); part++) way.push(way[part] + bytes.number());
    return way;
  });
  return { head, flies, ways };
}

/**
 * How a dancer's body goes through the dance.
 * @param {PageBodies} bodies
 * @param {number} dancer
 * @returns {BodyWay}
 */
function wayOfBody(bodies, dancer) {
  const known = keptWays.get(dancer);
  if (known) return known;
  if (passages.length === 0) unpackShared(bodies);
  const bytes = reader(bytesOf(bodies.ways[dancer]));
  const values = new Int32Array((counts + 1) * numbersOfAll);
  for (let number = 0; number < numbersOfAll; number++) values[number] = bytes.number();
  const bars = [];
  for (let bar = 0; bar < dance.bars; bar++) {
    const passage = passages[bytes.number()];
    bars.push(passage);
    passage.forEach((cell, index) => {
      const count = beginOf(bar) + Math.floor(index / groups.length);
      const first = firstOf(index % groups.length);
      cells[cell].ways.forEach((way, number) => {
        const at = count * numbersOfAll + first + number;
        values[at + numbersOfAll] = values[at] + way[way.length - 1];
      });
    });
  }
  const made = { bars, values };
  keptWays.set(dancer, made);
  return made;
}

/**
 * The first number of a group.
 * @param {number} group
 */
const firstOf = (group) => groups.slice(0, group).reduce((sum, numbers) => sum + numbers, 0);

/**
 * The cell of a group on a count.
 * @param {BodyWay} way
 * @param {number} count a whole one
 * @param {number} group
 */
function cellOn(way, count, group) {
  const bar = barAt(count);
  return cells[way.bars[bar][(count - beginOf(bar)) * groups.length + group]];
}

/**
 * How long after a whole count a picture of it alone is taken, counts: a hop is then at its top, before the count.
 * @param {number} dancer
 * @param {number} count
 */
export function topOf(dancer, count) {
  const { bodies } = dance;
  if (!bodies || count >= counts) return 0;
  return cellOn(wayOfBody(bodies, dancer), count, 0).head / bodies.topParts;
}

/**
 * Whether a dancer is in the air at a count, and not on a whole one; nothing where the page has no bodies.
 * @param {number} dancer
 * @param {number} count
 */
export function fliesAt(dancer, count) {
  const { bodies } = dance;
  const whole = Math.floor(count);
  if (!bodies || count >= counts) return null;
  return count > whole && (count - whole) * bodies.topParts > cellOn(wayOfBody(bodies, dancer), whole, 0).flies;
}

/**
 * A dancer's body at a count, as it has itself: metres to the right, to the front and up from where it stands.
 * @param {number} dancer
 * @param {number} count
 * @returns {EyeBody | null}
 */
export function bodyOf(dancer, count) {
  const { bodies } = dance;
  if (!bodies) return null;
  const way = wayOfBody(bodies, dancer);
  const whole = Math.min(Math.floor(count), counts - 1);
  const share = count - whole;
  const found = groups.map((_, group) => cellOn(way, whole, group));
  /** @type {number[]} */
  const numbers = [];
  for (const { ways } of found) {
    for (const changes of ways) {
      const at = whole * numbersOfAll + numbers.length;
      numbers.push((way.values[at] + between(changes, share, straight)) / bodies.parts);
    }
  }
  /**
   * @param {number} first
   * @param {Place} from
   * @param {number} [out] -1 for what is kept out to the left
   * @returns {Place}
   */
  const place = (first, from, out = 1) =>
    [from[0] + numbers[first] * out, from[1] + numbers[first + 1], from[2] + numbers[first + 2]];
  /** @type {[number, number]} */
  const sides = [-1, 1];
  const middle = place(0, [0, 0, 0]);
  const chest = place(3, middle);
  const crown = place(6, chest);
  const hips = both((side) => beside(middle, sides[side] * bodies.hip));
  const shoulders = both((side) => beside(chest, sides[side] * bodies.shoulder));
  const feet = both((side) => place(9 + 3 * side, [0, 0, 0], sides[side]));
  const hands = both((side) => place(15 + 6 * side, shoulders[side], sides[side]));
  const elbows = both((side) => place(18 + 6 * side, shoulders[side], sides[side]));
  const knees = both((side) => jointOf(hips[side], feet[side], bodies.leg));
  const carries = both((side) => {
    const { head } = found[1 + side];
    const first = head % 2 === 1;
    return share * FINEST < Math.floor(head / 2) ? first : !first;
  });
  const sticks = groups.length > 5 ? both((side) => place(27 + 3 * side, [0, 0, 0], sides[side])) : null;
  return { middle, chest, crown, hips, knees, feet, shoulders, elbows, hands, carries, sticks };
}

/**
 * The left and the right of something.
 * @template Value
 * @param {(side: number) => Value} make
 * @returns {[Value, Value]}
 */
export const both = (make) => [make(0), make(1)];

/**
 * @param {Place} place
 * @param {number} aside
 * @returns {Place}
 */
const beside = ([x, y, z], aside) => [x + aside, y, z];

/**
 * Where a knee is, which bends to the front: the same rule of two bones as the program's.
 * @param {Place} hip
 * @param {Place} foot
 * @param {[number, number]} bones
 * @returns {Place}
 */
function jointOf(hip, foot, [upper, lower]) {
  const way = foot.map((value, axis) => value - hip[axis]);
  const length = Math.max(Math.hypot(...way), 1e-9);
  const apart = Math.min(Math.max(length, Math.abs(upper - lower) + 1e-6), upper + lower - 1e-6);
  const along = (upper * upper - lower * lower + apart * apart) / (2 * apart);
  const aside = Math.sqrt(Math.max(upper * upper - along * along, 0));
  const unit = way.map((value) => value / length);
  // What of the way to the front lies across the leg.
  const across = [0, 1, 0].map((value, axis) => value - unit[axis] * unit[1]);
  const wide = Math.hypot(...across) || 1;
  const [x, y, z] = hip.map((value, axis) => value + unit[axis] * along + (across[axis] / wide) * aside);
  return [x, y, z];
}
