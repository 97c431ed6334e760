//! Axes with round ticks.

/// An axis: what it spans, its ticks with their words, and its label.
#[derive(Clone, Debug, PartialEq)]
pub struct Axis {
    /// Value at its left or lower end.
    pub from: f64,
    /// Value at its right or upper end.
    pub to: f64,
    /// Values of the ticks and what stands at them.
    pub ticks: Vec<(f64, String)>,
    /// What it measures, with the unit.
    pub label: String,
}

/// Where an axis begins.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Foot {
    /// At zero, or below if a value lies there.
    Zero,
    /// A little below the lowest value.
    Lowest,
}

impl Axis {
    /// An axis over all values given, with ticks at round numbers; a little room is left at the ends. It spans at least 1 and a
    /// hundredth of its highest value.
    pub fn over(label: String, values: impl Iterator<Item = f64>, foot: Foot) -> Axis {
        let (mut low, mut high) = ends(values).unwrap_or((0.0, 1.0));
        if foot == Foot::Zero {
            low = low.min(0.0);
        }
        // What hardly moves is not blown up to the height of the chart.
        let least = (0.01 * high.abs()).max(1.0);
        if high - low < least {
            high = low + least;
        }
        let room = 0.06 * (high - low);
        let from = if foot == Foot::Zero && low == 0.0 { 0.0 } else { low - room };
        Axis::round(label, from, high + room)
    }

    /// An axis over all values given that begins and ends on ticks, at round numbers.
    pub fn on_ticks(label: String, values: impl Iterator<Item = f64>) -> Axis {
        let (low, high) = ends(values).unwrap_or((0.0, 1.0));
        let (low, high) = if high > low { (low, high) } else { (low - 0.5, low + 0.5) };
        let step = round_step((high - low) / 6.0);
        // A value on a tick but for rounding takes no further step.
        let (first, last) = ((low / step + 1e-9).floor(), (high / step - 1e-9).ceil());
        Axis::stepped(label, first * step, last * step, step)
    }

    /// An axis from 0 to a last value, with ticks at the first of some steps that takes no more of them than the most; if none does,
    /// at the last step.
    pub fn from_zero(label: String, to: f64, most_ticks: f64, steps: &[f64]) -> Axis {
        let step = steps.iter().find(|step| to / **step <= most_ticks).or(steps.last());
        Axis::stepped(label, 0.0, to, step.copied().unwrap_or(to))
    }

    fn round(label: String, from: f64, to: f64) -> Axis {
        Axis::stepped(label, from, to, round_step((to - from) / 6.0))
    }

    fn stepped(label: String, from: f64, to: f64, step: f64) -> Axis {
        let decimals = if step >= 1.0 { 0 } else { (-libm::log10(step)).ceil().max(0.0) as usize };
        // A tick at an end stands there even if rounding puts it a hair outside.
        let first = (from / step - 1e-9).ceil() as i64;
        let last = (to / step + 1e-9).floor() as i64;
        let ticks = (first..=last)
            .map(|n| {
                let value = n as f64 * step;
                (value, format!("{value:.decimals$}"))
            })
            .collect();
        Axis { from, to, ticks, label }
    }

    /// Where a value stands between the px of the two ends.
    pub fn place(&self, value: f64, from_px: f64, to_px: f64) -> f64 {
        from_px + (value - self.from) / (self.to - self.from) * (to_px - from_px)
    }
}

/// The lowest and the highest of the finite values; `None` without any.
fn ends(values: impl Iterator<Item = f64>) -> Option<(f64, f64)> {
    values.filter(|value| value.is_finite()).fold(None, |ends, value| {
        let (low, high) = ends.unwrap_or((value, value));
        Some((low.min(value), high.max(value)))
    })
}

/// The smallest of 1, 2, 5 times a power of ten that is not under a step.
fn round_step(step: f64) -> f64 {
    let power = libm::pow(10.0, libm::log10(step.max(1.0e-9)).floor());
    [1.0, 2.0, 5.0, 10.0].into_iter().map(|times| times * power).find(|round| *round >= step).unwrap_or(step)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ticks_are_round_and_inside() {
        let axis = Axis::over("x".to_owned(), [3.2, 97.0].into_iter(), Foot::Lowest);
        assert!(axis.ticks.len() >= 3 && axis.ticks.len() <= 7, "{:?}", axis.ticks);
        assert!(axis.ticks.iter().all(|(value, _)| *value >= axis.from && *value <= axis.to));
        assert!(axis.ticks.iter().any(|(_, word)| word == "60"), "{:?}", axis.ticks);
        let flat = Axis::over("x".to_owned(), [0.0, 0.0].into_iter(), Foot::Zero);
        assert!(flat.to > flat.from && flat.from == 0.0);
        let nothing = Axis::over("x".to_owned(), std::iter::empty(), Foot::Lowest);
        assert!(nothing.to > nothing.from);
    }

    #[test]
    fn axes_on_ticks_end_on_round_numbers_and_hold_every_value() {
        let axis = Axis::on_ticks("x".to_owned(), [0.713, f64::NAN, 1.052].into_iter());
        assert!(axis.from <= 0.713 && axis.to >= 1.052);
        assert!((4..=9).contains(&axis.ticks.len()), "{:?}", axis.ticks);
        let (first, last) = (axis.ticks.first(), axis.ticks.last());
        assert!(first.is_some_and(|(value, _)| (value - axis.from).abs() < 1e-9), "{axis:?}");
        assert!(last.is_some_and(|(value, _)| (value - axis.to).abs() < 1e-9), "{axis:?}");
        assert!(axis.ticks.iter().any(|(_, word)| word == "0.8"), "{:?}", axis.ticks);
        let across = Axis::on_ticks("x".to_owned(), [-1.0, 1.0].into_iter());
        assert!(
            across.ticks.iter().any(|(_, word)| word == "0.0"),
            "no minus before a zero: {:?}",
            across.ticks
        );
        let flat = Axis::on_ticks("x".to_owned(), [3.0, 3.0].into_iter());
        assert!(flat.from < 3.0 && flat.to > 3.0);
    }

    #[test]
    fn an_axis_from_zero_takes_the_first_step_with_few_ticks() {
        let words = |to: f64| -> Vec<String> {
            let axis = Axis::from_zero("x".to_owned(), to, 3.0, &[1.0, 5.0, 10.0]);
            axis.ticks.into_iter().map(|(_, word)| word).collect()
        };
        assert_eq!(words(3.0), ["0", "1", "2", "3"]);
        assert_eq!(words(14.0), ["0", "5", "10"]);
        assert_eq!(words(42.0), ["0", "10", "20", "30", "40"]);
    }
}
