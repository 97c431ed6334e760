//! What nobody knows and what stays: the error of an instrument, what the model is off by, house and weather.
//!
//! Each unknown is counted in its own standard deviations before anything was read. A reading is linear in them, so what it
//! teaches about all at once is a Kalman filter (Kalman 1960): a meter that reads one voltage high reads all of them
//! high, and one reading of the air outdoors says where the pressures will lie. What passes, such as how far a plant that has
//! just started lags, is forgotten at its own pace; so ten readings within a minute of such a plant count as one.

use visit::Measured;

/// Share of readings that mean nothing: a slipped clamp, a misread display (engineering value).
const OUTLIERS: f64 = 0.003;
/// Time in which what passes is forgotten, s (engineering value).
const PASSES_S: f64 = 300.0;

/// Something that nobody knows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Unknown {
    /// Where in its range a quantity of house or weather lies.
    Surroundings(usize),
    /// What is missing of the charge that should be there.
    Charge,
    /// Calibration of a piece of the bag.
    Piece(u8),
    /// What the model of a quantity is off by, all visit long.
    Standing(Measured),
    /// What it is off by at the moment.
    Passing(Measured),
}

/// By how much one standard deviation of an unknown moves a reading.
pub(crate) type Term = (Unknown, f64);

/// What is known by now of what nobody knew.
#[derive(Clone, Debug, Default)]
pub(crate) struct Unknowns {
    known: Vec<Unknown>,
    mean: Vec<f64>,
    /// Covariance: rows of the lower triangle, one after the other.
    covariance: Vec<f64>,
    /// Time to which those that pass stand, s.
    at_s: f64,
}

/// A reading with what it is held against.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Told<'a> {
    /// What was read, in the quantity's unit.
    pub value: f64,
    /// When, s.
    pub at_s: f64,
    /// What was expected if every unknown were at its mean.
    pub expected: f64,
    /// What moves it.
    pub terms: &'a [Term],
    /// Variance from reading to reading.
    pub noise: f64,
    /// Density of a reading that means nothing.
    pub flat: f64,
}

impl Unknowns {
    /// What the unknowns known so far move a reading by.
    pub(crate) fn shift(&self, terms: &[Term]) -> f64 {
        terms.iter().filter_map(|(unknown, by)| Some(by * self.mean[self.position(*unknown)?])).sum()
    }

    /// Density of a reading, and how many of its standard deviations it is off; learns from it.
    pub(crate) fn weigh(&mut self, told: Told<'_>) -> (f64, f64) {
        self.pass(told.at_s);
        let terms: Vec<(usize, f64)> =
            told.terms.iter().map(|(unknown, by)| (self.index_of(*unknown), *by)).collect();
        let count = self.known.len();
        let mut gains = vec![0.0; count];
        for (index, by) in &terms {
            for (other, gain) in gains.iter_mut().enumerate() {
                *gain += by * self.covariance[at(*index, other)];
            }
        }
        let spread = told.noise + terms.iter().map(|(index, by)| by * gains[*index]).sum::<f64>();
        let off =
            told.value - told.expected - terms.iter().map(|(index, by)| by * self.mean[*index]).sum::<f64>();
        let normal = libm::exp(-0.5 * off * off / spread) / libm::sqrt(2.0 * core::f64::consts::PI * spread);
        let density = (1.0 - OUTLIERS) * normal + OUTLIERS * told.flat;
        // An outlier teaches nothing.
        let believed = (1.0 - OUTLIERS) * normal / density;
        for row in 0..count {
            let gain = believed * gains[row] / spread;
            self.mean[row] += gain * off;
            let begins = at(row, 0);
            let row = &mut self.covariance[begins..=begins + row];
            for (variance, other) in row.iter_mut().zip(&gains) {
                *variance -= gain * other;
            }
        }
        (density, off / libm::sqrt(spread))
    }

    fn position(&self, unknown: Unknown) -> Option<usize> {
        self.known.iter().position(|known| *known == unknown)
    }

