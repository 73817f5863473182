// What is chosen, and where the dance is.

/** @type {State} */
export const state = {
  count: 0,
  playing: false,
  chosen: null,
  speed: 100,
  loop: "off",
  view: "music",
  seen: "above",
  click: true,
  tune: true,
  taps: true,
  countIn: true,
  byCounts: matchMedia("(prefers-reduced-motion: reduce)").matches,
};

/** The count that is shown: those who asked for less motion see whole ones while it plays. */
export const shown = () => (state.byCounts && state.playing ? Math.floor(state.count + 1e-6) : state.count);
