//! All suspects of a visit and what the readings make of them.

use call::Call;
use plant::{FaultKind, StepError};
use visit::{Entry, Move, Outcome, Trust, Visit};

use crate::crew::{KeepGoing, Worked, each};
use crate::family::{Family, first_amounts, seen_before};
use crate::prior::Prior;
use crate::shadow::Shadow;
use crate::suspect::{Suspect, suspects_of};
use crate::weigh::is_evidence;

/// Probability of a point of a scale below which its shadow rests.
const LEAST: f64 = 1.0e-10;
/// Probability from which a suspect's severity is refined.
const WORTH_REFINING: f64 = 0.02;
/// Part that weighing has in the work on an entry as it is told to who waits; the rest is refining.
const WEIGHING_PART: f64 = 0.7;
/// Shadows that are put in after one entry at most.
const REFINED_AT_ONCE: usize = 2;

/// One suspect and how likely it is.
#[derive(Clone, Debug, PartialEq)]
pub struct Chance {
    /// The suspect.
    pub suspect: Suspect,
    /// Its probability; all of them add up to one.
    pub probability: f64,
    /// Mean and standard deviation of the amount of each of its causes, if it is true: the severity, and for a leak
    /// the share of the data plate's charge that is gone.
    pub amounts: Vec<(f64, f64)>,
}

/// What one notebook entry did to the suspects.
#[derive(Clone, Debug, PartialEq)]
pub struct Weighed {
    /// Number of the entry.
    pub entry: u32,
    /// Probabilities after it, in the order of [`Suspects::names`].
    pub after: Vec<f64>,
    /// Information gained, bit (Kullback and Leibler 1951: from the probabilities before to those after).
    pub gained_bits: f64,
    /// Why a reading could not be trusted.
    pub doubt: Option<Trust>,
}

/// The suspects of a visit, their shadows, and the probabilities after each entry.
#[derive(Clone, Debug)]
pub struct Suspects {
    call: Call,
    seed: u64,
    onset_s: f64,
    arrival_s: f64,
    names: Vec<Suspect>,
    before: Vec<f64>,
    families: Vec<Family>,
    /// Every entry so far, with the log-likelihood that it has for shadows that say nothing about it.
    entries: Vec<(Entry, f64)>,
    weighed: Vec<Weighed>,
    /// Whether the last entry has been weighed and its severities not refined yet.
    to_refine: bool,
}

/// A shadow that is to arrive.
struct Draft {
    family: usize,
    amounts: Vec<f64>,
    shadow: Option<Shadow>,
}

/// What came of work that can be stopped.
pub type Stoppable<T> = Result<Option<T>, StepError>;

impl Suspects {
    /// The suspects of a call on arrival: every shadow lives through the call's history. `None` if it was stopped.
    ///
    /// When it began is what the customer can tell: the shadows' faults set in when the call says, see [`onset_told_s`].
    ///
    /// # Errors
    /// If a shadow leaves the finite numbers.
    pub fn arrive(call: &Call, seed: u64, prior: &Prior, keep_going: &KeepGoing<'_>) -> Stoppable<Suspects> {
        let onset_s = onset_told_s(call);
        let names = suspects_of(call);
        let before = prior.of(&names);
        let mut drafts: Vec<Draft> = names
            .iter()
            .enumerate()
            .flat_map(|(family, suspect)| {
                first_amounts(suspect).into_iter().map(move |amounts| Draft { family, amounts, shadow: None })
            })
            .collect();
        let worked = each(&mut drafts, keep_going, |draft| {
            let suspect = &names[draft.family];
            draft.shadow = Some(Shadow::arrive(call, seed, suspect, draft.amounts.clone(), onset_s)?);
            Ok(())
        })?;
        if worked == Worked::Stopped {
            return Ok(None);
        }
        let mut of_families: Vec<Vec<Shadow>> = vec![Vec::new(); names.len()];
        for draft in drafts {
            of_families[draft.family].extend(draft.shadow);
        }
        let families = names
            .iter()
            .zip(&before)
            .zip(of_families)
            .map(|((suspect, prior), shadows)| Family::new(suspect.clone(), *prior, shadows))
            .collect();
        Ok(Some(Suspects {
            call: call.clone(),
            seed,
            onset_s,
            arrival_s: call.history_s,
            names,
            before,
            families,
            entries: Vec::new(),
            weighed: Vec::new(),
            to_refine: false,
        }))
    }

