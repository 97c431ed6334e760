//! Refrigerant: none added blindly, none vented, the leak first, recovered and weighed.

use call::Milestone;
use diagnosis::Hypotheses;
use plant::Charge;
use visit::{Entry, Move, OnCircuit, Outcome, Recording, Visit};

use crate::mark::{Area, Mark, falling, mark};
use crate::order::opens_circuit;
use crate::reason::Reason;

const AREA: Area = Area::Refrigerant;
/// Points for not adding refrigerant before it is known to be missing.
const NOT_BLINDLY: f64 = 8.0;
/// Points for what stays out of the air.
const NOT_VENTED: f64 = 4.0;
/// Points for the work on the circuit, shared by what the call needs of it.
const CIRCUIT: f64 = 8.0;
/// Probabilities of a low charge at which an addition is in order, and not at all.
const LOW_SURE: f64 = 0.8;
const LOW_UNSURE: f64 = 0.2;
/// Share of the data plate's charge within which a charge is weighed right.
const CHARGE_TOLERANCE: f64 = 0.03;
/// Share at which it earns nothing.
const CHARGE_WRONG: f64 = 0.10;
/// What has to be known before refrigerant is added: airflow proven, the coil thawed, a low charge shown.
const BEFORE_ADDING: [Milestone; 4] =
    [Milestone::FilterInspected, Milestone::BlowerSeen, Milestone::CoilThawed, Milestone::SubcoolingMeasured];

pub(crate) fn marks(visit: &Visit, recording: &Recording, suspects: &Hypotheses) -> Vec<Mark> {
    let is_needed = visit.ever_wrong().iter().any(|fault| opens_circuit(fault.kind));
    let leaks = visit.ever_wrong().iter().any(|fault| fault.kind.row().special.charge == Charge::Escapes);
    let was_opened = done(visit).any(|entry| entry.action.opens_circuit());
    let mut circuit: Vec<Verdict> = Vec::new();
    if leaks {
        circuit.push(leak_first(visit));
    }
    if is_needed || was_opened {
        circuit.push(recovered_first(visit));
        circuit.push(weighed_in(visit));
    }
    // A call whose repair leaves the circuit closed has nothing to earn there: those points fall to the
    // first thing to know about refrigerant.
    let not_blindly = if circuit.is_empty() { NOT_BLINDLY + CIRCUIT } else { NOT_BLINDLY };
    let mut items = vec![blind_additions(visit, recording, suspects, not_blindly), vented(visit, recording)];
    let each = CIRCUIT / circuit.len().max(1) as f64;
    items.extend(circuit.into_iter().map(|(share, reason, entry)| mark(AREA, each, share, reason, entry)));
    items
}

/// Entries whose move was really made.
pub(crate) fn done(visit: &Visit) -> impl Iterator<Item = &Entry> {
    visit.notebook().iter().filter(|entry| !matches!(entry.outcome, Outcome::Refused(_)))
}

fn reached_before(visit: &Visit, milestone: Milestone, entry: u32) -> bool {
    visit.milestones().iter().any(|(one, number)| *one == milestone && *number < entry)
}

/// Nothing may be added before airflow is proven, the coil is thawed and low charge is shown.
fn blind_additions(visit: &Visit, recording: &Recording, suspects: &Hypotheses, of: f64) -> Mark {
    let additions: Vec<&Entry> = done(visit)
        .filter(|entry| adds_as_it_is(&entry.action) && !is_trim(visit, recording, entry))
        .collect();
    if additions.is_empty() {
        return mark(AREA, of, 1.0, Reason::NothingAdded, None);
    }
    let plate_kg = visit.call().system.plate_charge_kg;
    for entry in &additions {
        let number = entry.number;
        let charge_share = recording.at(number).map_or(1.0, |moment| moment.charge_before_kg / plate_kg);
        let missing: Vec<Milestone> = BEFORE_ADDING
            .into_iter()
            .filter(|milestone| !reached_before(visit, *milestone, number))
            .collect();
        if !missing.is_empty() {
            return mark(AREA, of, 0.0, Reason::AddedTooEarly { missing }, Some(number));
        }
        if charge_share > 1.0 - CHARGE_TOLERANCE {
            return mark(AREA, of, 0.0, Reason::AddedToFull { charge_share }, Some(number));
        }
    }
    // The least that was known at any of the additions.
    let known = additions
        .iter()
        .map(|entry| (entry.number, suspects.low_charge_after(entry.number.saturating_sub(1))))
        .min_by(|a, b| a.1.total_cmp(&b.1));
    let (number, probability) = known.unwrap_or((0, 0.0));
    let share = 1.0 - falling(probability, LOW_UNSURE, LOW_SURE);
    mark(AREA, of, share, Reason::AddedAfterTests { probability }, Some(number))
}

