// A body seen from above, as the program's own pictures have it; the sizes come with the dance.
import { dance } from "./dance.js";
import { area, block, ink, line, oval, pen, ring, words } from "./pen.js";

/**
 * Draws a dancer, with a ring round the chosen one.
 * @param {Frame} frame
 * @param {Pose} pose
 * @param {boolean} chosen
 */
export function drawDancer(frame, pose, chosen) {
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
  drawHand(-1, pose.left_hand, hue, scale, width(body.handLine), stick === 0);
  drawHand(1, pose.right_hand, hue, scale, width(body.handLine), stick === 1);
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
 * An arm, and the hand with what it holds: a handkerchief that grows as it rises, or a stick held at its middle, across
 * the front as it rises.
 * @param {number} side -1 left, 1 right
 * @param {number} raised 0 to 1
 * @param {string} hue
 * @param {number} scale
 * @param {number} width of the line round the hand, pixels
 * @param {boolean} ofStick whether it is the hand that holds the stick
 */
function drawHand(side, raised, hue, scale, width, ofStick) {
  const { body, holding } = dance;
  const hand = [side * body.handAside * scale, -body.handSwing * (raised - 0.5) * scale];
  line([[side * body.armFrom * scale, 0], hand], hue, Math.max(body.armLine * scale, 1));
  if (holding === "sticks" && ofStick) {
    // Half of it to each side of the hand.
    const across = (side * (body.handAside - body.stickOver * raised - body.stickButt[0]) * scale) / 2;
    const along = (hand[1] + (body.stickButt[1] - body.stickFront) * scale) / 2;
    const ends = [1, -1].map((way) => [hand[0] + way * across, hand[1] + way * along]);
    line(ends, ink.outline, Math.max(body.stickEdge * scale, 1.4));
    line(ends, ink.linen, Math.max(body.stickWood * scale, 1.4));
    return;
  }
  const kerchief = holding === "handkerchiefs";
  const radius = (kerchief ? body.kerchief + body.kerchiefRise * raised : body.handRadius) * scale;
  oval(hand, [radius, radius], kerchief ? ink.linen : hue, ink.outline, width);
}
