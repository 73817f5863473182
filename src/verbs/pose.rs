//! `bellpad pose`: where everyone is, as JSON.

use super::opening::{count_in, open_motion};
use super::{Outcome, Said, VerbError, printing::finished};
use crate::dance::{Dance, Dancer, rounded};
use crate::motion::limbs::{Gait, InSpace, Limbs};
use crate::motion::{BlowOn, Clock, Moment, Motion, wrap_whole};
use clap::{ArgGroup, Args};
use serde_json::{Value, json};
use std::io::{self, BufWriter, Write};
use std::path::PathBuf;

/// Print poses.
#[derive(Debug, Args)]
#[command(group = ArgGroup::new("when").required(true).args(["at", "every"]))]
pub struct PoseAt {
    /// The dance file
    pub file: PathBuf,
    /// Only this figure, by id or name; bars are then its own
    #[arg(long)]
    pub figure: Option<String>,
    /// One moment, BAR:COUNT
    #[arg(long, value_name = "BAR:COUNT")]
    pub at: Option<Moment>,
    /// From the start to the end, once in so many counts
    #[arg(long, value_name = "COUNTS", allow_negative_numbers = true)]
    pub every: Option<f64>,
}

pub(super) fn print_poses(asked: &PoseAt) -> Said<Outcome> {
    let (dance, motion, _) = open_motion(&asked.file, asked.figure.as_deref())?;
    let counts: Box<dyn Iterator<Item = f64>> = match (asked.at, asked.every) {
        (Some(moment), _) => Box::new(std::iter::once(count_in(&asked.file, &motion, moment)?)),
        (None, Some(every)) if every.is_finite() && every >= 0.001 => {
            let end = motion.counts();
            // A step that would print as the end is left to the end itself.
            let steps = ((end - 0.5e-6) / every).ceil().max(0.0) as u64;
            Box::new((0..steps).map(move |step| step as f64 * every).chain(std::iter::once(end)))
        }
        (None, every) => {
            return Err(VerbError::Number {
                option: "--every",
                given: every.unwrap_or_default(),
                expected: "a number of counts, at least 0.001",
            });
        }
    };
    let mut out = BufWriter::new(io::stdout().lock());
    finished(write_poses(&mut out, &dance, &motion, asked.at.is_some(), counts).and_then(|()| out.flush()))?;
    Ok(Outcome::Fine)
}

fn write_poses(
    out: &mut impl Write,
    dance: &Dance,
    motion: &Motion,
    one: bool,
    counts: impl Iterator<Item = f64>,
) -> io::Result<()> {
    let clock = Clock::of_dance(dance, motion);
    // Of one moment each is worked out, looked at and let go.
    let many = if one { 0 } else { motion.dancers() };
    let gaits: Vec<Gait> = Dancer::all(many).map(|dancer| Gait::of(motion, &clock, dancer)).collect();
    write!(
        out,
        "{{\"bars\": {}, \"counts_per_bar\": {},\n \"poses\": [",
        motion.bars(),
        motion.bar_counts().in_bar(0)
    )?;
    let mut poses = Vec::new();
    for (index, count) in counts.enumerate() {
        // The moment is rounded first, so that it never reads as count 5 of a bar, and a count that is whole but for
        // what a computer loses on the way has the foot that lands on it.
        let count = rounded(count, 1e6).min(motion.counts());
        motion.pose_all(count, &mut poses);
        let moment = motion.moment(count);
        let dancers: Vec<Value> = poses
            .iter()
            .zip(Dancer::all(motion.dancers()))
            .map(|(pose, dancer)| {
                let own;
                let gait = if let Some(gait) = gaits.get(dancer.index()) {
                    gait
                } else {
                    own = Gait::of(motion, &clock, dancer);
                    &own
                };
                let body = gait.limbs(motion, &clock, count);
                let mut told = json!({
                    "number": pose.number,
                    "x": rounded(pose.x, 1e6),
                    "y": rounded(pose.y, 1e6),
                    "facing": wrap_whole(rounded(pose.facing, 1e4)),
                    "weight": gait.weight(&clock, count).word(),
                    "step": motion.known().get(pose.step).map_or("", |step| step.short.as_str()),
                    "hands": rounded(pose.hands, 1e4),
                    "left_foot": in_space(body.feet[0]),
                    "right_foot": in_space(body.feet[1]),
                    "left_hand": in_space(body.hands[0]),
                    "right_hand": in_space(body.hands[1]),
                    "left_shoulder": in_space(body.shoulders[0]),
                    "right_shoulder": in_space(body.shoulders[1]),
                    "left_hip": in_space(body.hips[0]),
                    "right_hip": in_space(body.hips[1]),
                    "hips": rounded(body.middle().z, 1e6),
                    "lean": rounded(body.lean, 1e4),
                });
                let struck = strikes(motion, dancer, count, &body);
                if let (false, Some(keys)) = (struck.is_empty(), told.as_object_mut()) {
                    keys.insert("strikes".to_owned(), struck.into());
                }
                told
            })
            .collect();
        let comma = if index == 0 { "\n" } else { ",\n" };
        let pose = json!({"bar": moment.bar, "count": rounded(moment.count, 1e6),
            "counts_in_bar": motion.bar_counts().in_bar(moment.bar.saturating_sub(1)), "dancers": dancers});
        write!(out, "{comma}  {pose}")?;
    }
    out.write_all(b"\n ]}\n")
}

/// What a dancer strikes exactly at a count, and with what they are struck.
fn strikes(motion: &Motion, dancer: Dancer, count: f64, body: &Limbs) -> Vec<Value> {
    let own = motion.blows_between(count, count + 1e-5).iter().filter(|blow| blow.has(dancer));
    // Whoever strikes somebody that there is not meets nothing.
    own.filter(|blow| !matches!(blow.on, BlowOn::Nobody(_))).map(|blow| {
        let other = if let BlowOn::Other(other) = blow.on { Some(other) } else { None };
        let struck = other.filter(|other| other.dancer == dancer);
        let (own, other) = struck.map_or((blow.by, other), |own| (own, Some(blow.by)));
        let on = match (blow.on, other) {
            (_, Some(other)) => json!(other.dancer.number()),
            (BlowOn::Ground, _) => json!("ground"),
            (BlowOn::Own(_), _) => json!("self"),
            _ => Value::Null,
        };
        let InSpace { x, y, z } = body.end(own.hand, own.end);
        let mut told = json!({"with": own.end.key(), "on": on, "x": rounded(x, 1e6), "y": rounded(y, 1e6), "z": rounded(z, 1e6)});
        let more = match (blow.on, other) {
            (_, Some(other)) => Some(("their", other.end.key())),
            (BlowOn::Own(part), _) => Some(("part", part.key())),
            _ => None,
        };
        if let (Some((key, word)), Some(keys)) = (more, told.as_object_mut()) {
            keys.insert(key.to_owned(), word.into());
        }
        told
    })
    .collect()
}

/// A place of a body: metres to the right of the middle, up, and over the floor.
fn in_space(place: InSpace) -> Value {
    json!({"x": rounded(place.x, 1e6), "y": rounded(place.y, 1e6), "z": rounded(place.z, 1e6)})
}
