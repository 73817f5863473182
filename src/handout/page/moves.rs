/// Parts of a metre in which places are kept: 1 mm.
pub const PLACE_PARTS: f64 = 1000.0;
/// Parts of a degree in which facings are kept.
pub const FACING_PARTS: f64 = 4.0;
/// How near the page's places are to the true ones, metres.
pub const PLACE_WITHIN: f64 = 0.003;
/// How near the page's facings are to the true ones, degrees.
pub const FACING_WITHIN: f64 = 0.75;
/// The finest part of a count that is kept, and looked at to see that the page is right.
pub const FINEST: u32 = 64;

/// A dancer's way through a figure of so many counts, from metres right, metres up and degrees at each count.
///
/// First come the start's place and facing. Then each count has a byte and its changes. The low half of the byte says
/// how many even parts of the count have a place of their own: 0 none, as where it was; otherwise 1, 2, 4 and so on to
/// 64 by 1, 2, 3 and on. The high half says the same of the facing. The changes of the place are two numbers for each
/// part, then those of the facing, one for each part. Between them places and facings go straight. The parts are the
/// fewest with which nothing is farther off than [`PLACE_WITHIN`] and [`FACING_WITHIN`] at any sixty-fourth of a count.
#[must_use]
pub fn pack_moves(counts: u32, stand: impl Fn(f64) -> (f64, f64, f64)) -> Vec<u8> {
    let mut bytes = Vec::with_capacity(counts as usize * 8);
    let step = 1.0 / f64::from(FINEST);
    let mut last = coarse(stand(0.0));
    for value in last {
        push_number(&mut bytes, value);
    }
    let mut seen: Vec<(f64, f64, f64)> = Vec::with_capacity(FINEST as usize + 1);
    for count in 0..counts {
        seen.clear();
        seen.extend((0..=FINEST).map(|part| stand(f64::from(count) + f64::from(part) * step)));
        let knots: Vec<[i64; 3]> = seen.iter().map(|&at| coarse(at)).collect();
        let place = level(last, &knots, |from, to, share, part| {
            let [x, y] = [0, 1].map(|axis| between(from, to, share, axis) / PLACE_PARTS);
            seen.get(part).is_some_and(|at| (at.0 - x).hypot(at.1 - y) <= PLACE_WITHIN)
        });
        let facing = level(last, &knots, |from, to, share, part| {
            let facing = between(from, to, share, 2) / FACING_PARTS;
            seen.get(part).is_some_and(|at| (at.2 - facing).abs() <= FACING_WITHIN)
        });
        bytes.push(place | facing << 4);
        let before = last;
        for (level, axes) in [(place, &[0, 1][..]), (facing, &[2][..])] {
            let mut from = before;
            for knot in parts(level).filter_map(|part| knots.get(part)) {
                for &axis in axes {
                    if let (Some(from), Some(to), Some(last)) =
                        (from.get(axis), knot.get(axis), last.get_mut(axis))
                    {
                        push_number(&mut bytes, to - from);
                        *last = *to;
                    }
                }
                from = *knot;
            }
        }
    }
    bytes
}

/// In the parts in which the page keeps them.
fn coarse((x, y, facing): (f64, f64, f64)) -> [i64; 3] {
    [x * PLACE_PARTS, y * PLACE_PARTS, facing * FACING_PARTS].map(|value| value.round() as i64)
}

fn between(from: [i64; 3], to: [i64; 3], share: f64, axis: usize) -> f64 {
    let [from, to] = [from, to].map(|at| at.get(axis).copied().unwrap_or(0) as f64);
    from + (to - from) * share
}

/// Which sixty-fourths have a value of their own.
fn parts(level: u8) -> impl Iterator<Item = usize> {
    let number = if level == 0 { 0 } else { 1_usize << (level - 1) };
    let each = FINEST as usize / number.max(1);
    (1..=number).map(move |part| part * each)
}

/// The coarsest level at which everything is near enough; `near` is given the two values, the share of the way and the
/// sixty-fourth.
fn level(last: [i64; 3], knots: &[[i64; 3]], near: impl Fn([i64; 3], [i64; 3], f64, usize) -> bool) -> u8 {
    let finest = FINEST as usize;
    let fits = |level: u8| {
        if level == 0 {
            return (0..=finest).all(|part| near(last, last, 0.0, part));
        }
        let each = finest >> (level - 1);
        (0..=finest).all(|part| {
            let begin = (part / each * each).min(finest - each);
            let from = if begin == 0 { Some(&last) } else { knots.get(begin) };
            match (from, knots.get(begin + each)) {
                (Some(&from), Some(&to)) => near(from, to, (part - begin) as f64 / each as f64, part),
                _ => true,
            }
        })
    };
    (0..=6).find(|&level| fits(level)).unwrap_or(7)
}

/// A whole number in sevens of bits, the lowest first, its sign in the lowest bit of all.
pub(super) fn push_number(bytes: &mut Vec<u8>, value: i64) {
    let mut rest = (value << 1 ^ value >> 63) as u64;
    while rest > 127 {
        bytes.push(rest as u8 & 127 | 128);
        rest >>= 7;
    }
    bytes.push(rest as u8);
}
