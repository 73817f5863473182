// One body at eye level, as the program's own pictures have it (`eye_level.rs`); the sizes come with the dance.
import { bodyOf, both, topOf } from "./bodies.js";
import { countOf, secondsOf } from "./clock.js";
import { dance, personOf } from "./dance.js";
import { picture } from "./frame.js";
import { drawStar, reachesAt } from "./meets.js";
import { area, block, ink, line, oval, pen, words } from "./pen.js";
import { poseOf } from "./poses.js";
import { movedHands, sinCos } from "./space.js";
import { shown, state } from "./state.js";

/** What a hand holds trails behind where the hand was so long ago, seconds. */
const TRAIL = 0.07;
/** A tick on the floor each so many metres, so that travelling is seen. */
const TICKS = 0.5;
/** Which way the eye looks at the body, degrees clockwise from where it faces, and how that is told. */
const LOOKS = { front: 180, behind: 0, side: -90 };
const FROM = { front: "facing you", behind: "from behind", side: "from the right side" };

/** Whom the picture at eye level is of: the chosen dancer, or the first. */
export const lookedAt = () => state.chosen ?? 0;

/** From where they are seen, in words. */
export const fromWords = () => (state.seen === "above" ? "from above" : FROM[state.seen]);

/**
 * The count that is drawn: a whole one by itself with a hop or a jump at its top.
 * @param {number} dancer
 */
function drawnCount(dancer) {
  const count = shown();
  const alone = !state.playing || state.byCounts;
  return alone && Number.isInteger(count) ? count + topOf(dancer, count) : count;
}

/**
 * The colour of what is on the far side: so much of one, the rest of the other.
 * @param {string} one
 * @param {string} other
 */
function mixed(one, other) {
  const parts = [1, 3, 5].map((at) => {
    const [near, far] = [one, other].map((colour) => parseInt(colour.slice(at, at + 2), 16));
    return Math.round(near * 0.55 + far * 0.45);
  });
  return `rgb(${parts.join(" ")})`;
}

/**
 * Some share of the way from one place to another.
 * @param {Place} one
 * @param {Place} other
 * @param {number} share
 * @returns {Place}
 */
function toward(one, other, share) {
  const [x, y, z] = one.map((value, axis) => value + (other[axis] - value) * share);
  return [x, y, z];
}

/**
 * Bones with round ends and joints.
 * @param {number[][]} points pixels
 * @param {number} width pixels
 * @param {string} colour
 */
function bones(points, width, colour) {
  pen.lineCap = "round";
  pen.lineJoin = "round";
  line(points, colour, width);
  pen.lineCap = "butt";
  pen.lineJoin = "miter";
}

/** Draws the dancer who is looked at. */
export function drawAtEyeLevel() {
  const dancer = lookedAt();
  const count = drawnCount(dancer);
  const body = bodyOf(dancer, count);
  if (!body || state.seen === "above") return;
  const [wide, high] = [picture.clientWidth, picture.clientHeight];
  const scale = Math.max(Math.min((high - 42) / dance.eye.tall, wide / 1.5), 0);
  const floor = high - 12;
  drawGround(dancer, count, body.middle, scale, floor);
  const before = Math.min(Math.max(countOf(Math.max(secondsOf(count) - TRAIL, 0)), 0), count);
  const view = viewOf(body, scale, [wide / 2, floor]);
  drawBody(view, body, movedHands(dancer, before, count), [dancer, count]);
  const who = state.chosen === null ? `${personOf(dancer)} (nobody chosen)` : personOf(dancer);
  words(`${who}, ${fromWords()}`, [wide / 2, 14], 14, ink.quiet);
}

/**
 * The star of what a body strikes about a count, where the end is that meets: those on the far side of the body, or the others.
 * @param {EyeView} view
 * @param {EyeBody} body
 * @param {[dancer: number, count: number]} when
 * @param {boolean} far
 */
function drawStruck({ place, away, scale }, { hands, sticks }, [dancer, count], far) {
  reachesAt(count).get(dancer)?.forEach((reach, side) => {
    if (!reach) return;
    const along = sticks ? sticks[side] : CARRIED;
    const [x, y, z] = hands[side].map((value, axis) => value + along[axis] * reach.end);
    if (away([x, y, z]) > 0.03 !== far) return;
    drawStar(place([x, y, z]), Math.max(0.12 * scale, 6), reach.wood, reach.share);
  });
}

/**
 * The floor, with ticks that stay where they are on it.
 * @param {number} dancer
 * @param {number} count
 * @param {Place} middle of the body
 * @param {number} scale
 * @param {number} floor pixels from the top
 */
function drawGround(dancer, count, middle, scale, floor) {
  if (state.seen === "above" || scale === 0) return;
  const wide = picture.clientWidth;
  const { x, y, facing } = poseOf(dancer, count);
  const [turned, straightOn] = sinCos(LOOKS[state.seen]);
  const [sin, cos] = sinCos(facing + LOOKS[state.seen]);
  // How far to the right of the middle of the floor the middle of the picture is.
  const along = x * cos - y * sin + middle[0] * straightOn - middle[1] * turned;
  line([[0, floor], [wide, floor]], ink.quiet, 1.5);
  for (let tick = Math.ceil((along - wide / 2 / scale) / TICKS) * TICKS; ; tick += TICKS) {
    const right = wide / 2 + (tick - along) * scale;
    if (right > wide) break;
    line([[right, floor], [right, floor + 5]], ink.quiet, 1.5);
  }
}

