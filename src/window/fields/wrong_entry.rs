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

fn name() -> Id {
    Id::unique("the first wrong entry")
}
