//! Hypotheses with equal plants, their shadows, and their scale of severities in cells.
//!
//! Shadows are dear, so few severities are simulated at first: the ends of the scale and one between. Where a cell between
//! shadows could still matter to what is believed, by its bound and whoever leads, a shadow is put into its middle.

use visit::{Entry, Outcome};

use crate::care::{Care, FirstShadows};
use crate::cell::{Asked, Behind, Cell};
use crate::charge::ChargeAxis;
use crate::hypothesis::Hypothesis;
use crate::member::Member;
use crate::surroundings::Sensitivity;
use crate::weigh::is_evidence;

/// Where between the ends of the scale the shadow of one cause stands on arrival: nearer to the bad end, where effects grow
/// fastest (flow areas enter as their inverse square).
const FIRST_BETWEEN: f64 = 0.6;
/// By how much the likelihood within a cell may be off, as a share of it, for each standard deviation that its corners are apart in
/// all that was read: the values between are off the straight line by a third of half their difference (`weigh`).
const BENT: f64 = 0.2;
/// Share of the scale above which a cell reaches further towards its bound, and how far: all its corners may be plants that stand
/// or are iced, and most of what lies between them run (a pair that a look at the filter left at 0.001 was 0.03).
const HARDLY_HALVED: f64 = 0.7;
const REACH_OF_WIDE: f64 = 0.8;
/// Share of the scale below which a cell is not halved any more.
const FINEST: f64 = 1.0 / 512.0;
/// Most shadows of one line.
const MOST_SHADOWS: usize = 96;

/// One suspect of a line.
#[derive(Clone, Debug)]
pub(crate) struct Sharer {
    /// Its place among all suspects.
    pub(crate) index: usize,
    pub(crate) prior: f64,
}

/// Hypotheses with equal plants.
#[derive(Clone, Debug)]
pub(crate) struct Ensemble {
    /// The suspect whose plants the shadows are.
    pub(crate) stand: Hypothesis,
    pub(crate) members: Vec<Sharer>,
    names: Vec<Hypothesis>,
    pub(crate) shadows: Vec<Member>,
    /// The amount that says how much charge there is.
    charge: Option<ChargeAxis>,
    cells: Vec<Cell>,
}

/// An entry with what was made of it.
#[derive(Clone, Debug)]
pub(crate) struct Booked {
    pub(crate) entry: Entry,
    /// Where among all entries the same look was made the last time.
    pub(crate) before: Option<usize>,
    /// Log-likelihood that it has for shadows that say nothing about it.
    pub(crate) neutral: f64,
    pub(crate) sensitivity: Sensitivity,
}

/// A cell that is to be halved.
#[derive(Clone, Debug)]
pub(crate) struct Wanted {
    pub(crate) line: usize,
    cell: usize,
    axis: usize,
    /// Amounts of the shadows that stand between its halves.
    pub(crate) amounts: Vec<Vec<f64>>,
    /// By how much it could be off, as a share of everything.
    pub(crate) worth: f64,
}

/// Amounts of the shadows on arrival.
pub(crate) fn first_amounts(suspect: &Hypothesis, first: FirstShadows) -> Vec<Vec<f64>> {
    every_combination(&first_axes(suspect, first))
}

/// One of each axis, in every way, the first axis quickest.
fn every_combination<T: Copy>(axes: &[Vec<T>]) -> Vec<Vec<T>> {
    axes.iter().fold(vec![Vec::new()], |heads: Vec<Vec<T>>, axis| {
        axis.iter()
            .flat_map(|one| heads.iter().map(move |head| head.iter().copied().chain([*one]).collect()))
            .collect()
    })
}

/// Where the shadows stand on arrival along each axis that has a width.
fn first_axes(suspect: &Hypothesis, first: FirstShadows) -> Vec<Vec<f64>> {
    let ranges = suspect.amounts();
    let alongs: &[f64] = match (ranges.len(), first) {
        (1, FirstShadows::Few) => &[0.0, FIRST_BETWEEN, 1.0],
        (1, FirstShadows::Twice) => {
            &[0.0, 0.5 * FIRST_BETWEEN, FIRST_BETWEEN, 0.5 * (1.0 + FIRST_BETWEEN), 1.0]
        }
        (_, FirstShadows::Few) => &[0.0, 1.0],
        (_, FirstShadows::Twice) => &[0.0, 0.5, 1.0],
    };
    let axis = |(low, high): (f64, f64)| {
        if high <= low { vec![low] } else { alongs.iter().map(|along| low + along * (high - low)).collect() }
    };
    ranges.into_iter().map(axis).collect()
}

