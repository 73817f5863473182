//! Whatever is done to a dance but to a turn itself, the turn keeps its way and its amount, as far as it still finishes where it
//! says: every ask of the desk that redraws, copies, mends or sets anew, in any order.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

use bellpad::dance::{
    Dance, Dancer, Ends, Entry, Extra, FaultKind, Figure, LeadRule, Leg, LegFacing, Part, PlaceNumber, Set,
    Stance, Turn, TurnOn, Way, write,
};
use bellpad::desk::{Ask, CompareAsk, Desk, DrawAsk, FaultAsk, Grip, OrderAsk, PlayAsk, ViewAsk};
use bellpad::edits::{
    LegChange, PointOf, SecondHalf, TimePoint, Together, Toward, TurnEdit, TurnTime, own_part,
};
use bellpad::figures::{Mirror, named_figure};
use bellpad::motion::{LeadFrom, Motion, Span, SpanIndex, amount};
use bellpad::store::Recent;
use proptest::prelude::*;
use proptest::sample::select;
use serde_json::json;

/// Degrees by which a number that is kept to the tenth may be off, many times over.
const ROUNDED: f64 = 0.5;
/// Degrees by which an amount may be off that is kept to the thousandth.
const EXACT: f64 = 2e-3;

/// What a turn of a file says: how far, or which way to finish facing, or both, or the shorter way there.
fn turn(begin: f64) -> impl Strategy<Value = Turn> {
    let way = select(vec![Way::Left, Way::Right]);
    let tenths = |most: i32| (1..most * 10).prop_map(|tenths| f64::from(tenths) / 10.0);
    (
        way,
        0..4_u8,
        tenths(720),
        tenths(360),
        prop::option::weighted(0.3, select(vec![TurnOn::Start, TurnOn::Hop, TurnOn::SingleSteps])),
        prop::bool::weighted(0.25),
    )
        .prop_map(move |(way, kind, by, face, on, by_lead)| {
            let to_face = Turn::to_face(begin, begin + 2.0, way, face);
            let turn = match kind {
                0 => Turn { by: Some(by), face: None, ..to_face },
                1 => to_face,
                2 => Turn { by: Some(by), ..to_face },
                _ => Turn::shorter(begin, begin + 2.0, way, face),
            };
            // Single steps are in the third and seventh bars alone.
            let on = on.filter(|on| *on != TurnOn::SingleSteps || begin == 20.0 || begin == 4.0);
            Turn { on, by_lead, ..turn }
        })
}

/// What a dancer does who is drawn: in on a bow, turning, and on; turns about it, a bar apart so that none meets another.
fn part() -> impl Strategy<Value = Part> {
    let place = || (-18..18_i32).prop_map(|tenths| f64::from(tenths) / 10.0);
    let facing = select(vec![LegFacing::Held, LegFacing::Forwards, LegFacing::Backwards]);
    let turns = [0.0, 4.0, 12.0, 20.0, 28.0].map(|begin| prop::option::weighted(0.6, turn(begin)));
    (turns, [place(), place(), place(), place()], facing).prop_map(|(turns, [x, y, to_x, to_y], facing)| {
        let mut part = Part::still(1);
        part.legs = vec![Leg::smooth(0.0, 8.0, &[(x, y)], to_x, to_y), Leg::straight(16.0, 20.0, x, y)];
        part.legs[0].facing = facing;
        part.turns = turns.into_iter().flatten().collect();
        part
    })
}

/// Six who dance a named figure, one that is drawn, another named one of which two are redrawn, and the drawn one again.
fn dance() -> impl Strategy<Value = Dance> {
    prop::collection::vec(part(), 8).prop_map(|parts| {
        let mut dance = Dance::new("Test", Set::longways(6, 2.4, 1.8));
        let named = |dance: &Dance, name: &str| named_figure(name, Extra::new(), &dance.set).unwrap();
        let mut own = Figure::drawn("own", "Own", 8);
        let mut parts = parts.into_iter();
        own.parts = (1..=6).zip(parts.by_ref()).map(|(place, part)| at(part, place)).collect();
        let mut redrawn = named(&dance, "cross-and-turn");
        redrawn.parts = [2, 3].into_iter().zip(parts).map(|(place, part)| at(part, place)).collect();
        "redrawn".clone_into(&mut redrawn.id);
        dance.figures = vec![named(&dance, "foot-up-and-down"), own, redrawn, named(&dance, "whole-rounds")];
        let ids = ["foot-up-and-down", "own", "redrawn", "whole-rounds", "own"];
        dance.order = ids.map(Entry::of).to_vec();
        dance
    })
}

