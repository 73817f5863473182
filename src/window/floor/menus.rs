//! What can be done with a dancer, with a spot and with bare floor: the menus of a right click, or of the menu key.

use crate::dance::{Dancer, PlaceNumber};
use crate::desk::{Ask, Desk, DrawAsk, Seen, ViewAsk};
use crate::edits::{By, RingTurn, Together, Toward};
use crate::motion::Span;
use crate::window::context_menu::{choice, item};
use crate::window::{photo_menu, side::draw_card, turn_menu};
use egui::Ui;

/// A place on the floor that was clicked, metres, and whose spot is there.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Here {
    pub x: f64,
    pub y: f64,
    pub spot: Option<PlaceNumber>,
}

/// So far from the middle of a chalk cross it is the spot that is meant, metres.
const ON_SPOT: f64 = 0.25;

impl Here {
    /// The place, or the spot that is near it.
    pub fn at(desk: &Desk, (x, y): (f64, f64)) -> Self {
        let ground = desk.motion().ground();
        let stands = ground.places().zip(&ground.stands);
        let far = |(_, stand): &(PlaceNumber, &crate::motion::Stand)| (stand.x - x).hypot(stand.y - y);
        let near = stands.min_by(|one, other| far(one).total_cmp(&far(other)));
        match near.filter(|near| far(near) < ON_SPOT) {
            Some((spot, stand)) => Self { x: stand.x, y: stand.y, spot: Some(spot) },
            None => Self { x: centimetres(x), y: centimetres(y), spot: None },
        }
    }
}

/// Metres to the nearest centimetre: a click means no more than that.
fn centimetres(metres: f64) -> f64 {
    (metres * 100.0).round() / 100.0
}

/// Moments by which a dancer can be somewhere: each with its words and its count from the start of the dance.
fn moments(desk: &Desk, dancer: Dancer) -> Vec<(By, f64)> {
    let Some(span) = desk.span_here() else { return Vec::new() };
    let choices = By::choices(span, dancer, desk.player().count - span.begin());
    choices.into_iter().map(|(by, local)| (by, span.begin() + local)).collect()
}

/// What can be done with a dancer.
pub fn show_dancer(ui: &mut Ui, desk: &Desk, dancer: Dancer, asks: &mut Vec<Ask>) {
    let name = desk.dance().person(dancer.number().0).unwrap_or_default();
    let who = turn_menu::who(desk, dancer);
    ui.weak(if name.is_empty() { format!("number {dancer}") } else { format!("{dancer} · {name}") });
    if let Some(span) = desk.span_here() {
        show_ways(ui, desk, dancer, &who, asks);
        ui.separator();
        show_copies(ui, desk, span, dancer, asks);
        ui.separator();
        let figure = desk.dance().figures.get(span.figure);
        let place = span.place(dancer);
        let drawn = figure.is_some_and(|figure| figure.part(place).is_some());
        let (title, named) =
            figure.map_or(("", false), |figure| (figure.name.as_str(), figure.named.is_some()));
        let hint = match (drawn, named) {
            (false, _) => format!("Nothing is drawn for {dancer} in {title}"),
            (true, true) => format!("Dance it as {title} has it again"),
            (true, false) => format!("Nothing is drawn for {who} in {title} any more"),
        };
        if item(ui, drawn, "Clear what is drawn", &hint) {
            asks.push(Ask::Draw(DrawAsk::Clear(dancer)));
        }
        ui.separator();
    }
    if item(ui, true, &format!("Choose {dancer}"), "What you draw next is drawn for this dancer alone") {
        asks.push(Ask::View(ViewAsk::Choose(Some(dancer))));
    }
    let picked = desk.picked().contains(&dancer);
    let pick = if picked { "Pick no longer" } else { "Pick as well" };
    if item(ui, true, pick, "What you draw next is drawn for all who are picked") {
        asks.push(Ask::View(ViewAsk::AlsoPick(dancer)));
    }
    if item(ui, true, &format!("See the floor as {dancer} faces"), "(V)") {
        asks.extend([Ask::View(ViewAsk::ChooseFor(dancer)), Ask::View(ViewAsk::See(Seen::OwnFacing))]);
    }
}