/// Corners of a cell of two causes, in the order of [`Cell::corners`].
fn corners(low: &[f64], high: &[f64]) -> Vec<Vec<f64>> {
    let axes: Vec<Vec<f64>> = low.iter().zip(high).map(|(low, high)| vec![*low, *high]).collect();
    every_combination(&axes)
}

impl Ensemble {
    /// `names` are the suspects of the members, in their order; `shadows` those of [`first_amounts`].
    pub(crate) fn new(
        stand: Hypothesis,
        members: Vec<Sharer>,
        names: Vec<Hypothesis>,
        shadows: Vec<Member>,
        first: FirstShadows,
    ) -> Ensemble {
        let count = members.len();
        let index_of = |amounts: &Vec<f64>| shadows.iter().position(|shadow| shadow.amounts == *amounts);
        let mut cells: Vec<Cell> = Vec::new();
        // Pieces along each axis, as their two ends and their share of it.
        let pieces: Vec<Vec<(f64, f64, f64)>> = first_axes(&stand, first)
            .into_iter()
            .filter(|axis| axis.len() > 1)
            .map(|axis| {
                let width = axis[axis.len() - 1] - axis[0];
                axis.windows(2).map(|ends| (ends[0], ends[1], (ends[1] - ends[0]) / width)).collect()
            })
            .collect();
        for place in every_combination(&pieces) {
            let low: Vec<f64> = place.iter().map(|(low, ..)| *low).collect();
            let high: Vec<f64> = place.iter().map(|(_, high, _)| *high).collect();
            let share = place.iter().map(|(.., share)| share).product();
            let at = if place.is_empty() {
                vec![0]
            } else {
                corners(&low, &high).iter().filter_map(index_of).collect()
            };
            cells.push(Cell::new(low, high, at, share, count));
        }
        let charge = ChargeAxis::of(&stand);
        Ensemble { stand, members, names, shadows, charge, cells }
    }

    fn open(&mut self) -> impl Iterator<Item = &mut Cell> {
        self.cells.iter_mut().filter(|cell| cell.open)
    }

    /// Holds an entry against what the shadows gave; [`Ensemble::book`] counts it.
    pub(crate) fn weigh(&mut self, asked: Asked<'_>) {
        let behind = Behind { shadows: &self.shadows, members: &self.names, charge: self.charge };
        for cell in self.cells.iter_mut().filter(|cell| cell.open) {
            cell.weigh(asked, behind);
        }
    }

    /// What the points that say something about the last entry make of it: sum of their weights, and of weight times
    /// likelihood, both over a common factor `exp(most)`. The entry's likelihood is not in the weights yet.
    pub(crate) fn told(&self, most: f64) -> (f64, f64) {
        self.weighed_points(most)
            .filter_map(|(member, _, point, weight)| Some((weight, weight * libm::exp(point.told(member)?))))
            .fold((0.0, 0.0), |(sum, product), (weight, told)| (sum + weight, product + told))
    }

    /// Books the last entry: where a point said nothing, `neutral` is its log-likelihood.
    pub(crate) fn book(&mut self, neutral: f64) {
        self.open().for_each(|cell| cell.book(neutral));
    }

    /// Every point of every open cell for every member, with its weight over a common factor `exp(most)`.
    fn weighed_points(&self, most: f64) -> impl Iterator<Item = (usize, &Cell, &crate::cell::Point, f64)> {
        self.members.iter().enumerate().flat_map(move |(member, suspect)| {
            self.cells.iter().filter(|cell| cell.open).flat_map(move |cell| {
                let share = suspect.prior * cell.share / cell.points.len() as f64;
                cell.points
                    .iter()
                    .map(move |point| (member, cell, point, share * libm::exp(point.log(member) - most)))
            })
        })
    }

    /// The highest log-likelihood of any point.
    pub(crate) fn most_likely(&self) -> f64 {
        let logs = self.cells.iter().filter(|cell| cell.open).flat_map(|cell| {
            cell.points.iter().flat_map(|point| (0..self.members.len()).map(|member| point.log(member)))
        });
        logs.fold(f64::MIN, f64::max)
    }

