//! What is true where an instrument is put on.

use plant::Readout;

use crate::place::{AirPoint, Bulb, PipePoint, Port, StaticTap};

/// Pressure at a port, Pa gauge.
pub(crate) fn gauge_pressure_pa(truth: &Readout, port: Port) -> f64 {
    let absolute_pa = match port {
        Port::Suction => truth.suction_pressure_pa,
        Port::Liquid => truth.liquid_pressure_pa,
    };
    media::units::gauge_pa_from_absolute_pa(absolute_pa, media::units::STANDARD_ATMOSPHERE_PA)
}

/// Temperature of a pipe, K.
pub(crate) fn pipe_k(truth: &Readout, point: PipePoint) -> f64 {
    match point {
        PipePoint::SuctionAtServiceValve => truth.suction_line_outdoor_k,
        PipePoint::SuctionAtBulb => truth.suction_line_indoor_k,
        PipePoint::LiquidAtServiceValve => truth.liquid_service_valve_k,
        PipePoint::LiquidBeforeDrier => truth.liquid_before_drier_k,
        PipePoint::LiquidAfterDrier => truth.liquid_after_drier_k,
        PipePoint::LiquidAtMeteringDevice => truth.liquid_indoor_k,
        PipePoint::Discharge => truth.discharge_k,
        PipePoint::SensingBulb => truth.bulb_k,
    }
}

/// Temperature of air, with the dew point of the weather, K.
pub(crate) fn air_k(truth: &Readout, dew_point_k: f64, point: AirPoint, bulb: Bulb) -> f64 {
    match (point, bulb) {
        (AirPoint::Return, Bulb::Dry) => truth.return_dry_bulb_k,
        (AirPoint::Return, Bulb::Wet) => truth.return_wet_bulb_k,
        (AirPoint::Supply, Bulb::Dry) => truth.supply_dry_bulb_k,
        (AirPoint::Supply, Bulb::Wet) => truth.supply_wet_bulb_k,
        (AirPoint::Outdoor, Bulb::Dry) => truth.outdoor_k,
        (AirPoint::Outdoor, Bulb::Wet) => outdoor_wet_bulb_k(truth.outdoor_k, dew_point_k),
    }
}

/// Wet bulb of outdoor air from its dew point; saturated air if it has cooled to the dew point.
fn outdoor_wet_bulb_k(outdoor_k: f64, dew_point_k: f64) -> f64 {
    let outdoor_c = media::units::celsius_from_kelvin(outdoor_k);
    let dew_point_c = media::units::celsius_from_kelvin(dew_point_k.min(outdoor_k));
    let pressure_pa = media::units::STANDARD_ATMOSPHERE_PA;
    let humidity_ratio = media::moist_air::saturation_humidity_ratio(dew_point_c, pressure_pa);
    let wet_bulb_c = media::moist_air::wet_bulb_c(outdoor_c, humidity_ratio, pressure_pa);
    media::units::kelvin_from_celsius(wet_bulb_c)
}

/// Static pressure at a tap, Pa against the room.
pub(crate) fn static_pa(truth: &Readout, tap: StaticTap) -> f64 {
    match tap {
        StaticTap::Room => 0.0,
        StaticTap::Return => truth.return_static_pa,
        StaticTap::BeforeCoil => truth.coil_inlet_static_pa,
        StaticTap::AfterCoil => truth.coil_outlet_static_pa,
        StaticTap::Supply => truth.supply_static_pa,
    }
}
