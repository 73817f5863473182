use super::{
    Bookmark, Link, Page, SheetChoice,
    flow::{Flow, cut, line_height, wrapped},
    reading::{Head, Role, Starts},
    sheet::{Whence, each_once, figure_name, first_moving, put_sheet},
    stepping::put_stepping,
    tapping::put_tapping,
};
use crate::dance::{BarCounts, Dance, Holding, Music, Score, SetKind};
use crate::motion::Motion;
use crate::picture::{Anchor, PAPER, engrave};
use crate::words::{calls_said, speeds_said};

/// The size of words, points.
const SIZE: f32 = 10.0;

/// From one line of a stave to the next, points: the stave is 6.2 mm high.
const STAVE_SPACE: f32 = 4.4;

/// The most lines of one line of the running order.
const MOST_LINES: usize = 3;

/// The pages of one dance in a notebook; links and bookmarks count pages from the first of them.
pub(super) struct DancePages {
    pub pages: Vec<Page>,
    pub bookmark: Bookmark,
}

/// A dance: what it is, its running order, its tune, and a sheet of each figure.
pub(super) fn dance_pages(
    dance: &Dance,
    motion: &Motion,
    choice: &SheetChoice,
    step: &mut dyn FnMut() -> bool,
) -> DancePages {
    let mut flow = Flow::new(choice.paper, &dance.title, &dance.side, &about(dance));
    let edges = flow.edges();
    if !dance.notes.trim().is_empty() {
        flow.heading("Notes", 24.0);
        flow.text(&dance.notes, (SIZE, false), edges, PAPER.words);
        flow.y += 4.0;
    }
    put_people(&mut flow, dance);
    let mut inside = vec![Bookmark { text: "Running order".to_owned(), page: 0, inside: Vec::new() }];
    let rows = put_order(&mut flow, dance, motion);
    if let Some((page, _, _)) = rows.first() {
        for bookmark in &mut inside {
            bookmark.page = *page;
        }
    }
    inside.push(put_tune(&mut flow, dance, choice.abc));
    flow.depth = 2;
    if let Some(page) = put_stepping(&mut flow, dance, motion, None) {
        inside.push(Bookmark { text: "The stepping".to_owned(), page, inside: Vec::new() });
    }
    if let Some(page) = put_tapping(&mut flow, dance, motion) {
        inside.push(Bookmark { text: "The tapping".to_owned(), page, inside: Vec::new() });
    }
    let mut figures = Vec::new();
    let all = each_once(motion);
    let moving = first_moving(motion, &all);
    for (nth, index) in all.iter().copied().enumerate() {
        let whence = Whence { first: Some(nth) == moving, last: nth + 1 == all.len() };
        let page = put_sheet(&mut flow, dance, motion, index, choice, whence);
        let text = figure_name(dance, motion, index);
        let figure = motion.span(index).map(|span| span.figure);
        figures.push((figure, Bookmark { text, page, inside: Vec::new() }));
        if !step() {
            break;
        }
    }
    let mut pages = flow.pages;
    for (at, area, figure) in rows {
        let found = figures.iter().find(|(index, _)| *index == Some(figure));
        if let (Some((_, to)), Some(page)) = (found, pages.get_mut(at)) {
            page.links.push(Link { area, page: to.page, words: to.text.clone() });
        }
    }
    inside.extend(figures.into_iter().map(|(_, bookmark)| bookmark));
    DancePages { pages, bookmark: Bookmark { text: dance.title.clone(), page: 0, inside } }
}

/// How many dance, and how they stand.
pub(super) fn about_set(dance: &Dance) -> String {
    let set = &dance.set;
    match (set.kind, set.dancers) {
        (_, 1) => "a jig for one".to_owned(),
        (SetKind::Longways, dancers) => {
            format!("{dancers} dancers, {} m across, {} m from rank to rank", set.across, set.along)
        }
        (SetKind::Ring, dancers) => format!("{dancers} dancers in a ring"),
        (SetKind::Spots, dancers) => format!("{dancers} dancers"),
    }
}

