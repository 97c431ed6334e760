//! Tests that share a set-up: what several of them tell together, by joint draws.
//!
//! A panel that comes off with the disconnect out, or a plant that is thawed and run up, pays for all that is read there.
//! What a few tests tell together is less than the sum: the same truth stands behind them. So truths are drawn (a suspect on
//! a shadow), for each the outcome of every test, and what is left open by part is averaged over them (particles as in
//! Gordon, Salmond and Smith 1993; the mean entropy is the worth of an experiment, Lindley 1956). The draws are evenly
//! spread and the same each time.

use crate::outcomes::{Row, Table};

/// Truths that are drawn.
const DRAWS: usize = 256;
/// Fractional parts of the multiples of these spread evenly in up to four dimensions: powers of the inverse of the root
/// of x⁵ = x + 1 (additive recurrence; the root from memory, held by a test).
const ROOT: f64 = 1.167_303_978_261_418_7;

/// What is drawn, and what the tests made so far leave of it.
#[derive(Clone, Debug)]
pub(crate) struct Draws<'a> {
    rows: &'a [Row<'a>],
    parts: usize,
    /// Row of each draw.
    truths: Vec<usize>,
    /// Weight of each row after the outcomes drawn, by draw.
    left: Vec<f64>,
    /// Tests taken in so far.
    taken: usize,
    open_bits: f64,
}

impl<'a> Draws<'a> {
    pub(crate) fn new(rows: &'a [Row<'a>], parts: usize) -> Draws<'a> {
        let total: f64 = rows.iter().map(|row| row.probability).sum();
        let mut truths = Vec::with_capacity(DRAWS);
        let (mut at, mut sum) = (0, 0.0);
        for draw in 0..DRAWS {
            let wanted = (draw as f64 + 0.5) / DRAWS as f64 * total;
            while at + 1 < rows.len() && sum + rows[at].probability < wanted {
                sum += rows[at].probability;
                at += 1;
            }
            truths.push(at);
        }
        let weights: Vec<f64> = rows.iter().map(|row| row.probability / total).collect();
        let mut draws = Draws {
            rows,
            parts,
            truths,
            left: weights.iter().copied().cycle().take(DRAWS * rows.len()).collect(),
            taken: 0,
            open_bits: 0.0,
        };
        draws.open_bits = draws.entropy_bits(&weights);
        draws
    }

    /// What is left open by part, bit, for weights of the rows.
    fn entropy_bits(&self, weights: &[f64]) -> f64 {
        let mut chances = vec![0.0; self.parts];
        let mut total = 0.0;
        for (row, weight) in self.rows.iter().zip(weights) {
            chances[row.part] += weight;
            total += weight;
        }
        if total <= 0.0 {
            return 0.0;
        }
        chances
            .iter()
            .map(|chance| chance / total)
            .filter(|chance| *chance > 1.0e-12)
            .map(|chance| -chance * libm::log2(chance))
            .sum()
    }

    /// Outcome of a test for one draw.
    fn outcome(&self, table: &Table, draw: usize) -> usize {
        let step = libm::pow(ROOT, -((self.taken + 1) as f64));
        let along = (0.5 + (draw + 1) as f64 * step).fract();
        let chances = table.row(self.truths[draw]);
        let mut sum = 0.0;
        for (column, chance) in chances.iter().enumerate() {
            sum += chance;
            if along < sum {
                return column;
            }
        }
        // The last one that can be, for what rounding leaves.
        chances.iter().rposition(|chance| *chance > 0.0).unwrap_or(table.columns() - 1)
    }

    /// What the tests taken in and one more tell together, bit.
    pub(crate) fn gain_with(&self, table: &Table) -> f64 {
        let count = self.rows.len();
        let mut weights = vec![0.0; count];
        let mut left_bits = 0.0;
        for draw in 0..DRAWS {
            let column = self.outcome(table, draw);
            let left = &self.left[draw * count..(draw + 1) * count];
            for (at, (weight, left)) in weights.iter_mut().zip(left).enumerate() {
                *weight = left * table.row(at)[column];
            }
            left_bits += self.entropy_bits(&weights);
        }
        (self.open_bits - left_bits / DRAWS as f64).max(0.0)
    }

    /// Takes a test in.
    pub(crate) fn take(&mut self, table: &Table) {
        let count = self.rows.len();
        for draw in 0..DRAWS {
            let column = self.outcome(table, draw);
            let left = &mut self.left[draw * count..(draw + 1) * count];
            for (at, left) in left.iter_mut().enumerate() {
                *left *= table.row(at)[column];
            }
        }
        self.taken += 1;
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::hypothesis::Hypothesis;

    /// So many suspects with a part each.
    fn rows(suspect: &Hypothesis, chances: &[f64]) -> Vec<Row<'static>> {
        let suspect: &'static Hypothesis = Box::leak(Box::new(suspect.clone()));
        let row = |(at, probability): (usize, &f64)| Row {
            suspect,
            index: at,
            part: at,
            probability: *probability,
            shadow: at,
        };
        chances.iter().enumerate().map(row).collect()
    }

    fn nobody() -> Hypothesis {
        Hypothesis { causes: Vec::new() }
    }

    #[test]
    fn the_draws_are_spread_by_the_root_that_they_say() {
        assert!((libm::pow(ROOT, 5.0) - ROOT - 1.0).abs() < 1.0e-12);
    }

    /// Two tests that halve what is open in different ways tell both together, the same one twice tells no more.
    #[test]
    fn what_tests_tell_together_is_no_sum_where_they_tell_the_same() {
        let suspect = nobody();
        let rows = rows(&suspect, &[0.25; 4]);
        let high = Table::by_hand(2, vec![1.0, 0.0, 1.0, 0.0, 0.0, 1.0, 0.0, 1.0]);
        let low = Table::by_hand(2, vec![1.0, 0.0, 0.0, 1.0, 1.0, 0.0, 0.0, 1.0]);
        let mut draws = Draws::new(&rows, 4);
        assert!((draws.gain_with(&high) - 1.0).abs() < 1.0e-9);
        draws.take(&high);
        assert!((draws.gain_with(&high) - 1.0).abs() < 1.0e-9, "the same again");
        assert!((draws.gain_with(&low) - 2.0).abs() < 1.0e-9, "the other half");
    }

    /// With slips in them, the draws come to what the table says of one test, and a second try of it tells a little more.
    #[test]
    fn the_draws_come_to_what_the_table_says() {
        let suspect = nobody();
        let rows = rows(&suspect, &[0.6, 0.3, 0.1]);
        let noisy = Table::by_hand(3, vec![0.7, 0.2, 0.1, 0.15, 0.8, 0.05, 0.1, 0.3, 0.6]);
        let exact = noisy.gain_bits(&rows, 3);
        let mut draws = Draws::new(&rows, 3);
        let drawn = draws.gain_with(&noisy);
        assert!((drawn / exact - 1.0).abs() < 0.05, "{drawn} against {exact} bit");
        draws.take(&noisy);
        let twice = draws.gain_with(&noisy);
        assert!(twice > 1.1 * exact && twice < 1.9 * exact, "{twice} against {exact} bit");
        // The same draws each time.
        assert_eq!(Draws::new(&rows, 3).gain_with(&noisy), drawn);
    }
}
