//! A suspect with its severities: a few shadows, and a fine scale of severities between them.
//!
//! Shadows are dear, so only a few severities are simulated. On the scale between two of them a reading is expected on
//! the straight line between theirs, off it by a share of their difference; where a suspect becomes likely,
//! a shadow is put in at the likeliest severity, and the scale is weighed again.

use visit::{Entry, Outcome};

use crate::shadow::Shadow;
use crate::suspect::Suspect;
use crate::weigh::{Gave, Offsets, is_evidence, log_likelihood};

/// Steps of the scale of one cause, and of each of two.
const STEPS_OF_ONE: usize = 24;
const STEPS_OF_TWO: usize = 8;
/// Shadows of one cause and of each of two on arrival.
const SHADOWS_OF_ONE: usize = 4;
const SHADOWS_OF_TWO: usize = 2;
/// Most shadows of one suspect.
const MOST_SHADOWS: usize = 8;
/// A severity this close to a shadow needs no other one (share of the whole scale).
const CLOSE: f64 = 0.05;

/// One point of the scale.
#[derive(Clone, Debug)]
struct Point {
    amounts: Vec<f64>,
    /// Shadows around it with their weights; the weights add up to one.
    around: Vec<(usize, f64)>,
    log_likelihood: f64,
    /// Log-likelihood of the entry that is being weighed; `None` if the shadows say nothing about it.
    told: Option<f64>,
    offsets: Offsets,
    /// Whether it is still weighed; one that is out of the question rests where it is.
    open: bool,
}

/// A suspect with its shadows and its scale.
#[derive(Clone, Debug)]
pub(crate) struct Family {
    pub(crate) suspect: Suspect,
    pub(crate) prior: f64,
    pub(crate) shadows: Vec<Shadow>,
    points: Vec<Point>,
}

/// Amounts of the shadows on arrival.
pub(crate) fn first_amounts(suspect: &Suspect) -> Vec<Vec<f64>> {
    let count = if suspect.causes.len() > 1 { SHADOWS_OF_TWO } else { SHADOWS_OF_ONE };
    grid(suspect, count, Ends::Near)
}

/// Where a grid begins and ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Ends {
    /// At the lowest and highest amount.
    At,
    /// Those of shadows: of one cause the ends and more near the bad one, of two a fifth of the way in.
    Near,
}

fn grid(suspect: &Suspect, count: usize, ends: Ends) -> Vec<Vec<f64>> {
    suspect.amounts().into_iter().fold(vec![Vec::new()], |grids, (low, high)| {
        let axis: Vec<f64> = if high <= low {
            vec![low]
        } else if count == 2 && ends == Ends::Near {
            vec![low + 0.2 * (high - low), high - 0.2 * (high - low)]
        } else {
            (0..count)
                .map(|step| {
                    let along = step as f64 / (count - 1) as f64;
                    low + (high - low) * if ends == Ends::Near { crowded(along) } else { along }
                })
                .collect()
        };
        grids
            .iter()
            .flat_map(|head| {
                axis.iter().map(move |amount| {
                    let mut amounts = head.clone();
                    amounts.push(*amount);
                    amounts
                })
            })
            .collect()
    })
}

/// Shadows crowd towards the bad end, where effects grow fastest (flow areas enter as their inverse square).
fn crowded(along: f64) -> f64 {
    1.0 - libm::pow(1.0 - along, 1.6)
}

impl Family {
    pub(crate) fn new(suspect: Suspect, prior: f64, shadows: Vec<Shadow>) -> Family {
        let mut family = Family { suspect, prior, shadows, points: Vec::new() };
        let steps = if family.suspect.causes.len() > 1 { STEPS_OF_TWO } else { STEPS_OF_ONE };
        family.points = grid(&family.suspect, steps + 1, Ends::At)
            .into_iter()
            .map(|amounts| Point {
                around: family.around(&amounts),
                amounts,
                log_likelihood: 0.0,
                told: None,
                offsets: Offsets::default(),
                open: true,
            })
            .collect();
        family
    }

