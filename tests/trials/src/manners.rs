//! Four technicians on the built-in calls: a rookie, a lucky guesser, a parts-changer and a sound one.

use std::collections::BTreeMap;

use call::{Call, Duration, Temperature};
use diagnosis::Hypotheses;
use judge::{Marks, judge_weighed, prior, weigh_arrived};
use plant::{FanSetting, FaultKind, LeakPlace, Mode, StepError, Switch, Work};
use visit::{Declaration, Entry, Move, Observation, Outcome, Panel, Place, Visit, read_moves};

/// A manner of working.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Manner {
    /// Gauges first, and refrigerant in.
    Rookie,
    /// Declares what is wrong without having read anything, and happens to be right.
    LuckyGuesser,
    /// Changes part after part until one was faulty.
    PartsChanger,
    /// Air, controls, thaw, refrigerant; declares by evidence, repairs, proves.
    Sound,
}

impl Manner {
    /// Every manner, in the order of the marks that it ought to earn.
    pub const ALL: [Manner; 4] = [Manner::Rookie, Manner::LuckyGuesser, Manner::PartsChanger, Manner::Sound];
}

/// Call files and files of moves, sound and rookie's.
const CALLS: [(&str, &str, &str, &str); 4] = [
    (
        "tannery-lane",
        include_str!("../../../scenarios/tannery-lane.ron"),
        include_str!("../../../scenarios/visits/tannery-lane-sound.ron"),
        include_str!("../../../scenarios/visits/tannery-lane-rookie.ron"),
    ),
    (
        "orchard-court",
        include_str!("../../../scenarios/orchard-court.ron"),
        include_str!("../../../scenarios/visits/orchard-court-sound.ron"),
        include_str!("../../../scenarios/visits/orchard-court-rookie.ron"),
    ),
    (
        "kiln-street",
        include_str!("../../../scenarios/kiln-street.ron"),
        include_str!("../../../scenarios/visits/kiln-street-sound.ron"),
        include_str!("../../../scenarios/visits/kiln-street-rookie.ron"),
    ),
    (
        "ferry-steps",
        include_str!("../../../scenarios/ferry-steps.ron"),
        include_str!("../../../scenarios/visits/ferry-steps-sound.ron"),
        include_str!("../../../scenarios/visits/ferry-steps-rookie.ron"),
    ),
];

/// The built-in call of a seed: the calls take turns.
///
/// # Panics
/// If a built-in call is not valid: a mistake of the call.
pub fn call_of(seed: u64) -> Call {
    let (id, text, ..) = CALLS[(seed % 4) as usize];
    call::read(text, id).unwrap_or_else(|problems| panic!("{id}: {problems:#?}"))
}

/// Works the built-in call of a seed.
///
/// # Errors
/// If the plant leaves the finite numbers.
///
/// # Panics
/// If a file of moves is not valid: a mistake of the file.
pub fn worked(seed: u64, manner: Manner) -> Result<Visit, StepError> {
    let (id, _, sound, rookie) = CALLS[(seed % 4) as usize];
    let read = |text| read_moves(text, id).unwrap_or_else(|problems| panic!("{id}: {problems:#?}"));
    let mut visit = Visit::start(&call_of(seed), seed)?;
    match manner {
        Manner::Rookie => follow_script(&mut visit, &read(rookie))?,
        Manner::Sound => follow_script(&mut visit, &read(sound))?,
        Manner::LuckyGuesser => {
            let mut moves = read(sound);
            let declared = moves.iter().position(|action| matches!(action, Move::Declare(_)));
            let mut guessed = moves.split_off(declared.unwrap_or(0));
            if let Some(Move::Declare(declaration)) = guessed.first_mut() {
                declaration.evidence.clear();
                declaration.rules_out.clear();
            }
            // What the repair needs and the sound technician had done before.
            let mut ready = vec![Move::SetThermostat {
                mode: Mode::Off,
                fan: FanSetting::On,
                set_point: Temperature::Fahrenheit(68.0),
            }];
            if guessed.iter().any(|action| matches!(action, Move::Recover)) {
                ready.push(Move::ConnectGauges);
            }
            ready.push(Move::OpenPanel(Panel::CoilCabinet));
            ready.extend(guessed);
            follow_script(&mut visit, &ready)?;
        }
        Manner::PartsChanger => change_parts(&mut visit)?,
    }
    Ok(visit)
}