/**
 * From a body's own places to the picture.
 * @param {EyeBody} body
 * @param {number} scale
 * @param {[number, number]} ground where the middle of the body stands, pixels
 * @returns {EyeView}
 */
function viewOf({ middle }, scale, [right, floor]) {
  const [sin, cos] = sinCos(state.seen === "above" ? 0 : LOOKS[state.seen]);
  return {
    scale,
    place: ([x, y, z]) => [
      right + ((x - middle[0]) * cos - (y - middle[1]) * sin) * scale,
      floor - z * scale,
    ],
    away: ([x, y]) => (x - middle[0]) * sin + (y - middle[1]) * cos,
    right: [cos, -sin, 0],
  };
}

/** How broad the edge is that parts an arm from the head, metres. */
const EDGE = 0.014;

/**
 * Whether the forearm or the hand on a side is seen before the head.
 * @param {EyeView} view
 * @param {EyeBody} body
 * @param {number} side
 */
function beforeHead({ place, scale }, { crown: [x, y, z], elbows, hands }, side) {
  const { head, hand } = dance.eye;
  const [right, down] = place([x, y, z - head]);
  return [0, 1, 2, 3, 4, 5, 6, 7, 8].some((part) => {
    const at = place(toward(elbows[side], hands[side], part / 8));
    return Math.hypot(at[0] - right, at[1] - down) < (head * 1.08 + hand) * scale;
  });
}

/**
 * Head, trunk, arms and legs; the far leg and arm fainter; the foot that carries the weight filled; bells on the shins, and
 * handkerchiefs or a stick in the hands. What they strike is behind them where it is, and never over the number.
 * @param {EyeView} view
 * @param {EyeBody} body
 * @param {[Place, Place]} trails
 * @param {[dancer: number, count: number]} when
 */
function drawBody(view, body, trails, when) {
  const { eye } = dance;
  const [dancer] = when;
  const hue = dancer % 2 ? ink.even : ink.odd;
  /** @param {Place} place */
  const far = (place) => view.away(place) > 0.03;
  const colours = both((side) => (far(body.hips[side]) ? mixed(ink.words, ink.floor) : ink.words));
  // The one farther away first.
  const order = view.away(body.hips[0]) > view.away(body.hips[1]) ? [0, 1] : [1, 0];
  // An arm that hangs behind the trunk, or on the far side of it, goes under it.
  const under = both((side) => far(toward(body.elbows[side], body.hands[side], 0.5)));
  /** @param {number} side */
  const arm = (side) => {
    drawHeld(view, body, trails[side], holdsStick(body, dancer, side), side, hue);
    const joints = [body.shoulders[side], body.elbows[side], body.hands[side]];
    if (!under[side] && beforeHead(view, body, side)) {
      // Both are of one colour: an edge of the floor's parts them.
      bones(joints.slice(1).map(view.place), (eye.arm + 2 * EDGE) * view.scale, ink.floor);
      const wide = (eye.hand + EDGE) * view.scale;
      oval(view.place(body.hands[side]), [wide, wide], ink.floor);
    }
    bones(joints.map(view.place), eye.arm * view.scale, colours[side]);
    oval(view.place(body.hands[side]), [eye.hand * view.scale, eye.hand * view.scale], colours[side]);
  };
  order.filter((side) => under[side]).forEach(arm);
  drawStruck(view, body, when, true);
  for (const side of order) drawLeg(view, body, side, colours[side]);
  drawTrunk(view, body, hue);
  drawHead(view, body);
  order.filter((side) => !under[side]).forEach(arm);
  drawStruck(view, body, when, false);
  const at = view.place(toward(body.middle, body.chest, 0.6));
  const radius = 0.085 * view.scale;
  oval(at, [radius, radius], ink.outline);
  words(String(dancer + 1), at, radius * (dancer > 8 ? 1.1 : 1.5), ink.number, true);
}

/**
 * @param {EyeView} view
 * @param {EyeBody} body
 * @param {number} side
 * @param {string} colour
 */
function drawLeg({ place, scale }, { hips, knees, feet, carries }, side, colour) {
  const { eye } = dance;
  const [x, y, z] = feet[side];
  const knee = knees[side];
  /** @type {Place} */
  const ankle = [x, y, z + eye.sole];
  bones([hips[side], knee, ankle].map(place), eye.leg * scale, colour);
  const bell = 0.02 * scale;
  for (const share of bell >= 1 ? [0.42, 0.56, 0.7] : []) {
    oval(place(toward(knee, ankle, share)), [bell, bell], eye.bell, ink.outline, Math.max(0.006 * scale, 0.5));
  }
  // The toe at a right angle to the leg; so near to the floor it is flat.
  const leans = Math.min(Math.max(Math.atan2(y - knee[1], knee[2] - z), -1), 1) * Math.min(Math.max(z / 0.1, 0), 1);
  /**
   * @param {number} metres
   * @returns {Place}
   */
  const along = (metres) => [x, y + metres * Math.cos(leans), z + metres * Math.sin(leans) + eye.sole / 2];
  const foot = [along(eye.foot[0] + eye.sole / 2), along(eye.foot[1] - eye.sole / 2)].map(place);
  bones(foot, eye.sole * scale, colour);
  if (!carries[side]) bones(foot, (eye.sole - 0.03) * scale, ink.floor);
}

