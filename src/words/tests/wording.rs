//! What some messages must say whatever their wording: rules, limits, numbers, and no negative nothing.

use call::{Mass, TemperatureDifference};
use plant::{Conductor, LeakPlace, Terminal, Work};
use visit::{
    Absence, AreaNote, Bulb, Caution, ChargeBy, ChargeNote, FilterNote, GaugeNote, LeakNote, Limited,
    Location, Margin, Measured, Move, NitrogenNote, Note, Panel, PipePoint, Port, RecoveryNote, Refusal,
    ShownMargin, Sight, SiteNote, VacuumNote, VerifyNote,
};
use words::{Units, Words};

fn told(fact: impl Into<Note>) -> String {
    Words::default().say(&fact.into())
}

#[test]
fn cautions_name_the_danger_the_rule_and_what_decides() {
    for (caution, named) in [
        (
            Caution::CircuitWork,
            &["Recover first", "40 CFR 82", "nitrogen", "never oxygen", "local codes"][..],
        ),
        (Caution::OutdoorPanel, &["capacitor that holds its charge", "lock it"]),
        (Caution::Gauges, &["frost", "40 CFR 82"]),
        (Caution::BlowerCompartment, &["Rotating"]),
        (Caution::EcmResistance, &["wait five minutes", "proved dead"]),
        (Caution::Nitrogen, &["Never oxygen", "regulator", "data plate"]),
        (Caution::FlammableRefrigerant, &["A2L", "flames"]),
        (Caution::Recovery, &["40 CFR 82", "80 %"]),
        (Caution::Evacuation, &["windings", "disconnect out"]),
        (Caution::DischargeCapacitor, &["Through a resistor"]),
    ] {
        let said = Words::default().say(&caution);
        for name in named {
            assert!(said.contains(name), "{caution:?} without {name:?}: {said}");
        }
    }
}

#[test]
fn every_work_on_the_circuit_is_cautioned_with_the_rule_on_venting() {
    let of_parts = Work::PARTS.into_iter().filter(|work| work.opens_circuit()).map(Move::Repair);
    let own = [Move::RepairLeak(LeakPlace::LiquidLine), Move::ReplaceMeteringDevice];
    let mut works = 0;
    // What has a move of its own is not offered as work on a part.
    for action in of_parts.filter(|action| *action != Move::Repair(Work::ReplaceMeteringDevice)).chain(own) {
        let caution = visit::caution(&action).unwrap_or_else(|| panic!("{action:?} without a caution"));
        let said = Words::default().say(&caution);
        assert!(said.contains("40 CFR 82"), "{action:?}: {said}");
        works += 1;
    }
    assert!(works > 5, "{works}");
}

