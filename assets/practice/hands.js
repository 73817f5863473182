// What fingers, mice and keys do to the page.
import { choose, makeSwitch, otherLook, setLoop, setSeen, setSpeed, setView } from "./controls.js";
import { counts, dance } from "./dance.js";
import { draw } from "./draw.js";
import { frameNow, picture } from "./frame.js";
import { find, findAs } from "./parts.js";
import { pause, playOrPause, seek, step, stepBar, stepFigure } from "./play.js";
import { poses } from "./poses.js";
import { renew } from "./screen.js";
import { notes, taps } from "./sound.js";
import { shown, state } from "./state.js";

/**
 * A slider.
 * @param {string} id
 * @param {(value: number) => void} act
 */
function slide(id, act) {
  const slider = findAs(id, HTMLInputElement);
  slider.addEventListener("input", () => act(Number(slider.value)));
}

/**
 * A row of buttons, one of which is chosen.
 * @param {string} id
 * @param {(value: string) => void} act
 */
function chooseFrom(id, act) {
  find(id).addEventListener("click", ({ target }) => {
    if (target instanceof HTMLElement && target.dataset.value) act(target.dataset.value);
  });
}

/**
 * A touch on the floor chooses the dancer who is there.
 * @param {MouseEvent} event
 */
function touchFloor(event) {
  if (state.seen !== "above") return;
  const all = poses(shown());
  const frame = frameNow(all, shown());
  const box = picture.getBoundingClientRect();
  const far = all.map(({ x, y }) => {
    const [right, down] = frame.place(x, y);
    return Math.hypot(right - (event.clientX - box.left), down - (event.clientY - box.top));
  });
  const nearest = far.indexOf(Math.min(...far));
  if (far[nearest] < Math.max(0.4 * frame.scale, 26)) choose(nearest + 1);
}

/** Within how long a second digit goes with the first, milliseconds. */
const SECOND_DIGIT = 1000;
/** The last number that digits choose. */
const LAST_NUMBER = 12;

/** When 1 was pressed, and nothing since, on the clock of events. */
let oneSince = -Infinity;

/**
 * Chooses the dancer of a digit; 1 chooses the first at once, and with a digit soon after it the tenth and those after that.
 * @param {number} digit
 * @param {number} at when, on the clock of events
 */
function pressDigit(digit, at) {
  const two = 10 + digit;
  const last = Math.min(dance.dancers, LAST_NUMBER);
  if (at - oneSince <= SECOND_DIGIT && two <= last) {
    oneSince = -Infinity;
    choose(two);
    return;
  }
  oneSince = digit === 1 && last >= 10 ? at : -Infinity;
  choose(digit);
}

/**
 * What a key does where it is pressed, if anything.
 * @param {KeyboardEvent} event
 * @param {Element} at
 * @returns {(() => void) | null}
 */
function keyAct(event, at) {
  const onControl = at.closest("button, summary, input, a") !== null;
  // The speed has these keys for itself.
  const onSpeed = at.matches("#speed");
  const { key } = event;
  if (/^[0-9]$/.test(key)) return event.repeat ? () => {} : () => pressDigit(Number(key), event.timeStamp);
  oneSince = -Infinity;
  switch (key.length === 1 ? key.toLowerCase() : key) {
    case " ": return onControl && !at.matches("input") ? null : playOrPause;
    case "ArrowLeft": return onSpeed ? null : () => (event.shiftKey ? stepBar(-1) : step(-1));
    case "ArrowRight": return onSpeed ? null : () => (event.shiftKey ? stepBar(1) : step(1));
    case "Home": return onSpeed ? null : () => seek(0);
    case "End": return onSpeed ? null : () => seek(counts);
    case "l": return () => setLoop({ off: "phrase", phrase: "figure", figure: "off" }[state.loop]);
    case "e": return () => setSeen({ above: "front", front: "behind", behind: "side", side: "above" }[state.seen]);
    case "v": return state.seen !== "above" ? null : () => setView(state.view === "own" ? "music" : "own");
    case "+": return () => setSpeed(state.speed + 5);
    case "-": return () => setSpeed(state.speed - 5);
    default: return null;
  }
}

/** @param {KeyboardEvent} event */
function pressKey(event) {
  if (event.ctrlKey || event.metaKey || event.altKey) return;
  const act = keyAct(event, event.target instanceof Element ? event.target : document.body);
  if (!act) return;
  event.preventDefault();
  act();
}

/** Takes the page in hand, once. */
export function takeInHand() {
  findAs("scrub", HTMLInputElement).max = String(counts);
  slide("scrub", seek);
  slide("speed", setSpeed);
  find("play").addEventListener("click", playOrPause);
  find("back").addEventListener("click", () => step(-1));
  find("on").addEventListener("click", () => step(1));
  find("back-figure").addEventListener("click", () => stepFigure(-1));
  find("on-figure").addEventListener("click", () => stepFigure(1));
  find("look").addEventListener("click", otherLook);
  chooseFrom("loop", setLoop);
  chooseFrom("view", setView);
  chooseFrom("seen", setSeen);
  find("seen").hidden = dance.bodies === null;
  makeSwitch("click", "click");
  makeSwitch("tune", "tune");
  makeSwitch("taps", "taps");
  makeSwitch("count-in", "countIn");
  makeSwitch("by-counts", "byCounts");
  find("tune").hidden = notes.length === 0;
  find("taps").hidden = taps.length === 0;
  picture.addEventListener("click", touchFloor);
  document.addEventListener("keydown", pressKey);
  document.addEventListener("visibilitychange", () => {
    if (document.hidden) pause();
  });
  window.addEventListener("resize", renew);
  // The picture can become larger or smaller with no change of the window.
  if (window.ResizeObserver) new ResizeObserver(draw).observe(picture);
}
