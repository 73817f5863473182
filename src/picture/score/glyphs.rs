//! The signs of a stave as outlines, drawn for this program: lengths are spaces of the stave, y down.

use super::brush::{Loop, brush, corners, curves, hole, oval};

/// Half the width of a filled or a hollow head, and of a whole note's.
pub const HEAD: f32 = 0.61;
pub const WHOLE_HEAD: f32 = 0.86;

/// A treble clef; y is 0 on the line of G, x at its left.
pub fn clef() -> Vec<Loop> {
    vec![
        // From the eye of the spiral out, round the G line, up and over the top, and down the stem.
        brush(&[
            [1.46, 0.42, 0.06],
            [1.06, 0.22, 0.13],
            [1.00, -0.30, 0.20],
            [1.50, -0.82, 0.26],
            [2.16, -0.52, 0.36],
            [2.30, 0.20, 0.36],
            [1.86, 0.84, 0.22],
            [1.20, 0.96, 0.16],
            [0.46, 0.62, 0.26],
            [0.16, -0.20, 0.36],
            [0.44, -1.20, 0.36],
            [1.12, -2.12, 0.26],
            [1.66, -2.86, 0.26],
            [1.82, -3.60, 0.24],
            [1.62, -4.24, 0.12],
            [1.30, -4.10, 0.12],
            [1.06, -3.40, 0.15],
            [1.10, -2.60, 0.14],
            [1.36, -1.00, 0.13],
            [1.66, 0.80, 0.13],
            [1.80, 1.80, 0.13],
            [1.62, 2.42, 0.13],
            [1.16, 2.62, 0.12],
            [0.80, 2.42, 0.12],
        ]),
        oval([0.92, 2.10], [0.34, 0.34], 0.0),
    ]
}

/// A sharp; x from 0 to 1, y 0 at its middle.
fn sharp() -> Vec<Loop> {
    let bar = |y: f32| corners(&[[0.0, y + 0.26], [0.0, y], [0.98, y - 0.26], [0.98, y]]);
    let post = |x: f32, y: f32| {
        corners(&[[x - 0.05, y - 1.28], [x + 0.05, y - 1.28], [x + 0.05, y + 1.28], [x - 0.05, y + 1.28]])
    };
    vec![post(0.30, 0.10), post(0.68, -0.10), bar(-0.46), bar(0.46)]
}

fn flat() -> Vec<Loop> {
    vec![
        corners(&[[0.0, -1.75], [0.10, -1.75], [0.10, 0.62], [0.0, 0.68]]),
        curves(
            [0.04, -0.20],
            &[
                [[0.24, -0.60], [0.84, -0.66], [0.82, -0.18]],
                [[0.80, 0.18], [0.30, 0.42], [0.04, 0.70]],
                [[0.04, 0.60], [0.04, 0.50], [0.04, 0.46]],
                [[0.30, 0.26], [0.52, 0.06], [0.52, -0.20]],
                [[0.52, -0.44], [0.24, -0.36], [0.08, -0.04]],
            ],
        ),
    ]
}

fn natural() -> Vec<Loop> {
    let bar = |y: f32| corners(&[[0.0, y + 0.22], [0.0, y - 0.04], [0.70, y - 0.22], [0.70, y + 0.04]]);
    vec![
        corners(&[[0.0, -1.38], [0.10, -1.38], [0.10, 0.64], [0.0, 0.66]]),
        corners(&[[0.60, -0.64], [0.70, -0.66], [0.70, 1.38], [0.60, 1.38]]),
        bar(-0.42),
        bar(0.42),
    ]
}

fn double_sharp() -> Vec<Loop> {
    let arm = |way: f32| {
        let at = |along: f32, across: f32| [0.5 + (along * way - across) * 0.7, (along + across * way) * 0.7];
        corners(&[at(-0.60, -0.07), at(-0.60, 0.07), at(0.60, 0.07), at(0.60, -0.07)])
    };
    let foot = |x: f32, y: f32| {
        corners(&[[x - 0.14, y - 0.14], [x + 0.14, y - 0.14], [x + 0.14, y + 0.14], [x - 0.14, y + 0.14]])
    };
    vec![arm(1.0), arm(-1.0), foot(0.14, -0.36), foot(0.86, -0.36), foot(0.14, 0.36), foot(0.86, 0.36)]
}

/// An accidental of so many semitones up: its outline and its width.
pub fn accidental(semitones: i32) -> (Vec<Loop>, f32) {
    match semitones {
        1 => (sharp(), 0.98),
        -1 => (flat(), 0.82),
        2 => (double_sharp(), 1.0),
        -2 => {
            let mut both = flat();
            both.extend(
                flat()
                    .into_iter()
                    .map(|outline| outline.into_iter().map(|[x, y]| [x + 0.74, y]).collect::<Loop>()),
            );
            (both, 1.56)
        }
        _ => (natural(), 0.70),
    }
}

