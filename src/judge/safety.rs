//! Safety: no compressor on ice, dead before touching, left as it should be left.

use plant::{Mode, Switch};
use visit::{Dead, Effect, Gauges, Hazard, Moment, Move, Recording, Visit};

use crate::mark::{Area, Mark, falling, mark};
use crate::reason::{Danger, Reason, Undone};
use crate::refrigerant::done;

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
/// A shorter time than this is none, s: what rounds to no minute.
const ON_ICE_TOLD_S: f64 = 30.0;
/// Below this share of its running speed a blower wheel counts as standing.
const STANDING_SPEED: f64 = 0.05;

pub(crate) fn marks(visit: &Visit, recording: &Recording) -> Vec<Mark> {
    vec![on_ice(recording), dead_before_touching(visit, recording), left(visit)]
}

fn on_ice(recording: &Recording) -> Mark {
    let Some(last) = recording.moments().last() else {
        return mark(AREA, ICE, 0.0, Reason::NothingDone, None);
    };
    let on_ice_for_s = last.ran_on_ice_s;
    let share = falling(on_ice_for_s, ON_ICE_FULL_S, ON_ICE_NONE_S);
    let crossed = recording.moments().iter().find(|moment| moment.ran_on_ice_s > ON_ICE_FULL_S);
    let reason = if on_ice_for_s < ON_ICE_TOLD_S {
        Reason::NotOnIce
    } else if share >= 1.0 {
        Reason::OnIceBriefly { on_ice_for_s }
    } else {
        Reason::OnIceLong { on_ice_for_s }
    };
    mark(AREA, ICE, share, reason, crossed.map(|moment| moment.entry))
}

fn dead_before_touching(visit: &Visit, recording: &Recording) -> Mark {
    let mut touched = 0_u32;
    let mut live = Vec::new();
    for entry in done(visit) {
        let Some(moment) = recording.at(entry.number) else { continue };
        let Some(touch) = touch(&entry.action, moment) else { continue };
        if is_seen_by_the_visit(&entry.action)
            && visit.hazards().iter().any(|(hazard, at)| {
                *at == entry.number
                    && matches!(hazard, Hazard::WiringWorkWithPowerOn | Hazard::ChargedCapacitorTouched)
            })
        {
            // The visit has seen it itself; it is counted with the hazards.
            continue;
        }
        touched += 1;
        if let Touch::Live(danger) = touch {
            live.push((entry.number, danger));
        }
    }
    for (hazard, entry) in visit.hazards() {
        // Counted by the move itself, and under refrigerant.
        if matches!(hazard, Hazard::CircuitWorkWithPowerOn | Hazard::RefrigerantVented) {
            continue;
        }
        touched += 1;
        live.push((*entry, Danger::Seen(*hazard)));
    }
    match (touched, live.first()) {
        (0, _) => mark(AREA, DEAD, 0.0, Reason::NothingTouched, None),
        (_, None) => mark(AREA, DEAD, 1.0, Reason::DeadWhenTouched, None),
        (_, Some((entry, danger))) => {
            let share = 1.0 - live.len() as f64 / f64::from(touched);
            mark(AREA, DEAD, share, Reason::Unsafe(*danger), Some(*entry))
        }
    }
}

/// Hands in the equipment.
enum Touch {
    Dead,
    Live(Danger),
}

/// `None` for moves that keep hands out of the equipment.
fn touch(action: &Move, moment: &Moment) -> Option<Touch> {
    let outdoor_dead = moment.inputs.outdoor_disconnect == Switch::Open;
    let blower_dead = moment.inputs.indoor_service_switch == Switch::Open
        || (moment.inputs.thermostat.mode == Mode::Off && moment.blower_speed < STANDING_SPEED);
    let judged = |is_dead: bool, danger| if is_dead { Touch::Dead } else { Touch::Live(danger) };
    if action.effect() != Effect::Repairs {
        return None;
    }
    Some(match action.dead() {
        Dead::OutdoorForCircuit => judged(outdoor_dead, Danger::DisconnectIn),
        Dead::BlowerStands => judged(blower_dead, Danger::BlowerUnderPower),
        // The visit sees it itself.
        Dead::Nothing | Dead::AirHandler | Dead::OutdoorUnit | Dead::AtProbes => Touch::Dead,
    })
}

/// Whether the visit itself sees what is worked on under power.
fn is_seen_by_the_visit(action: &Move) -> bool {
    action.effect() == Effect::Repairs
        && matches!(action.dead(), Dead::Nothing | Dead::AirHandler | Dead::OutdoorUnit | Dead::AtProbes)
}

fn left(visit: &Visit) -> Mark {
    if !visit.is_closed() {
        return mark(AREA, LEFT, 0.0, Reason::LeftOpen, None);
    }
    let closing = visit.notebook().last().map(|entry| entry.number);
    let inputs = visit.inputs();
    let site = visit.site();
    let undone: Vec<Undone> = [
        (!site.open_panels.is_empty(), Undone::PanelOpen),
        (site.gauges == Gauges::On, Undone::GaugesOn),
        (
            inputs.outdoor_disconnect == Switch::Open || inputs.indoor_service_switch == Switch::Open,
            Undone::SwitchOff,
        ),
        (inputs.thermostat.mode == Mode::Off, Undone::ThermostatOff),
        (site.bulb.is_off_the_line(), Undone::BulbOff),
    ]
    .into_iter()
    .filter_map(|(is_so, undone)| is_so.then_some(undone))
    .collect();
    if undone.is_empty() {
        return mark(AREA, LEFT, 1.0, Reason::LeftInOrder, closing);
    }
    mark(AREA, LEFT, 0.0, Reason::LeftUndone { undone }, closing)
}
