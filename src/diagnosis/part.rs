//! Parts: what one repair takes away counts as one, however many causes it may have been.
//!
//! A technician need not know which winding is open to order the motor. So the next best test asks for the part, and a visit
//! goes on for as long as a wrong part would cost more than another test.

use plant::{FaultKind, LeakPlace, Work};
use visit::{Mass, Move, minutes, price};

use crate::hypotheses::Hypotheses;
use crate::hypothesis::{Cause, Hypothesis};

/// Minutes that a unit of money is worth: a technician's hour over a service call's price (engineering value).
pub(crate) const MINUTES_PER_MONEY: f64 = 0.5;

/// What takes a cause away.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Remedy {
    /// A piece of work on a part, or a leak closed at its place.
    Work(Work),
    /// The charge recovered and the plate's charge weighed in.
    Charge,
}

/// What takes a suspect away: a remedy, for a pair two unless one does for both, none where nothing is wrong.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Part {
    /// The remedies, in a fixed order.
    pub remedies: Vec<Remedy>,
}

impl Remedy {
    /// The quickest one of a cause.
    pub fn of(cause: Cause) -> Remedy {
        work_for(cause.kind, cause.place).map_or(Remedy::Charge, Remedy::Work)
    }

    /// The move; `None` for the charge, which takes several.
    pub fn action(self) -> Option<Move> {
        match self {
            Remedy::Work(work) => Some(action_of(work)),
            Remedy::Charge => None,
        }
    }

    fn rank(self) -> (usize, usize) {
        match self {
            Remedy::Work(Work::RepairLeak(place)) => {
                (1, LeakPlace::ALL.iter().position(|one| *one == place).unwrap_or(LeakPlace::ALL.len()))
            }
            Remedy::Work(work) => {
                (0, Work::PARTS.iter().position(|one| *one == work).unwrap_or(Work::PARTS.len()))
            }
            Remedy::Charge => (2, 0),
        }
    }
}

/// The quickest work that takes a kind of fault away; `None` for faults of the charge.
pub(crate) fn work_for(kind: FaultKind, place: Option<LeakPlace>) -> Option<Work> {
    if let Some(place) = place {
        return Some(Work::RepairLeak(place));
    }
    let works = kind.row().repaired_by.iter().copied();
    works.min_by(|a, b| minutes(&action_of(*a)).total_cmp(&minutes(&action_of(*b))))
}

/// The move that does a piece of work.
pub(crate) fn action_of(work: Work) -> Move {
    match work {
        Work::ReplaceFilter => Move::ReplaceFilter,
        Work::StrapAndInsulateBulb => Move::InsulateBulb,
        Work::ReplaceMeteringDevice => Move::ReplaceMeteringDevice,
        Work::RepairLeak(place) => Move::RepairLeak(place),
        other => Move::Repair(other),
    }
}

impl Part {
    /// That of a suspect.
    pub fn of(suspect: &Hypothesis) -> Part {
        let mut remedies: Vec<Remedy> = suspect.causes.iter().map(|cause| Remedy::of(*cause)).collect();
        remedies.sort_by_key(|remedy| remedy.rank());
        remedies.dedup();
        Part { remedies }
    }

    /// What the repair takes if it was the wrong one, with its price counted as minutes, min: the work, where the circuit is opened the
    /// recovery, the vacuum and the charge, and the proof that shows nothing is better. `None` where nothing would be
    /// repaired.
    pub(crate) fn wrong_min(&self, plate_charge_kg: f64) -> Option<f64> {
        if self.remedies.is_empty() {
            return None;
        }
        let mut moves: Vec<Move> = self.remedies.iter().filter_map(|remedy| remedy.action()).collect();
        if moves.len() < self.remedies.len() || moves.iter().any(Move::opens_circuit) {
            moves.extend([Move::Recover, Move::Evacuate, Move::WeighIn(Mass::Kilograms(plate_charge_kg))]);
        }
        moves.push(Move::Verify);
        Some(moves.iter().map(|action| minutes(action) + MINUTES_PER_MONEY * price(action)).sum())
    }
}

impl Hypotheses {
    /// The part of each suspect, in the order of [`Hypotheses::names`].
    pub fn parts(&self) -> Vec<Part> {
        self.names().iter().map(Part::of).collect()
    }

