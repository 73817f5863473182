use crate::dance::Dance;

/// What is otherwise in one dance than in another, in short lines; at most a handful.
#[must_use]
pub fn what_changed(before: &Dance, after: &Dance) -> Vec<String> {
    let mut said = Vec::new();
    if before.title != after.title {
        said.push(format!("it is now called {}", after.title));
    }
    if before.set != after.set {
        said.push("another set".to_owned());
    }
    for figure in &after.figures {
        match before.figures.iter().find(|other| other.id == figure.id) {
            None => said.push(format!("{} is new", figure.name)),
            Some(other) if other != figure => said.push(format!("{} is changed", figure.name)),
            Some(_) => {}
        }
    }
    for figure in &before.figures {
        if after.figures.iter().all(|other| other.id != figure.id) {
            said.push(format!("{} is no longer in it", figure.name));
        }
    }
    if before.order != after.order {
        said.push("another running order".to_owned());
    }
    if before.people != after.people {
        said.push("other names of dancers".to_owned());
    }
    if before.music != after.music {
        said.push("other music".to_owned());
    }
    if before.underlay != after.underlay {
        said.push("other photographs under the floor".to_owned());
    }
    let more = said.len().saturating_sub(MOST);
    if more > 1 {
        said.truncate(MOST);
        said.push(format!("and {more} more"));
    }
    if said.is_empty() && before != after {
        said.push("what else the dance says about itself".to_owned());
    }
    said
}

/// Lines before it is cut short.
const MOST: usize = 6;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dance::{Figure, Set};

    #[test]
    fn each_kind_of_change_is_told() {
        let mut before = Dance::new("One", Set::longways(6, 2.4, 1.8));
        before.figures.push(Figure::drawn("a", "Start", 4));
        before.figures.push(Figure::drawn("b", "Stand", 4));
        assert!(what_changed(&before, &before).is_empty());
        let mut after = before.clone();
        after.title = "Two".to_owned();
        after.figures[0].bars = 8;
        after.figures[1] = Figure::drawn("c", "Finish", 4);
        assert_eq!(
            what_changed(&before, &after),
            ["it is now called Two", "Start is changed", "Finish is new", "Stand is no longer in it"]
        );
        let mut other = before.clone();
        other.notes = "slow".to_owned();
        assert_eq!(what_changed(&before, &other).len(), 1);
    }
}
