//! Moist air against two libraries: `PsychroLib` 2.5.0 (the same handbook equations, so nearly to the digit) and
//! `CoolProp` 8.0.0 (real-gas humid air after ASHRAE RP-1485, so within what the ideal gas costs).

use media::moist_air as air;
use oracle::rows;

const PSYCHROLIB: &str = include_str!("../data/psychrolib.csv");
const REAL_GAS: &str = include_str!("../data/coolprop_humid_air.csv");

/// A wick just below 0 °C may be wet or iced; in this band both answers are right (the library takes either).
const WET_OR_ICED_C: std::ops::Range<f64> = -0.8..0.8;

struct Largest {
    name: &'static str,
    bound: f64,
    error: f64,
    compared: usize,
}

impl Largest {
    fn new(name: &'static str, bound: f64) -> Largest {
        Largest { name, bound, error: 0.0, compared: 0 }
    }
    fn note(&mut self, error: f64) {
        assert!(error.is_finite(), "{}", self.name);
        self.compared += 1;
        if error.abs() > self.error.abs() {
            self.error = error;
        }
    }
    fn check(&self) {
        println!(
            "{:<44} largest of {}: {:+.3e}, bound {:e}",
            self.name, self.compared, self.error, self.bound
        );
        assert!(self.compared > 100, "{} was hardly compared", self.name);
        assert!(self.error.abs() <= self.bound, "{}: {}", self.name, self.error);
    }
}

#[test]
fn agrees_with_psychrolib() {
    let mut all = [
        Largest::new("humidity ratio from relative humidity, relative", 1e-7),
        Largest::new("saturation pressure, relative", 1e-7),
        Largest::new("dew point, K", 0.0001),
        Largest::new("wet bulb, K", 0.002),
        Largest::new("humidity ratio from wet bulb, kg/kg", 1e-9),
        Largest::new("enthalpy, J/kg", 0.01),
        Largest::new("volume, relative", 1e-6),
        Largest::new("density, relative", 1e-6),
        Largest::new("relative humidity, of 1", 1e-6),
    ];
    let rows = rows(PSYCHROLIB);
    assert!(rows.iter().filter(|row| row["wet_bulb_c"] < -1.0).count() > 100, "iced wet bulbs are compared");
    assert!(rows.iter().filter(|row| row["dew_point_c"] < -1.0).count() > 100, "frost points are compared");
    for row in &rows {
        let (t_c, rh, p_pa, w) =
            (row["dry_bulb_c"], row["relative_humidity"], row["pressure_pa"], row["humidity_ratio"]);
        all[0].note(air::humidity_ratio_from_relative_humidity(t_c, rh, p_pa) / w - 1.0);
        all[1].note(air::saturation_pressure_pa(t_c) / row["saturation_pressure_pa"] - 1.0);
        all[2].note(air::dew_point_c(w, p_pa) - row["dew_point_c"]);
        if !WET_OR_ICED_C.contains(&row["wet_bulb_c"]) {
            all[3].note(air::wet_bulb_c(t_c, w, p_pa) - row["wet_bulb_c"]);
            all[4].note(
                air::humidity_ratio_from_wet_bulb(t_c, row["wet_bulb_c"], p_pa)
                    - row["humidity_ratio_of_wet_bulb"],
            );
        }
        all[5].note(air::enthalpy_j_kg(t_c, w) - row["enthalpy_j_kg"]);
        all[6].note(air::specific_volume_m3_kg(t_c, w, p_pa) / row["volume_m3_kg"] - 1.0);
        all[7].note(air::density_kg_m3(t_c, w, p_pa) / row["density_kg_m3"] - 1.0);
        all[8].note(air::relative_humidity(t_c, w, p_pa) - rh);
    }
    for largest in &all {
        largest.check();
    }
}

#[test]
fn agrees_with_real_gas_humid_air() {
    let mut all = [
        Largest::new("real gas: humidity ratio, %", 1.0),
        Largest::new("real gas: dew point, K", 0.15),
        Largest::new("real gas: wet bulb, K", 0.15),
        Largest::new("real gas: enthalpy, J/kg", 400.0),
        Largest::new("real gas: volume, %", 0.1),
    ];
    for row in rows(REAL_GAS) {
        let (t_c, rh, p_pa, w) =
            (row["dry_bulb_c"], row["relative_humidity"], row["pressure_pa"], row["humidity_ratio"]);
        all[0].note((air::humidity_ratio_from_relative_humidity(t_c, rh, p_pa) / w - 1.0) * 100.0);
        all[1].note(air::dew_point_c(w, p_pa) - row["dew_point_c"]);
        if !WET_OR_ICED_C.contains(&row["wet_bulb_c"]) {
            all[2].note(air::wet_bulb_c(t_c, w, p_pa) - row["wet_bulb_c"]);
        }
        all[3].note(air::enthalpy_j_kg(t_c, w) - row["enthalpy_j_kg"]);
        all[4].note((air::specific_volume_m3_kg(t_c, w, p_pa) / row["volume_m3_kg"] - 1.0) * 100.0);
    }
    for largest in &all {
        largest.check();
    }
}
