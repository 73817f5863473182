//! Changing a dance: each edit takes a dance, and what is danced now where that matters, and gives another dance or says
//! why it cannot.
//!
//! May use `faults`, `words`, `figures`, `motion` and `dance`. An edit knows nothing of undo: whoever asks for it keeps
//! the dance before. Begin with [`redraw`](drag_dancer), a dancer dragged to another place.

mod arrange;
mod by;
mod carried;
mod copies;
mod facings;
mod keep_amounts;
mod leg_from;
mod make_room;
mod mirror_feet;
mod no_mend;
mod once_to_yourself;
mod order;
mod other_bars;
mod others_kept;
mod own_figures;
mod own_steps;
mod paths;
mod point_of;
mod redraw;
mod ring_turn;
mod settled;
mod snap;
mod spoken;
mod stand;
mod stepping;
mod strikes;
mod strikes_follow;
mod strikes_kept;
mod together;
mod toward;
mod turn_steps;
mod turn_times;
mod turns;
mod usual_strike;
mod with_mates;

pub use arrange::{hand_of, name_person, put_figure, with_choice, with_figure, with_set, without_entry};
pub use by::By;
pub use copies::{SecondHalf, copy_half, copy_part, copy_to_mates};
pub use keep_amounts::{Kept, TurnChange, keep_amounts, turn_changes};
pub use leg_from::LegFrom;
pub use make_room::{Mend, make_room, make_room_while};
pub use no_mend::NoMend;
pub use once_to_yourself::{is_once_to_yourself, with_once_to_yourself, without_once_to_yourself};
pub use order::{OrderError, dance_figure, move_line, set_call, set_call_before, set_strain};
pub use other_bars::keep_in_bars;
pub use own_figures::{
    delete_figure, duplicate_line, new_figure, rename_figure, set_bars, set_ends, set_notes,
};
pub use own_steps::{
    StepError, check_names, copy_step, danced_in, set_step, take_step_away, with_change, with_counts,
    with_hands_following,
};
pub use paths::{
    LegChange, TimePoint, change_leg, insert_point, join_legs, leg_at, retime, split_leg, time_points,
};
pub use point_of::PointOf;
pub use redraw::{
    EditError, LegPoint, TIME_STEP, drag_dancer, drag_point, drop_point, go_by, leg_points, own_part,
    part_as_it_is, restore_named, with_part,
};
pub use ring_turn::RingTurn;
pub use snap::{Caught, Guide, caught};
pub use stand::stand;
pub use stepping::set_phrase;
pub use strikes::{
    StrikeAt, StrikeEdit, StrikeError, add_strike, change_strike, copy_struck_bar, write_strikes,
};
pub use strikes_follow::{Follow, Later};
pub use strikes_kept::strikes_lost;
pub use together::Together;
pub use toward::{Toward, face};
pub use turn_steps::can_turn_on;
pub use turn_times::{TurnTime, retime_turn};
pub use turns::{TurnEdit, change_turn, drag_ring, other_way_amount};
pub use usual_strike::{usual_strike, usual_strikes};
pub use with_mates::{Followed, with_mates};
