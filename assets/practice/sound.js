// What is heard: a click on every count, the tune, and the taps of sticks and hands, told to the browser's sound a little ahead of the ear.
import { countOf, fold, secondsOf } from "./clock.js";
import { counts, dance } from "./dance.js";
import { state } from "./state.js";

/** How far ahead of the ear, seconds. */
const AHEAD = 0.25;

/** @type {AudioContext | null} */
let audio = null;
/** @type {GainNode | null} */
let voice = null;

/** @returns {Note[]} */
function readNotes() {
  /** @type {Note[]} */
  const list = [];
  for (let place = 0; place < dance.tune.length; place += 3) {
    const [at, length, key] = dance.tune.slice(place, place + 3);
    list.push({ at: at / 1000, length: length / 1000, key });
  }
  return list;
}

/** The whole tune as it is danced to. */
export const notes = readNotes();

/** @returns {TapHeard[]} */
function readTaps() {
  /** @type {TapHeard[]} */
  const list = [];
  for (let place = 0; place < dance.taps.length; place += 3) {
    const [at, kind, many] = dance.taps.slice(place, place + 3);
    list.push({ at: at / 1000, kind, many });
  }
  return list;
}

/** All taps and claps of the dance. */
export const taps = readTaps();

/**
 * @param {OscillatorType} type
 * @param {number} frequency hertz
 * @param {number} at by the clock of the sound
 * @param {number} length seconds
 * @param {number} loud 0 to 1
 */
function sound(type, frequency, at, length, loud) {
  if (!audio || !voice) return;
  const source = audio.createOscillator();
  const swell = audio.createGain();
  source.type = type;
  source.frequency.value = frequency;
  swell.gain.setValueAtTime(0, at);
  swell.gain.linearRampToValueAtTime(loud, at + 0.008);
  swell.gain.setValueAtTime(loud, at + Math.max(0.008, length * 0.6));
  swell.gain.linearRampToValueAtTime(0.0001, at + length);
  source.connect(swell).connect(voice);
  source.start(at);
  source.stop(at + length + 0.02);
}

/**
 * @param {number} at
 * @param {boolean} strong
 */
const clickAt = (at, strong) => sound("square", strong ? 1320 : 880, at, 0.035, strong ? 0.12 : 0.06);

/**
 * @param {number} at
 * @param {number} length
 * @param {number} key
 */
const noteAt = (at, length, key) =>
  sound("triangle", 440 * 2 ** ((key - 69) / 12), at, Math.max(length * 0.92, 0.06), 0.22);

/** @type {AudioBuffer | null} */
let noise = null;

/**
 * Noise that is the same each time, a fifth of a second of it.
 * @param {AudioContext} context
 */
function noiseOf(context) {
  if (noise && noise.sampleRate === context.sampleRate) return noise;
  noise = context.createBuffer(1, Math.ceil(context.sampleRate / 5), context.sampleRate);
  const samples = noise.getChannelData(0);
  let now = 0x9e3779b9;
  for (let index = 0; index < samples.length; index++) {
    now ^= now << 13;
    now ^= now >>> 17;
    now ^= now << 5;
    samples[index] = now / 2 ** 31;
  }
  return noise;
}

/**
 * A tap of wood, lower on the ground, or a clap.
 * @param {number} at
 * @param {TapHeard} tap
 */
function tapAt(at, { kind, many }) {
  if (!audio || !voice) return;
  const loud = 0.3 * (1 + 0.08 * Math.min(Math.log2(many), 6));
  const dies = audio.createGain();
  dies.gain.setValueAtTime(loud, at);
  dies.gain.exponentialRampToValueAtTime(0.0005, at + 0.16);
  dies.connect(voice);
  if (kind === 2) {
    const source = audio.createBufferSource();
    const round = audio.createBiquadFilter();
    source.buffer = noiseOf(audio);
    round.type = "bandpass";
    round.frequency.value = 1250;
    round.Q.value = 1.1;
    source.connect(round).connect(dies);
    source.start(at);
    return;
  }
  for (const [frequency, share] of kind === 1 ? [[415, 0.7], [1130, 0.3]] : [[740, 0.7], [1910, 0.3]]) {
    const source = audio.createOscillator();
    const part = audio.createGain();
    source.type = "sine";
    source.frequency.value = frequency;
    part.gain.value = share;
    source.connect(part).connect(dies);
    source.start(at);
    source.stop(at + 0.18);
  }
}

/** Wakes the sound where something is to be heard; promises that it is awake, which a browser may never let it be. */
export function wakeSound() {
  const Context = window.AudioContext || window.webkitAudioContext;
  if (!Context || (!state.click && !state.tune && !(state.taps && taps.length))) return Promise.resolve();
  if (!audio) audio = new Context();
  if (voice) voice.disconnect();
  voice = audio.createGain();
  voice.connect(audio.destination);
  return audio.resume().catch(() => {});
}

/** What was told and has not been heard is not heard any more. */
export function hush() {
  if (voice) voice.disconnect();
  voice = null;
}

/** Lets the sound sleep, so that a page that does not play asks nothing of the phone. */
export function sleepSound() {
  hush();
  if (audio) audio.suspend().catch(() => {});
}

/** The time by the clock of the sound, and how much later than that it is heard: seconds. */
export const soundClock = () => ({ now: audio ? audio.currentTime : 0, late: (audio && audio.outputLatency) || 0 });

/**
 * Tells the counting in, and the upbeat before the first bar, which sounds while that is counted in.
 * @param {Run} run
 */
export function tellLeadIn({ from, heard, lead, clicks, rate }) {
  if (!lead || !audio || !voice) return;
  if (state.click) {
    for (const [seconds, number] of clicks) clickAt(heard - lead + seconds, number % 2 === 1);
  }
  if (!state.tune || from !== 0) return;
  for (const note of notes) {
    const at = heard + note.at / rate;
    if (note.at < 0 && at > audio.currentTime) noteAt(at, note.length / rate, note.key);
  }
}

/**
 * Tells what is to be heard next.
 * @param {Run} run
 */
export function tellAhead(run) {
  if (!audio || !voice || audio.state !== "running") return;
  const { currentTime } = audio;
  const until = run.from + (currentTime - run.heard + AHEAD) * run.rate;
  while (run.told < until - 1e-9) {
    const begun = run.told;
    const here = fold(run, begun);
    const end = run.loop ? run.loop[1] : secondsOf(counts);
    const there = Math.min(here + until - begun, end);
    if (there <= here + 1e-9) break;
    /** @param {number} seconds */
    const when = (seconds) => Math.max(run.heard + (begun + seconds - here - run.from) / run.rate, currentTime);
    if (state.click) {
      for (let count = Math.ceil(countOf(here) - 1e-6); count < counts && secondsOf(count) < there - 1e-9; count++) {
        clickAt(when(secondsOf(count)), count % 2 === 0);
      }
    }
    if (state.tune) {
      for (const note of notes) {
        if (note.at >= here - 1e-9 && note.at < there - 1e-9) noteAt(when(note.at), note.length / run.rate, note.key);
      }
    }
    if (state.taps) {
      for (const tap of taps) {
        if (tap.at >= here - 1e-9 && tap.at < there - 1e-9) tapAt(when(tap.at), tap);
      }
    }
    run.told += there - here;
  }
}
