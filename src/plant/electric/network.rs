//! A network of complex admittances, solved for its node potentials.

use core::ops::{Add, AddAssign, Div, Mul, Neg, Sub, SubAssign};

/// Angular frequency of the supply, rad/s (60 Hz).
pub(crate) const SUPPLY_RAD_S: f64 = 2.0 * core::f64::consts::PI * 60.0;

/// A phasor or an impedance at one frequency. RMS values.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct Complex {
    pub re: f64,
    pub im: f64,
}

impl Complex {
    pub(crate) const ZERO: Complex = Complex { re: 0.0, im: 0.0 };

    pub(crate) const fn new(re: f64, im: f64) -> Self {
        Complex { re, im }
    }

    pub(crate) const fn real(re: f64) -> Self {
        Complex { re, im: 0.0 }
    }

    pub(crate) fn conjugate(self) -> Self {
        Complex::new(self.re, -self.im)
    }

    pub(crate) fn square(self) -> f64 {
        self.re * self.re + self.im * self.im
    }

    pub(crate) fn magnitude(self) -> f64 {
        self.square().sqrt()
    }

    pub(crate) fn inverse(self) -> Self {
        let s = self.square();
        Complex::new(self.re / s, -self.im / s)
    }

    pub(crate) fn scale(self, by: f64) -> Self {
        Complex::new(self.re * by, self.im * by)
    }

    /// Times the imaginary unit.
    pub(crate) fn turned(self) -> Self {
        Complex::new(-self.im, self.re)
    }
}

impl Add for Complex {
    type Output = Complex;
    fn add(self, o: Complex) -> Complex {
        Complex::new(self.re + o.re, self.im + o.im)
    }
}

impl Sub for Complex {
    type Output = Complex;
    fn sub(self, o: Complex) -> Complex {
        Complex::new(self.re - o.re, self.im - o.im)
    }
}

impl Neg for Complex {
    type Output = Complex;
    fn neg(self) -> Complex {
        Complex::new(-self.re, -self.im)
    }
}

impl Mul for Complex {
    type Output = Complex;
    fn mul(self, o: Complex) -> Complex {
        Complex::new(self.re * o.re - self.im * o.im, self.re * o.im + self.im * o.re)
    }
}

impl Div for Complex {
    type Output = Complex;
    fn div(self, o: Complex) -> Complex {
        let s = o.square();
        Complex::new((self.re * o.re + self.im * o.im) / s, (self.im * o.re - self.re * o.im) / s)
    }
}

impl AddAssign for Complex {
    fn add_assign(&mut self, o: Complex) {
        *self = *self + o;
    }
}

impl SubAssign for Complex {
    fn sub_assign(&mut self, o: Complex) {
        *self = *self - o;
    }
}

/// Tie of every node to the reference, S: keeps circuits that share nothing solvable and shows (almost) nothing on a meter.
const STRAY_S: f64 = 3.0e-11;

/// Columns of a row, or rows, one bit each.
type Places = u128;

/// Nodal equations of `N` nodes. Wiring is mostly zeros: beside the matrix stands where it may have something else.
pub(crate) struct Network<const N: usize> {
    /// Row after row.
    matrix: Vec<Complex>,
    /// Of each row the columns, and of each column the rows.
    in_row: [Places; N],
    in_column: [Places; N],
    source: [Complex; N],
}

impl<const N: usize> Network<N> {
    pub(crate) fn new() -> Self {
        const { assert!(N <= Places::BITS as usize) };
        let (matrix, source) = (vec![Complex::ZERO; N * N], [Complex::ZERO; N]);
        let mut n = Network { matrix, in_row: [0; N], in_column: [0; N], source };
        for i in 0..N {
            n.entry(i, i).re = STRAY_S;
        }
        n
    }

    fn entry(&mut self, row: usize, column: usize) -> &mut Complex {
        self.in_row[row] |= 1 << column;
        self.in_column[column] |= 1 << row;
        &mut self.matrix[row * N + column]
    }

