//! Asks of every kind in any order, right and wrong: none breaks the desk, and all that was done can be undone.

use crate::kinds::Kinds;
use crate::stage::{OURS, Stage, four_lines, sample, six};
use bellpad::dance::{
    ClearFloor, Dancer, Ends, EndsIn, Extra, Foot, Grip as Handhold, Holding, Landing, LeadRule, Metre,
    Number, OwnStep, PlaceNumber, Set, SpeedChange, Stance, Strain, Strength, Strike, StrikeEnd, StrikePart,
    Striker, Struck, TurnOn, write,
};
use bellpad::desk::{
    About, AboutAsk, Ask, CompareAsk, Desk, DrawAsk, FaultAsk, FileAsk, Grip, KeepAsk, OrderAsk, Pasted,
    PhotoAsk, PlayAsk, Seen, StepAsk, StrikeAsk, ViewAsk,
};
use bellpad::edits::{
    Follow, LegChange, LegFrom, PointOf, SecondHalf, StrikeAt, StrikeEdit, TimePoint, Together, Toward,
    TurnEdit, TurnTime,
};
use bellpad::faults::WhatIf;
use bellpad::handout::{HandoutChoice, HandoutKind};
use bellpad::motion::SpanIndex;
use bellpad::picture::{EyeSide, StillLook, Theme};
use bellpad::sound::{Heard, SoundChoice};
use bellpad::store::{Arrangement, Home, WindowSize};
use proptest::prelude::*;
use proptest::sample::select;
use proptest::strategy::ValueTree;
use proptest::test_runner::{RngSeed, TestRunner};
use std::collections::BTreeSet;

/// How many asks there are in a row.
const ROW: usize = 40;
/// How many rows, of edits alone and of everything.
const ROWS: u32 = 64;

/// A dancer, a line, a figure, a place in a list: one that is there, mostly.
fn index() -> impl Strategy<Value = usize> {
    prop_oneof![12 => 0..6usize, 1 => select(vec![6, 7, 40, 400])]
}

fn dancer() -> impl Strategy<Value = Dancer> {
    index().prop_map(Dancer)
}

/// A number of metres, counts or degrees, mostly one that makes sense.
fn number(range: std::ops::Range<f64>) -> impl Strategy<Value = f64> {
    let wrong = select(vec![f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 1e12, -1e12, -0.0]);
    prop_oneof![20 => range, 1 => wrong]
}

fn words() -> impl Strategy<Value = String> {
    select(vec!["", " ", "A", "Away!", "Lamps", "7 st, ftj", "4 ds", "\u{feff}\n\t", "x: é"])
        .prop_map(str::to_owned)
}

fn together() -> impl Strategy<Value = Together> {
    select(Together::ALL.to_vec())
}

fn point() -> impl Strategy<Value = PointOf> {
    (0..4usize, prop::option::of(0..2usize)).prop_map(|(leg, point)| PointOf { leg, point })
}

fn plays() -> impl Strategy<Value = PlayAsk> {
    prop_oneof![
        6 => number(-4.0..130.0).prop_map(PlayAsk::Seek),
        1 => number(-8.0..8.0).prop_map(PlayAsk::Step),
        1 => Just(PlayAsk::Toggle),
        1 => number(-1.0..30.0).prop_map(PlayAsk::Advance),
        1 => number(-4.0..130.0).prop_map(|count| PlayAsk::Heard(Heard::Count(count))),
        1 => select(vec![Heard::Nothing, Heard::CountingIn(2.0), Heard::Ended]).prop_map(PlayAsk::Heard),
        1 => prop::option::of(words()).prop_map(PlayAsk::Silent),
        1 => number(0.0..3.0).prop_map(PlayAsk::Tempo),
        1 => Just(PlayAsk::ToggleLoop),
        1 => Just(PlayAsk::LoopFrom),
        1 => Just(PlayAsk::LoopTo),
        1 => number(-4.0..130.0).prop_map(PlayAsk::LoopBar),
        1 => number(-4.0..130.0).prop_map(PlayAsk::LoopFromAt),
        1 => number(-4.0..130.0).prop_map(PlayAsk::LoopToAt),
    ]
}

