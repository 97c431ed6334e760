//! What instruments show.

mod common;

use call::{Duration, Milestone};
use common::{all, cool, off, reading, sound, tells};
use media::units::STANDARD_ATMOSPHERE_PA;
use plant::Terminal;
use visit::{
    AirPoint, Bulb, GaugeNote, Measured, Move, Panel, PipePoint, Place, Port, Trust, Visit, instrument,
};

/// A sound plant that has run steadily, gauges on.
fn steady(seed: u64) -> Visit {
    let mut visit = sound(seed);
    all(&mut visit, &[Move::ConnectGauges, cool(50.0), Move::Wait(Duration::Minutes(25.0))]);
    visit
}

/// A plant whose coil freezes behind a loaded filter and whose compressor still runs: after a night ([`common::frozen`]) it
/// would stand on its thermal disc.
fn freezing(seed: u64) -> Visit {
    let call = call::read(&common::call_text("Minutes(70)"), "an-hour").expect("a valid call");
    let charge_kg = call.system.plate_charge_kg;
    let faults = [common::fault(plant::FaultKind::LoadedFilter, None, 0.9)];
    Visit::start_with(&call, seed, &faults, charge_kg).expect("the history is finite")
}

#[test]
fn readings_stay_within_the_instruments_accuracy_and_differ_by_seed() {
    let mut errors_pa = Vec::new();
    for seed in 0..12 {
        let mut visit = steady(seed);
        let read = reading(&mut visit, &Move::ReadGauge(Port::Suction));
        let true_pa = visit.truth().suction_pressure_pa - STANDARD_ATMOSPHERE_PA;
        let class = instrument(read.quantity);
        let error_pa = read.value - true_pa;
        // Calibration within the accuracy, plus three deviations of noise and half a step.
        let bound_pa = class.accuracy_at(true_pa) * 1.2 + class.resolution;
        assert!(error_pa.abs() <= bound_pa, "{error_pa} Pa against {bound_pa}");
        assert_eq!(read.value % class.resolution, 0.0);
        errors_pa.push(error_pa);
    }
    let mean_pa = errors_pa.iter().sum::<f64>() / errors_pa.len() as f64;
    assert!(errors_pa.iter().any(|e| *e > mean_pa + 500.0) && errors_pa.iter().any(|e| *e < mean_pa - 500.0));
}

#[test]
fn one_instrument_errs_alike_through_the_visit() {
    let mut visit = steady(2);
    let mut errors_k = Vec::new();
    for _ in 0..6 {
        let read = reading(&mut visit, &Move::ReadPipe(PipePoint::LiquidBeforeDrier));
        errors_k.push(read.value - visit.truth().liquid_before_drier_k);
    }
    let spread_k =
        errors_k.iter().fold(f64::MIN, |a, b| a.max(*b)) - errors_k.iter().fold(f64::MAX, |a, b| a.min(*b));
    assert!(spread_k <= 0.4, "calibration stays, noise and steps are small: {errors_k:?}");
    assert!(errors_k.iter().all(|error_k| error_k.abs() < 0.8), "{errors_k:?}");
}

#[test]
fn a_clamp_needs_its_time() {
    let mut visit = steady(2);
    visit.begin(&Move::ReadPipe(PipePoint::Discharge));
    // A walk outside, the clamp put on, and a few seconds of settling.
    visit.work(60.0 + 18.0 + 5.0).expect("the plant stays finite");
    let live = |visit: &Visit| {
        visit
            .live()
            .into_iter()
            .find(|live| live.quantity == Measured::PipeTemperature(PipePoint::Discharge))
            .expect("the clamp is on")
    };
    let early = live(&visit);
    assert_eq!(early.trust, Trust::Unsettled);
    assert!(early.value < visit.truth().discharge_k - 5.0);
    while visit.busy().is_some() {
        visit.work(10.0).expect("the plant stays finite");
    }
    let late = live(&visit);
    assert!((late.value - visit.truth().discharge_k).abs() < 1.0, "{late:?}");
    assert_eq!(late.trust, Trust::Sound);
    assert_eq!(late.unit, "K");
}

