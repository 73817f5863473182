use crate::dance::{Air, Dance, TuneNote};
use crate::motion::Motion;
use serde_json::{Value, json};

/// Parts of a bar in which times are kept: notes fall on them, in 9/8 within two thousandths of a second.
const BAR_PARTS: f64 = 480.0;

/// The tune for the page: the strains with their notes (begin and length in parts of a bar, and key), and which of them
/// begins at which bar of the dance, how many of its bars are played, and how often it was played just before.
pub(super) fn airs(dance: &Dance, motion: &Motion) -> Value {
    let danced = motion.spans().iter().map(|span| (span.first_bar, span.bars));
    let Some(air) = Air::of(dance, danced) else {
        return json!({"parts": BAR_PARTS as u32, "strains": [], "at": []});
    };
    let part = |bars: f64| (bars * BAR_PARTS).round() as i64;
    let strains: Vec<Value> = air
        .tune
        .strains
        .iter()
        .map(|strain| {
            let of_time = |notes: &[TuneNote]| -> Vec<i64> {
                notes
                    .iter()
                    .flat_map(|note| [part(note.begin), part(note.length), i64::from(note.key)])
                    .collect()
            };
            let again: Vec<Vec<i64>> = strain.again.iter().map(|notes| of_time(notes)).collect();
            json!({"name": strain.name, "bars": strain.bars, "notes": of_time(&strain.notes), "again": again})
        })
        .collect();
    let at: Vec<[u32; 4]> = air
        .playings
        .iter()
        .map(|playing| [playing.first_bar, playing.strain as u32, playing.bars, playing.times])
        .collect();
    json!({"parts": BAR_PARTS as u32, "strains": strains, "at": at})
}
