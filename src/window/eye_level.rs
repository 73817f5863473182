use crate::dance::{Dancer, PlaceNumber};
use crate::desk::{Ask, Desk, ViewAsk};
use crate::motion::limbs::{Gait, InSpace, Limbs};
use crate::motion::{Blow, BlowOn, Moment, Pose};
use crate::picture::{EyeBody, EyeFrame, EyeSide, Mark, Stroke, eye_level_marks, room_for};
use crate::window::{paint::paint, theme::colour};
use crate::words;
use egui::{
    Align, Button, Label, Layout, Rect, RichText, Role, Sense, Slider, StrokeKind, Ui, UiBuilder, WidgetInfo,
    pos2, vec2,
};
use std::time::Duration;

/// The height of the words at the foot of a picture, points: two lines.
const CAPTION: f32 = 33.0;
/// A picture lower than this has its words under the pointer only: the body needs the room, points.
const TOLD: f32 = 150.0;
/// Two who are no partners are looked at together where they reach each other, hand to hand, metres (twice an arm's length and from shoulder to
/// shoulder, worked out).
const REACHED: f64 = 1.24;
/// How wide the choices at the side of a picture are, points.
const CHOICES: f32 = 62.0;
/// A tick on the floor each so many metres, so that travelling is seen.
const TICKS: f64 = 0.5;

/// A picture lower than this has one choice that goes from one to the next, points.
const LOW: f32 = 84.0;
/// While the bar goes round it is painted each so many milliseconds.
const EACH: u64 = 33;

/// The bar that is looked at again and again beside the playhead, and how slowly.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Again {
    /// When it was begun, seconds of the window; nothing while the picture goes with the playhead.
    since: Option<f64>,
    /// Percent of the dance's own speed.
    speed: f64,
}

impl Default for Again {
    fn default() -> Self {
        Self { since: None, speed: 40.0 }
    }
}

/// What is kept of it from one frame to the next.
fn again_key() -> egui::Id {
    egui::Id::unique("bar looked at again")
}

/// Has the bar looked at again and again, or no longer.
pub fn toggle_again(ctx: &egui::Context) {
    let now = ctx.input(|input| input.time);
    ctx.data_mut(|data| {
        let again: &mut Again = data.get_temp_mut_or_default(again_key());
        again.since = if again.since.is_some() { None } else { Some(now) };
    });
}

/// Shows the chosen dancer at eye level in a part of the window, with the choices of how; with nobody chosen the two who meet in the bar, or else
/// who are nearest to one another as it begins: partners, unless two others come within reach and are nearer yet.
pub fn show_eye_level(ui: &mut Ui, desk: &Desk, place: Rect, asks: &mut Vec<Ask>) {
    let key = again_key();
    let mut again: Again = ui.data(|data| data.get_temp(key)).unwrap_or_default();
    if desk.player().playing {
        // The dance itself goes on: the picture goes with it.
        again.since = None;
    }
    let count = count_shown(ui, desk, again);
    let who = who(desk, count);
    let moment = desk.motion().moment_in_figure(count);
    let caption = caption(desk, &who, count, moment);
    let response = ui.interact(place, ui.scope_id().with("eye level"), Sense::hover());
    let side = desk.eye_side();
    response.widget_info(|| {
        let whom = who.iter().map(ToString::to_string).collect::<Vec<_>>().join(" and ");
        let from = if who.len() == 1 { side.words() } else { "from the side" };
        WidgetInfo::labeled(Role::Image, true, format!("{whom} at eye level, {from}: {caption}"))
    });
    let ink = &desk.ink();
    let painter = ui.painter_at(place);
    painter.rect(place, 8.0, colour(ink.bar), egui::Stroke::new(1.0, colour(ink.faint)), StrokeKind::Inside);
    let told = place.height() >= TOLD;
    let foot = if told { CAPTION } else { 2.0 };
    let room = Rect::from_min_max(place.min + vec2(4.0, 4.0), place.max - vec2(4.0, foot));
    paint(&painter, &scene(desk, &who, count, room));
    if told {
        let line = Rect::from_min_max(
            pos2(place.left() + 8.0, place.bottom() - CAPTION),
            place.max - vec2(8.0, 0.0),
        );
        let layout = Layout::left_to_right(Align::Center);
        let mut child = ui.new_child(UiBuilder::new().max_rect(line).layout(layout).id_salt("caption"));
        child.add(Label::new(RichText::new(&caption).small().weak()).wrap());
    }
    response.on_hover_text(caption);
    show_choices(ui, desk, place, asks);
    show_again(ui, place, &mut again);
    ui.data_mut(|data| data.insert_temp(key, again));
    if again.since.is_some() {
        ui.ctx().request_repaint_after(Duration::from_millis(EACH));
    }
}

