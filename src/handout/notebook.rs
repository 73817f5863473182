use super::{
    Bookmark, Handout, Link, OnProgress, Page, SheetChoice,
    dance_pages::{about_set, dance_pages},
    diagram::{Shown, diagram_marks},
    flow::{Flow, cut, line_height, put_feet, wrapped},
    reading::{Role, deepen},
    sheet::each_once,
};
use crate::dance::Dance;
use crate::motion::{Motion, SpanIndex};
use crate::picture::{Anchor, Face, Frame, Mark, PAPER, Stroke, words_width};
use crate::words::{CAUTIONS, CAUTIONS_IN_SHORT};

/// The size of the lines of the contents, points.
const SIZE: f32 = 10.5;

/// A notebook of one or many dances: a title page, the contents, the cautions, and each dance with its running order,
/// its tune and a sheet of each figure. `progress` hears how many sheets are done, of
/// how many, and says whether to go on.
#[must_use]
pub fn notebook(dances: &[(Dance, Motion)], choice: &SheetChoice, progress: OnProgress) -> Handout {
    let all: usize = dances.iter().map(|(_, motion)| each_once(motion).len()).sum();
    let mut done = 0;
    let mut counted = || {
        done += 1;
        progress(done, all)
    };
    let mut body: Vec<Page> = Vec::new();
    let mut bookmarks = Vec::new();
    for (dance, motion) in dances {
        let first = body.len();
        let mut made = dance_pages(dance, motion, choice, &mut counted);
        move_on(&mut made.pages, first);
        deepen(&mut made.pages);
        body.extend(made.pages);
        bookmarks.push(moved(made.bookmark, first));
    }
    let side = shared(dances, |dance| &dance.side);
    // The front takes as many pages whatever the numbers in it, so it is laid out twice.
    let (front, cautions) = contents(&bookmarks, choice, &side, 0);
    let front = 1 + front.len();
    move_on(&mut body, front);
    let bookmarks: Vec<Bookmark> = bookmarks.into_iter().map(|bookmark| moved(bookmark, front)).collect();
    let title = match dances {
        [(dance, _)] => dance.title.clone(),
        _ if side.is_empty() => "Notebook".to_owned(),
        _ => format!("{side}: notebook"),
    };
    let mut pages = vec![title_page(dances, choice, &title, &side)];
    let mut front = contents(&bookmarks, choice, &side, 1 + cautions).0;
    deepen(&mut front);
    pages.extend(front);
    pages.extend(body);
    put_feet(&mut pages, CAUTIONS_IN_SHORT);
    let mut outline = vec![
        Bookmark { text: "Contents".to_owned(), page: 1, inside: Vec::new() },
        Bookmark { text: "Before you dance".to_owned(), page: 1 + cautions, inside: Vec::new() },
    ];
    outline.extend(bookmarks);
    Handout { title, author: shared(dances, |dance| &dance.author), pages, bookmarks: outline }
}

/// What all the dances have in common, or nothing.
fn shared(dances: &[(Dance, Motion)], of: impl Fn(&Dance) -> &String) -> String {
    let mut all = dances.iter().map(|(dance, _)| of(dance));
    let first = all.next().cloned().unwrap_or_default();
    if all.all(|other| *other == first) { first } else { String::new() }
}

fn move_on(pages: &mut [Page], by: usize) {
    pages.iter_mut().flat_map(|page| &mut page.links).for_each(|link| link.page += by);
}

fn moved(bookmark: Bookmark, by: usize) -> Bookmark {
    let inside = bookmark.inside.into_iter().map(|inside| moved(inside, by)).collect();
    Bookmark { page: bookmark.page + by, inside, ..bookmark }
}

/// The title, the side, and what is in it.
fn title_page(dances: &[(Dance, Motion)], choice: &SheetChoice, title: &str, side: &str) -> Page {
    let paper = choice.paper;
    let [left, top, right, bottom] = paper.inside();
    let mut page = Page {
        paper,
        marks: Vec::new(),
        parts: Vec::new(),
        links: Vec::new(),
        title: title.to_owned(),
        words: String::new(),
    };
    page.begin(Role::Heading(1));
    let mut y = top + (bottom - top) * 0.26;
    let (size, colour, heavy, anchor) = (32.0, PAPER.words, true, Anchor::Left);
    for text in wrapped(title, (size, heavy), right - left).into_iter().take(4) {
        let at = [left, y + size * 0.6];
        page.marks.push(Mark::Words { at, size, anchor, text, colour, heavy });
        y += size * 1.3;
    }
    let rule = y + 8.0;
    let stroke = Stroke { colour: PAPER.words, width: 1.6 };
    y = rule + 14.0;
    let mut line = |text: &str, size: f32, quiet: bool| {
        page.begin(Role::Text);
        for line in wrapped(text, (size, false), right - left).into_iter().take(3) {
            if y < bottom - 40.0 {
                let colour = if quiet { PAPER.quiet } else { PAPER.words };
                let at = [left, y + size * 0.6];
                page.marks.push(Mark::Words {
                    at,
                    size,
                    anchor: Anchor::Left,
                    text: line,
                    colour,
                    heavy: false,
                });
                y += size * 1.45;
            }
        }
    };
    if !title.contains(side) {
        line(side, 16.0, false);
    }
    line(&shared(dances, |dance| &dance.tradition), 12.0, true);
    if dances.len() > 1 {
        for (dance, _) in dances {
            line(&dance.title, 12.0, false);
        }
    } else if let Some((dance, _)) = dances.first() {
        let author =
            if dance.author.is_empty() { String::new() } else { format!("Written down by {}", dance.author) };
        line(&author, 12.0, true);
    }
    page.begin(Role::Aside);
    page.marks.push(Mark::Line { points: vec![[left, rule], [right, rule]], stroke, dash: None });
    // The largest set that can still be seen on a part of a page.
    let seen = dances.iter().filter(|(_, motion)| motion.dancers() <= 16);
    if let Some((dance, motion)) = seen.max_by_key(|(_, motion)| motion.dancers()) {
        put_set(&mut page, dance, motion, [left, y + 30.0, right, bottom - 40.0]);
    }
    page
}