fn at(part: Part, place: u32) -> Part {
    Part { place: PlaceNumber(place), ..part }
}

/// Something that is done to the dance, and whose turns it may change.
#[derive(Clone, Debug)]
struct Edit {
    asks: Vec<Ask>,
    changes: Changes,
}

/// The figure at the playhead, which is known once it is there.
const HERE: SpanIndex = SpanIndex(usize::MAX);

/// Which turns an edit is meant to change.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Changes {
    None,
    /// Those of the mates that a dancer is copied to, in the figure at the playhead.
    Mates(Dancer, Together),
    /// Those of the second half of whoever is chosen.
    SecondHalf(Dancer),
    /// One of a dancer in the figure at the playhead.
    One(Dancer, usize),
    /// Whichever a dancer is in, or comes out of, at the playhead.
    Here(Dancer),
    /// All of a dancer in the figure at the playhead.
    AllOf(Dancer),
    /// All of a place of a figure.
    Place(usize, PlaceNumber),
    /// All of a figure.
    Figure(usize),
}

impl Changes {
    /// Whether a turn of a part is among them, that is danced from a count of the figure to another; `at` is the playhead.
    fn has(
        self,
        motion: &Motion,
        (at, span): (f64, &Span),
        place: PlaceNumber,
        (index, danced): (usize, &Turn),
    ) -> bool {
        let of = span.figure;
        let here = motion.span_under(at).is_some_and(|here| here.figure == span.figure);
        let span = motion.span_under(at).unwrap_or(span);
        let is = |dancer: Dancer| here && span.place(dancer) == place;
        match self {
            Self::None => false,
            Self::Mates(dancer, together) => {
                here && together.mates(motion.ground(), span.place(dancer)).contains(&place)
            }
            Self::SecondHalf(dancer) => is(dancer) && danced.end > span.bar_counts().counts() / 2.0 - 1e-6,
            Self::One(dancer, turn) => is(dancer) && index == turn,
            Self::AllOf(dancer) => is(dancer),
            Self::Place(figure, other) => of == figure && place == other,
            Self::Figure(figure) => of == figure,
            Self::Here(dancer) => {
                let local = at - span.begin();
                is(dancer) && danced.begin <= local + 0.1 && local <= danced.end + 0.1
            }
        }
    }
}

