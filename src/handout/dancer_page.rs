use super::{
    Bookmark, Handout, SheetChoice,
    caption::bars_of,
    diagram::{Shown, diagram_marks},
    flow::{Flow, put_feet, text_height},
    moments::diagram_times,
    reading::Role,
    sheet::{each_once, figure_name},
    spoken::own_diagram_words,
    stepping::put_stepping,
    told::told_lines,
    watching::own_watch,
};
use crate::dance::{Dance, Dancer};
use crate::motion::{Motion, SpanIndex};
use crate::picture::{Anchor, Frame, PAPER, span_bounds};
use crate::words::{CAUTIONS_IN_SHORT, standing, steps_told};

/// Bars that one diagram of a dancer's page covers: half of a usual figure.
const HALF: u32 = 4;
/// How large a diagram is at most, points.
const LARGEST: [f32; 2] = [116.0, 124.0];
/// Floor round where middles go: the ring round the dancer, metres.
const ROUND: f64 = 0.7;
/// A metre of floor, points, from which on numbers can be read.
const NUMBERS: f64 = 24.0;
/// The size of the words, points.
const SIZE: f32 = 9.5;

/// One number's own page: the figures of some spans (indices), each with the dancer's own way heavy and the words
/// beside it; more pages where one does not hold them.
#[must_use]
pub fn dancer_page(
    dance: &Dance,
    motion: &Motion,
    spans: Option<&[SpanIndex]>,
    dancer: Dancer,
    choice: &SheetChoice,
) -> Handout {
    let number = dancer.number();
    let who =
        dance.person(number.get()).map_or_else(|| number.to_string(), |name| format!("{number}, {name}"));
    let stands = standing(motion.ground(), dancer);
    let under = [dance.title.as_str(), &stands, "your own way is the heavy line; the music is at the top"];
    let under = under.into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join(" · ");
    let mut flow = Flow::new(choice.paper, &format!("Number {who}"), &dance.side, &under);
    let mut bookmarks = Vec::new();
    // One figure alone is a page to take along; the whole part has its steps as well.
    let whole = spans.is_none();
    let every;
    let spans = match spans {
        Some(spans) => spans,
        None => {
            every = each_once(motion);
            &every
        }
    };
    for &index in spans {
        let watch = own_watch(dance, motion, index, dancer, choice.watch);
        put_figure(&mut flow, dance, motion, index, (dancer, watch));
        let page = flow.pages.len() - 1;
        bookmarks.push(Bookmark { text: figure_name(dance, motion, index), page, inside: Vec::new() });
    }
    if whole {
        flow.depth = 2;
        if let Some(page) = put_stepping(&mut flow, dance, motion, Some(dancer)) {
            bookmarks.push(Bookmark { text: "The stepping".to_owned(), page, inside: Vec::new() });
        }
    }
    let title = format!("Number {who}, {}", dance.title);
    let mut handout = Handout { title, author: dance.author.clone(), pages: flow.pages, bookmarks };
    put_feet(&mut handout.pages, CAUTIONS_IN_SHORT);
    handout
}

/// A figure: a diagram of each half on the left, the words on the right, what to watch for under them.
fn put_figure(
    flow: &mut Flow,
    dance: &Dance,
    motion: &Motion,
    index: SpanIndex,
    (dancer, watch): (Dancer, Option<String>),
) {
    let Some(span) = motion.span(index) else { return };
    let [left, right] = flow.edges();
    let times = diagram_times(span.bar_counts(), Some(span.bar_counts().begin_of(HALF)));
    let halves: Vec<(f64, f64)> =
        times.windows(2).filter_map(|pair| Some((*pair.first()?, *pair.last()?))).collect();
    let bounds = span_bounds(motion, span, ROUND);
    let floor = [bounds[2] - bounds[0], bounds[3] - bounds[1]];
    let fits = |[wide, high]: [f32; 2]| (f64::from(wide) / floor[0]).min(f64::from(high) / floor[1]);
    // Larger where numbers could not be read, as far as the page has room.
    let scale = fits(LARGEST).max(NUMBERS.min(fits([(right - left) * 0.3, flow.bottom() * 0.6])));
    let (wide, high) = (((bounds[2] - bounds[0]) * scale) as f32, ((bounds[3] - bounds[1]) * scale) as f32);
    let (wide, gap) = (wide.max(60.0), 8.0);
    let across = halves.len().min(2);
    let words_left = left + across as f32 * (wide + gap) + 6.0;
    let mut lines = steps_told(motion, index, &[dancer]);
    lines.extend(told_lines(dance, motion, index, dancer));
    lines.extend(watch);
    let words: f32 =
        lines.iter().map(|line| text_height(line, (SIZE, false), right - words_left) + 3.0).sum();
    let pictures = (high + 16.0) * halves.len().div_ceil(2) as f32;
    flow.heading(&figure_name(dance, motion, index), pictures.max(words).min(high + 40.0));
    let (top, page) = (flow.y, flow.pages.len());
    let mut lowest = top;
    for (place, counts) in halves.iter().enumerate() {
        let column = place % 2;
        if column == 0 && place > 0 {
            flow.need(high + 18.0);
            // More rows of diagrams than the first go down the page by themselves.
        }
        let x = left + column as f32 * (wide + gap);
        let y = flow.y;
        let frame = Frame::fit(bounds, [x, y, wide, high], 0.0);
        let shown = Shown { span: index, counts: *counts, own: Some(dancer), holding: dance.holding };
        let area = [x, y, x + wide, y + high];
        flow.begin(Role::Picture(own_diagram_words(dance, motion, index, dancer, *counts), area));
        if let Some(page) = flow.pages.last_mut() {
            diagram_marks(&mut page.marks, motion, &shown, area, &frame);
        }
        flow.begin(Role::Text);
        flow.words(
            [x, y + high + 8.0],
            (SIZE, true),
            Anchor::Left,
            &bars_of(span.bar_counts(), counts.0, counts.1),
            PAPER.words,
        );
        flow.end();
        lowest = y + high + 18.0;
        if column == 1 && place + 1 < halves.len() {
            flow.y = lowest;
        }
    }
    // Words stand beside the diagrams where they all are on one page and reach, and under them otherwise.
    let beside = flow.pages.len() == page && words <= flow.bottom() - top;
    if beside {
        flow.y = top;
        for line in &lines {
            flow.text(line, (SIZE, false), [words_left, right], PAPER.words);
            flow.y += 3.0;
        }
        flow.y = flow.y.max(lowest);
    } else {
        flow.y = lowest;
        for line in &lines {
            // A sentence is not parted where a page holds it.
            flow.need(text_height(line, (SIZE, false), right - left).min(flow.bottom() * 0.5));
            flow.text(line, (SIZE, false), [left, right], PAPER.words);
            flow.y += 3.0;
        }
    }
    if let Some(page) = flow.pages.last_mut() {
        page.words += &format!("{}: {} ", figure_name(dance, motion, index), lines.join(" "));
    }
    flow.y += 6.0;
}