/// Whether a move puts refrigerant into the circuit as it is.
pub(crate) fn adds_as_it_is(action: &Move) -> bool {
    action.adds_refrigerant()
}

/// Charging to a target puts something in only if it has to, and after a charge was weighed in it is a trim.
fn is_trim(visit: &Visit, recording: &Recording, entry: &Entry) -> bool {
    if !matches!(entry.action, Move::ChargeTo { .. }) {
        return false;
    }
    let before_kg = entry
        .number
        .checked_sub(1)
        .and_then(|earlier| recording.at(earlier))
        .map_or(0.0, |moment| moment.ledger_after.added_kg);
    let after_kg = recording.at(entry.number).map_or(before_kg, |moment| moment.ledger_after.added_kg);
    after_kg <= before_kg || reached_before(visit, Milestone::WeighedIn, entry.number)
}

/// What escaped through the technician's hands, beyond what recovery leaves behind. Hoses are booked apart.
fn vented(visit: &Visit, recording: &Recording) -> Mark {
    let vented_kg = visit.plant().ledger().vented_kg;
    let allowed_kg = visit.plant().left_by_recovery_kg() * f64::from(times_let_go(visit));
    let excess_kg = (vented_kg - allowed_kg).max(0.0);
    // The move that let most of it out.
    let mut before_kg = 0.0;
    let mut worst: Option<(u32, f64)> = None;
    for moment in recording.moments() {
        let by_move_kg = moment.ledger_after.vented_kg - before_kg;
        before_kg = moment.ledger_after.vented_kg;
        if worst.is_none_or(|(_, most_kg)| by_move_kg > most_kg) {
            worst = Some((moment.entry, by_move_kg));
        }
    }
    // 20 g is a slip, 200 g is letting it go.
    let share = falling(excess_kg, 0.02, 0.2);
    if share >= 1.0 {
        let lost_kg = visit.plant().ledger().hoses_kg + vented_kg;
        return mark(AREA, NOT_VENTED, 1.0, Reason::HardlyVented { lost_kg }, None);
    }
    let reason = Reason::Vented { vented_kg: excess_kg };
    mark(AREA, NOT_VENTED, share, reason, worst.map(|(entry, _)| entry))
}

/// How often what no recovery to 0 psig takes out was let go: by opening, flushing and evacuating together, once for each charge.
fn times_let_go(visit: &Visit) -> u32 {
    let (mut times, mut is_gone) = (0, false);
    for entry in done(visit) {
        if is_charging(&entry.action) {
            is_gone = false;
        } else if !is_gone && (entry.action.opens_circuit() || lets_residue_go(&entry.action)) {
            (times, is_gone) = (times + 1, true);
        }
    }
    times
}

/// Pumps and nitrogen carry it off too.
fn lets_residue_go(action: &Move) -> bool {
    action.on_circuit() == OnCircuit::LetsOff
}

type Verdict = (f64, Reason, Option<u32>);

fn is_charging(action: &Move) -> bool {
    matches!(action.on_circuit(), OnCircuit::Adds | OnCircuit::Fills)
}

