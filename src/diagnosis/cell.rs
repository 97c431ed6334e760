//! A piece of a suspect's scale of severities, with shadows at its corners.
//!
//! Within a cell the likelihood is added up over a few points, each held against what lies between the corners. Beside
//! stands a bound: how likely the readings would be if every one of them lay where it fits best between the corners. A
//! cell whose bound matters, and whose corners lie apart, is halved (`line`).

use visit::{Entry, Measured, Outcome, Reading, Signal};

use crate::charge::ChargeAxis;
use crate::hypothesis::Hypothesis;
use crate::member::Member;
use crate::phase::Against;
use crate::sight::{as_shown_by, of_sight};
use crate::surroundings::Sensitivity;
use crate::unknowns::Unknowns;
use crate::weigh::{Between, Prediction, apart, behave_alike, is_evidence, of_reading};

/// Points of a cell along the axis of one cause, and along each of two.
const POINTS_OF_ONE: usize = 8;
const POINTS_OF_TWO: usize = 4;
/// Standard deviations for which a sight counts that is not the same at all corners.
const SIGHTS_APART: f64 = 2.0;
/// Runs of one signal for which the chance of meeting them is counted at most: those of one cycle look alike.
const MOST_RUNS: usize = 3;
/// Two runs that began within this of each other are the same one, s.
const SAME_RUN_S: f64 = 20.0;
/// Share of a scale above which a cell is wide: plants may do in it what neither corner does.
const WIDE: f64 = 1.0 / 40.0;
/// Least likelihood of a sight.
const LEAST: f64 = 1.0e-12;

/// The suspects of a line and their shadows.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Behind<'a> {
    pub shadows: &'a [Member],
    pub members: &'a [Hypothesis],
    /// The amount that says how much charge there is.
    pub charge: Option<ChargeAxis>,
}

/// An entry that is being weighed.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Asked<'a> {
    pub entry: &'a Entry,
    /// The same look made the last time.
    pub before: Option<&'a Entry>,
    pub sensitivity: &'a Sensitivity,
    /// When the real visit began, s.
    pub arrival_s: f64,
}

/// A place on the scale, or all of a cell at its best.
#[derive(Clone, Debug)]
pub(crate) struct Point {
    pub(crate) amounts: Vec<f64>,
    /// Weight of each corner; all of them add up to one.
    weights: Vec<f64>,
    between: Between,
    /// Log-likelihood that all suspects with these shadows have in common.
    common: f64,
    /// What each of them has of its own: sights.
    own: Vec<f64>,
    told: Option<Told>,
    unknowns: Unknowns,
    runs: [Met; 3],
}

/// Log-likelihood of the entry that is being weighed, by the shadows that say something about it.
#[derive(Clone, Debug)]
struct Told {
    /// In common; `None` if no shadow says anything.
    common: Option<f64>,
    /// Each suspect's own.
    own: Vec<f64>,
    /// Weight of the shadows that say nothing.
    silent: f64,
}

/// A run of a signal as the real plant was met in it.
#[derive(Clone, Copy, Debug, Default)]
struct Met {
    began_s: f64,
    booked: f64,
    runs: usize,
}

/// A piece of the scale.
#[derive(Clone, Debug)]
pub(crate) struct Cell {
    pub(crate) low: Vec<f64>,
    pub(crate) high: Vec<f64>,
    /// Shadows at its corners: along one axis low and high, of two axes low-low, high-low, low-high, high-high.
    pub(crate) corners: Vec<usize>,
    /// Share of the whole scale.
    pub(crate) share: f64,
    pub(crate) points: Vec<Point>,
    bound: Point,
    /// How far the corners are apart along each axis in what they gave, in standard deviations, by quantity.
    apart: Vec<(Option<Measured>, [f64; 2])>,
    /// Whether it is still weighed; one that is out of the question rests where it is.
    pub(crate) open: bool,
}

