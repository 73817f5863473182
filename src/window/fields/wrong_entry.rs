//! The entries in sight that cannot be taken: nobody is done with a dialog while there is one.

use egui::{Context, Id};

/// The first entry of a pass that cannot be taken, and the pass.
#[derive(Clone, Copy)]
struct WrongEntry {
    field: Id,
    pass: u64,
}

/// Notes that what stands in a field cannot be taken.
pub(super) fn note_wrong(ctx: &Context, field: Id) {
    let pass = ctx.cumulative_pass_nr();
    ctx.data_mut(|data| {
        let known: Option<WrongEntry> = data.get_temp(name());
        if known.is_none_or(|known| known.pass != pass) {
            data.insert_temp(name(), WrongEntry { field, pass });
        }
    });
}

/// Gives the focus to the first entry that was shown in this pass and cannot be taken, and says what is wrong with it. Gives whether
/// there is one.
pub fn go_to_wrong(ctx: &Context) -> bool {
    let pass = ctx.cumulative_pass_nr();
    let wrong: Option<WrongEntry> = ctx.data(|data| data.get_temp(name()));
    let wrong = wrong.filter(|wrong| wrong.pass == pass);
    if let Some(wrong) = wrong {
        ctx.memory_mut(|memory| memory.request_focus(wrong.field));
    }
    wrong.is_some()
}

/// Has the text of an entry that cannot be taken given back, if there was one in the last pass. Gives whether there was.
pub fn take_wrong_back(ctx: &Context) -> bool {
    let pass = ctx.cumulative_pass_nr();
    let wrong: Option<WrongEntry> = ctx.data(|data| data.get_temp(name()));
    let wrong = wrong.filter(|wrong| pass.saturating_sub(wrong.pass) <= 1);
    if let Some(wrong) = wrong {
        ctx.data_mut(|data| data.insert_temp(back_name(), wrong.field));
    }
    wrong.is_some()
}

/// Whether the text of an entry is to be given back, which it is once.
pub(super) fn is_taken_back(ctx: &Context, field: Id) -> bool {
    ctx.data_mut(|data| {
        let taken = data.get_temp(back_name()) == Some(field);
        if taken {
            data.remove::<Id>(back_name());
        }
        taken
    })
}

fn back_name() -> Id {
    Id::unique("the wrong entry that is taken back")
}

fn name() -> Id {
    Id::unique("the first wrong entry")
}