fn leak_first(visit: &Visit) -> Verdict {
    let found =
        visit.milestones().iter().find(|(one, _)| *one == Milestone::LeakFound).map(|(_, entry)| *entry);
    let charged = done(visit).find(|entry| is_charging(&entry.action)).map(|entry| entry.number);
    match (found, charged) {
        (Some(found), Some(charged)) if found < charged => (1.0, Reason::LeakFoundFirst, Some(found)),
        (_, Some(charged)) => (0.0, Reason::ChargedBeforeLeakFound, Some(charged)),
        (Some(found), None) => (0.5, Reason::LeakFoundNotCharged, Some(found)),
        (None, None) => (0.0, Reason::LeakNotFound, None),
    }
}

/// Each opening of the circuit needs a recovery after the last refrigerant that went in.
fn recovered_first(visit: &Visit) -> Verdict {
    let openings: Vec<u32> =
        done(visit).filter(|entry| entry.action.opens_circuit()).map(|entry| entry.number).collect();
    if openings.is_empty() {
        return (0.0, Reason::CircuitNotOpened, None);
    }
    for opening in &openings {
        let charged = done(visit)
            .filter(|entry| entry.number < *opening && is_charging(&entry.action))
            .map(|entry| entry.number)
            .max()
            .unwrap_or(0);
        let recovered = visit
            .milestones()
            .iter()
            .any(|(one, entry)| *one == Milestone::Recovered && (charged..*opening).contains(entry));
        if !recovered {
            return (0.0, Reason::OpenedBeforeRecovery, Some(*opening));
        }
    }
    (1.0, Reason::RecoveredFirst, openings.first().copied())
}

/// The charge at the end against the data plate, and weighed rather than guessed.
fn weighed_in(visit: &Visit) -> Verdict {
    let weighed = visit.milestones().iter().rev().find(|(one, _)| *one == Milestone::WeighedIn);
    let Some((_, entry)) = weighed else {
        return (0.0, Reason::NotWeighedIn, None);
    };
    let charge_share = visit.truth().charge_total_kg / visit.call().system.plate_charge_kg;
    let off = (charge_share - 1.0).abs();
    (falling(off, CHARGE_TOLERANCE, CHARGE_WRONG), Reason::WeighedIn { charge_share }, Some(*entry))
}

#[cfg(test)]
mod tests {
    use plant::{LeakPlace, Switch};
    use visit::Mass;

    use super::*;

    fn made(moves: &[Move]) -> Visit {
        let (id, text) = call::built_in()[0];
        let call = call::read(text, id).expect("a built-in call");
        let mut visit = Visit::start(&call, 1).expect("the history is finite");
        let off = Move::SetThermostat {
            mode: plant::Mode::Off,
            fan: plant::FanSetting::Auto,
            set_point: visit::Temperature::Fahrenheit(75.0),
        };
        let dead = [off, Move::OutdoorDisconnect(Switch::Open), Move::ConnectGauges];
        for action in dead.iter().chain(moves) {
            let entry = visit.perform(action).expect("finite");
            assert!(!matches!(entry.outcome, Outcome::Refused(_)), "{entry:?}");
        }
        visit
    }

    fn points(visit: &Visit) -> f64 {
        vented(visit, &Recording::of(visit).expect("finite")).points
    }

    /// What recovery leaves is let go once for each charge, however it is let go; a full charge let go earns nothing.
    #[test]
    fn what_recovery_leaves_is_allowed_once_for_each_charge() {
        let cut = Move::RepairLeak(LeakPlace::LiquidLine);
        let sound = made(&[Move::Recover, Move::PurgeWithNitrogen, cut.clone(), Move::Evacuate]);
        assert_eq!(times_let_go(&sound), 1);
        assert!((points(&sound) - NOT_VENTED).abs() < 1e-9);

        let again = [
            Move::Recover,
            cut.clone(),
            Move::Evacuate,
            Move::WeighIn(Mass::Pounds(4.0)),
            Move::Recover,
            Move::Evacuate,
        ];
        let twice = made(&again);
        assert_eq!(times_let_go(&twice), 2);
        // The coil of this call is iced: cold metal keeps some ten grams more each time, and 20 g in all are free.
        assert!(points(&twice) > 0.95 * NOT_VENTED, "{}", points(&twice));

        let rash = made(&[cut]);
        assert_eq!(times_let_go(&rash), 1);
        assert!(points(&rash).abs() < 1e-9);
    }
}