/// Where a dancer is to be and which way they are to face.
fn show_ways(ui: &mut Ui, desk: &Desk, dancer: Dancer, who: &str, asks: &mut Vec<Ask>) {
    let moments = moments(desk, dancer);
    ui.menu_button("Home by", |ui| {
        for (by, count) in &moments {
            if item(ui, true, by.words(), &format!("{who} to their own spot by then")) {
                asks.push(Ask::Draw(DrawAsk::HomeBy { dancer, count: *count }));
            }
        }
    });
    ui.menu_button("To the spot of", |ui| {
        let ground = desk.motion().ground();
        let stands = ground.places().zip(&ground.stands).take(MOST_SPOTS);
        for (spot, stand) in stands.filter(|(spot, _)| *spot != dancer.home()) {
            let hint = format!("{dancer} there by this count");
            if item(ui, true, &format!("number {spot}{}", named(desk, spot)), &hint) {
                let count = desk.player().count;
                asks.push(Ask::Draw(DrawAsk::GoBy { dancer, x: stand.x, y: stand.y, count }));
            }
        }
    });
    show_later(
        ui,
        "Stand until",
        &moments,
        &format!("{who} does not travel from here until then"),
        |count| {
            asks.push(Ask::Draw(DrawAsk::StandUntil { dancer, count }));
        },
    );
    ui.menu_button("Face", |ui| {
        let (_, faced) = RingTurn::in_hand(desk.motion(), dancer, desk.player().count);
        let hint = if faced > desk.player().count {
            "As the turn under way finishes, by the shorter way"
        } else {
            "At this count, by the shorter way"
        };
        for toward in Toward::ALL {
            let there = toward.facing(desk.motion(), dancer, faced).is_some();
            let kind = desk.motion().ground().kind;
            if item(ui, there, toward.words(kind), hint) {
                asks.push(Ask::Draw(DrawAsk::Face { dancer, toward }));
            }
        }
    });
    ui.menu_button("Turn", |ui| turn_menu::show_here(ui, desk, dancer, asks));
    ui.menu_button("Path at this count", |ui| draw_card::show_path(ui, desk, dancer, asks));
    ui.menu_button("Place…", |ui| draw_card::show_exact(ui, desk, dancer, asks));
}

/// The moments after this one, to choose from; where none comes, that there is none.
fn show_later(ui: &mut Ui, name: &str, moments: &[(By, f64)], hint: &str, mut chosen: impl FnMut(f64)) {
    let later: Vec<_> = moments.iter().filter(|(by, _)| *by != By::Now).collect();
    if later.is_empty() {
        item(ui, false, name, "Nothing of this figure comes after this count; go to an earlier one");
        return;
    }
    ui.menu_button(name, |ui| {
        for (by, count) in later {
            if item(ui, true, by.words(), hint) {
                chosen(*count);
            }
        }
    });
}

/// Who has a spot, after their number; nothing where nobody is named.
fn named(desk: &Desk, spot: PlaceNumber) -> String {
    let name = desk.dance().person(spot.get()).unwrap_or_default();
    if name.is_empty() { String::new() } else { format!(" · {name}") }
}

/// Sets of more have a menu that does not go down for ever: the floor has the other spots.
const MOST_SPOTS: usize = 24;

fn show_copies(ui: &mut Ui, desk: &Desk, span: &Span, dancer: Dancer, asks: &mut Vec<Ask>) {
    let (ground, place) = (desk.motion().ground(), span.place(dancer));
    // The way that is drawn now, if that has mates; else all four.
    let ways = [desk.together(), Together::BothMirrors];
    let together = ways.into_iter().find(|way| !way.mates(ground, place).is_empty());
    if let Some(together) = together {
        let hint = format!("What {dancer} does in this figure, {}: {}", together.words(), together.help());
        if item(ui, true, &format!("Copy to mates ({})", together.words()), &hint) {
            asks.push(Ask::Draw(DrawAsk::CopyToMates { dancer, together }));
        }
    }
    ui.menu_button("Copy to", |ui| draw_card::show_copy(ui, desk, dancer, asks));
}

