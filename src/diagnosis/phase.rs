//! Whether a shadow was in the phase of its cycle in which the real plant was met, and how likely that was.

use plant::{Conductor, Terminal};
use visit::{Effect, Entry, Measured, Move, Outcome, Running, Signal, Visit};

/// A plant that has started or stopped within this time may as well be in the other phase of its cycle, s.
const SAME_PHASE_S: f64 = 1500.0;
/// Time after a start or a stop in which readings still follow it, s.
const FOLLOWS_S: f64 = 600.0;
/// Starts or stops that lie further apart than this have led to different readings, s.
const SAME_START_S: f64 = 30.0;
/// A thermostat that was set has called or left off within this, s.
const OBEYS_S: f64 = 60.0;
/// By how much a supply sags under what is switched on, one standard deviation, V and share (engineering values).
const SAG_V: f64 = 1.0;
const SAG_SHARE: f64 = 0.02;
/// Current below which a clamp shows none, A.
const NO_CURRENT_A: f64 = 0.3;

/// How a shadow's entry is to be held against the real one.
#[derive(Clone, Debug)]
pub(crate) struct Fit {
    /// Posterior of meeting each of [`Signal::ALL`] as it was met; 1 for those on which the move doesn't hang.
    pub chances: [f64; 3],
    /// What stands against the reading.
    pub against: Against,
    /// Whether the outdoor fan has turned lately in the phase that was met, and the blower at all.
    pub outdoor_fan_turned: bool,
    pub blower_turned: bool,
    /// Whether ice stood on its coil.
    pub iced: bool,
    /// Whether its compressor has stood lately though it was called for.
    pub stood: bool,
    /// Whether the thermostat has called or left off by itself lately: where the room stands between is chance.
    pub cycled: bool,
    /// Whether the compressor has started or stopped by itself.
    pub compressor_cycled: bool,
}

/// What is held against what was read or seen.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Against {
    /// What the shadow gave.
    Entry,
    /// What it gave, in another phase of its cycle: of a sight only what no phase changes.
    OtherPhase,
    /// What was to be read in the right phase lately: mean and standard deviation.
    Earlier(f64, f64),
    /// Nothing: the move was not possible on it, or it has not been in that phase.
    Nothing,
}

impl Fit {
    /// How a shadow that has just finished the move of an entry fits in.
    pub(crate) fn of(taken: &Entry, shadow: &Visit, since_s: f64) -> Fit {
        let here = &taken.running;
        let Some((gave, cycle)) = shadow.notebook().last().zip(shadow.cycle()) else {
            return Fit {
                chances: [1.0; 3],
                against: Against::Nothing,
                outdoor_fan_turned: true,
                blower_turned: true,
                iced: false,
                stood: false,
                cycled: false,
                compressor_cycled: false,
            };
        };
        // Nobody knows for how long it had been so on arrival.
        let on_site_s = (taken.finished_s - since_s).max(0.0);
        let watched = Running {
            called_for_s: here.called_for_s.min(on_site_s),
            compressor_for_s: here.compressor_for_s.min(on_site_s),
            blower_for_s: here.blower_for_s.min(on_site_s),
            ..*here
        };
        let by_hand = since_set_s(shadow.notebook(), gave.finished_s)
            .is_some_and(|since_s| here.called_for_s.min(gave.running.called_for_s) >= since_s - OBEYS_S);
        let mut chances = [1.0; 3];
        let mut other_phase = false;
        let mut never = false;
        for (signal, chance) in Signal::ALL.into_iter().zip(&mut chances) {
            if !hangs_on(&taken.action).contains(&signal) {
                continue;
            }
            *chance = cycle.chance_of(signal, &watched, by_hand);
            other_phase |= signal.of(&gave.running).0 != signal.of(here).0;
            never |= !cycle.has_been(signal, here);
        }
        let earlier = |quantity| {
            let (mean, swing) = cycle.in_phase(quantity, here.compressor, here.compressor_for_s)?;
            Some(Against::Earlier(mean, swing))
        };
        let against = match (&taken.outcome, &gave.outcome) {
            (_, Outcome::Refused(_) | Outcome::Verified(_)) | (Outcome::Read(_), Outcome::Done) => {
                Against::Nothing
            }
            (Outcome::Read(read), Outcome::Read(there)) if read.quantity != there.quantity => {
                Against::Nothing
            }
            _ if waits_for_its_protector(taken, gave) => Against::Nothing,
            // What feeds the thermostat and the contactor is there in every phase, or in none.
            (Outcome::Read(read), Outcome::Read(there))
                if (never || other_phase) && is_of_the_supply(read.quantity) =>
            {
                Against::Earlier(there.value, SAG_V + SAG_SHARE * there.value.abs())
            }
            (Outcome::Read(_), _) if never => Against::Nothing,
            (Outcome::Read(read), _) if other_phase => earlier(read.quantity).unwrap_or(Against::Nothing),
            (Outcome::Read(read), _)
                if hangs_on(&taken.action).contains(&Signal::Compressor)
                    && (apart_in_cycle(here, &gave.running) || cycle.is_short()) =>
            {
                earlier(read.quantity).unwrap_or(Against::Entry)
            }
            _ if other_phase => Against::OtherPhase,
            _ => Against::Entry,
        };
        Fit {
            chances,
            against,
            outdoor_fan_turned: cycle.outdoor_fan_turned(here.compressor),
            blower_turned: cycle.blower_turned(),
            iced: shadow.is_iced(),
            stood: cycle.stood_under_call(),
            cycled: cycle.toggles_by_itself(Signal::Call, set_by_hand_s(shadow.notebook())),
            compressor_cycled: cycle
                .toggles_by_itself(Signal::Compressor, switched_by_hand_s(shadow.notebook())),
        }
    }
}