    /// Probability now of all suspects that a part takes away, and nothing less than it.
    pub fn chance_of_part(&self, part: &Part) -> f64 {
        self.chance_where(&self.probabilities(), |suspect| Part::of(suspect) == *part)
    }

    /// The likeliest part and its probability.
    pub fn likeliest_part(&self) -> (Part, f64) {
        let nothing = Part { remedies: Vec::new() };
        // Of equals the first.
        self.part_chances()
            .into_iter()
            .fold((nothing, 0.0), |best, one| if one.1 > best.1 { one } else { best })
    }

    /// What is open: entropy over the parts, bit.
    pub fn open_bits(&self) -> f64 {
        let chances = self.part_chances();
        let open = chances.iter().filter(|(_, chance)| *chance > 1.0e-12);
        open.map(|(_, chance)| -chance * libm::log2(*chance)).sum()
    }

    /// Every part with its probability.
    fn part_chances(&self) -> Vec<(Part, f64)> {
        let mut chances: Vec<(Part, f64)> = Vec::new();
        for (part, probability) in self.parts().into_iter().zip(self.probabilities()) {
            match chances.iter_mut().find(|(known, _)| *known == part) {
                Some((_, chance)) => *chance += probability,
                None => chances.push((part, probability)),
            }
        }
        chances
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn part(kinds: &[FaultKind]) -> Part {
        let causes = kinds.iter().map(|kind| Cause { kind: *kind, place: None }).collect();
        Part::of(&Hypothesis { causes })
    }

    #[test]
    fn what_one_repair_takes_away_is_one_part() {
        use FaultKind::*;
        for (one, other) in [
            (OpenBlowerRelay, DeadBoard),
            (SeizedBlowerMotor, OpenBlowerWinding),
            (BulbLoose, UninsulatedBulb),
            (MeteringRestricted, BulbChargeLost),
            (ThermostatNoG, ThermostatNoY),
            (Undercharged, NonCondensables),
        ] {
            assert_eq!(part(&[one]), part(&[other]), "{one:?} and {other:?}");
        }
        // A new motor would do for a dead module as well, but the module alone is less work; a bulb is not strapped by a new valve.
        for (one, other) in [
            (DeadBlowerModule, OpenBlowerWinding),
            (BulbLoose, BulbChargeLost),
            (PluggedDrier, MeteringRestricted),
            (NoBlowerCommand, DeadBoard),
            (LoadedFilter, FouledEvaporator),
        ] {
            assert_ne!(part(&[one]), part(&[other]), "{one:?} and {other:?}");
        }
        let leak = |place| Part::of(&Hypothesis::single(RefrigerantLeak, Some(place)));
        assert_ne!(leak(LeakPlace::IndoorCoil), leak(LeakPlace::LiquidLine));
        assert_ne!(leak(LeakPlace::IndoorCoil), part(&[Undercharged]));
        // A pair has both, in whatever order; two causes of one part are that part.
        assert_eq!(part(&[LoadedFilter, PluggedDrier]), part(&[PluggedDrier, LoadedFilter]));
        assert_ne!(part(&[LoadedFilter, PluggedDrier]), part(&[LoadedFilter]));
        assert_eq!(part(&[BulbLoose, UninsulatedBulb]), part(&[BulbLoose]));
        assert!(part(&[]).remedies.is_empty());
    }

    /// By the price list: a fuse is cheap to be wrong about, a compressor dear, and nothing at all is no repair.
    #[test]
    fn a_wrong_part_costs_what_its_work_and_its_price_say() {
        let wrong = |kind| part(&[kind]).wrong_min(3.0).expect("a repair");
        let proof = minutes(&Move::Verify);
        assert_eq!(wrong(FaultKind::BlownControlFuse), 5.0 + 3.0 * MINUTES_PER_MONEY + proof);
        assert!(wrong(FaultKind::CompressorInternalLeak) > 240.0 + 1150.0 * MINUTES_PER_MONEY + proof);
        // The circuit is opened for neither, but the charge is weighed in for one.
        assert!(wrong(FaultKind::Undercharged) > 60.0 + 3.0 * 45.0 * MINUTES_PER_MONEY);
        assert_eq!(part(&[]).wrong_min(3.0), None);
    }
}
