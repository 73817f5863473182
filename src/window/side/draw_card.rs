use crate::dance::{Dancer, LegFacing};
use crate::desk::{Ask, Desk, DrawAsk, ViewAsk};
use crate::edits::{LegChange, LegFrom, RingTurn, SecondHalf, Together};
use crate::figures::Mirror;
use crate::motion::{Ground, Moment, wrap_whole};
use crate::window::{
    context_menu::choice,
    fields::{NumberField, NumberKind},
    path_menu::{show_place, show_shapes},
    views::views_stand_aside,
};
use egui::{Ui, containers::menu::MenuButton};

/// What can be done with the chosen dancer's path: three menus in the row that they are shown in.
pub fn show(ui: &mut Ui, desk: &Desk, dancer: Dancer, asks: &mut Vec<Ask>) {
    ui.menu_button("Path", |ui| show_path(ui, desk, dancer, asks))
        .response
        .on_hover_text("The path at this count: its shape, its points, split and join");
    ui.menu_button("Copy", |ui| show_copy(ui, desk, dancer, asks))
        .response
        .on_hover_text("To another dancer, or to the second half");
    let exact = MenuButton::new("Place…");
    let stays = egui::containers::menu::MenuConfig::new()
        .close_behavior(egui::PopupCloseBehavior::CloseOnClickOutside);
    let (response, _) = exact.config(stays).ui(ui, |ui| show_exact(ui, desk, dancer, asks));
    response.on_hover_text("Type where they are and which way they face at this count");
}

/// The leg at the playhead: its shape, its facing, its points.
pub fn show_path(ui: &mut Ui, desk: &Desk, dancer: Dancer, asks: &mut Vec<Ask>) {
    let span = desk.span_here();
    let Some((_, index, many)) = desk.leg_here(dancer) else {
        ui.label("Nobody has drawn a way here yet.");
        ui.weak("Go to a later count and drag the dancer there.");
        return;
    };
    let Some((span, leg)) = span.and_then(|span| Some((span, span.part(dancer)?.legs.get(index)?))) else {
        return;
    };
    let moment = |count: f64| Moment::at(span.bar_counts(), count);
    ui.weak(format!("Path {} of {many}, bar {} to {}", index + 1, moment(leg.begin), moment(leg.end)));
    let change = |change: LegChange| Ask::Draw(DrawAsk::ChangeLeg { dancer, leg: index, change });
    show_shapes(ui, leg.shape, |to| asks.push(change(to)));
    ui.separator();
    let mut item = |ui: &mut Ui, name: &str, on: bool, hint: &str, ask: Ask| {
        if choice(ui, on, name, hint) {
            asks.push(ask);
        }
    };
    for (name, facing, to) in [
        ("Facing as they were", LegFacing::Held, LegChange::Held),
        ("Facing the way they go", LegFacing::Forwards, LegChange::Forwards),
        ("Going backwards", LegFacing::Backwards, LegChange::Backwards),
    ] {
        item(
            ui,
            name,
            leg.facing == facing,
            "Which way they face on this path; turns drawn come first",
            change(to),
        );
    }
    ui.separator();
    item(
        ui,
        "Point here",
        false,
        "A point of the path at this count, to drag",
        Ask::Draw(DrawAsk::InsertPoint(dancer)),
    );
    item(
        ui,
        "Split here",
        false,
        "Two paths, the first of which ends at this count",
        Ask::Draw(DrawAsk::SplitLeg(dancer)),
    );
    if index + 1 < many {
        item(
            ui,
            "Join with the next",
            false,
            "One path of this and the next",
            Ask::Draw(DrawAsk::JoinLegs { dancer, leg: index }),
        );
    }
    item(ui, "Take this path away", false, "They stay where it began", change(LegChange::Remove));
}