impl Point {
    fn new(amounts: Vec<f64>, weights: Vec<f64>, between: Between, members: usize) -> Point {
        Point {
            amounts,
            weights,
            between,
            common: 0.0,
            own: vec![0.0; members],
            told: None,
            unknowns: Unknowns::default(),
            runs: [Met::default(); 3],
        }
    }

    /// Log-likelihood of everything booked, for one of the suspects.
    pub(crate) fn log(&self, member: usize) -> f64 {
        self.common + self.own[member]
    }

    /// That of the entry that is being weighed; `None` if the shadows say nothing about it.
    pub(crate) fn told(&self, member: usize) -> Option<f64> {
        let told = self.told.as_ref()?;
        Some(told.common? + told.own[member])
    }

    fn weigh(&mut self, asked: Asked<'_>, gave: &[Prediction<'_>], members: &[Hypothesis]) {
        let gave: Vec<Prediction<'_>> = gave
            .iter()
            .zip(&self.weights)
            .filter(|(_, weight)| **weight > 1.0e-9)
            .map(|(gave, weight)| Prediction { weight: *weight, ..*gave })
            .collect();
        self.meet(asked, &gave);
        let weigh_of = |silent: bool| {
            let alike = |gave: &&Prediction<'_>| (gave.fit.against == Against::Nothing) == silent;
            gave.iter().filter(alike).map(|gave| gave.weight).sum::<f64>()
        };
        let (silent, telling) = (weigh_of(true), weigh_of(false));
        let mut own = vec![0.0; members.len()];
        let common = match &asked.entry.outcome {
            Outcome::Read(taken) => {
                of_reading(asked.entry, taken, &gave, self.between, asked.sensitivity, &mut self.unknowns)
            }
            _ => {
                let tell: Vec<&Prediction<'_>> =
                    gave.iter().filter(|gave| gave.fit.against != Against::Nothing).collect();
                for (own, suspect) in own.iter_mut().zip(members) {
                    *own = self.sight(asked, &tell, silent > 0.0, suspect);
                }
                (!tell.is_empty()).then_some(0.0)
            }
        };
        self.told = Some(Told { common, own, silent: silent / (silent + telling).max(f64::MIN_POSITIVE) });
    }

    /// `silent` if some of the shadows say nothing.
    fn sight(&self, asked: Asked<'_>, gave: &[&Prediction<'_>], silent: bool, suspect: &Hypothesis) -> f64 {
        if self.between != Between::Here && (silent || !show_the_same(asked, gave, suspect)) {
            // What lies between two sights may be what was seen.
            return 0.0;
        }
        let total: f64 = gave.iter().map(|gave| gave.weight).sum();
        let likelihood: f64 = gave
            .iter()
            .map(|gave| {
                let before = asked.before.zip(gave.before).map(|(here, there)| [here, there]);
                gave.weight / total * of_sight(asked.entry, gave.entry, gave.fit, before, suspect)
            })
            .sum();
        libm::log(likelihood.max(LEAST))
    }

    /// Counts how likely it was to meet what runs as it was met, once for each run.
    fn meet(&mut self, asked: Asked<'_>, gave: &[Prediction<'_>]) {
        if gave.is_empty() {
            return;
        }
        for (index, signal) in Signal::ALL.into_iter().enumerate() {
            let chances = gave.iter().map(|gave| (gave.weight, gave.fit.chances[index]));
            let chance = match self.between {
                Between::Here => {
                    let total: f64 = gave.iter().map(|gave| gave.weight).sum();
                    chances.map(|(weight, chance)| weight / total * chance).sum()
                }
                Between::Anywhere | Between::AnywhereInWide => {
                    chances.map(|(_, chance)| chance).fold(0.0, f64::max)
                }
            };
            let (_, for_s) = signal.of(&asked.entry.running);
            let began_s = (asked.entry.finished_s - for_s).max(asked.arrival_s);
            let met = &mut self.runs[index];
            if met.runs == 0 || (began_s - met.began_s).abs() > SAME_RUN_S {
                *met = Met { began_s, booked: 0.0, runs: met.runs + 1 };
            }
            if met.runs <= MOST_RUNS {
                // A run that was met anew has lasted longer: the chance of that stands for both.
                let chance = libm::log(chance.max(1.0e-3)).min(met.booked);
                self.common += chance - met.booked;
                met.booked = chance;
            }
        }
    }

    fn book(&mut self, neutral: f64) {
        let Some(told) = self.told.take() else { return };
        match told.common {
            None => self.common += neutral,
            Some(common) if told.silent <= 0.0 || self.between != Between::Here => {
                let silent = told.silent > 0.0 && self.between == Between::Anywhere;
                self.common += if silent { common.max(neutral) } else { common };
                for (own, told) in self.own.iter_mut().zip(told.own) {
                    *own += told;
                }
            }
            // Between a plant that says something and one that doesn't either may be.
            Some(common) => {
                for (own, of_its_own) in self.own.iter_mut().zip(told.own) {
                    let said = common + of_its_own;
                    let most = neutral.max(said);
                    let telling = (1.0 - told.silent) * libm::exp(said - most);
                    *own += most + libm::log(told.silent * libm::exp(neutral - most) + telling);
                }
            }
        }
    }
}