fn edit() -> impl Strategy<Value = Edit> {
    let draw = |asks: Vec<DrawAsk>| asks.into_iter().map(Ask::Draw).collect::<Vec<_>>();
    let dancer = || (0..6_usize).prop_map(Dancer);
    let metres = || (-20..20_i32).prop_map(|tenths| f64::from(tenths) / 10.0);
    let count = || (0..8 * 36_i32).prop_map(|halves| f64::from(halves) / 2.0);
    let at_count = move |asks: BoxedStrategy<Vec<Ask>>| {
        (count(), asks).prop_map(|(count, asks)| {
            let mut all = vec![Ask::Play(PlayAsk::Seek(count))];
            all.extend(asks);
            all
        })
    };
    let at_count_of = move |asks: BoxedStrategy<(Vec<Ask>, Changes)>| {
        (count(), asks).prop_map(|(count, (asks, changes))| {
            let mut all = vec![Ask::Play(PlayAsk::Seek(count))];
            all.extend(asks);
            (all, changes)
        })
    };
    let drags = at_count(
        (dancer(), metres(), metres())
            .prop_map(move |(dancer, x, y)| {
                let to = |x, y| DrawAsk::DragTo { x, y, reach: 0.0 };
                draw(vec![DrawAsk::BeginDrag(Grip::Dancer(dancer)), to(y, x), to(x, y), DrawAsk::EndDrag])
            })
            .boxed(),
    );
    let points = at_count(
        (dancer(), 1..5_usize, 0..2_usize, metres(), metres(), count())
            .prop_map(move |(dancer, span, leg, x, y, count)| {
                let (point, time) = (PointOf::end(leg), TimePoint::End(leg));
                draw(vec![
                    DrawAsk::BeginDrag(Grip::Point { span: SpanIndex(span), dancer, point }),
                    DrawAsk::DragTo { x, y, reach: 0.0 },
                    DrawAsk::EndDrag,
                    DrawAsk::BeginDrag(Grip::Time { span: SpanIndex(span), dancer, point: time }),
                    DrawAsk::DragToCount(count),
                    DrawAsk::EndDrag,
                ])
            })
            .boxed(),
    );
    let paths = at_count(
        (dancer(), 0..2_usize, 0..8_u8, metres(), metres(), count())
            .prop_map(move |(dancer, leg, kind, x, y, count)| {
                let change = |change| DrawAsk::ChangeLeg { dancer, leg, change };
                draw(vec![match kind {
                    0 => change(LegChange::Forwards),
                    1 => change(LegChange::Backwards),
                    2 => change(LegChange::Remove),
                    3 => DrawAsk::SplitLeg(dancer),
                    4 => DrawAsk::StandUntil { dancer, count },
                    5 => DrawAsk::GoBy { dancer, x, y, count },
                    6 => DrawAsk::HomeBy { dancer, count },
                    _ => DrawAsk::PlaceAt { dancer, x, y },
                }])
            })
            .boxed(),
    );
    let orders = prop_oneof![
        2 => (10..30_i32, 10..24_i32).prop_map(|(across, along)| {
            let set = Set::longways(6, f64::from(across) / 10.0, f64::from(along) / 10.0);
            vec![Ask::Order(OrderAsk::ChangeSet(Box::new(set)))]
        }),
        2 => (select(vec!["cross-over", "half-rounds", "whole-rounds", "into-line", "hey"]), 0..5_usize)
            .prop_map(|(name, line)| vec![Ask::Order(OrderAsk::PutIn(name, Some(line)))]),
        1 => (0..5_usize).prop_map(|line| vec![Ask::Order(OrderAsk::TakeOut(line))]),
        1 => (0..5_usize, 0..5_usize).prop_map(|(from, to)| vec![Ask::Order(OrderAsk::Move { from, to })]),
        2 => (0..4_usize, select(vec![Stance::Front, Stance::Column])).prop_map(|(figure, stance)| {
            vec![Ask::Order(OrderAsk::SetEnds(figure, Ends { spots: None, stance: Some(stance) }))]
        }),
    ];
    let mends = (0..40_usize)
        .prop_map(|fault| vec![Ask::Fault(FaultAsk::MakeRoom(fault)), Ask::Fault(FaultAsk::TakeMend)]);
    let copies = at_count_of(
        (dancer(), 0..4_u8, select(vec![SecondHalf::Mirrored, SecondHalf::Same]))
            .prop_map(move |(dancer, kind, second)| {
                let together = match kind {
                    0 => Together::Mirror(Mirror::Across),
                    1 => Together::Mirror(Mirror::EndForEnd),
                    2 => Together::BothMirrors,
                    _ => {
                        let mut asks = vec![Ask::View(ViewAsk::Choose(Some(dancer)))];
                        asks.extend(draw(vec![DrawAsk::CopyHalf(second)]));
                        return (asks, Changes::SecondHalf(dancer));
                    }
                };
                (draw(vec![DrawAsk::CopyToMates { dancer, together }]), Changes::Mates(dancer, together))
            })
            .boxed(),
    );
    let other_turns = at_count_of(
        (dancer(), 0..5_usize, 0..7_u8, select(vec![30.0, 90.0, 180.0, 270.0, 360.0, 510.0]))
            .prop_map(move |(dancer, turn, kind, degrees)| {
                let one = Changes::One(dancer, turn);
                let change = |edit| draw(vec![DrawAsk::ChangeTurn { span: HERE, dancer, turn, edit }]);
                match kind {
                    0 => (change(TurnEdit::OtherWay), one),
                    1 => (change(TurnEdit::By(degrees)), one),
                    2 => (change(TurnEdit::Remove), one),
                    3 => (change(TurnEdit::On(Some(TurnOn::SingleSteps))), one),
                    4 => (draw(vec![DrawAsk::FaceAt { dancer, degrees }]), Changes::Here(dancer)),
                    5 => {
                        (draw(vec![DrawAsk::Face { dancer, toward: Toward::Partner }]), Changes::Here(dancer))
                    }
                    _ => (
                        draw(vec![DrawAsk::TurnBy { dancer, degrees: degrees - 200.0 }]),
                        Changes::Here(dancer),
                    ),
                }
            })
            .boxed(),
    );
    let stepping =
        (0..4_usize, select(vec!["", "4 ss, 2 ds, ftj", "2 ds, 2 ss, ftj", "3 ds, ftj", "2 ds, 2 pc, ftj"]))
            .prop_map(|(figure, phrase)| Edit {
                asks: vec![Ask::Order(OrderAsk::SetPhrase(figure, phrase.to_owned()))],
                changes: Changes::None,
            });
    let leads = (0..4_usize, prop::option::of(select(LeadRule::ALL.to_vec()))).prop_map(|(figure, rule)| {
        Edit { asks: vec![Ask::Order(OrderAsk::SetLead(figure, rule))], changes: Changes::None }
    });
    let choices = select(vec![
        (0, "distance", json!(2.0)),
        (0, "second", json!("up")),
        (2, "pass", json!(1.2)),
        (2, "first", json!("left")),
        (2, "bars", json!(2)),
        (3, "way", json!("anticlockwise")),
        (3, "finish", json!("in")),
    ])
    .prop_map(|(figure, key, value)| Edit {
        asks: vec![Ask::Order(OrderAsk::SetChoice(figure, key, value))],
        changes: Changes::None,
    });
    let part_copies = at_count_of(
        (dancer(), dancer(), select(vec![Together::Same, Together::BothMirrors]))
            .prop_map(move |(dancer, other, together)| {
                (draw(vec![DrawAsk::CopyPart { dancer, together, other }]), Changes::AllOf(other))
            })
            .boxed(),
    );
    let restored = (0..4_usize, 1..7_u32).prop_map(move |(figure, place)| Edit {
        asks: draw(vec![DrawAsk::RestoreNamed { figure, place: PlaceNumber(place) }]),
        changes: Changes::Place(figure, PlaceNumber(place)),
    });
    // Whose part or which figure it is, is known once the two are compared.
    let taken = (0..12_usize, any::<bool>()).prop_map(|(index, whole)| {
        vec![Ask::Compare(if whole { CompareAsk::TakeFigure(index) } else { CompareAsk::TakePart(index) })]
    });
    let plain = |asks: Vec<Ask>| Edit { asks, changes: Changes::None };
    prop_oneof![
        1 => stepping,
        1 => leads,
        2 => choices,
        1 => part_copies.prop_map(|(asks, changes)| Edit { asks, changes }),
        1 => restored,
        2 => taken.prop_map(plain),
        4 => drags.prop_map(plain),
        2 => points.prop_map(plain),
        3 => paths.prop_map(plain),
        4 => orders.prop_map(plain),
        1 => mends.prop_map(plain),
        2 => copies.prop_map(|(asks, changes)| Edit { asks, changes }),
        3 => other_turns.prop_map(|(asks, changes)| Edit { asks, changes }),
    ]
}