    /// Shadows around a point of the scale, with their weights.
    fn around(&self, amounts: &[f64]) -> Vec<(usize, f64)> {
        match amounts {
            [] => vec![(0, 1.0)],
            [amount] => {
                let mut order: Vec<usize> = (0..self.shadows.len()).collect();
                order.sort_by(|a, b| self.shadows[*a].amounts[0].total_cmp(&self.shadows[*b].amounts[0]));
                let above = order.iter().position(|index| self.shadows[*index].amounts[0] >= *amount);
                match above {
                    None => order.last().map(|index| (*index, 1.0)).into_iter().collect(),
                    Some(0) => vec![(order[0], 1.0)],
                    Some(position) => {
                        let (low, high) = (order[position - 1], order[position]);
                        let (from, to) = (self.shadows[low].amounts[0], self.shadows[high].amounts[0]);
                        let share = (amount - from) / (to - from);
                        [(low, 1.0 - share), (high, share)]
                            .into_iter()
                            .filter(|(_, weight)| *weight > 1.0e-9)
                            .collect()
                    }
                }
            }
            _ => self.corners(amounts),
        }
    }

    /// Corners of the grid of two causes: each weighs by how near it is along both axes.
    fn corners(&self, amounts: &[f64]) -> Vec<(usize, f64)> {
        let share = |axis: usize, corner: f64| {
            let ends = self.shadows.iter().map(|shadow| shadow.amounts[axis]);
            let (low, high) = ends.fold((f64::MAX, f64::MIN), |(low, high), a| (low.min(a), high.max(a)));
            if high <= low {
                return 1.0;
            }
            let along = ((amounts[axis] - low) / (high - low)).clamp(0.0, 1.0);
            if corner >= high { along } else { 1.0 - along }
        };
        self.shadows
            .iter()
            .enumerate()
            .map(|(index, shadow)| {
                (index, shadow.amounts.iter().enumerate().map(|(axis, a)| share(axis, *a)).product())
            })
            .filter(|(_, weight): &(usize, f64)| *weight > 1.0e-9)
            .collect()
    }

    /// Holds an entry against what the shadows gave; [`Family::book`] counts it.
    pub(crate) fn weigh(&mut self, entry: &Entry, before: Option<&Entry>) {
        for point in self.points.iter_mut().filter(|point| point.open) {
            point.told = told(point, &self.shadows, &self.suspect, entry, before);
        }
    }

    /// What the points that say something about the last entry make of it: sum of their weights, and of weight times
    /// likelihood, both over a common factor `exp(most)`. The entry's likelihood is not in the weights yet.
    pub(crate) fn told(&self, most: f64) -> (f64, f64) {
        let count = self.points.len().max(1) as f64;
        self.open()
            .filter_map(|point| {
                let told = point.told?;
                let weight = self.prior / count * libm::exp(point.log_likelihood - most);
                Some((weight, weight * libm::exp(told)))
            })
            .fold((0.0, 0.0), |(sum, product), (weight, told)| (sum + weight, product + told))
    }

    /// Books the last entry: where a point said nothing, `neutral` is its log-likelihood.
    pub(crate) fn book(&mut self, neutral: f64) {
        for point in self.points.iter_mut().filter(|point| point.open) {
            point.log_likelihood += point.told.take().unwrap_or(neutral);
        }
    }

    /// Log of prior times mean likelihood over the scale, less a constant: what the family weighs. `None` if every
    /// point of it is out of the question.
    pub(crate) fn log_weight(&self) -> Option<f64> {
        let most = self.most_likely()?;
        let mean = self.open().map(|point| libm::exp(point.log_likelihood - most)).sum::<f64>()
            / self.points.len().max(1) as f64;
        Some(libm::log(self.prior.max(f64::MIN_POSITIVE)) + most + libm::log(mean.max(f64::MIN_POSITIVE)))
    }

    fn open(&self) -> impl Iterator<Item = &Point> {
        self.points.iter().filter(|point| point.open)
    }

    pub(crate) fn most_likely(&self) -> Option<f64> {
        self.open().map(|point| point.log_likelihood).reduce(f64::max)
    }

    /// Shares of the points of the scale within the family; they add up to one. Points out of the question have none,
    /// unless all are.
    fn shares(&self) -> Vec<f64> {
        let Some(most) = self.most_likely() else {
            return vec![1.0 / self.points.len().max(1) as f64; self.points.len()];
        };
        let weights: Vec<f64> = self
            .points
            .iter()
            .map(|point| if point.open { libm::exp(point.log_likelihood - most) } else { 0.0 })
            .collect();
        let total: f64 = weights.iter().sum();
        weights.iter().map(|weight| weight / total.max(f64::MIN_POSITIVE)).collect()
    }

