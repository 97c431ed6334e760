//! All suspects of a visit and what the readings make of them.

use call::Call;
use plant::{FaultKind, StepError};
use visit::{Entry, Move, Outcome, Trust, Visit};

use crate::care::Care;
use crate::cell::Asked;
use crate::ensemble::{Booked, Ensemble, Sharer, Wanted, first_amounts, seen_before};
use crate::hypothesis::{Hypothesis, hypotheses_of};
use crate::member::Member;
use crate::parallel::{self, Worked};
use crate::prior::Prior;
use crate::progress::{Portion, Progress, Unwatched, Within};
use crate::stock::Stock;
use crate::surroundings::{Elsewhere, Sensitivity, Surroundings};
use crate::weigh::{is_evidence, usual};

/// Part that weighing has in the work on an entry as it is told to who waits; the rest is refining.
const WEIGHING_PART: f64 = 0.7;

/// One suspect and how likely it is.
#[derive(Clone, Debug, PartialEq)]
pub struct Posterior {
    /// The suspect.
    pub suspect: Hypothesis,
    /// Its probability; all of them add up to one.
    pub probability: f64,
    /// Mean and standard deviation of the amount of each of its causes, if it is true: the severity, and for a leak
    /// the share of the data plate's charge that is gone.
    pub amounts: Vec<(f64, f64)>,
}

/// What one notebook entry did to the suspects.
#[derive(Clone, Debug, PartialEq)]
pub struct Update {
    /// Number of the entry.
    pub entry: u32,
    /// Probabilities after it, in the order of [`Hypotheses::names`].
    pub after: Vec<f64>,
    /// Information gained, bit (Kullback and Leibler 1951: from the probabilities before to those after).
    pub gained_bits: f64,
    /// Why a reading could not be trusted.
    pub doubt: Option<Trust>,
}

/// The suspects of a visit, their shadows, and the probabilities after each entry.
#[derive(Clone, Debug)]
pub struct Hypotheses {
    call: Call,
    pub(crate) care: Care,
    onset_s: f64,
    arrival_s: f64,
    names: Vec<Hypothesis>,
    before: Vec<f64>,
    pub(crate) lines: Vec<Ensemble>,
    surroundings: Surroundings,
    stock: Stock,
    /// Every entry so far.
    pub(crate) entries: Vec<Booked>,
    pub(crate) weighed: Vec<Update>,
    /// Rounds of refining that the last entry still wants.
    pub(crate) to_refine: usize,
}

/// A shadow that is to arrive.
enum Draft {
    Suspected { line: usize, amounts: Vec<f64>, shadow: Option<Member> },
    Sound { elsewhere: Elsewhere, shadow: Option<Member> },
}

/// Whose severities are refined.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Scope {
    /// Those of every suspect.
    All,
    /// Those of suspects with one cause.
    Singles,
}

/// What came of work that can be stopped.
pub type Stoppable<T> = Result<Option<T>, StepError>;

impl Hypotheses {
    /// The suspects of a call on arrival: every shadow lives through the call's history. `None` if it was stopped.
    ///
    /// When it began is what the customer can tell: the shadows' faults set in when the call says, see [`onset_told_s`].
    ///
    /// # Errors
    /// If a shadow leaves the finite numbers.
    pub fn arrive(call: &Call, prior: &Prior, progress: &dyn Progress) -> Stoppable<Hypotheses> {
        Hypotheses::arrive_with(call, prior, Care::USUAL, progress)
    }

