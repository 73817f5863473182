/// So few are looked at one by one: that is sooner done than to guess.
const FEW: usize = 6;

/// How many of the items in rising order are at or before a value, as `partition_point` has it: found by a guess that is right,
/// or next to right, where they lie much as far apart everywhere.
#[must_use]
pub(super) fn up_to<T>(items: &[T], value: f64, at: impl Fn(&T) -> f64) -> usize {
    if items.len() <= FEW {
        return items.iter().take_while(|item| at(item) <= value).count();
    }
    let (Some(first), Some(last)) = (items.first(), items.last()) else { return 0 };
    let (low, high) = (at(first), at(last));
    if value < low || value.is_nan() {
        return 0;
    }
    if value >= high {
        return items.len();
    }
    let share = (value - low) / (high - low);
    let mut guess = ((share * (items.len() - 1) as f64) as usize).min(items.len().saturating_sub(2));
    for _ in 0..4 {
        match items.get(guess..guess + 2) {
            Some([here, _]) if at(here) > value => guess = guess.saturating_sub(1),
            Some([_, next]) if at(next) <= value => guess += 1,
            Some(_) => return guess + 1,
            None => break,
        }
    }
    items.partition_point(|item| at(item) <= value)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn as_many_as_a_search_finds(
            mut items in prop::collection::vec(-3.0f64..3.0, 0..30), twice in 0usize..5, value in -4.0f64..4.0
        ) {
            items.extend(items.clone().into_iter().take(twice));
            items.sort_by(f64::total_cmp);
            for value in items.iter().copied().chain([value, f64::NAN, f64::INFINITY]) {
                let found = items.partition_point(|item| *item <= value);
                prop_assert_eq!(up_to(&items, value, |item| *item), found);
            }
        }
    }
}
