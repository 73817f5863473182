// Which part of the floor the picture shows, and how metres become pixels.
import { dance, shownSpanAt } from "./dance.js";
import { straight } from "./decode.js";
import { findAs } from "./parts.js";
import { state } from "./state.js";

/** What is drawn on. */
export const picture = findAs("picture", HTMLCanvasElement);

/**
 * The floor that the figure needs; in its first two counts it grows or shrinks from the figure before.
 * @param {number} count
 * @returns {Bounds}
 */
function boundsAt(count) {
  const index = shownSpanAt(count);
  const here = dance.played[dance.spans[index].played].bounds;
  const share = Math.min((count - dance.spans[index].begin) / 2, 1);
  if (index === 0 || share >= 1 || state.byCounts) return here;
  const before = dance.played[dance.spans[index - 1].played].bounds;
  const eased = share * share * (3 - 2 * share);
  /** @param {number} side */
  const edge = (side) => straight(before[side], here[side], eased);
  return [edge(0), edge(1), edge(2), edge(3)];
}

/**
 * The frame at a count, everyone being where they are.
 * @param {Pose[]} all
 * @param {number} count
 * @returns {Frame}
 */
export function frameNow(all, count) {
  const wide = picture.clientWidth;
  const high = picture.clientHeight;
  const bounds = boundsAt(count);
  const [x0, y0, x1, y1] = bounds;
  const own = state.view === "own" && state.chosen !== null ? all[state.chosen] : null;
  const up = own ? (own.facing * Math.PI) / 180 : 0;
  const top = own ? 6 : 26;
  const middle = [(x0 + x1) / 2, (y0 + y1) / 2];
  // Turned floors are shown by the circle round them, so that nothing grows and shrinks as you turn.
  const across = own ? Math.hypot(x1 - x0, y1 - y0) - 0.5 : x1 - x0;
  const along = own ? across : y1 - y0;
  // A picture can have next to no room, as in a frame that is folded away: then nothing has any size, not less.
  const scale = Math.max(Math.min((wide - 8) / across, (high - top - 6) / along), 0);
  const [sin, cos] = [Math.sin(up), Math.cos(up)];
  const centre = [wide / 2, top + (high - top - 6) / 2];
  /** @type {Frame["place"]} */
  const place = (x, y) => {
    const dx = x - middle[0];
    const dy = y - middle[1];
    return [centre[0] + (dx * cos - dy * sin) * scale, centre[1] - (dx * sin + dy * cos) * scale];
  };
  return { place, scale, up, wide, high, bounds };
}