    /// Tie a node firmly to the reference.
    pub(crate) fn ground(&mut self, node: usize) {
        self.entry(node, node).re += 1.0;
    }

    pub(crate) fn admittance(&mut self, a: usize, b: usize, y: Complex) {
        *self.entry(a, a) += y;
        *self.entry(b, b) += y;
        *self.entry(a, b) -= y;
        *self.entry(b, a) -= y;
    }

    pub(crate) fn resistor(&mut self, a: usize, b: usize, ohm: f64) {
        self.admittance(a, b, Complex::real(1.0 / ohm));
    }

    /// A voltage source `plus` over `minus` behind its inner resistance.
    pub(crate) fn voltage_source(&mut self, plus: usize, minus: usize, volt: f64, ohm: f64) {
        self.resistor(plus, minus, ohm);
        self.inject(plus, minus, volt / ohm);
    }

    /// A current pushed out of `plus` and drawn back at `minus`, A.
    pub(crate) fn inject(&mut self, plus: usize, minus: usize, ampere: f64) {
        self.source[plus].re += ampere;
        self.source[minus].re -= ampere;
    }

    /// Two coupled branches with the admittance matrix `y`; each branch runs from its first to its second node.
    pub(crate) fn coupled(&mut self, branches: [(usize, usize); 2], y: [[Complex; 2]; 2]) {
        for (row, (from, to)) in branches.iter().enumerate() {
            for (column, (plus, minus)) in branches.iter().enumerate() {
                let y = y[row][column];
                *self.entry(*from, *plus) += y;
                *self.entry(*from, *minus) -= y;
                *self.entry(*to, *plus) -= y;
                *self.entry(*to, *minus) += y;
            }
        }
    }

    /// Node potentials by elimination with row pivoting, V.
    pub(crate) fn solve(mut self) -> [Complex; N] {
        let mut left = !right_of(N - 1);
        // The row that gives the unknown of each column.
        let mut gives = [0; N];
        for (column, gives) in gives.iter_mut().enumerate() {
            let with_it = self.in_column[column] & left;
            let (mut pivot, mut most) = (0, -1.0);
            for row in ones(with_it) {
                let square = self.matrix[row * N + column].square();
                if square > most {
                    (pivot, most) = (row, square);
                }
            }
            *gives = pivot;
            left &= !(1 << pivot);
            let inverse = self.matrix[pivot * N + column].inverse();
            let right = self.in_row[pivot] & right_of(column);
            let (source, mut places, mut count) = (self.source[pivot], [0_u8; N], 0);
            for place in ones(right) {
                places[count] = place as u8;
                count += 1;
            }
            for row in ones(with_it & left) {
                let factor = self.matrix[row * N + column] * inverse;
                if factor == Complex::ZERO {
                    continue;
                }
                for &place in &places[..count] {
                    let above = self.matrix[pivot * N + usize::from(place)];
                    self.matrix[row * N + usize::from(place)] -= factor * above;
                }
                for place in ones(right & !self.in_row[row]) {
                    self.in_column[place] |= 1 << row;
                }
                self.in_row[row] |= right;
                self.source[row] -= factor * source;
            }
        }
        let mut x = [Complex::ZERO; N];
        for column in (0..N).rev() {
            let row = gives[column];
            let mut sum = self.source[row];
            for place in ones(self.in_row[row] & right_of(column)) {
                sum -= self.matrix[row * N + place] * x[place];
            }
            x[column] = sum / self.matrix[row * N + column];
        }
        x
    }
}

/// The places after one.
fn right_of(place: usize) -> Places {
    (Places::MAX << place) << 1
}

/// The places whose bits are set, from the first on.
fn ones(mut places: Places) -> impl Iterator<Item = usize> {
    core::iter::from_fn(move || {
        let next = places.trailing_zeros() as usize;
        places &= places.wrapping_sub(1);
        (next < Places::BITS as usize).then_some(next)
    })
}
