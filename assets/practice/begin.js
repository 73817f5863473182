// The page begins: its lists, its hands, its first choices, and what tests may ask it.
import { choose, keptNumber, setLook, setLoop, setSeen, setSpeed, setView } from "./controls.js";
import { dance } from "./dance.js";
import { takeInHand } from "./hands.js";
import { makeLists } from "./lists.js";
import { press, put } from "./parts.js";
import { pause, play, seek, step } from "./play.js";
import { poses } from "./poses.js";
import { spaceOf } from "./space.js";
import { state } from "./state.js";

makeLists();
takeInHand();
press("loop", state.loop);
press("view", state.view);
press("seen", state.seen);
setLook(matchMedia("(prefers-color-scheme: light)").matches ? "paper" : "slate");
choose(keptNumber());
put("said", "");

window.bellpad = {
  seek,
  play,
  pause,
  step,
  choose,
  loop: setLoop,
  view: setView,
  see: setSeen,
  speed: setSpeed,
  count: () => state.count,
  playing: () => state.playing,
  pose: () => ({ count: state.count, dancers: poses(state.count) }),
  bodies: () => Array.from({ length: dance.dancers }, (_, dancer) => spaceOf(dancer, state.count)),
};
