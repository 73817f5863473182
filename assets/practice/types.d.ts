// What the practice page's modules pass to one another, for the checker of types alone: nothing of it is on the page.
// Places are metres, x to the right as you face up and y up, towards the music; facings are degrees clockwise from up;
// counts are halves of a strong beat from the start of the dance; times are seconds.

/** What a body is drawn with, metres: `BodySizes` of the program's pictures, where each is explained. */
interface BodySizes {
  breadth: number;
  depth: number;
  ring: number;
  corner: number;
  outline: number;
  footAside: number;
  footFront: number;
  footRadii: [number, number];
  footLine: number;
  armFrom: number;
  armLine: number;
  handAside: number;
  handSwing: number;
  handRadius: number;
  handLine: number;
  kerchief: number;
  kerchiefRise: number;
  stickOver: number;
  stickFront: number;
  stickButt: [number, number];
  stickEdge: number;
  stickWood: number;
  noseAside: number;
  noseFrom: number;
  noseTip: number;
  head: number;
  numbers: [number, number, number];
}

/** What a body at eye level is drawn with, metres: `EyeSizes` of the program's pictures, where each is explained. */
interface EyeSizes {
  tall: number;
  leg: number;
  arm: number;
  head: number;
  hand: number;
  foot: [number, number];
  sole: number;
  cloth: number;
  edge: [number, number][];
  stick: number;
  bell: string;
}

/** Everybody's body throughout the dance, packed. */
interface PageBodies {
  /** Parts of a metre, and of a count. */
  parts: number;
  topParts: number;
  groups: number[];
  /** From the palm to the butt and to the tip of a stick, metres. */
  stick: [number, number];
  hip: number;
  shoulder: number;
  leg: [number, number];
  cells: string;
  passages: string;
  ways: string[];
}

/** How some numbers of a body go through a count, from what each is at its beginning; `head` goes with the group. */
interface BodyCell {
  head: number;
  /** Of a trunk, after how many parts of the count it is in the air until the next. */
  flies: number;
  ways: number[][];
}

/** The cells of each bar of a dancer, and all numbers of the body at the beginning of each count. */
interface BodyWay {
  bars: number[][];
  values: Int32Array;
}

/** Right, front and up, or as the floor has it. */
type Place = [number, number, number];

/** A body as it has itself. Of two the left is the first. */
interface EyeBody {
  middle: Place;
  chest: Place;
  crown: Place;
  hips: [Place, Place];
  knees: [Place, Place];
  feet: [Place, Place];
  shoulders: [Place, Place];
  elbows: [Place, Place];
  hands: [Place, Place];
  /** Which feet carry the weight, or hop. */
  carries: [boolean, boolean];
  /** Which way each stick points, one metre; nothing long where there is none; all as always where none strikes. */
  sticks: [Place, Place] | null;
}

/** From a body's own places to a picture at eye level. */
interface EyeView {
  scale: number;
  place: (place: Place) => [number, number];
  /** How far behind the middle of the body it is. */
  away: (place: Place) => number;
  /** One metre to the right in the picture, as the body has it. */
  right: Place;
}

interface ByteReader {
  number: () => number;
  byte: () => number;
  more: () => boolean;
}

/** A figure of the running order, and which of the kinds of dancing it is. */
interface DancedSpan {
  name: string;
  call: string;
  called: string;
  strain: string;
  notes: string;
  bar: number;
  bars: number;
  /** The count at which it begins, and how many it has. */
  begin: number;
  counts: number;
  played: number;
}

/** A kind of dancing: for each dancer where the bytes of the way and the feet are, and begin, end and text of phrases. */
interface DancedKind {
  moves: number[];
  feet: number[];
  words: [begin: number, end: number, text: number][][];
  /** What each dancer taps, bar by bar. */
  taps: [begin: number, end: number, text: number][][];
  bounds: Bounds;
  watch: ToWatch;
  short: InShort;
}

/** What there is to watch for in a kind of dancing, by places in the list of texts: `to_watch` in `src/handout/page` writes it. */
interface ToWatch {
  /** Everybody's, at most three sentences. */
  side: number[];
  /** For each dancer theirs, one at most. */
  own: number[][];
}

/** A kind of dancing in short, by places in the list of texts: `in_short` in `src/handout/page` writes it. */
interface InShort {
  /** What is new in each bar, of each dancer. */
  clauses: number[][];
  /** The same of everybody, those together of whom the same is said. */
  side: number[][];
  /** The figure in a line, of each dancer and of everybody. */
  gists: number[];
  sideGist: number;
}

/** Left, bottom, right and top of a floor. */
type Bounds = [number, number, number, number];

