//! Indoor unit: evaporator coil, blower, filter and ducts.

use super::difference::part;

part! {
    /// Evaporator coil.
    Evaporator (EvaporatorDifference) {
        /// Refrigerant volume, m³.
        volume_m3: f64,
        /// Conductance refrigerant to wall, boiling, whole coil at rated flow, W/K: the film in the tubes and the way through the
        /// fins to their mean. On three tons 1.4 m² of rifled tube at some 5 kW/(m² K), twice a smooth tube's film, and as much
        /// again for the fins (typ.; enhancement after Webb & Kim, Principles of Enhanced Heat Transfer, from memory).
        boiling_ua_w_k: f64,
        /// Conductance wall to air, dry, whole coil at rated airflow, W/K.
        air_ua_w_k: f64,
        /// Overall conductance air to superheating vapour, whole coil at rated flow, W/K.
        superheat_ua_w_k: f64,
        /// Heat capacity of the metal, J/K.
        metal_capacity_j_k: f64,
        /// Fin surface, m².
        fin_area_m2: f64,
        /// Clear gap between fins, m.
        fin_gap_m: f64,
    }
}

part! {
    /// Blower, filter, ducts.
    AirSide (AirSideDifference) {
        /// Rated airflow, m³/s.
        rated_flow_m3_s: f64,
        /// Blower static pressure at no flow, Pa.
        blower_shutoff_pa: f64,
        /// Blower airflow at no static pressure, m³/s.
        blower_free_m3_s: f64,
        /// Blower power at no flow, W.
        blower_power_shutoff_w: f64,
        /// Rise of blower power with airflow, W per m³/s.
        blower_power_slope_w_s_m3: f64,
        /// Pressure drop of the clean filter at rated airflow, Pa.
        filter_drop_pa: f64,
        /// Pressure drop of the wet coil at rated airflow, Pa.
        coil_drop_pa: f64,
        /// Pressure drop of return and supply ducts at rated airflow, Pa.
        duct_drop_pa: f64,
        /// Share of the duct drop on the return side.
        return_share: f64,
    }
}
