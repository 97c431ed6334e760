//! Moves that make sense at a place, for lists and buttons.

use call::{Duration, Mass, Pressure, Question, Temperature, TemperatureDifference};
use plant::{BlowerKind, Capacitor, ChargeTarget, FanSetting, LeakPlace, Mode, Plant, Switch};

use crate::action::Move;
use crate::hazard::Caution;
use crate::limits::Limited;
use crate::moves::caution;
use crate::place::{Bulb, ChargeBy, CylinderUse, LeakMethod, Location, Panel, PipePoint, Place, Port};
use crate::refusal::Refusal;
use crate::site_map::{air_point, conductors_at, ohm_pairs, static_pairs, terminal_pairs};
use crate::timing::{GLANCE_S, WALK_S};
use crate::visit::Visit;

/// A move that makes sense at a place.
#[derive(Clone, Debug, PartialEq)]
pub struct Offer {
    /// The move.
    pub action: Move,
    /// What it takes from where the learner stands, min.
    pub minutes: f64,
    /// Why the site forbids it now.
    pub refused: Option<Refusal>,
    /// What is to be minded.
    pub caution: Option<Caution>,
}

impl Visit {
    /// Moves possible at a place, each with whether the site allows it now. Quantities (set point, mass) are
    /// suggestions; any other value makes a move as well.
    pub fn offers(&self, place: Place) -> Vec<Offer> {
        self.moves_at(place).into_iter().map(|action| self.offer(action)).collect()
    }

    /// Moves that belong to no place: questions, waits, verification, closing. A declaration is written by the
    /// learner and has no ready form.
    pub fn global_offers(&self) -> Vec<Offer> {
        let mut moves: Vec<Move> = Question::ALL.into_iter().map(Move::Ask).collect();
        let waits =
            [Duration::Minutes(5.0), Duration::Minutes(15.0), Duration::Hours(1.0), Duration::Hours(4.0)];
        moves.extend(waits.map(Move::Wait));
        moves.push(Move::Verify);
        moves.push(Move::CloseTicket);
        moves.into_iter().map(|action| self.offer(action)).collect()
    }

    /// One move as an offer: what it takes now, and whether the site allows it.
    pub fn offer(&self, action: Move) -> Offer {
        let walk_s = match self.location_of(&action) {
            Some(location) if location != self.site.standing => WALK_S,
            _ => 0.0,
        };
        let base_s = if self.is_in_place(action.row().at) { GLANCE_S } else { action.takes_s() };
        Offer {
            minutes: (walk_s + base_s) / 60.0,
            refused: self.refusal(&action),
            caution: caution(&action),
            action,
        }
    }

    fn moves_at(&self, place: Place) -> Vec<Move> {
        let mut moves = vec![Move::Look(place)];
        match place {
            Place::Thermostat => moves.extend(self.thermostat_moves()),
            Place::ReturnGrille | Place::SupplyRegister => {}
            Place::FilterSlot => moves.extend([Move::InspectFilter, Move::ReplaceFilter]),
            Place::Blower => moves.extend([
                self.toggle(Panel::BlowerCompartment),
                Move::WatchBlower,
                Move::IndoorServiceSwitch(opposite(self.inputs.indoor_service_switch)),
            ]),
            Place::ControlBoard => moves.push(self.toggle(Panel::BlowerCompartment)),
            Place::IndoorCoil => {
                moves.push(self.toggle(Panel::CoilCabinet));
                moves.extend(leak_moves(LeakPlace::IndoorCoil));
                moves.push(Move::MakeAreaSafe(Location::Indoors));
            }
            Place::MeteringDevice => moves.extend([
                self.toggle(Panel::CoilCabinet),
                Move::ReadPipe(PipePoint::SuctionAtBulb),
                Move::ReadPipe(PipePoint::SensingBulb),
                Move::ReadPipe(PipePoint::LiquidAtMeteringDevice),
                Move::WarmBulb,
                Move::ChillBulb,
                Move::PutBulbBack,
                Move::InsulateBulb,
                Move::ReplaceMeteringDevice,
            ]),
            Place::LineSet => moves.extend(leak_moves(LeakPlace::LiquidLine)),
            Place::Drier => moves.extend([
                Move::ReadPipe(PipePoint::LiquidBeforeDrier),
                Move::ReadPipe(PipePoint::LiquidAfterDrier),
            ]),
            Place::OutdoorUnit => moves.extend(self.outdoor_unit_moves()),
            Place::OutdoorDisconnect => {
                moves.push(Move::OutdoorDisconnect(opposite(self.inputs.outdoor_disconnect)));
            }
        }
        moves.extend(self.jobs_at(place).into_iter().map(Move::Repair));
        moves.extend(self.capacitors_at(place).into_iter().map(Move::DischargeCapacitor));
        for capacitor in self.capacitors_at(place) {
            let (from, to) = Plant::capacitor_terminals(capacitor);
            moves.push(Move::MeasureCapacitance { from, to });
        }
        let has = |terminal| self.plant.terminals().any(|known| known == terminal);
        moves.extend(
            ohm_pairs(place)
                .iter()
                .filter(|(from, to)| has(*from) && has(*to))
                .map(|&(from, to)| Move::MeasureResistance { from, to }),
        );
        moves.extend(
            conductors_at(place)
                .filter(|conductor| self.plant.conductors().any(|known| known == *conductor))
                .map(Move::ClampCurrent),
        );
        if let Some(point) = air_point(place) {
            moves.extend([Bulb::Dry, Bulb::Wet].map(|bulb| Move::ReadAir(point, bulb)));
        }
        moves.extend(
            terminal_pairs(place)
                .iter()
                .filter(|(from, to)| has(*from) && has(*to))
                .map(|&(from, to)| Move::MeasureVoltage { from, to }),
        );
        moves.extend(static_pairs(place).iter().map(|&(high, low)| Move::MeasureStatic { high, low }));
        moves
    }