/// The count that is drawn: the playhead's, or that of the bar that goes round by itself. On a whole count in rest what it says is seen: a hop or a jump at its top, a free foot where it comes to.
fn count_shown(ui: &Ui, desk: &Desk, again: Again) -> f64 {
    let count = desk.player().count;
    let Some(since) = again.since else { return count };
    let bars = desk.motion().bar_counts();
    let moment = desk.motion().moment(count.min(desk.motion().counts() - 1e-6).max(0.0));
    let begin = bars.begin_of(moment.bar.saturating_sub(1));
    let end = bars.begin_of(moment.bar).min(desk.motion().counts());
    let clock = desk.clock();
    let (from, to) = (clock.seconds(begin), clock.seconds(end));
    let gone = (ui.input(|input| input.time) - since) * again.speed / 100.0;
    clock.counts(from + gone.rem_euclid((to - from).max(1e-3))).clamp(begin, end)
}

/// The two who meet in the bar at a count, which begins at another: those of the latest moment, or of the first that is to come. Of several
/// the `usual` two, or else the first.
fn who_meet(desk: &Desk, (begin, count): (f64, f64), usual: Option<[Dancer; 2]>) -> Option<[Dancer; 2]> {
    let motion = desk.motion();
    let bars = motion.bar_counts();
    let end = bars.begin_of(bars.at(begin + 1e-6).0 + 1);
    let two = |blow: &Blow| match blow.on {
        BlowOn::Other(other) => Some([blow.by.dancer.min(other.dancer), blow.by.dancer.max(other.dancer)]),
        _ => None,
    };
    let met: Vec<(f64, [Dancer; 2])> =
        motion.blows_between(begin, end).iter().filter_map(|blow| Some((blow.count, two(blow)?))).collect();
    let latest = met.iter().rev().find(|(at, _)| *at <= count + 1e-6).or_else(|| met.first())?.0;
    let here = || met.iter().filter(|(at, _)| (at - latest).abs() < 1e-6).map(|(_, two)| *two);
    here().find(|two| Some(*two) == usual).or_else(|| here().min())
}

/// Who is looked at.
fn who(desk: &Desk, count: f64) -> Vec<Dancer> {
    if let Some(dancer) = desk.chosen() {
        return vec![dancer];
    }
    // Of the bar as it begins, so that it is not now these and now those.
    let motion = desk.motion();
    let moment = motion.moment(count);
    let begin = motion.bar_counts().begin_of(moment.bar.saturating_sub(1));
    let poses = motion.poses(begin);
    let all = || Dancer::all(motion.dancers()).zip(&poses);
    let nearest = |pairs: &mut dyn Iterator<Item = (Dancer, &Pose, Dancer, &Pose)>| {
        let apart = pairs.map(|(one, a, other, b)| ((a.x - b.x).hypot(a.y - b.y), [one, other]));
        // Of those as near it is the first.
        apart.reduce(|best, next| if next.0 < best.0 - 1e-9 { next } else { best })
    };
    let partners = nearest(&mut all().filter_map(|(one, a)| {
        let other = motion
            .ground()
            .partner(one.home())
            .map(PlaceNumber::index)
            .filter(|index| *index > one.index())?;
        Some((one, a, Dancer(other), poses.get(other)?))
    }));
    let any = nearest(
        &mut all().flat_map(|(one, a)| all().skip(one.index() + 1).map(move |(other, b)| (one, a, other, b))),
    );
    let nearer = |apart: f64| partners.is_none_or(|(known, _)| apart < REACHED && apart < known - 1e-9);
    let pair = any.filter(|(apart, _)| nearer(*apart)).or(partners).map(|(_, two)| two);
    let pair = who_meet(desk, (begin, count), pair).or(pair);
    pair.map_or_else(|| Dancer::all(motion.dancers()).take(1).collect(), |two| two.to_vec())
}

/// Whether a whole count is looked at in rest: then what the count says is told and drawn.
fn is_on_count(desk: &Desk, count: f64) -> bool {
    !desk.player().playing && count.fract() < 1e-6
}