/// What a dance is, in a line.
pub(super) fn about(dance: &Dance) -> String {
    let stand = about_set(dance);
    let holding = match dance.holding {
        Holding::Handkerchiefs => "handkerchiefs",
        Holding::Sticks => "sticks",
        Holding::Nothing => "empty hands",
    };
    let by =
        if dance.author.is_empty() { String::new() } else { format!("written down by {}", dance.author) };
    let parts = [dance.tradition.as_str(), &stand, holding, &by];
    parts.into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join(" · ")
}

fn put_people(flow: &mut Flow, dance: &Dance) {
    let people = dance.people.iter().filter(|person| !person.name.trim().is_empty());
    let people: Vec<String> = people.map(|person| format!("{} {}", person.number, person.name)).collect();
    if people.is_empty() {
        return;
    }
    flow.heading("Who dances", 20.0);
    let edges = flow.edges();
    flow.text(&people.join(" · "), (SIZE, false), edges, PAPER.words);
    flow.y += 4.0;
}

/// The running order as a table: the page and the area of each row, and its figure.
fn put_order(flow: &mut Flow, dance: &Dance, motion: &Motion) -> Vec<(usize, [f32; 4], usize)> {
    let [left, right] = flow.edges();
    let columns = [left, left + 34.0, right - 134.0, right - 90.0];
    let row = line_height(SIZE) + 2.0;
    flow.heading("Running order", row * 3.0);
    put_row(flow, columns, HEADS, Row::Heads, 0.0);
    let mut rows = Vec::new();
    let called = calls_said(dance, motion);
    for (index, span) in motion.indexed_spans() {
        let name = figure_name(dance, motion, index);
        let entry = dance.order.get(index.index());
        let call = called.get(index.index()).and_then(Option::as_ref);
        let text = call.map_or_else(|| name.clone(), |call| format!("{name} — {}", call.words()));
        let lines = wrapped(&text, (SIZE, false), columns[2] - columns[1] - 8.0).len().clamp(1, MOST_LINES);
        if flow.room_below() < row * lines as f32 {
            flow.turn_over();
            put_row(flow, columns, HEADS, Row::HeadsAgain, 0.0);
        }
        let top = flow.y;
        let bars = format!("{}–{}", span.first_bar + 1, span.first_bar + span.bars);
        let strain = cut(entry.map_or("", |entry| entry.strain.as_str()), (SIZE, false), 36.0);
        put_row(flow, columns, [&index.next().index().to_string(), &text, &strain, &bars], Row::Line, row);
        rows.push((flow.pages.len() - 1, [left, top, right, flow.y], span.figure));
    }
    flow.y += 6.0;
    rows
}

/// The heads of the running order.
const HEADS: [&str; 4] = ["Line", "Figure", "Strain", "Bars"];

/// A row of it.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Row {
    Heads,
    /// On a further page, where they are not read again.
    HeadsAgain,
    Line,
}

fn put_row(flow: &mut Flow, columns: [f32; 4], texts: [&str; 4], kind: Row, row: f32) {
    let head = kind != Row::Line;
    let row = if row > 0.0 { row } else { line_height(SIZE) + 2.0 };
    let top = flow.y;
    let mut rows = 1;
    for (place, text) in texts.into_iter().enumerate() {
        let x = columns.get(place).copied().unwrap_or_default();
        let wide = columns.get(place + 1).map_or(90.0, |next| next - x - 8.0);
        let starts = match (place, head) {
            (0, true) => Starts::Table,
            (0, false) => Starts::Row,
            _ => Starts::Cell,
        };
        let of = match (kind, place) {
            (Row::Line, 0) => Head::Row,
            (Row::Line, _) => Head::None,
            _ => Head::Column,
        };
        if kind == Row::HeadsAgain {
            flow.end();
        } else {
            flow.cell(starts, of);
        }
        for (line, words) in wrapped(text, (SIZE, head), wide).iter().take(MOST_LINES).enumerate() {
            let y = top + row * (line as f32 + 0.5);
            flow.words([x, y], (SIZE, head), Anchor::Left, words, PAPER.words);
            rows = rows.max(line + 1);
        }
    }
    flow.end();
    flow.y = top + row * rows as f32;
}