fn views() -> impl Strategy<Value = ViewAsk> {
    let seen = select(vec![Seen::FromBottom, Seen::FromTop, Seen::OwnFacing]);
    prop_oneof![
        1 => prop::option::of(dancer()).prop_map(ViewAsk::Choose),
        1 => dancer().prop_map(ViewAsk::ChooseFor),
        1 => prop::collection::vec(dancer(), 0..4).prop_map(ViewAsk::Pick),
        1 => dancer().prop_map(ViewAsk::AlsoPick),
        1 => seen.prop_map(ViewAsk::See),
        1 => (0.1..4.0f32, -50.0..50.0f32).prop_map(|(by, at)| ViewAsk::Zoom(by, [at, at])),
        1 => (-50.0..50.0f32).prop_map(|by| ViewAsk::Pan([by, by])),
        8 => select(vec![
            ViewAsk::FitFloor,
            ViewAsk::ToggleTrails,
            ViewAsk::ToggleBeats,
            ViewAsk::EyeSide(EyeSide::Front),
            ViewAsk::EyeSide(EyeSide::Side),
            ViewAsk::EyeSide(EyeSide::Behind),
            ViewAsk::ToggleEyeLevel,
            ViewAsk::ToggleSpace,
            ViewAsk::WhatIf(Some(WhatIf { late: 0.75, short: 0.1 })),
            ViewAsk::WhatIf(Some(WhatIf { late: f64::NAN, short: -3.0 })),
            ViewAsk::WhatIf(None),
            ViewAsk::ToggleTheme,
            ViewAsk::DropNotice,
            ViewAsk::ToggleHelp,
            ViewAsk::PutAway,
        ]),
    ]
}

fn photos() -> impl Strategy<Value = PhotoAsk> {
    let (photo, mark) = (|| 0..3usize, || prop_oneof![8 => 0..5usize, 1 => Just(40usize)]);
    let pixel = || number(-10.0..80.0);
    let pasted = || {
        (8..30u32, 8..30u32, any::<u8>()).prop_map(|(wide, high, ink)| {
            let rgba = vec![ink; (wide * high * 4) as usize].into();
            PhotoAsk::Paste(Pasted { size: [wide, high], rgba })
        })
    };
    prop_oneof![
        1 => Just(PhotoAsk::AskFile),
        3 => pasted(),
        1 => select(vec!["ours.dance.json", "nothing.png"]).prop_map(|name| PhotoAsk::Lay(name.into())),
        1 => photo().prop_map(PhotoAsk::Show),
        3 => (photo(), mark(), pixel(), pixel())
            .prop_map(|(photo, mark, across, down)| PhotoAsk::MarkAt { photo, mark, across, down }),
        3 => (photo(), mark(), number(-3.0..3.0), number(-3.0..3.0), 0.0..0.4f64)
            .prop_map(|(photo, mark, x, y, reach)| PhotoAsk::PlaceAt { photo, mark, x, y, reach }),
        1 => (photo(), 0..30usize).prop_map(|(photo, many)| PhotoAsk::Marks(photo, many)),
        1 => (photo(), any::<bool>()).prop_map(|(photo, so)| PhotoAsk::Lock(photo, so)),
        1 => (photo(), select(Strength::ALL.to_vec()))
            .prop_map(|(photo, strength)| PhotoAsk::Strength(photo, strength)),
        1 => Just(PhotoAsk::NextStrength),
        1 => (photo(), any::<bool>()).prop_map(|(photo, so)| PhotoAsk::OneFigure(photo, so)),
        1 => (photo(), any::<bool>()).prop_map(|(photo, so)| PhotoAsk::KeepInside(photo, so)),
        1 => photo().prop_map(PhotoAsk::TakeAway),
    ]
}

fn grips() -> impl Strategy<Value = Grip> {
    let time = prop_oneof![
        2 => (0..3usize).prop_map(TimePoint::Begin),
        2 => (0..3usize, 0..2usize).prop_map(|(leg, point)| TimePoint::Through(leg, point)),
        3 => (0..3usize).prop_map(TimePoint::End),
    ];
    prop_oneof![
        2 => (0..3usize, strike_at()).prop_map(|(span, at)| Grip::Strike { span: SpanIndex(span), at }),
        4 => dancer().prop_map(Grip::Dancer),
        2 => dancer().prop_map(Grip::Facing),
        2 => (0..5usize, dancer(), point()).prop_map(|(span, dancer, point)| Grip::Point { span: SpanIndex(span), dancer, point }),
        6 => (0..5usize, dancer(), time).prop_map(|(span, dancer, point)| Grip::Time { span: SpanIndex(span), dancer, point }),
        2 => (0..5usize, dancer(), 0..3usize, turn_times())
            .prop_map(|(span, dancer, turn, of)| Grip::Turn { span: SpanIndex(span), dancer, turn, of }),
    ]
}

