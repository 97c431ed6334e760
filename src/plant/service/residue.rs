//! What recovery cannot take out: the vapour of a circuit at atmospheric pressure and what its oil holds under it.

use crate::state::Plant;
use crate::sump::{dissolved_kg, oil_saturation_pa};
use media::moist_air::STANDARD_PRESSURE_PA;

impl Plant {
    /// Refrigerant that is left when a circuit at the temperature of the air around it has been recovered to 0 psig, as the law
    /// asks of a high-pressure appliance with less than 200 lb (40 CFR 82.156 table 1), and its oil has come to rest, kg.
    /// Opening, flushing and evacuating let it go.
    pub fn left_by_recovery_kg(&self) -> f64 {
        let fluid = self.system.refrigerant.tables();
        let volumes = self.system.volumes();
        let (outdoor_k, indoor_k) = (self.slow.outdoor_k, self.slow.room_k);
        let gas_kg_m3 = |at_k| fluid.at_pt_vapour(STANDARD_PRESSURE_PA, at_k).density_kg_m3;
        let vapour_kg =
            (volumes.high_m3 + volumes.line_m3) * gas_kg_m3(outdoor_k) + volumes.low_m3 * gas_kg_m3(indoor_k);
        vapour_kg
            + dissolved_kg(&self.system.compressor, STANDARD_PRESSURE_PA, oil_saturation_pa(fluid, outdoor_k))
    }
}