    /// The suspects of a visit after the entries up to a number, by working it again on all shadows. `None` if it
    /// was stopped.
    ///
    /// # Errors
    /// If a shadow leaves the finite numbers.
    pub fn of(visit: &Visit, prior: &Prior, last: u32, keep_going: &KeepGoing<'_>) -> Stoppable<Suspects> {
        let Some(mut suspects) =
            Suspects::arrive(visit.call(), visit.seed(), prior, &|share| keep_going(0.5 * share))?
        else {
            return Ok(None);
        };
        let caught_up = suspects.catch_up(visit, last, &|share| keep_going(0.5 + 0.5 * share))?;
        Ok(caught_up.map(|()| suspects))
    }

    /// Follows the entries of a visit that have not been weighed yet, up to a number. `None` if it was stopped; going
    /// on later gives the same.
    ///
    /// # Errors
    /// If a shadow leaves the finite numbers.
    pub fn catch_up(&mut self, visit: &Visit, last: u32, keep_going: &KeepGoing<'_>) -> Stoppable<()> {
        // Stopped between the two halves of the work on an entry, the second is still to be done.
        if self.to_refine && self.refine(&|_| keep_going(0.0))?.is_none() {
            return Ok(None);
        }
        let done = self.entries.last().map_or(0, |(entry, _)| entry.number);
        let left: Vec<&Entry> =
            visit.notebook().iter().filter(|entry| entry.number > done && entry.number <= last).collect();
        let count = left.len().max(1) as f64;
        for (index, entry) in left.into_iter().enumerate() {
            let done = |part: f64| keep_going((index as f64 + part) / count);
            let weighed = self.weigh(entry, &|share| done(WEIGHING_PART * share))?;
            let refining = |share: f64| done(WEIGHING_PART + (1.0 - WEIGHING_PART) * share);
            if weighed.is_none() || self.refine(&refining)?.is_none() {
                return Ok(None);
            }
        }
        Ok(Some(()))
    }

    /// Lets the shadows go on to a plant time of the real visit, at which `running` is being made since `began_s`, if
    /// anything is. Work ahead of [`Suspects::weigh`], which needs less then. `None` if it was stopped; going on
    /// later gives the same.
    ///
    /// # Errors
    /// If a shadow leaves the finite numbers.
    pub fn go_on(
        &mut self,
        running: Option<(&Move, f64)>,
        to_s: f64,
        keep_going: &KeepGoing<'_>,
    ) -> Stoppable<()> {
        let worked = each(&mut self.followers(), keep_going, |shadow| shadow.go_on(running, to_s))?;
        Ok((worked == Worked::Done).then_some(()))
    }

    /// The shadows finish the move of an entry, and the entry is weighed. `None` if it was stopped; weighing the same
    /// entry again goes on.
    ///
    /// # Errors
    /// If a shadow leaves the finite numbers.
    pub fn weigh(&mut self, entry: &Entry, keep_going: &KeepGoing<'_>) -> Stoppable<()> {
        let number = entry.number;
        let worked = each(&mut self.followers(), keep_going, |shadow| {
            // A stopped round left some shadows done with it.
            if shadow.gave(number).is_some() { Ok(()) } else { shadow.finish(entry) }
        })?;
        if worked == Worked::Stopped {
            return Ok(None);
        }
        let mut neutral = 0.0;
        if is_evidence(&entry.outcome) {
            let before = seen_before(&self.entries, entry);
            for family in &mut self.families {
                family.weigh(entry, before);
            }
            // Shadows that say nothing about it are to stay as likely as they are among the others: for them it counts
            // as likely as it is on the whole for those that do.
            let most = self.families.iter().filter_map(Family::most_likely).fold(f64::MIN, f64::max);
            let (sum, product) = self
                .families
                .iter()
                .map(|family| family.told(most))
                .fold((0.0, 0.0), |(sum, product), (more, told)| (sum + more, product + told));
            if sum > 0.0 {
                neutral = libm::log((product / sum).max(f64::MIN_POSITIVE));
            }
            for family in &mut self.families {
                family.book(neutral);
            }
        }
        self.entries.push((entry.clone(), neutral));
        self.to_refine = is_evidence(&entry.outcome);
        let earlier = self.probabilities();
        let after = self.weights();
        let doubt = match &entry.outcome {
            Outcome::Read(reading) if reading.trust != Trust::Sound => Some(reading.trust),
            _ => None,
        };
        self.weighed.push(Weighed { entry: number, gained_bits: gain_bits(&earlier, &after), after, doubt });
        Ok(Some(()))
    }