fn strike_at() -> impl Strategy<Value = StrikeAt> {
    (0..4usize, prop_oneof![4 => Just(0usize), 1 => 1..3usize])
        .prop_map(|(strike, which)| StrikeAt { strike, which })
}

/// A place that there is, mostly.
fn place() -> impl Strategy<Value = PlaceNumber> {
    prop_oneof![12 => 1..7u32, 1 => select(vec![0, 9, 400])].prop_map(PlaceNumber)
}

fn struck() -> impl Strategy<Value = Struck> {
    prop_oneof![3 => select(Struck::WORDS.map(|(_, on)| on).to_vec()), 1 => place().prop_map(Struck::Place)]
}

fn strikes() -> impl Strategy<Value = StrikeAsk> {
    let end = || select(StrikeEnd::ALL.to_vec());
    let bars = || prop::collection::vec(0..12u32, 0..4);
    let edit = prop_oneof![
        2 => struck().prop_map(StrikeEdit::On),
        1 => select(StrikePart::ALL.to_vec()).prop_map(StrikeEdit::Part),
        1 => end().prop_map(StrikeEdit::With),
        1 => prop::option::of(end()).prop_map(StrikeEdit::Their),
        1 => select(vec![None, Some(Foot::Left), Some(Foot::Right)]).prop_map(StrikeEdit::Hand),
        1 => select(vec![None, Some(Foot::Left), Some(Foot::Right)]).prop_map(StrikeEdit::TheirHand),
        1 => prop::option::of(number(0.0..3.0)).prop_map(StrikeEdit::Height),
        1 => any::<bool>().prop_map(StrikeEdit::Stay),
        4 => (select(Follow::ALL.to_vec()), prop::option::of(place()))
            .prop_map(|(follow, place)| StrikeEdit::Follow(follow, place)),
        2 => number(-2.0..60.0).prop_map(StrikeEdit::To),
        2 => bars().prop_map(StrikeEdit::InBars),
        1 => Just(StrikeEdit::Remove),
        1 => Just(StrikeEdit::RemoveAll),
    ];
    let written = (number(0.0..60.0), place(), struck(), prop::option::of(number(0.0..60.0))).prop_map(
        |(at, place, on, again)| Strike {
            again: again.into_iter().collect(),
            ..Strike::new(at, Striker::Place(place), StrikeEnd::Tip, on)
        },
    );
    prop_oneof![
        4 => (index(), number(-2.0..40.0), prop::option::of(place()))
            .prop_map(|(figure, at, place)| StrikeAsk::Add { figure, at, place }),
        8 => (index(), strike_at(), edit).prop_map(|(figure, at, edit)| StrikeAsk::Change { figure, at, edit }),
        1 => (index(), strike_at(), number(-2.0..2.0))
            .prop_map(|(figure, at, counts)| StrikeAsk::Nudge { figure, at, counts }),
        1 => (index(), 0..10u32, 0..10u32).prop_map(|(figure, from, to)| StrikeAsk::CopyBar { figure, from, to }),
        1 => index().prop_map(StrikeAsk::AskToWrite),
        1 => Just(StrikeAsk::SayNoRow),
        1 => (index(), prop::collection::vec(written, 0..4))
            .prop_map(|(figure, strikes)| StrikeAsk::Write { figure, strikes }),
    ]
}

fn turn_times() -> impl Strategy<Value = TurnTime> {
    select(vec![TurnTime::Whole, TurnTime::Begin, TurnTime::End])
}