/// The set as it stands at the start, as large as it fits into a part of a page.
fn put_set(page: &mut Page, dance: &Dance, motion: &Motion, [left, top, right, bottom]: [f32; 4]) {
    let (wide, high) = ((right - left).min(260.0), (bottom - top).min(280.0));
    if motion.spans().is_empty() || high < 100.0 {
        return;
    }
    let around: Vec<(f64, f64)> = motion.ground().stands.iter().map(|stand| (stand.x, stand.y)).collect();
    let edge = |of: fn(&(f64, f64)) -> f64| {
        let least = around.iter().map(of).fold(f64::INFINITY, f64::min);
        (least, around.iter().map(of).fold(f64::NEG_INFINITY, f64::max))
    };
    let ((x0, x1), (y0, y1)) = (edge(|at| at.0), edge(|at| at.1));
    let floor = [x0 - 0.7, y0 - 0.7, x1 + 0.7, y1 + 0.7];
    let scale =
        (f64::from(wide) / (floor[2] - floor[0])).min(f64::from(high) / (floor[3] - floor[1])).min(60.0);
    let size = [((floor[2] - floor[0]) * scale) as f32, ((floor[3] - floor[1]) * scale) as f32];
    let area = [left, bottom - size[1], left + size[0], bottom];
    let frame = Frame::fit(floor, [area[0], area[1], size[0], size[1]], 0.0);
    let shown = Shown { span: SpanIndex(0), counts: (0.0, 0.0), own: None, holding: dance.holding };
    page.begin(Role::Picture(format!("The set as it stands at the start: {}.", about_set(dance)), area));
    diagram_marks(&mut page.marks, motion, &shown, area, &frame);
    page.begin(Role::Aside);
}

/// The contents: a line for each dance, its running order, its tune and its figures, with the pages they are on, and
/// the cautions under them. Gives the index of the page of the cautions among these as well.
fn contents(bookmarks: &[Bookmark], choice: &SheetChoice, side: &str, cautions: usize) -> (Vec<Page>, usize) {
    let mut flow = Flow::new(choice.paper, "Contents", side, "");
    put_line(&mut flow, "Before you dance", cautions, 0);
    for dance in bookmarks {
        flow.y += 5.0;
        flow.need(line_height(SIZE) * 3.0);
        put_line(&mut flow, &dance.text, dance.page, 0);
        for figure in &dance.inside {
            put_line(&mut flow, &figure.text, figure.page, 1);
        }
    }
    flow.y += 14.0;
    if flow.room_below() < 204.0 {
        flow.begin_anew("Before you dance");
    } else {
        flow.heading("Before you dance", 180.0);
    }
    let at = flow.pages.len() - 1;
    put_cautions(&mut flow);
    (flow.pages, at)
}

/// A line of the contents, with dots to the number of its page.
fn put_line(flow: &mut Flow, text: &str, page: usize, depth: u8) {
    let row = line_height(SIZE) + 1.5;
    flow.need(row);
    let [left, right] = flow.edges();
    let (x, y) = (left + f32::from(depth) * 16.0, flow.y + row / 2.0);
    let (number, heavy) = ((page + 1).to_string(), depth == 0);
    let text = cut(text, (SIZE, heavy), right - x - 50.0);
    flow.begin(Role::Item);
    flow.words([x, y], (SIZE, heavy), Anchor::Left, &text, PAPER.words);
    flow.words([right, y], (SIZE, heavy), Anchor::Right, &number, PAPER.words);
    flow.end();
    let face = Face::of(heavy);
    let dots = [x + words_width(&text, SIZE, face) + 6.0, right - words_width(&number, SIZE, face) - 6.0];
    if dots[1] - dots[0] > 12.0 {
        let points = dots.map(|x| [x, y + 3.0]).to_vec();
        let stroke = Stroke { colour: PAPER.quiet, width: 0.7 };
        flow.mark(Mark::Line { points, stroke, dash: Some([0.8, 3.2]) });
    }
    let area = [left, flow.y, right, flow.y + row];
    if let Some(on) = flow.pages.last_mut() {
        on.links.push(Link { area, page, words: text });
    }
    flow.y += row;
}

/// The cautions, one a line.
fn put_cautions(flow: &mut Flow) {
    let edges = flow.edges();
    for caution in CAUTIONS.split_inclusive(". ").map(str::trim) {
        flow.need(line_height(SIZE));
        let y = flow.y + line_height(SIZE) / 2.0;
        let (at, radii) = ([edges[0] + 3.0, y], [1.8; 2]);
        flow.mark(Mark::Oval { at, radii, turn: 0.0, fill: Some(PAPER.words), stroke: None });
        flow.begin(Role::Item);
        flow.text(caution, (SIZE, false), [edges[0] + 14.0, edges[1]], PAPER.words);
        flow.end();
        flow.y += 3.0;
    }
}