    /// Puts shadows in where the likeliest severities are not simulated, and lets those rest that are out of the
    /// question. Belongs after each [`Suspects::weigh`], before the next; a second time it does nothing. `None` if it was stopped: nothing has
    /// changed then.
    ///
    /// # Errors
    /// If a shadow leaves the finite numbers.
    pub fn refine(&mut self, keep_going: &KeepGoing<'_>) -> Stoppable<()> {
        if !self.to_refine {
            return Ok(Some(()));
        }
        let probabilities = self.probabilities();
        let mut wanted: Vec<(f64, Draft)> = self
            .families
            .iter()
            .enumerate()
            .filter(|(family, _)| probabilities[*family] >= WORTH_REFINING)
            .filter_map(|(family, members)| {
                let amounts = members.wanted()?;
                Some((probabilities[family], Draft { family, amounts, shadow: None }))
            })
            .collect();
        wanted.sort_by(|(a, _), (b, _)| b.total_cmp(a));
        let mut drafts: Vec<Draft> =
            wanted.into_iter().take(REFINED_AT_ONCE).map(|(_, draft)| draft).collect();
        let worked = each(&mut drafts, keep_going, |draft| {
            let suspect = &self.names[draft.family];
            let mut shadow =
                Shadow::arrive(&self.call, self.seed, suspect, draft.amounts.clone(), self.onset_s)?;
            for (entry, _) in &self.entries {
                shadow.finish(entry)?;
            }
            draft.shadow = Some(shadow);
            Ok(())
        })?;
        if worked == Worked::Stopped {
            return Ok(None);
        }
        for draft in drafts {
            if let Some(shadow) = draft.shadow {
                self.families[draft.family].admit(shadow, &self.entries);
            }
        }
        self.to_refine = false;
        let after = self.weights();
        for (family, probability) in self.families.iter_mut().zip(&after) {
            family.rest(*probability, LEAST);
        }
        let earlier =
            self.weighed.len().checked_sub(2).map_or(&self.before, |index| &self.weighed[index].after);
        let gained_bits = gain_bits(earlier, &after);
        if let Some(last) = self.weighed.last_mut() {
            last.after = after;
            last.gained_bits = gained_bits;
        }
        Ok(Some(()))
    }

    /// [`Suspects::weigh`] and [`Suspects::refine`] in one.
    ///
    /// # Errors
    /// If a shadow leaves the finite numbers.
    pub fn follow(&mut self, entry: &Entry, keep_going: &KeepGoing<'_>) -> Stoppable<()> {
        if self.weigh(entry, keep_going)?.is_none() {
            return Ok(None);
        }
        self.refine(keep_going)
    }

    fn followers(&mut self) -> Vec<&mut Shadow> {
        self.families
            .iter_mut()
            .flat_map(|family| family.shadows.iter_mut())
            .filter(|shadow| shadow.follows)
            .collect()
    }

    /// Probabilities by the weights of the families.
    fn weights(&self) -> Vec<f64> {
        let logs: Vec<Option<f64>> = self.families.iter().map(Family::log_weight).collect();
        let most = logs.iter().flatten().copied().fold(f64::MIN, f64::max);
        let weights: Vec<f64> = logs.iter().map(|log| log.map_or(0.0, |log| libm::exp(log - most))).collect();
        let total: f64 = weights.iter().sum();
        weights.iter().map(|weight| weight / total).collect()
    }

