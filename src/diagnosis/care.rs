//! How finely the shadows of a visit stand and step.

use visit::ShadowPace;

/// Settings of the reckoning that no probability may hang on by much.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Care {
    /// How the shadows' plants are stepped.
    pub pace: ShadowPace,
    /// Shadows of a suspect with one cause on arrival, and along each axis of one with two.
    pub first: FirstShadows,
    /// By what share of everything the weight of a cell of a scale has to be in doubt to be halved.
    pub could_matter: f64,
    /// How far a cell is taken to reach from its likeliest point towards its bound, which takes each reading where it fits best; 0 to 1.
    pub reach: f64,
    /// What a cell has to be of everything, taken to reach so far, to go on following.
    pub rests_below: f64,
    /// Cells that are halved after one entry at most: so many at once, and so many times.
    pub halved_at_once: usize,
    /// See [`Care::halved_at_once`].
    pub rounds: usize,
}

/// How many shadows stand on a scale on arrival.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FirstShadows {
    /// At both ends, and of one cause one between.
    Few,
    /// Twice as many pieces along each axis.
    Twice,
}

impl Care {
    /// What learners and marks get.
    pub const USUAL: Care = Care {
        pace: ShadowPace::Strides,
        first: FirstShadows::Few,
        could_matter: 0.004,
        reach: 0.5,
        rests_below: 1.0e-6,
        halved_at_once: 8,
        rounds: 6,
    };

    /// The full slow reckoning, to hold the usual one against: each shadow steps as the real plant does, twice as many stand from
    /// the start, and what could matter least is refined.
    pub const SLOW: Care = Care {
        pace: ShadowPace::EveryTick,
        first: FirstShadows::Twice,
        could_matter: 0.002,
        reach: 0.8,
        rests_below: 1.0e-8,
        halved_at_once: 24,
        rounds: 6,
    };
}
