//! The plans of named figures that were made last, so that a figure whose set and choices have not changed is not worked out
//! again for each edit of what is drawn over it, nor in every dance of a side.

use crate::dance::{Extra, Named};
use crate::motion::{Ground, Plan};
use std::collections::VecDeque;
use std::sync::{Arc, Mutex, PoisonError};

/// How many parts are kept, those of all plans together.
const MOST_PARTS: usize = 2_000;

/// A plan, and what it was made of: unknown keys of a file make no plan, and are not kept.
struct KeptPlan {
    figure: String,
    with: Extra,
    ground: Ground,
    plan: Arc<Plan>,
}

/// The last one made comes first.
static KEPT: Mutex<VecDeque<KeptPlan>> = Mutex::new(VecDeque::new());

/// The plan of a named figure on a ground: the one that is kept, or else what `make` makes, which is kept from then on.
pub(super) fn kept_plan<E>(
    named: &Named,
    ground: &Ground,
    make: impl FnOnce() -> Result<Plan, E>,
) -> Result<Arc<Plan>, E> {
    let is_it =
        |kept: &KeptPlan| kept.figure == named.figure && kept.with == named.with && kept.ground == *ground;
    let known = lock().iter().find(|kept| is_it(kept)).map(|kept| Arc::clone(&kept.plan));
    if let Some(plan) = known {
        return Ok(plan);
    }
    let plan = Arc::new(make()?);
    let mut kept = lock();
    if !kept.iter().any(is_it) {
        let (figure, with) = (named.figure.clone(), named.with.clone());
        kept.push_front(KeptPlan { figure, with, ground: ground.clone(), plan: Arc::clone(&plan) });
        let mut parts = 0;
        kept.retain(|kept| {
            parts += kept.plan.parts.len();
            parts <= MOST_PARTS
        });
    }
    Ok(plan)
}

/// What another thread left in the midst of is whole all the same: plans are put in and taken out one at a time.
fn lock() -> std::sync::MutexGuard<'static, VecDeque<KeptPlan>> {
    KEPT.lock().unwrap_or_else(PoisonError::into_inner)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dance::Set;

    #[test]
    fn a_plan_is_made_once_for_a_ground_and_its_choices() {
        let named = |inside: f64| Named {
            figure: "hey".to_owned(),
            with: Extra::from_iter([("inside".to_owned(), inside.into())]),
            extra: Extra::new(),
        };
        let ground = |across: f64| Ground::of(&Set::longways(6, across, 1.777));
        let made = |named: &Named, ground: &Ground| {
            let mut made = false;
            let plan = kept_plan(named, ground, || {
                made = true;
                Ok::<_, ()>(Plan::still(8, "ds", ground.dancers()))
            });
            assert!(plan.is_ok());
            made
        };
        let (one, other) = (named(0.31), named(0.32));
        assert!(made(&one, &ground(2.4)));
        assert!(!made(&one, &ground(2.4)));
        assert!(made(&other, &ground(2.4)));
        assert!(made(&one, &ground(2.5)));
        assert!(!made(&one, &ground(2.4)) && !made(&other, &ground(2.4)));
    }
}
