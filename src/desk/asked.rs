use super::question::Question;

/// What is asked of the user now, if anything, and a number that is another for each time something was asked.
#[derive(Default)]
pub(super) struct Asked {
    question: Option<Question>,
    revision: u64,
}

impl Asked {
    pub fn question(&self) -> Option<&Question> {
        self.question.as_ref()
    }

    pub fn revision(&self) -> u64 {
        self.revision
    }

    /// Asks this, in place of whatever was asked.
    pub fn ask(&mut self, question: Question) {
        self.question = Some(question);
        self.revision += 1;
    }

    /// The number that the next question will have.
    pub fn next(&self) -> u64 {
        self.revision + 1
    }

    /// Asks nothing any more.
    pub fn put_away(&mut self) {
        self.question = None;
    }

    /// Asks nothing any more, and gives what was asked if it is wanted.
    pub fn take_if<T>(&mut self, wanted: impl FnOnce(Question) -> Result<T, Question>) -> Option<T> {
        match wanted(self.question.take()?) {
            Ok(taken) => Some(taken),
            Err(question) => {
                self.question = Some(question);
                None
            }
        }
    }
}