/// The spans of a figure, in order.
fn spans<'a>(dance: &Dance, motion: &'a Motion, id: &str) -> Vec<&'a Span> {
    let figure = dance.figure_index(id);
    motion.spans().iter().filter(|span| Some(span.figure) == figure).collect()
}

/// A turn as it is danced one of the times that its figure is, before an edit and after it.
struct Time {
    /// Degrees, clockwise positive.
    was: f64,
    now: f64,
    /// The facing in which it begins now.
    from: f64,
    /// The way that is danced.
    way: Way,
    /// Whether it follows the foot that leads, and another leads than did.
    led_otherwise: bool,
}

/// A turn the way that the foot that leads has it go, where it follows that.
fn led(turn: &Turn, way: Way) -> Turn {
    if turn.by_lead && turn.way != way { turn.clone().other_way() } else { turn.clone() }
}

/// Whether a dance has this turn, as it is written, among those of a place of a figure.
fn written_at(dance: &Dance, id: &str, place: PlaceNumber, turn: &Turn) -> bool {
    let part = dance.figure_index(id).and_then(|figure| dance.figures[figure].part(place));
    part.is_some_and(|part| part.turns.contains(turn))
}

/// Whether there is an amount by which every time of a turn goes as it did, to half a turn. Of a figure that is danced from
/// several sides there may be none: the file says one amount for all.
fn can_be_kept(turn: &Turn, times: &[Time]) -> bool {
    (-400..400).map(|step| f64::from(step) * 5.0 + 0.3).any(|by: f64| {
        let way = if by < 0.0 { Way::Left } else { Way::Right };
        let said = Turn { by: Some(by.abs()), way, spins: 0, ..turn.clone() };
        times.iter().all(|time| (amount(&led(&said, time.way), time.from) - time.was).abs() <= 179.0)
    })
}

