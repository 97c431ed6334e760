//! How likely it is to see what was seen, if a suspect is true.
//!
//! What was seen is compared with what the suspect's shadows showed, subject by subject: ice, filter, air, wheel, compressor,
//! fan, bulb, parts, stains, leaks that a search finds.

use plant::{FaultKind, LeakPlace};
use visit::{Entry, Hides, LeakMethod, Move, Observation, Outcome, Place};

use crate::hypothesis::Hypothesis;
use crate::phase::{Against, Fit};

/// Posterior of seeing something other than what is there (engineering values): of something plain; of a state that
/// comes and goes with the cycle of the plant; of neighbouring degrees of the same thing; of degrees far apart.
const SLIP: f64 = 0.002;
const SLIP_PASSING: f64 = 0.05;
const SLIP_NEXT: f64 = 0.12;
/// The same of a filter that is held in the hands against the light.
const SLIP_FILTER: f64 = 0.03;
const SLIP_FAR: f64 = 0.01;
/// An oil stain is seen at a leak, and where there is none.
pub(crate) const STAIN_AT_LEAK: f64 = 0.55;
const STAIN_ELSEWHERE: f64 = 0.004;
/// A search finds a leak that is there, by method, and one that is not.
pub(crate) const DETECTOR_FINDS: f64 = 0.97;
const BUBBLES_FIND: f64 = 0.6;
const FOUND_ELSEWHERE: f64 = 0.003;

/// Likelihood of what was seen, if a shadow gave `there` for the same look and is to be held against it so; `before` has both of
/// them as they were when the look was made the last time. What is seen once more where a shadow shows once more what it
/// showed is the same sight, slip and all: it tells nothing new.
pub(crate) fn of_sight(
    taken: &Entry,
    there: &Entry,
    fit: &Fit,
    before: Option<[&Entry; 2]>,
    suspect: &Hypothesis,
) -> f64 {
    let seen = seen_by(taken);
    let translated;
    let gave = match &there.outcome {
        Outcome::Seen(gave) => {
            translated = as_shown_by(suspect, &taken.action, gave);
            translated.as_slice()
        }
        // The meter shows nothing here and a value there.
        Outcome::Read(_) => return if seen.iter().any(|one| is_blank(*one)) { SLIP } else { 1.0 },
        Outcome::Done if seen.iter().any(|one| is_blank(*one)) => return 1.0,
        Outcome::Done | Outcome::Refused(_) | Outcome::Verified(_) => &[],
    };
    let is_news = |one: Observation| {
        before.is_none_or(|[here, there]| {
            about(one, seen_by(here)) != about(one, seen) || about(one, seen_by(there)) != about(one, gave)
        })
    };
    let other_phase = fit.against == Against::OtherPhase;
    let counts = |one: &Observation| is_news(*one) && !(other_phase && passes(*one));
    let mut likelihood = if other_phase { never(seen, fit) } else { 1.0 };
    for one in seen.iter().filter(|one| counts(one)) {
        likelihood *= match subject(*one) {
            Subject::Stain => stain(&taken.action, *one, suspect),
            Subject::Search(place) => search(&taken.action, *one, place, gave, suspect),
            Subject::Finding { slip } if gave.contains(one) => 1.0 - slip,
            Subject::Finding { slip } => slip,
            Subject::State(state) => {
                match gave.iter().find_map(|other| match subject(*other) {
                    Subject::State(other) if other.of == state.of => Some(other),
                    _ => None,
                }) {
                    Some(other) => state.chance_if(other),
                    None => 1.0,
                }
            }
        };
    }
    for other in gave.iter().filter(|other| !seen.contains(other) && counts(other)) {
        if let Subject::Finding { slip } = subject(*other) {
            likelihood *= slip;
        }
    }
    likelihood
}

/// Whether a state comes and goes with the phases of a cycle.
fn passes(one: Observation) -> bool {
    match subject(one) {
        Subject::State(state) => {
            matches!(state.of, Thing::Blower | Thing::Air | Thing::Compressor | Thing::OutdoorFan)
        }
        Subject::Finding { slip } => slip == SLIP_PASSING,
        Subject::Stain | Subject::Search(_) => false,
    }
}

/// Posterior of seeing a fan turn that has not turned in any phase lately.
fn never(seen: &[Observation], fit: &Fit) -> f64 {
    let turns = |one: &Observation| match one {
        Observation::OutdoorFanRunning | Observation::OutdoorFanSlow => !fit.outdoor_fan_turned,
        Observation::BlowerTurning | Observation::BlowerSlow => !fit.blower_turned,
        _ => false,
    };
    if seen.iter().any(turns) { SLIP_PASSING } else { 1.0 }
}