/// What a dancer does, to the second half and to others.
pub fn show_copy(ui: &mut Ui, desk: &Desk, dancer: Dancer, asks: &mut Vec<Ask>) {
    let Some(span) = desk.span_here() else {
        ui.label("There is no figure here.");
        return;
    };
    let picked = desk.picked().len() > 1 && desk.picked().contains(&dancer);
    let who = if picked { "those picked".to_owned() } else { dancer.to_string() };
    ui.weak("To the second half of the figure");
    for (name, hint, second) in [
        ("Mirrored", "Left for right: what passed the right shoulder passes the left", SecondHalf::Mirrored),
        ("The same again", "The same feet and shoulders again", SecondHalf::Same),
    ] {
        if ui.button(name).on_hover_text(format!("{hint}. For {who}, and mates who follow")).clicked() {
            asks.extend([Ask::View(ViewAsk::ChooseFor(dancer)), Ask::Draw(DrawAsk::CopyHalf(second))]);
            ui.close();
        }
    }
    ui.separator();
    ui.weak(format!("What {dancer} does, to"));
    let ground = desk.motion().ground();
    let place = span.place(dancer);
    if Together::BothMirrors.mates(ground, place).len() > 1 {
        let together = Together::BothMirrors;
        let name = format!("all mates ({})", together.words());
        if ui.button(name).on_hover_text(together.help()).clicked() {
            asks.push(Ask::Draw(DrawAsk::CopyToMates { dancer, together }));
            ui.close();
        }
    }
    for together in Together::ALL.into_iter().filter(|way| *way != Together::BothMirrors) {
        if let [other] = together.mates(ground, place)[..]
            && let Some(other) = span.dancer_in(other)
        {
            let name = format!("{other} ({})", together.words());
            if ui.button(name).on_hover_text(together.help()).clicked() {
                asks.push(Ask::Draw(DrawAsk::CopyPart { dancer, together, other: Dancer(other.index()) }));
                ui.close();
            }
        }
    }
    if desk.motion().dancers() > 1 {
        ui.menu_button("another, the same from their spot", |ui| {
            for other in Dancer::all(desk.motion().dancers().min(40)).filter(|&other| other != dancer) {
                if ui.button(other.to_string()).clicked() {
                    asks.push(Ask::Draw(DrawAsk::CopyPart { dancer, together: Together::Same, other }));
                    ui.close();
                }
            }
        });
    }
}

/// Where a dancer is and which way they face at the playhead, to type.
pub fn show_exact(ui: &mut Ui, desk: &Desk, dancer: Dancer, asks: &mut Vec<Ask>) {
    let pose = desk.motion().pose(dancer, desk.player().count);
    // In the midst of a turn it is its finish that is typed, as it is the finish that the ring drags.
    let (facing, faced) = RingTurn::in_hand(desk.motion(), dancer, desk.player().count);
    let facing = (wrap_whole(facing) * 10.0).round() / 10.0;
    if let Some((x, y)) = show_place(ui, desk, (millimetres(pose.x), millimetres(pose.y))) {
        asks.push(Ask::Draw(DrawAsk::PlaceAt { dancer, x, y }));
    }
    ui.horizontal(|ui| {
        let label = ui.label("facing");
        let kind = NumberKind { least: -720.0, most: 720.0, places: 1, unit: "°" };
        let answer = NumberField::new(facing, kind, 1.0)
            .hint(if faced > desk.player().count {
                "As the turn under way finishes: clockwise from up, towards the music"
            } else {
                "Clockwise from up, towards the music"
            })
            .refused(desk.notice())
            .show(ui);
        answer.response.labelled_by(label.id);
        if let Some(facing) = answer.changed {
            asks.push(Ask::Draw(DrawAsk::FaceAt { dancer, degrees: facing }));
        }
    });
}

fn millimetres(metres: f64) -> f64 {
    (metres * 1000.0).round() / 1000.0
}

/// Floors narrower than this have no room beside the music, points.
pub const NARROW: f32 = 520.0;

/// What the music takes of either half of the floor's head, points.
const BESIDE_MUSIC: f32 = 84.0;