/// Asks that every turn that a dance says goes the way and as far in another as the same turn did, each time that it is danced.
/// Gives how many were looked at.
fn look(
    (before, was): (&Dance, &Motion),
    (after, is): (&Dance, &Motion),
    (edit, at): (&Edit, f64),
) -> Result<usize, TestCaseError> {
    let mut looked = 0;
    for figure in &before.figures {
        let (old, new) = (spans(before, was, &figure.id), spans(after, is, &figure.id));
        // Where it is danced fewer times or more, another time is another arrival.
        if old.len() != new.len() {
            continue;
        }
        for (part, turn) in
            figure.parts.iter().flat_map(|part| part.turns.iter().map(move |turn| (part, turn)))
        {
            let index = part.turns.iter().position(|known| known == turn).unwrap();
            let meant = |span: &&Span| {
                let danced = span.track(span.dancer_in(part.place).unwrap()).unwrap().turns()[index].clone();
                edit.changes.has(was, (at, span), part.place, (index, &danced))
            };
            if old.iter().any(meant) {
                continue;
            }
            let mut times = Vec::new();
            for (old, new) in old.iter().zip(&new) {
                let tracks = [old, new].map(|span| span.track(span.dancer_in(part.place).unwrap()).unwrap());
                let danced = &tracks[0].turns()[index];
                let same = |known: &Turn| {
                    (known.begin - danced.begin).abs() < 1e-6 && (known.end - danced.end).abs() < 1e-6
                };
                let found = tracks[1].turns().iter().position(same);
                // On other steps, or where others are in the way of its steps, it is danced at another time.
                let as_many = tracks[1].turns().len() == tracks[0].turns().len();
                let written =
                    new.part(new.dancer_in(part.place).unwrap()).and_then(|part| part.turns.get(index));
                let found = found.or((as_many || written == Some(turn)).then_some(index));
                prop_assert!(
                    found.is_some(),
                    "{edit:?}: the turn of {} at {} is gone",
                    part.place,
                    turn.begin
                );
                let now = tracks[1].amounts()[found.unwrap()];
                times.push(Time {
                    was: tracks[0].amounts()[index],
                    now,
                    from: tracks[1].stand(tracks[1].turns()[found.unwrap()].begin).2,
                    way: tracks[1].turns()[found.unwrap()].way,
                    led_otherwise: turn.by_lead && tracks[1].turns()[found.unwrap()].way != danced.way,
                });
            }
            // The foot that leads has the way of one that follows it: where another leads than did, it goes the other way.
            if turn.is_shorter() || times.iter().any(|time| time.led_otherwise) {
                continue;
            }
            for Time { was, now, way, .. } in &times {
                let said = format!(
                    "{edit:?}: {} at {} of {}: {was} became {now} ({turn:?})",
                    part.place, turn.begin, figure.name
                );
                // The way is kept as well as the amount. Only whoever has come beyond the direction already goes back to it, where
                // going on round to it would be more than half a turn too far.
                let holds = |meant: f64| {
                    let on_round = if meant < 0.0 { now - 360.0 } else { now + 360.0 };
                    let back = (on_round - meant).abs() > 180.0 - EXACT;
                    (meant - now).abs() <= 180.0 + EXACT && (meant * now > -EXACT || back)
                };
                // Of one that follows the foot it is what was chosen, where going back has had it go otherwise.
                let chosen = Some(led(turn, *way)).filter(|turn| turn.by_lead);
                let chosen = chosen.and_then(|turn| Some(turn.by? * turn.way.sign()));
                let kept = holds(*was) || chosen.is_some_and(holds);
                prop_assert!(kept || !can_be_kept(turn, &times), "{said}");
                prop_assert!(turn.face.is_some() || (was - now).abs() < EXACT, "{said}");
                // One that only says where to face stays as it is written, unless that would send it round by more than half, or
                // its steps are in the way of a turn that is drawn.
                let in_the_way = matches!(edit.changes, Changes::Here(_)) && turn.on.is_some();
                let jumps =
                    |time: &Time| (amount(&led(turn, time.way), time.from) - time.was).abs() > 180.0 - EXACT;
                let stays = turn.by.is_some()
                    || written_at(after, &figure.id, part.place, turn)
                    || in_the_way
                    || times.iter().any(jumps);
                prop_assert!(stays, "{said}: written anew");
                looked += 1;
            }
        }
    }
    Ok(looked)
}

