use super::{
    Handout, Paper, SMALLEST,
    flow::{Flow, line_height, put_feet, wrapped},
    reading::Role,
    stepping_rows::{Rows, UNDER},
    stepping_runs::{Run, Runs, runs},
};
use crate::dance::{Dance, Dancer, Figure, Foot, Holding, Metre};
use crate::figures::{motion_of, one_on_the_spot};
use crate::motion::limbs::{Gait, OnCount, on_side};
use crate::motion::{Clock, Motion, Weight};
use crate::picture::{Anchor, EyeBody, EyeFrame, EyeSide, Mark, PAPER, Stroke, eye_level_marks, room_for};
use crate::words::body_words;

/// The most rows that are drawn: no dance has so many steps.
const MOST_ROWS: usize = 200;
/// How wide the words at the left of a row are, points.
const WORDS: f32 = 128.0;
/// A stick that is held at its middle, 0.6 m long, has its tip so far over the hand at the most, with its edges, metres [CALC].
const STICK_OVER: f64 = 0.34;

/// What is said at the foot of each page.
const CAUTION: &str =
    "Land with bent knees, toes then heels. Learn high capers little by little. Stop for pain.";

/// The title.
const TITLE: &str = "The stepping";

/// The stepping of a dance: each bar of steps that is danced in it, once, count by count at eye level. Of one dancer, or of all.
#[must_use]
pub fn stepping(dance: &Dance, motion: &Motion, dancer: Option<Dancer>, paper: Paper) -> Handout {
    let title = format!("The stepping, {}", dance.title);
    let found = runs(dance, motion, dancer, MOST_ROWS);
    let mut flow = Flow::new(paper, TITLE, &dance.side, &under(dance, dancer));
    if found.all.is_empty() {
        let edges = flow.edges();
        flow.text("Nobody dances a step in this dance.", (10.5, false), edges, PAPER.words);
    }
    let notes = found.notes().len() as f32 * line_height(9.5);
    let mut rows = Rows::of(found.rows(), flow.room_below() - notes);
    put_runs(&mut flow, dance, dancer, &found, &mut rows);
    let pages = flow.pages;
    let mut handout = Handout { title, author: dance.author.clone(), pages, bookmarks: Vec::new() };
    put_feet(&mut handout.pages, CAUTION);
    handout
}

/// The same as a section of something longer: the index of the page on which it begins; none where nobody dances a step.
pub(super) fn put_stepping(
    flow: &mut Flow,
    dance: &Dance,
    motion: &Motion,
    dancer: Option<Dancer>,
) -> Option<usize> {
    let found = runs(dance, motion, dancer, MOST_ROWS);
    if found.all.is_empty() {
        return None;
    }
    let under = under(dance, dancer);
    let mut rows = Rows::filling(found.rows(), flow.rooms(TITLE, &under));
    flow.section(TITLE, &under, rows.height());
    let page = flow.pages.len() - 1;
    put_runs(flow, dance, dancer, &found, &mut rows);
    Some(page)
}

/// The line under the title.
fn under(dance: &Dance, dancer: Option<Dancer>) -> String {
    let whose = dancer.map_or_else(String::new, |dancer| format!("number {dancer}"));
    let under =
        [dance.title.as_str(), &whose, "seen from the right side", "the filled foot carries the weight"];
    under.into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join(" · ")
}

impl Runs {
    /// How many rows there are, of which no more than so many are drawn.
    fn all_rows(&self) -> usize {
        self.all.iter().map(|run| run.shown().len()).sum()
    }

    fn rows(&self) -> usize {
        self.all_rows().min(MOST_ROWS)
    }

    /// What is left out.
    fn notes(&self) -> Vec<String> {
        let (all, rows) = (self.all_rows(), self.rows());
        let mut notes = Vec::new();
        if all + self.more > rows {
            notes.push(format!("and {} more bars of other steps", all + self.more - rows));
        }
        if self.dancers_more > 0 {
            notes.push(format!("and {} more dancers, whose steps are not looked at", self.dancers_more));
        }
        notes
    }
}

fn put_runs(flow: &mut Flow, dance: &Dance, dancer: Option<Dancer>, found: &Runs, rows: &mut Rows) {
    let stick_in = dancer.map_or(1, |dancer| dance.stick_hand(dancer.number()));
    let danced = found.all.iter().map(|run| Danced::of(dance, run, stick_in));
    let danced: Vec<Option<Danced>> = danced.collect();
    // All are as large as the highest has room for.
    let tall = danced.iter().flatten().map(Danced::tall).fold(room_for(dance.height), f64::max);
    for (run, danced) in found.all.iter().zip(&danced) {
        if let Some(danced) = danced {
            put_run(flow, (run, danced), rows, tall);
        }
    }
    let edges = flow.edges();
    for note in found.notes() {
        flow.text(&note, (9.5, false), edges, PAPER.words);
    }
}