/// The head of a note; its middle is at 0, 0.
pub fn head(part: u64) -> Vec<Loop> {
    match part {
        1 => vec![oval([0.0, 0.0], [WHOLE_HEAD, 0.48], 0.0), hole(oval([0.0, 0.0], [0.46, 0.29], 58.0))],
        2 => vec![oval([0.0, 0.0], [0.65, 0.44], -24.0), hole(oval([0.0, 0.0], [0.53, 0.20], -32.0))],
        _ => vec![oval([0.0, 0.0], [0.64, 0.43], -24.0)],
    }
}

/// The first flag of a stem that goes up, from the top of the stem at 0, 0.
pub fn flag() -> Loop {
    curves(
        [-0.06, 0.0],
        &[
            [[0.0, 0.85], [0.62, 1.05], [0.90, 1.75]],
            [[1.10, 2.25], [0.94, 2.75], [0.66, 3.10]],
            [[0.62, 3.10], [0.62, 3.10], [0.60, 3.06]],
            [[0.92, 2.50], [0.90, 2.10], [0.66, 1.70]],
            [[0.44, 1.32], [0.20, 1.12], [-0.06, 1.02]],
        ],
    )
}

/// A further flag of a stem that goes up: shorter.
pub fn further_flag() -> Loop {
    curves(
        [-0.06, 0.0],
        &[
            [[0.0, 0.62], [0.66, 0.78], [0.90, 1.30]],
            [[1.04, 1.62], [1.00, 1.92], [0.92, 2.10]],
            [[0.90, 2.10], [0.88, 2.10], [0.86, 2.06]],
            [[0.88, 1.70], [0.74, 1.42], [0.56, 1.22]],
            [[0.36, 1.00], [0.16, 0.92], [-0.06, 0.84]],
        ],
    )
}

/// The rest of a part of a whole note with its width; y is 0 on the middle line.
pub fn rest(part: u64) -> (Vec<Loop>, f32) {
    let block = |top: f32| corners(&[[0.0, top], [1.16, top], [1.16, top + 0.5], [0.0, top + 0.5]]);
    match part {
        // It hangs from the fourth line; the half rest lies on the third.
        1 => (vec![block(-1.0)], 1.16),
        2 => (vec![block(-0.5)], 1.16),
        4 => (vec![crotchet_rest()], 1.0),
        _ => {
            let hooks = (part / 4).max(2).ilog2();
            (quaver_rest(hooks), 0.95 + 0.2 * (hooks as f32 - 1.0))
        }
    }
}

fn crotchet_rest() -> Loop {
    curves(
        [0.20, -1.50],
        &[
            [[0.42, -1.20], [0.62, -0.96], [0.84, -0.70]],
            [[0.50, -0.34], [0.46, 0.00], [0.96, 0.56]],
            [[0.94, 0.58], [0.92, 0.60], [0.90, 0.60]],
            [[0.60, 0.46], [0.28, 0.62], [0.66, 1.28]],
            [[0.64, 1.32], [0.62, 1.32], [0.60, 1.32]],
            [[-0.04, 0.90], [-0.02, 0.20], [0.56, 0.40]],
            [[0.40, 0.18], [0.24, 0.02], [0.10, -0.16]],
            [[0.42, -0.50], [0.50, -0.86], [0.14, -1.42]],
            [[0.14, -1.48], [0.16, -1.50], [0.20, -1.50]],
        ],
    )
}

fn quaver_rest(hooks: u32) -> Vec<Loop> {
    let mut made = Vec::new();
    let slant = |y: f32| 0.92 - (y + 0.62) * 0.27 + 0.2 * (hooks as f32 - 1.0);
    let top = -0.62 - if hooks > 2 { hooks as f32 - 2.0 } else { 0.0 };
    for hook in 0..hooks {
        let y = top + hook as f32;
        let x = slant(y) - 0.92;
        made.push(oval([x + 0.22, y + 0.06], [0.22, 0.22], 0.0));
        made.push(brush(&[
            [x + 0.12, y + 0.20, 0.08],
            [x + 0.42, y + 0.27, 0.13],
            [x + 0.72, y + 0.12, 0.11],
            [x + 0.92, y - 0.14, 0.09],
        ]));
    }
    let foot = top + 1.64 + (hooks as f32 - 1.0);
    made.push(brush(&[
        [slant(top), top - 0.14, 0.10],
        [slant(f32::midpoint(top, foot)), f32::midpoint(top, foot), 0.13],
        [slant(foot), foot, 0.13],
    ]));
    made
}