/**
 * @param {EyeView} view
 * @param {EyeBody} body
 * @param {string} hue
 */
function drawTrunk({ place, scale }, { middle, chest, shoulders }, hue) {
  const [top, low] = [place(chest), place(middle)];
  const across = Math.abs(place(shoulders[0])[0] - place(shoulders[1])[0]) / scale;
  // From 0.18 m seen from the side to 0.36 m seen from the front.
  const half = 0.09 + (across / 0.4) * 0.09;
  const [right, up] = [top[0] - low[0], low[1] - top[1]];
  pen.save();
  pen.translate((top[0] + low[0]) / 2, (top[1] + low[1]) / 2);
  pen.rotate(Math.atan2(right, up));
  const radii = [half * scale, Math.hypot(right, up) / 2 + 0.06 * scale];
  block(radii, 0.085 * scale, hue, ink.outline, Math.max(0.008 * scale, 0.5));
  pen.restore();
}

/**
 * @param {EyeView} view
 * @param {EyeBody} body
 */
function drawHead({ place, away, scale }, { crown }) {
  const { head } = dance.eye;
  const [x, y, z] = crown;
  /**
   * @param {number} front
   * @param {number} up
   * @param {number} [aside]
   * @returns {Place}
   */
  const part = (front, up, aside = 0) => [x + aside, y + front, z - head + up];
  const tip = part(head + 0.055, -0.01);
  area([part(head * 0.8, 0.035), tip, part(head * 0.8, -0.05)].map(place), ink.words);
  oval(place(part(0, 0)), [head * scale, head * 1.08 * scale], ink.words);
  if (away(tip) >= away(part(0, 0)) - 0.06) return;
  for (const aside of [-0.042, 0.042]) {
    oval(place(part(head * 0.9, 0.025, aside)), [0.014 * scale, 0.014 * scale], ink.floor);
  }
}

/** How far a handkerchief hangs down for each that it is away from the hand, and how much of that a falling hand lifts, metres. */
const HANGS = 0.1;
const LIFTS = 0.02;

/**
 * Which way a handkerchief hangs from a hand that has moved so far of late, as in `held.rs`: it trails behind the hand, and never
 * flies round.
 * @param {Place} trail
 */
function hangsFrom(trail) {
  const [x, y, z] = trail.map((value) => value * -0.9);
  const hangs = [x, y, (z > 0 ? LIFTS * Math.tanh(z / LIFTS) : z) - HANGS];
  const length = Math.hypot(...hangs);
  return hangs.map((value) => value / length);
}

/**
 * Which way a stick points that strikes nothing.
 * @type {Place}
 */
const CARRIED = [0, 0.447, 0.894];

/**
 * @param {EyeBody} body
 * @param {number} dancer
 * @param {number} side
 */
const holdsStick = ({ sticks }, dancer, side) =>
  side === dance.sticks[dancer] || (sticks !== null && Math.hypot(...sticks[side]) > 0.5);

/**
 * What a hand holds: a handkerchief that hangs and trails behind the hand, or a stick.
 * @param {EyeView} view
 * @param {EyeBody} body
 * @param {Place} trail
 * @param {boolean} ofStick whether it is the hand that holds the stick
 * @param {number} side
 * @param {string} hue
 */
function drawHeld({ place, scale, right }, { hands, sticks }, trail, ofStick, side, hue) {
  const { eye, holding } = dance;
  const hand = hands[side];
  if (holding === "handkerchiefs") {
    const along = hangsFrom(trail);
    // Across it, in the plane that is seen.
    const inPlane = along[0] * right[0] + along[1] * right[1];
    const across = [right[0] * along[2], right[1] * along[2], -inPlane];
    const edge = eye.edge.map(([down, wide]) => {
      const [x, y, z] = hand.map((value, axis) => value + eye.cloth * (along[axis] * down + across[axis] * wide));
      return place([x, y, z]);
    });
    area(edge, ink.linen);
    line(edge, ink.outline, Math.max(0.008 * scale, 0.6));
  } else if (holding === "sticks" && ofStick) {
    const along = sticks ? sticks[side] : CARRIED;
    const from = dance.bodies ? dance.bodies.stick : [-eye.stick / 2, eye.stick / 2];
    const ends = from.map((metres) => {
      const [x, y, z] = hand.map((value, axis) => value + along[axis] * metres);
      return place([x, y, z]);
    });
    line(ends, ink.outline, 0.05 * scale);
    line(ends, ink.linen, 0.03 * scale);
  } else {
    oval(place(hand), [0.04 * scale, 0.04 * scale], hue);
  }
}
