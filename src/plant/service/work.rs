//! Work: what a technician can do with tools.

use serde::{Deserialize, Serialize};

use crate::LeakPlace;

/// Work on the plant. Work that opens the refrigerant circuit vents what is left above atmospheric
/// pressure and lets air in: recover first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Work {
    /// A new filter in the slot, whatever was or was not in it. What has been sucked onto the coil stays there.
    ReplaceFilter,
    /// The medium of a collapsed filter taken off the face of the indoor coil.
    PeelFilterMedium,
    /// The indoor coil washed, with whatever lay on its face. Fits no filter.
    CleanCoil,
    /// The return duct hung and sealed again.
    RestoreReturnDuct,
    /// All supply registers opened and cleared.
    OpenSupplies,
    /// The blower wheel taken out and cleaned.
    CleanBlowerWheel,
    /// The blower put on its right speed tap.
    SetSpeedTap,
    /// A new run capacitor for the blower.
    ReplaceBlowerCapacitor,
    /// A new blower motor (an ECM with its module).
    ReplaceBlowerMotor,
    /// A new module on the ECM blower.
    ReplaceBlowerModule,
    /// The command harness of the ECM blower mended.
    ReconnectBlowerCommand,
    /// A new control board with its blower relay.
    ReplaceBoard,
    /// A new thermostat.
    ReplaceThermostat,
    /// The damaged low-voltage conductor mended.
    RepairConductor,
    /// A new low-voltage fuse.
    ReplaceControlFuse,
    /// A new control transformer.
    ReplaceTransformer,
    /// The drain cleared and the float switch put right.
    RestoreCondensateSwitch,
    /// A new contactor.
    ReplaceContactor,
    /// A new metering device of the right size, with its bulb strapped and a new drier. Opens the circuit.
    ReplaceMeteringDevice,
    /// A new liquid-line drier. Opens the circuit.
    ReplaceDrier,
    /// The kinked length of liquid line replaced. Opens the circuit.
    ReplaceLiquidLine,
    /// The kinked length of suction line replaced. Opens the circuit.
    ReplaceSuctionLine,
    /// The bulb strapped to the suction line and insulated.
    StrapAndInsulateBulb,
    /// The outdoor coil washed.
    CleanCondenser,
    /// A new run capacitor for the outdoor fan.
    ReplaceFanCapacitor,
    /// A new outdoor fan motor.
    ReplaceFanMotor,
    /// A new run capacitor for the compressor.
    ReplaceCompressorCapacitor,
    /// A new compressor. Opens the circuit.
    ReplaceCompressor,
    /// A leak closed. Opens the circuit.
    RepairLeak(LeakPlace),
}

impl Work {
    /// Every piece of work but the leaks.
    pub const PARTS: [Work; 28] = [
        Work::ReplaceFilter,
        Work::PeelFilterMedium,
        Work::CleanCoil,
        Work::RestoreReturnDuct,
        Work::OpenSupplies,
        Work::CleanBlowerWheel,
        Work::SetSpeedTap,
        Work::ReplaceBlowerCapacitor,
        Work::ReplaceBlowerMotor,
        Work::ReplaceBlowerModule,
        Work::ReconnectBlowerCommand,
        Work::ReplaceBoard,
        Work::ReplaceThermostat,
        Work::RepairConductor,
        Work::ReplaceControlFuse,
        Work::ReplaceTransformer,
        Work::RestoreCondensateSwitch,
        Work::ReplaceContactor,
        Work::ReplaceMeteringDevice,
        Work::ReplaceDrier,
        Work::ReplaceLiquidLine,
        Work::ReplaceSuctionLine,
        Work::StrapAndInsulateBulb,
        Work::CleanCondenser,
        Work::ReplaceFanCapacitor,
        Work::ReplaceFanMotor,
        Work::ReplaceCompressorCapacitor,
        Work::ReplaceCompressor,
    ];

    /// Whether the refrigerant circuit must be opened for it.
    pub fn opens_circuit(self) -> bool {
        matches!(
            self,
            Work::ReplaceMeteringDevice
                | Work::ReplaceDrier
                | Work::ReplaceLiquidLine
                | Work::ReplaceSuctionLine
                | Work::ReplaceCompressor
                | Work::RepairLeak(_)
        )
    }
}