/// Marks of every manner on the built-in call of a seed, weighed on the same suspects, in the order of [`Manner::ALL`].
///
/// # Errors
/// If a plant leaves the finite numbers.
pub fn marks_of(seed: u64) -> Result<Vec<(Manner, Marks)>, StepError> {
    let call = call_of(seed);
    let Some(arrived) = Hypotheses::arrive(&call, &prior(&call), &diagnosis::Unwatched)? else {
        unreachable!("nobody stops it")
    };
    Manner::ALL
        .into_iter()
        .map(|manner| {
            let visit = worked(seed, manner)?;
            let Some(suspects) = weigh_arrived(&visit, arrived.clone(), None, &diagnosis::Unwatched)? else {
                unreachable!("nobody stops it")
            };
            Ok((manner, judge_weighed(&visit, &suspects)?))
        })
        .collect()
}

/// Makes the moves of a script. A wait for the thaw goes on until the look after it shows a clear coil, and evidence
/// is cited by where it then stands in the notebook.
fn follow_script(visit: &mut Visit, moves: &[Move]) -> Result<(), StepError> {
    let mut stands_at: BTreeMap<u32, u32> = BTreeMap::new();
    let mut waited = false;
    for (number, action) in (1..).zip(moves) {
        let action = match action {
            Move::Declare(declaration) => Move::Declare(Declaration {
                evidence: declaration
                    .evidence
                    .iter()
                    .map(|entry| stands_at.get(entry).copied().unwrap_or(*entry))
                    .collect(),
                ..declaration.clone()
            }),
            other => other.clone(),
        };
        let mut entry = visit.perform(&action)?;
        if waited && action == Move::Look(Place::IndoorCoil) {
            for _ in 0..8 {
                if !shows_ice(entry) {
                    break;
                }
                visit.perform(&Move::Wait(Duration::Minutes(30.0)))?;
                entry = visit.perform(&action)?;
            }
        }
        stands_at.insert(number, entry.number);
        waited =
            matches!(action, Move::Wait(_)) || waited && !matches!(action, Move::Look(Place::IndoorCoil));
    }
    Ok(())
}

fn shows_ice(entry: &Entry) -> bool {
    matches!(&entry.outcome, Outcome::Seen(seen)
        if seen.iter().any(|one| matches!(one, Observation::SomeIce | Observation::BlockOfIce)))
}

/// What a faulty part turned out to be.
fn faulty(entry: &Entry) -> Option<FaultKind> {
    let Outcome::Seen(seen) = &entry.outcome else { return None };
    seen.iter().find_map(|one| match one {
        Observation::PartWasFaulty(kind) => Some(*kind),
        _ => None,
    })
}

/// Filter, capacitor, bulb, metering device, leak, in turn.
fn change_parts(visit: &mut Visit) -> Result<(), StepError> {
    for action in [
        Move::SetThermostat {
            mode: Mode::Off,
            fan: FanSetting::On,
            set_point: Temperature::Fahrenheit(68.0),
        },
        Move::OutdoorDisconnect(Switch::Open),
        Move::OpenPanel(Panel::BlowerCompartment),
        Move::OpenPanel(Panel::CoilCabinet),
    ] {
        visit.perform(&action)?;
    }
    let parts = [
        vec![Move::ReplaceFilter],
        vec![Move::Repair(Work::ReplaceBlowerCapacitor)],
        vec![Move::InsulateBulb],
        vec![Move::ConnectGauges, Move::Recover, Move::ReplaceMeteringDevice],
        vec![Move::RepairLeak(LeakPlace::IndoorCoil)],
    ];
    for moves in parts {
        let mut found = None;
        for action in moves {
            let entry = visit.perform(&action)?;
            found = faulty(entry).map(|kind| (kind, entry.number));
        }
        if let Some((cause, number)) = found {
            let place = cause.needs_place().then_some(LeakPlace::IndoorCoil);
            visit.perform(&Move::Declare(Declaration {
                cause,
                place,
                evidence: vec![number],
                rules_out: Vec::new(),
            }))?;
            break;
        }
    }
    if visit.site().circuit != visit::Circuit::Charged {
        visit.perform(&Move::Evacuate)?;
        let plate_kg = visit.call().system.plate_charge_kg;
        visit.perform(&Move::WeighIn(visit::Mass::Kilograms(plate_kg)))?;
    }
    for action in [
        Move::Wait(Duration::Minutes(60.0)),
        Move::OutdoorDisconnect(Switch::Closed),
        Move::SetThermostat {
            mode: Mode::Cool,
            fan: FanSetting::Auto,
            set_point: Temperature::Fahrenheit(68.0),
        },
        Move::Verify,
        Move::DisconnectGauges,
        Move::CloseTicket,
    ] {
        visit.perform(&action)?;
    }
    Ok(())
}
