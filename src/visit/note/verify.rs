//! Notes of proving the repair.

use serde::{Deserialize, Serialize};

/// Of proving the repair.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum VerifyNote {
    /// The set point is put down for the test.
    SetPointDown {
        /// To what, K.
        set_point_k: f64,
    },
    /// It is back where it was.
    SetPointBack,
    /// The compressor does not run.
    CompressorOff,
    /// The readings are still moving.
    StillMoving,
    /// Outdoors it is too cold for superheat and subcooling to judge a charge.
    TooColdToJudgeCharge,
}