    /// Where an unknown stands; one that is new comes with a mean of 0 and a variance of 1.
    fn index_of(&mut self, unknown: Unknown) -> usize {
        self.position(unknown).unwrap_or_else(|| {
            self.known.push(unknown);
            self.mean.push(0.0);
            self.covariance.extend(std::iter::repeat_n(0.0, self.known.len() - 1));
            self.covariance.push(1.0);
            self.known.len() - 1
        })
    }

    /// What passes is forgotten as time goes on.
    fn pass(&mut self, at_s: f64) {
        let passed_s = (at_s - self.at_s).max(0.0);
        self.at_s = self.at_s.max(at_s);
        let kept = libm::exp(-passed_s / PASSES_S);
        for index in 0..self.known.len() {
            if !matches!(self.known[index], Unknown::Passing(_)) {
                continue;
            }
            self.mean[index] *= kept;
            for other in 0..self.known.len() {
                self.covariance[at(index, other)] *= if other == index { kept * kept } else { kept };
            }
            self.covariance[at(index, index)] += 1.0 - kept * kept;
        }
    }
}

/// Place of a pair in the lower triangle.
fn at(one: usize, other: usize) -> usize {
    let (row, column) = if one >= other { (one, other) } else { (other, one) };
    row * (row + 1) / 2 + column
}

#[cfg(test)]
mod tests {
    use super::*;
    use visit::Port;

    const LIQUID: Measured = Measured::GaugePressure(Port::Liquid);

    fn told<'a>(value: f64, expected: f64, terms: &'a [Term]) -> Told<'a> {
        Told { value, at_s: 0.0, expected, terms, noise: 0.01, flat: 1.0e-9 }
    }

    /// Two readings of one meter that is off tell less than those of two.
    #[test]
    fn one_piece_is_off_by_the_same_each_time() {
        let read = |pieces: [u8; 2]| {
            let mut unknowns = Unknowns::default();
            pieces.map(|piece| unknowns.weigh(told(2.0, 0.0, &[(Unknown::Piece(piece), 1.0)])).0)
        };
        let (same, two) = (read([1, 1]), read([1, 2]));
        assert_eq!(same[0], two[0]);
        assert!(same[1] > 2.0 * two[1], "{same:?} and {two:?}");
    }

    /// What a reading teaches about a common cause is known to the next one of another quantity.
    #[test]
    fn a_common_cause_is_learnt_from_any_reading() {
        let outdoors = Unknown::Surroundings(0);
        let mut unknowns = Unknowns::default();
        unknowns.weigh(told(1.5, 0.0, &[(outdoors, 1.0)]));
        let terms = [(outdoors, 40.0), (Unknown::Standing(LIQUID), 0.1)];
        assert!((unknowns.shift(&terms) - 60.0).abs() < 2.0);
    }

    /// What passes counts once within a minute, and anew much later.
    #[test]
    fn what_passes_is_forgotten() {
        let terms = [(Unknown::Passing(LIQUID), 1.0)];
        let mut unknowns = Unknowns::default();
        let z: Vec<f64> = [0.0, 10.0, 4000.0]
            .map(|at_s| unknowns.weigh(Told { at_s, ..told(2.0, 0.0, &terms) }).1)
            .to_vec();
        assert!(z[1] < 0.3 * z[0] && (z[2] - z[0]).abs() < 0.01, "{z:?}");
    }

    /// The order of readings doesn't matter.
    #[test]
    fn order_does_not_matter() {
        let terms = [
            [(Unknown::Piece(1), 1.0), (Unknown::Surroundings(0), 0.5)],
            [(Unknown::Piece(1), 0.3), (Unknown::Standing(LIQUID), 0.7)],
        ];
        let both = |order: [usize; 2]| {
            let mut unknowns = Unknowns::default();
            order.iter().map(|one| libm::log(unknowns.weigh(told(0.4, 0.1, &terms[*one])).0)).sum::<f64>()
        };
        assert!((both([0, 1]) - both([1, 0])).abs() < 0.01);
    }
}
