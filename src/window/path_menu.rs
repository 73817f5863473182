use super::context_menu::{choice, item};
use super::fields::{NumberField, NumberKind};
use crate::dance::{Dancer, Shape, limits};
use crate::desk::{Ask, Desk, DrawAsk, PlayAsk};
use crate::edits::{LegChange, LegPoint, PointOf, leg_points};
use crate::motion::SpanIndex;
use egui::Ui;

/// A point of a path that a menu is about: a point on the way or the end of a leg, or where a leg begins.
#[derive(Clone, Copy, Debug)]
pub struct PathPoint {
    /// The span, which is the one at the playhead.
    pub span: SpanIndex,
    /// Whose path it is.
    pub dancer: Dancer,
    /// The leg, from 0.
    pub leg: usize,
    /// The point of it; nothing where the leg begins.
    pub point: Option<PointOf>,
    /// The count from the start of the dance at which they are there.
    pub count: f64,
}

/// What a point of a path is called; nothing is its start.
fn point_words(leg: usize, point: Option<PointOf>) -> String {
    match point {
        None => format!("start of path {}", leg + 1),
        Some(PointOf { point: None, .. }) => format!("end of path {}", leg + 1),
        Some(PointOf { point: Some(through), .. }) => format!("point {} of path {}", through + 1, leg + 1),
    }
}

/// Points nearer together than this cannot be told apart by a pointer, metres.
const ONE_PLACE: f64 = 0.05;

/// Whether two points are at one place.
pub fn is_at(one: &LegPoint, other: &LegPoint) -> bool {
    (one.x - other.x).hypot(one.y - other.y) < ONE_PLACE
}

/// The other points of a dancer's path at the place of one, with the counts at which they are there.
fn others_there(points: &[LegPoint], of: PointOf) -> Vec<(PointOf, f64)> {
    let Some(own) = points.iter().find(|point| point.of == of) else { return Vec::new() };
    let there = points.iter().filter(|other| other.of != of && is_at(other, own));
    there.map(|other| (other.of, other.count)).collect()
}

/// What can be done with a point of a path.
pub fn show(ui: &mut Ui, desk: &Desk, of: PathPoint, asks: &mut Vec<Ask>) {
    let PathPoint { span: index, dancer, leg: number, point, count } = of;
    let Some(span) = desk.motion().span(index) else { return };
    let Some(leg) = span.part(dancer).and_then(|part| part.legs.get(number)) else { return };
    let legs = span.part(dancer).map_or(0, |part| part.legs.len());
    let what = point_words(number, point);
    ui.weak(format!("{dancer}: {what}, {}", span.moment_said(count)));
    let go = Ask::Play(PlayAsk::Seek(count));
    if item(ui, true, "Go there", "") {
        asks.push(go.clone());
    }
    // Where they come by more than once, one point lies over the others.
    for (other, count) in point.map_or_else(Vec::new, |point| others_there(&leg_points(span, dancer), point))
    {
        let name = format!("Here too: {}, {}", point_words(other.leg, Some(other)), span.moment_said(count));
        if item(ui, true, &name, "Go there: it then lies on top, to drag") {
            asks.push(Ask::Play(PlayAsk::Seek(count)));
        }
    }
    ui.separator();
    let change = |change: LegChange| Ask::Draw(DrawAsk::ChangeLeg { dancer, leg: number, change });
    show_shapes(ui, leg.shape, |to| asks.push(change(to)));
    ui.separator();
    let through = point.is_some_and(|point| point.point.is_some());
    if item(ui, through, "Split here", "Two paths, the first of which ends at this point") {
        asks.extend([go, Ask::Draw(DrawAsk::SplitLeg(dancer))]);
    }
    let ends = point.is_some_and(|point| point.point.is_none());
    if item(ui, ends && number + 1 < legs, "Join with the next path", "One path of this and the next") {
        asks.push(Ask::Draw(DrawAsk::JoinLegs { dancer, leg: number }));
    }
    if let Some(point) = point {
        show_exact(ui, desk, (index, dancer), point, asks);
    }
    ui.separator();
    if let Some(point) = point.filter(|_| through)
        && item(ui, true, "Take this point away", "The path goes on without it")
    {
        asks.push(Ask::Draw(DrawAsk::DropPoint { span: index, dancer, point }));
    }
    if item(ui, true, "Take this path away", "They stay where the path began") {
        asks.push(change(LegChange::Remove));
    }
}

/// What a leg's line can be.
pub fn show_shapes(ui: &mut Ui, now: Shape, mut chosen: impl FnMut(LegChange)) {
    for (name, shape, to, hint) in [
        ("Straight", Shape::Straight, LegChange::Straighten, "Straight to its end; points on the way go"),
        ("Smooth", Shape::Smooth, LegChange::Smooth, "One curve through its points"),
        ("Arc", Shape::Arc, LegChange::Arc, "Part of a circle"),
    ] {
        if choice(ui, now == shape, name, hint) {
            chosen(to);
        }
    }
}

/// A place on the floor to type, metres right and up: the one that is wanted instead.
pub fn show_place(ui: &mut Ui, desk: &Desk, (x, y): (f64, f64)) -> Option<(f64, f64)> {
    let (mut to, mut moved) = ([x, y], false);
    ui.weak("From the middle of the set");
    for ((name, hint), metres) in [
        ("right", "To the right as you face up; less than 0 is to the left"),
        ("up", "Towards the music; less than 0 is down"),
    ]
    .into_iter()
    .zip(&mut to)
    {
        ui.horizontal(|ui| {
            let label = ui.label(name);
            let far = limits::FARTHEST;
            let kind = NumberKind { least: -far, most: far, places: 3, unit: "m" };
            let answer = NumberField::new(*metres, kind, 0.01).hint(hint).refused(desk.notice()).show(ui);
            answer.response.labelled_by(label.id);
            moved |= answer.changed.is_some();
            *metres = answer.changed.unwrap_or(*metres);
        });
    }
    moved.then_some((to[0], to[1]))
}

/// Where the point is, to type.
fn show_exact(
    ui: &mut Ui,
    desk: &Desk,
    (span, dancer): (SpanIndex, Dancer),
    point: PointOf,
    asks: &mut Vec<Ask>,
) {
    let known = desk
        .motion()
        .span(span)
        .and_then(|span| leg_points(span, dancer).into_iter().find(|known| known.of == point));
    let Some(known) = known else { return };
    ui.menu_button("Place…", |ui| {
        if let Some((x, y)) = show_place(ui, desk, (known.x, known.y)) {
            asks.push(Ask::Draw(DrawAsk::PointAt { span, dancer, point, x, y }));
        }
    });
}