impl Fit {
    /// Whether how warm a winding is hangs on the last runs of a thermostat or a protector: a motor that does not turn is on its
    /// protector.
    pub(crate) fn is_heated_by_chance(&self) -> bool {
        self.cycled || self.compressor_cycled || !self.blower_turned
    }
}

/// Time since a learner last set the thermostat or switched the power of the indoor unit, s; `None` if nobody has.
fn since_set_s(notebook: &[Entry], now_s: f64) -> Option<f64> {
    set_by_hand_s(notebook).next_back().map(|set_s| now_s - set_s)
}

/// When a learner set the thermostat or switched the power of the indoor unit, s.
fn set_by_hand_s(notebook: &[Entry]) -> impl DoubleEndedIterator<Item = f64> + Clone {
    let sets = |entry: &&Entry| {
        matches!(entry.action, Move::SetThermostat { .. } | Move::IndoorServiceSwitch(_))
            && entry.outcome == Outcome::Done
    };
    notebook.iter().filter(sets).map(|entry| entry.finished_s)
}

/// The same, or pulled or put in the disconnect, s.
fn switched_by_hand_s(notebook: &[Entry]) -> impl Iterator<Item = f64> + Clone {
    let switches = |entry: &&Entry| {
        matches!(
            entry.action,
            Move::SetThermostat { .. } | Move::IndoorServiceSwitch(_) | Move::OutdoorDisconnect(_)
        ) && entry.outcome == Outcome::Done
    };
    notebook.iter().filter(switches).map(|entry| entry.finished_s)
}

/// Whether two plants are in the same phase of their cycles, as far as it matters for what a move gives. A cycle's phase
/// hangs on small things: what it says is said once both are in the same one.
pub(crate) fn in_phase(action: &Move, here: &Running, there: &Running) -> bool {
    let may_run = here.called || there.called;
    hangs_on(action).iter().all(|signal| {
        let ((is_on, _), (there_on, for_s)) = (signal.of(here), signal.of(there));
        // With no call on either side nothing cycles: what still runs says something.
        let cycles = *signal != Signal::Compressor || may_run;
        is_on == there_on || for_s >= SAME_PHASE_S || !cycles
    })
}

/// Whether the same runs at two times, as far as it matters for what a move gives.
pub(crate) fn runs_alike(action: &Move, one: &Running, other: &Running) -> bool {
    hangs_on(action).iter().all(|signal| signal.of(one).0 == signal.of(other).0)
}

/// Whether two plants are so shortly after a start or a stop, and at so different times, that their readings can't be
/// compared as those of one state.
pub(crate) fn apart_in_cycle(here: &Running, there: &Running) -> bool {
    here.compressor_for_s.min(there.compressor_for_s) < FOLLOWS_S
        && (here.compressor_for_s - there.compressor_for_s).abs() > SAME_START_S
}