    fn thermostat_moves(&self) -> Vec<Move> {
        let allowed_f = Limited::SetPoint.limit().entered_ip;
        let set_f = libm::round(media::units::fahrenheit_from_kelvin(self.inputs.thermostat.set_point_k));
        let set = |mode, fan, set_point_f: f64| Move::SetThermostat {
            mode,
            fan,
            set_point: Temperature::Fahrenheit(set_point_f.clamp(*allowed_f.start(), *allowed_f.end())),
        };
        vec![
            set(Mode::Off, FanSetting::Auto, set_f),
            set(Mode::Off, FanSetting::On, set_f),
            set(Mode::Cool, FanSetting::Auto, set_f),
            set(Mode::Cool, FanSetting::Auto, set_f - 5.0),
            set(Mode::Cool, FanSetting::Auto, 75.0),
        ]
    }

    fn outdoor_unit_moves(&self) -> Vec<Move> {
        let mut moves = vec![
            Move::ReadDataPlate,
            match self.site.gauges {
                crate::site::Gauges::Off => Move::ConnectGauges,
                crate::site::Gauges::On => Move::DisconnectGauges,
            },
            Move::ReadGauge(Port::Suction),
            Move::ReadGauge(Port::Liquid),
            Move::ReadPipe(PipePoint::SuctionAtServiceValve),
            Move::ReadPipe(PipePoint::LiquidAtServiceValve),
            Move::ReadPipe(PipePoint::Discharge),
            self.toggle(Panel::OutdoorElectrical),
        ];
        moves.extend(leak_moves(LeakPlace::SuctionServiceValve));
        moves.extend([
            Move::Recover,
            Move::Evacuate,
            Move::WeighIn(Mass::Ounces(libm::round(media::units::oz_from_kg(
                self.plant.system().plate_charge_kg,
            )))),
            Move::AddRefrigerant(Mass::Ounces(8.0)),
        ]);
        moves.extend(self.service_moves());
        moves
    }

    /// Service beyond the ready moves; quantities are suggestions.
    fn service_moves(&self) -> Vec<Move> {
        let (by, target) = match self.plant.system().data_plate().charge_target {
            ChargeTarget::Subcooling { .. } => (ChargeBy::Subcooling, 10.0),
            ChargeTarget::SuperheatChart => (ChargeBy::Superheat, 12.0),
        };
        vec![
            Move::RecoverTo(Pressure::InchesOfVacuum(10.0)),
            Move::RemoveRefrigerant(Mass::Ounces(4.0)),
            Move::PressurizeWithNitrogen(Pressure::PoundsGauge(150.0)),
            Move::StandingTest(Duration::Minutes(30.0)),
            Move::VentNitrogen,
            Move::PurgeWithNitrogen,
            Move::EvacuateTo { target: Pressure::Microns(500.0), within: Duration::Hours(1.0) },
            Move::DecayTest(Duration::Minutes(10.0)),
            Move::AddVapor(Mass::Ounces(8.0)),
            Move::ChargeTo {
                by,
                target: TemperatureDifference::FahrenheitDifference(target),
                at_most: Mass::Ounces(32.0),
                within: Duration::Hours(2.0),
            },
            Move::ChangeCylinder(CylinderUse::Charging),
            Move::ChangeCylinder(CylinderUse::Recovery),
            Move::MakeAreaSafe(Location::Outdoors),
        ]
    }

    fn capacitors_at(&self, place: Place) -> Vec<Capacitor> {
        match place {
            Place::OutdoorUnit => vec![Capacitor::Compressor, Capacitor::OutdoorFan],
            Place::Blower if self.plant.blower_kind() == BlowerKind::Psc => vec![Capacitor::Blower],
            _ => Vec::new(),
        }
    }

    fn toggle(&self, panel: Panel) -> Move {
        if self.site.is_open(panel) { Move::ClosePanel(panel) } else { Move::OpenPanel(panel) }
    }
}

fn opposite(switch: Switch) -> Switch {
    match switch {
        Switch::Closed => Switch::Open,
        Switch::Open => Switch::Closed,
    }
}

fn leak_moves(place: LeakPlace) -> [Move; 3] {
    [
        Move::SearchLeak(place, LeakMethod::ElectronicDetector),
        Move::SearchLeak(place, LeakMethod::Bubbles),
        Move::RepairLeak(place),
    ]
}