fn draws() -> impl Strategy<Value = DrawAsk> {
    let change = select(vec![
        LegChange::Straighten,
        LegChange::Smooth,
        LegChange::Arc,
        LegChange::Held,
        LegChange::Forwards,
        LegChange::Backwards,
        LegChange::Remove,
    ]);
    let metres = || number(-2.5..2.5);
    let count = || number(0.0..130.0);
    let edit = prop_oneof![
        1 => Just(TurnEdit::OtherWay),
        1 => number(0.0..720.0).prop_map(TurnEdit::By),
        1 => prop::option::of(select(vec![TurnOn::Start, TurnOn::Hop, TurnOn::SingleSteps, TurnOn::Step("ds".to_owned())])).prop_map(TurnEdit::On),
        1 => Just(TurnEdit::Remove),
    ];
    prop_oneof![
        1 => select(LegFrom::ALL.to_vec()).prop_map(DrawAsk::LegFrom),
        2 => (dancer(), metres(), metres(), count()).prop_map(|(dancer, x, y, count)| DrawAsk::GoBy { dancer, x, y, count }),
        1 => (dancer(), count()).prop_map(|(dancer, count)| DrawAsk::HomeBy { dancer, count }),
        1 => (dancer(), count()).prop_map(|(dancer, count)| DrawAsk::StandUntil { dancer, count }),
        2 => (dancer(), select(Toward::ALL.to_vec())).prop_map(|(dancer, toward)| DrawAsk::Face { dancer, toward }),
        1 => (dancer(), number(-720.0..720.0)).prop_map(|(dancer, degrees)| DrawAsk::TurnBy { dancer, degrees }),
        2 => (0..5usize, dancer(), 0..3usize, edit)
            .prop_map(|(span, dancer, turn, edit)| DrawAsk::ChangeTurn { span: SpanIndex(span), dancer, turn, edit }),
        1 => (0..5usize, dancer(), 0..3usize, turn_times(), number(-3.0..3.0))
            .prop_map(|(span, dancer, turn, of, counts)| DrawAsk::NudgeTurn { span: SpanIndex(span), dancer, turn, of, counts }),
        1 => (0..5usize, dancer(), point(), metres(), metres())
            .prop_map(|(span, dancer, point, x, y)| DrawAsk::PointAt { span: SpanIndex(span), dancer, point, x, y }),
        1 => (dancer(), together()).prop_map(|(dancer, together)| DrawAsk::CopyToMates { dancer, together }),
        1 => dancer().prop_map(DrawAsk::Clear),
        1 => together().prop_map(DrawAsk::Together),
        3 => grips().prop_map(DrawAsk::BeginDrag),
        4 => (metres(), metres(), 0.0..0.2f64).prop_map(|(x, y, reach)| DrawAsk::DragTo { x, y, reach }),
        2 => number(0.0..130.0).prop_map(DrawAsk::DragToCount),
        2 => number(-400.0..400.0).prop_map(DrawAsk::DragBy),
        2 => Just(DrawAsk::EndDrag),
        1 => Just(DrawAsk::CancelDrag),
        1 => Just(DrawAsk::PartSteps),
        2 => (number(-0.1..0.1), number(-0.1..0.1)).prop_map(|(right, up)| DrawAsk::Nudge { right, up }),
        1 => (0..5usize, dancer(), point(), number(-0.1..0.1))
            .prop_map(|(span, dancer, point, by)| DrawAsk::NudgePoint { span: SpanIndex(span), dancer, point, right: by, up: -by }),
        2 => (dancer(), metres(), metres()).prop_map(|(dancer, x, y)| DrawAsk::PlaceAt { dancer, x, y }),
        2 => (dancer(), number(-720.0..720.0)).prop_map(|(dancer, degrees)| DrawAsk::FaceAt { dancer, degrees }),
        2 => dancer().prop_map(DrawAsk::InsertPoint),
        1 => (0..5usize, dancer(), point())
            .prop_map(|(span, dancer, point)| DrawAsk::DropPoint { span: SpanIndex(span), dancer, point }),
        1 => dancer().prop_map(DrawAsk::SplitLeg),
        1 => (dancer(), index()).prop_map(|(dancer, leg)| DrawAsk::JoinLegs { dancer, leg }),
        2 => (dancer(), 0..3usize, change).prop_map(|(dancer, leg, change)| DrawAsk::ChangeLeg { dancer, leg, change }),
        1 => (dancer(), together(), dancer()).prop_map(|(dancer, together, other)| DrawAsk::CopyPart { dancer, together, other }),
        1 => select(vec![SecondHalf::Mirrored, SecondHalf::Same]).prop_map(DrawAsk::CopyHalf),
        1 => (index(), 0..8u32).prop_map(|(figure, place)| DrawAsk::RestoreNamed { figure, place: PlaceNumber(place) }),
    ]
}