#[test]
fn refusals_say_what_is_in_the_way() {
    use Refusal as R;
    for (refusal, names) in [
        (R::CabinetHidesMeteringDevice, "coil cabinet is closed"),
        (R::PanelHidesTerminalStrip, "blower panel is still on"),
        (R::PanelHidesWheel, "blower panel is still on"),
        (R::BehindPanel(Panel::CoilCabinet), "coil cabinet is closed"),
        (R::BehindPanel(Panel::BlowerCompartment), "blower panel is still on"),
        (R::BehindPanel(Panel::OutdoorElectrical), "electrical panel of the outdoor unit is still on"),
        (R::TerminalsBehindPanel(Panel::BlowerCompartment), "blower panel is still on"),
        (
            R::TerminalsBehindPanel(Panel::OutdoorElectrical),
            "electrical panel of the outdoor unit is still on",
        ),
        (R::PanelClosedAlready(Panel::CoilCabinet), "The coil cabinet is already closed"),
        (R::LeadsTooShort, "leads don't reach"),
        (R::SameTerminal, "same terminal"),
        (R::NoGauges, "gauges are not connected"),
        (R::NoHoses, "connect the gauges first"),
        (R::NoHosesOn, "No hoses"),
        (R::WaitOutOfRange, "12 hours"),
        (R::SetPointOutOfRange, "50 to 90 °F"),
        (R::CircuitUnderPressure, "Recover first"),
        (R::RefrigerantInCircuit, "Recover first"),
        (R::TopUpIsNotWeighingIn, "top-up"),
        (R::NoVacuumToWeighInto, "evacuate before you weigh in"),
        (R::WeighWholeChargeIn, "weigh the whole charge in"),
        (R::NothingToRecover, "nothing left"),
        (R::NoChargeToRun, "no charge"),
        (R::NothingStartsThermostatOff, "thermostat is off"),
        (R::NothingStartsDisconnectOut, "disconnect is out"),
        (R::NothingStartsAirHandlerOff, "air handler is switched off"),
        (R::NoBulb, "no bulb"),
        (R::IceBeforeWash, "thaw"),
        (R::IceBeforePeel, "thaw"),
        (R::NoMediumOnCoil, "nothing to peel"),
        (R::HasMoveOfItsOwn(Work::ReplaceFilter), "move of its own: put a new filter in"),
        (R::PscHasNoModule, "This blower has a PSC motor"),
        (R::PscHasNoHarness, "This blower has a PSC motor"),
        (R::EcmHasNoRunCapacitor, "no run capacitor"),
        (R::NoVoltageAtMotorPlug, "Measure ohms"),
        (R::NoSuchTerminal(Terminal::EcmCommand), "no such terminal: ECM plug, command"),
        (R::NoSuchWire(Conductor::EcmCommand), "no such wire: "),
        (R::RecoveryCylinderFull, "80 % full"),
        (R::NoNitrogen, "no nitrogen"),
        (R::NitrogenInCircuit, "nitrogen in the circuit"),
        (R::NoThermometer(PipePoint::LiquidAtServiceValve), "on the liquid line at the service valve"),
        (R::CompressorOff, "compressor is off"),
    ] {
        let said = Words::default().say(&refusal);
        assert!(said.contains(names), "{refusal:?} without {names:?}: {said}");
        assert!(said.starts_with(char::is_uppercase) && said.ends_with('.'), "{said}");
    }
}

/// The limits that a refusal names are those that are refused by.
#[test]
fn the_limits_of_a_mass_are_named_as_they_are() {
    let said = Words::default().say(&Refusal::MassOutOfRange);
    assert!(said.contains("0.2 oz (5 g)") && said.contains("25 lb (11.3 kg)"), "{said}");
    assert!(
        visit::scale_tells(Mass::Grams(5.0).kilograms()) && !visit::scale_tells(Mass::Grams(4.9).kilograms())
    );
}