/// What a suspect would show where the shadow that stands behind it, see [`Hypothesis::stands_behind`], showed something: a part
/// that comes out says its own name.
pub(crate) fn as_shown_by(suspect: &Hypothesis, action: &Move, gave: &[Observation]) -> Vec<Observation> {
    let [cause] = suspect.causes[..] else { return gave.to_vec() };
    gave.iter()
        .map(|one| match (one, action) {
            (Observation::PartWasFaulty(kind), _)
                if cause.kind.row().special.same_readings_as == Some(*kind) =>
            {
                Observation::PartWasFaulty(cause.kind)
            }
            (Observation::PartWasSound, Move::RepairLeak(place)) if leaks_at(suspect, *place) => {
                Observation::PartWasFaulty(cause.kind)
            }
            _ => *one,
        })
        .collect()
}

fn seen_by(entry: &Entry) -> &[Observation] {
    match &entry.outcome {
        Outcome::Seen(seen) => seen,
        _ => &[],
    }
}

/// The part of a sight that is about the same thing as an observation.
fn about(one: Observation, seen: &[Observation]) -> Vec<Observation> {
    let same = |other: Observation| match (subject(one), subject(other)) {
        (Subject::State(one), Subject::State(other)) => one.of == other.of,
        (Subject::Stain, Subject::Stain) => true,
        (Subject::Search(one), Subject::Search(other)) => one == other,
        _ => one == other,
    };
    seen.iter().copied().filter(|other| same(*other)).collect()
}

/// The leak place that a look at a place shows.
pub(crate) fn looked_at(action: &Move) -> Option<LeakPlace> {
    match action {
        Move::Look(Place::IndoorCoil) => Some(LeakPlace::IndoorCoil),
        Move::Look(Place::LineSet) => Some(LeakPlace::LiquidLine),
        Move::Look(Place::OutdoorUnit) => Some(LeakPlace::SuctionServiceValve),
        _ => None,
    }
}

pub(crate) fn leaks_at(suspect: &Hypothesis, place: LeakPlace) -> bool {
    suspect.causes.iter().any(|cause| cause.place == Some(place))
}

/// How large the hole is decides whether there is a stain, and that is not known.
fn stain(action: &Move, seen: Observation, suspect: &Hypothesis) -> f64 {
    let place = match seen {
        Observation::OilStain(place) => Some(place),
        _ => looked_at(action),
    };
    let Some(place) = place else { return 1.0 };
    let stains = if leaks_at(suspect, place) { STAIN_AT_LEAK } else { STAIN_ELSEWHERE };
    if matches!(seen, Observation::OilStain(_)) { stains } else { 1.0 - stains }
}

fn search(
    action: &Move,
    seen: Observation,
    place: LeakPlace,
    gave: &[Observation],
    suspect: &Hypothesis,
) -> f64 {
    let finds = match action {
        _ if !leaks_at(suspect, place) => FOUND_ELSEWHERE,
        Move::SearchLeak(_, LeakMethod::Bubbles) => BUBBLES_FIND,
        // Where the shadow's detector finds nothing, pressure is too low for any.
        _ if gave.contains(&Observation::LeakFound(place)) => DETECTOR_FINDS,
        _ => FOUND_ELSEWHERE,
    };
    if matches!(seen, Observation::LeakFound(_)) { finds } else { 1.0 - finds }
}

fn is_blank(observation: Observation) -> bool {
    matches!(observation, Observation::NoContinuity(..) | Observation::NoCapacitance(..))
}