/// Who follows, where a path begins and who is picked: menus at the head of the floor. A narrow floor has them in one menu, in
/// the row at its foot: see [`show_in_menu`].
pub fn show_over_floor(ui: &mut Ui, desk: &Desk, floor: egui::Rect, asks: &mut Vec<Ask>) {
    if floor.width() < NARROW || views_stand_aside(floor) || desk.eye_level() {
        return;
    }
    // Beside the music, or where that is too narrow in two rows.
    let corner = floor.left_top() + egui::vec2(10.0, 8.0);
    let size = egui::vec2((floor.width() / 2.0 - BESIDE_MUSIC).max(10.0), 28.0);
    let area = egui::Rect::from_min_size(corner, size);
    let layout = egui::Layout::left_to_right(egui::Align::Center).with_main_wrap(true);
    ui.scope_builder(egui::UiBuilder::new().max_rect(area), |ui| {
        ui.with_layout(layout, |ui| {
            ui.spacing_mut().item_spacing = egui::vec2(4.0, 3.0);
            // As wide as the widest choice, so that what is beside it keeps its place.
            let menu = |ui: &Ui, what: &str, chosen: &str, all: &[&str]| {
                let font = egui::TextStyle::Button.resolve(ui.style());
                let wide = |words: &str| {
                    let words = format!("{what}: {words}");
                    ui.painter().layout_no_wrap(words, font.clone(), egui::Color32::WHITE).size().x
                };
                let widest = all.iter().map(|words| wide(words)).fold(0.0, f32::max);
                let size = egui::vec2(widest + 2.0 * ui.spacing().button_padding.x, 0.0);
                MenuButton::from_button(egui::Button::new(format!("{what}: {chosen}")).min_size(size))
            };
            let all = Together::ALL.map(Together::words);
            let (response, _) = menu(ui, "who follows", desk.together().words(), &all)
                .ui(ui, |ui| show_together(ui, desk, asks));
            response.on_hover_text(format!("{} (M)", desk.together().help()));
            let all = LegFrom::ALL.map(LegFrom::in_short);
            let (response, _) =
                menu(ui, "from", desk.leg_from().in_short(), &all).ui(ui, |ui| show_from(ui, desk, asks));
            let hint = format!("Where a path begins that you drag anew. {}", desk.leg_from().help());
            response.on_hover_text(hint);
            ui.menu_button("pick", |ui| show_picks(ui, desk, asks)).response.on_hover_text(
                "Dancers to draw at once; or drag a frame round them, or Shift and their numbers",
            );
        });
    });
}

/// The same in one menu.
pub fn show_in_menu(ui: &mut Ui, desk: &Desk, asks: &mut Vec<Ask>) {
    ui.menu_button("who follows", |ui| show_together(ui, desk, asks));
    ui.menu_button("from", |ui| show_from(ui, desk, asks));
    ui.menu_button("pick", |ui| show_picks(ui, desk, asks));
}

fn show_together(ui: &mut Ui, desk: &Desk, asks: &mut Vec<Ask>) {
    for together in Together::ALL {
        let label = ui.selectable_label(desk.together() == together, together.words());
        if label.on_hover_text(together.help()).clicked() {
            asks.push(Ask::Draw(DrawAsk::Together(together)));
            ui.close();
        }
    }
}

fn show_from(ui: &mut Ui, desk: &Desk, asks: &mut Vec<Ask>) {
    for from in LegFrom::ALL {
        let label = ui.selectable_label(desk.leg_from() == from, from.words());
        if label.on_hover_text(from.help()).clicked() {
            asks.push(Ask::Draw(DrawAsk::LegFrom(from)));
            ui.close();
        }
    }
}

fn show_picks(ui: &mut Ui, desk: &Desk, asks: &mut Vec<Ask>) {
    let ground = desk.motion().ground();
    for (name, picked) in groups(ground) {
        if ui.button(&name).clicked() {
            asks.push(Ask::View(ViewAsk::Pick(picked)));
            ui.close();
        }
    }
}

/// The groups that dancers are called by, with who they are: by number, as in the set at rest.
#[must_use]
pub fn groups(ground: &Ground) -> Vec<(String, Vec<Dancer>)> {
    let all = Dancer::all(ground.dancers());
    let mut groups = vec![("Everyone".to_owned(), all.clone().collect())];
    if ground.dancers() > 1 {
        groups.push(("All odds".to_owned(), all.clone().filter(|dancer| !dancer.is_even()).collect()));
        groups.push(("All evens".to_owned(), all.clone().filter(|dancer| dancer.is_even()).collect()));
    }
    let mut ranks: Vec<(String, Vec<Dancer>)> = Vec::new();
    for dancer in all {
        let name = ground.rank_name(dancer.home());
        if name.is_empty() {
            continue;
        }
        let mut letters = name.chars();
        let name: String = letters.next().map(|first| first.to_uppercase().collect()).unwrap_or_default();
        let name = name + letters.as_str() + "s";
        match ranks.iter_mut().find(|(known, _)| *known == name) {
            Some((_, members)) => members.push(dancer),
            None => ranks.push((name, vec![dancer])),
        }
    }
    groups.extend(ranks);
    groups
}

/// The way of drawing together after another, for the key that goes through them.
#[must_use]
pub fn next_together(together: Together) -> Together {
    let index = Together::ALL.iter().position(|known| *known == together).unwrap_or(0);
    Together::ALL.get((index + 1) % Together::ALL.len()).copied().unwrap_or(Together::Mirror(Mirror::Across))
}
