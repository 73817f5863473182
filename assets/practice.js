"use strict";
(() => {
  const dance = JSON.parse(document.getElementById("dance").textContent);
  const counts = dance.bars * 4;
  const find = (id) => document.getElementById(id);

  // What everyone does: bytes unpacked when they are first needed.

  const bytesOf = (text) => Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0));
  const moves = new Map();
  const feet = new Map();

  // A way through a figure: the place and the facing at the start of each count, and the parts in between.
  function unpackMoves(text, length) {
    const bytes = bytesOf(text);
    let at = 0;
    const number = () => {
      let value = 0;
      let scale = 1;
      for (;;) {
        const byte = bytes[at++];
        value += (byte & 127) * scale;
        if (byte < 128) break;
        scale *= 128;
      }
      return value % 2 ? -(value + 1) / 2 : value / 2;
    };
    let x = number(), y = number(), facing = number();
    const way = [];
    for (let count = 0; count < length; count++) {
      const levels = bytes[at++];
      const places = levels & 15 ? 1 << ((levels & 15) - 1) : 0;
      const facings = levels >> 4 ? 1 << ((levels >> 4) - 1) : 0;
      const cell = { places: [[x, y]], facings: [facing] };
      for (let part = 0; part < places; part++) cell.places.push([(x += number()), (y += number())]);
      for (let part = 0; part < facings; part++) cell.facings.push((facing += number()));
      way.push(cell);
    }
    return way;
  }

  const kept = (store, index, unpack) => {
    if (!store.has(index)) store.set(index, unpack(dance.blobs[index]));
    return store.get(index);
  };

  // Straight between the two values on both sides.
  function between(list, share, mix) {
    const parts = list.length - 1;
    if (parts === 0) return list[0];
    const part = Math.min(Math.floor(share * parts), parts - 1);
    return mix(list[part], list[part + 1], share * parts - part);
  }
  const straight = (from, to, share) => from + (to - from) * share;

  function spanAt(count) {
    let found = 0;
    dance.spans.forEach((span, index) => {
      if (span.bar * 4 <= count) found = index;
    });
    return found;
  }

  const WEIGHTS = ["left", "right", "both", "air"];

  function fallAt(dancer, count) {
    const span = dance.spans[spanAt(count)];
    const played = dance.played[span.played];
    const bytes = kept(feet, played.feet[dancer], bytesOf);
    const last = bytes.length / 4 - 1;
    const index = Math.min(Math.floor(count - span.bar * 4), last);
    const read = (index) => {
      const [marks, step, left, right] = bytes.subarray(index * 4, index * 4 + 4);
      return { lands: marks & 3, hop: (marks & 4) > 0, begins: (marks & 8) > 0, step, hands: [left / 200, right / 200] };
    };
    return { now: read(index), next: index < last ? read(index + 1) : null, share: Math.min(count - span.bar * 4 - index, 1) };
  }

  // Where a dancer is, which way they face, on which foot and with hands where.
  function poseOf(dancer, count) {
    const span = dance.spans[spanAt(count)];
    const played = dance.played[span.played];
    const way = kept(moves, played.moves[dancer], (text) => unpackMoves(text, span.bars * 4));
    const local = count - span.bar * 4;
    const cell = Math.min(Math.floor(local), way.length - 1);
    const share = local - cell;
    const [x, y] = between(way[cell].places, share, (from, to, share) => [0, 1].map((axis) => straight(from[axis], to[axis], share)));
    const facing = between(way[cell].facings, share, straight) / dance.facingParts;
    const fall = fallAt(dancer, count);
    const lifted = fall.share > 0.5 && fall.next && (fall.next.hop || fall.next.lands === 3);
    const [left, right] = [0, 1].map((hand) =>
      fall.next ? straight(fall.now.hands[hand], fall.next.hands[hand], fall.share) : fall.now.hands[hand]);
    return {
      number: dancer + 1,
      x: x / dance.placeParts,
      y: y / dance.placeParts,
      facing: ((facing % 360) + 360) % 360,
      weight: WEIGHTS[lifted ? 3 : fall.now.lands],
      step: dance.steps[fall.now.step][0],
      left_hand: left,
      right_hand: right,
    };
  }
  const poses = (count) => Array.from({ length: dance.dancers }, (_, dancer) => poseOf(dancer, count));

  // Counts to seconds at full speed and back: in 6/8 the counts fall on quavers 1, 3, 4 and 6.

  function secondsOf(count) {
    const bar = Math.floor(count / 4);
    const inside = count - bar * 4;
    const index = Math.min(Math.floor(inside), 3);
    return (bar + straight(dance.shares[index], dance.shares[index + 1], inside - index)) * dance.barSeconds;
  }
  function countOf(seconds) {
    const bars = seconds / dance.barSeconds;
    const bar = Math.floor(bars);
    const share = bars - bar;
    let index = 3;
    while (index > 0 && share < dance.shares[index]) index--;
    return bar * 4 + index + (share - dance.shares[index]) / (dance.shares[index + 1] - dance.shares[index]);
  }

  // What is chosen.

  const state = {
    count: 0, playing: false, chosen: null, speed: 100, loop: "off", view: "music",
    click: true, tune: true, countIn: true, byCounts: matchMedia("(prefers-reduced-motion: reduce)").matches,
  };
  const shown = () => (state.byCounts && state.playing ? Math.floor(state.count + 1e-6) : state.count);

  // The half of a figure, or the figure, that goes round: counts.
  function loopEnds() {
    if (state.loop === "off") return null;
    const span = dance.spans[spanAt(Math.min(state.count, counts - 1e-6))];
    const begin = span.bar * 4;
    const end = begin + span.bars * 4;
    if (state.loop === "figure" || span.bars <= 4) return [begin, end];
    const half = begin + Math.floor((state.count - begin) / 16) * 16;
    return [half, Math.min(half + 16, end)];
  }

  // Sound: a click on every count and the tune, a little ahead of the ear.

  let audio = null;
  let voice = null;
  const AHEAD = 0.25;
  const notes = [];
  for (const [bar, strain, bars] of dance.airs.at) {
    const list = dance.airs.strains[strain].notes;
    for (let place = 0; place < list.length; place += 3) {
      const [begin, length, key] = list.slice(place, place + 3).map((value, index) => (index < 2 ? value / dance.airs.parts : value));
      if (begin < bars && (begin >= 0 || bar === 0)) {
        notes.push({ at: (bar + begin) * dance.barSeconds, length: length * dance.barSeconds, key });
      }
    }
  }
  notes.sort((one, other) => one.at - other.at);

  function sound(type, frequency, at, length, loud) {
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
  const clickAt = (at, strong) => sound("square", strong ? 1320 : 880, at, 0.035, strong ? 0.12 : 0.06);
  const noteAt = (at, length, key) => sound("triangle", 440 * 2 ** ((key - 69) / 12), at, Math.max(length * 0.92, 0.06), 0.22);

  function wakeSound() {
    const Context = window.AudioContext || window.webkitAudioContext;
    if (!Context || (!state.click && !state.tune)) return;
    if (!audio) audio = new Context();
    if (voice) voice.disconnect();
    voice = audio.createGain();
    voice.connect(audio.destination);
  }
  function hush() {
    if (voice) voice.disconnect();
    voice = null;
  }

  // Play time runs on from where play began; round a loop it is folded back into the dance.

  let run = null;

  function begin(withLeadIn) {
    hush();
    wakeSound();
    const rate = state.speed / 100;
    const lead = withLeadIn && state.countIn ? dance.barSeconds / rate : 0;
    const from = secondsOf(state.count);
    const ends = loopEnds();
    run = {
      rate, from, lead, told: from,
      loop: ends && ends.map(secondsOf),
      // What is seen waits for what is heard, which is late where a loudspeaker is far away.
      began: performance.now() / 1000 + 0.06 + lead + (audio && audio.outputLatency ? audio.outputLatency : 0),
      heard: audio ? audio.currentTime + 0.06 + lead : 0,
    };
    if (lead && voice && state.click) {
      dance.shares.slice(0, 4).forEach((share, count) => clickAt(run.heard - lead + share * lead, count % 2 === 0));
    }
    // The upbeat before the first bar sounds while that is counted in.
    if (lead && voice && state.tune && from === 0) {
      for (const note of notes) {
        const at = run.heard + note.at / rate;
        if (note.at < 0 && at > audio.currentTime) noteAt(at, note.length / rate, note.key);
      }
    }
  }

  function fold(played) {
    if (!run.loop || played < run.loop[1]) return played;
    const [from, to] = run.loop;
    return from + ((played - from) % (to - from));
  }

  function schedule() {
    if (!run || !audio || !voice || audio.state !== "running") return;
    const until = run.from + (audio.currentTime - run.heard + AHEAD) * run.rate;
    while (run.told < until - 1e-9) {
      const here = fold(run.told);
      const end = run.loop ? run.loop[1] : secondsOf(counts);
      const there = Math.min(here + until - run.told, end);
      if (there <= here + 1e-9) break;
      const when = (seconds) => Math.max(run.heard + (run.told + seconds - here - run.from) / run.rate, audio.currentTime);
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
      run.told += there - here;
    }
  }

  let awake = null;
  async function keepAwake(wanted) {
    try {
      if (wanted && navigator.wakeLock) awake = await navigator.wakeLock.request("screen");
      else if (awake) { awake.release(); awake = null; }
    } catch { /* The phone decides. */ }
  }

  function play() {
    if (state.playing) return;
    if (state.count >= counts - 1e-6) state.count = 0;
    state.playing = true;
    keepAwake(true);
    wakeSound();
    renew();
    // Sound that sleeps takes a moment to wake, or does not; the dance waits for it a little, and then goes without.
    const woken = audio && audio.state === "suspended" ? audio.resume().catch(() => {}) : null;
    const patience = new Promise((done) => setTimeout(done, 300));
    Promise.race([woken, patience]).then(() => {
      if (!state.playing || run) return;
      begin(true);
      requestAnimationFrame(tick);
    });
  }
  function pause() {
    if (!state.playing) return;
    state.playing = false;
    run = null;
    hush();
    keepAwake(false);
    find("lead-in").hidden = true;
    renew();
    tell();
  }
  function tick() {
    if (!state.playing) return;
    const since = performance.now() / 1000 - run.began;
    const leadIn = since < 0 && run.lead > 0;
    find("lead-in").hidden = !leadIn;
    if (leadIn) {
      const share = Math.min(Math.max(1 + since / run.lead, 0), 0.999);
      const said = String(Math.floor(countOf(share * dance.barSeconds)) + 1);
      if (find("lead-in").textContent !== said) find("lead-in").textContent = said;
    } else {
      const at = fold(run.from + Math.max(since, 0) * run.rate);
      state.count = Math.min(countOf(at), counts);
    }
    if (state.count >= counts && !run.loop) {
      pause();
      return;
    }
    renew();
    requestAnimationFrame(tick);
  }
  setInterval(schedule, 40);

  // A choice changed while playing: on from here, without counting in again.
  function again() {
    if (state.playing && run) begin(false);
    renew();
  }
  function seek(count) {
    const near = Math.round(count);
    state.count = Math.min(Math.max(Math.abs(count - near) < 1e-6 ? near : count, 0), counts);
    if (!Number.isFinite(state.count)) state.count = 0;
    again();
    if (!state.playing) tell();
  }
  const step = (by) => {
    const whole = by > 0 ? Math.floor(state.count + 1e-6) : Math.ceil(state.count - 1e-6);
    pause();
    seek(whole + by);
  };
  function stepFigure(by) {
    const index = spanAt(state.count);
    const begin = dance.spans[index].bar * 4;
    const wanted = by < 0 && state.count > begin + 1 ? index : index + by;
    seek(wanted >= dance.spans.length ? counts : dance.spans[Math.max(wanted, 0)].bar * 4);
  }

  // Drawing.

  const picture = find("picture");
  const pen = picture.getContext("2d");
  const TAU = Math.PI * 2;
  let ink = {};
  function readInk() {
    const style = getComputedStyle(document.documentElement);
    for (const name of ["floor", "words", "quiet", "faint", "odd", "even", "outline", "number", "linen"]) {
      ink[name] = style.getPropertyValue(`--${name}`).trim();
    }
  }

  // The floor that the figure needs; in its first two counts it grows or shrinks from the figure before.
  function boundsAt(count) {
    const index = spanAt(Math.min(count, counts - 1e-6));
    const here = dance.played[dance.spans[index].played].bounds;
    const share = Math.min((count - dance.spans[index].bar * 4) / 2, 1);
    if (index === 0 || share >= 1 || state.byCounts) return here;
    const before = dance.played[dance.spans[index - 1].played].bounds;
    return here.map((edge, side) => straight(before[side], edge, share * share * (3 - 2 * share)));
  }

  function frameNow(all, count) {
    const wide = picture.clientWidth, high = picture.clientHeight;
    const [x0, y0, x1, y1] = boundsAt(count);
    const own = state.view === "own" && state.chosen !== null;
    const up = own ? (all[state.chosen].facing * Math.PI) / 180 : 0;
    const top = own ? 6 : 26;
    const middle = [(x0 + x1) / 2, (y0 + y1) / 2];
    // Turned floors are shown by the circle round them, so that nothing grows and shrinks as you turn.
    const across = own ? Math.hypot(x1 - x0, y1 - y0) - 0.5 : x1 - x0;
    const along = own ? across : y1 - y0;
    // A picture can have next to no room, as in a frame that is folded away: then nothing has any size, not less.
    const scale = Math.max(Math.min((wide - 8) / across, (high - top - 6) / along), 0);
    const [sin, cos] = [Math.sin(up), Math.cos(up)];
    const centre = [wide / 2, top + (high - top - 6) / 2];
    const place = (x, y) => {
      const dx = x - middle[0], dy = y - middle[1];
      return [centre[0] + (dx * cos - dy * sin) * scale, centre[1] - (dx * sin + dy * cos) * scale];
    };
    return { place, scale, up, wide, high, bounds: [x0, y0, x1, y1] };
  }

  function line(points, colour, width, dash) {
    pen.beginPath();
    points.forEach(([x, y], index) => (index ? pen.lineTo(x, y) : pen.moveTo(x, y)));
    pen.setLineDash(dash || []);
    pen.strokeStyle = colour;
    pen.lineWidth = width;
    pen.stroke();
    pen.setLineDash([]);
  }
  function words(text, [x, y], size, colour, heavy) {
    pen.font = `${heavy ? "700" : "400"} ${size}px system-ui, sans-serif`;
    pen.textAlign = "center";
    pen.textBaseline = "middle";
    pen.fillStyle = colour;
    pen.fillText(text, x, y);
  }

  function drawFloor(frame) {
    const { place, scale } = frame;
    const highest = Math.max(...dance.stands.map(([, y]) => y), 0) + 0.9;
    if (dance.longways) line([place(0, highest), place(0, -highest)], ink.faint, 1, [3, 9]);
    dance.stands.forEach(([x, y], index) => {
      const [right, down] = place(x, y);
      const arm = Math.min(Math.max(scale * 0.065, 2), 9);
      line([[right - arm, down], [right + arm, down]], ink.quiet, 1.5);
      line([[right, down - arm], [right, down + arm]], ink.quiet, 1.5);
      const out = x === 0 ? 1 : Math.sign(x);
      if (dance.dancers <= 40) words(String(index + 1), place(x + out * 0.19, y), Math.min(Math.max(scale * 0.11, 9), 14), ink.quiet);
    });
    const [right, down] = state.view === "own" && state.chosen !== null ? place((frame.bounds[0] + frame.bounds[2]) / 2, frame.bounds[3] - 0.1) : [frame.wide / 2, 13];
    words("\u266A music \u266A", [right, down], 13, ink.quiet);
  }

  // The chosen dancer's path for two bars back, solid, and two on, dotted.
  function drawTrail(frame, count) {
    if (state.chosen === null) return;
    const colour = state.chosen % 2 ? ink.even : ink.odd;
    const path = (from, to) => {
      const points = [];
      for (let at = from; at < to; at += 0.125) points.push(at);
      points.push(to);
      return points.map((at) => poseOf(state.chosen, at)).map(({ x, y }) => frame.place(x, y));
    };
    pen.globalAlpha = 0.85;
    const width = Math.min(Math.max(frame.scale * 0.026, 1.5), 4);
    line(path(count, Math.min(count + 8, counts)), colour, width, [width * 1.2, width * 2.2]);
    line(path(Math.max(count - 8, 0), count), colour, width);
    pen.globalAlpha = 1;
  }

  function drawDancer(frame, pose, chosen) {
    const { scale } = frame;
    const even = pose.number % 2 === 0;
    const hue = even ? ink.even : ink.odd;
    const width = (metres) => Math.min(Math.max(metres * scale, 0.8), 3);
    const ellipse = (x, y, rx, ry, fill, edge, edgeWidth) => {
      pen.beginPath();
      pen.ellipse(x * scale, -y * scale, rx * scale, ry * scale, 0, 0, TAU);
      if (fill) { pen.fillStyle = fill; pen.fill(); }
      if (edge) { pen.strokeStyle = edge; pen.lineWidth = edgeWidth; pen.stroke(); }
    };
    pen.save();
    pen.translate(...frame.place(pose.x, pose.y));
    if (chosen) {
      pen.beginPath();
      pen.arc(0, 0, dance.body.ring * scale, 0, TAU);
      pen.setLineDash([3, 4]);
      pen.strokeStyle = ink.words;
      pen.lineWidth = 1.5;
      pen.stroke();
      pen.setLineDash([]);
    }
    pen.save();
    pen.rotate((pose.facing * Math.PI) / 180 - frame.up);
    for (const [side, foot] of [[-1, "left"], [1, "right"]]) {
      const carries = pose.weight === foot || pose.weight === "both";
      ellipse(side * 0.11, 0.2, 0.052, 0.105, carries ? ink.words : null, ink.words, width(0.013));
    }
    const [half, deep] = [dance.body.breadth / 2, dance.body.depth / 2];
    if (even) {
      pen.beginPath();
      const box = [-half * scale, -deep * scale, half * 2 * scale, deep * 2 * scale];
      if (pen.roundRect) pen.roundRect(...box, 0.05 * scale);
      else pen.rect(...box);
      pen.fillStyle = hue;
      pen.fill();
      pen.strokeStyle = ink.outline;
      pen.lineWidth = width(0.012);
      pen.stroke();
    } else {
      ellipse(0, 0, half, deep, hue, ink.outline, width(0.012));
    }
    for (const [side, raised] of [[-1, pose.left_hand], [1, pose.right_hand]]) {
      const hand = [side * 0.31, 0.16 * (raised - 0.5)];
      line([[side * 0.24 * scale, 0], [hand[0] * scale, -hand[1] * scale]], hue, Math.max(0.024 * scale, 1));
      if (dance.holding === "handkerchiefs") {
        ellipse(...hand, 0.035 + 0.05 * raised, 0.035 + 0.05 * raised, ink.linen, ink.outline, width(0.009));
      } else if (dance.holding === "sticks" && side > 0) {
        const ends = [[0.31 - 0.3 * raised, hand[1] + 0.32], hand, [0.36, -0.2]].map(([x, y]) => [x * scale, -y * scale]);
        line(ends, ink.outline, Math.max(0.055 * scale, 1.4));
        line(ends, ink.linen, Math.max(0.035 * scale, 1.4));
      } else {
        ellipse(...hand, 0.03, 0.03, hue, ink.outline, width(0.009));
      }
    }
    pen.beginPath();
    [[-0.05, 0.1], [0, 0.185], [0.05, 0.1]].forEach(([x, y], index) => (index ? pen.lineTo(x * scale, -y * scale) : pen.moveTo(x * scale, -y * scale)));
    pen.fillStyle = ink.outline;
    pen.fill();
    ellipse(0, 0, 0.115, 0.115, ink.outline);
    pen.restore();
    const text = String(pose.number);
    words(text, [0, 0], [0.165, 0.14, 0.1][Math.min(text.length, 3) - 1] * scale, ink.number, true);
    pen.restore();
  }

  function draw() {
    // Nobody sees it now; it is drawn once it has a size.
    if (picture.clientWidth === 0 || picture.clientHeight === 0) return;
    // A page that is loaded where it is not shown has no colours yet.
    if (!ink.floor) readInk();
    const count = shown();
    const all = poses(count);
    const sharp = Math.min(window.devicePixelRatio || 1, 3);
    const size = [picture.clientWidth, picture.clientHeight].map((side) => Math.round(side * sharp));
    if (picture.width !== size[0] || picture.height !== size[1]) [picture.width, picture.height] = size;
    pen.setTransform(sharp, 0, 0, sharp, 0, 0);
    pen.fillStyle = ink.floor;
    pen.fillRect(0, 0, picture.clientWidth, picture.clientHeight);
    const frame = frameNow(all, count);
    drawFloor(frame);
    drawTrail(frame, count);
    all.forEach((pose, index) => index !== state.chosen && drawDancer(frame, pose, false));
    if (state.chosen !== null) drawDancer(frame, all[state.chosen], true);
  }

  // Words.

  const spanOf = (count) => dance.spans[spanAt(Math.min(count, counts - 1e-6))];
  const put = (id, text) => {
    if (find(id).textContent !== text) find(id).textContent = text;
  };
  const nameOf = (span) => span.call && span.call !== span.name ? `${span.call} (${span.name})` : span.name;
  const callOf = (span) => span.call || span.name;
  const personOf = (dancer) => dance.names[dancer] ? `${dancer + 1}, ${dance.names[dancer]}` : `${dancer + 1}`;

  function momentWords(count) {
    if (count >= counts) return "the end";
    const span = spanOf(count);
    const local = Math.floor(count - span.bar * 4 + 1e-6);
    return `bar ${Math.floor(local / 4) + 1} of ${span.bars}, count ${(local % 4) + 1}`;
  }

  // What the chosen dancer does in the phrase at a count, and in the one after it.
  function phrasesAt(count) {
    if (state.chosen === null) return [null, null];
    const index = spanAt(Math.min(count, counts - 1e-6));
    const list = (span) => (dance.played[span.played].words[state.chosen] || []).map(([begin, end, text]) =>
      ({ begin: begin + span.bar * 4, end: end + span.bar * 4, text: dance.texts[text], span }));
    const near = list(dance.spans[index]).concat(index + 1 < dance.spans.length ? list(dance.spans[index + 1]) : []);
    const now = near.findIndex(({ begin, end }) => begin <= count + 1e-6 && count + 1e-6 < end);
    const next = now >= 0 ? near[now + 1] : near.find(({ begin }) => begin > count);
    return [now >= 0 ? near[now] : null, next || null];
  }

  function showWords(count) {
    if (state.chosen === null) {
      put("now", "Choose your number to see your own feet, hands and words.");
      const next = dance.spans[spanAt(Math.min(count, counts - 1e-6)) + 1];
      put("next", next ? `Next figure: ${nameOf(next)}.` : "");
      return;
    }
    const [now, next] = phrasesAt(count);
    put("now", now ? `Now: ${now.text}` : "");
    const begins = next && next.begin === next.span.bar * 4 ? `${callOf(next.span)}: ` : "";
    put("next", next ? `Next: ${begins}${next.text}` : "");
  }

  let strip = "";
  function showStrip(count) {
    const host = find("strip");
    host.hidden = state.chosen === null;
    if (state.chosen === null) return;
    const here = Math.min(Math.floor(count + 1e-6), counts - 1);
    const first = Math.floor(here / 4) * 4;
    const key = `${state.chosen} ${first}`;
    if (strip !== key) {
      strip = key;
      const element = (name, text = "") => {
        const made = document.createElement("span");
        made.className = name;
        made.textContent = text;
        return made;
      };
      const head = element("head cell");
      head.append(element("step"), element("", "L"), element("", "R"), element(""), element("number"));
      const cells = [head];
      const said = [[], []];
      for (let at = first; at < first + 8; at++) {
        const cell = element(`cell${at % 4 === 0 ? " bar" : ""}`);
        cells.push(cell);
        if (at >= counts) {
          cell.classList.add("over");
          continue;
        }
        const fall = fallAt(state.chosen, at).now;
        const [short, name] = dance.steps[fall.step];
        cell.append(element("step", fall.begins ? short : ""));
        for (const [foot, letter] of [[0, "L"], [1, "R"]]) {
          const lands = fall.lands === foot || fall.lands === 2;
          cell.append(lands ? element(`print${fall.hop ? " hop" : ""}`, letter) : element("none", fall.lands === 3 ? "\u2191" : ""));
        }
        const hand = element("hand");
        const high = document.createElement("i");
        high.style.height = `${Math.round(Math.max(...fall.hands) * 100)}%`;
        hand.append(high);
        cell.append(hand, element("number", at % 4 === 0 ? `${at % 4 + 1}` : String(at % 4 + 1)));
        said[at < first + 4 ? 0 : 1].push(`${fall.begins ? `${name}, ` : ""}${fall.hop ? "hop " : ""}${WEIGHTS[fall.lands]}`);
      }
      host.replaceChildren(...cells);
      host.setAttribute("aria-label", `Your feet this bar: ${said[0].join("; ")}. Next bar: ${said[1].join("; ") || "the end"}.`);
    }
    [...host.children].forEach((cell, index) => cell.classList.toggle("now", index === here - first + 1));
  }

  // For those who listen to the page: the moment when it is stepped, and each new phrase while it plays.
  let told = "";
  function tell() {
    const span = spanOf(state.count);
    let said = `${callOf(span)}, ${momentWords(state.count)}.`;
    if (state.chosen !== null) {
      const pose = poseOf(state.chosen, state.count);
      const on = { left: "on the left", right: "on the right", both: "on both feet", air: "in the air" }[pose.weight];
      said += ` You are ${on}.`;
      const [now] = phrasesAt(state.count);
      const phrase = now && `${state.chosen} ${now.begin}`;
      if (phrase && phrase !== told) said += ` ${now.text}`;
      told = phrase;
    }
    put("said", said);
  }
  let phrase = "";
  function tellPhrase() {
    const [now] = phrasesAt(state.count);
    const key = now ? `${state.chosen} ${now.begin}` : callOf(spanOf(state.count));
    if (key === phrase) return;
    phrase = key;
    put("said", `${callOf(spanOf(state.count))}. ${now ? now.text : ""}`);
  }

  let listed = null;
  function renew() {
    const count = shown();
    const span = spanOf(count);
    put("figure", span.name);
    put("call", span.call && span.call !== span.name ? `call \u201C${span.call}\u201D` : span.strain ? `strain ${span.strain}` : "");
    put("moment", momentWords(count));
    const scrub = find("scrub");
    const moment = `${callOf(span)}, ${momentWords(count)}`;
    if (scrub.getAttribute("aria-valuetext") !== moment) scrub.setAttribute("aria-valuetext", moment);
    const value = String(Math.floor(count + 1e-6));
    if (scrub.value !== value) scrub.value = value;
    put("play", state.playing ? "Stop" : "Play");
    const index = spanAt(Math.min(count, counts - 1e-6));
    if (listed !== index) {
      listed = index;
      [...find("figures").children].forEach((item, place) => item.firstChild.setAttribute("aria-current", String(place === index)));
    }
    showWords(count);
    showStrip(count);
    const who = state.chosen === null ? "" : `, ${state.chosen + 1} chosen`;
    const label = `The set from above: ${nameOf(span)}, ${momentWords(count)}${who}`;
    if (!state.playing && picture.getAttribute("aria-label") !== label) picture.setAttribute("aria-label", label);
    if (state.playing) tellPhrase();
    draw();
  }

  // Choices.

  const press = (id, value) => [...find(id).children].forEach((button) => button.setAttribute("aria-pressed", String(button.dataset.value === value)));
  function choose(number) {
    const dancer = Number.isInteger(number) && number >= 1 && number <= dance.dancers ? number - 1 : null;
    state.chosen = dancer;
    press("numbers", dancer === null ? "0" : String(dancer + 1));
    try { localStorage.setItem("bellpad-number", String(number)); } catch { /* Not kept, then. */ }
    renew();
    put("said", dancer === null ? "No dancer chosen." : `You dance ${personOf(dancer)}.`);
  }
  function setLoop(kind) {
    state.loop = ["off", "phrase", "figure"].includes(kind) ? kind : "off";
    press("loop", state.loop);
    again();
  }
  function setView(kind) {
    state.view = kind === "own" ? "own" : "music";
    press("view", state.view);
    renew();
  }
  function setSpeed(percent) {
    state.speed = Math.min(Math.max(Math.round(percent), 40), 120);
    find("speed").value = String(state.speed);
    put("speed-said", `${state.speed} %`);
    again();
  }
  function setLook(look) {
    document.documentElement.dataset.look = look;
    find("look").setAttribute("aria-pressed", String(look === "paper"));
    readInk();
    renew();
  }

  const numbers = find("numbers");
  const makeNumber = (value, text, kind, label) => {
    const button = document.createElement("button");
    button.type = "button";
    button.className = kind;
    button.dataset.value = value;
    button.textContent = text;
    button.setAttribute("aria-label", label);
    button.addEventListener("click", () => choose(Number(value)));
    numbers.append(button);
  };
  for (let number = 1; number <= dance.dancers; number++) {
    makeNumber(String(number), String(number), number % 2 ? "odd" : "even", personOf(number - 1));
  }
  makeNumber("0", "None", "all", "No dancer");

  dance.spans.forEach((span, index) => {
    const item = document.createElement("li");
    const button = document.createElement("button");
    button.type = "button";
    const bars = document.createElement("span");
    bars.textContent = `${span.strain ? `${span.strain}, ` : ""}bar ${span.bar + 1}`;
    button.append(`${index + 1}. ${nameOf(span)}`, bars);
    button.addEventListener("click", () => seek(span.bar * 4));
    item.append(button);
    find("figures").append(item);
  });

  const notesSaid = [dance.notes, ...new Set(dance.spans.filter(({ notes }) => notes).map(({ name, notes }) => `${name}: ${notes}`))].filter(Boolean);
  find("notes").hidden = notesSaid.length === 0;
  find("notes-text").textContent = notesSaid.join(" ");
  put("side", dance.side);

  find("scrub").max = String(counts);
  find("scrub").addEventListener("input", (event) => seek(Number(event.target.value)));
  find("speed").addEventListener("input", (event) => setSpeed(Number(event.target.value)));
  find("play").addEventListener("click", () => (state.playing ? pause() : play()));
  find("back").addEventListener("click", () => step(-1));
  find("on").addEventListener("click", () => step(1));
  find("back-figure").addEventListener("click", () => stepFigure(-1));
  find("on-figure").addEventListener("click", () => stepFigure(1));
  find("loop").addEventListener("click", (event) => event.target.dataset.value && setLoop(event.target.dataset.value));
  find("view").addEventListener("click", (event) => event.target.dataset.value && setView(event.target.dataset.value));
  for (const [id, key] of [["click", "click"], ["tune", "tune"], ["count-in", "countIn"], ["by-counts", "byCounts"]]) {
    const show = () => find(id).setAttribute("aria-pressed", String(state[key]));
    find(id).addEventListener("click", () => {
      state[key] = !state[key];
      show();
      again();
    });
    show();
  }
  find("tune").hidden = notes.length === 0;
  find("look").addEventListener("click", () => setLook(document.documentElement.dataset.look === "paper" ? "slate" : "paper"));
  // A touch on the floor chooses the dancer who is there.
  picture.addEventListener("click", (event) => {
    const all = poses(shown());
    const frame = frameNow(all, shown());
    const box = picture.getBoundingClientRect();
    const far = all.map(({ x, y }) => {
      const [right, down] = frame.place(x, y);
      return Math.hypot(right - (event.clientX - box.left), down - (event.clientY - box.top));
    });
    const nearest = far.indexOf(Math.min(...far));
    if (far[nearest] < Math.max(0.4 * frame.scale, 26)) choose(nearest + 1);
  });

  document.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const at = event.target instanceof Element ? event.target : document.body;
    const onControl = at.closest("button, summary, input, a") !== null;
    const act = {
      " ": () => (onControl && !at.matches("input") ? null : () => (state.playing ? pause() : play())),
      ArrowLeft: () => (at.matches("#speed") ? null : () => step(event.shiftKey ? -4 : -1)),
      ArrowRight: () => (at.matches("#speed") ? null : () => step(event.shiftKey ? 4 : 1)),
      Home: () => (at.matches("#speed") ? null : () => seek(0)),
      End: () => (at.matches("#speed") ? null : () => seek(counts)),
      l: () => () => setLoop({ off: "phrase", phrase: "figure", figure: "off" }[state.loop]),
      v: () => () => setView(state.view === "own" ? "music" : "own"),
      "+": () => () => setSpeed(state.speed + 5),
      "-": () => () => setSpeed(state.speed - 5),
    }[event.key.length === 1 ? event.key.toLowerCase() : event.key];
    const done = /^[0-9]$/.test(event.key) ? () => choose(Number(event.key)) : act && act();
    if (done) {
      event.preventDefault();
      done();
    }
  });
  document.addEventListener("visibilitychange", () => {
    if (document.hidden) pause();
  });
  window.addEventListener("resize", renew);
  // The picture can become larger or smaller with no change of the window.
  if (window.ResizeObserver) new ResizeObserver(draw).observe(picture);

  let remembered = null;
  try { remembered = Number(localStorage.getItem("bellpad-number")); } catch { /* None, then. */ }
  press("loop", state.loop);
  press("view", state.view);
  setLook(matchMedia("(prefers-color-scheme: light)").matches ? "paper" : "slate");
  choose(remembered || 0);
  put("said", "");

  // For tests and for those who like to look inside.
  window.bellpad = {
    seek, play, pause, step, choose,
    loop: setLoop, view: setView, speed: setSpeed,
    count: () => state.count,
    playing: () => state.playing,
    pose: () => ({ count: state.count, dancers: poses(state.count) }),
  };
})();
