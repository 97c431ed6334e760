//! The low-voltage fuse: a strip of metal that its own current warms until it melts.

use serde::{Deserialize, Serialize};

use super::network::Complex;
use super::terminals::{Conductor, NODES};

/// Rating of the blade fuse on the board of the air handler, A (3 or 5, typ.).
const RATED_A: f64 = 5.0;
/// Least current that ever melts it, over its rating, and time constant of its element, s.
///
/// One heat store with one way out melts at a current I after -T ln(1 - (least/I)²). Blade fuses of up to 40 A (ISO 8820-3,
/// SAE J1284, from memory): no opening within 100 h at 110 %; 0.75 to 600 s at 135 %; 0.15 to 5 s at 200 %; 0.04 to 0.5 s at
/// 350 %; 0.02 to 0.1 s at 600 %. These two give never; 2.3 s; 0.60 s; 0.16 s; 0.05 s. Ratios from 1.15 to 1.33 and times from
/// 0.6 to 2.2 s stay within.
const MELTS_AT_SHARE: f64 = 1.25;
const TIME_S: f64 = 1.2;
/// Closer to where it settles than this its warmth stays there.
const SETTLED: f64 = 1.0e-4;

/// State of the fuse.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub(crate) struct Fuse {
    /// Rise of its element over the air as a share of the rise at which it melts.
    pub warmth: f64,
    /// It has melted.
    pub blown: bool,
}

impl Fuse {
    /// Warmth at which a current of this square would settle, A².
    pub(crate) fn settles_at(square_a2: f64) -> f64 {
        let melts_a = MELTS_AT_SHARE * RATED_A;
        square_a2 / (melts_a * melts_a)
    }

    /// A step on the way to where it settles; exact for a current that stays, whatever the step.
    pub(crate) fn warm(&mut self, settles_at: f64, dt_s: f64) {
        let gap = settles_at - self.warmth;
        if gap.abs() < SETTLED {
            return;
        }
        self.warmth = settles_at - gap * libm::exp(-dt_s / TIME_S);
        if self.warmth >= 1.0 {
            *self = Fuse { warmth: 0.0, blown: true };
        }
    }

    /// Whether it is as warm as it will be at this current, or has melted.
    pub(crate) fn rests(&self, settles_at: f64) -> bool {
        self.blown || (settles_at - self.warmth).abs() < SETTLED
    }

    /// A new fuse is put in; whether the old one had melted.
    pub(crate) fn replace(&mut self) -> bool {
        let blown = self.blown;
        *self = Fuse::default();
        blown
    }
}

/// Square of the current through the fuse, A².
pub(crate) fn fuse_current_square_a2(potentials: &[Complex; NODES]) -> f64 {
    let (from, to) = Conductor::FuseToR.ends();
    (potentials[from] - potentials[to]).square() / (Conductor::FuseToR.ohm() * Conductor::FuseToR.ohm())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Time to melt at a multiple of the rating, s; none within an hour.
    fn melts_after_s(multiple: f64, dt_s: f64) -> Option<f64> {
        let settles_at = Fuse::settles_at((multiple * RATED_A) * (multiple * RATED_A));
        let mut fuse = Fuse::default();
        (1..).map(|n| f64::from(n) * dt_s).take_while(|t| *t < 3600.0).find(|_| {
            fuse.warm(settles_at, dt_s);
            fuse.blown
        })
    }

    #[test]
    fn it_melts_within_the_gates_of_a_blade_fuse() {
        assert_eq!(melts_after_s(1.10, 0.25), None);
        for (multiple, from_s, to_s) in
            [(1.35, 0.75, 600.0), (2.0, 0.15, 5.0), (3.5, 0.04, 0.5), (6.0, 0.02, 0.1)]
        {
            let after_s = melts_after_s(multiple, 0.001).expect("melts");
            assert!((from_s..=to_s).contains(&after_s), "{multiple}: {after_s} s");
        }
        // Only the step it falls into depends on the step.
        let (fine, coarse) =
            (melts_after_s(1.35, 0.001).expect("melts"), melts_after_s(1.35, 0.25).expect("melts"));
        assert!(coarse >= fine && coarse - fine <= 0.25, "{fine} and {coarse} s");
    }
}