    /// The same with more or less care.
    ///
    /// # Errors
    /// If a shadow leaves the finite numbers.
    pub fn arrive_with(
        call: &Call,
        prior: &Prior,
        care: Care,
        progress: &dyn Progress,
    ) -> Stoppable<Hypotheses> {
        let names = hypotheses_of(call);
        let onset_s = onset_told_s(call);
        let before = prior.of(&names);
        let mut stands: Vec<(Hypothesis, Vec<Sharer>)> = Vec::new();
        for (index, (name, prior)) in names.iter().zip(&before).enumerate() {
            let stand = name.stands_behind(&call.system);
            let member = Sharer { index, prior: *prior };
            match stands.iter_mut().find(|(known, _)| *known == stand) {
                Some((_, members)) => members.push(member),
                None => stands.push((stand, vec![member])),
            }
        }
        let mut drafts: Vec<Draft> = Elsewhere::of(call)
            .into_iter()
            .map(|elsewhere| Draft::Sound { elsewhere, shadow: None })
            .chain(stands.iter().enumerate().flat_map(|(line, (stand, _))| {
                first_amounts(stand, care.first).into_iter().map(move |amounts| Draft::Suspected {
                    line,
                    amounts,
                    shadow: None,
                })
            }))
            .collect();
        let worked = parallel::for_each(&mut drafts, parallel::cores(), progress, |draft| {
            match draft {
                Draft::Suspected { line, amounts, shadow } => {
                    *shadow =
                        Some(Member::arrive(call, &stands[*line].0, amounts.clone(), onset_s, care.pace)?);
                }
                Draft::Sound { elsewhere, shadow } => *shadow = Some(elsewhere.arrive(call, care.pace)?),
            }
            Ok(())
        })?;
        if worked == Worked::Stopped {
            return Ok(None);
        }
        let mut of_lines: Vec<Vec<Member>> = vec![Vec::new(); stands.len()];
        let mut surroundings = Surroundings { shadows: Vec::new() };
        for draft in drafts {
            match draft {
                Draft::Suspected { line, shadow, .. } => of_lines[line].extend(shadow),
                Draft::Sound { shadow, .. } => surroundings.shadows.extend(shadow),
            }
        }
        let lines = stands
            .into_iter()
            .zip(of_lines)
            .map(|((stand, members), shadows)| {
                let of_members = members.iter().map(|member| names[member.index].clone()).collect();
                Ensemble::new(stand, members, of_members, shadows, care.first)
            })
            .collect();
        Ok(Some(Hypotheses {
            call: call.clone(),
            care,
            onset_s,
            arrival_s: call.history_s,
            names,
            before,
            lines,
            surroundings,
            stock: Stock::default(),
            entries: Vec::new(),
            weighed: Vec::new(),
            to_refine: 0,
        }))
    }

    /// The suspects of a visit after the entries up to a number, by working it again on all shadows. `None` if it
    /// was stopped.
    ///
    /// # Errors
    /// If a shadow leaves the finite numbers.
    pub fn of(visit: &Visit, prior: &Prior, last: u32, progress: &dyn Progress) -> Stoppable<Hypotheses> {
        let Some(mut suspects) = Hypotheses::arrive(visit.call(), prior, &Portion::of(progress, 0.0, 0.5))?
        else {
            return Ok(None);
        };
        let caught_up = suspects.catch_up(visit, last, &Portion::of(progress, 0.5, 1.0))?;
        Ok(caught_up.map(|()| suspects))
    }

    /// Follows the entries of a visit that have not been weighed yet, up to a number. `None` if it was stopped; going
    /// on later gives the same.
    ///
    /// # Errors
    /// If a shadow leaves the finite numbers.
    pub fn catch_up(&mut self, visit: &Visit, last: u32, progress: &dyn Progress) -> Stoppable<()> {
        // Stopped between the two halves of the work on an entry, the second is still to be done.
        if self.to_refine > 0 && self.refine(&Within(progress))?.is_none() {
            return Ok(None);
        }
        let done = self.entries.last().map_or(0, |booked| booked.entry.number);
        let left: Vec<&Entry> =
            visit.notebook().iter().filter(|entry| entry.number > done && entry.number <= last).collect();
        let count = left.len().max(1) as f64;
        for (index, entry) in left.into_iter().enumerate() {
            let of_entry = Portion::of(progress, index as f64 / count, (index + 1) as f64 / count);
            let weighed = self.weigh(entry, &Portion::of(&of_entry, 0.0, WEIGHING_PART))?;
            let refining = Portion::of(&of_entry, WEIGHING_PART, 1.0);
            if weighed.is_none() || self.refine(&refining)?.is_none() {
                return Ok(None);
            }
        }
        Ok(Some(()))
    }

