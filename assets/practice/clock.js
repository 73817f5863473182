// Counts and seconds at full speed, and what goes round: in 6/8 the counts fall on quavers 1, 3, 4 and 6.
import { barAt, barShares, beginOf, countsOfBar, dance, lastBegun, spanOf } from "./dance.js";
import { straight } from "./decode.js";
import { state } from "./state.js";

/** The bars of half a figure. */
const HALF = 4;

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
  const each = dance.shares.length - 1;
  const bar = Math.floor(count / each);
  const inside = count - bar * each;
  const index = Math.min(Math.floor(inside), each - 1);
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
function countOfBars(bars) {
  const bar = Math.floor(bars);
  const share = bars - bar;
  const shares = barShares(bar);
  const each = shares.length - 1;
  const index = Math.min(lastBegun(shares, share), each - 1);
  // Before the start bars are as the first one.
  const begin = bar < 0 ? bar * each : beginOf(bar) + Math.max(bar - dance.bars, 0) * each;
  return begin + index + (share - shares[index]) / (shares[index + 1] - shares[index]);
}

/**
 * The clicks that count in a bar before a count, as many as the bar there has, at its speed: seconds from the first at full speed,
 * and which count of the bar each is, from 1. The last of them is the count itself, which is danced.
 * @param {number} count
 * @returns {[seconds: number, number: number][]}
 */
export function leadIn(count) {
  const bar = barAt(count);
  const begin = beginOf(bar);
  const each = countsOfBar(bar);
  /**
   * When there is a place in that bar, or in others just as it before it and after.
   * @param {number} place counts from its beginning
   */
  const when = (place) => {
    const bars = Math.floor(place / each);
    const own = secondsOf(begin + place - bars * each) - secondsOf(begin);
    return bars * (secondsOf(begin + each) - secondsOf(begin)) + own;
  };
  const end = count - begin;
  const first = end - each;
  /** @type {[number, number][]} */
  const clicks = [];
  for (let place = Math.ceil(first - 1e-6); place < end - 1e-6; place++) {
    clicks.push([when(place) - when(first), (place + 2 * each) % each + 1]);
  }
  clicks.push([when(end) - when(first), 0]);
  return clicks;
}

/**
 * The half of a figure, or the figure, that goes round: counts.
 * @returns {[number, number] | null}
 */
export function loopEnds() {
  if (state.loop === "off") return null;
  const span = spanOf(state.count);
  const end = span.begin + span.counts;
  if (state.loop === "figure" || span.bars <= HALF) return [span.begin, end];
  const half = span.bar + Math.floor((barAt(state.count) - span.bar) / HALF) * HALF;
  return [beginOf(half), Math.min(beginOf(half + HALF), end)];
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