#[test]
fn an_instrument_in_place_is_read_at_a_glance() {
    let mut visit = steady(2);
    let point = PipePoint::SuctionAtServiceValve;
    let took_s = |visit: &Visit| {
        let entry = visit.notebook().last().expect("an entry");
        entry.finished_s - entry.started_s
    };
    reading(&mut visit, &Move::ReadPipe(point));
    assert!(took_s(&visit) > 60.0);
    reading(&mut visit, &Move::ReadPipe(point));
    assert_eq!(took_s(&visit), 15.0);
    // There are four clamps; the one left alone for longest moves on.
    for other in [PipePoint::LiquidBeforeDrier, PipePoint::LiquidAfterDrier, PipePoint::Discharge] {
        reading(&mut visit, &Move::ReadPipe(other));
    }
    assert_eq!(visit.live().len(), 2 + 4);
    reading(&mut visit, &Move::ReadPipe(point));
    assert_eq!(took_s(&visit), 15.0);
    all(&mut visit, &[Move::OpenPanel(Panel::CoilCabinet)]);
    reading(&mut visit, &Move::ReadPipe(PipePoint::SuctionAtBulb));
    assert_eq!(visit.live().len(), 2 + 4);
    let left: Vec<Measured> = visit.live().into_iter().map(|live| live.quantity).collect();
    assert!(!left.contains(&Measured::PipeTemperature(PipePoint::LiquidBeforeDrier)), "{left:?}");
}

#[test]
fn trust_tells_why_a_reading_means_little() {
    let mut standing = sound(2);
    all(&mut standing, &[off(), Move::ConnectGauges]);
    assert_eq!(reading(&mut standing, &Move::ReadGauge(Port::Liquid)).trust, Trust::CompressorStopped);

    let mut starting = sound(2);
    all(&mut starting, &[off(), Move::ConnectGauges, Move::Wait(Duration::Minutes(10.0)), cool(50.0)]);
    all(&mut starting, &[Move::Wait(Duration::Minutes(1.0))]);
    assert_eq!(reading(&mut starting, &Move::ReadGauge(Port::Suction)).trust, Trust::Unsettled);

    let mut iced = freezing(2);
    all(&mut iced, &[Move::ConnectGauges]);
    assert!(iced.plant().compressor_runs() && iced.truth().frost_mass_kg > 1.0, "{:?}", iced.truth());
    assert_eq!(reading(&mut iced, &Move::ReadGauge(Port::Suction)).trust, Trust::IceOnCoil);
    // In the same way with the blower's air, and no longer once the ice is gone: the same machine with a new filter.
    assert_eq!(reading(&mut iced, &Move::ReadAir(AirPoint::Supply, Bulb::Dry)).trust, Trust::IceOnCoil);
    all(&mut iced, &[off(), Move::ReplaceFilter, Move::Wait(Duration::Hours(10.0))]);
    assert_eq!(iced.truth().frost_mass_kg, 0.0);
    all(&mut iced, &[cool(50.0), Move::Wait(Duration::Minutes(25.0))]);
    assert_eq!(reading(&mut iced, &Move::ReadGauge(Port::Suction)).trust, Trust::Sound);

    let mut visit = steady(2);
    assert_eq!(reading(&mut visit, &Move::ReadGauge(Port::Suction)).trust, Trust::Sound);
    assert_eq!(reading(&mut visit, &Move::ReadAir(AirPoint::Supply, Bulb::Dry)).trust, Trust::Sound);
}