fn orders() -> impl Strategy<Value = OrderAsk> {
    let named = || select(vec!["hey", "cross-over", "whole-rounds", "corners", "gallop"]);
    let set = (1..9u32, select(vec![2.4, 2.6, 0.3, 0.0]), select(vec![1.8, 1.6, 0.2]));
    let ends =
        (prop::option::of(select(EndsIn::ALL.to_vec())), prop::option::of(select(Stance::ALL.to_vec())));
    let lead = select(vec![LeadRule::OutsideFoot, LeadRule::LeftThenRight, LeadRule::Right]);
    let choice =
        (index(), select(vec!["timing", "start", "nothing"]), select(vec!["even", "as-solved", "left", ""]));
    prop_oneof![
        1 => named().prop_map(|name| OrderAsk::PutIn(name, None)),
        2 => index().prop_map(OrderAsk::TakeOut),
        1 => Just(OrderAsk::NewFigure),
        1 => (index(), prop::option::of(index())).prop_map(|(figure, line)| OrderAsk::Dance { figure, before: line }),
        1 => (index(), words()).prop_map(|(figure, name)| OrderAsk::Rename(figure, name)),
        1 => index().prop_map(OrderAsk::Duplicate),
        2 => (index(), index()).prop_map(|(from, to)| OrderAsk::Move { from, to }),
        1 => index().prop_map(OrderAsk::Delete),
        1 => (index(), words()).prop_map(|(line, strain)| OrderAsk::SetStrain(line, strain)),
        1 => (index(), words()).prop_map(|(line, call)| OrderAsk::SetCall(line, call)),
        1 => (index(), prop::option::of(number(-1.0..18.0))).prop_map(|(line, bars)| OrderAsk::SetCallBefore(line, bars)),
        1 => (index(), prop_oneof![0..20u32, Just(u32::MAX)])
            .prop_map(|(figure, bars)| OrderAsk::SetBars(figure, bars)),
        1 => (index(), ends).prop_map(|(figure, (spots, stance))| OrderAsk::SetEnds(figure, Ends { spots, stance })),
        1 => (index(), words()).prop_map(|(figure, notes)| OrderAsk::SetNotes(figure, notes)),
        1 => choice.prop_map(|(figure, key, value)| OrderAsk::SetChoice(figure, key, value.into())),
        1 => (index(), prop::option::of(lead)).prop_map(|(figure, lead)| OrderAsk::SetLead(figure, lead)),
        1 => (index(), words()).prop_map(|(figure, phrase)| OrderAsk::SetPhrase(figure, phrase)),
        2 => set.prop_map(|(dancers, across, along)| {
            OrderAsk::ChangeSet(Box::new(Set::longways(dancers, across, along)))
        }),
        1 => any::<bool>().prop_map(OrderAsk::SetHops),
        1 => (0..9u32, words()).prop_map(|(number, name)| OrderAsk::NamePerson(Number(number), name)),
        1 => (0..9u32, any::<bool>()).prop_map(|(number, left)| OrderAsk::SetHand(Number(number), left)),
        1 => (index(), 0..3u32).prop_map(|(of, which)| {
            OrderAsk::Write(match which {
                0 => About::Call(of),
                1 => About::Bars(of),
                _ => About::Notes(of),
            })
        }),
    ]
}

fn faults() -> impl Strategy<Value = FaultAsk> {
    let limits = number(0.0..0.5).prop_map(|apart| {
        let mut limits = Box::new(six().limits);
        limits.apart = Some(apart);
        FaultAsk::SetLimits(limits)
    });
    let floor = prop::option::of(number(-1.0..9.0)).prop_map(|across| {
        let floor = |across| ClearFloor { across, along: 5.0, x: 0.0, y: 0.0, extra: Extra::new() };
        FaultAsk::SetFloor(across.map(|across| Box::new(floor(across))))
    });
    prop_oneof![
        4 => index().prop_map(FaultAsk::GoTo),
        2 => index().prop_map(FaultAsk::MakeRoom),
        4 => Just(FaultAsk::TakeMend),
        2 => Just(FaultAsk::LeaveMend),
        4 => index().prop_map(FaultAsk::AskAllow),
        4 => (index(), words()).prop_map(|(fault, reason)| FaultAsk::Allow(fault, reason)),
        4 => (index(), 0..2usize).prop_map(|(figure, which)| FaultAsk::NoLongerAllow { figure, which }),
        4 => Just(FaultAsk::AskLimits),
        4 => limits,
        4 => floor,
    ]
}

