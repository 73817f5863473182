//! The page as one text, and the dance in it as JSON.

use super::{
    FACING_PARTS, HAND_PARTS, PLACE_PARTS,
    bodies::pack_bodies,
    feet::pack_feet,
    in_short::in_short,
    moves::pack_moves,
    script, taps, tune,
    watching::{lists, to_watch},
};
use crate::dance::{Dance, Dancer, Foot, Holding, StrikeEnd};
use crate::motion::limbs::from_palm;
use crate::motion::{Clock, Motion, Span, SpanIndex};
use crate::picture::{
    BODY, Colour, EYE, EyeSizes, Ink, PAPER, SLATE, SPOT_ARM, SPOT_NUMBER, room_for, span_bounds,
};
use crate::words::{CallSaid, TapsTold, all_steps_told, calls_said, taps_told, tell};
use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use serde_json::{Value, json};
use std::collections::HashMap;
use thiserror::Error;

const SHELL: &str = include_str!("../../../assets/practice.html");

const LOOK: &str = include_str!("../../../assets/practice.css");

/// Floor shown round where the middles of bodies go, metres.
const ROUND: f64 = 0.6;

/// The most dancers times counts, each kind of dancing once, that a page holds: some seconds of work at the most, and a few MB.
const MOST_DANCED: usize = 120_000;

/// The most kinds of step, built in and the dance's own: each is one byte.
const MOST_STEPS: usize = 256;

/// Why a page cannot be made.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum PageError {
    /// Nothing is danced.
    #[error("the running order has no figures, so there is nothing to practise")]
    Empty,
    /// Too much for a phone.
    #[error(
        "{0} counts of dancing, over all dancers, are too many for a phone; a page holds {MOST_DANCED}, each figure once"
    )]
    Large(usize),
    /// More kinds of step than the page can tell apart.
    #[error("{0} kinds of step are too many; a page holds {MOST_STEPS}")]
    Steps(usize),
}

/// The whole page for a dance and its motion.
///
/// # Errors
/// When nothing is danced, or more than a phone holds.
pub fn page(dance: &Dance, motion: &Motion) -> Result<String, PageError> {
    page_with(dance, motion, true)
}

/// The same, with or without what there is to watch for in each figure.
///
/// # Errors
/// When nothing is danced, or more than a phone holds.
pub fn page_with(dance: &Dance, motion: &Motion, watch: bool) -> Result<String, PageError> {
    let data = data(dance, motion, watch)?.to_string();
    let title = if dance.title.trim().is_empty() { "A dance" } else { dance.title.trim() };
    let parts = [
        ("{{title}}", escaped(title)),
        ("{{inks}}", inks()),
        ("{{look}}", LOOK.to_owned()),
        // No text of the dance can end the script that holds it.
        (
            "{{dance}}",
            data.replace('<', "\\u003c").replace('\u{2028}', "\\u2028").replace('\u{2029}', "\\u2029"),
        ),
        ("{{script}}", script::script()),
    ];
    let mut page =
        String::with_capacity(SHELL.len() + parts.iter().map(|(_, part)| part.len()).sum::<usize>());
    let mut rest = SHELL;
    // Each part goes into the shell once, so that no words of the dance are taken for a place to fill.
    while let Some((before, after)) = rest.split_once("{{") {
        page.push_str(before);
        let (name, after) = after.split_once("}}").unwrap_or((after, ""));
        let part = parts.iter().find(|(key, _)| key.trim_matches(['{', '}']) == name);
        page.push_str(part.map_or("", |(_, part)| part));
        rest = after;
    }
    page.push_str(rest);
    Ok(page)
}

