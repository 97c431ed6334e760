//! Probabilities must not hang on the settings of the reckoning: half the step, twice the severities.

mod common;

use call::Call;
use common::call;
use diagnosis::{Care, FirstShadows, Hypotheses, Prior};
use visit::{AirPoint, Bulb, Duration, Move, Panel, PipePoint, Place, Port, Visit};

/// What no probability may move by more than, after any entry.
const MOST: f64 = 0.02;

/// Enough to know it: looks, air, gauges, pipes.
fn moves() -> Vec<Move> {
    vec![
        Move::Look(Place::SupplyRegister),
        Move::InspectFilter,
        Move::Look(Place::OutdoorUnit),
        Move::OpenPanel(Panel::CoilCabinet),
        Move::Look(Place::IndoorCoil),
        Move::ReadAir(AirPoint::Return, Bulb::Dry),
        Move::ReadAir(AirPoint::Return, Bulb::Wet),
        Move::ReadAir(AirPoint::Supply, Bulb::Dry),
        Move::ConnectGauges,
        Move::ReadGauge(Port::Suction),
        Move::ReadGauge(Port::Liquid),
        Move::ReadPipe(PipePoint::SuctionAtServiceValve),
        Move::ReadPipe(PipePoint::LiquidBeforeDrier),
        Move::ReadPipe(PipePoint::LiquidAfterDrier),
        Move::Wait(Duration::Minutes(10.0)),
        Move::ReadGauge(Port::Suction),
        Move::ReadGauge(Port::Liquid),
    ]
}

/// Works a visit with the usual care and with another, and says by how much any probability differs after each entry.
fn apart(call: &Call, other: Care) -> Vec<(String, f64)> {
    let mut visit = Visit::start(call, 5).expect("finite");
    let arrive = |care| {
        Hypotheses::arrive_with(call, &Prior::Usual, care, &diagnosis::Unwatched)
            .expect("finite")
            .expect("nobody stops it")
    };
    let (mut usual, mut careful) = (arrive(Care::USUAL), arrive(other));
    let mut all = Vec::new();
    for action in moves() {
        visit.perform(&action).expect("finite");
        let entry = visit.notebook().last().expect("an entry").clone();
        for suspects in [&mut usual, &mut careful] {
            suspects.follow(&entry, &diagnosis::Unwatched).expect("finite").expect("nobody stops it");
        }
        let pairs = usual.names().iter().zip(usual.probabilities().into_iter().zip(careful.probabilities()));
        let far = pairs.map(|(name, (one, other))| ((one - other).abs(), name, one, other));
        if let Some((most, name, one, other)) = far.max_by(|a, b| a.0.total_cmp(&b.0)) {
            let told = format!("{:?}: {name:?} {one:.3} and {other:.3}", entry.action);
            println!("{most:.4} {told}");
            all.push((told, most));
        }
    }
    println!("shadows: {:?} and {:?}", usual.following(), careful.following());
    all
}

fn hold(other: Care) {
    for (system, kind, severity) in [
        ("split-3-ton-r410a-txv", "Undercharged", 0.3),
        ("split-2-ton-r410a-orifice", "LoadedFilter", 0.7),
        ("split-3-ton-r32-txv-ecm", "FouledCondenser", 0.6),
    ] {
        let fault =
            format!("(kind: {kind}, severity: ({severity}, {severity}), onset: (Hours(0), Hours(0)))");
        let all = apart(&call(system, &fault), other);
        let far: Vec<&(String, f64)> = all.iter().filter(|(_, most)| *most > MOST).collect();
        assert!(far.is_empty(), "{system}, {kind}: {far:?}");
    }
}

#[test]
fn half_the_step_moves_nothing() {
    hold(Care { pace: Care::SLOW.pace, ..Care::USUAL });
}

#[test]
fn twice_the_severities_move_nothing() {
    hold(Care { first: FirstShadows::Twice, ..Care::USUAL });
}

#[test]
fn finer_severities_move_nothing() {
    hold(Care { pace: Care::USUAL.pace, ..Care::SLOW });
}
