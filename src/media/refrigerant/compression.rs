//! Compressions along isentropes, by a table of exponents that the property tables make once.

use super::isentrope::{CELLS, Isentropes, LEAST_LN, NO_COMPRESSION, RATIO, entropy_at};
use super::isobar::Isobar;
use super::table::Table;
use crate::elementary::{exp, ln};

/// The table of exponents of a refrigerant.
pub(super) fn isentropes_of(table: &Table) -> Isentropes {
    let rows = table.saturation.columns.len() - 1;
    Isentropes::new(rows, table.coarse_share, |row| {
        let p =
            table.saturation.pressure_between_rows(row.min(rows - 1), if row < rows { 0.0 } else { 1.0 }).0;
        let start = Isobar::new(table, table.row(p));
        let end_pa = (p * RATIO).min(0.99 * table.highest_pressure_pa);
        let end = Isobar::new(table, table.row(end_pa));
        let exponent = |cell| {
            let entropy = entropy_at(start.row(), cell);
            let span = ln(end.at_s_vapour(entropy).density_kg_m3 / start.at_s_vapour(entropy).density_kg_m3);
            (if span > LEAST_LN { ln(end_pa / p) / span } else { NO_COMPRESSION }) as f32
        };
        std::array::from_fn::<f32, { CELLS + 1 }, _>(exponent)
    })
}

impl Isobar<'_> {
    /// Mean exponent of an isentropic compression to 2.8 times the pressure, from the state with a specific entropy: to some
    /// thousandths in vapour, to a hundredth in wet vapour. The pressure times the ratio of volumes to this power is that behind a
    /// built-in compression; work up to there hardly depends on it, since a pressure that is a little off is made up behind it.
    #[must_use]
    #[inline]
    pub fn isentropic_exponent(&self, entropy_j_kg_k: f64) -> f64 {
        self.table().isentropes.exponent(self.row(), entropy_j_kg_k)
    }

    /// Pressure at which the volume of a state with a specific entropy has shrunk by a ratio, by that exponent, Pa.
    #[must_use]
    pub fn compressed_pa(&self, entropy_j_kg_k: f64, volume_ratio: f64) -> f64 {
        self.row().pressure_pa
            * exp(self.isentropic_exponent(entropy_j_kg_k).clamp(0.9, 1.6) * ln(volume_ratio))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::refrigerant::Refrigerant;
    use crate::refrigerant::row::Column;

    /// Against the tables, where scrolls work: in vapour to 0.5 %, wet to 2 %.
    #[test]
    fn exponent_is_that_of_the_tables() {
        for fluid in [Refrigerant::r410a(), Refrigerant::r32(), Refrigerant::r22(), Refrigerant::r454b()] {
            let (mut dry_worst, mut wet_worst) = (0.0_f64, 0.0_f64);
            for i in 0..60 {
                let p = 3.0e4 * exp(0.0667 * f64::from(i));
                let (start, end) = (fluid.isobar(p), fluid.isobar(RATIO * p));
                for k in 0..80 {
                    let (s_l, s_v) =
                        (start.row().saturated[Column::LIQUID_ENTROPY], start.row().dew_entropy());
                    let s = s_v
                        + if k < 20 {
                            0.5 * (s_l - s_v) * f64::from(20 - k) / 20.0
                        } else {
                            5.0 * f64::from(k - 20)
                        };
                    let span = ln(end.at_s_vapour(s).density_kg_m3 / start.at_s_vapour(s).density_kg_m3);
                    let off = (start.isentropic_exponent(s) * span / ln(RATIO) - 1.0).abs();
                    if k < 20 {
                        wet_worst = wet_worst.max(off)
                    } else {
                        dry_worst = dry_worst.max(off)
                    };
                }
            }
            assert!(dry_worst < 5.0e-3 && wet_worst < 2.0e-2, "{} {dry_worst} {wet_worst}", fluid.name());
        }
    }
}