fn data(dance: &Dance, motion: &Motion, watch: bool) -> Result<Value, PageError> {
    if motion.spans().is_empty() || motion.dancers() == 0 {
        return Err(PageError::Empty);
    }
    if motion.known().len() > MOST_STEPS {
        return Err(PageError::Steps(motion.known().len()));
    }
    let mut first: Vec<SpanIndex> = Vec::new();
    // What is danced alike, the hop on the upbeat at its end and all.
    let alike = |span: &Span| {
        let hops: Vec<Option<Foot>> = Dancer::all(motion.dancers()).map(|dancer| span.hop(dancer)).collect();
        (span.identity(), hops)
    };
    let mut kinds: HashMap<(u64, Vec<Option<Foot>>), usize> = HashMap::new();
    let mut danced = 0;
    for (index, span) in motion.indexed_spans() {
        kinds.entry(alike(span)).or_insert_with(|| {
            first.push(index);
            danced += motion.dancers() * (span.end() - span.begin()) as usize;
            first.len() - 1
        });
    }
    if danced > MOST_DANCED {
        return Err(PageError::Large(danced));
    }
    let mut blobs = Pool::default();
    let mut texts = Pool::default();
    let lists = lists(dance, motion, watch);
    let played: Vec<Value> = first
        .iter()
        .filter_map(|&index| Some((index, motion.span(index)?)))
        .map(|(index, span)| {
            let counts = (span.end() - span.begin()) as u32;
            let (mut moves, mut feet) = (Vec::new(), Vec::new());
            let (mut words, mut taps) = (Vec::new(), Vec::new());
            for dancer in Dancer::all(motion.dancers()) {
                let Some(track) = span.track(dancer) else { continue };
                moves.push(blobs.index(STANDARD.encode(pack_moves(counts, |count| track.stand(count)))));
                feet.push(blobs.index(STANDARD.encode(pack_feet(counts, &span.falls(dancer)))));
                let told = tell(dance, motion, index, dancer);
                words.push(
                    told.into_iter()
                        .filter(|told| !told.text.is_empty())
                        .map(|told| json!([told.begin, told.end, texts.index(told.text)]))
                        .collect::<Vec<_>>(),
                );
                taps.push(tap_words(&mut texts, span, &taps_told(motion, index, dancer)));
            }
            let bounds = span_bounds(motion, span, ROUND).map(|edge| to(edge, 1e3));
            json!({"moves": moves, "feet": feet, "words": words, "taps": taps, "bounds": bounds,
                "watch": to_watch(&mut texts, lists.get(index.index()), motion.dancers()),
                "short": in_short(&mut texts, dance, motion, index)})
        })
        .collect();
    let entries: Vec<_> =
        dance.order.iter().filter(|entry| dance.figure_index(&entry.figure).is_some()).collect();
    let called = calls_said(dance, motion);
    let spans: Vec<Value> = motion
        .spans()
        .iter()
        .enumerate()
        .map(|(index, span)| {
            let figure = dance.figures.get(span.figure);
            let entry = entries.get(index);
            let name = figure.map_or("", |figure| figure.name.as_str());
            json!({
                "name": name,
                "call": entry.and_then(|entry| entry.own_call(name)).unwrap_or_default(),
                "called": called.get(index).and_then(Option::as_ref).map_or_else(String::new, when_called),
                "strain": entry.map_or("", |entry| entry.strain.trim()),
                "notes": figure.map_or("", |figure| figure.notes.as_str()),
                "bar": span.first_bar,
                "bars": span.bars,
                "begin": span.begin(),
                "counts": span.end() - span.begin(),
                "played": kinds.get(&alike(span)),
            })
        })
        .collect();
    let clock = Clock::of_dance(dance, motion);
    let per_bar = motion.bar_counts().in_bar(0);
    // The bar that is counted in before the start.
    let bar = -clock.seconds(-f64::from(per_bar));
    let shares = motion.bar_counts().metre(0).shares();
    let runs: Vec<Value> =
        motion.bar_counts().runs().map(|(metre, bars)| json!([bars, metre.shares()])).collect();
    let times: Vec<f64> = clock.known().map(|seconds| (seconds * 1e6).round() / 1e6).collect();
    let stands: Vec<Value> =
        motion.ground().stands.iter().map(|stand| json!([to(stand.x, 1e3), to(stand.y, 1e3)])).collect();
    let names: Vec<&str> = Dancer::all(motion.dancers())
        .map(|dancer| dance.person(dancer.number()).unwrap_or_default())
        .collect();
    let sticks: Vec<usize> =
        Dancer::all(motion.dancers()).map(|dancer| dance.stick_hand(dancer.number())).collect();
    let steps: Vec<Value> = motion.known().iter().map(|step| json!([step.short, step.name])).collect();
    let stick = [StrikeEnd::Butt, StrikeEnd::Tip].map(|end| from_palm(end, motion.held().grip));
    Ok(json!({
        "title": dance.title,
        "side": dance.side,
        "notes": dance.notes,
        "holding": match dance.holding {
            Holding::Handkerchiefs => "handkerchiefs",
            Holding::Sticks => "sticks",
            Holding::Nothing => "nothing",
        },
        "bars": motion.bars(),
        "dancers": motion.dancers(),
        "barSeconds": bar,
        "shares": shares,
        "times": times,
        "runs": runs,
        "longways": motion.ground().ranks() > 0 && motion.dancers() > 1,
        "body": BODY,
        "eye": EyeSizes { tall: room_for(dance.height), ..EYE },
        "spot": {"arm": SPOT_ARM, "number": SPOT_NUMBER},
        "placeParts": PLACE_PARTS,
        "facingParts": FACING_PARTS,
        "handParts": HAND_PARTS,
        "stands": stands,
        "names": names,
        "sticks": sticks,
        "steps": steps,
        "stepsTold": all_steps_told(motion),
        "spans": spans,
        "played": played,
        "blobs": blobs.texts,
        "texts": texts.texts,
        "bodies": pack_bodies(motion, &clock),
        "tune": tune::notes(dance, motion, &clock),
        "taps": taps::taps(motion, &clock),
        "meets": taps::meets(motion),
        "stick": stick,
    }))
}