    /// What each member weighs, over a common factor `exp(most)`.
    pub(crate) fn weights(&self, most: f64) -> Vec<f64> {
        let mut weights = vec![0.0; self.members.len()];
        for (member, _, _, weight) in self.weighed_points(most) {
            weights[member] += weight;
        }
        weights
    }

    /// Mean and standard deviation of each cause's amount, for one member.
    pub(crate) fn amounts(&self, member: usize) -> Vec<(f64, f64)> {
        let most = self.most_likely();
        let points: Vec<(&[f64], f64)> = self
            .weighed_points(most)
            .filter(|(of, ..)| *of == member)
            .map(|(_, _, point, weight)| (point.amounts.as_slice(), weight))
            .collect();
        let total = points.iter().map(|(_, weight)| weight).sum::<f64>().max(f64::MIN_POSITIVE);
        let mean_of = |value: &dyn Fn(&[f64]) -> f64| {
            points.iter().map(|(amounts, weight)| weight / total * value(amounts)).sum::<f64>()
        };
        match self.stand.amounts()[..] {
            [(low, high)] if high <= low => vec![(low, 0.0)],
            ref ranges => (0..ranges.len())
                .map(|axis| {
                    let mean = mean_of(&|amounts| amounts[axis]);
                    let variance = mean_of(&|amounts| (amounts[axis] - mean) * (amounts[axis] - mean));
                    (mean, libm::sqrt(variance))
                })
                .collect(),
        }
    }

    /// Share of a member's weight below an amount of one of its causes; a point stands for its part of the cell.
    pub(crate) fn rank(&self, member: usize, axis: usize, amount: f64) -> Option<f64> {
        let (low, high) = *self.stand.amounts().get(axis)?;
        if high <= low {
            return None;
        }
        let most = self.most_likely();
        let mut all = 0.0;
        let mut below = 0.0;
        for (_, cell, point, weight) in self.weighed_points(most).filter(|(of, ..)| *of == member) {
            let across = cell.points.len() as f64;
            let steps = if cell.low.len() > 1 { libm::sqrt(across) } else { across };
            let half = 0.5 * (cell.high[axis] - cell.low[axis]) / steps;
            all += weight;
            below += weight * ((amount - point.amounts[axis] + half) / (2.0 * half)).clamp(0.0, 1.0);
        }
        (all > 0.0).then(|| below / all)
    }

    /// What each shadow stands for of each member, over a common factor `exp(most)`.
    pub(crate) fn shadow_weights(&self, most: f64) -> Vec<Vec<f64>> {
        let mut all = vec![vec![0.0; self.members.len()]; self.shadows.len()];
        for (member, cell, point, weight) in self.weighed_points(most) {
            for (index, share) in cell.stands_on(point) {
                all[index][member] += weight * share;
            }
        }
        all
    }

    /// What share of everything a cell could be, beside a total weight whose log is given, if it reaches as far from its likeliest
    /// point (0) towards its bound (1) as `care` has it.
    fn could_be(&self, cell: &Cell, log_total: f64, care: &Care) -> f64 {
        let reach = if cell.share > HARDLY_HALVED { care.reach.max(REACH_OF_WIDE) } else { care.reach };
        let weight = |(member, suspect): (usize, &Sharer)| {
            let likeliest = cell.points.iter().map(|point| point.log(member)).fold(f64::MIN, f64::max);
            let log = likeliest + reach * (cell.bound(member) - likeliest).max(0.0);
            suspect.prior * cell.share * libm::exp((log - log_total).min(300.0))
        };
        let weight: f64 = self.members.iter().enumerate().map(weight).sum();
        weight / (1.0 + weight)
    }

    /// Cells that could put everything off by more than `care` allows.
    pub(crate) fn wanted(&self, line: usize, log_total: f64, care: &Care) -> Vec<Wanted> {
        if self.shadows.len() >= MOST_SHADOWS {
            return Vec::new();
        }
        let open = self.cells.iter().enumerate().filter(|(_, cell)| cell.open && cell.corners.len() > 1);
        open.filter_map(|(index, cell)| {
            let axis = usize::from(cell.low.len() > 1 && cell.apart(1) > cell.apart(0));
            let worth = self.could_be(cell, log_total, care) * (BENT * cell.apart(axis)).min(1.0);
            if worth < care.could_matter || cell.share < FINEST {
                return None;
            }
            let middle = 0.5 * (cell.low[axis] + cell.high[axis]);
            let mut amounts = corners(&cell.low, &cell.high);
            amounts.retain(|corner| corner[axis] == cell.low[axis]);
            for corner in &mut amounts {
                corner[axis] = middle;
            }
            Some(Wanted { line, cell: index, axis, amounts, worth })
        })
        .collect()
    }

