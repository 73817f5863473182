// Playing, stopping and going to a moment. Nothing runs while it does not play: no frames, no timers, no sound, and the
// phone may sleep.
import { countOf, fold, leadIn, loopEnds, secondsOf } from "./clock.js";
import { aBarOn, counts, dance, spanAt } from "./dance.js";
import { find, put } from "./parts.js";
import { renew } from "./screen.js";
import { hush, sleepSound, soundClock, tellAhead, tellLeadIn, wakeSound } from "./sound.js";
import { state } from "./state.js";
import { sayMoment } from "./words.js";

/** How long the dance waits for a sound that wakes, milliseconds. */
const PATIENCE = 300;
/** How often the sound is told what comes, milliseconds. */
const EVERY = 40;

/** @type {Run | null} */
let run = null;
/** What runs while it plays, by the numbers that the browser gave it; 0 is none. */
let waiting = 0;
let telling = 0;
let drawing = 0;

/** @param {boolean} withLeadIn */
function begin(withLeadIn) {
  hush();
  wakeSound();
  const rate = state.speed / 100;
  const all = withLeadIn && state.countIn ? leadIn(state.count) : [];
  /** @type {[number, number][]} */
  const clicks = all.map(([seconds, number]) => [seconds / rate, number]);
  // The last of them is danced.
  const lead = (clicks.pop() ?? [0])[0];
  const from = secondsOf(state.count);
  const ends = loopEnds();
  const sound = soundClock();
  run = {
    rate,
    from,
    lead,
    clicks,
    told: from,
    loop: ends && [secondsOf(ends[0]), secondsOf(ends[1])],
    // What is seen waits for what is heard, which is late where a loudspeaker is far away.
    began: performance.now() / 1000 + 0.06 + lead + sound.late,
    heard: sound.now + 0.06 + lead,
  };
  tellLeadIn(run);
}

/** @type {WakeLockSentinel | null} */
let awake = null;

/** Keeps the phone from sleeping while it plays. */
async function keepAwake() {
  try {
    if (state.playing && !awake && navigator.wakeLock) awake = await navigator.wakeLock.request("screen");
    // It may have stopped while that was asked for.
    if (!state.playing && awake) {
      awake.release();
      awake = null;
    }
  } catch { /* The phone decides. */ }
}

export function play() {
  if (state.playing) return;
  if (state.count >= counts - 1e-6) state.count = 0;
  state.playing = true;
  keepAwake();
  renew();
  // Sound that sleeps takes a moment to wake, or does not; the dance waits for it a little, and then goes without.
  waiting = setTimeout(start, PATIENCE);
  wakeSound().then(start);
}

/** Begins what was asked for, unless it has begun or been stopped. */
function start() {
  if (!state.playing || run) return;
  clearTimeout(waiting);
  begin(true);
  telling = setInterval(() => run && tellAhead(run), EVERY);
  drawing = requestAnimationFrame(tick);
}

export function pause() {
  if (!state.playing) return;
  state.playing = false;
  run = null;
  clearTimeout(waiting);
  clearInterval(telling);
  cancelAnimationFrame(drawing);
  sleepSound();
  keepAwake();
  find("lead-in").hidden = true;
  renew();
  sayMoment();
}

/** A frame of the playing. */
function tick() {
  if (!run) return;
  const since = performance.now() / 1000 - run.began;
  const leadIn = since < 0 && run.lead > 0;
  find("lead-in").hidden = !leadIn;
  if (leadIn) {
    const gone = since + run.lead;
    const counted = run.clicks.filter(([seconds]) => seconds <= gone);
    put("lead-in", String((counted.pop() ?? run.clicks[0])[1]));
  } else {
    const at = fold(run, run.from + Math.max(since, 0) * run.rate);
    state.count = Math.min(countOf(at), counts);
  }
  if (state.count >= counts && !run.loop) {
    pause();
    return;
  }
  renew();
  drawing = requestAnimationFrame(tick);
}

/** A choice changed, perhaps while playing: on from here, without counting in again. */
export function again() {
  if (run) begin(false);
  renew();
}

/**
 * Goes to a count; one that is next to a whole one is that.
 * @param {number} count
 */
export function seek(count) {
  const near = Math.round(count);
  state.count = Math.min(Math.max(Math.abs(count - near) < 1e-6 ? near : count, 0), counts);
  if (!Number.isFinite(state.count)) state.count = 0;
  again();
  if (!state.playing) sayMoment();
}

/**
 * The whole count from which one goes on or back.
 * @param {number} way above or below 0
 */
const wholeCount = (way) => (way > 0 ? Math.floor(state.count + 1e-6) : Math.ceil(state.count - 1e-6));

/**
 * Stops, and goes on or back by whole counts.
 * @param {number} by
 */
export function step(by) {
  const whole = wholeCount(by);
  pause();
  seek(whole + by);
}

/**
 * Stops, and goes on or back by a bar.
 * @param {number} way 1 or -1
 */
export function stepBar(way) {
  const whole = wholeCount(way);
  pause();
  seek(aBarOn(whole, way));
}

/**
 * Goes to the next figure, to the start of this one, or to the one before.
 * @param {number} by
 */
export function stepFigure(by) {
  const index = spanAt(state.count);
  const first = dance.spans[index].begin;
  const wanted = by < 0 && state.count > first + 1 ? index : index + by;
  seek(wanted >= dance.spans.length ? counts : dance.spans[Math.max(wanted, 0)].begin);
}

export const playOrPause = () => (state.playing ? pause() : play());