fn show_the_same(asked: Asked<'_>, gave: &[&Prediction<'_>], suspect: &Hypothesis) -> bool {
    let shown = |gave: &Prediction<'_>| match &gave.entry.outcome {
        Outcome::Seen(seen) => Some(as_shown_by(suspect, &asked.entry.action, seen)),
        _ => None,
    };
    gave.windows(2).all(|pair| {
        shown(pair[0]) == shown(pair[1])
            && pair[0].fit.against == pair[1].fit.against
            && behave_alike(pair[0], pair[1])
    })
}

impl Cell {
    /// A cell between corners; `share` of the whole scale, for so many suspects.
    pub(crate) fn new(
        low: Vec<f64>,
        high: Vec<f64>,
        corners: Vec<usize>,
        share: f64,
        members: usize,
    ) -> Cell {
        let middles = |count: usize| (0..count).map(move |step| (step as f64 + 0.5) / count as f64);
        let places: Vec<Vec<f64>> = match low.len() {
            0 => vec![Vec::new()],
            1 => middles(POINTS_OF_ONE).map(|along| vec![along]).collect(),
            _ => middles(POINTS_OF_TWO)
                .flat_map(|second| middles(POINTS_OF_TWO).map(move |first| vec![first, second]))
                .collect(),
        };
        let points = places
            .into_iter()
            .map(|along| {
                let amounts = along
                    .iter()
                    .zip(low.iter().zip(&high))
                    .map(|(along, (low, high))| low + along * (high - low));
                Point::new(amounts.collect(), weights(&along), Between::Here, members)
            })
            .collect();
        let even = vec![1.0 / corners.len() as f64; corners.len()];
        let between = if share > WIDE { Between::AnywhereInWide } else { Between::Anywhere };
        let bound = Point::new(Vec::new(), even, between, members);
        Cell { low, high, corners, share, points, bound, apart: Vec::new(), open: true }
    }

    /// Holds an entry against what the corners gave; [`Cell::book`] counts it.
    pub(crate) fn weigh(&mut self, asked: Asked<'_>, behind: Behind<'_>) {
        let number = asked.entry.number;
        let gave: Vec<Prediction<'_>> = self
            .corners
            .iter()
            .filter_map(|index| {
                let shadow = behind.shadows.get(*index)?;
                let before = asked.before.and_then(|before| shadow.gave(before.number));
                Some(Prediction { before, ..Prediction::of(shadow, number)? })
            })
            .collect();
        let of_its_own = behind.charge.zip(taken_of(asked.entry)).and_then(|(charge, taken)| {
            let moves = charge.moves_in(taken, [&self.low, &self.high], behind.shadows, number)?;
            Some(asked.sensitivity.with_charge(moves))
        });
        let asked = Asked { sensitivity: of_its_own.as_ref().unwrap_or(asked.sensitivity), ..asked };
        for point in self.points.iter_mut().chain([&mut self.bound]) {
            point.weigh(asked, &gave, behind.members);
        }
        self.keep_apart(asked, &gave);
    }