/// A line of the tune's notes, of so many, for those who cannot see it: the first tells all of it as ABC, where that does not stand
/// under it.
pub(super) fn notes_words(music: &Music, (line, lines): (usize, usize), with_abc: bool) -> String {
    let said = format!("The notes of the tune, line {line} of {lines}");
    if line > 1 || with_abc { said + "." } else { format!("{said}; the tune as ABC: {}", music.abc.trim()) }
}

/// The tune: its metre and speed, its strains, its notes, and its ABC text where that is asked for or all that there is.
fn put_tune(flow: &mut Flow, dance: &Dance, with_abc: bool) -> Bookmark {
    let music = &dance.music;
    let [left, right] = flow.edges();
    let score = Score::read(&music.abc);
    let systems = score.as_ref().map(|score| engrave(score, right - left, STAVE_SPACE, PAPER.words));
    let first = systems.as_ref().ok().and_then(|systems| systems.first()).map_or(0.0, |first| first.size[1]);
    flow.heading("Tune", 40.0 + first);
    let page = flow.pages.len() - 1;
    let beats = if music.metre.counts() == BarCounts::MOST { "three" } else { "two" };
    let speed = format!("{} strong beats a minute, {beats} to a bar", music.speed);
    let mut parts = vec![music.metre.to_string(), speed];
    parts.extend(music.strains.iter().map(|strain| {
        let bars = if strain.bars == 1 { "bar" } else { "bars" };
        let metre = strain.metre.map_or_else(String::new, |metre| format!(" of {metre}"));
        let counts = BarCounts::of(strain.bars, strain.metre.unwrap_or(music.metre));
        let speeds =
            speeds_said(&strain.speeds, &counts).map_or_else(String::new, |said| format!(", {said}"));
        format!("{}: {} {bars}{metre}{speeds}", strain.name, strain.bars)
    }));
    if !music.played.is_empty() {
        parts.push(format!("played {}", music.played.join(" ")));
    }
    flow.text(&parts.join(" · "), (SIZE, false), [left, right], PAPER.words);
    flow.y += 4.0;
    match systems {
        Ok(systems) => {
            let lines = systems.len();
            for (system, line) in systems.into_iter().zip(1..) {
                flow.need(system.size[1]);
                let at = [left, flow.y];
                let area = [left, flow.y, right, flow.y + system.size[1]];
                flow.begin(Role::Picture(notes_words(music, (line, lines), with_abc), area));
                system.marks.into_iter().for_each(|mark| flow.mark(mark.placed(1.0, at)));
                flow.end();
                flow.y += system.size[1] + STAVE_SPACE;
            }
        }
        Err(error) if !music.abc.trim().is_empty() => {
            let text = format!("The notes cannot be drawn: {error}.");
            flow.text(&text, (SIZE, false), [left, right], PAPER.quiet);
            flow.y += 4.0;
        }
        Err(_) => {}
    }
    let with_abc = with_abc || score.is_err();
    let text = if with_abc { music.abc.as_str() } else { "" };
    let lines: Vec<Vec<String>> =
        text.lines().map(|line| wrapped(line, (9.0, false), right - left - 12.0)).collect();
    let high = line_height(9.0) * lines.iter().map(Vec::len).sum::<usize>() as f32;
    // The ABC stays together, to be copied in one go, where half a page holds it.
    flow.need(high.min(flow.bottom() * 0.5));
    for line in lines {
        // The rest of a line that is too long stands a little in.
        for (row, part) in line.iter().enumerate() {
            flow.need(line_height(9.0));
            flow.line(part, (9.0, false), left + if row == 0 { 0.0 } else { 12.0 }, PAPER.words);
        }
    }
    Bookmark { text: "Tune".to_owned(), page, inside: Vec::new() }
}