/// What can be done with bare floor, or with the spot there.
pub fn show_floor(ui: &mut Ui, desk: &Desk, here: Option<Here>, asks: &mut Vec<Ask>) {
    match here {
        Some(here) => show_here(ui, desk, here, asks),
        // A key points nowhere: the spots are named.
        None => show_spots(ui, desk, asks),
    }
    ui.separator();
    if item(ui, true, "Pick everyone", "Ctrl+A") {
        let everyone = Dancer::all(desk.motion().dancers()).collect();
        asks.push(Ask::View(ViewAsk::Pick(everyone)));
    }
    if item(ui, desk.chosen().is_some(), "Choose nobody", "") {
        asks.push(Ask::View(ViewAsk::Choose(None)));
    }
    ui.separator();
    if item(ui, true, "Fit the floor", "The whole floor again (F)") {
        asks.push(Ask::View(ViewAsk::FitFloor));
    }
    ui.menu_button("See from", |ui| {
        for (seen, name) in [
            (Seen::FromBottom, "the bottom, the music at the top"),
            (Seen::FromTop, "the music"),
            (Seen::OwnFacing, "the chosen dancer's facing"),
        ] {
            if choice(ui, desk.seen() == seen, name, "(V)") {
                asks.push(Ask::View(ViewAsk::See(seen)));
            }
        }
    });
    if choice(ui, desk.trails(), "Paths", "On or off (T)") {
        asks.push(Ask::View(ViewAsk::ToggleTrails));
    }
    photo_menu::show_all(ui, desk, asks);
    if choice(ui, desk.space_shown(), "The floor that the dance needs", "On or off") {
        asks.push(Ask::View(ViewAsk::ToggleSpace));
    }
}

/// The spots to choose from, each with what can be done with it.
fn show_spots(ui: &mut Ui, desk: &Desk, asks: &mut Vec<Ask>) {
    ui.menu_button("The spot of", |ui| {
        let ground = desk.motion().ground();
        for (spot, stand) in ground.places().zip(&ground.stands).take(MOST_SPOTS) {
            ui.menu_button(format!("number {spot}{}", named(desk, spot)), |ui| {
                show_here(ui, desk, Here { x: stand.x, y: stand.y, spot: Some(spot) }, asks);
            });
        }
    });
}

/// What can be done with a place.
fn show_here(ui: &mut Ui, desk: &Desk, here: Here, asks: &mut Vec<Ask>) {
    let (x, y) = (here.x, here.y);
    let there = match here.spot {
        Some(spot) => {
            ui.weak(format!("The spot of {spot}{}", named(desk, spot)));
            "this spot"
        }
        None => {
            let side = if x < 0.0 { "left" } else { "right" };
            let level = if y < 0.0 { "down" } else { "up" };
            ui.weak(format!("{:.2} m {side}, {:.2} m {level} of the middle", x.abs(), y.abs()));
            "here"
        }
    };
    if let Some(dancer) = desk.chosen() {
        let moments = moments(desk, dancer);
        for (_, count) in moments.iter().filter(|(by, _)| *by == By::Now) {
            let hint = "As if you dragged them there";
            if item(ui, true, &format!("{dancer} to {there} by this count"), hint) {
                asks.push(Ask::Draw(DrawAsk::GoBy { dancer, x, y, count: *count }));
            }
        }
        if !moments.is_empty() {
            show_later(ui, &format!("{dancer} to {there} by"), &moments, "", |count| {
                asks.push(Ask::Draw(DrawAsk::GoBy { dancer, x, y, count }));
            });
        }
    }
    if let Some(spot) = here.spot
        && item(ui, true, &format!("Choose {spot}, whose spot it is"), "")
    {
        asks.push(Ask::View(ViewAsk::Choose(Some(spot.first_dancer()))));
    }
}
