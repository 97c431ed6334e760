//! What a test may give, and how likely each outcome is on each shadow.
//!
//! Readings share a scale of steps; a shadow's chances on it have the width of instrument and model, and as much more as its
//! neighbours in severity lie apart, since the truth may lie anywhere between them. What may be seen is each thing that
//! any shadow shows, as likely on another one as `sight` would judge it.

use visit::{Entry, Move, Observation, Outcome, Reading, Running};

use crate::hypothesis::Hypothesis;
use crate::phase::{Against, Fit};
use crate::sight::{looked_at, of_sight};
use crate::weigh::spread;

/// Steps of the scale of readings.
const STEPS: usize = 64;
/// A spread narrower than this share of a step falls on the steps around it.
const NARROWEST: f64 = 0.4;
/// Posterior that a meter shows a number where a shadow says that it shows none, or the other way round.
const SLIP_OF_A_METER: f64 = 0.002;

/// A suspect on one shadow: what is asked.
#[derive(Clone, Debug)]
pub(crate) struct Row<'a> {
    pub suspect: &'a Hypothesis,
    /// Index of the suspect, and of its part.
    pub index: usize,
    pub part: usize,
    pub probability: f64,
    /// The shadow's index among those that are asked.
    pub shadow: usize,
}

/// What one shadow gives.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Given<'a> {
    pub outcome: &'a Outcome,
    /// What the shadow gave when the same look was made the last time.
    pub before: Option<&'a Entry>,
    /// Whether it is so shortly after a start or a stop that readings can't be compared.
    pub apart: bool,
}

/// PosteriorHistory of a test's outcomes: a row for each row asked, a column for each outcome; each row adds up to one. Where a shadow says
/// nothing, every outcome is as likely as it is among the others.
#[derive(Clone, Debug)]
pub(crate) struct Table {
    columns: usize,
    chances: Vec<f64>,
}