/// When a figure is called: its bar is one of the dance, beside that of the figure.
fn when_called(call: &CallSaid) -> String {
    if call.when.starts_with("at bar") { format!("{} of the dance", call.when) } else { call.when.clone() }
}

/// What a dancer taps in a figure: for each bar of it the counts at which it begins and ends, and the index of what is said.
fn tap_words(texts: &mut Pool, span: &Span, told: &[TapsTold]) -> Vec<Value> {
    let bars = span.bar_counts();
    let mut words: Vec<(u32, usize)> = Vec::new();
    for told in told {
        let text = texts.index(told.text.clone());
        words.extend(told.bars.iter().map(|bar| (*bar, text)));
    }
    words.sort_unstable();
    words.into_iter().map(|(bar, text)| json!([bars.begin_of(bar), bars.begin_of(bar + 1), text])).collect()
}

/// Texts, each kept once.
#[derive(Default)]
pub(super) struct Pool {
    texts: Vec<String>,
    places: HashMap<String, usize>,
}

impl Pool {
    /// Where a text is among them.
    pub(super) fn index(&mut self, text: String) -> usize {
        *self.places.entry(text).or_insert_with_key(|text| {
            self.texts.push(text.clone());
            self.texts.len() - 1
        })
    }
}

/// A number to so many parts of one.
fn to(value: f64, parts: f64) -> f64 {
    (value * parts).round() / parts
}

/// The colours of both looks, as custom properties.
fn inks() -> String {
    let list = |ink: &Ink| {
        [
            ("floor", ink.floor),
            ("panel", ink.panel),
            ("bar", ink.bar),
            ("raised", ink.raised),
            ("chosen", ink.chosen),
            ("words", ink.words),
            ("quiet", ink.quiet),
            ("faint", ink.faint),
            ("odd", ink.odd),
            ("even", ink.even),
            ("outline", ink.outline),
            ("number", ink.number),
            ("linen", ink.linen),
            ("well", ink.well),
        ]
        .map(|(name, Colour(red, green, blue, _))| format!("--{name}: #{red:02x}{green:02x}{blue:02x};"))
        .join(" ")
    };
    format!(
        ":root {{ color-scheme: dark; {} }}\n:root[data-look=\"paper\"] {{ color-scheme: light; {} }}",
        list(&SLATE),
        list(&PAPER)
    )
}

/// Text as HTML.
fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}