    /// Lets the shadows go on to a plant time of the real visit, at which `running` is being made since `began_s`, if
    /// anything is. Work ahead of [`Hypotheses::weigh`], which needs less then. `None` if it was stopped; going on
    /// later gives the same.
    ///
    /// # Errors
    /// If a shadow leaves the finite numbers.
    pub fn go_on(
        &mut self,
        running: Option<(&Move, f64)>,
        to_s: f64,
        progress: &dyn Progress,
    ) -> Stoppable<()> {
        let worked = parallel::for_each(&mut self.followers(), parallel::cores(), progress, |shadow| {
            shadow.go_on(running, to_s)
        })?;
        Ok((worked == Worked::Done).then_some(()))
    }

    /// The shadows finish the move of an entry, and the entry is weighed. `None` if it was stopped; weighing the same
    /// entry again goes on.
    ///
    /// # Errors
    /// If a shadow leaves the finite numbers.
    pub fn weigh(&mut self, entry: &Entry, progress: &dyn Progress) -> Stoppable<()> {
        let arrival_s = self.arrival_s;
        let worked = parallel::for_each(&mut self.followers(), parallel::cores(), progress, |shadow| {
            shadow.finish(entry, arrival_s)
        })?;
        if worked == Worked::Stopped {
            return Ok(None);
        }
        let sensitivity = self.surroundings.sensitivity(entry);
        self.hold_against(entry, sensitivity)?;
        Ok(Some(()))
    }

    /// Weighs an entry that the shadows have been through, given what the surroundings make of it.
    pub(crate) fn hold_against(&mut self, entry: &Entry, sensitivity: Sensitivity) -> Result<(), StepError> {
        let before = seen_before(&self.entries, entry);
        let mut neutral = 0.0;
        if is_evidence(&entry.outcome) {
            let asked = Asked {
                entry,
                before: before.map(|index| &self.entries[index].entry),
                sensitivity: &sensitivity,
                arrival_s: self.arrival_s,
            };
            let mut lines: Vec<&mut Ensemble> = self.lines.iter_mut().collect();
            parallel::for_each(&mut lines, parallel::cores(), &Unwatched, |line| {
                line.weigh(asked);
                Ok(())
            })?;
            // Shadows that say nothing about it are to stay as likely as they are among the others: for them it counts
            // as likely as it is on the whole for those that do, and as it is for one that is right where few or none do. Of few
            // that are far off, or of none, it can't be told how likely it is, and shadows put in later may well say something.
            let most = self.most_likely();
            let (sum, product) = self
                .lines
                .iter()
                .map(|line| line.told(most))
                .fold((0.0, 0.0), |(sum, product), (more, told)| (sum + more, product + told));
            let all: f64 = self.lines.iter().flat_map(|line| line.weights(most)).sum();
            let silent = (all - sum).max(0.0) * libm::exp(usual(&entry.outcome, &sensitivity));
            neutral = libm::log(((product + silent) / all).max(f64::MIN_POSITIVE));
            for line in &mut self.lines {
                line.book(neutral);
            }
        }
        self.entries.push(Booked { entry: entry.clone(), before, neutral, sensitivity });
        self.to_refine = if is_evidence(&entry.outcome) { self.care.rounds } else { 0 };
        let earlier = self.probabilities();
        let after = self.weights();
        let doubt = match &entry.outcome {
            Outcome::Read(reading) if reading.shown != Trust::Sound => Some(reading.shown),
            _ => None,
        };
        self.weighed.push(Update {
            entry: entry.number,
            gained_bits: gain_bits(&earlier, &after),
            after,
            doubt,
        });
        Ok(())
    }

    /// Puts shadows in where a severity could still matter and none is near, and lets those rest that are out of the
    /// question. Belongs after each [`Hypotheses::weigh`], before the next; a second time it does nothing. `None` if it was
    /// stopped; going on later gives the same.
    ///
    /// # Errors
    /// If a shadow leaves the finite numbers.
    pub fn refine(&mut self, progress: &dyn Progress) -> Stoppable<()> {
        self.refine_with(None, Scope::All, progress)
    }