impl Table {
    /// The table of a test; `gave` by shadow, `None` where it says nothing. `None` if no shadow says anything.
    pub(crate) fn of(
        action: &Move,
        rows: &[Row<'_>],
        gave: &[Option<Given<'_>>],
        seen_before: Option<&Entry>,
    ) -> Option<Table> {
        let scale = Scale::over(rows, gave);
        let sights = Sights::of(action, rows, gave, seen_before);
        // Steps, sights, something odd.
        let odd = STEPS + sights.all.len();
        let columns = odd + 1;
        let mut chances = vec![0.0; rows.len() * columns];
        let mut says = vec![false; rows.len()];
        let mut neutral = vec![0.0; columns];
        let mut total = 0.0;
        for (at, row) in rows.iter().enumerate() {
            let Some(given) = gave[row.shadow] else { continue };
            let here = &mut chances[at * columns..(at + 1) * columns];
            match given.outcome {
                Outcome::Read(reading) => scale.fill(here, reading.value, scale.widths[at]),
                Outcome::Seen(_) => {
                    let sum = sights.fill(&mut here[STEPS..odd], row, given);
                    here[odd] = (1.0 - sum).max(0.0);
                }
                // No number and nothing to see.
                _ => here[odd] = 1.0,
            }
            says[at] = true;
            total += row.probability;
            for (neutral, here) in neutral.iter_mut().zip(here.iter()) {
                *neutral += row.probability * here;
            }
        }
        if total <= 0.0 {
            return None;
        }
        neutral.iter_mut().for_each(|chance| *chance /= total);
        for at in (0..rows.len()).filter(|at| !says[*at]) {
            chances[at * columns..(at + 1) * columns].copy_from_slice(&neutral);
        }
        Some(Table { columns, chances })
    }

    /// A table written by hand, row after row.
    #[cfg(test)]
    pub(crate) fn by_hand(columns: usize, chances: Vec<f64>) -> Table {
        Table { columns, chances }
    }

    pub(crate) fn columns(&self) -> usize {
        self.columns
    }

    pub(crate) fn row(&self, at: usize) -> &[f64] {
        &self.chances[at * self.columns..(at + 1) * self.columns]
    }

    /// Mutual information of part and outcome, bit.
    pub(crate) fn gain_bits(&self, rows: &[Row<'_>], parts: usize) -> f64 {
        let mut joint = vec![0.0; parts * self.columns];
        let mut of_parts = vec![0.0; parts];
        let mut of_columns = vec![0.0; self.columns];
        let total: f64 = rows.iter().map(|row| row.probability).sum();
        for (at, row) in rows.iter().enumerate() {
            let probability = row.probability / total;
            of_parts[row.part] += probability;
            for (column, chance) in self.row(at).iter().enumerate() {
                joint[row.part * self.columns + column] += probability * chance;
                of_columns[column] += probability * chance;
            }
        }
        let mut bits = 0.0;
        for (part, of_part) in of_parts.iter().enumerate() {
            for (column, of_column) in of_columns.iter().enumerate() {
                let chance = joint[part * self.columns + column];
                if chance > 1.0e-12 {
                    bits += chance * libm::log2(chance / (of_part * of_column));
                }
            }
        }
        bits.max(0.0)
    }
}

/// Scale of the readings of one test.
struct Scale {
    low: f64,
    step: f64,
    /// One standard deviation of each row.
    widths: Vec<f64>,
}

impl Scale {
    fn over(rows: &[Row<'_>], gave: &[Option<Given<'_>>]) -> Scale {
        let widths = widths(rows, gave);
        let (mut low, mut high) = (f64::MAX, f64::MIN);
        for (row, width) in rows.iter().zip(&widths) {
            if let Some((reading, _)) = reading(gave[row.shadow].as_ref()) {
                low = low.min(reading.value - 3.0 * width);
                high = high.max(reading.value + 3.0 * width);
            }
        }
        let (low, step) = if high > low { (low, (high - low) / STEPS as f64) } else { (0.0, 1.0) };
        Scale { low, step, widths }
    }

    /// Shares of a reading's chances on the steps of the scale.
    fn fill(&self, here: &mut [f64], value: f64, width: f64) {
        let width = width.max(NARROWEST * self.step);
        let mut total = 0.0;
        for (step, share) in here[..STEPS].iter_mut().enumerate() {
            let off = (self.low + (step as f64 + 0.5) * self.step - value) / width;
            *share = libm::exp(-0.5 * off * off);
            total += *share;
        }
        if total > 0.0 {
            here[..STEPS].iter_mut().for_each(|share| *share /= total);
        }
    }
}

fn reading<'a>(given: Option<&Given<'a>>) -> Option<(&'a Reading, bool)> {
    match given {
        Some(Given { outcome: Outcome::Read(reading), apart, .. }) => Some((reading, *apart)),
        _ => None,
    }
}

/// One standard deviation of each row's reading: instrument, model, and the way to the neighbours of the same suspect as far
/// as these may as well be true.
fn widths(rows: &[Row<'_>], gave: &[Option<Given<'_>>]) -> Vec<f64> {
    let mut variances = vec![0.0; rows.len()];
    let mut of_suspects: Vec<(usize, f64, usize)> = Vec::new();
    for (at, row) in rows.iter().enumerate() {
        if let Some((reading, apart)) = reading(gave[row.shadow].as_ref()) {
            let narrow = spread(reading, apart);
            variances[at] = narrow * narrow;
            of_suspects.push((row.index, reading.value, at));
        }
    }
    of_suspects.sort_by(|a, b| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)));
    // A shadow stands for what lies on the way to the next one the less the nearer it is to that: a triangle, whose mean
    // square is a sixth of the way's. Of two sides each has half of it.
    let mut ways: Vec<[f64; 2]> = vec![[0.0; 2]; rows.len()];
    for pair in of_suspects.windows(2) {
        let ((suspect, low, one), (other_suspect, high, other)) = (pair[0], pair[1]);
        if suspect != other_suspect {
            continue;
        }
        for (here, there, side) in [(one, other, 0), (other, one, 1)] {
            let (p, q) = (rows[here].probability, rows[there].probability);
            let as_likely = (2.0 * q / (p + q).max(f64::MIN_POSITIVE)).min(1.0);
            ways[here][side] = (high - low) * as_likely;
        }
    }
    let between = |[up, down]: [f64; 2]| {
        let sides = if up > 0.0 && down > 0.0 { 2.0 } else { 1.0 };
        (up * up + down * down) / 6.0 / sides
    };
    variances.into_iter().zip(ways).map(|(variance, ways)| libm::sqrt(variance + between(ways))).collect()
}

/// What may be seen or shown as blank.
struct Sights<'a> {
    action: &'a Move,
    /// What was seen the last time.
    before: Option<&'a Entry>,
    all: Vec<Entry>,
}

/// How a shadow's sight is held against a sight of the same moment.
const FIT: Fit = Fit {
    chances: [1.0; 3],
    against: Against::Entry,
    outdoor_fan_turned: true,
    blower_turned: true,
    iced: false,
    stood: false,
    cycled: false,
    compressor_cycled: false,
};