/// No display looks through the sheet metal of the cabinet: ice is told as it was last seen, and until then by nothing but
/// a value that moves.
#[test]
fn ice_is_shown_only_as_it_was_seen() {
    let mut visit = freezing(2);
    all(&mut visit, &[Move::ConnectGauges]);
    let shown = |visit: &mut Visit| {
        let read = reading(visit, &Move::ReadGauge(Port::Suction));
        let told = tells(visit.notebook().last().expect("an entry"), GaugeNote::IceWhenLastSeen);
        let live =
            visit.live().into_iter().find(|live| live.quantity == read.quantity).expect("gauges are on");
        (read.trust, live.trust, told)
    };
    let (trust, live, told) = shown(&mut visit);
    assert_eq!(trust, Trust::IceOnCoil);
    assert!(matches!(live, Trust::Sound | Trust::Unsettled) && !told, "{live:?}: {:?}", visit.notebook());

    all(&mut visit, &[Move::OpenPanel(Panel::CoilCabinet), Move::Look(Place::IndoorCoil)]);
    assert_eq!(shown(&mut visit), (Trust::IceOnCoil, Trust::IceOnCoil, true));

    // That it has melted is not told either until it is seen.
    all(&mut visit, &[off(), Move::ReplaceFilter, Move::Wait(Duration::Hours(10.0))]);
    all(&mut visit, &[cool(50.0), Move::Wait(Duration::Minutes(25.0))]);
    assert_eq!(shown(&mut visit), (Trust::Sound, Trust::IceOnCoil, true));
    all(&mut visit, &[Move::Look(Place::IndoorCoil)]);
    assert_eq!(shown(&mut visit), (Trust::Sound, Trust::Sound, false));
}

#[test]
fn air_and_voltage_read_true() {
    let mut visit = steady(2);
    let dry = reading(&mut visit, &Move::ReadAir(AirPoint::Outdoor, Bulb::Dry));
    let wet = reading(&mut visit, &Move::ReadAir(AirPoint::Outdoor, Bulb::Wet));
    assert!((dry.value - visit.truth().outdoor_k).abs() < 0.5);
    assert!(wet.value < dry.value);
    all(&mut visit, &[Move::OpenPanel(Panel::BlowerCompartment)]);
    let command = reading(&mut visit, &Move::MeasureVoltage { from: Terminal::Y, to: Terminal::C });
    assert!((20.0..30.0).contains(&command.value), "{command:?}");
    all(&mut visit, &[off()]);
    let gone = reading(&mut visit, &Move::MeasureVoltage { from: Terminal::Y, to: Terminal::C });
    assert!((0.0..1.0).contains(&gone.value), "{gone:?}");
    let reached: Vec<Milestone> = visit.milestones().iter().map(|(milestone, _)| *milestone).collect();
    assert!(reached.contains(&Milestone::ControlVoltageMeasured));
}

#[test]
fn readings_taken_together_reach_milestones() {
    let mut visit = steady(2);
    all(
        &mut visit,
        &[
            Move::ReadGauge(Port::Suction),
            Move::ReadPipe(PipePoint::SuctionAtServiceValve),
            Move::ReadGauge(Port::Liquid),
            Move::ReadPipe(PipePoint::LiquidBeforeDrier),
            Move::ReadPipe(PipePoint::LiquidAfterDrier),
            Move::ReadAir(AirPoint::Return, Bulb::Dry),
            Move::ReadAir(AirPoint::Supply, Bulb::Dry),
        ],
    );
    let reached: Vec<Milestone> = visit.milestones().iter().map(|(milestone, _)| *milestone).collect();
    for wanted in [
        Milestone::SuperheatMeasured,
        Milestone::PressuresRead,
        Milestone::SubcoolingMeasured,
        Milestone::DrierDropMeasured,
        Milestone::TemperatureSplitMeasured,
    ] {
        assert!(reached.contains(&wanted), "{wanted:?} in {reached:?}");
    }
    // Half an hour apart is not together.
    let mut apart = steady(2);
    all(
        &mut apart,
        &[
            Move::ReadGauge(Port::Suction),
            Move::Wait(Duration::Minutes(30.0)),
            Move::ReadPipe(PipePoint::SuctionAtServiceValve),
        ],
    );
    let late: Vec<Milestone> = apart.milestones().iter().map(|(milestone, _)| *milestone).collect();
    assert!(!late.contains(&Milestone::SuperheatMeasured), "{late:?}");
}