    /// Mean and standard deviation of each cause's amount.
    pub(crate) fn amounts(&self) -> Vec<(f64, f64)> {
        let shares = self.shares();
        (0..self.suspect.causes.len())
            .map(|axis| {
                let mean: f64 =
                    self.points.iter().zip(&shares).map(|(point, share)| share * point.amounts[axis]).sum();
                let variance: f64 = self
                    .points
                    .iter()
                    .zip(&shares)
                    .map(|(point, share)| share * (point.amounts[axis] - mean) * (point.amounts[axis] - mean))
                    .sum();
                (mean, libm::sqrt(variance))
            })
            .collect()
    }

    /// Shares of the shadows, by the points that they stand for.
    pub(crate) fn shadow_shares(&self) -> Vec<f64> {
        let mut of_shadows = vec![0.0; self.shadows.len()];
        for (point, share) in self.points.iter().zip(self.shares()) {
            for (index, weight) in &point.around {
                of_shadows[*index] += share * weight;
            }
        }
        of_shadows
    }

    /// Where another shadow would help: the likeliest severity of one cause, if none is close to it.
    pub(crate) fn wanted(&self) -> Option<Vec<f64>> {
        let [(low, high)] = self.suspect.amounts()[..] else { return None };
        if high <= low || self.shadows.len() >= MOST_SHADOWS {
            return None;
        }
        let shares = self.shares();
        let (best, _) = self
            .points
            .iter()
            .zip(&shares)
            .filter(|(point, _)| point.open)
            .max_by(|(_, a), (_, b)| a.total_cmp(b))?;
        let amount = best.amounts[0];
        let nearest =
            self.shadows.iter().map(|shadow| (shadow.amounts[0] - amount).abs()).fold(f64::MAX, f64::min);
        (nearest > CLOSE * (high - low)).then(|| vec![amount])
    }

    /// Takes another shadow in and weighs all entries again, each with the log-likelihood of those that say nothing
    /// about it.
    pub(crate) fn admit(&mut self, shadow: Shadow, entries: &[(Entry, f64)]) {
        self.shadows.push(shadow);
        let around: Vec<Vec<(usize, f64)>> =
            self.points.iter().map(|point| self.around(&point.amounts)).collect();
        for (point, around) in self.points.iter_mut().zip(around).filter(|(point, _)| point.open) {
            point.around = around;
            point.log_likelihood = 0.0;
            point.offsets = Offsets::default();
            for (entry, neutral) in entries.iter().filter(|(entry, _)| is_evidence(&entry.outcome)) {
                let before = seen_before(entries, entry);
                let told = told(point, &self.shadows, &self.suspect, entry, before);
                point.log_likelihood += told.unwrap_or(*neutral);
            }
        }
    }

    /// Lets points rest whose share of everything is below `least` (the family's own probability is given), and the
    /// shadows that only such points need.
    pub(crate) fn rest(&mut self, probability: f64, least: f64) {
        let shares = self.shares();
        for (point, share) in self.points.iter_mut().zip(&shares) {
            if share * probability < least {
                point.open = false;
            }
        }
        let points = &self.points;
        for (index, shadow) in self.shadows.iter_mut().enumerate() {
            shadow.follows = points
                .iter()
                .any(|point| point.open && point.around.iter().any(|(needed, _)| *needed == index));
        }
    }
}

/// Log-likelihood of an entry at a point of the scale, `None` if its shadows say nothing about it. `before` is the same look
/// made the last time, see [`seen_before`].
fn told(
    point: &mut Point,
    shadows: &[Shadow],
    suspect: &Suspect,
    entry: &Entry,
    before: Option<&Entry>,
) -> Option<f64> {
    let gave: Vec<Gave<'_>> = point
        .around
        .iter()
        .filter_map(|(index, weight)| {
            let shadow = shadows.get(*index)?;
            let before = before.and_then(|before| shadow.gave(before.number));
            Some(Gave { weight: *weight, entry: shadow.gave(entry.number)?, before })
        })
        .collect();
    log_likelihood(entry, &gave, before, suspect, &mut point.offsets)
}

/// The last of the entries before one that are the same look.
pub(crate) fn seen_before<'a>(entries: &'a [(Entry, f64)], entry: &Entry) -> Option<&'a Entry> {
    if !matches!(entry.outcome, Outcome::Seen(_)) {
        return None;
    }
    entries
        .iter()
        .rev()
        .map(|(earlier, _)| earlier)
        .filter(|earlier| earlier.number < entry.number)
        .find(|earlier| earlier.action == entry.action && matches!(earlier.outcome, Outcome::Seen(_)))
}
