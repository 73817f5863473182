use super::entry::{Ending, ending, line_with_escape, show_wrong};
use super::wrong::Wrong;
use crate::dance::{BarCounts, SpeedChange};
use crate::window::paint::choose_text;
use crate::words::{read_speeds, speeds_said};
use egui::{Id, Response, Ui};

/// Speeds as they are typed.
#[derive(Clone)]
struct Draft {
    text: String,
    /// What there was before any of it was typed.
    before: Vec<SpeedChange>,
    /// What there is by it: where that is something else since, the draft is stale.
    of: Vec<SpeedChange>,
    /// Whether what is unfinished is to be told as well: somebody was done with it.
    told: bool,
}

/// What the field takes.
const TAKES: &str = "Strong beats a minute, such as 60, or 60, from bar 5 at 90, or 60, little by little to 90 at bar 7. Empty for the tune's own speed";

/// The speeds of a figure or a strain, to write as they are told. What can be played is given as it is typed, where it is something else
/// than there is; what cannot be is told with its place, and stays to be put right. Escape gives back what there was.
///
/// `usual` is the speed in which it begins otherwise, strong beats a minute; the width is in points.
pub fn show_speeds(
    ui: &mut Ui,
    (name, width): (Id, f32),
    (speeds, bars): (&[SpeedChange], &BarCounts),
    usual: f64,
) -> (Response, Option<Vec<SpeedChange>>) {
    let draft: Option<Draft> = ui.data(|data| data.get_temp(name));
    let mut draft = draft.filter(|draft| draft.of == speeds).unwrap_or_else(|| Draft {
        text: speeds_said(speeds, bars).map_or_else(String::new, |said| bare(&said)),
        before: speeds.to_vec(),
        of: speeds.to_vec(),
        told: false,
    });
    let hint = format!("as the tune, {usual}");
    let edit = line_with_escape(&mut draft.text).id(name.with("field")).hint_text(hint).char_limit(400);
    let field = edit.desired_width(width).show(ui);
    let mut response = field.response.response.clone();
    let read = read_speeds(&draft.text, bars, usual);
    let mut changed = None;
    if response.changed() {
        draft.told = false;
        changed = Some(read.as_ref().unwrap_or(&draft.before).clone());
    } else if !response.has_focus() && read.is_ok() {
        let whole = draft.text.clone();
        response = response.on_hover_text(if whole.is_empty() {
            TAKES.to_owned()
        } else {
            format!("{whole}\n\n{TAKES}")
        });
    }
    let mut over = read.is_ok() && !response.has_focus();
    match ending(ui, &response) {
        Some(Ending::Enter) if read.is_ok() => {
            response.surrender_focus();
            over = true;
        }
        Some(Ending::Enter) => {
            draft.told = true;
            if let Err(error) = &read {
                choose_text(ui, response.id, error.place.start, error.place.end);
            }
        }
        Some(Ending::Escape) => {
            response.surrender_focus();
            changed = Some(draft.before.clone());
            over = true;
        }
        Some(Ending::Left) => draft.told = true,
        None => {}
    }
    let changed = changed.filter(|changed| *changed != draft.of);
    if let Some(changed) = &changed {
        draft.of.clone_from(changed);
    }
    if let Err(error) = read
        && !over
        && (draft.told || !error.unfinished)
    {
        show_wrong(
            ui,
            &field,
            &Wrong { said: error.said, place: Some(error.place), unfinished: error.unfinished },
        );
    }
    ui.data_mut(|data| {
        if over {
            data.remove::<Draft>(name);
        } else {
            data.insert_temp(name, draft);
        }
    });
    (response, changed)
}

/// What is told of a speed alone, without the word before it.
fn bare(said: &str) -> String {
    said.strip_prefix("at ").unwrap_or(said).to_owned()
}
