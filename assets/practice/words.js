// What is danced, in words: where in the dance it is, the chosen dancer's phrases, and what is said to those who listen
// to the page.
import { barAt, beginOf, callOf, counts, dance, nameOf, shownSpanAt, spanOf } from "./dance.js";
import { find, put } from "./parts.js";
import { fallAt, poseOf } from "./poses.js";
import { state } from "./state.js";

/**
 * Bar and count of the figure.
 * @param {number} count
 */
export function momentWords(count) {
  if (count >= counts) return "the end";
  const span = spanOf(count);
  const whole = Math.floor(count + 1e-6);
  const bar = barAt(whole);
  return `bar ${bar - span.bar + 1} of ${span.bars}, count ${whole - beginOf(bar) + 1}`;
}

/**
 * What the chosen dancer does in the phrase at a count, and in the one after it.
 * @param {number} count
 * @returns {[Phrase | null, Phrase | null]}
 */
function phrasesAt(count) {
  const { chosen } = state;
  if (chosen === null) return [null, null];
  /**
   * @param {DancedSpan} span
   * @returns {Phrase[]}
   */
  const list = (span) => (dance.played[span.played].words[chosen] || []).map(([begin, end, text]) =>
    ({ begin: begin + span.begin, end: end + span.begin, text: dance.texts[text], span }));
  const index = shownSpanAt(count);
  const near = dance.spans.slice(index, index + 2).flatMap(list);
  const now = near.findIndex(({ begin, end }) => begin <= count + 1e-6 && count + 1e-6 < end);
  const next = now >= 0 ? near[now + 1] : near.find(({ begin }) => begin > count);
  return [now >= 0 ? near[now] : null, next || null];
}

/**
 * What the chosen dancer taps or claps in the bar at a count.
 * @param {number} count
 */
function tapsAt(count) {
  const { chosen } = state;
  if (chosen === null) return "";
  const span = spanOf(count);
  const inside = Math.min(count, counts - 1e-6) - span.begin + 1e-6;
  const here = dance.played[span.played].taps[chosen].find(([begin, end]) => begin <= inside && inside < end);
  return here ? dance.texts[here[2]] : "";
}

/** The sentences that stand under the words. */
let sentencesWatched = "";

/**
 * What there is to watch for in the figure at a count: the chosen dancer's, or everybody's.
 * @param {number} count
 */
function showWatch(count) {
  const { side, own } = dance.played[spanOf(Math.min(count, counts - 1e-6)).played].watch;
  const lines = (state.chosen === null ? side : own[state.chosen]).map((index) => dance.texts[index]);
  find("watch").hidden = lines.length === 0;
  const text = lines.join("\n");
  if (text === sentencesWatched) return;
  sentencesWatched = text;
  find("watch-for").replaceChildren(...lines.map((line) => {
    const item = document.createElement("li");
    item.textContent = line;
    return item;
  }));
}

/** @param {number} count */
export function showWords(count) {
  showWatch(count);
  find("meet").hidden = dance.meets.length === 0 || state.chosen === null;
  put("meet", tapsAt(count));
  if (state.chosen === null) {
    put("now", "Choose your number to read your own part.");
    const next = dance.spans[shownSpanAt(count) + 1];
    put("next", next ? `Next figure: ${nameOf(next)}.` : "");
    return;
  }
  const [now, next] = phrasesAt(count);
  put("now", now ? `Now: ${now.text}` : "");
  const begins = next && next.begin === next.span.begin ? `${callOf(next.span)}: ` : "";
  put("next", next ? `Next: ${begins}${next.text}` : "");
}

/** The phrase that was said last while it was stepped, and while it played. */
let steppedPhrase = "";
let playedPhrase = "";

/** Says the moment when it is stepped. */
export function sayMoment() {
  let said = `${callOf(spanOf(state.count))}, ${momentWords(state.count)}.`;
  if (state.chosen !== null) {
    said += ` You are ${standing(poseOf(state.chosen, state.count).weight)}.`;
    const [now] = phrasesAt(state.count);
    const phrase = now ? `${state.chosen} ${now.begin}` : "";
    if (now && phrase !== steppedPhrase) said += ` ${now.text}`;
    steppedPhrase = phrase;
    const taps = tapsAt(state.count);
    if (taps && Math.abs(state.count - beginOf(barAt(state.count))) < 1e-6) said += ` ${taps}`;
  }
  put("said", said);
}

/**
 * What a dancer's body does at a count, as it would be told to somebody who cannot see it.
 * @param {number} dancer
 * @param {number} count
 */
export function bodyWords(dancer, count) {
  const { weight, left_hand: left, right_hand: right } = poseOf(dancer, count);
  const { now, share } = fallAt(dancer, count);
  const hops = now.hop && share < 0.5 ? "a hop, " : "";
  /** @param {number} height */
  const high = (height) => (height < 0.25 ? "low" : height < 0.75 ? "half up" : "high");
  const hands = high(left) === high(right) ? `hands ${high(left)}` : `left hand ${high(left)}, right hand ${high(right)}`;
  return `${hops}${standing(weight)}, ${hands}`;
}

/** @param {string} weight */
function standing(weight) {
  if (weight === "both") return "on both feet";
  return weight === "air" ? "in the air" : `on the ${weight}`;
}

/** Says each new phrase while it plays. */
export function sayPhrase() {
  const [now] = phrasesAt(state.count);
  const phrase = now ? `${state.chosen} ${now.begin}` : callOf(spanOf(state.count));
  if (phrase === playedPhrase) return;
  playedPhrase = phrase;
  put("said", `${callOf(spanOf(state.count))}. ${now ? now.text : ""}`);
}