    /// Keeps how far the corners are apart.
    fn keep_apart(&mut self, asked: Asked<'_>, gave: &[Prediction<'_>]) {
        let pairs: &[(usize, usize, usize)] = match self.corners.len() {
            2 => &[(0, 0, 1)],
            4 => &[(0, 0, 1), (0, 2, 3), (1, 0, 2), (1, 1, 3)],
            _ => return,
        };
        let of = taken_of(asked.entry);
        let mut widths = [0.0; 2];
        for (axis, one, other) in pairs {
            let Some((one, other)) = gave.get(*one).zip(gave.get(*other)) else { return };
            let width = match of {
                Some(taken) => apart(taken, one, other, asked.sensitivity),
                None if one.entry.outcome != other.entry.outcome || !behave_alike(one, other) => SIGHTS_APART,
                None => 0.0,
            };
            widths[*axis] = f64::max(widths[*axis], width);
        }
        let quantity = of.map(|taken| taken.quantity);
        match self.apart.iter_mut().find(|(known, _)| *known == quantity) {
            Some((_, known)) => *known = [known[0].max(widths[0]), known[1].max(widths[1])],
            None => self.apart.push((quantity, widths)),
        }
    }

    /// Books the last entry: where the shadows said nothing, `neutral` is its log-likelihood.
    pub(crate) fn book(&mut self, neutral: f64) {
        for point in self.points.iter_mut().chain([&mut self.bound]) {
            point.book(neutral);
        }
    }

    /// Weighs all entries anew, each with the log-likelihood of those that say nothing about it.
    pub(crate) fn weigh_all(&mut self, entries: &[(Asked<'_>, f64)], behind: Behind<'_>) {
        for (asked, neutral) in entries.iter().filter(|(asked, _)| is_evidence(&asked.entry.outcome)) {
            self.weigh(*asked, behind);
            self.book(*neutral);
        }
    }

    /// Log-likelihood of everything booked at the best place that the cell may hold.
    pub(crate) fn bound(&self, member: usize) -> f64 {
        self.bound.log(member)
    }

    /// How far the corners lie apart along an axis, in standard deviations of all that was read.
    pub(crate) fn apart(&self, axis: usize) -> f64 {
        libm::sqrt(self.apart.iter().map(|(_, widths)| widths[axis] * widths[axis]).sum())
    }

    /// Corners and weights at which a point stands.
    pub(crate) fn stands_on<'a>(&'a self, point: &'a Point) -> impl Iterator<Item = (usize, f64)> + 'a {
        self.corners.iter().copied().zip(point.weights.iter().copied())
    }
}

/// The reading of an entry, if it has one.
fn taken_of(entry: &Entry) -> Option<&Reading> {
    match &entry.outcome {
        Outcome::Read(taken) => Some(taken),
        _ => None,
    }
}

/// Weights of the corners at a place within the cell.
fn weights(along: &[f64]) -> Vec<f64> {
    along.iter().fold(vec![1.0], |weights, along| {
        let low = weights.iter().map(|weight| weight * (1.0 - along));
        low.chain(weights.iter().map(|weight| weight * along)).collect()
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn corners_weigh_by_how_near_they_are() {
        assert_eq!(weights(&[]), [1.0]);
        assert_eq!(weights(&[0.25]), [0.75, 0.25]);
        assert_eq!(weights(&[0.5, 0.25]), [0.375, 0.375, 0.125, 0.125]);
        let cell = Cell::new(vec![0.0, 1.0], vec![1.0, 2.0], vec![0, 1, 2, 3], 1.0, 1);
        assert_eq!(cell.points.len(), 16);
        // No point stands on an edge, and none outside.
        assert!(cell.points.iter().all(|point| point.weights.iter().all(|weight| *weight > 0.0)));
    }
}
