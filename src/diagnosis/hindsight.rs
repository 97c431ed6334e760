//! The suspects of a visit that is over, for its marks.
//!
//! Where all entries are known beforehand, pairs, whose halvings cost two shadows each, are refined only for what is asked: what
//! was believed after some of the entries. Most pairs are out of the question by then. Hypotheses with one cause are refined as ever: what
//! starts in the middle of a scale and not at its ends is found only by looking at once. At the end all entries are weighed once
//! more on the severities that were found, so that what each entry did is told by them.

use visit::Entry;

use crate::ensemble::Booked;
use crate::hypotheses::{Hypotheses, Scope, Stoppable, log_total};
use crate::progress::{Portion, Progress};

impl Hypotheses {
    /// Weighs the entries of a notebook up to the last of the numbers in `asked`, so that what is believed after each of those holds.
    /// Belongs to suspects on arrival. Shadows that have `followed` the same entries elsewhere are taken over, which changes nothing but
    /// the work. `None` if it was stopped.
    ///
    /// # Errors
    /// If a shadow leaves the finite numbers.
    pub fn look_back(
        &mut self,
        notebook: &[Entry],
        asked: &[u32],
        followed: Option<&Hypotheses>,
        progress: &dyn Progress,
    ) -> Stoppable<()> {
        let last = asked.iter().copied().max().unwrap_or(0);
        let entries: Vec<&Entry> = notebook.iter().filter(|entry| entry.number <= last).collect();
        if let Some(followed) = followed {
            self.take_over(followed);
        }
        let count = entries.len().max(1) as f64;
        for (index, entry) in entries.into_iter().enumerate() {
            let of_entry = Portion::of(progress, index as f64 / count, (index + 1) as f64 / count);
            if self.weigh(entry, &Portion::of(&of_entry, 0.0, 0.5))?.is_none() {
                return Ok(None);
            }
            let scope = if asked.contains(&entry.number) {
                self.to_refine = self.care.rounds;
                Scope::All
            } else {
                Scope::Singles
            };
            if self.refine_with(followed, scope, &Portion::of(&of_entry, 0.5, 1.0))?.is_none() {
                return Ok(None);
            }
            self.let_rest();
        }
        self.weigh_anew()?;
        Ok(Some(()))
    }

    /// Puts shadows that have followed entries in the place of the same ones on arrival.
    fn take_over(&mut self, followed: &Hypotheses) {
        for (line, of) in self.lines.iter_mut().zip(&followed.lines) {
            for shadow in &mut line.shadows {
                if let Some(index) = of.shadow_at(&shadow.amounts) {
                    *shadow = of.shadows[index].clone();
                    shadow.follows = true;
                }
            }
        }
    }

    /// Lets those rest that are out of the question.
    pub(crate) fn let_rest(&mut self) {
        let log_total = log_total(&self.lines);
        for line in &mut self.lines {
            line.rest(log_total, &self.care);
        }
    }

    /// Weighs everything once more, on the pieces of the scales as they are now.
    fn weigh_anew(&mut self) -> Result<(), plant::StepError> {
        self.weighed.clear();
        for line in &mut self.lines {
            line.forget();
        }
        for Booked { entry, sensitivity, .. } in std::mem::take(&mut self.entries) {
            for line in &mut self.lines {
                line.leave_out_who_rests(entry.number);
            }
            self.hold_against(&entry, sensitivity)?;
            self.let_rest();
        }
        self.to_refine = 0;
        Ok(())
    }
}
