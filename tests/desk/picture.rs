//! All that can be read from a desk, to see what an ask has changed.

use bellpad::desk::{Desk, FileWriting};
use std::fmt::Debug;

/// What is read, and what it is now.
pub type Picture = Vec<(&'static str, String)>;

fn shown(value: impl Debug) -> String {
    format!("{value:?}")
}

/// Everything that can be read from a desk.
pub fn picture(desk: &Desk) -> Picture {
    let motion = desk.motion();
    let compared = desk.compared().map(|other| (&other.name, other.comparison.many()));
    vec![
        ("dance", shown(desk.dance())),
        ("motion", shown((motion.counts(), motion.dancers(), motion.bars(), motion.spans().len()))),
        ("path", shown((desk.path(), desk.file_name()))),
        ("unsaved", shown((desk.unsaved(), desk.window_title()))),
        ("may close", shown(desk.may_close())),
        ("recent", shown(desk.recent())),
        ("player", shown((desk.player(), desk.span(), desk.moment_words(desk.player().count)))),
        ("listening", shown(desk.listening().map(|heard| (heard.end, heard.sounds.len())))),
        ("chosen", shown(desk.chosen())),
        ("picked", shown(desk.picked())),
        ("together", shown((desk.together(), desk.mates()))),
        ("leg from", shown(desk.leg_from())),
        ("undo", shown((desk.undo_name(), desk.redo_name()))),
        ("held", shown(desk.held())),
        ("guides", shown((desk.guides(), desk.drag_words()))),
        ("question", shown((desk.question(), desk.question_revision()))),
        ("notice", shown(desk.notice())),
        ("seen", shown(desk.seen())),
        ("frame", shown((desk.zoom(), desk.pan()))),
        ("trails", shown(desk.trails())),
        ("beats", shown((desk.beats(), desk.at_beats()))),
        ("space", shown((desk.space_shown(), desk.space()))),
        ("eye side", shown(desk.eye_side())),
        ("eye level", shown(desk.eye_level())),
        ("what if", shown((desk.what_if(), desk.would_meet(), desk.would_stand(bellpad::dance::Dancer(0))))),
        ("ink", shown(desk.ink())),
        ("faults", shown((desk.looks_for_faults(), &**desk.faults(), desk.fault_count()))),
        ("fault shown", shown((desk.shown_fault(), desk.faults_here()))),
        ("mend", shown((desk.proposed().map(|mend| &mend.text), desk.room_search_age().is_some()))),
        ("compared", shown(compared)),
        ("difference", shown(desk.shown_difference())),
        (
            "photographs",
            shown(
                desk.photographs_here()
                    .iter()
                    .map(|here| (here.index, here.number, desk.photograph_lost(here.index)))
                    .collect::<Vec<_>>(),
            ),
        ),
        ("settings", shown(desk.settings())),
        ("welcome", shown(desk.welcomes())),
        ("keep", shown((desk.work_is_kept(), desk.keep_line()))),
        ("outside", shown(desk.outside())),
        ("writing", shown(desk.writing().map(FileWriting::is_to_be_shown))),
    ]
}

/// What is otherwise in one picture than in another, by name.
pub fn changed(before: &Picture, after: &Picture) -> Vec<&'static str> {
    let both = before.iter().zip(after);
    both.filter(|((_, before), (_, after))| before != after).map(|((name, _), _)| *name).collect()
}
