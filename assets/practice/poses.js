// Where a dancer is at a count, which way they face, on which foot and with hands where.
import { fliesAt } from "./bodies.js";
import { dance, spanAt } from "./dance.js";
import { between, feetOf, readFall, straight, wayOf } from "./decode.js";

/** What `lands` of a fall says. */
export const WEIGHTS = ["left", "right", "both", "air"];

/**
 * What fell last at a count, what comes next in the figure, and how far it is between them.
 * @param {number} dancer
 * @param {number} count
 * @returns {{ now: Fall, next: Fall | null, share: number }}
 */
export function fallAt(dancer, count) {
  const span = dance.spans[spanAt(count)];
  const bytes = feetOf(span, dancer);
  const last = bytes.length / 4 - 1;
  const index = Math.min(Math.floor(count - span.begin), last);
  return {
    now: readFall(bytes, index),
    next: index < last ? readFall(bytes, index + 1) : null,
    share: Math.min(count - span.begin - index, 1),
  };
}

/**
 * What carries the weight of a dancer who is not in the air: between counts before a jump to slow music still what landed last.
 * @param {number} dancer
 * @param {number} count
 * @param {number} lands what the count itself says
 */
function carriedBy(dancer, count, lands) {
  let before = Math.floor(count);
  let landed = lands;
  while (landed === 3 && before > 0 && count > Math.floor(count) && dance.bodies) landed = fallAt(dancer, --before).now.lands;
  return landed;
}

/**
 * A dancer at a count.
 * @param {number} dancer from 0
 * @param {number} count
 * @returns {Pose}
 */
export function poseOf(dancer, count) {
  const span = dance.spans[spanAt(count)];
  const way = wayOf(span, dancer);
  const local = count - span.begin;
  const cell = Math.min(Math.floor(local), way.length - 1);
  const share = local - cell;
  const [x, y] = between(way[cell].places, share, (from, to, part) =>
    [straight(from[0], to[0], part), straight(from[1], to[1], part)]);
  const facing = between(way[cell].facings, share, straight) / dance.facingParts;
  const { now, next, share: fallen } = fallAt(dancer, count);
  // Without its body, half-way to a hop or a jump.
  const lifted = fliesAt(dancer, count) ?? (fallen > 0.5 && next !== null && (next.hop || next.lands === 3));
  const [left, right] = [0, 1].map((hand) =>
    next ? straight(now.hands[hand], next.hands[hand], fallen) : now.hands[hand]);
  return {
    number: dancer + 1,
    x: x / dance.placeParts,
    y: y / dance.placeParts,
    facing: ((facing % 360) + 360) % 360,
    weight: WEIGHTS[lifted ? 3 : carriedBy(dancer, count, now.lands)],
    step: dance.steps[now.step][0],
    left_hand: left,
    right_hand: right,
  };
}

/**
 * Everyone at a count.
 * @param {number} count
 */
export const poses = (count) => Array.from({ length: dance.dancers }, (_, dancer) => poseOf(dancer, count));
