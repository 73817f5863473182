use super::{
    Bookmark, Handout, Link, Page, SheetChoice,
    dance_pages::dance_pages,
    flow::{Flow, cut, line_height, put_feet, wrapped},
    sheet::each_once,
};
use crate::dance::Dance;
use crate::motion::Motion;
use crate::picture::{Anchor, Mark, PAPER, Stroke, words_width};
use crate::words::{CAUTIONS, CAUTIONS_IN_SHORT};

/// The size of the lines of the contents, points.
const SIZE: f32 = 10.5;

/// A notebook of one or many dances: a title page, the contents, the cautions, and each dance with its running order,
/// its tune and a sheet of each figure. `step` is told how many sheets are done, and of how many.
#[must_use]
pub fn notebook(
    dances: &[(Dance, Motion)],
    choice: &SheetChoice,
    step: &mut dyn FnMut(usize, usize),
) -> Handout {
    let all: usize = dances.iter().map(|(_, motion)| each_once(motion).len()).sum();
    let mut done = 0;
    let mut counted = || {
        done += 1;
        step(done, all);
    };
    let mut body: Vec<Page> = Vec::new();
    let mut bookmarks = Vec::new();
    for (dance, motion) in dances {
        let first = body.len();
        let mut made = dance_pages(dance, motion, choice, &mut counted);
        move_on(&mut made.pages, first);
        body.extend(made.pages);
        bookmarks.push(moved(made.bookmark, first));
    }
    let side = shared(dances, |dance| &dance.side);
    // The contents take as many pages whatever the numbers in them, so they are laid out twice.
    let cautions = cautions_page(choice, &side);
    let front = 1 + contents(&bookmarks, choice, &side, 0).len() + cautions.len();
    move_on(&mut body, front);
    let bookmarks: Vec<Bookmark> = bookmarks.into_iter().map(|bookmark| moved(bookmark, front)).collect();
    let title = match dances {
        [(dance, _)] => dance.title.clone(),
        _ if side.is_empty() => "Notebook".to_owned(),
        _ => format!("{side}: notebook"),
    };
    let mut pages = vec![title_page(dances, choice, &title, &side)];
    pages.extend(contents(&bookmarks, choice, &side, front));
    let at = pages.len();
    pages.extend(cautions);
    pages.extend(body);
    put_feet(&mut pages, CAUTIONS_IN_SHORT);
    let mut outline = vec![
        Bookmark { text: "Contents".to_owned(), page: 1, inside: Vec::new() },
        Bookmark { text: "Before you dance".to_owned(), page: at, inside: Vec::new() },
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
    let mut page =
        Page { paper, marks: Vec::new(), links: Vec::new(), title: title.to_owned(), words: String::new() };
    let mut y = top + (bottom - top) * 0.26;
    let (size, colour, heavy, anchor) = (32.0, PAPER.words, true, Anchor::Left);
    for text in wrapped(title, size, right - left).into_iter().take(4) {
        let at = [left, y + size * 0.6];
        page.marks.push(Mark::Words { at, size, anchor, text, colour, heavy });
        y += size * 1.3;
    }
    let rule = y + 8.0;
    let stroke = Stroke { colour: PAPER.words, width: 1.6 };
    y = rule + 14.0;
    let mut put = |text: &str, size: f32, quiet: bool| {
        for line in wrapped(text, size, right - left).into_iter().take(3) {
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
    put(side, 16.0, false);
    put(&shared(dances, |dance| &dance.tradition), 12.0, true);
    if dances.len() > 1 {
        for (dance, _) in dances {
            put(&dance.title, 12.0, false);
        }
    } else if let Some((dance, _)) = dances.first() {
        let author =
            if dance.author.is_empty() { String::new() } else { format!("Written down by {}", dance.author) };
        put(&author, 12.0, true);
    }
    page.marks.push(Mark::Line { points: vec![[left, rule], [right, rule]], stroke, dash: None });
    page
}

/// The contents: a line for each dance, its running order, its tune and its figures, with the pages they are on.
fn contents(bookmarks: &[Bookmark], choice: &SheetChoice, side: &str, first: usize) -> Vec<Page> {
    let mut flow = Flow::new(choice.paper, "Contents", side, "");
    put_line(&mut flow, "Before you dance", first.saturating_sub(1), 0);
    for dance in bookmarks {
        flow.y += 5.0;
        flow.need(line_height(SIZE) * 3.0);
        put_line(&mut flow, &dance.text, dance.page, 0);
        for figure in &dance.inside {
            put_line(&mut flow, &figure.text, figure.page, 1);
        }
    }
    flow.pages
}

/// A line of the contents, with dots to the number of its page.
fn put_line(flow: &mut Flow, text: &str, page: usize, depth: u8) {
    let row = line_height(SIZE) + 1.5;
    flow.need(row);
    let [left, right] = flow.edges();
    let (x, y) = (left + f32::from(depth) * 16.0, flow.y + row / 2.0);
    let (number, heavy) = ((page + 1).to_string(), depth == 0);
    let text = cut(text, SIZE, right - x - 50.0);
    flow.words([x, y], (SIZE, heavy), Anchor::Left, &text, PAPER.words);
    flow.words([right, y], (SIZE, heavy), Anchor::Right, &number, PAPER.words);
    let dots = [x + words_width(&text, SIZE) + 6.0, right - words_width(&number, SIZE) - 6.0];
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
fn cautions_page(choice: &SheetChoice, side: &str) -> Vec<Page> {
    let mut flow = Flow::new(choice.paper, "Before you dance", side, "");
    let edges = flow.edges();
    for caution in CAUTIONS.split_inclusive(". ").map(str::trim) {
        flow.need(line_height(11.0));
        let y = flow.y + line_height(11.0) / 2.0;
        let (at, radii) = ([edges[0] + 3.0, y], [1.8; 2]);
        flow.mark(Mark::Oval { at, radii, turn: 0.0, fill: Some(PAPER.words), stroke: None });
        flow.text(caution, (11.0, false), [edges[0] + 14.0, edges[1]], PAPER.words);
        flow.y += 4.0;
    }
    flow.pages
}