/// What nobody chose goes the shorter way, wherever it is danced.
fn shorter(motion: &Motion) -> Result<(), TestCaseError> {
    for span in motion.spans() {
        for dancer in Dancer::all(motion.dancers()) {
            let track = span.track(dancer).unwrap();
            for (turn, amount) in track.turns().iter().zip(track.amounts()) {
                prop_assert!(!turn.is_shorter() || amount.abs() <= 180.0 + 1e-6, "{amount}: {turn:?}");
            }
        }
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn an_edit_of_anything_else_leaves_every_turn_its_way_and_amount_but_who_is_beyond_goes_back(
        dance in dance(),
        other in dance(),
        edits in prop::collection::vec(edit(), 1..7),
    ) {
        let folder = tempfile::tempdir().unwrap();
        let version = folder.path().join("version.dance.json");
        std::fs::write(&version, write(&other).unwrap()).unwrap();
        let mut desk = Desk::new(dance, None, Recent::default()).unwrap();
        desk.apply(Ask::Compare(CompareAsk::With(version)));
        prop_assert!(desk.compared().is_some());
        shorter(desk.motion())?;
        for edit in &edits {
            let mut edit = edit.clone();
            if let [Ask::Compare(CompareAsk::TakePart(index) | CompareAsk::TakeFigure(index))] = edit.asks[..] {
                let taken = desk.compared().and_then(|compared| compared.comparison.parts.get(index));
                let Some(taken) = taken else { continue };
                edit.changes = match edit.asks[..] {
                    [Ask::Compare(CompareAsk::TakePart(_))] => Changes::Place(taken.figure, taken.place),
                    _ => Changes::Figure(taken.figure),
                };
            }
            let (mut before, mut was) = (desk.dance().clone(), desk.motion().clone());
            for ask in &edit.asks {
                let mut ask = ask.clone();
                if let Ask::Draw(DrawAsk::ChangeTurn { span, .. }) = &mut ask {
                    *span = desk.span().unwrap_or_default();
                }
                desk.apply(ask);
                // While it is dragged as well as at its end.
                look((&before, &was), (desk.dance(), desk.motion()), (&edit, desk.player().count))?;
                shorter(desk.motion())?;
                if desk.held().is_none() {
                    (before, was) = (desk.dance().clone(), desk.motion().clone());
                }
            }
        }
    }

    /// What is copied in a mirror turns as far the other way; by half a turn the same way.
    #[test]
    fn a_mirrored_copy_mirrors_every_turn(dance in dance(), who in 0..6_usize, count in 33.0..63.0_f64) {
        for (mirror, swaps) in [(Mirror::Across, true), (Mirror::EndForEnd, true), (Mirror::HalfTurn, false)] {
            let mut desk = Desk::new(dance.clone(), None, Recent::default()).unwrap();
            desk.apply(Ask::Play(PlayAsk::Seek(count)));
            let (dancer, together) = (Dancer(who), Together::Mirror(mirror));
            desk.apply(Ask::Draw(DrawAsk::CopyToMates { dancer, together }));
            let span = &desk.motion().spans()[1];
            let source = span.track(dancer).unwrap();
            for place in together.mates(desk.motion().ground(), span.place(dancer)) {
                let image = span.track(span.dancer_in(place).unwrap()).unwrap();
                prop_assert_eq!(source.turns().len(), image.turns().len());
                for ((turn, one), other) in source.turns().iter().zip(source.amounts()).zip(image.amounts()) {
                    if turn.is_shorter() {
                        continue;
                    }
                    let wanted = if swaps { -one } else { *one };
                    prop_assert!((wanted - other).abs() < ROUNDED, "{mirror:?}: {one} became {other} ({turn:?})");
                }
            }
        }
    }
}

/// Something done to a turn itself, and which it is: by its place among those of a dancer, where it stays that.
fn turn_edit() -> impl Strategy<Value = (f64, Dancer, Option<usize>, Vec<DrawAsk>)> {
    let named = Some(TurnOn::Step("ds".to_owned()));
    let on = select(vec![None, Some(TurnOn::Start), Some(TurnOn::Hop), Some(TurnOn::SingleSteps), named]);
    let degrees = select(vec![12.3, 30.0, 90.0, 180.0, 270.0, 360.0, 510.0]);
    let count = (0..8 * 32_i32).prop_map(|halves| f64::from(halves) / 2.0);
    let times = (select(vec![TurnTime::Whole, TurnTime::Begin, TurnTime::End]), -9..9_i32);
    ((0..6_usize).prop_map(Dancer), 0..5_usize, 0..9_u8, on, degrees, count, times).prop_map(
        |(dancer, turn, kind, on, degrees, count, (of, quarters))| {
            let change = |edit| vec![DrawAsk::ChangeTurn { span: HERE, dancer, turn, edit }];
            let counts = f64::from(quarters) / 4.0;
            let (known, asks) = match kind {
                0 => (Some(turn), change(TurnEdit::OtherWay)),
                1 => (Some(turn), change(TurnEdit::By(degrees))),
                2 => (None, change(TurnEdit::Remove)),
                3 | 4 => (Some(turn), change(TurnEdit::On(on))),
                5 | 6 => (Some(turn), vec![DrawAsk::NudgeTurn { span: HERE, dancer, turn, of, counts }]),
                7 => (None, vec![DrawAsk::FaceAt { dancer, degrees }]),
                _ => (None, vec![DrawAsk::TurnBy { dancer, degrees: degrees - 200.0 }]),
            };
            (count, dancer, known, asks)
        },
    )
}

/// The turns of a dancer in a span as they are danced: when, from and to, and how far, clockwise positive.
fn turns_danced(span: &Span, dancer: Dancer) -> Vec<(f64, f64, f64)> {
    let track = span.track(dancer).unwrap();
    track.turns().iter().zip(track.amounts()).map(|(turn, amount)| (turn.begin, turn.end, *amount)).collect()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, failure_persistence: None, ..ProptestConfig::default() })]

    /// Whatever is done to turns, the file says what the window shows: saved and read again every turn goes the way, as far and in
    /// the time that it did. One that was edited says its way and amount alone, and the others of its dancer go as they went.
    #[test]
    fn the_file_says_the_turns_that_the_window_shows(
        dance in dance(),
        edits in prop::collection::vec(turn_edit(), 1..9),
        together in select(vec![Together::JustMe, Together::Mirror(Mirror::Across), Together::BothMirrors]),
    ) {
        let mut dance = dance;
        // Each figure once: danced again from another side, a turn cannot go alike both times.
        dance.order.pop();
        let mut desk = Desk::new(dance, None, Recent::default()).unwrap();
        desk.apply(Ask::Draw(DrawAsk::Together(together)));
        for (count, dancer, known, asks) in edits {
            desk.apply(Ask::Play(PlayAsk::Seek(count)));
            let (before, at) = (desk.motion().clone(), desk.span().unwrap());
            for mut ask in asks.clone() {
                match &mut ask {
                    DrawAsk::ChangeTurn { span, .. } | DrawAsk::NudgeTurn { span, .. } => *span = at,
                    _ => {}
                }
                desk.apply(Ask::Draw(ask));
            }
            let read = bellpad::dance::read(write(desk.dance()).unwrap().as_bytes()).unwrap();
            let again = bellpad::figures::motion_of(&read, None).unwrap();
            for (shown, saved) in desk.motion().spans().iter().zip(again.spans()) {
                for dancer in Dancer::all(again.dancers()) {
                    prop_assert_eq!(turns_danced(shown, dancer), turns_danced(saved, dancer));
                }
            }
            let (was, is) = (before.span(at).unwrap(), desk.motion().span(at).unwrap());
            let (old, new) = (turns_danced(was, dancer), turns_danced(is, dancer));
            let Some(index) = known.filter(|index| *index < old.len()) else { continue };
            let written = own_part(was, dancer).unwrap().turns;
            prop_assert_eq!(old.len(), new.len());
            for (other, (old, new)) in old.iter().zip(&new).enumerate().filter(|(other, _)| *other != index) {
                // One of an old file that says only where to face stays as it is written.
                let says = written[other].by.is_some();
                prop_assert!(!says || (old.2 - new.2).abs() < 0.02, "{other} of {dancer}: {old:?} became {new:?}");
                prop_assert_eq!((old.0, old.1), (new.0, new.1), "{:?}", &asks);
            }
            let part = desk.dance().figures[is.figure].part(is.place(dancer));
            if let Some(turn) = part.map(|part| &part.turns[index]).filter(|_| old != new) {
                let amount = new[index].2;
                // By the lead it goes the way of the foot that led its half.
                let leads = is.track(dancer).unwrap().footing().leads();
                let led = leads.iter().rfind(|made| made.from != LeadFrom::Step && made.at as f64 <= turn.begin + 1e-9);
                let way = led.filter(|_| turn.by_lead).map_or(turn.way, |made| made.foot.way());
                let said = way.sign() * turn.by.unwrap();
                prop_assert!((said - amount).abs() < 0.01 && turn.face.is_none(), "{turn:?} is danced {amount}");
                prop_assert_eq!((turn.begin, turn.end), (new[index].0, new[index].1));
            }
        }
    }
}