impl<'a> Sights<'a> {
    fn of(
        action: &'a Move,
        rows: &[Row<'_>],
        gave: &[Option<Given<'_>>],
        before: Option<&'a Entry>,
    ) -> Sights<'a> {
        let mut all: Vec<Vec<Observation>> = Vec::new();
        let mut add = |mut sight: Vec<Observation>| {
            sight.sort();
            if !all.contains(&sight) {
                all.push(sight);
            }
        };
        let mut asked: Vec<usize> = rows.iter().map(|row| row.shadow).collect();
        asked.dedup();
        for shadow in asked {
            let Some(Given { outcome: Outcome::Seen(seen), .. }) = gave[shadow] else { continue };
            let is_stain =
                |one: &Observation| matches!(one, Observation::OilStain(_) | Observation::NoOilStain);
            let plain: Vec<Observation> = seen.iter().copied().filter(|one| !is_stain(one)).collect();
            match (action, looked_at(action)) {
                (Move::SearchLeak(place, _), _) => {
                    add(vec![Observation::LeakFound(*place)]);
                    add(vec![Observation::NoLeakFound(*place)]);
                }
                // Whether a leak stains where it is depends on what nobody knows.
                (_, Some(place)) => {
                    add([plain.clone(), vec![Observation::OilStain(place)]].concat());
                    add([plain, vec![Observation::NoOilStain]].concat());
                }
                (_, None) => add(plain),
            }
        }
        if let Some(Outcome::Seen(seen)) = before.map(|before| &before.outcome) {
            add(seen.clone());
        }
        let all = all.into_iter().map(|seen| entry(action, Outcome::Seen(seen))).collect();
        Sights { action, before, all }
    }

    /// The sight of the last time, if the shadow shows what it showed then: it is the same sight, slip and all.
    fn again(&self, given: Given<'_>) -> Option<usize> {
        let Outcome::Seen(seen) = &self.before?.outcome else { return None };
        if given.before?.outcome != *given.outcome {
            return None;
        }
        let mut seen = seen.clone();
        seen.sort();
        self.all.iter().position(|sight| sight.outcome == Outcome::Seen(seen.clone()))
    }

    /// PosteriorHistory of the sights on a row; their sum.
    fn fill(&self, here: &mut [f64], row: &Row<'_>, given: Given<'_>) -> f64 {
        if matches!(self.action, Move::MeasureResistance { .. } | Move::MeasureCapacitance { .. }) {
            for (chance, sight) in here.iter_mut().zip(&self.all) {
                *chance = if sight.outcome == *given.outcome { 1.0 - SLIP_OF_A_METER } else { 0.0 };
            }
        } else if let Some(again) = self.again(given) {
            here[again] = 1.0;
        } else {
            let there = entry(self.action, given.outcome.clone());
            let before = self.before.zip(given.before).map(|(here, there)| [here, there]);
            for (chance, sight) in here.iter_mut().zip(&self.all) {
                *chance = of_sight(sight, &there, &FIT, before, row.suspect);
            }
        }
        let sum: f64 = here.iter().sum();
        if sum > 1.0 {
            here.iter_mut().for_each(|chance| *chance /= sum);
        }
        sum.min(1.0)
    }
}

fn entry(action: &Move, outcome: Outcome) -> Entry {
    Entry {
        number: 0,
        action: action.clone(),
        started_s: 0.0,
        finished_s: 0.0,
        running: Running::default(),
        outcome,
        notes: Vec::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use plant::FaultKind;
    use visit::{Measured, Place, Port, Trust};

    /// Rows of suspects with a part each, one or more shadows for each suspect, all equally likely.
    fn rows<'a>(suspects: &'a [Hypothesis], of_shadows: &[usize]) -> Vec<Row<'a>> {
        let row = |(shadow, index): (usize, &usize)| Row {
            suspect: &suspects[*index],
            index: *index,
            part: *index,
            probability: 1.0 / of_shadows.len() as f64,
            shadow,
        };
        of_shadows.iter().enumerate().map(row).collect()
    }

    fn two() -> [Hypothesis; 2] {
        [FaultKind::LoadedFilter, FaultKind::FouledCondenser].map(|kind| Hypothesis::single(kind, None))
    }

    fn told(action: &Move, of_shadows: &[usize], outcomes: &[Option<Outcome>]) -> f64 {
        told_after(action, of_shadows, outcomes, None)
    }

    fn told_after(
        action: &Move,
        of_shadows: &[usize],
        outcomes: &[Option<Outcome>],
        before: Option<(&Entry, &[Entry])>,
    ) -> f64 {
        let suspects = two();
        let rows = rows(&suspects, of_shadows);
        let gave: Vec<Option<Given<'_>>> = outcomes
            .iter()
            .enumerate()
            .map(|(at, outcome)| {
                let before = before.map(|(_, there)| &there[at]);
                Some(Given { outcome: outcome.as_ref()?, before, apart: false })
            })
            .collect();
        let table = Table::of(action, &rows, &gave, before.map(|(here, _)| here)).expect("an answer");
        for at in 0..rows.len() {
            let sum: f64 = table.row(at).iter().sum();
            assert!((sum - 1.0).abs() < 1.0e-9, "row {at}: {sum}");
        }
        table.gain_bits(&rows, 2)
    }

