// A body seen from above, as the program's own pictures have it; the sizes come with the dance.
import { dance } from "./dance.js";
import { area, block, ink, line, oval, pen, ring, words } from "./pen.js";

/** How long an arm is, metres. */
const ARM = 0.65;

/**
 * Draws a dancer, with a ring round the chosen one.
 * @param {Frame} frame
 * @param {Pose} pose
 * @param {boolean} chosen
 * @param {[Reach | null, Reach | null]} [reaches] the hands, left and right, that strike about now
 */
export function drawDancer(frame, pose, chosen, reaches = [null, null]) {
  const { body } = dance;
  const { scale } = frame;
  const even = pose.number % 2 === 0;
  const hue = even ? ink.even : ink.odd;
  /** @param {number} metres */
  const width = (metres) => Math.min(Math.max(metres * scale, 0.8), 3);
  pen.save();
  pen.translate(...frame.place(pose.x, pose.y));
  if (chosen) ring(body.ring * scale, ink.words);
  pen.save();
  pen.rotate((pose.facing * Math.PI) / 180 - frame.up);
  drawFeet(pose, scale, width(body.footLine));
  const radii = [(body.breadth / 2) * scale, (body.depth / 2) * scale];
  if (even) block(radii, body.corner * scale, hue, ink.outline, width(body.outline));
  else oval([0, 0], radii, hue, ink.outline, width(body.outline));
  const stick = dance.sticks[pose.number - 1];
  drawHand(-1, pose.left_hand, hue, scale, width(body.handLine), stick === 0, reachOf(pose, -1, reaches[0]));
  drawHand(1, pose.right_hand, hue, scale, width(body.handLine), stick === 1, reachOf(pose, 1, reaches[1]));
  area([
    [-body.noseAside * scale, -body.noseFrom * scale],
    [0, -body.noseTip * scale],
    [body.noseAside * scale, -body.noseFrom * scale],
  ], ink.outline);
  oval([0, 0], [body.head * scale, body.head * scale], ink.outline);
  pen.restore();
  const text = String(pose.number);
  words(text, [0, 0], body.numbers[Math.min(text.length, 3) - 1] * scale, ink.number, true);
  pen.restore();
}

/**
 * Two feet, the one that carries the weight filled.
 * @param {Pose} pose
 * @param {number} scale
 * @param {number} width of the line, pixels
 */
function drawFeet(pose, scale, width) {
  const { footAside, footFront, footRadii } = dance.body;
  const radii = footRadii.map((metres) => metres * scale);
  for (const [side, foot] of /** @type {[number, string][]} */ ([[-1, "left"], [1, "right"]])) {
    const carries = pose.weight === foot || pose.weight === "both";
    oval([side * footAside * scale, -footFront * scale], radii, carries ? ink.words : null, ink.words, width);
  }
}

/**
 * Where a hand and the ends of its stick are as they strike, as `reach.rs` has it, metres to the right and behind; and how much it is on its
 * way there.
 * @param {Pose} pose
 * @param {number} side -1 left, 1 right
 * @param {Reach | null} reach
 */
function reachOf(pose, side, reach) {
  // Beside, over or behind the body there is no star from above that it could go to.
  if (!reach || reach.elsewhere) return null;
  const turn = (pose.facing * Math.PI) / 180;
  const [sin, cos] = [Math.sin(turn), Math.cos(turn)];
  const [dx, dy] = [reach.x - pose.x, reach.y - pose.y];
  const shoulder = side * dance.body.armFrom;
  const [right, front] = [dx * cos - dy * sin - shoulder, dx * sin + dy * cos];
  const far = Math.max(Math.hypot(right, front), 1e-6);
  const end = Math.abs(reach.end);
  const palm = Math.min(Math.max(far - end, 0.35 * far), ARM);
  const flat = end > 0 ? Math.min((far - palm) / end, 1) * Math.sign(reach.end) : 0;
  /** @param {number} metres */
  const at = (metres) => [shoulder + (right / far) * metres, (-front / far) * metres];
  const stick = end > 0 ? dance.stick.map((metres) => at(palm + metres * flat)) : null;
  return { hand: at(palm), stick, share: reach.share };
}

/**
 * Some share of the way from one place to another.
 * @param {number[]} one
 * @param {number[]} other
 * @param {number} share
 */
const partWay = (one, other, share) => one.map((value, axis) => value + (other[axis] - value) * share);

/**
 * An arm, and the hand with what it holds: a handkerchief that grows as it rises, or a stick held at its middle, across
 * the front as it rises, or on its way to what it strikes.
 * @param {number} side -1 left, 1 right
 * @param {number} raised 0 to 1
 * @param {string} hue
 * @param {number} scale
 * @param {number} width of the line round the hand, pixels
 * @param {boolean} ofStick whether it is the hand that holds the stick
 * @param {ReturnType<typeof reachOf>} reach
 */
function drawHand(side, raised, hue, scale, width, ofStick, reach) {
  const { body, holding } = dance;
  const carried = [side * body.handAside, -body.handSwing * (raised - 0.5)];
  const share = reach ? reach.share : 0;
  const palm = reach ? partWay(carried, reach.hand, share) : carried;
  const hand = palm.map((metres) => metres * scale);
  line([[side * body.armFrom * scale, 0], hand], hue, Math.max(body.armLine * scale, 1));
  if (holding === "sticks" && ofStick) {
    // Half of it to each side of the hand.
    const across = (side * (body.handAside - body.stickOver * raised - body.stickButt[0])) / 2;
    const along = (carried[1] + body.stickButt[1] - body.stickFront) / 2;
    const ends = [-1, 1].map((way, index) => {
      const from = [carried[0] + way * across, carried[1] + way * along];
      if (reach && reach.stick) return partWay(from, reach.stick[index], share);
      return from.map((metres, axis) => metres + palm[axis] - carried[axis]);
    });
    const shown = ends.map((end) => end.map((metres) => metres * scale));
    line(shown, ink.outline, Math.max(body.stickEdge * scale, 1.4));
    line(shown, ink.linen, Math.max(body.stickWood * scale, 1.4));
    return;
  }
  const kerchief = holding === "handkerchiefs";
  const radius = (kerchief ? body.kerchief + body.kerchiefRise * raised : body.handRadius) * scale;
  oval(hand, [radius, radius], kerchief ? ink.linen : hue, ink.outline, width);
}
