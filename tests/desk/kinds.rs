//! What kinds of ask there are. A kind that is not named here does not compile, and one that is named and never tried fails
//! the tests: nothing that can be asked for is forgotten.

use bellpad::dance::Strength;
use bellpad::desk::{
    About, AboutAsk, Ask, CompareAsk, DrawAsk, FaultAsk, FileAsk, Grip, KeepAsk, OrderAsk, PhotoAsk, PlayAsk,
    Seen, StepAsk, StrikeAsk, ViewAsk,
};
use bellpad::edits::{
    Follow, Later, LegChange, LegFrom, SecondHalf, StrikeEdit, TimePoint, Together, Toward, TurnEdit,
    TurnTime,
};
use bellpad::figures::Mirror;
use bellpad::picture::EyeSide;

/// Something of several kinds, each with a name, `ViewAsk::See`; what it holds may be of several kinds itself.
pub trait Kinds {
    /// The name of every kind, with those of what it holds.
    fn all() -> Vec<&'static str>;
    /// The names of what this one is and holds.
    fn names(&self) -> Vec<&'static str>;
}

/// Names every kind of an enum. After a kind stands the field that is of several kinds itself, where it has one.
macro_rules! kinds {
    ($of:ident { $($kind:ident $(($field:tt: $inner:ty))?),+ $(,)? }) => {
        impl Kinds for $of {
            #[allow(unused_mut)]
            fn all() -> Vec<&'static str> {
                let mut all = vec![$(concat!(stringify!($of), "::", stringify!($kind))),+];
                $($(all.extend(<$inner>::all());)?)+
                all
            }

            #[allow(unused_mut)]
            fn names(&self) -> Vec<&'static str> {
                match self {
                    // Every kind by its name, and no arm for the rest.
                    $($of::$kind { $($field: held,)? .. } => {
                        let mut names = vec![concat!(stringify!($of), "::", stringify!($kind))];
                        $(names.extend(<$inner as Kinds>::names(held));)?
                        names
                    })+
                }
            }
        }
    };
}

kinds!(Ask {
    Play(0: PlayAsk),
    View(0: ViewAsk),
    Draw(0: DrawAsk),
    Order(0: OrderAsk),
    About(0: AboutAsk),
    Step(0: StepAsk),
    Strike(0: StrikeAsk),
    Fault(0: FaultAsk),
    Photo(0: PhotoAsk),
    File(0: FileAsk),
    Compare(0: CompareAsk),
    Keep(0: KeepAsk),
    Undo,
    Redo,
});

kinds!(PlayAsk {
    Seek,
    Step,
    Toggle,
    Advance,
    Heard,
    Silent,
    Tempo,
    ToggleLoop,
    LoopFrom,
    LoopTo,
    LoopBar,
    LoopFromAt,
    LoopToAt,
});

kinds!(PhotoAsk {
    AskFile,
    Lay,
    Paste,
    Show,
    MarkAt,
    PlaceAt,
    Marks,
    Lock,
    Strength(1: Strength),
    NextStrength,
    OneFigure,
    KeepInside,
    TakeAway,
});

kinds!(Strength { Faint, Stronger, Hidden });

kinds!(StepAsk { Show, Copy, Set, TakeAway });

kinds!(StrikeAsk { Add, Change(edit: StrikeEdit), Nudge, CopyBar, AskToWrite, Write, SayNoRow });

kinds!(StrikeEdit {
    On,
    Part,
    With,
    Their,
    Hand,
    TheirHand,
    Height,
    Stay,
    Follow(0: Follow),
    To,
    InBars,
    Remove,
    RemoveAll,
});

kinds!(Follow { Nobody, Everyone, Odds, Evens, InTurn(0: Later) });

kinds!(Later { Bar, Half });

kinds!(AboutAsk {
    Show,
    AskTune,
    Listen,
    SetTitle,
    SetSide,
    SetTradition,
    SetAuthor,
    SetOnceToYourself,
    SetNotes,
    SetHolding,
    SetGrip,
    SetHeight,
    SetMetre,
    SetSpeed,
    SetUpbeat,
    SetTune,
    FollowTune,
    SetStrain,
    AddStrain,
    TakeStrain,
    SetPlayed,
    SetSpeeds,
    SetBarMetre,
});