#[test]
fn notes_tell_the_rule_the_limit_and_the_number() {
    let at_rest = ShownMargin::NoSubcooling(Absence::AtRest);
    let told = [
        (told(FilterNote::SlotEmpty), "slot is empty"),
        (told(Sight::MediumOnCoil), "mat of filter medium"),
        (told(Sight::DisplayDark), "dark"),
        (told(SiteNote::RunsOn), "keeps running"),
        (told(SiteNote::PanelBackOn(Panel::CoilCabinet)), "the coil cabinet"),
        (told(GaugeNote::IceWhenLastSeen), "ice"),
        (told(LeakNote::Vented { vented_kg: 1.682_4 }), "3 lb 11.3 oz of refrigerant blow into the air"),
        (told(LeakNote::Vented { vented_kg: 1.682_4 }), "40 CFR 82"),
        (told(LeakNote::SmellsNoNitrogen), "not nitrogen"),
        (told(RecoveryNote::CylinderFull { holds_kg: 10.0 }), "It holds 22 lb 0.7 oz"),
        (told(RecoveryNote::CylinderFull { holds_kg: 10.0 }), "80 % of it and no more (49 CFR 173.304a"),
        (told(NitrogenNote::Flushed { times: 1 }), "the vacuum pump and nitrogen once more"),
        (told(NitrogenNote::Flushed { times: 2 }), "2 times the vacuum pump and nitrogen again"),
        (
            told(NitrogenNote::Dropped { expected_gauge_pa: 1_378_951.5, drop_difference_pa: 20_684.3 }),
            "200.0 psig was to be expected): down by 3.0 psi",
        ),
        (told(ChargeNote::BlendAsVapor), "blend"),
        (told(ChargeNote::CompressorStopped { by: ChargeBy::Subcooling }), "no subcooling to charge by"),
        (told(ChargeNote::Now { shown: at_rest }), "no subcooling (the compressor is off)"),
        (told(ChargeNote::NotConnected), "Time is up, and nothing"),
        (told(AreaNote::Detected { share: 0.034 }), "3 % of the lower flammability limit"),
        (told(AreaNote::LeftUntilClear { share: 0.5 }), "50 % of the lower flammability limit: you leave"),
        (told(VacuumNote::StoodAtTarget { after_s: 1500.0 }), "After 25 min of pumping"),
        (told(VacuumNote::ValvedOff { shown_vacuum_pa: 46.662_8 }), "valved off at 350 microns"),
        (told(VacuumNote::ValvedOff { shown_vacuum_pa: 46.662_8 }), "a decay test of ten minutes or more"),
        (told(VacuumNote::TooShort), "so short a test does not show"),
        (told(VacuumNote::Holds), "the vacuum holds"),
        (told(VerifyNote::TooColdToJudgeCharge), "below 55 °F (13 °C) outside"),
    ];
    for (said, names) in told {
        assert!(said.contains(names), "without {names:?}: {said}");
    }
}

#[test]
fn charging_that_is_out_of_time_counts_its_steps() {
    let target_difference_k = TemperatureDifference::FahrenheitDifference(40.0).kelvin();
    let over = |steps| told(ChargeNote::TimeOver { target_difference_k, steps });
    for (steps, names) in [(0, "no step was made"), (1, "after one step"), (7, "after 7 steps")] {
        assert!(over(steps).contains("40.0 °F") && over(steps).contains(names), "{}", over(steps));
    }
}

#[test]
fn instruments_are_named_by_what_they_read() {
    for (quantity, name) in [
        (Measured::PipeTemperature(PipePoint::Discharge), "Discharge line"),
        (Measured::GaugePressure(Port::Suction), "Suction pressure"),
        (Measured::AirTemperature(visit::AirPoint::Return, Bulb::Wet), "Return air, wet bulb"),
        (Measured::Resistance(Terminal::R, Terminal::C), "Resistance from R (24 V hot) to C (24 V common)"),
    ] {
        assert_eq!(Words::default().heading(&quantity), name);
    }
    let indoors = Words::default().say(&Move::MakeAreaSafe(Location::Indoors));
    assert!(indoors.contains("air handler"), "{indoors}");
}

#[test]
fn a_superheat_is_told_with_what_instruments_can_tell_of_it() {
    let said = |units, value_k: f64, by| Words::in_units(units).say(&Margin::shown(value_k).of_what(by));
    let superheat = |value_k| said(Units::Si, value_k, ChargeBy::Superheat);
    let subcooling = |value_k| said(Units::Si, value_k, ChargeBy::Subcooling);
    assert_eq!(superheat(5.04), "superheat 5.0 K");
    assert_eq!(said(Units::Ip, 5.0, ChargeBy::Superheat), "superheat 9.0 °F");
    assert_eq!(superheat(-0.31), "superheat -0.3 K (saturated, as far as instruments tell)");
    assert_eq!(subcooling(0.0), "subcooling 0.0 K (saturated, as far as instruments tell)");
    assert_eq!(superheat(-3.0), "no superheat (liquid comes back with the vapor)");
    assert_eq!(subcooling(-40.0), "no subcooling (there is vapor in the liquid line)");
}

