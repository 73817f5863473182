use super::{
    Handout, Paper, SMALLEST,
    flow::{Flow, line_height, put_feet, wrapped},
};
use crate::dance::{Dance, Dancer, Figure, Foot, Holding, Metre, Set};
use crate::figures::motion_of;
use crate::motion::limbs::{Gait, OnCount};
use crate::motion::steps::Step;
use crate::motion::{Clock, Motion, Span, Weight};
use crate::picture::{Anchor, EyeBody, EyeFrame, EyeSide, Mark, PAPER, Stroke, TALL, eye_level_marks};
use crate::words::{body_words, first_foot};
use std::collections::BTreeMap;

/// The most rows that are drawn: no dance has so many steps.
const MOST_ROWS: usize = 200;
/// Beyond so many dancers nobody has steps of their own.
const MOST_DANCERS: usize = 40;
/// How wide the words at the left of a row are, points.
const WORDS: f32 = 118.0;
/// How high a row's bodies are, points, and the lines under them.
const BODIES: f32 = 128.0;
const UNDER: f32 = 28.0;
const GAP: f32 = 12.0;

/// What is said at the foot of each page.
const CAUTION: &str =
    "Land with bent knees, toes then heels. Learn high capers little by little. Stop for pain.";

/// The stepping of a dance: each bar of steps that is danced in it, once, count by count at eye level. Of one dancer, or of all.
#[must_use]
pub fn stepping(dance: &Dance, motion: &Motion, dancer: Option<Dancer>, paper: Paper) -> Handout {
    let title = format!("The stepping, {}", dance.title);
    let mut pages = Vec::new();
    let mut flow = None;
    put_stepping(&mut flow, dance, motion, dancer, paper);
    if let Some(made) = flow {
        pages = made.pages;
    }
    let mut handout = Handout { title, author: dance.author.clone(), pages, bookmarks: Vec::new() };
    put_feet(&mut handout.pages, CAUTION);
    handout
}

/// The same as pages of something longer, without their feet; none where nobody dances a step.
pub(super) fn stepping_pages(
    dance: &Dance,
    motion: &Motion,
    dancer: Option<Dancer>,
    paper: Paper,
) -> Vec<super::Page> {
    let mut flow = None;
    let rows = put_stepping(&mut flow, dance, motion, dancer, paper);
    flow.filter(|_| rows > 0).map(|flow| flow.pages).unwrap_or_default()
}

fn put_stepping(
    flow: &mut Option<Flow>,
    dance: &Dance,
    motion: &Motion,
    dancer: Option<Dancer>,
    paper: Paper,
) -> usize {
    let runs = runs(dance, motion, dancer);
    let whose = dancer.map_or_else(String::new, |dancer| format!("number {dancer}"));
    let under =
        [dance.title.as_str(), &whose, "seen from the right side", "the filled foot carries the weight"];
    let under = under.into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join(" · ");
    let flow = flow.insert(Flow::new(paper, "The stepping", &dance.side, &under));
    if runs.is_empty() {
        let edges = flow.edges();
        flow.text("Nobody dances a step in this dance.", (10.5, false), edges, PAPER.words);
    }
    for run in &runs {
        put_run(flow, dance, run);
    }
    runs.len()
}

/// Steps that fill a bar, or more bars where a step is longer than one.
#[derive(Clone, Debug, PartialEq)]
struct Run {
    /// The indices of its steps among the known ones, and their short and full names.
    steps: Vec<usize>,
    names: Vec<(String, String)>,
    /// The foot that leads it, where one does; whether it is danced from the other as well.
    lead: Option<Foot>,
    both_leads: bool,
    metres: Vec<Metre>,
    /// The stepping before and after it where it is first danced, so that it is begun and left as there.
    before: Option<Around>,
    after: Option<Around>,
    /// Where it is first danced.
    first: String,
}

/// What is danced before or after a run.
#[derive(Clone, Debug, PartialEq)]
struct Around {
    phrase: String,
    metres: Vec<Metre>,
}

