//! Random moves out of what the visit offers now.

use call::{Duration, Mass, Temperature};
use plant::{FanSetting, FaultKind, Mode, Switch};
use visit::{Declaration, Effect, Move, Place, Visit};

use super::dice::Dice;

/// Kinds of moves, so that the many readings leave room for the rest.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Class {
    Rest,
    Control,
    Refrigerant,
    Repair,
    Look,
    Verify,
}

/// Weights of the classes. The plant should run often enough to get into trouble, and hands should be in it often
/// enough to make more.
const WEIGHTS: [(Class, f64); 6] = [
    (Class::Rest, 28.0),
    (Class::Control, 18.0),
    (Class::Refrigerant, 16.0),
    (Class::Repair, 12.0),
    (Class::Look, 24.0),
    (Class::Verify, 2.0),
];

/// What a full cylinder gives at most, kg: somewhat less than 25 lb.
const CYLINDER_KG: f64 = 11.3;

fn class(action: &Move) -> Option<Class> {
    Some(match action.effect() {
        Effect::Waits => Class::Rest,
        Effect::Sets | Effect::Switches => Class::Control,
        Effect::Serves | Effect::ChangesContents => Class::Refrigerant,
        Effect::Repairs | Effect::Prepares | Effect::TestsBulb => Class::Repair,
        Effect::Proves => Class::Verify,
        Effect::Tells { .. } | Effect::Talks | Effect::Secures => Class::Look,
        // The ticket is closed at the end of the day, if at all.
        Effect::Leaves => return None,
    })
}

/// A legal move, with a quantity of its own where an offer only suggests one.
pub(crate) fn draw(visit: &Visit, left_s: f64, dice: &mut Dice) -> Move {
    if dice.happens(0.02) {
        return declaration(visit, dice);
    }
    let offers = Place::ALL.into_iter().flat_map(|place| visit.offers(place)).chain(visit.global_offers());
    let legal: Vec<(Class, Move)> = offers
        .filter(|offer| offer.refused.is_none())
        .filter_map(|offer| class(&offer.action).map(|class| (class, offer.action)))
        .collect();
    let present = |class: Class| legal.iter().any(|(of, _)| *of == class);
    let total: f64 = WEIGHTS.iter().filter(|(class, _)| present(*class)).map(|(_, weight)| weight).sum();
    let mut at = dice.unit() * total;
    let mut drawn = Class::Rest;
    for (class, weight) in WEIGHTS.into_iter().filter(|(class, _)| present(*class)) {
        drawn = class;
        at -= weight;
        if at < 0.0 {
            break;
        }
    }
    let towards_running = drawn == Class::Control && dice.happens(0.6);
    let candidates: Vec<&Move> = legal
        .iter()
        .filter(|(class, action)| *class == drawn && (!towards_running || helps_running(action)))
        .map(|(_, action)| action)
        .collect();
    let Some(action) = dice.one_of(&candidates) else { return wait(left_s, dice) };
    with_own_quantity(visit, action, left_s, dice)
}

fn helps_running(action: &Move) -> bool {
    matches!(
        action,
        Move::OutdoorDisconnect(Switch::Closed)
            | Move::IndoorServiceSwitch(Switch::Closed)
            | Move::SetThermostat { mode: Mode::Cool, .. }
    )
}

fn wait(left_s: f64, dice: &mut Dice) -> Move {
    // Minutes to hours on a logarithmic scale: from a breath to half a night.
    let seconds = 30.0 * libm::pow(480.0, dice.unit());
    Move::Wait(Duration::Seconds(seconds.min(left_s.max(30.0))))
}

fn with_own_quantity(visit: &Visit, action: &Move, left_s: f64, dice: &mut Dice) -> Move {
    let plate_kg = visit.plant().system().plate_charge_kg;
    let from_cylinder = |share: f64| Mass::Kilograms((share * plate_kg).min(CYLINDER_KG));
    let some = |dice: &mut Dice| {
        from_cylinder(if dice.happens(0.8) { dice.between(0.005, 0.3) } else { dice.between(0.3, 1.5) })
    };
    match action {
        Move::Wait(_) => wait(left_s, dice),
        Move::WeighIn(_) => {
            let share = if dice.happens(0.7) { dice.between(0.9, 1.1) } else { dice.between(0.01, 2.5) };
            Move::WeighIn(from_cylinder(share))
        }
        Move::AddRefrigerant(_) => Move::AddRefrigerant(some(dice)),
        Move::AddVapor(_) => Move::AddVapor(some(dice)),
        Move::RemoveRefrigerant(_) => Move::RemoveRefrigerant(some(dice)),
        Move::SetThermostat { mode, fan, .. } => Move::SetThermostat {
            mode: *mode,
            fan: if dice.happens(0.2) { FanSetting::On } else { *fan },
            set_point: Temperature::Celsius(dice.between(10.1, 30.0)),
        },
        other => other.clone(),
    }
}

fn declaration(visit: &Visit, dice: &mut Dice) -> Move {
    let cause = dice.one_of(&FaultKind::ALL).copied().unwrap_or(FaultKind::LoadedFilter);
    let last = u32::try_from(visit.notebook().len()).unwrap_or(0);
    let place = cause.needs_place().then(|| dice.one_of(&plant::LeakPlace::ALL).copied()).flatten();
    Move::Declare(Declaration {
        cause,
        place,
        evidence: (1..=last.min(3)).collect(),
        rules_out: dice.one_of(&FaultKind::ALL).filter(|kind| **kind != cause).copied().into_iter().collect(),
    })
}
