//! Looking, asking, reading plates.

use call::Milestone;
use plant::Metering;

use super::{Step, act, pass};
use crate::moves::Move;
use crate::note::PlateNote;
use crate::timing::base_s;

pub(super) fn plan(action: &Move) -> Vec<Step> {
    let done = match action {
        Move::Ask(_) => act(|_, task| {
            let Move::Ask(question) = task.action else { return };
            task.note(question);
        }),
        Move::ReadDataPlate => act(|visit, task| {
            let system = visit.plant.system();
            task.note(PlateNote::Charge {
                refrigerant: system.refrigerant,
                charge_kg: system.plate_charge_kg,
            });
            let plate = system.data_plate();
            task.note(PlateNote::Line {
                line_length_m: plate.line_length_m,
                adder_kg_m: plate.charge_adder_kg_m,
            });
            task.note(match system.metering {
                Metering::Txv { .. } => {
                    PlateNote::ExpansionValve { subcooling_difference_k: system.plate_subcooling_k }
                }
                Metering::Orifice { .. } => PlateNote::Orifice,
            });
            task.note(PlateNote::HighPressureSwitch {
                opens_gauge_pa: media::units::gauge_pa_from_absolute_pa(
                    system.controls.high_pressure_opens_pa,
                    media::units::STANDARD_ATMOSPHERE_PA,
                ),
            });
        }),
        _ => act(|visit, task| {
            visit.look(task);
            if task.reached.contains(&Milestone::CoilThawed) {
                visit.site.coil_seen_clear = true;
            }
        }),
    };
    vec![pass(base_s(action)), done]
}