/// What the tests above rely on: there is much to look at, and faults to mend.
#[test]
fn there_is_something_to_keep() {
    use proptest::strategy::ValueTree;
    use proptest::test_runner::TestRunner;
    let mut runner = TestRunner::deterministic();
    let (mut turns, mut meet) = (0, 0);
    for _ in 0..8 {
        let dance = dance().new_tree(&mut runner).unwrap().current();
        let desk = Desk::new(dance.clone(), None, Recent::default()).unwrap();
        let edit = Edit { asks: Vec::new(), changes: Changes::None };
        turns += look((&dance, desk.motion()), (&dance, desk.motion()), (&edit, 0.0)).unwrap();
        meet += desk
            .faults()
            .iter()
            .filter(|fault| matches!(fault.kind, FaultKind::Clash | FaultKind::Tight))
            .count();
    }
    assert!(turns > 100 && meet > 8, "{turns} turns, {meet} who meet");
}

/// Drawing one turn leaves the others of the dancer on their steps and by the foot that leads, as long as they keep clear of it.
#[test]
fn a_turn_drawn_by_hand_leaves_the_others_on_their_steps() {
    let mut dance = Dance::new("Test", Set::longways(2, 2.4, 1.8));
    dance.figures.push(named_figure("foot-up-and-down", Extra::new(), &dance.set).unwrap());
    let mut desk = Desk::new(dance, None, Recent::default()).unwrap();
    desk.apply(Ask::Play(PlayAsk::Seek(6.0)));
    let before = desk.motion().clone();
    desk.apply(Ask::Draw(DrawAsk::TurnBy { dancer: Dancer(0), degrees: 30.0 }));
    let part = &desk.dance().figures[0].parts[0];
    let on: Vec<Option<TurnOn>> = part.turns.iter().map(|turn| turn.on.clone()).collect();
    let (start, steps) = (Some(TurnOn::Start), Some(TurnOn::SingleSteps));
    assert_eq!(on, [start.clone(), None, steps.clone(), start, steps]);
    let amounts = |motion: &Motion| motion.spans()[0].track(Dancer(0)).unwrap().amounts().to_vec();
    let (was, is) = (amounts(&before), amounts(desk.motion()));
    assert_eq!((is.len(), is[1]), (was.len() + 1, 30.0));
    for (was, is) in was.iter().zip([is[0], is[2], is[3], is[4]]) {
        assert!((was - is).abs() < 180.0 && was * is > 0.0, "{was} became {is}");
    }
}