    /// The same, with shadows that have `followed` the same entries elsewhere.
    pub(crate) fn refine_with(
        &mut self,
        followed: Option<&Hypotheses>,
        scope: Scope,
        progress: &dyn Progress,
    ) -> Stoppable<()> {
        if self.to_refine == 0 {
            return Ok(Some(()));
        }
        let rounds = self.to_refine.max(self.care.rounds);
        while self.to_refine > 0 {
            let log_total = log_total(&self.lines);
            let mut wanted: Vec<Wanted> = self
                .lines
                .iter()
                .enumerate()
                .filter(|(_, line)| scope == Scope::All || line.stand.causes.len() < 2)
                .flat_map(|(index, line)| line.wanted(index, log_total, &self.care))
                .collect();
            wanted.sort_by(|a, b| b.worth.total_cmp(&a.worth));
            wanted.truncate(self.care.halved_at_once);
            let begun = (rounds - self.to_refine) as f64;
            let round = Portion::of(progress, begun / rounds as f64, (begun + 1.0) / rounds as f64);
            let Some(shadows) = self.shadows_for(&wanted, followed, &round)? else { return Ok(None) };
            self.to_refine = if wanted.is_empty() { 0 } else { self.to_refine - 1 };
            for (wanted, shadows) in wanted.into_iter().zip(shadows) {
                let line = &mut self.lines[wanted.line];
                for shadow in shadows {
                    match line.shadow_at(&shadow.amounts) {
                        Some(index) => line.shadows[index] = shadow,
                        None => line.shadows.push(shadow),
                    }
                }
                line.halve(&wanted, &self.entries, self.arrival_s);
            }
        }
        self.let_rest();
        let after = self.weights();
        let earlier =
            self.weighed.len().checked_sub(2).map_or(&self.before, |index| &self.weighed[index].after);
        let gained_bits = gain_bits(earlier, &after);
        if let Some(last) = self.weighed.last_mut() {
            last.after = after;
            last.gained_bits = gained_bits;
        }
        Ok(Some(()))
    }

    /// The shadows between the halves of each cell, caught up with all entries.
    fn shadows_for(
        &self,
        wanted: &[Wanted],
        followed: Option<&Hypotheses>,
        progress: &dyn Progress,
    ) -> Stoppable<Vec<Vec<Member>>> {
        let mut drafts: Vec<Draft> = wanted
            .iter()
            .flat_map(|one| {
                one.amounts.iter().map(|amounts| {
                    // One that stands there already may have rested.
                    let stands = |of: &Hypotheses| {
                        let line = &of.lines[one.line];
                        line.shadow_at(amounts).map(|index| line.shadows[index].clone())
                    };
                    let shadow = stands(self).or_else(|| followed.and_then(stands));
                    Draft::Suspected { line: one.line, amounts: amounts.clone(), shadow }
                })
            })
            .collect();
        let worked = parallel::for_each(&mut drafts, parallel::cores(), progress, |draft| {
            let Draft::Suspected { line, amounts, shadow } = draft else { return Ok(()) };
            let mut one = match shadow.take() {
                Some(shadow) => shadow,
                None => self.stock.at(*line, amounts, || {
                    let stand = &self.lines[*line].stand;
                    Member::arrive(&self.call, stand, amounts.clone(), self.onset_s, self.care.pace)
                })?,
            };
            for booked in &self.entries {
                one.finish(&booked.entry, self.arrival_s)?;
            }
            one.follows = true;
            *shadow = Some(one);
            Ok(())
        })?;
        if worked == Worked::Stopped {
            return Ok(None);
        }
        let mut made = drafts.into_iter().filter_map(|draft| match draft {
            Draft::Suspected { shadow, .. } => shadow,
            Draft::Sound { .. } => None,
        });
        Ok(Some(wanted.iter().map(|one| made.by_ref().take(one.amounts.len()).collect()).collect()))
    }

