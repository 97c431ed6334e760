//! A network of complex admittances, solved for its node potentials.

use core::ops::{Add, AddAssign, Div, Mul, Neg, Sub, SubAssign};

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

/// Nodal equations of `N` nodes.
pub(crate) struct Network<const N: usize> {
    matrix: [[Complex; N]; N],
    source: [Complex; N],
}

impl<const N: usize> Network<N> {
    pub(crate) fn new() -> Self {
        let mut n = Network { matrix: [[Complex::ZERO; N]; N], source: [Complex::ZERO; N] };
        for i in 0..N {
            n.matrix[i][i].re = STRAY_S;
        }
        n
    }

    /// Tie a node firmly to the reference.
    pub(crate) fn ground(&mut self, node: usize) {
        self.matrix[node][node].re += 1.0;
    }

    pub(crate) fn admittance(&mut self, a: usize, b: usize, y: Complex) {
        self.matrix[a][a] += y;
        self.matrix[b][b] += y;
        self.matrix[a][b] -= y;
        self.matrix[b][a] -= y;
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
                self.matrix[*from][*plus] += y;
                self.matrix[*from][*minus] -= y;
                self.matrix[*to][*plus] -= y;
                self.matrix[*to][*minus] += y;
            }
        }
    }

    /// Node potentials by elimination with row pivoting, V. Zeros are skipped: wiring is mostly zeros.
    pub(crate) fn solve(mut self) -> [Complex; N] {
        for k in 0..N {
            let mut pivot = k;
            let mut most = self.matrix[k][k].square();
            for i in k + 1..N {
                let candidate = self.matrix[i][k].square();
                if candidate > most {
                    most = candidate;
                    pivot = i;
                }
            }
            self.matrix.swap(k, pivot);
            self.source.swap(k, pivot);
            let row_k = self.matrix[k];
            let inverse = row_k[k].inverse();
            let (mut filled, mut count) = ([0; N], 0);
            for (column, value) in row_k.iter().enumerate().skip(k) {
                if *value != Complex::ZERO {
                    filled[count] = column;
                    count += 1;
                }
            }
            for i in k + 1..N {
                if self.matrix[i][k] == Complex::ZERO {
                    continue;
                }
                let factor = self.matrix[i][k] * inverse;
                for &column in &filled[..count] {
                    self.matrix[i][column] -= factor * row_k[column];
                }
                let above = self.source[k];
                self.source[i] -= factor * above;
            }
        }
        let mut x = [Complex::ZERO; N];
        for i in (0..N).rev() {
            let mut sum = self.source[i];
            for (j, known) in x.iter().enumerate().skip(i + 1) {
                sum -= self.matrix[i][j] * *known;
            }
            x[i] = sum / self.matrix[i][i];
        }
        x
    }
}