/// One dancer on the spot who dances a run, with what goes before it and comes after: counts before it, and the motion.
fn on_the_spot(dance: &Dance, run: &Run) -> Option<(f64, Motion, Clock)> {
    let mut alone = one_on_the_spot(dance);
    alone.music.metre = *run.metres.first()?;
    let mut before = 0.0;
    let parts = [run.before.clone(), Some(run.as_around()), run.after.clone()];
    for (index, part) in parts.into_iter().enumerate() {
        let Some(part) = part else { continue };
        let mut figure = Figure::drawn(&format!("part {index}"), "", part.metres.len() as u32);
        figure.phrase = part.phrase;
        for (bar, metre) in (1..).zip(&part.metres).filter(|(_, metre)| **metre != alone.music.metre) {
            figure.metres.insert(bar, *metre);
        }
        if index == 0 {
            before = part.metres.iter().map(|metre| f64::from(metre.counts())).sum();
        }
        alone.figures.push(figure);
    }
    let motion = motion_of(&alone, None).ok()?;
    let clock = Clock::of_dance(&alone, &motion);
    Some((before, motion, clock))
}

/// A run: one row a bar, its counts from left to right; bars that are the same once. The highest body is so tall, metres.
fn put_run(flow: &mut Flow, (run, danced): (&Run, &Danced), rows: &mut Rows, tall: f64) {
    for (bar, same) in run.shown() {
        let Some(metre) = run.metres.get(bar) else { continue };
        if !rows.next(flow) {
            return;
        }
        let left = flow.edges()[0];
        let top = flow.y;
        let mut y = top + 12.0;
        if bar == 0 {
            flow.begin(Role::Heading(flow.depth + 1));
            y = put_names(flow, run, *metre, danced.dance);
        } else {
            flow.begin(Role::Text);
            flow.words([left, y], (SMALLEST, false), Anchor::Left, &format!("bar {}", bar + 1), PAPER.quiet);
            y += line_height(9.0);
        }
        if same > 0 {
            let bars = if same == 1 { "bar" } else { "bars" };
            let text = format!("and {same} more {bars} the same");
            flow.words([left, y], (9.0, false), Anchor::Left, &text, PAPER.words);
        }
        flow.end();
        let begin: u32 = run.metres.iter().take(bar).map(|metre| metre.counts()).sum();
        put_bar(flow, danced, danced.before + f64::from(begin), *metre, (rows.bodies, tall));
        flow.y = top + rows.height();
    }
}

/// A dancer on the spot, of whom bars are drawn.
struct Danced<'a> {
    dance: &'a Dance,
    /// Counts before the run.
    before: f64,
    /// How many counts the run has.
    counts: u32,
    motion: Motion,
    clock: Clock,
    gait: Gait,
    stick_in: usize,
}

impl<'a> Danced<'a> {
    fn of(dance: &'a Dance, run: &Run, stick_in: usize) -> Option<Self> {
        let (before, motion, clock) = on_the_spot(dance, run)?;
        let gait = Gait::of(&motion, &clock, Dancer(0));
        let counts = run.metres.iter().map(|metre| metre.counts()).sum();
        Some(Self { dance, before, counts, motion, clock, gait, stick_in })
    }

    /// How high the tip of a stick comes, metres; 0 without sticks.
    fn tall(&self) -> f64 {
        if self.dance.holding != Holding::Sticks {
            return 0.0;
        }
        let tip = |count: u32| {
            let count = self.before + f64::from(count);
            let limbs = self.gait.seen_on(&self.motion, &self.clock, count).0;
            on_side(limbs.hands, self.stick_in).z + STICK_OVER
        };
        (0..self.counts).map(tip).fold(0.0, f64::max)
    }
}

/// What a run is, at the left of its row: how far down that goes.
fn put_names(flow: &mut Flow, run: &Run, metre: Metre, dance: &Dance) -> f32 {
    let left = flow.edges()[0];
    let mut y = flow.y + 10.0;
    for line in wrapped(&run.title(), (11.5, true), WORDS - 8.0).into_iter().take(3) {
        flow.words([left, y], (11.5, true), Anchor::Left, &line, PAPER.words);
        y += line_height(11.5);
    }
    let lead = match (run.lead, run.both_leads) {
        (Some(Foot::Left), false) => ", left first",
        (Some(Foot::Right), false) => ", right first",
        (Some(Foot::Left), true) => ", left first; right first too",
        (Some(Foot::Right), true) => ", right first; left first too",
        (None, _) => "",
    };
    let mut shorts: Vec<&str> = run.names.iter().map(|(short, _)| short.as_str()).collect();
    shorts.dedup();
    flow.begin(Role::Text);
    let shorts = shorts.join(", ");
    let own = if metre == dance.music.metre { String::new() } else { format!("in {metre}") };
    for text in [format!("{shorts}{lead}"), run.first.clone(), own] {
        for line in
            wrapped(&text, (9.0, false), WORDS - 8.0).into_iter().take(3).filter(|line| !line.is_empty())
        {
            flow.words([left, y], (9.0, false), Anchor::Left, &line, PAPER.words);
            y += line_height(9.0);
        }
    }
    y
}