    /// [`Hypotheses::weigh`] and [`Hypotheses::refine`] in one.
    ///
    /// # Errors
    /// If a shadow leaves the finite numbers.
    pub fn follow(&mut self, entry: &Entry, progress: &dyn Progress) -> Stoppable<()> {
        if self.weigh(entry, progress)?.is_none() {
            return Ok(None);
        }
        self.refine(progress)
    }

    fn followers(&mut self) -> Vec<&mut Member> {
        self.lines
            .iter_mut()
            .flat_map(|line| line.shadows.iter_mut())
            .filter(|shadow| shadow.follows)
            .chain(&mut self.surroundings.shadows)
            .collect()
    }

    fn most_likely(&self) -> f64 {
        self.lines.iter().map(Ensemble::most_likely).fold(f64::MIN, f64::max)
    }

    /// Probabilities by what the lines weigh.
    fn weights(&self) -> Vec<f64> {
        let most = self.most_likely();
        let mut weights = vec![0.0; self.names.len()];
        for line in &self.lines {
            for (member, weight) in line.members.iter().zip(line.weights(most)) {
                weights[member.index] = weight;
            }
        }
        let total: f64 = weights.iter().sum();
        weights.iter().map(|weight| weight / total).collect()
    }

    /// Probabilities now, in the order of [`Hypotheses::names`].
    pub fn probabilities(&self) -> Vec<f64> {
        self.weighed.last().map_or_else(|| self.before.clone(), |weighed| weighed.after.clone())
    }

    /// Every suspect, in a fixed order.
    pub fn names(&self) -> &[Hypothesis] {
        &self.names
    }

    /// Probabilities before the first entry.
    pub fn before(&self) -> &[f64] {
        &self.before
    }

    /// What each entry did, in order.
    pub fn weighed(&self) -> &[Update] {
        &self.weighed
    }

    /// Probabilities after an entry; those before the first for number 0.
    pub fn after(&self, entry: u32) -> &[f64] {
        self.weighed
            .iter()
            .rev()
            .find(|weighed| weighed.entry <= entry)
            .map_or(&self.before, |weighed| &weighed.after)
    }

    /// Every suspect with its probability now, the likeliest first.
    pub fn standing(&self) -> Vec<Posterior> {
        let probabilities = self.probabilities();
        let of_line = |line: &Ensemble| -> Vec<Posterior> {
            let chance = |(member, known): (usize, &Sharer)| Posterior {
                suspect: self.names[known.index].clone(),
                probability: probabilities[known.index],
                amounts: line.amounts(member),
            };
            line.members.iter().enumerate().map(chance).collect()
        };
        let mut chances: Vec<Posterior> = self.lines.iter().flat_map(of_line).collect();
        chances.sort_by(|a, b| b.probability.total_cmp(&a.probability));
        chances
    }

    /// Probability now that a kind of fault is there, alone or with another.
    pub fn chance_of(&self, kind: FaultKind) -> f64 {
        self.chance_where(&self.probabilities(), |suspect| suspect.includes(kind))
    }

    /// Probability after an entry that refrigerant is missing.
    pub fn low_charge_after(&self, entry: u32) -> f64 {
        self.chance_where(self.after(entry), Hypothesis::is_low_charge)
    }

    /// Sum of given probabilities over the suspects for which something holds.
    pub fn chance_where(&self, probabilities: &[f64], holds: impl Fn(&Hypothesis) -> bool) -> f64 {
        self.names
            .iter()
            .zip(probabilities)
            .filter(|(suspect, _)| holds(suspect))
            .map(|(_, probability)| probability)
            .sum()
    }

    /// Shadows that still follow, and all of them.
    pub fn following(&self) -> (usize, usize) {
        let all: Vec<&Member> = self.lines.iter().flat_map(|line| &line.shadows).collect();
        (all.iter().filter(|shadow| shadow.follows).count(), all.len())
    }