/// What is written under the picture: on a count what that says, and between two what is seen there.
fn caption(desk: &Desk, who: &[Dancer], count: f64, moment: Moment) -> String {
    let on = |dancer: Dancer| desk.gait(dancer)?.on_count(count as usize);
    let at = format!("bar {}:{}", moment.bar, moment.count.floor());
    let still = is_on_count(desk, count);
    let clock = desk.clock();
    match who {
        [one] => {
            // Where sticks or hands meet the hands do that, and not what the step has them do.
            let meets =
                |blow: &&Blow| blow.has(*one) && blow.count - 1e-3 <= count && count <= blow.until + 1e-3;
            if let Some(blow) = desk.motion().blows().iter().find(meets) {
                let lands = on(*one).filter(|_| still).map(words::landing_words);
                let stands = || desk.gait(*one).map(|gait| words::standing_words(gait.weight(clock, count)));
                let feet = lands.or_else(stands).unwrap_or_default();
                return format!("{at} · {feet}, {}", words::blow_said(blow));
            }
            let said = match desk.gait(*one) {
                Some(gait) if !still => words::between_words(gait, clock, count),
                _ => on(*one).map(words::body_words).unwrap_or_default(),
            };
            format!("{at} · {said}")
        }
        many => {
            // Of two there is room for no more than what lands, or carries the weight.
            let said = |dancer: Dancer| {
                let said = if still {
                    words::landing_words(on(dancer)?)
                } else {
                    words::standing_words(desk.gait(dancer)?.weight(clock, count))
                };
                Some(format!("{dancer} {said}"))
            };
            let each = many.iter().filter_map(|dancer| said(*dancer));
            let meet = |blow: &&Blow| {
                blow.count - 1e-3 <= count
                    && count <= blow.until + 1e-3
                    && many.iter().all(|dancer| blow.has(*dancer))
            };
            let met = desk.motion().blows().iter().find(meet).map(words::blow_said);
            format!("{at} · {}", each.chain(met).collect::<Vec<_>>().join("; "))
        }
    }
}

/// The marks of the picture.
fn scene(desk: &Desk, who: &[Dancer], count: f64, room: Rect) -> Vec<Mark> {
    let (motion, clock, ink) = (desk.motion(), desk.clock(), desk.ink());
    let gaits: Vec<(Dancer, &Gait)> =
        who.iter().filter_map(|dancer| Some((*dancer, desk.gait(*dancer)?))).collect();
    let still = is_on_count(desk, count);
    let bodies: Vec<(Dancer, Limbs, [InSpace; 2], [bool; 2])> = gaits
        .iter()
        .map(|(dancer, gait)| {
            let (limbs, legs) = match who {
                // What the words say of the count is seen: the free foot where it is told.
                [_] if still => gait.seen_on(motion, clock, count),
                // Two meet as they do on the count itself.
                _ if still => {
                    let top = gait.top_at(clock, count);
                    (gait.limbs(motion, clock, top), top)
                }
                _ => (gait.limbs(motion, clock, count), count),
            };
            (*dancer, limbs, gait.trails(motion, clock, count), gait.carries(clock, legs))
        })
        .collect();
    let mut marks = Vec::new();
    let Some((_, first, ..)) = bodies.first() else { return marks };
    let middle = |limbs: &Limbs| {
        let place = limbs.middle();
        (place.x, place.y)
    };
    let (mut centre, mut looks, mut across) = (middle(first), desk.eye_side().looks(first.facing), 1.3);
    if let [(_, one, ..), (_, other, ..)] = bodies.as_slice() {
        // Across the line between them.
        let ((x0, y0), (x1, y1)) = (middle(one), middle(other));
        centre = (f64::midpoint(x0, x1), f64::midpoint(y0, y1));
        looks = (y0 - y1).atan2(x1 - x0).to_degrees();
        across = (x1 - x0).hypot(y1 - y0) + 1.2;
    }
    let floor = [room.center().x, room.bottom() - 5.0];
    let scale = (f64::from(room.height() - 7.0) / room_for(desk.dance().height))
        .min(f64::from(room.width()) / across);
    let frame = EyeFrame { centre, floor, scale, looks };
    floor_marks(&mut marks, desk, &frame, room);
    // Who is farther away is drawn first.
    let mut order: Vec<usize> = (0..bodies.len()).collect();
    let away =
        |index: &usize| bodies.get(*index).map_or(0.0, |(_, limbs, ..)| frame.to_picture(limbs.middle()).1);
    order.sort_by(|one, other| away(other).total_cmp(&away(one)));
    for (dancer, limbs, trails, carries) in order.into_iter().filter_map(|index| bodies.get(index)) {
        let seen = EyeBody {
            limbs,
            carries: *carries,
            trails: *trails,
            number: dancer.number(),
            holding: desk.dance().holding,
            stick_in: desk.dance().stick_hand(dancer.number()),
            numbered: true,
        };
        eye_level_marks(&mut marks, &frame, &ink, seen);
    }
    marks
}