/// What is said of the dance, some of it nothing that can be.
fn abouts() -> impl Strategy<Value = AboutAsk> {
    let strain = |(name, bars): (String, u32)| {
        let (metre, speeds) = (None, Vec::new());
        Strain { name, bars, metre, speeds, extra: Extra::new() }
    };
    let tunes = [
        "",
        "words",
        "X:1\nM:9/8\nQ:3/8=90\nK:G\nD|:G9|A9:|\n",
        "X:1\nM:4/4\nK:D\nP:A\nd4 e4|f8|\nP:B\na8|\n",
    ];
    let speeds = prop::collection::vec((number(-1.0..40.0), number(5.0..450.0), any::<bool>()), 0..3);
    let speeds = speeds.prop_map(|all| {
        all.into_iter()
            .map(|(count, speed, ease)| SpeedChange { ease, ..SpeedChange::at(count, speed) })
            .collect()
    });
    prop_oneof![
        1 => Just(AboutAsk::Show),
        1 => Just(AboutAsk::AskTune),
        1 => Just(AboutAsk::Listen),
        1 => words().prop_map(AboutAsk::SetTitle),
        1 => words().prop_map(AboutAsk::SetSide),
        1 => words().prop_map(AboutAsk::SetTradition),
        1 => words().prop_map(AboutAsk::SetAuthor),
        1 => any::<bool>().prop_map(AboutAsk::SetOnceToYourself),
        1 => words().prop_map(AboutAsk::SetNotes),
        1 => select(vec![Holding::Sticks, Holding::Nothing]).prop_map(AboutAsk::SetHolding),
        1 => select(vec![Handhold::End, Handhold::Middle]).prop_map(AboutAsk::SetGrip),
        1 => number(1.0..2.4).prop_map(AboutAsk::SetHeight),
        2 => select(Metre::ALL.to_vec()).prop_map(AboutAsk::SetMetre),
        1 => number(0.0..500.0).prop_map(AboutAsk::SetSpeed),
        1 => (0..7_u32).prop_map(AboutAsk::SetUpbeat),
        2 => select(tunes.to_vec()).prop_map(|abc| AboutAsk::SetTune(abc.to_owned())),
        1 => Just(AboutAsk::FollowTune),
        1 => (0..4_usize, (words(), 0..20_u32).prop_map(strain)).prop_map(|(index, strain)| AboutAsk::SetStrain(index, strain)),
        1 => Just(AboutAsk::AddStrain),
        1 => (0..4_usize).prop_map(AboutAsk::TakeStrain),
        1 => prop::collection::vec(select(vec!["A".to_owned(), "B".to_owned()]), 0..4).prop_map(AboutAsk::SetPlayed),
        1 => (0..4_usize, speeds).prop_map(|(figure, speeds)| AboutAsk::SetSpeeds(figure, speeds)),
        1 => (0..4_usize, 0..12_u32, prop::option::of(select(Metre::ALL.to_vec()))).prop_map(|(figure, bar, metre)| AboutAsk::SetBarMetre(figure, bar, metre)),
    ]
}

fn steps() -> impl Strategy<Value = StepAsk> {
    let landing = select(vec![
        Landing::Lead,
        Landing::Other,
        Landing::Both,
        Landing::Air,
        Landing::Upbeat,
        Landing::Stay,
    ]);
    let step = (words(), words(), prop::collection::vec(landing, 0..6))
        .prop_map(|(name, short, feet)| Box::new(OwnStep { name, short, feet, ..OwnStep::default() }));
    let short = select(["ds", "ss", "ftj", "st", "zz"].map(str::to_owned).to_vec());
    prop_oneof![
        1 => prop::option::of(words()).prop_map(StepAsk::Show),
        3 => short.prop_map(StepAsk::Copy),
        3 => (0..3_usize, step, words()).prop_map(|(index, step, what)| StepAsk::Set { index, step, what }),
        1 => (0..3_usize).prop_map(StepAsk::TakeAway),
    ]
}

