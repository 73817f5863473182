// The picture of a moment: the floor, the chosen dancer's path and everyone.
import { barAt, counts, countsOfBar, dance } from "./dance.js";
import { drawDancer } from "./dancer.js";
import { drawAtEyeLevel } from "./eye.js";
import { frameNow, picture } from "./frame.js";
import { drawMeets, reachesAt } from "./meets.js";
import { ink, line, pen, readInk, words } from "./pen.js";
import { poseOf, poses } from "./poses.js";
import { shown, state } from "./state.js";

/** @param {Frame} frame */
function drawFloor(frame) {
  const { place, scale } = frame;
  const highest = Math.max(...dance.stands.map(([, y]) => y), 0) + 0.9;
  if (dance.longways) line([place(0, highest), place(0, -highest)], ink.faint, 1, [3, 9]);
  dance.stands.forEach(([x, y], index) => {
    const [right, down] = place(x, y);
    const arm = Math.min(Math.max(scale * dance.spot.arm, 2), 9);
    line([[right - arm, down], [right + arm, down]], ink.quiet, 1.5);
    line([[right, down - arm], [right, down + arm]], ink.quiet, 1.5);
    if (dance.dancers > 40) return;
    const out = x === 0 ? 1 : Math.sign(x);
    const size = Math.min(Math.max(scale * 0.11, 9), 14);
    words(String(index + 1), place(x + out * dance.spot.number, y), size, ink.quiet);
  });
  const own = state.view === "own" && state.chosen !== null;
  const [x0, , x1, y1] = frame.bounds;
  words("\u266A music \u266A", own ? place((x0 + x1) / 2, y1 - 0.1) : [frame.wide / 2, 13], 13, ink.quiet);
}

/**
 * The chosen dancer's path for two bars back, solid, and two on, dotted.
 * @param {Frame} frame
 * @param {number} count
 */
function drawTrail(frame, count) {
  const { chosen } = state;
  if (chosen === null) return;
  const colour = chosen % 2 ? ink.even : ink.odd;
  /**
   * @param {number} from
   * @param {number} to
   */
  const path = (from, to) => {
    const moments = [];
    for (let at = from; at < to; at += 0.125) moments.push(at);
    moments.push(to);
    return moments.map((at) => poseOf(chosen, at)).map(({ x, y }) => frame.place(x, y));
  };
  pen.globalAlpha = 0.85;
  const width = Math.min(Math.max(frame.scale * 0.026, 1.5), 4);
  const around = 2 * countsOfBar(barAt(count));
  line(path(count, Math.min(count + around, counts)), colour, width, [width * 1.2, width * 2.2]);
  line(path(Math.max(count - around, 0), count), colour, width);
  pen.globalAlpha = 1;
}

export function draw() {
  // Nobody sees it now; it is drawn once it has a size.
  if (picture.clientWidth === 0 || picture.clientHeight === 0) return;
  // A page that is loaded where it is not shown has no colours yet.
  if (!ink.floor) readInk();
  const count = shown();
  const sharp = Math.min(window.devicePixelRatio || 1, 3);
  const wide = Math.round(picture.clientWidth * sharp);
  const high = Math.round(picture.clientHeight * sharp);
  if (picture.width !== wide || picture.height !== high) [picture.width, picture.height] = [wide, high];
  pen.setTransform(sharp, 0, 0, sharp, 0, 0);
  pen.fillStyle = ink.floor;
  pen.fillRect(0, 0, picture.clientWidth, picture.clientHeight);
  if (state.seen !== "above") {
    drawAtEyeLevel();
    return;
  }
  const all = poses(count);
  const frame = frameNow(all, count);
  drawFloor(frame);
  drawTrail(frame, count);
  const reaches = reachesAt(count);
  all.forEach((pose, index) => index !== state.chosen && drawDancer(frame, pose, false, reaches.get(index)));
  if (state.chosen !== null) drawDancer(frame, all[state.chosen], true, reaches.get(state.chosen));
  drawMeets(frame, count);
}