/// The counts of a bar.
fn put_bar(flow: &mut Flow, danced: &Danced, begin: f64, metre: Metre, (bodies, tall): (f32, f64)) {
    let Danced { dance, motion, clock, gait, stick_in, .. } = danced;
    let [left, right] = flow.edges();
    let left = left + WORDS;
    let counts = metre.counts();
    let wide = (right - left) / counts as f32;
    let floor = flow.y + bodies;
    let words = bar_words(gait, begin, counts);
    let area = [left, flow.y, right, floor + UNDER];
    flow.begin(Role::Picture(format!("The stepping, count by count. {words}."), area));
    let scale = (f64::from(bodies) / tall).min(f64::from(wide) / 1.24);
    for count in 0..counts {
        // Strong beats are marked: the first of each two counts.
        if count.is_multiple_of(2) {
            flow.mark(Mark::Block {
                at: [left + wide * (count as f32 + 0.5), flow.y + bodies / 2.0],
                radii: [wide / 2.0 - 1.0, bodies / 2.0],
                corner: 0.0,
                turn: 0.0,
                fill: Some(PAPER.panel),
                stroke: None,
            });
        }
    }
    let stroke = Stroke { colour: PAPER.faint, width: 1.0 };
    flow.mark(Mark::Line { points: vec![[left, floor], [right, floor]], stroke, dash: None });
    for count in 0..counts {
        let at = begin + f64::from(count);
        let Some(on) = gait.on_count(at as usize) else { continue };
        let (limbs, shown) = gait.seen_on(motion, clock, at);
        let x = left + wide * (count as f32 + 0.5);
        let middle = limbs.middle();
        // A foot goes out to the front, in a caper far: the body stands behind the middle of its column.
        let frame = EyeFrame {
            centre: (middle.x, middle.y),
            floor: [x - (scale * 0.22) as f32, floor],
            scale,
            looks: EyeSide::Side.looks(limbs.facing),
        };
        let holding = if dance.holding == Holding::Sticks { Holding::Sticks } else { Holding::Handkerchiefs };
        let seen = EyeBody {
            limbs: &limbs,
            carries: gait.carries(clock, shown),
            trails: gait.trails(motion, clock, at),
            number: Dancer(0).number(),
            holding,
            stick_in: *stick_in,
            numbered: false,
        };
        if let Some(page) = flow.pages.last_mut() {
            eye_level_marks(&mut page.marks, &frame, &PAPER, seen);
        }
        put_height(flow, (gait, clock), on, (shown, at), (&frame, x + wide * 0.44));
        let strong = count.is_multiple_of(2);
        flow.words([x, floor + 9.0], (9.5, strong), Anchor::Middle, &(count + 1).to_string(), PAPER.words);
        flow.words([x, floor + 21.0], (9.0, false), Anchor::Middle, &under_body(on), PAPER.words);
    }
    if let Some(page) = flow.pages.last_mut() {
        page.words += &format!("{words}. ");
    }
    flow.end();
}

/// The counts of a bar in words.
fn bar_words(gait: &Gait, begin: f64, counts: u32) -> String {
    let told = (0..counts).filter_map(|count| {
        let on = gait.on_count((begin + f64::from(count)) as usize)?;
        Some(format!("count {}: {}", count + 1, body_words(on)))
    });
    told.collect::<Vec<_>>().join("; ")
}

/// How high a jump is, beside the body in the air.
fn put_height(
    flow: &mut Flow,
    (gait, clock): (&Gait, &Clock),
    on: &OnCount,
    (shown, at): (f64, f64),
    (frame, x): (&EyeFrame, f32),
) {
    if on.weight != Weight::Air || (shown - at).abs() < 1e-9 && on.rise <= 0.0 {
        return;
    }
    let time = clock.seconds(shown);
    let Some(flight) = gait.flights().iter().find(|flight| flight.begin <= time && time <= flight.end) else {
        return;
    };
    let floor = frame.floor[1];
    let top = floor - frame.length(flight.height);
    let stroke = Stroke { colour: PAPER.words, width: 1.0 };
    flow.mark(Mark::Line { points: vec![[x, floor], [x, top]], stroke, dash: None });
    let text = format!("{:.0} cm", flight.height * 100.0);
    flow.words([x - 3.0, f32::midpoint(top, floor)], (SMALLEST, false), Anchor::Right, &text, PAPER.words);
}

/// What lands, and which way the hands go round from here.
fn under_body(on: &OnCount) -> String {
    let lands = letters(on);
    match on.hands[0].circles {
        0.0 => lands.to_owned(),
        inwards if inwards > 0.0 => format!("{lands}, hands circle in"),
        _ => format!("{lands}, hands circle out"),
    }
}

/// What lands, in letters.
fn letters(on: &OnCount) -> &'static str {
    match (on.weight, on.hop, on.stays) {
        (_, _, true) => "stay",
        (Weight::Left, true, _) => "hop L",
        (Weight::Right, true, _) => "hop R",
        (Weight::Left, ..) => "L",
        (Weight::Right, ..) => "R",
        (Weight::Both, ..) => "both",
        (Weight::Air, ..) => "in the air",
    }
}
