//! What is being told of the photographs under the floor at one go, as one text.

/// What is being told of photographs.
#[derive(Default)]
pub(super) struct Telling {
    /// Those that are not there, by name, and why of the last.
    pub(super) gone: Vec<String>,
    pub(super) why: String,
    /// What else is told.
    pub(super) others: Vec<String>,
    /// All of it, as the notice has it.
    pub(super) said: Option<String>,
}

impl Telling {
    /// All of it in one line.
    pub(super) fn words(&self) -> String {
        let mut parts = Vec::new();
        match self.gone.as_slice() {
            [] => {}
            [name] => parts.push(not_shown(name, &self.why)),
            names => parts.push(format!(
                "{} photographs under the floor are not there any more: {}",
                names.len(),
                names.join(", ")
            )),
        }
        parts.extend(self.others.iter().cloned());
        parts.join("; ")
    }
}

/// That one is not shown, and why.
pub(super) fn not_shown(name: &str, why: &str) -> String {
    format!("{name}, a photograph under the floor, is not shown: {why}")
}