/// A motor that stands draws its locked-rotor current or, while its protector is open, none: which of them a clamp
/// meets says nothing.
fn waits_for_its_protector(taken: &Entry, gave: &Entry) -> bool {
    let (Outcome::Read(here), Outcome::Read(there)) = (&taken.outcome, &gave.outcome) else { return false };
    let Measured::Current(conductor) = here.quantity else { return false };
    let stands = match conductor {
        Conductor::BlowerLine | Conductor::BlowerReturn | Conductor::BlowerStart | Conductor::RelayFeed => {
            !taken.running.blower && !gave.running.blower
        }
        _ => !taken.running.compressor && !gave.running.compressor,
    };
    stands && (here.value > NO_CURRENT_A) != (there.value > NO_CURRENT_A)
}

/// What decides what a move gives, of all that starts and stops: nothing; the thermostat's call, with the blower and its
/// air; or the compressor as well.
pub(crate) fn hangs_on(action: &Move) -> &'static [Signal] {
    match action.effect() {
        Effect::Tells { hangs_on, .. } => hangs_on,
        Effect::TestsBulb => &Signal::ALL,
        // What a part that comes out tells hangs on nothing that runs.
        Effect::Talks
        | Effect::Sets
        | Effect::Switches
        | Effect::Waits
        | Effect::Prepares
        | Effect::Secures
        | Effect::Serves
        | Effect::ChangesContents
        | Effect::Repairs
        | Effect::Proves
        | Effect::Leaves => &[],
    }
}

/// Whether it is a voltage between terminals that lie before everything that a thermostat switches.
fn is_of_the_supply(quantity: Measured) -> bool {
    let Measured::Voltage(from, to) = quantity else { return false };
    [from, to].iter().all(|terminal| feeds(*terminal))
}

/// Terminals of the air handler before everything that a thermostat switches.
fn feeds(terminal: Terminal) -> bool {
    use Terminal::*;
    matches!(
        terminal,
        R | C
            | ThermostatR
            | TransformerPrimary1
            | TransformerPrimary2
            | TransformerSecondary1
            | TransformerSecondary2
            | FuseSupply
            | FuseLoad
            | ServiceLine1
            | ServiceLine2
            | ServiceLoad1
            | ServiceLoad2
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    fn running(compressor: bool, for_s: f64) -> Running {
        Running {
            called: true,
            called_for_s: 3000.0,
            compressor,
            compressor_for_s: for_s,
            ..Running::default()
        }
    }

    #[test]
    fn phase_matters_as_far_as_a_move_hangs_on_it() {
        use plant::Terminal::{ContactorCoilC, ContactorCoilY, EcmCommand, EcmCommon};
        let (here, there) = (running(false, 3000.0), running(true, 60.0));
        let indoors = Move::MeasureVoltage { from: EcmCommand, to: EcmCommon };
        let outdoors = Move::MeasureVoltage { from: ContactorCoilY, to: ContactorCoilC };
        assert!(in_phase(&indoors, &here, &there) && in_phase(&Move::InspectFilter, &here, &there));
        assert!(!in_phase(&outdoors, &here, &there) && !runs_alike(&outdoors, &here, &there));
        assert!(in_phase(&outdoors, &here, &running(true, 2000.0)), "it has run for long: no cycle");
        let idle = Running { called: false, ..here };
        assert!(in_phase(&outdoors, &idle, &Running { called: false, ..there }), "nothing cycles");
    }

    #[test]
    fn the_supply_is_there_in_every_phase() {
        use plant::Terminal::{C, ContactorCoilY, FloatSwitchIn, FloatSwitchOut, FuseLoad, FuseSupply, Y};
        assert!(is_of_the_supply(Measured::Voltage(FuseSupply, C)));
        assert!(is_of_the_supply(Measured::Voltage(FuseSupply, FuseLoad)));
        assert!(!is_of_the_supply(Measured::Voltage(Y, C)), "the thermostat switches it");
        assert!(!is_of_the_supply(Measured::Voltage(FloatSwitchIn, C)), "the float switch lies behind Y");
        assert!(!is_of_the_supply(Measured::Voltage(FloatSwitchOut, C)));
        assert!(!is_of_the_supply(Measured::Voltage(ContactorCoilY, C)));
        assert!(!is_of_the_supply(Measured::Resistance(FuseSupply, C)));
    }

    #[test]
    fn shortly_after_different_starts_plants_are_apart() {
        assert!(apart_in_cycle(&running(true, 60.0), &running(true, 300.0)));
        assert!(!apart_in_cycle(&running(true, 60.0), &running(true, 80.0)));
        assert!(!apart_in_cycle(&running(true, 900.0), &running(true, 5000.0)));
    }
}