/// The floor, with ticks that stay where they are on it.
fn floor_marks(marks: &mut Vec<Mark>, desk: &Desk, frame: &EyeFrame, room: Rect) {
    let stroke = Stroke { colour: desk.ink().faint, width: 1.5 };
    let [x, y] = frame.floor;
    marks.push(Mark::Line { points: vec![[room.left(), y], [room.right(), y]], stroke, dash: None });
    let (sin, cos) = frame.looks.to_radians().sin_cos();
    let along = frame.centre.0 * cos - frame.centre.1 * sin;
    let first = along - f64::from(x - room.left()) / frame.scale;
    let last = along + f64::from(room.right() - x) / frame.scale;
    let mut tick = (first / TICKS).ceil() * TICKS;
    while tick <= last && marks.len() < 200 {
        let right = x + ((tick - along) * frame.scale) as f32;
        marks.push(Mark::Line { points: vec![[right, y], [right, y + 4.0]], stroke, dash: None });
        tick += TICKS;
    }
}

/// From where it is seen.
fn show_choices(ui: &mut Ui, desk: &Desk, place: Rect, asks: &mut Vec<Ask>) {
    let corner = pos2(place.right() - CHOICES - 6.0, place.top() + 5.0);
    let area = Rect::from_min_size(corner, vec2(CHOICES, 70.0));
    let mut child = ui.new_child(UiBuilder::new().max_rect(area).id_salt("from where"));
    let ui = &mut child;
    ui.spacing_mut().item_spacing.y = 2.0;
    if place.height() < LOW {
        let next = desk.eye_side().next();
        let button = Button::new(desk.eye_side().word()).small().min_size(vec2(CHOICES, 0.0));
        let button = ui.add_enabled(desk.chosen().is_some(), button);
        if button.on_hover_text(format!("Seen {}; next {}", desk.eye_side().words(), next.words())).clicked()
        {
            asks.push(Ask::View(ViewAsk::EyeSide(next)));
        }
    } else {
        for side in EyeSide::ALL {
            let button =
                Button::selectable(desk.eye_side() == side, side.word()).small().min_size(vec2(CHOICES, 0.0));
            let button = ui.add_enabled(desk.chosen().is_some(), button);
            let hint =
                format!("The chosen dancer {}{}", side.words(), if desk.eye_level() { " (S)" } else { "" });
            if button
                .on_hover_text(hint)
                .on_disabled_hover_text("Choose a dancer first: these two are seen from the side")
                .clicked()
            {
                asks.push(Ask::View(ViewAsk::EyeSide(side)));
            }
        }
    }
}

/// The bar again and again, as slowly as one likes.
fn show_again(ui: &mut Ui, place: Rect, again: &mut Again) {
    let area = Rect::from_min_size(place.min + vec2(6.0, 5.0), vec2(CHOICES, 46.0));
    let mut child = ui.new_child(UiBuilder::new().max_rect(area).id_salt("again"));
    let ui = &mut child;
    ui.spacing_mut().item_spacing.y = 2.0;
    {
        let button = Button::selectable(again.since.is_some(), "loop bar")
            .wrap_mode(egui::TextWrapMode::Extend)
            .small()
            .min_size(vec2(CHOICES, 0.0));
        let hint = "This bar again and again here, until the dance is played (large: R)";
        if ui.add(button).on_hover_text(hint).clicked() {
            again.since = if again.since.is_some() { None } else { Some(ui.input(|input| input.time)) };
        }
        let before = again.speed;
        ui.spacing_mut().slider_width = CHOICES - 4.0;
        let slider = ui.add(Slider::new(&mut again.speed, 2.0..=100.0).show_value(false));
        let said = format!("How fast the bar goes again: {:.0} % of the dance's own speed", again.speed);
        slider.widget_info(|| WidgetInfo::slider(true, again.speed, "How fast the bar goes again, percent"));
        slider.on_hover_text(said);
        if before != again.speed && before > 0.0 {
            // It goes on from where it is.
            let now = ui.input(|input| input.time);
            again.since = again.since.map(|since| now - (now - since) * before / again.speed);
        }
    }
}