/// The different runs of steps of a dance in the order in which they first come, but for standing.
fn runs(dance: &Dance, motion: &Motion, dancer: Option<Dancer>) -> Vec<Run> {
    let mut known: BTreeMap<Vec<usize>, usize> = BTreeMap::new();
    let mut runs: Vec<Run> = Vec::new();
    let dancers: Vec<Dancer> = dancer
        .map_or_else(|| Dancer::all(motion.dancers().min(MOST_DANCERS)).collect(), |dancer| vec![dancer]);
    for (line, span) in motion.spans().iter().enumerate() {
        let next = motion.spans().get(line + 1);
        for &dancer in &dancers {
            let all = runs_of(dance, motion, span, dancer);
            for (index, run) in all.iter().enumerate() {
                let is_stand = |step: &usize| motion.known().get(*step).is_none_or(Step::is_stand);
                if run.steps.iter().all(is_stand) {
                    continue;
                }
                if let Some(&row) = known.get(&run.steps) {
                    if let Some(other) = runs.get_mut(row) {
                        other.both_leads |= run.lead.is_some() && run.lead != other.lead;
                    }
                } else if runs.len() < MOST_ROWS {
                    let around = |other: Option<&Run>| other.map(Run::as_around);
                    let before = around(index.checked_sub(1).and_then(|before| all.get(before)));
                    let next =
                        || next.and_then(|next| runs_of(dance, motion, next, dancer).into_iter().next());
                    let after = around(all.get(index + 1).cloned().or_else(next).as_ref());
                    known.insert(run.steps.clone(), runs.len());
                    runs.push(Run { before, after, ..run.clone() });
                }
            }
        }
    }
    runs
}

/// The runs of steps of a dancer in a figure, from bar to bar where a step begins with the bar.
fn runs_of(dance: &Dance, motion: &Motion, span: &Span, dancer: Dancer) -> Vec<Run> {
    let Some(track) = span.track(dancer) else { return Vec::new() };
    let (falls, bars) = (track.footing().falls(), span.bar_counts());
    let name = dance.figures.get(span.figure).map_or("", |figure| figure.name.as_str());
    let mut runs: Vec<Run> = Vec::new();
    for bar in 0..bars.bars() {
        let (begin, end) = (bars.begin_of(bar) as usize, bars.begin_of(bar + 1) as usize);
        let Some(inside) = falls.get(begin..end.min(falls.len())) else { break };
        let begins = inside.first().is_some_and(|fall| fall.begins);
        if begins || runs.is_empty() {
            let lead = track.footing().lead(begin as f64).map(|made| made.foot);
            let led = first_foot(motion.known(), track.footing(), begin).is_some();
            runs.push(Run {
                steps: Vec::new(),
                names: Vec::new(),
                lead: lead.filter(|_| led),
                both_leads: false,
                metres: Vec::new(),
                before: None,
                after: None,
                first: format!("first in {name}, bar {}", bar + 1),
            });
        }
        let Some(run) = runs.last_mut() else { break };
        run.metres.push(bars.metre(bar));
        for fall in inside.iter().filter(|fall| fall.begins) {
            if let Some(step) = motion.known().get(fall.step) {
                run.steps.push(fall.step);
                run.names.push((step.short.clone(), step.name.clone()));
            }
        }
    }
    runs
}

impl Run {
    fn phrase(&self) -> String {
        let shorts: Vec<&str> = self.names.iter().map(|(short, _)| short.as_str()).collect();
        let lead = match self.lead {
            Some(Foot::Left) => "left, ",
            Some(Foot::Right) => "right, ",
            None => "",
        };
        format!("{lead}{}", shorts.join(", "))
    }

    fn as_around(&self) -> Around {
        Around { phrase: self.phrase(), metres: self.metres.clone() }
    }

    /// Its steps with how many of each in a row: `single steps`, `double step`.
    fn title(&self) -> String {
        let mut said: Vec<(String, usize)> = Vec::new();
        for (_, name) in &self.names {
            match said.last_mut().filter(|(known, _)| known == name) {
                Some((_, many)) => *many += 1,
                None => said.push((name.clone(), 1)),
            }
        }
        let each =
            said.into_iter().map(|(name, many)| if many > 1 { format!("{many} × {name}") } else { name });
        each.collect::<Vec<_>>().join(", ")
    }
}