    /// Share of a suspect's probability that lies below an amount of one of its causes: the rank of the true amount, 0 to
    /// 1, if the suspect is true. `None` for a suspect that is not one of these, and for causes without degrees.
    pub fn rank(&self, suspect: &Hypothesis, cause: usize, amount: f64) -> Option<f64> {
        let index = self.names.iter().position(|name| name == suspect)?;
        let (line, member) = self
            .lines
            .iter()
            .find_map(|line| Some((line, line.members.iter().position(|known| known.index == index)?)))?;
        line.rank(member, cause, amount)
    }

    /// Plant time of the arrival, s.
    pub fn arrival_s(&self) -> f64 {
        self.arrival_s
    }

    /// Every shadow that still follows, with the probability that it stands for of each suspect, by the suspect's index.
    pub(crate) fn shadows(&self) -> Vec<(Vec<(usize, f64)>, &Member)> {
        let most = self.most_likely();
        let of_lines: Vec<Vec<Vec<f64>>> = self.lines.iter().map(|line| line.shadow_weights(most)).collect();
        let total: f64 = of_lines.iter().flatten().flatten().sum();
        let stands_for = |line: &Ensemble, weights: Vec<f64>| {
            let of = line.members.iter().zip(weights);
            of.map(|(member, weight)| (member.index, weight / total)).collect()
        };
        self.lines
            .iter()
            .zip(of_lines)
            .flat_map(|(line, of_shadows)| {
                let pairs = line.shadows.iter().zip(of_shadows);
                pairs
                    .filter(|(shadow, _)| shadow.follows)
                    .map(move |(shadow, weights)| (stands_for(line, weights), shadow))
            })
            .collect()
    }
}

/// Log of what all suspects weigh together.
pub(crate) fn log_total(lines: &[Ensemble]) -> f64 {
    let most = lines.iter().map(Ensemble::most_likely).fold(f64::MIN, f64::max);
    most + libm::log(lines.iter().flat_map(|line| line.weights(most)).sum::<f64>().max(f64::MIN_POSITIVE))
}

/// When it began, as far as a call tells: the middle of the range that its file states, whatever the seed made of it and
/// of whatever kind the fault is; of several faults the first that sets in.
pub(crate) fn onset_told_s(call: &Call) -> f64 {
    let middles = call.faults.iter().map(|fault| 0.5 * (fault.onset_s.low + fault.onset_s.high));
    middles.reduce(f64::min).unwrap_or(0.0)
}

/// Relative entropy of two distributions over the same suspects, bit.
fn gain_bits(before: &[f64], after: &[f64]) -> f64 {
    before
        .iter()
        .zip(after)
        .filter(|(_, after)| **after > 0.0)
        .map(|(before, after)| after * libm::log2(after / before.max(1.0e-300)))
        .sum::<f64>()
        .max(0.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use call::Range;

    /// The seed's draw is the truth; nobody told it.
    #[test]
    fn the_onset_is_what_the_call_tells_and_not_what_the_seed_drew() {
        let (id, text) = call::built_in()[0];
        let mut call = call::read(text, id).expect("a built-in call is valid");
        call.history_s = 60.0;
        call.faults[0].kind = FaultKind::LoadedFilter;
        call.faults[0].places.clear();
        call.faults[0].onset_s = Range { low: 0.0, high: 40.0 };
        let drawn = |seed| call::seed(&call, seed).faults[0].onset_s;
        assert!((drawn(1) - drawn(2)).abs() > 1.0, "{} and {}", drawn(1), drawn(2));
        let suspects = Hypotheses::arrive(&call, &Prior::Usual, &Unwatched);
        assert_eq!(suspects.expect("finite").expect("nobody stops it").onset_s, 20.0);
        call.faults[0].onset_s = Range { low: 30.0, high: 30.0 };
        assert_eq!(onset_told_s(&call), 30.0, "a point stays");
        call.faults.push(call.faults[0].clone());
        call.faults[1].onset_s = Range { low: 0.0, high: 10.0 };
        assert_eq!(onset_told_s(&call), 5.0, "of two faults, the first");
        call.faults.iter_mut().for_each(|fault| fault.kind = FaultKind::Undercharged);
        assert_eq!(onset_told_s(&call), 5.0, "the kind is not told");
    }
}