/// Paths stand for files of a stage's own folder, which `at_stage` puts them in.
fn files() -> impl Strategy<Value = FileAsk> {
    let name =
        || select(vec![OURS, "last year.dance.json", "new.dance.json", "still.svg", "no folder/x", ""]);
    let path = || name().prop_map(Into::into);
    let kinds =
        select(vec![HandoutKind::Figure, HandoutKind::Dancer, HandoutKind::Pocket, HandoutKind::Notebook]);
    // Only sizes that are soon drawn.
    let looks = (0..300_u32, any::<bool>(), select(Theme::ALL.to_vec()));
    let looks = looks.prop_map(|(size, trails, theme)| StillLook { size, trails, theme });
    prop_oneof![
        1 => path().prop_map(FileAsk::Open),
        1 => index().prop_map(FileAsk::OpenSample),
        1 => select(vec![0, 1]).prop_map(|index| FileAsk::PutNew(Box::new(sample(index)))),
        1 => path().prop_map(FileAsk::SaveTo),
        1 => path().prop_map(FileAsk::StillTo),
        2 => path().prop_map(FileAsk::Choose),
        1 => kinds.prop_map(|kind| FileAsk::ChooseHandout(HandoutChoice { kind, ..HandoutChoice::default() })),
        1 => looks.prop_map(FileAsk::ChooseStill),
        8 => select(vec![
            FileAsk::AskNew,
            FileAsk::AskOpen,
            FileAsk::Save,
            FileAsk::AskSaveAs,
            FileAsk::AskStill,
            FileAsk::AskStillPath,
            FileAsk::AskHandout,
            FileAsk::AskHandoutPath,
            FileAsk::ReplacePages,
            FileAsk::GoOnUnsaved,
            FileAsk::SaveAndGoOn,
            FileAsk::Close,
        ]),
    ]
}

fn compares() -> impl Strategy<Value = CompareAsk> {
    prop_oneof![
        1 => Just(CompareAsk::Ask),
        2 => select(vec![OURS, "last year.dance.json"]).prop_map(|name| CompareAsk::With(name.into())),
        1 => Just(CompareAsk::Stop),
        1 => index().prop_map(CompareAsk::GoTo),
        2 => index().prop_map(CompareAsk::TakePart),
        2 => index().prop_map(CompareAsk::TakeFigure),
        1 => index().prop_map(CompareAsk::TakeTaps),
    ]
}

fn keeps() -> impl Strategy<Value = KeepAsk> {
    let window = WindowSize { across: 800.0, down: 600.0, filled: false };
    // A save that is gone by now: those that are there are gone back to by hand, in the other tests.
    let stage = Stage::unsaved().having([Ask::File(FileAsk::Save)]);
    let gone = Home::at(&stage.file("state")).backups(&stage.file(OURS)).remove(0);
    prop_oneof![
        1 => index().prop_map(KeepAsk::OpenRecovered),
        1 => index().prop_map(KeepAsk::DiscardRecovered),
        1 => any::<bool>().prop_map(KeepAsk::ShutWelcome),
        1 => (0.1..9.0f32).prop_map(KeepAsk::TextSize),
        8 => select(vec![
            KeepAsk::SaveOver,
            KeepAsk::SaveElsewhere,
            KeepAsk::OpenTheirs,
            KeepAsk::LeaveTheirs,
            KeepAsk::AskRecovered,
            KeepAsk::AskEarlier,
            KeepAsk::GoBackTo(gone),
            KeepAsk::PutLineAway,
            KeepAsk::WindowSize(window),
            KeepAsk::Arrange(Arrangement { shelf: f32::NAN, right: -4.0, ..Arrangement::default() }),
            KeepAsk::OpenLast(false),
            KeepAsk::Sound(SoundChoice { speed: 7, delay: 9_000, ..SoundChoice::default() }),
            KeepAsk::LookOutside,
            KeepAsk::CatchUp,
        ]),
    ]
}

/// An ask that changes no other dance than the one on the desk.
fn edits() -> impl Strategy<Value = Ask> {
    prop_oneof![
        3 => plays().prop_map(Ask::Play),
        2 => views().prop_map(Ask::View),
        8 => draws().prop_map(Ask::Draw),
        5 => orders().prop_map(Ask::Order),
        2 => abouts().prop_map(Ask::About),
        2 => steps().prop_map(Ask::Step),
        4 => strikes().prop_map(Ask::Strike),
        1 => faults().prop_map(Ask::Fault),
        2 => photos().prop_map(Ask::Photo),
        1 => compares().prop_map(Ask::Compare),
        2 => Just(Ask::Undo),
        1 => Just(Ask::Redo),
    ]
}

fn asks() -> impl Strategy<Value = Ask> {
    prop_oneof![6 => edits(), 1 => files().prop_map(Ask::File), 1 => keeps().prop_map(Ask::Keep)]
}

/// An ask with its paths in the folder of a stage.
fn at_stage(stage: &Stage, ask: Ask) -> Ask {
    let file = |path: std::path::PathBuf| stage.folder.path().join(path);
    match ask {
        Ask::File(FileAsk::Open(path)) => Ask::File(FileAsk::Open(file(path))),
        Ask::File(FileAsk::SaveTo(path)) => Ask::File(FileAsk::SaveTo(file(path))),
        Ask::File(FileAsk::StillTo(path)) => Ask::File(FileAsk::StillTo(file(path))),
        Ask::Photo(PhotoAsk::Lay(path)) => Ask::Photo(PhotoAsk::Lay(file(path))),
        Ask::File(FileAsk::Choose(path)) => Ask::File(FileAsk::Choose(file(path))),
        Ask::Compare(CompareAsk::With(path)) => Ask::Compare(CompareAsk::With(file(path))),
        other => other,
    }
}

