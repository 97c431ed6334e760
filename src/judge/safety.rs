//! Safety: no compressor on ice, dead before touching, left as it should be left.

use plant::{Mode, Switch};
use visit::{Gauges, Hazard, Move, Visit};

use crate::mark::{Area, Mark, falling, mark};
use crate::refrigerant::done;
use crate::trail::{Moment, Trail};

const AREA: Area = Area::Safety;
/// Points for sparing the compressor.
const ICE: f64 = 4.0;
/// Points for power off before hands go in.
const DEAD: f64 = 4.0;
/// Points for leaving panels closed, gauges off and power on.
const LEFT: f64 = 2.0;
/// How long a visit may let the compressor run on ice: time to arrive, ask and look. Engineering value, s.
const ON_ICE_FULL_S: f64 = 20.0 * 60.0;
/// From here on it earns nothing, s.
const ON_ICE_NONE_S: f64 = 60.0 * 60.0;
/// Below this share of its running speed a blower wheel counts as standing.
const STANDING_SPEED: f64 = 0.05;

pub(crate) fn marks(visit: &Visit, trail: &Trail) -> Vec<Mark> {
    vec![on_ice(trail), dead_before_touching(visit, trail), left(visit)]
}

fn on_ice(trail: &Trail) -> Mark {
    let Some(last) = trail.moments.last() else {
        return mark(AREA, ICE, 0.0, "Nothing was done.".to_owned(), None);
    };
    let minutes = last.ran_on_ice_s / 60.0;
    let share = falling(last.ran_on_ice_s, ON_ICE_FULL_S, ON_ICE_NONE_S);
    let crossed = trail.moments.iter().find(|moment| moment.ran_on_ice_s > ON_ICE_FULL_S);
    let reason = if minutes < 0.5 {
        "The compressor did not run on ice.".to_owned()
    } else if share >= 1.0 {
        format!("The compressor was stopped soon: it ran on ice for {minutes:.0} min.")
    } else {
        format!(
            "The compressor ran on ice for {minutes:.0} min; liquid that no longer boils off can reach it."
        )
    };
    mark(AREA, ICE, share, reason, crossed.map(|moment| moment.entry))
}

fn dead_before_touching(visit: &Visit, trail: &Trail) -> Mark {
    let mut touched = 0_u32;
    let mut live = Vec::new();
    for entry in done(visit) {
        let Some(moment) = trail.at(entry.number) else { continue };
        let Some(danger) = danger(&entry.action, moment) else { continue };
        if matches!(entry.action, Move::Mend(_))
            && visit.hazards().iter().any(|(hazard, at)| {
                *at == entry.number
                    && matches!(hazard, Hazard::WiringWorkWithPowerOn | Hazard::ChargedCapacitorTouched)
            })
        {
            // The visit has seen it itself; it is counted with the hazards.
            continue;
        }
        touched += 1;
        if let Danger::Live(what) = danger {
            live.push((entry.number, what));
        }
    }
    for (hazard, entry) in visit.hazards() {
        let what = match hazard {
            Hazard::LivePanelOpened => "of the outdoor unit with the disconnect still in",
            Hazard::CompressorRunOnOpenCircuit => "while the compressor ran on an open circuit",
            Hazard::WiringWorkWithPowerOn => "with its power on",
            Hazard::MeterOnLiveCircuit => "with a meter set to ohms or microfarads on a live circuit",
            Hazard::ChargedCapacitorTouched => "before the capacitor was discharged",
            Hazard::TestedAboveDesignPressure => "with nitrogen above the low side's design pressure on it",
            Hazard::FlammableGasNearIgnition => {
                "with a flammable refrigerant before the place was made safe from ignition"
            }
            Hazard::FlameOnFlammableGas => "with a flame to a circuit that could burn; it was not purged",
            // Counted by the move itself, and under refrigerant.
            Hazard::CircuitWorkWithPowerOn | Hazard::RefrigerantVented => continue,
        };
        touched += 1;
        live.push((*entry, what));
    }
    match (touched, live.first()) {
        (0, _) => {
            mark(AREA, DEAD, 0.0, "No part was worked on, so there is nothing to earn.".to_owned(), None)
        }
        (_, None) => {
            mark(AREA, DEAD, 1.0, "Power was off each time hands went into the equipment.".to_owned(), None)
        }
        (_, Some((entry, what))) => {
            let share = 1.0 - live.len() as f64 / f64::from(touched);
            mark(AREA, DEAD, share, format!("Hands went into the equipment {what}."), Some(*entry))
        }
    }
}

enum Danger {
    Dead,
    Live(&'static str),
}

/// `None` for moves that keep hands out of the equipment.
fn danger(action: &Move, moment: &Moment) -> Option<Danger> {
    let outdoor_dead = moment.inputs.outdoor_disconnect == Switch::Open;
    let blower_dead = moment.inputs.indoor_service_switch == Switch::Open
        || (moment.inputs.thermostat.mode == Mode::Off && moment.blower_speed < STANDING_SPEED);
    let judged = |is_dead: bool, what| if is_dead { Danger::Dead } else { Danger::Live(what) };
    match action {
        Move::RepairLeak(_) | Move::ReplaceMeteringDevice => {
            Some(judged(outdoor_dead, "with the outdoor disconnect still in"))
        }
        Move::Mend(work) if work.opens_circuit() => {
            Some(judged(outdoor_dead, "with the outdoor disconnect still in"))
        }
        Move::Mend(_) => Some(Danger::Dead),
        Move::ReplaceFilter | Move::InsulateBulb => {
            Some(judged(blower_dead, "of the air handler while the blower was under power"))
        }
        _ => None,
    }
}

fn left(visit: &Visit) -> Mark {
    if !visit.is_closed() {
        return mark(AREA, LEFT, 0.0, "The ticket was not closed.".to_owned(), None);
    }
    let closing = visit.notebook().last().map(|entry| entry.number);
    let inputs = visit.inputs();
    let site = visit.site();
    let mut faults = Vec::new();
    if !site.open_panels.is_empty() {
        faults.push("a panel was left open");
    }
    if site.gauges == Gauges::On {
        faults.push("the gauges were left on");
    }
    if inputs.outdoor_disconnect == Switch::Open || inputs.indoor_service_switch == Switch::Open {
        faults.push("a switch was left off");
    }
    if inputs.thermostat.mode == Mode::Off {
        faults.push("the thermostat was left off");
    }
    if site.bulb.is_off_the_line() {
        faults.push("the sensing bulb was left off the line");
    }
    let reason = if faults.is_empty() {
        "The site was left closed up, with power on and cooling set.".to_owned()
    } else {
        format!("On leaving, {}.", faults.join(", "))
    };
    mark(AREA, LEFT, if faults.is_empty() { 1.0 } else { 0.0 }, reason, closing)
}
