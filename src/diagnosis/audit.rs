//! The engine held against itself: what a shadow at the true severity is off by.

use plant::StepError;
use visit::{Measured, Outcome, Reading, ShadowPace, Signal, Trust, Visit};

use crate::charge::ChargeAxis;
use crate::discrepancy::discrepancy;
use crate::hypotheses::onset_told_s;
use crate::hypothesis::Hypothesis;
use crate::member::Member;
use crate::phase::hangs_on;
use crate::surroundings::{Elsewhere, Surroundings};
use crate::unknowns::Unknowns;
use crate::weigh::{Prediction, off};

/// What one reading is off the shadow at the true severity.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Residual {
    /// Number of the entry.
    pub entry: u32,
    /// What was read.
    pub quantity: Measured,
    /// How far it could be relied on.
    pub trust: Trust,
    /// Real value, in the quantity's SI unit.
    pub value: f64,
    /// Real value less the shadow's, in the quantity's SI unit.
    pub off: f64,
    /// The same in standard deviations as the engine has them, with all that the entries before have taught: 1 r.m.s. if
    /// it knows what it doesn't know.
    pub z: f64,
}

/// How the phase of a signal in which a visit was met stands to the shadow at the true severity.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PhaseMet {
    /// Number of the entry at which the run was met first.
    pub entry: u32,
    /// What starts and stops.
    pub signal: Signal,
    /// How likely it was to meet it so.
    pub chance: f64,
    /// Whether the shadow's thermostat called in turns lately.
    pub cycled: bool,
    /// Whether sound plants in other surroundings disagreed.
    pub disagreed: bool,
    /// Whether it was on.
    pub on: bool,
    /// For how long, as far as it was watched.
    pub for_s: f64,
}

/// The phases of a visit met, if its one suspect and amounts are the truth.
///
/// # Errors
/// If a shadow leaves the finite numbers.
pub fn phases(visit: &Visit, suspect: &Hypothesis, amounts: &[f64]) -> Result<Vec<PhaseMet>, StepError> {
    let (mut shadow, mut surroundings) = at_the_truth(visit, suspect, amounts)?;
    let mut began = [f64::NEG_INFINITY; 3];
    let mut all = Vec::new();
    for entry in visit.notebook() {
        for one in surroundings.shadows.iter_mut().chain([&mut shadow]) {
            one.finish(entry, visit.arrival_s())?;
        }
        if matches!(entry.outcome, Outcome::Done | Outcome::Refused(_) | Outcome::Verified(_)) {
            continue;
        }
        let Some(fit) = shadow.fit(entry.number) else { continue };
        for (index, signal) in Signal::ALL.into_iter().enumerate() {
            if !hangs_on(&entry.action).contains(&signal) {
                continue;
            }
            let (on, for_s) = signal.of(&entry.running);
            let began_s = (entry.finished_s - for_s).max(visit.arrival_s());
            if (began_s - began[index]).abs() <= 20.0 {
                continue;
            }
            began[index] = began_s;
            all.push(PhaseMet {
                entry: entry.number,
                signal,
                chance: fit.chances[index],
                cycled: fit.cycled,
                disagreed: surroundings.cycle(entry),
                on,
                for_s: entry.finished_s - began_s,
            });
        }
    }
    Ok(all)
}

/// Residuals of all readings of a visit, if its one suspect and amounts are the truth.
///
/// # Errors
/// If a shadow leaves the finite numbers.
pub fn residuals(visit: &Visit, suspect: &Hypothesis, amounts: &[f64]) -> Result<Vec<Residual>, StepError> {
    let (mut shadow, mut surroundings) = at_the_truth(visit, suspect, amounts)?;
    let mut charged = Charged::around(visit, suspect, amounts)?;
    let mut unknowns = Unknowns::default();
    let mut all = Vec::new();
    for entry in visit.notebook() {
        let around = charged.iter_mut().flat_map(|charged| &mut charged.shadows);
        for one in surroundings.shadows.iter_mut().chain([&mut shadow]).chain(around) {
            one.finish(entry, visit.arrival_s())?;
        }
        let Outcome::Read(taken) = &entry.outcome else { continue };
        let Some((gave, fit)) = shadow.gave(entry.number).zip(shadow.fit(entry.number)) else { continue };
        let of_sound = surroundings.sensitivity(entry);
        let moves = charged.as_ref().and_then(|charged| charged.moves(entry.number, taken));
        let sensitivity = moves.map_or(of_sound.clone(), |moves| of_sound.with_charge(moves));
        let gave = Prediction { weight: 1.0, entry: gave, before: None, fit };
        if let Some((z, off)) = off(entry, taken, &gave, &sensitivity, &mut unknowns) {
            let (number, quantity, trust, value) = (entry.number, taken.quantity, taken.trust, taken.value);
            all.push(Residual { entry: number, quantity, trust, value, off, z });
        }
    }
    Ok(all)
}