/// One state of something that is always in some state.
#[derive(Clone, Copy, Debug)]
struct State {
    of: Thing,
    /// Degree on a scale, for things that have one.
    degree: u8,
    slip: f64,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Thing {
    Ice,
    Filter,
    Blower,
    Wheel,
    Air,
    Compressor,
    OutdoorFan,
    BulbMounting,
    BulbAnswer,
    ChilledBulb,
    Part(Option<FaultKind>),
}

impl State {
    fn chance_if(self, there: State) -> f64 {
        let apart = self.degree.abs_diff(there.degree);
        let graded = matches!(self.of, Thing::Ice | Thing::Filter | Thing::Air);
        match (apart, graded) {
            (0, true) => 1.0 - self.slip,
            (1, true) => self.slip,
            (_, true) => SLIP_FAR,
            (0, false) => 1.0 - self.slip,
            (_, false) => self.slip,
        }
    }
}

/// What an observation is about.
#[derive(Clone, Copy, Debug)]
enum Subject {
    State(State),
    Stain,
    Search(LeakPlace),
    /// Something out of order that is only written down when it is there.
    Finding {
        slip: f64,
    },
}

fn subject(observation: Observation) -> Subject {
    let state = |of, degree, slip| Subject::State(State { of, degree, slip });
    match observation.hides() {
        Some(Hides::Never) => return Subject::Finding { slip: SLIP },
        Some(Hides::UnderIce) => return Subject::Finding { slip: SLIP_PASSING },
        None => {}
    }
    match observation {
        Observation::NoIce => state(Thing::Ice, 0, SLIP_NEXT),
        Observation::SomeIce => state(Thing::Ice, 1, SLIP_NEXT),
        Observation::BlockOfIce => state(Thing::Ice, 2, SLIP_NEXT),
        Observation::FilterClean => state(Thing::Filter, 0, SLIP_FILTER),
        Observation::FilterDirty => state(Thing::Filter, 1, SLIP_FILTER),
        Observation::FilterMatted => state(Thing::Filter, 2, SLIP_FILTER),
        Observation::FilterCollapsed => state(Thing::Filter, 3, SLIP_FILTER),
        // Nobody takes an empty slot for a filter of any kind.
        Observation::FilterMissing => state(Thing::Filter, 6, SLIP),
        Observation::BlowerTurning => state(Thing::Blower, 1, SLIP_PASSING),
        Observation::BlowerSlow => state(Thing::Blower, 2, SLIP_PASSING),
        Observation::BlowerStill => state(Thing::Blower, 0, SLIP_PASSING),
        Observation::AirStrong => state(Thing::Air, 2, SLIP_NEXT),
        Observation::AirWeak => state(Thing::Air, 1, SLIP_NEXT),
        Observation::AirNone => state(Thing::Air, 0, SLIP_NEXT),
        Observation::CompressorRunning => state(Thing::Compressor, 1, SLIP_PASSING),
        Observation::CompressorStill => state(Thing::Compressor, 0, SLIP_PASSING),
        Observation::OutdoorFanRunning => state(Thing::OutdoorFan, 1, SLIP_PASSING),
        Observation::OutdoorFanSlow => state(Thing::OutdoorFan, 2, SLIP_PASSING),
        Observation::OutdoorFanStill => state(Thing::OutdoorFan, 0, SLIP_PASSING),
        Observation::BulbInsulated => state(Thing::BulbMounting, 0, SLIP),
        Observation::BulbLoose => state(Thing::BulbMounting, 1, SLIP),
        Observation::BulbBare => state(Thing::BulbMounting, 2, SLIP),
        Observation::BulbAnswered => state(Thing::BulbAnswer, 1, SLIP_PASSING),
        Observation::BulbDidNotAnswer => state(Thing::BulbAnswer, 0, SLIP_PASSING),
        Observation::ChilledBulbClosedValve => state(Thing::ChilledBulb, 1, SLIP_PASSING),
        Observation::ChilledBulbDidNotCloseValve => state(Thing::ChilledBulb, 0, SLIP_PASSING),
        Observation::PartWasSound => state(Thing::Part(None), 0, SLIP),
        Observation::PartWasFaulty(_) => Subject::Finding { slip: SLIP },
        Observation::OilStain(_) | Observation::NoOilStain => Subject::Stain,
        Observation::LeakFound(place) | Observation::NoLeakFound(place) => Subject::Search(place),
        Observation::WheelTurnsFreely => state(Thing::Wheel, 1, SLIP),
        Observation::WheelStuck => state(Thing::Wheel, 0, SLIP),
        Observation::BlowerHumming | Observation::OutdoorFanHumming | Observation::CompressorHumming => {
            Subject::Finding { slip: SLIP_PASSING }
        }
        // What is only written down where it is there.
        _ => Subject::Finding { slip: SLIP },
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of_sight(taken: &Entry, there: &Entry, before: Option<[&Entry; 2]>, suspect: &Hypothesis) -> f64 {
        super::of_sight(taken, there, &fit(Against::Entry), before, suspect)
    }

    fn fit(against: Against) -> Fit {
        Fit {
            chances: [1.0; 3],
            against,
            outdoor_fan_turned: false,
            blower_turned: true,
            iced: false,
            stood: false,
            cycled: false,
            compressor_cycled: false,
        }
    }

    fn look(seen: &[Observation]) -> Entry {
        Entry {
            number: 1,
            action: Move::InspectFilter,
            started_s: 0.0,
            finished_s: 15.0,
            running: visit::Running::default(),
            outcome: Outcome::Seen(seen.to_vec()),
            notes: Vec::new(),
        }
    }

    #[test]
    fn sights_are_compared_subject_by_subject() {
        let filter = Hypothesis::single(FaultKind::LoadedFilter, None);
        let see =
            |taken: &[Observation], gave: &[Observation]| of_sight(&look(taken), &look(gave), None, &filter);
        let (clean, matted) = (Observation::FilterClean, Observation::FilterMatted);
        assert!(see(&[clean], &[clean]) > 5.0 * see(&[clean], &[matted]));
        assert!(see(&[Observation::FilterDirty], &[matted]) > see(&[clean], &[matted]));
        // A finding on one side only tells them apart, whichever side it is.
        let finding = Observation::RegistersClosed;
        assert_eq!(see(&[finding], &[]), SLIP);
        assert_eq!(see(&[], &[finding]), SLIP);
        // Another subject says nothing.
        assert_eq!(see(&[Observation::BlowerStill], &[clean]), 1.0);
    }

    #[test]
    fn a_search_finds_a_leak_where_it_is() {
        let there = Hypothesis::single(FaultKind::RefrigerantLeak, Some(LeakPlace::IndoorCoil));
        let elsewhere = Hypothesis::single(FaultKind::RefrigerantLeak, Some(LeakPlace::LiquidLine));
        let action = Move::SearchLeak(LeakPlace::IndoorCoil, LeakMethod::ElectronicDetector);
        let found = [Observation::LeakFound(LeakPlace::IndoorCoil)];
        let search = |seen: &[Observation]| Entry { action: action.clone(), ..look(seen) };
        let (found, none) = (search(&found), search(&[Observation::NoLeakFound(LeakPlace::IndoorCoil)]));
        assert!(of_sight(&found, &found, None, &there) > 0.9);
        assert!(of_sight(&found, &none, None, &elsewhere) < 0.01);
        assert!(of_sight(&found, &none, None, &there) < 0.01, "no pressure, nothing to find");
    }

    #[test]
    fn the_same_sight_again_tells_nothing_new() {
        let filter = Hypothesis::single(FaultKind::LoadedFilter, None);
        let (clean, dirty) = (look(&[Observation::FilterClean]), look(&[Observation::FilterDirty]));
        assert_eq!(of_sight(&clean, &dirty, None, &filter), SLIP_FILTER);
        assert_eq!(of_sight(&clean, &dirty, Some([&clean, &dirty]), &filter), 1.0);
        // What has changed here or there since is news.
        assert_eq!(of_sight(&clean, &dirty, Some([&dirty, &dirty]), &filter), SLIP_FILTER);
        assert_eq!(of_sight(&clean, &dirty, Some([&clean, &clean]), &filter), SLIP_FILTER);
        // A finding that is missed again is missed once; beside it something new counts.
        let kinked = look(&[Observation::LiquidLineKinked]);
        let nothing = look(&[]);
        assert_eq!(of_sight(&nothing, &kinked, Some([&nothing, &kinked]), &filter), 1.0);
        let both = look(&[Observation::FilterClean, Observation::BlowerTurning]);
        assert_eq!(of_sight(&both, &both, Some([&clean, &clean]), &filter), 1.0 - SLIP_PASSING);
    }

    /// In another phase of its cycle a shadow's dirt still counts, its fan that stands does not; a fan that has never turned does.
    #[test]
    fn what_no_phase_changes_always_counts() {
        let suspect = Hypothesis::single(FaultKind::FouledCondenser, None);
        let taken = look(&[Observation::OutdoorFanRunning, Observation::CompressorRunning]);
        let there = look(&[
            Observation::OutdoorFanStill,
            Observation::CompressorStill,
            Observation::OutdoorCoilDirty,
        ]);
        let other = |turned| Fit { outdoor_fan_turned: turned, ..fit(Against::OtherPhase) };
        let chance = |fit: &Fit| super::of_sight(&taken, &there, fit, None, &suspect);
        assert_eq!(chance(&other(true)), SLIP);
        assert_eq!(chance(&other(false)), SLIP * SLIP_PASSING);
    }

    /// One shadow stands behind the leaks and the installer's mistake; the part says which.
    #[test]
    fn a_part_says_its_own_name() {
        let leak = Hypothesis::single(FaultKind::RefrigerantLeak, Some(LeakPlace::LiquidLine));
        let under = Hypothesis::single(FaultKind::Undercharged, None);
        let repair =
            |seen: &[Observation]| Entry { action: Move::RepairLeak(LeakPlace::LiquidLine), ..look(seen) };
        let faulty = repair(&[Observation::PartWasFaulty(FaultKind::RefrigerantLeak)]);
        let sound = repair(&[Observation::PartWasSound]);
        assert!(of_sight(&faulty, &sound, None, &leak) > 0.9);
        assert!(of_sight(&faulty, &sound, None, &under) < 0.01);
        assert!(of_sight(&sound, &sound, None, &leak) < 0.01);
    }
}