/// What points into a dance points at what is there.
fn is_within(desk: &Desk) -> Result<(), TestCaseError> {
    let (dancers, end, player) = (desk.motion().dancers(), desk.motion().counts(), desk.player());
    prop_assert_eq!(dancers, desk.dance().set.dancers as usize);
    prop_assert!(
        desk.chosen().is_none_or(|dancer| dancer.index() < dancers),
        "{:?} of {dancers}",
        desk.chosen()
    );
    prop_assert!(
        desk.picked().iter().all(|dancer| dancer.index() < dancers),
        "{:?} of {dancers}",
        desk.picked()
    );
    prop_assert!((0.0..=end).contains(&player.count), "at {} of {end}", player.count);
    if let Some((from, to)) = player.loop_counts {
        prop_assert!(0.0 <= from && from < to && to <= end, "loop {from} to {to} of {end}");
    }
    prop_assert!(!player.looping || player.loop_counts.is_some());
    prop_assert!((0.3..=1.3).contains(&player.tempo), "{}", player.tempo);
    prop_assert!(desk.shown_fault().is_none_or(|fault| fault < desk.faults().len()));
    let anew = bellpad::sound::MusicOf::whole(desk.dance(), desk.motion()).sounds();
    prop_assert!(desk.sounds()[..] == anew[..], "what is heard is of another dance");
    Ok(())
}

/// All that is read of a desk to show it, as a window does.
fn look_at(desk: &Desk) {
    let _ = crate::picture::picture(desk);
    let _ = desk.still_picture();
    for dancer in 0..desk.motion().dancers() {
        let _ = desk.leg_here(Dancer(dancer));
    }
}

fn config() -> ProptestConfig {
    ProptestConfig {
        cases: ROWS,
        max_shrink_iters: 300,
        failure_persistence: None,
        rng_seed: RngSeed::Fixed(1907),
        ..ProptestConfig::default()
    }
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn nothing_that_is_asked_breaks_the_desk(row in prop::collection::vec(asks(), ROW)) {
        let mut stage = Stage::filed();
        stage.version();
        stage.leave_work();
        for ask in row {
            let ask = at_stage(&stage, ask);
            stage.desk.apply(ask);
            is_within(&stage.desk)?;
            look_at(&stage.desk);
        }
    }

    #[test]
    fn all_that_was_done_is_undone_and_done_again(row in prop::collection::vec(edits(), ROW)) {
        let mut stage = Stage::on(four_lines());
        stage.version();
        let first = write(stage.desk.dance()).unwrap();
        for ask in row {
            let ask = at_stage(&stage, ask);
            stage.desk.apply(ask);
        }
        stage.desk.apply(Ask::Draw(DrawAsk::EndDrag));
        // What was gone back on is gone on to as well.
        let redo_all = |desk: &mut Desk| while desk.redo_name().is_some() { desk.apply(Ask::Redo) };
        redo_all(&mut stage.desk);
        let (last, mut steps) = (write(stage.desk.dance()).unwrap(), 0);
        while stage.desk.undo_name().is_some() {
            stage.desk.apply(Ask::Undo);
            is_within(&stage.desk)?;
            steps += 1;
            prop_assert!(steps <= ROW);
        }
        prop_assert_eq!(write(stage.desk.dance()).unwrap(), first);
        redo_all(&mut stage.desk);
        is_within(&stage.desk)?;
        prop_assert_eq!(write(stage.desk.dance()).unwrap(), last);
    }
}

/// The two tests above are worth what they try.
#[test]
fn asks_of_every_kind_are_tried_in_any_order() {
    let mut runner = TestRunner::new(config());
    let (asks, mut tried) = (asks(), BTreeSet::new());
    for _ in 0..2 * ROWS as usize * ROW {
        tried.extend(asks.new_tree(&mut runner).unwrap().current().names());
    }
    let untried: Vec<_> = Ask::all().into_iter().filter(|kind| !tried.contains(kind)).collect();
    assert!(untried.is_empty(), "nobody tries {untried:?}");
}