    fn seen(one: &[Observation]) -> Option<Outcome> {
        Some(Outcome::Seen(one.to_vec()))
    }

    fn suction(value: f64) -> Option<Outcome> {
        Some(Outcome::Read(Reading {
            quantity: Measured::GaugePressure(Port::Suction),
            piece: 1,
            value,
            uncertainty: 0.0,
            trust: Trust::Sound,
            shown: Trust::Sound,
        }))
    }

    /// Neighbouring degrees of ice are easily mistaken, a filter in the hands seldom, something plain hardly ever.
    #[test]
    fn a_look_tells_as_much_as_its_subject_can_be_told_apart() {
        let of = |action: Move, one: &[Observation], other: &[Observation]| {
            told(&action, &[0, 1], &[seen(one), seen(other)])
        };
        let ice = of(Move::Look(Place::Drier), &[Observation::NoIce], &[Observation::SomeIce]);
        let filter = of(Move::InspectFilter, &[Observation::FilterClean], &[Observation::FilterDirty]);
        let finding = of(Move::Look(Place::SupplyRegister), &[Observation::RegistersClosed], &[]);
        assert!(ice < 0.6 && ice > 0.3, "{ice} bit");
        assert!((0.75..0.9).contains(&filter), "{filter} bit");
        assert!(finding > 0.95, "{finding} bit");
        let same = of(Move::InspectFilter, &[Observation::FilterClean], &[Observation::FilterClean]);
        assert!(same < 1.0e-9, "{same} bit");
    }

    /// What was seen and is shown once more tells nothing new; a shadow that shows something new may.
    #[test]
    fn the_same_look_again_is_expected_to_tell_nothing() {
        let action = Move::InspectFilter;
        let (clean, dirty) = ([Observation::FilterClean], [Observation::FilterDirty]);
        let was = |one: &[Observation]| entry(&action, Outcome::Seen(one.to_vec()));
        let outcomes = [seen(&clean), seen(&dirty)];
        let again =
            told_after(&action, &[0, 1], &outcomes, Some((&was(&clean), &[was(&clean), was(&dirty)])));
        assert!(again < 0.05, "{again} bit");
        let changed =
            told_after(&action, &[0, 1], &outcomes, Some((&was(&clean), &[was(&clean), was(&clean)])));
        assert!(changed > 0.3, "{changed} bit");
    }

    #[test]
    fn where_a_shadow_says_nothing_nothing_is_told_of_it() {
        let both = told(&Move::ReadGauge(Port::Suction), &[0, 1], &[suction(8.0e5), suction(9.0e5)]);
        assert!(both > 0.95, "{both} bit");
        let one = told(&Move::ReadGauge(Port::Suction), &[0, 1], &[suction(8.0e5), None]);
        assert!(one < 1.0e-9, "{one} bit");
    }

    /// Severities between two shadows may be true as well: what lies between their readings does not rule their suspect out.
    #[test]
    fn a_reading_between_two_severities_is_one_of_theirs() {
        let gauge = Move::ReadGauge(Port::Suction);
        let apart = told(&gauge, &[0, 1], &[suction(8.0e5), suction(9.0e5)]);
        let between = told(&gauge, &[0, 0, 1], &[suction(8.0e5), suction(10.0e5), suction(9.0e5)]);
        let whole = 0.918; // entropy of a third against two thirds
        assert!(apart > 0.95 && between < 0.85 * whole, "{apart} and {between} bit");
        let beside = told(&gauge, &[0, 0, 1], &[suction(8.0e5), suction(8.4e5), suction(11.0e5)]);
        assert!(beside > 0.95 * whole, "{beside} bit");
    }

    /// A meter that shows nothing is a reading of its own.
    #[test]
    fn no_continuity_is_told_from_a_winding() {
        use plant::Terminal::{FanMotorCommon, FanMotorRun};
        let ohms = Move::MeasureResistance { from: FanMotorCommon, to: FanMotorRun };
        let winding = Outcome::Read(Reading {
            quantity: Measured::Resistance(FanMotorCommon, FanMotorRun),
            piece: 6,
            value: 35.0,
            uncertainty: 0.0,
            trust: Trust::Sound,
            shown: Trust::Sound,
        });
        let open = seen(&[Observation::NoContinuity(FanMotorCommon, FanMotorRun)]);
        let bits = told(&ohms, &[0, 1], &[Some(winding), open]);
        assert!(bits > 0.95, "{bits} bit");
    }
}