/// One dancer on the spot who dances a run, with what goes before it and comes after: counts before it, and the motion.
fn on_the_spot(dance: &Dance, run: &Run) -> Option<(f64, Motion, Clock)> {
    let mut alone = Dance::new("", Set::longways(1, dance.set.across, dance.set.along));
    alone.music.speed = dance.music.speed;
    alone.music.metre = *run.metres.first()?;
    alone.steps.clone_from(&dance.steps);
    alone.hops = dance.hops;
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

/// A run: one row a bar, its counts from left to right.
fn put_run(flow: &mut Flow, dance: &Dance, run: &Run) {
    let Some((before, motion, clock)) = on_the_spot(dance, run) else { return };
    let gait = Gait::of(&motion, &clock, Dancer(0));
    let mut begin = before;
    for (row, metre) in run.metres.iter().enumerate() {
        flow.need(BODIES + UNDER + GAP);
        if row == 0 {
            put_names(flow, run, *metre, dance);
        } else {
            let left = flow.edges()[0];
            flow.words(
                [left, flow.y + 12.0],
                (SMALLEST, false),
                Anchor::Left,
                &format!("bar {}", row + 1),
                PAPER.quiet,
            );
        }
        put_bar(flow, dance, (&motion, &clock, &gait), begin, *metre);
        begin += f64::from(metre.counts());
        flow.y += BODIES + UNDER + GAP;
    }
}

/// What a run is, at the left of its row.
fn put_names(flow: &mut Flow, run: &Run, metre: Metre, dance: &Dance) {
    let left = flow.edges()[0];
    let mut y = flow.y + 10.0;
    for line in wrapped(&run.title(), 12.0, WORDS - 8.0).into_iter().take(3) {
        flow.words([left, y], (12.0, true), Anchor::Left, &line, PAPER.words);
        y += line_height(12.0);
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
    let shorts = shorts.join(", ");
    let own = if metre == dance.music.metre { String::new() } else { format!("in {metre}") };
    for text in [format!("{shorts}{lead}"), run.first.clone(), own] {
        for line in wrapped(&text, 9.0, WORDS - 8.0).into_iter().take(3).filter(|line| !line.is_empty()) {
            flow.words([left, y], (9.0, false), Anchor::Left, &line, PAPER.words);
            y += line_height(9.0);
        }
    }
}

/// The counts of a bar.
fn put_bar(
    flow: &mut Flow,
    dance: &Dance,
    (motion, clock, gait): (&Motion, &Clock, &Gait),
    begin: f64,
    metre: Metre,
) {
    let [left, right] = flow.edges();
    let left = left + WORDS;
    let counts = metre.counts();
    let wide = (right - left) / counts as f32;
    let floor = flow.y + BODIES;
    let scale = (f64::from(BODIES) / TALL).min(f64::from(wide) / 1.12);
    for count in 0..counts {
        // Strong beats are marked: the first of each two counts.
        if count.is_multiple_of(2) {
            flow.mark(Mark::Block {
                at: [left + wide * (count as f32 + 0.5), flow.y + BODIES / 2.0],
                radii: [wide / 2.0 - 1.0, BODIES / 2.0],
                corner: 0.0,
                turn: 0.0,
                fill: Some(PAPER.panel),
                stroke: None,
            });
        }
    }
    let stroke = Stroke { colour: PAPER.faint, width: 1.0 };
    flow.mark(Mark::Line { points: vec![[left, floor], [right, floor]], stroke, dash: None });
    let mut told = Vec::new();
    for count in 0..counts {
        let at = begin + f64::from(count);
        let Some(on) = gait.on_count(at as usize) else { continue };
        let shown = gait.shown_at(clock, at);
        let limbs = gait.limbs(motion, clock, shown);
        let x = left + wide * (count as f32 + 0.5);
        let middle = limbs.middle();
        // A body leans out to the front: it stands a little behind the middle of its column.
        let frame = EyeFrame {
            centre: (middle.x, middle.y),
            floor: [x - (scale * 0.1) as f32, floor],
            scale,
            looks: EyeSide::Side.looks(limbs.facing),
        };
        let holding = if dance.holding == Holding::Sticks { Holding::Sticks } else { Holding::Handkerchiefs };
        let seen = EyeBody {
            limbs: &limbs,
            trails: gait.trails(motion, clock, shown),
            number: Dancer(0).number(),
            holding,
            numbered: false,
        };
        if let Some(page) = flow.pages.last_mut() {
            eye_level_marks(&mut page.marks, &frame, &PAPER, seen);
        }
        put_height(flow, (gait, clock), on, (shown, at), (&frame, x + wide * 0.44));
        let strong = count.is_multiple_of(2);
        flow.words([x, floor + 9.0], (9.5, strong), Anchor::Middle, &(count + 1).to_string(), PAPER.words);
        flow.words([x, floor + 21.0], (9.0, false), Anchor::Middle, letters(on), PAPER.words);
        told.push(format!("count {}: {}", count + 1, body_words(on)));
    }
    if let Some(page) = flow.pages.last_mut() {
        page.words += &format!("{}. ", told.join("; "));
    }
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
