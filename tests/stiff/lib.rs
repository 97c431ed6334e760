//! A second integration of the plant, by a general-purpose stiff solver. Never part of the shipped program.
//!
//! `plant::step` marches with its own fixed step. Here the same equations, as [`plant::equations`] states them at one
//! instant, go to the implicit Runge-Kutta method RADAU5 (Radau IIA of order 5 with error control; Hairer and Wanner,
//! Solving Ordinary Differential Equations II, 1996) of the library `differential-equations`, which chooses its steps by
//! itself. The Jacobian is taken by differences. What the two have in common are the components (properties, heat
//! exchangers, compressor, metering device); what they do not have in common is everything that a fixed step does to
//! them in time.

use std::cell::RefCell;

use differential_equations::prelude::{IVP, ImplicitRungeKutta, Matrix, ODE};
use plant::equations::{COUNT, Equations};

mod compare;

pub use compare::{Difference, Run, Sample, Settings, Window, differences};

/// State of the plant as one list of numbers.
pub type State = [f64; COUNT];

/// Typical size of a change of each state; tolerances and differences are shares of it.
const SCALES: State = [
    1.0, 2.0e5, 0.3, 1.0e5, 0.3, 1.0e5, 10.0, 10.0, 10.0, 10.0, 0.1, 0.1, 50.0, 10.0, 10.0, 0.01, 1.0e6,
    1.0e6, 10.0, 1.0e3, 10.0, 10.0, 0.1, 0.1,
];
/// Step of a difference for the Jacobian, as a share of the scales.
const DIFFERENCE: f64 = 1.0e-6;

/// Longest step, s. Where ice stops spreading the rates have a kink. Steps of a minute pass over it without the error estimate noticing,
/// and the iced share runs off by 0.01 at some tolerances and not at others; steps of ten seconds agree at all of them.
const LONGEST_STEP_S: f64 = 10.0;

/// How hard the solver worked.
#[derive(Clone, Copy, Debug, Default)]
pub struct Effort {
    /// Steps, refused ones included.
    pub steps: usize,
    /// Evaluations of the right-hand side, those for the Jacobian included.
    pub evaluations: usize,
}

/// The equations in the form that the library asks for.
struct System {
    equations: RefCell<Equations>,
}

impl ODE<f64, State> for System {
    fn diff(&self, time_s: f64, state: &State, rates: &mut State) {
        *rates = self.equations.borrow_mut().rates(time_s, state);
    }

    fn jacobian(&self, time_s: f64, state: &State, jacobian: &mut Matrix<f64>) {
        let mut equations = self.equations.borrow_mut();
        let here = equations.rates(time_s, state);
        for column in 0..COUNT {
            let mut moved = *state;
            moved[column] += DIFFERENCE * SCALES[column];
            let step = moved[column] - state[column];
            let there = equations.rates(time_s, &moved);
            for row in 0..COUNT {
                jacobian[(row, column)] = (there[row] - here[row]) / step;
            }
        }
    }
}

/// Integrate `equations` from `state` at the first of `times_s` and give the states at all of them.
///
/// `tolerance` is relative to the state and to its scale, both.
///
/// # Errors
/// What the solver says when it cannot go on.
pub fn integrate(
    equations: &Equations,
    state: &State,
    times_s: &[f64],
    tolerance: f64,
) -> Result<(Vec<State>, Effort), String> {
    let (Some(&from_s), Some(&to_s)) = (times_s.first(), times_s.last()) else {
        return Ok(Default::default());
    };
    let system = System { equations: RefCell::new(equations.clone()) };
    let method = ImplicitRungeKutta::radau5()
        .rtol(tolerance)
        .atol(SCALES.map(|scale| scale * tolerance).to_vec())
        .h0(1.0e-3)
        .h_max(LONGEST_STEP_S)
        .max_steps(1_000_000);
    let solution = IVP::ode(&system, from_s, to_s, *state)
        .t_eval(times_s)
        .method(method)
        .solve()
        .map_err(|error| format!("{error:?}"))?;
    let effort = Effort {
        steps: solution.steps.total(),
        evaluations: solution.evals.function + solution.evals.jacobian * (COUNT + 1),
    };
    if solution.y.len() != times_s.len() {
        return Err(format!("{} states for {} times", solution.y.len(), times_s.len()));
    }
    Ok((solution.y, effort))
}
