// Counts and seconds at full speed, and what goes round: in 6/8 the counts fall on quavers 1, 3, 4 and 6.
import { dance, spanOf } from "./dance.js";
import { straight } from "./decode.js";
import { state } from "./state.js";

/**
 * When a count falls. Where the music has speeds of its own each count is known by itself.
 * @param {number} count
 */
export function secondsOf(count) {
  const last = dance.times.length - 1;
  if (last > 0 && count >= 0) {
    const index = Math.min(Math.floor(count), last - 1);
    return straight(dance.times[index], dance.times[index + 1], count - index);
  }
  const bar = Math.floor(count / 4);
  const inside = count - bar * 4;
  const index = Math.min(Math.floor(inside), 3);
  return (bar + straight(dance.shares[index], dance.shares[index + 1], inside - index)) * dance.barSeconds;
}

/**
 * Which count it is at a time.
 * @param {number} seconds
 */
export function countOf(seconds) {
  const last = dance.times.length - 1;
  if (last > 0 && seconds >= 0) {
    const index = Math.min(lastBegun(dance.times, seconds), last - 1);
    return index + (seconds - dance.times[index]) / (dance.times[index + 1] - dance.times[index]);
  }
  return countOfBars(seconds / dance.barSeconds);
}

/**
 * Which count it is at a time of the tune, in bars from the start as its notes have it.
 * @param {number} bars
 */
export function countOfBars(bars) {
  const bar = Math.floor(bars);
  const share = bars - bar;
  let index = 3;
  while (index > 0 && share < dance.shares[index]) index--;
  return bar * 4 + index + (share - dance.shares[index]) / (dance.shares[index + 1] - dance.shares[index]);
}

/**
 * The index of the last of some times that has begun: they grow.
 * @param {number[]} times
 * @param {number} seconds
 */
function lastBegun(times, seconds) {
  let [begun, after] = [0, times.length];
  while (after - begun > 1) {
    const middle = (begun + after) >> 1;
    if (times[middle] <= seconds) begun = middle;
    else after = middle;
  }
  return begun;
}

/**
 * The half of a figure, or the figure, that goes round: counts.
 * @returns {[number, number] | null}
 */
export function loopEnds() {
  if (state.loop === "off") return null;
  const span = spanOf(state.count);
  const begin = span.bar * 4;
  const end = begin + span.bars * 4;
  if (state.loop === "figure" || span.bars <= 4) return [begin, end];
  const half = begin + Math.floor((state.count - begin) / 16) * 16;
  return [half, Math.min(half + 16, end)];
}

/**
 * Play time runs on from where play began; round a loop it is folded back into the dance.
 * @param {Run} run
 * @param {number} played seconds
 */
export function fold(run, played) {
  if (!run.loop || played < run.loop[1]) return played;
  const [from, to] = run.loop;
  return from + ((played - from) % (to - from));
}