    /// The shadow at given amounts, if there is one.
    pub(crate) fn shadow_at(&self, amounts: &[f64]) -> Option<usize> {
        self.shadows.iter().position(|shadow| shadow.amounts == amounts)
    }

    /// Halves a cell, now that the shadows between its halves are there, and weighs all entries again in both.
    pub(crate) fn halve(&mut self, wanted: &Wanted, entries: &[Booked], arrival_s: f64) {
        let cell = self.cells[wanted.cell].clone();
        let between: Vec<usize> =
            wanted.amounts.iter().filter_map(|amounts| self.shadow_at(amounts)).collect();
        if between.len() != wanted.amounts.len() {
            return;
        }
        let middle = 0.5 * (cell.low[wanted.axis] + cell.high[wanted.axis]);
        let count = self.members.len();
        let (mut upper_low, mut lower_high) = (cell.low.clone(), cell.high.clone());
        upper_low[wanted.axis] = middle;
        lower_high[wanted.axis] = middle;
        let with = |at_high: bool| {
            let mut corners = cell.corners.clone();
            let mut fresh = between.iter();
            for (place, corner) in corners.iter_mut().enumerate() {
                if ((place >> wanted.axis) & 1 == 1) == at_high
                    && let Some(index) = fresh.next()
                {
                    *corner = *index;
                }
            }
            corners
        };
        let mut lower = Cell::new(cell.low.clone(), lower_high, with(true), 0.5 * cell.share, count);
        let mut upper = Cell::new(upper_low, cell.high.clone(), with(false), 0.5 * cell.share, count);
        let asked: Vec<(Asked<'_>, f64)> =
            entries.iter().map(|booked| (booked.asked(entries, arrival_s), booked.neutral)).collect();
        let behind = Behind { shadows: &self.shadows, members: &self.names, charge: self.charge };
        for half in [&mut lower, &mut upper] {
            half.weigh_all(&asked, behind);
        }
        self.cells[wanted.cell] = lower;
        self.cells.push(upper);
    }

    /// Goes back to before the first entry with the cells as they are now.
    pub(crate) fn forget(&mut self) {
        let count = self.members.len();
        for cell in &mut self.cells {
            let (low, high, corners) = (cell.low.clone(), cell.high.clone(), cell.corners.clone());
            *cell = Cell::new(low, high, corners, cell.share, count);
        }
    }

    /// Leaves cells out whose shadows rested before an entry.
    pub(crate) fn leave_out_who_rests(&mut self, number: u32) {
        let shadows = &self.shadows;
        for cell in &mut self.cells {
            cell.open &= cell.corners.iter().all(|index| shadows[*index].gave(number).is_some());
        }
    }

    /// Lets cells rest that are out of the question by `care`, and the shadows that only such cells need.
    pub(crate) fn rest(&mut self, log_total: f64, care: &Care) {
        let out: Vec<bool> =
            self.cells.iter().map(|cell| self.could_be(cell, log_total, care) < care.rests_below).collect();
        for (cell, out) in self.cells.iter_mut().zip(out) {
            cell.open &= !out;
        }
        let cells = &self.cells;
        for (index, shadow) in self.shadows.iter_mut().enumerate() {
            shadow.follows = cells.iter().any(|cell| cell.open && cell.corners.contains(&index));
        }
    }
}

impl Booked {
    /// The entry as it is asked of the shadows.
    pub(crate) fn asked<'a>(&'a self, entries: &'a [Booked], arrival_s: f64) -> Asked<'a> {
        Asked {
            entry: &self.entry,
            before: self.before.and_then(|index| entries.get(index)).map(|booked| &booked.entry),
            sensitivity: &self.sensitivity,
            arrival_s,
        }
    }
}

/// Where among the entries before one the same look was made the last time.
pub(crate) fn seen_before(entries: &[Booked], entry: &Entry) -> Option<usize> {
    let is_sight = is_evidence(&entry.outcome) && matches!(entry.outcome, Outcome::Seen(_));
    let seen = |booked: &Booked| {
        booked.entry.action == entry.action && matches!(booked.entry.outcome, Outcome::Seen(_))
    };
    if is_sight { entries.iter().rposition(seen) } else { None }
}