/// What strides make of a shadow: residuals of one that steps as the real plant does, in the same house and weather and read without
/// error, at one suspect and amounts; `z` counts in what the engine has for the model alone. Only readings in the same phase.
///
/// # Errors
/// If a shadow leaves the finite numbers.
pub fn strides(visit: &Visit, suspect: &Hypothesis, amounts: &[f64]) -> Result<Vec<Residual>, StepError> {
    let call = visit.call();
    let stand = suspect.stands_behind(&call.system);
    let arrive = |pace| Member::arrive(call, &stand, amounts.to_vec(), onset_told_s(call), pace);
    let (mut strides, mut ticks) = (arrive(ShadowPace::Strides)?, arrive(ShadowPace::EveryTick)?);
    let mut all = Vec::new();
    for entry in visit.notebook() {
        for one in [&mut strides, &mut ticks] {
            one.finish(entry, visit.arrival_s())?;
        }
        let Some(taken) = ticks.gave(entry.number) else { continue };
        let Some(gave) = Prediction::of(&strides, entry.number) else { continue };
        let (Outcome::Read(ticked), Outcome::Read(strided)) = (&taken.outcome, &gave.entry.outcome) else {
            continue;
        };
        let alike = Signal::ALL.into_iter().all(|signal| {
            let ((here, here_s), (there, there_s)) =
                (signal.of(&taken.running), signal.of(&gave.entry.running));
            here == there && (here_s.min(there_s) > 600.0 || (here_s - there_s).abs() < 5.0)
        });
        if !alike || ticked.quantity != strided.quantity {
            continue;
        }
        let off = ticked.value - strided.value;
        let of_model = discrepancy(ticked.quantity, strided.value, ticked.trust);
        let spread = libm::hypot(of_model.standing, of_model.passing);
        all.push(Residual {
            entry: entry.number,
            quantity: ticked.quantity,
            trust: ticked.trust,
            value: ticked.value,
            off,
            z: off / spread,
        });
    }
    Ok(all)
}

/// Two shadows with a little more and a little less of the charge that a suspect says is there.
struct Charged {
    of: ChargeAxis,
    shadows: [Member; 2],
    at: [f64; 2],
}

impl Charged {
    /// `None` for a suspect that says nothing of the charge.
    fn around(visit: &Visit, suspect: &Hypothesis, amounts: &[f64]) -> Result<Option<Charged>, StepError> {
        let call = visit.call();
        let stand = suspect.stands_behind(&call.system);
        let Some(of) = ChargeAxis::of(&stand) else { return Ok(None) };
        let by = of.one_less(amounts[of.axis]).abs();
        let at = [amounts[of.axis] - by, amounts[of.axis] + by];
        let arrive = |at: f64| {
            let mut amounts = amounts.to_vec();
            amounts[of.axis] = at;
            Member::arrive(call, &stand, amounts, onset_told_s(call), ShadowPace::Strides)
        };
        Ok(Some(Charged { of, shadows: [arrive(at[0])?, arrive(at[1])?], at }))
    }

    fn moves(&self, number: u32, taken: &Reading) -> Option<f64> {
        let [low, high] = &self.shadows;
        self.of.moves(taken, [&Prediction::of(low, number)?, &Prediction::of(high, number)?], self.at)
    }
}

/// The shadow at the true severity and sound plants around it, on arrival.
fn at_the_truth(
    visit: &Visit,
    suspect: &Hypothesis,
    amounts: &[f64],
) -> Result<(Member, Surroundings), StepError> {
    let call = visit.call();
    let stand = suspect.stands_behind(&call.system);
    let shadow = Member::arrive(call, &stand, amounts.to_vec(), onset_told_s(call), ShadowPace::Strides)?;
    let all = Elsewhere::of(call).into_iter().map(|elsewhere| elsewhere.arrive(call, ShadowPace::Strides));
    Ok((shadow, Surroundings { shadows: all.collect::<Result<_, _>>()? }))
}