/** The dance as the page holds it: `data` in `src/handout/page` writes it. */
interface PageDance {
  title: string;
  side: string;
  notes: string;
  holding: "handkerchiefs" | "sticks" | "nothing";
  bars: number;
  dancers: number;
  barSeconds: number;
  /** When the counts of the first bar fall, and its end: parts of the bar. */
  shares: number[];
  /** Bars, one run after another, and when the counts of each fall. */
  runs: [bars: number, shares: number[]][];
  /** When each count of the dance falls, and its end; empty where the music is of one speed. */
  times: number[];
  longways: boolean;
  body: BodySizes;
  eye: EyeSizes;
  /** The bodies at eye level; nothing where they were too many for a phone. */
  bodies: PageBodies | null;
  /** The cross of chalk where a dancer stands at the start, and how far beside it the number is, metres. */
  spot: { arm: number; number: number };
  placeParts: number;
  facingParts: number;
  handParts: number;
  stands: [number, number][];
  names: string[];
  /** In which hand each dancer's stick is, left (0) or right (1). */
  sticks: number[];
  steps: [short: string, name: string][];
  /** What the body does in each step that is danced, count by count. */
  stepsTold: string[];
  spans: DancedSpan[];
  played: DancedKind[];
  blobs: string[];
  texts: string[];
  /** The tune as it is danced to, note by note: when it begins and how long it lasts, thousandths of a second at full speed, and its key. */
  tune: number[];
  /** What is heard of sticks and hands: when, thousandths of a second at full speed; its kind, 0 wood, 1 wood on the ground, 2 hands; and how many. */
  taps: number[];
  /** Where they meet, eleven numbers each: from and until when in thousandths of a count, x and y in millimetres, the kind, and two hands. */
  meets: number[];
  /** From the palm to the butt and to the tip of a stick, metres. */
  stick: [number, number];
}

/** A count of a way: places and facings at even parts of it, in the parts of a metre and a degree that the page keeps. */
interface Cell {
  places: [number, number][];
  facings: number[];
}

/** What lands on a count (0 left, 1 right, 2 both, 3 the air), in which step, and the heights of the hands, 0 to 1. */
interface Fall {
  lands: number;
  hop: boolean;
  begins: boolean;
  step: number;
  hands: [number, number];
}

/** A dancer at a moment, with the names that `bellpad pose` prints. */
interface Pose {
  number: number;
  x: number;
  y: number;
  facing: number;
  weight: string;
  step: string;
  left_hand: number;
  right_hand: number;
}

type Loop = "off" | "phrase" | "figure";
type View = "music" | "own";
/** From where the dance is seen: from above, or one body at eye level. */
type Seen = "above" | "front" | "behind" | "side";

/** What is chosen, and where the dance is. `chosen` counts dancers from 0. */
interface State {
  count: number;
  playing: boolean;
  chosen: number | null;
  /** Per cent. */
  speed: number;
  loop: Loop;
  view: View;
  seen: Seen;
  click: boolean;
  tune: boolean;
  taps: boolean;
  countIn: boolean;
  byCounts: boolean;
}

/** One playing from where it began. Times of the dance are at full speed. */
interface Run {
  rate: number;
  /** Where in the dance it began. */
  from: number;
  /** How long is counted in, as it sounds. */
  lead: number;
  /** When the clicks fall that count in, from the first of them, as it sounds, and which counts of their bar they are, from 1. */
  clicks: [seconds: number, number: number][];
  /** Up to where the sound has been told, not folded round the loop. */
  told: number;
  loop: [number, number] | null;
  /** When it began for the eye, by `performance.now`. */
  began: number;
  /** When it began for the ear, by the clock of the sound. */
  heard: number;
}

/** What is heard of sticks or hands: when in the dance, the kind, and how many meet at once. */
interface TapHeard {
  at: number;
  kind: number;
  many: number;
}

/** Where sticks or hands meet, and at which count. */
interface Meet {
  count: number;
  /** Until when they stay together. */
  until: number;
  x: number;
  y: number;
  wood: boolean;
  /** Whether it is on a part of oneself, and not where the hands meet. */
  elsewhere: boolean;
  /** Of each hand that is in it, from the palm along the stick to what meets, metres. */
  hands: { dancer: number; hand: number; end: number }[];
}

/** A hand on its way to what it strikes: where that is, what of the stick meets, and how much of the way it has gone. */
interface Reach {
  x: number;
  y: number;
  end: number;
  share: number;
  wood: boolean;
  elsewhere: boolean;
}

/** A note of the tune: when in the dance, how long, and its key as MIDI numbers them. */
interface Note {
  at: number;
  length: number;
  key: number;
}

/** A phrase of words, from a count to a count. */
interface Phrase {
  begin: number;
  end: number;
  text: string;
  span: DancedSpan;
}

/** How metres become pixels of the picture. */
interface Frame {
  place: (x: number, y: number) => [number, number];
  scale: number;
  /** How far the floor is turned, radians. */
  up: number;
  wide: number;
  high: number;
  bounds: Bounds;
}

interface Window {
  webkitAudioContext?: typeof AudioContext;
  /** For tests and for those who like to look inside. */
  bellpad: {
    seek: (count: number) => void;
    play: () => void;
    pause: () => void;
    step: (by: number) => void;
    choose: (number: number) => void;
    loop: (kind: string | undefined) => void;
    view: (kind: string | undefined) => void;
    see: (from: string | undefined) => void;
    speed: (percent: number) => void;
    count: () => number;
    playing: () => boolean;
    pose: () => { count: number; dancers: Pose[] };
    bodies: () => unknown[];
  };
}