/// Whether a text holds a number that is nothing and has a sign: "-0", "-0.0", "-0.00".
fn has_negative_nothing(text: &str) -> bool {
    text.split([' ', '±', ',', ';', '(', ')'])
        .any(|word| word.starts_with("-0") && !word.contains(|letter: char| matches!(letter, '1'..='9')))
}

#[test]
fn nothing_has_no_sign() {
    assert!(has_negative_nothing("by -0.0 psi") && !has_negative_nothing("-0.3 K and - no"));
    // What gauges, clamps and scales err by around zero, in SI and in the reader's units.
    for units in [Units::Ip, Units::Si] {
        let words = Words::in_units(units);
        for step in -400..=400 {
            let near = f64::from(step) / 400.0;
            let mut texts = vec![
                units.gauge_pressure(700.0 * near),
                units.pressure_difference(700.0 * near),
                units.vacuum(near),
                units.temperature(255.372_222 + near),
                units.temperature(273.15 + near),
                units.wall_temperature(255.372_222 + near),
                units.temperature_difference(near),
                units.mass(0.01 * near),
                units.weighed(0.01 * near),
                units.heat_rate(60.0 * near),
                words::voltage(near),
                words::current(near),
                words::resistance(near),
                words::capacitance(1.0e-7 * near),
            ];
            for by in [ChargeBy::Superheat, ChargeBy::Subcooling] {
                let shown = Margin::shown(near).of_what(by);
                texts.push(words.say(&shown));
                texts.push(words.say(&Note::from(ChargeNote::OnTarget { shown })));
            }
            for text in texts {
                assert!(!has_negative_nothing(&text), "{units:?}, {near}: {text}");
            }
        }
    }
}

/// What the display of a scale drifts to is told as nothing.
#[test]
fn a_scale_that_shows_less_than_it_tells_shows_nothing() {
    for (units, nothing) in [(Units::Ip, "0.0 oz"), (Units::Si, "0.000 kg")] {
        for weighed_kg in [-0.004, 0.0, 0.004_9] {
            let said = Words::in_units(units).say(&Note::from(ChargeNote::Weighed { weighed_kg }));
            assert_eq!(said, format!("The scale shows {nothing} into the circuit."));
        }
    }
}

/// The numbers in a refusal are those of the table of limits.
#[test]
fn refusals_of_a_quantity_name_its_limits() {
    use Limited as L;
    use Refusal as R;
    for (refusal, of, scale_ip, scale_si) in [
        (R::SetPointOutOfRange, L::SetPoint, 1.0, 1.0),
        (R::MassOutOfRange, L::Mass, 16.0, 1000.0),
        (R::WaitOutOfRange, L::Wait, 60.0, 60.0),
        (R::TestOutOfRange, L::Wait, 60.0, 60.0),
        (R::EvacuationOutOfRange, L::Within, 60.0, 60.0),
        (R::ChargingOutOfRange, L::Within, 60.0, 60.0),
        (R::RegulatorOutOfRange, L::TestPressure, 1.0, 1000.0),
        (R::TargetOutOfRange, L::ChargeTarget, 1.0, 1.0),
    ] {
        let said = Words::default().say(&refusal);
        let limit = of.limit();
        for most in [limit.entered_ip.end() / scale_ip, limit.entered_si.end() / scale_si] {
            assert!(said.contains(&format!("{most} ")), "{refusal:?} without {most}: {said}");
        }
    }
    let least = L::Vacuum.limit();
    let said = Words::default().say(&R::VacuumOutOfRange);
    for least in [least.entered_ip.start(), least.entered_si.start()] {
        assert!(said.contains(&format!("{least} ")), "{least}: {said}");
    }
    let deepest = *L::RecoveryDepth.limit().entered_ip.end();
    assert!(Words::default().say(&R::RecoveryOutOfRange).contains(&format!("{deepest} inHg")));
}
