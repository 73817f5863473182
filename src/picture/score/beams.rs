use crate::dance::{Length, ScoreBar, ScoreItem, beat, is_compound};

/// The notes of a bar that one beam holds, each as the indices of its items; a beam holds two or more. A beam never
/// leaves its beat, a rest or a space ends it. Where the beats fall into three a beat is a dotted note (in 6/8 a dotted
/// crotchet). Quavers of 4/4 and 2/2 may be four to a beam, half a bar, as is usual (from memory); all else is held
/// within a crotchet.
#[must_use]
pub fn beam_groups(bar: &ScoreBar) -> Vec<Vec<usize>> {
    let mut groups: Vec<Vec<usize>> = Vec::new();
    let halves = has_half_bars(bar);
    let half_of = |item: &ScoreItem| place_in(item, bar, Length::of(1, 2));
    let beat_of = |item: &ScoreItem| place_in(item, bar, beam_beat(bar.metre));
    // A half bar that has shorter notes than quavers is beamed by its beats.
    let mut short: Vec<Option<u64>> =
        bar.items.iter().filter(|item| item.value.part > 8).map(half_of).collect();
    short.dedup();
    let mut before: Option<&ScoreItem> = None;
    for (index, item) in bar.items.iter().enumerate() {
        if !has_flag(item) {
            before = None;
            continue;
        }
        let joins = before.is_some_and(|before| {
            let by_half = halves && !short.contains(&half_of(item));
            let same =
                if by_half { half_of(before) == half_of(item) } else { beat_of(before) == beat_of(item) };
            item.is_joined && same
        });
        match groups.last_mut() {
            Some(group) if joins => group.push(index),
            _ => groups.push(vec![index]),
        }
        before = Some(item);
    }
    groups.retain(|group| group.len() > 1);
    groups
}

/// Whether the quavers of a bar may be beamed by half bars.
fn has_half_bars(bar: &ScoreBar) -> bool {
    matches!(bar.metre, (4, 4) | (2, 2))
}

/// The beat that a beam stays in: a crotchet, or the beat itself where it falls into three.
fn beam_beat(metre: (u64, u64)) -> Option<Length> {
    if is_compound(metre) { Some(beat(metre)) } else { Length::of(1, 4) }
}

fn place_in(item: &ScoreItem, bar: &ScoreBar, stretch: Option<Length>) -> Option<u64> {
    let at = bar.from.plus(item.begin)?;
    Some((at.share_of(stretch?) + 1e-9).floor() as u64)
}

/// Whether a note has a flag when it stands alone.
pub(super) fn has_flag(item: &ScoreItem) -> bool {
    !item.heads.is_empty() && item.value.part >= 8
}

/// How many flags or beams a note has.
pub(super) fn levels(item: &ScoreItem) -> usize {
    if item.heads.is_empty() { 0 } else { (item.value.part / 4).max(1).ilog2() as usize }
}

/// A run of notes in a group that share a beam of a level: from, to; one note alone has a stub to its left or right.
pub(super) struct BeamRun {
    pub level: usize,
    pub from: usize,
    pub to: usize,
    /// Whether the stub of a note alone points right.
    pub points_right: bool,
}

/// The beams of a group, from the outermost level 1 on; indices count within the group.
pub(super) fn runs(items: &[&ScoreItem]) -> Vec<BeamRun> {
    let most = items.iter().map(|item| levels(item)).max().unwrap_or(0);
    let mut made = Vec::new();
    for level in 1..=most {
        let mut from = None;
        for index in 0..=items.len() {
            let has = items.get(index).is_some_and(|item| levels(item) >= level);
            match (from, has) {
                (None, true) => from = Some(index),
                (Some(begin), false) => {
                    // A lone short note leans on the note before it, but at the front of the group or of its beat.
                    let parts = items.get(begin).map_or(1, |item| item.begin.parts().1);
                    let leads = begin == 0 || (begin + 1 < items.len() && parts <= 4 << (level - 1));
                    made.push(BeamRun { level, from: begin, to: index - 1, points_right: leads });
                    from = None;
                }
                _ => {}
            }
        }
    }
    made
}
