// Bodies in space: where they are on the floor and over it.
import { bodyOf } from "./bodies.js";
import { poseOf } from "./poses.js";

/**
 * A way as the floor has it, of a body that faces so.
 * @param {Place} way
 * @param {number} facing degrees
 * @returns {Place}
 */
function onFloor([x, y, z], facing) {
  const [sin, cos] = sinCos(facing);
  return [x * cos + y * sin, y * cos - x * sin, z];
}

/**
 * The sine and the cosine of an angle.
 * @param {number} degrees
 * @returns {[number, number]}
 */
export const sinCos = (degrees) => [Math.sin((degrees * Math.PI) / 180), Math.cos((degrees * Math.PI) / 180)];

/**
 * Where the hands of a dancer are on the floor and over it.
 * @param {number} dancer
 * @param {number} count
 */
const handsOf = (dancer, count) => (spaceOf(dancer, count) ?? { hands: null }).hands;

/**
 * A dancer's body in space, with the names that `bellpad pose` prints.
 * @param {number} dancer
 * @param {number} count
 */
export function spaceOf(dancer, count) {
  const body = bodyOf(dancer, count);
  if (!body) return null;
  const { x, y, facing } = poseOf(dancer, count);
  /** @param {Place} place */
  const there = (place) => {
    const [right, up, z] = onFloor(place, facing);
    return { x: x + right, y: y + up, z };
  };
  /** @param {[Place, Place]} places */
  const pair = ([left, right]) => ({ left: there(left), right: there(right) });
  return {
    feet: pair(body.feet),
    hands: pair(body.hands),
    shoulders: pair(body.shoulders),
    hips: pair(body.hips),
    carries: body.carries,
  };
}

/**
 * How far each hand has moved from one count to another, as the body has it at the second.
 * @param {number} dancer
 * @param {number} from
 * @param {number} count
 * @returns {[Place, Place]}
 */
export function movedHands(dancer, from, count) {
  const [then, now] = [handsOf(dancer, from), handsOf(dancer, count)];
  if (!then || !now) return [[0, 0, 0], [0, 0, 0]];
  const [sin, cos] = sinCos(poseOf(dancer, count).facing);
  /**
   * @param {{ x: number, y: number, z: number }} one
   * @param {{ x: number, y: number, z: number }} other
   * @returns {Place}
   */
  const own = (one, other) => {
    const [x, y] = [other.x - one.x, other.y - one.y];
    return [x * cos - y * sin, x * sin + y * cos, other.z - one.z];
  };
  return [own(then.left, now.left), own(then.right, now.right)];
}