kinds!(ViewAsk {
    Choose,
    ChooseFor,
    Pick,
    AlsoPick,
    See(0: Seen),
    Zoom,
    Pan,
    FitFloor,
    ToggleTrails,
    ToggleBeats,
    EyeSide(0: EyeSide),
    ToggleEyeLevel,
    WhatIf,
    ToggleSpace,
    ToggleTheme,
    DropNotice,
    ToggleHelp,
    PutAway,
});

kinds!(EyeSide { Side, Front, Behind });

kinds!(Seen { FromBottom, FromTop, OwnFacing });

kinds!(DrawAsk {
    Together(0: Together),
    LegFrom(0: LegFrom),
    BeginDrag(0: Grip),
    DragTo,
    DragToCount,
    DragBy,
    EndDrag,
    CancelDrag,
    PartSteps,
    Nudge,
    NudgePoint,
    NudgeTurn(of: TurnTime),
    PlaceAt,
    FaceAt,
    GoBy,
    HomeBy,
    StandUntil,
    Face(toward: Toward),
    TurnBy,
    ChangeTurn(edit: TurnEdit),
    PointAt,
    InsertPoint,
    DropPoint,
    SplitLeg,
    JoinLegs,
    ChangeLeg(change: LegChange),
    CopyPart(together: Together),
    CopyToMates(together: Together),
    Clear,
    CopyHalf(0: SecondHalf),
    RestoreNamed,
});

kinds!(Together { JustMe, Mirror(0: Mirror), BothMirrors, Same });

kinds!(LegFrom { Usual, LastStood, BarStart });

kinds!(Toward { Partner, Up, Down, In, Out });

kinds!(TurnEdit { OtherWay, By, On, Remove });

kinds!(Mirror { Across, EndForEnd, HalfTurn });

kinds!(Grip { Dancer, Facing, Point, Time(point: TimePoint), Turn(of: TurnTime), Strike });

kinds!(TurnTime { Whole, Begin, End });

kinds!(TimePoint { Begin, Through, End });

kinds!(LegChange { Straighten, Smooth, Arc, Held, Forwards, Backwards, Remove });

kinds!(SecondHalf { Mirrored, Same });

kinds!(OrderAsk {
    PutIn,
    TakeOut,
    NewFigure,
    Dance,
    Rename,
    Duplicate,
    Move,
    Delete,
    SetStrain,
    SetCall,
    SetCallBefore,
    SetBars,
    SetEnds,
    SetNotes,
    SetChoice,
    SetLead,
    SetPhrase,
    ChangeSet,
    SetHops,
    NamePerson,
    SetHand,
    Write(0: About),
});

kinds!(About { Call, Bars, Notes });

kinds!(FaultAsk {
    GoTo,
    MakeRoom,
    TakeMend,
    LeaveMend,
    AskAllow,
    Allow,
    NoLongerAllow,
    AskLimits,
    SetLimits,
    SetFloor,
});

kinds!(FileAsk {
    AskNew,
    AskOpen,
    Open,
    OpenSample,
    PutNew,
    Save,
    AskSaveAs,
    SaveTo,
    AskStill,
    ChooseStill,
    AskStillPath,
    StillTo,
    AskHandout,
    ChooseHandout,
    AskHandoutPath,
    ReplacePages,
    Choose,
    GoOnUnsaved,
    SaveAndGoOn,
    Close,
});

kinds!(CompareAsk { Ask, With, Stop, GoTo, TakePart, TakeFigure, TakeTaps });

kinds!(KeepAsk {
    SaveOver,
    SaveElsewhere,
    OpenTheirs,
    LeaveTheirs,
    AskRecovered,
    OpenRecovered,
    DiscardRecovered,
    AskEarlier,
    GoBackTo,
    PutLineAway,
    ShutWelcome,
    TextSize,
    WindowSize,
    Arrange,
    Sound,
    OpenLast,
    LookOutside,
    CatchUp,
});