    /// Probabilities now, in the order of [`Suspects::names`].
    pub fn probabilities(&self) -> Vec<f64> {
        self.weighed.last().map_or_else(|| self.before.clone(), |weighed| weighed.after.clone())
    }

    /// Every suspect, in a fixed order.
    pub fn names(&self) -> &[Suspect] {
        &self.names
    }

    /// Probabilities before the first entry.
    pub fn before(&self) -> &[f64] {
        &self.before
    }

    /// What each entry did, in order.
    pub fn weighed(&self) -> &[Weighed] {
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
    pub fn standing(&self) -> Vec<Chance> {
        let mut chances: Vec<Chance> = self
            .families
            .iter()
            .zip(self.probabilities())
            .map(|(family, probability)| Chance {
                suspect: family.suspect.clone(),
                probability,
                amounts: family.amounts(),
            })
            .collect();
        chances.sort_by(|a, b| b.probability.total_cmp(&a.probability));
        chances
    }

    /// Probability now that a kind of fault is there, alone or with another.
    pub fn chance_of(&self, kind: FaultKind) -> f64 {
        self.chance_where(&self.probabilities(), |suspect| suspect.includes(kind))
    }

    /// Probability after an entry that refrigerant is missing.
    pub fn low_charge_after(&self, entry: u32) -> f64 {
        self.chance_where(self.after(entry), Suspect::is_low_charge)
    }

    /// Sum of given probabilities over the suspects for which something holds.
    pub fn chance_where(&self, probabilities: &[f64], holds: impl Fn(&Suspect) -> bool) -> f64 {
        self.names
            .iter()
            .zip(probabilities)
            .filter(|(suspect, _)| holds(suspect))
            .map(|(_, probability)| probability)
            .sum()
    }

    /// Shadows that still follow, and all of them.
    pub fn following(&self) -> (usize, usize) {
        let all: Vec<&Shadow> = self.families.iter().flat_map(|family| &family.shadows).collect();
        (all.iter().filter(|shadow| shadow.follows).count(), all.len())
    }

    /// Plant time of the arrival, s.
    pub fn arrival_s(&self) -> f64 {
        self.arrival_s
    }

    /// Every shadow that still follows, with the suspect's index and the probability that it stands for.
    pub(crate) fn shadows(&self) -> Vec<(usize, f64, &Shadow)> {
        let probabilities = self.probabilities();
        self.families
            .iter()
            .zip(probabilities)
            .enumerate()
            .flat_map(|(index, (family, probability))| {
                family
                    .shadows
                    .iter()
                    .zip(family.shadow_shares())
                    .filter(|(shadow, _)| shadow.follows)
                    .map(move |(shadow, share)| (index, probability * share, shadow))
            })
            .collect()
    }
}

/// When it began, as far as a call tells: the middle of the range that its file states, whatever the seed made of it;
/// of several faults the first that sets in. What is wrong with the charge holds from the start.
fn onset_told_s(call: &Call) -> f64 {
    let middles = call
        .faults
        .iter()
        .filter(|fault| !fault.kind.holds_from_the_start())
        .map(|fault| 0.5 * (fault.onset_s.low + fault.onset_s.high));
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
        for seed in [1, 2] {
            let suspects = Suspects::arrive(&call, seed, &Prior::Usual, &|_| true);
            assert_eq!(suspects.expect("finite").expect("nobody stops it").onset_s, 20.0);
        }
        call.faults[0].onset_s = Range { low: 30.0, high: 30.0 };
        assert_eq!(onset_told_s(&call), 30.0, "a point stays");
        call.faults.push(call.faults[0].clone());
        call.faults[1].onset_s = Range { low: 0.0, high: 10.0 };
        assert_eq!(onset_told_s(&call), 5.0, "of two faults, the first");
        call.faults.iter_mut().for_each(|fault| fault.kind = FaultKind::Undercharged);
        assert_eq!(onset_told_s(&call), 0.0);
    }
}
