//! Finds where a smooth function of many numbers is least, with its slopes, by L-BFGS: J. Nocedal, "Updating
//! quasi-Newton matrices with limited storage", Mathematics of Computation 35 (1980), with a step that is halved until the
//! function falls enough (L. Armijo, Pacific Journal of Mathematics 16, 1966).

use std::collections::VecDeque;

/// How many steps are remembered.
const MEMORY: usize = 15;
/// How much of the fall that the slope promises a step has to bring.
const ENOUGH: f64 = 1e-4;
/// How often a step is shortened at the most.
const SHORTER: usize = 20;
/// Steps that bring less than this share of the value, so many in a row, are the last.
const LITTLE: (f64, usize) = (2e-5, 3);

/// A step that was taken: how far each number went, how its slope changed, and one over the product of the two.
struct Step {
    went: Vec<f64>,
    changed: Vec<f64>,
    inverse: f64,
}

/// Walks from a point to where a function is least, in so many steps at the most; gives how often it was looked at.
/// `look` gives the value at a point and writes the slopes there.
pub(super) fn descend(
    point: &mut Vec<f64>,
    most: usize,
    mut look: impl FnMut(&[f64], &mut [f64]) -> f64,
) -> usize {
    let mut slopes = vec![0.0; point.len()];
    let mut value = look(point, &mut slopes);
    let (mut looks, mut little) = (1, 0);
    let mut steps: VecDeque<Step> = VecDeque::with_capacity(MEMORY + 1);
    for _ in 0..most {
        let mut way = downhill(&slopes, &steps);
        let mut fall = product(&way, &slopes);
        if fall >= 0.0 {
            steps.clear();
            way = slopes.iter().map(|slope| -slope).collect();
            fall = product(&way, &slopes);
        }
        // Nothing is known of the bend at first: the first step goes a little way.
        let mut length = if steps.is_empty() { (0.1 / fall.abs().sqrt().max(1e-12)).min(1.0) } else { 1.0 };
        let mut next_slopes = vec![0.0; point.len()];
        let mut taken = None;
        for _ in 0..SHORTER {
            let next: Vec<f64> = point.iter().zip(&way).map(|(at, along)| at + length * along).collect();
            let next_value = look(&next, &mut next_slopes);
            looks += 1;
            if next_value <= value + ENOUGH * length * fall {
                taken = Some((next, next_value));
                break;
            }
            length *= 0.5;
        }
        let Some((next, next_value)) = taken else { break };
        let went: Vec<f64> = next.iter().zip(point.iter()).map(|(after, before)| after - before).collect();
        let changed: Vec<f64> =
            next_slopes.iter().zip(&slopes).map(|(after, before)| after - before).collect();
        let bend = product(&went, &changed);
        if bend > 1e-12 {
            steps.push_back(Step { went, changed, inverse: 1.0 / bend });
            if steps.len() > MEMORY {
                steps.pop_front();
            }
        }
        little = if value - next_value < LITTLE.0 * value.abs() { little + 1 } else { 0 };
        (*point, slopes, value) = (next, next_slopes, next_value);
        if little >= LITTLE.1 {
            break;
        }
    }
    looks
}

/// The way to go, from the slopes and from how they changed in the steps before.
fn downhill(slopes: &[f64], steps: &VecDeque<Step>) -> Vec<f64> {
    let mut way: Vec<f64> = slopes.iter().map(|slope| -slope).collect();
    let mut shares = Vec::with_capacity(steps.len());
    for step in steps.iter().rev() {
        let share = step.inverse * product(&step.went, &way);
        add(&mut way, -share, &step.changed);
        shares.push(share);
    }
    if let Some(last) = steps.back() {
        let scale = 1.0 / (last.inverse * product(&last.changed, &last.changed));
        for along in &mut way {
            *along *= scale;
        }
    }
    for (step, share) in steps.iter().zip(shares.iter().rev()) {
        let back = step.inverse * product(&step.changed, &way);
        add(&mut way, share - back, &step.went);
    }
    way
}

fn product(one: &[f64], other: &[f64]) -> f64 {
    one.iter().zip(other).map(|(a, b)| a * b).sum()
}

fn add(to: &mut [f64], times: f64, what: &[f64]) {
    for (sum, more) in to.iter_mut().zip(what) {
        *sum += times * more;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// H. H. Rosenbrock, "An automatic method for finding the greatest or least value of a function", The Computer
    /// Journal 3 (1960): a bent valley, least at 1, 1.
    #[test]
    fn the_end_of_a_bent_valley_is_found() {
        let mut point = vec![-1.2, 1.0];
        let looks = descend(&mut point, 60, |at, slopes| {
            let (a, b) = (1.0 - at[0], at[1] - at[0] * at[0]);
            slopes[0] = -2.0 * a - 400.0 * at[0] * b;
            slopes[1] = 200.0 * b;
            a * a + 100.0 * b * b
        });
        assert!((point[0] - 1.0).abs() < 1e-3 && (point[1] - 1.0).abs() < 1e-3, "{point:?}");
        assert!(looks < 100, "{looks}");
    }

    #[test]
    fn a_bowl_of_many_numbers_is_gone_down_to_its_bottom() {
        let mut point = vec![3.0; 60];
        descend(&mut point, 200, |at, slopes| {
            let mut value = 0.0;
            for (index, (at, slope)) in at.iter().zip(slopes).enumerate() {
                let steep = 1.0 + index as f64;
                let off = at - index as f64 / 10.0;
                *slope = 2.0 * steep * off;
                value += steep * off * off;
            }
            value
        });
        for (index, at) in point.iter().enumerate() {
            assert!((at - index as f64 / 10.0).abs() < 0.02, "{index}: {at}");
        }
    }
}
