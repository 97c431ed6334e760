//! Charts as inline SVG: axes, curves that differ in their dashes, marks that differ in their shapes.

use super::text::escape;

/// Width of every drawing, px; it is scaled to the page.
pub(super) const WIDTH: f64 = 760.0;
const LEFT: f64 = 58.0;
const RIGHT: f64 = 14.0;
/// Height of a line of the legend.
const LEGEND_LINE: f64 = 16.0;
const BOTTOM: f64 = 36.0;
/// Width of a letter of the drawing's text, px, at most (12 px sans).
pub(super) const LETTER: f64 = 6.3;

/// One chart.
pub(super) struct Chart {
    /// Prefix of the identifiers inside; differs from chart to chart.
    pub(super) id: String,
    /// Name for those who do not see it, and what it shows in a sentence.
    pub(super) title: String,
    pub(super) about: String,
    pub(super) height: f64,
    pub(super) x: Axis,
    pub(super) y: Axis,
    pub(super) curves: Vec<Curve>,
    pub(super) marks: Vec<Mark>,
    /// Level lines with their names.
    pub(super) levels: Vec<(f64, String)>,
}

/// An axis: what it spans, its ticks with their words, and its label.
#[derive(Clone, Debug)]
pub(super) struct Axis {
    pub(super) from: f64,
    pub(super) to: f64,
    pub(super) ticks: Vec<(f64, String)>,
    pub(super) label: String,
}

/// A curve.
pub(super) struct Curve {
    pub(super) name: String,
    pub(super) pen: Pen,
    pub(super) points: Vec<[f64; 2]>,
}

/// How a curve is drawn. Dashes tell the pens apart without colour.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Pen {
    Solid,
    Dashed,
    Dotted,
    DashDot,
    /// A thick grey line behind the others.
    Ground,
}

/// A mark: a reading.
pub(super) struct Mark {
    pub(super) at: [f64; 2],
    pub(super) shape: Shape,
    pub(super) label: String,
}

/// Shape of a mark.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Shape {
    /// A reading that can be relied on.
    Full,
    /// A reading in doubt.
    Hollow,
    /// Only the label.
    Bare,
}

impl Pen {
    fn class(self) -> &'static str {
        match self {
            Pen::Solid => "p0",
            Pen::Dashed => "p1",
            Pen::Dotted => "p2",
            Pen::DashDot => "p3",
            Pen::Ground => "pg",
        }
    }
}

impl Axis {
    /// An axis over all values given, with ticks at round numbers; a little room is left at the ends.
    pub(super) fn over(label: String, values: impl Iterator<Item = f64>, foot: Foot) -> Axis {
        let mut low = f64::MAX;
        let mut high = f64::MIN;
        for value in values.filter(|value| value.is_finite()) {
            low = low.min(value);
            high = high.max(value);
        }
        if low > high {
            (low, high) = (0.0, 1.0);
        }
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

    fn round(label: String, from: f64, to: f64) -> Axis {
        let step = round_step((to - from) / 6.0);
        let decimals = if step >= 1.0 { 0 } else { (-libm::log10(step)).ceil().max(0.0) as usize };
        let first = (from / step).ceil() as i64;
        let last = (to / step).floor() as i64;
        let ticks = (first..=last)
            .map(|n| {
                let value = n as f64 * step;
                (value, format!("{value:.decimals$}"))
            })
            .collect();
        Axis { from, to, ticks, label }
    }

    /// Minutes since arrival from 0 to a last one; hours when there are many.
    pub(super) fn minutes(label: String, last_min: f64) -> Axis {
        let to = last_min.max(1.0);
        let step = [1.0, 5.0, 10.0, 15.0, 30.0, 60.0, 120.0, 240.0]
            .into_iter()
            .find(|step| to / step <= 10.0)
            .unwrap_or(480.0);
        let last = (to / step).floor() as i64;
        let ticks = (0..=last).map(|n| (n as f64 * step, format!("{:.0}", n as f64 * step))).collect();
        Axis { from: 0.0, to, ticks, label }
    }

    /// Hours from 0 to a last one.
    pub(super) fn hours(label: String, last_h: f64) -> Axis {
        let to = last_h.max(0.1);
        let step =
            [1.0, 2.0, 3.0, 6.0, 12.0, 24.0].into_iter().find(|step| to / step <= 12.0).unwrap_or(48.0);
        let last = (to / step).floor() as i64;
        let ticks = (0..=last).map(|n| (n as f64 * step, format!("{:.0}", n as f64 * step))).collect();
        Axis { from: 0.0, to, ticks, label }
    }

    pub(super) fn place(&self, value: f64, from_px: f64, to_px: f64) -> f64 {
        from_px + (value - self.from) / (self.to - self.from) * (to_px - from_px)
    }
}

/// Where an axis begins.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Foot {
    Zero,
    Lowest,
}

/// The smallest of 1, 2, 5 times a power of ten that is not under a step.
fn round_step(step: f64) -> f64 {
    let power = libm::pow(10.0, libm::log10(step.max(1.0e-9)).floor());
    [1.0, 2.0, 5.0, 10.0].into_iter().map(|times| times * power).find(|round| *round >= step).unwrap_or(step)
}

/// The opening of a drawing with its name and description.
pub(super) fn open_svg(id: &str, title: &str, about: &str, height: f64) -> String {
    format!(
        "<svg viewBox=\"0 0 {WIDTH:.0} {height:.0}\" role=\"img\" aria-labelledby=\"{id}-t {id}-d\">\n\
         <title id=\"{id}-t\">{}</title>\n<desc id=\"{id}-d\">{}</desc>\n",
        escape(title),
        escape(about)
    )
}

impl Chart {
    /// The drawing.
    pub(super) fn svg(&self) -> String {
        let (legend, lines) = self.legend(LEFT, WIDTH - RIGHT);
        let (left, right) = (LEFT, WIDTH - RIGHT);
        let (top, bottom) = (12.0 + LEGEND_LINE * lines, self.height - BOTTOM);
        let mut svg = open_svg(&self.id, &self.title, &self.about, self.height);
        svg.push_str(&legend);
        for (value, word) in &self.y.ticks {
            let y = self.y.place(*value, bottom, top);
            svg.push_str(&format!("<path class=\"grid\" d=\"M{left:.1} {y:.1}H{right:.1}\"/>"));
            svg.push_str(&format!(
                "<text class=\"end\" x=\"{:.1}\" y=\"{:.1}\">{word}</text>\n",
                left - 6.0,
                y + 4.0
            ));
        }
        svg.push_str(&x_ticks(&self.x, left, right, top, bottom));
        svg.push_str(&format!(
            "<text class=\"mid\" transform=\"translate(13 {:.1}) rotate(-90)\">{}</text>\n",
            (top + bottom) / 2.0,
            escape(&self.y.label)
        ));
        svg.push_str(&format!(
            "<rect class=\"box\" x=\"{left:.1}\" y=\"{top:.1}\" width=\"{:.1}\" height=\"{:.1}\"/>\n",
            right - left,
            bottom - top
        ));
        let mut names = String::new();
        for (value, name) in &self.levels {
            let y = self.y.place(*value, bottom, top);
            if (top..=bottom).contains(&y) {
                svg.push_str(&format!("<path class=\"level\" d=\"M{left:.1} {y:.1}H{right:.1}\"/>\n"));
                // Written after the curves, so that its halo keeps it readable among them.
                names.push_str(&format!(
                    "<text class=\"end halo\" x=\"{:.1}\" y=\"{:.1}\">{}</text>\n",
                    right - 4.0,
                    y - 4.0,
                    escape(name)
                ));
            }
        }
        for curve in &self.curves {
            let line: Vec<String> = curve
                .points
                .iter()
                .map(|[x, y]| {
                    format!("{:.1},{:.1}", self.x.place(*x, left, right), self.y.place(*y, bottom, top))
                })
                .collect();
            svg.push_str(&format!(
                "<polyline class=\"{}\" points=\"{}\"/>\n",
                curve.pen.class(),
                line.join(" ")
            ));
        }
        svg.push_str(&names);
        let mut labels = Labels::default();
        for mark in &self.marks {
            let x = self.x.place(mark.at[0], left, right);
            let y = self.y.place(mark.at[1], bottom, top);
            match mark.shape {
                Shape::Full => {
                    svg.push_str(&format!("<circle class=\"full\" cx=\"{x:.1}\" cy=\"{y:.1}\" r=\"4\"/>"))
                }
                Shape::Hollow => {
                    svg.push_str(&format!("<circle class=\"hollow\" cx=\"{x:.1}\" cy=\"{y:.1}\" r=\"4\"/>"));
                }
                Shape::Bare => {}
            }
            let (x, y) = labels.free(x + 6.0, y - 6.0, mark.label.chars().count(), top + 10.0, right);
            svg.push_str(&format!(
                "<text class=\"halo small\" x=\"{x:.1}\" y=\"{y:.1}\">{}</text>\n",
                escape(&mark.label)
            ));
        }
        svg.push_str("</svg>\n");
        svg
    }

    /// Names of the curves with a piece of their line, above the box, and how many lines they take.
    fn legend(&self, left: f64, right: f64) -> (String, f64) {
        let mut legend = String::new();
        let (mut x, mut y) = (left, 13.0);
        for curve in self.curves.iter().filter(|curve| !curve.name.is_empty()) {
            let width = 40.0 + LETTER * curve.name.chars().count() as f64;
            if x > left && x + width > right {
                (x, y) = (left, y + LEGEND_LINE);
            }
            legend.push_str(&format!(
                "<path class=\"{}\" d=\"M{x:.1} {y:.1}H{:.1}\"/>",
                curve.pen.class(),
                x + 34.0
            ));
            legend.push_str(&format!(
                "<text x=\"{:.1}\" y=\"{:.1}\">{}</text>\n",
                x + 40.0,
                y + 4.0,
                escape(&curve.name)
            ));
            x += width + 18.0;
        }
        (legend, (y - 13.0) / LEGEND_LINE + 1.0)
    }
}

/// Ticks of the lower axis and its label.
pub(super) fn x_ticks(axis: &Axis, left: f64, right: f64, top: f64, bottom: f64) -> String {
    let mut svg = String::new();
    for (value, word) in &axis.ticks {
        let x = axis.place(*value, left, right);
        svg.push_str(&format!("<path class=\"grid\" d=\"M{x:.1} {top:.1}V{bottom:.1}\"/>"));
        svg.push_str(&format!("<text class=\"mid\" x=\"{x:.1}\" y=\"{:.1}\">{word}</text>\n", bottom + 15.0));
    }
    svg.push_str(&format!(
        "<text class=\"mid\" x=\"{:.1}\" y=\"{:.1}\">{}</text>\n",
        (left + right) / 2.0,
        bottom + 31.0,
        escape(&axis.label)
    ));
    svg
}

/// Places of labels that do not lie over each other.
#[derive(Default)]
struct Labels {
    taken: Vec<[f64; 4]>,
}

impl Labels {
    /// A free place near a wanted one: first upwards, then downwards; the wanted one if nothing is free.
    fn free(&mut self, x: f64, y: f64, letters: usize, top: f64, right: f64) -> (f64, f64) {
        let width = LETTER * letters as f64;
        let x = x.min(right - width);
        let ways = [0.0, -12.0, 18.0, -24.0, 30.0, -36.0, 42.0];
        let is_free = |y: f64| {
            self.taken.iter().all(|[l, t, r, b]| x > *r || x + width < *l || y - 10.0 > *b || y < *t)
        };
        let y = ways.into_iter().map(|way| y + way).find(|y| *y >= top && is_free(*y)).unwrap_or(y.max(top));
        self.taken.push([x, y - 10.0, x + width, y]);
        (x, y)
    }
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
    fn labels_of_marks_do_not_cover_each_other() {
        let mut labels = Labels::default();
        let first = labels.free(100.0, 50.0, 2, 10.0, 700.0);
        let second = labels.free(101.0, 51.0, 2, 10.0, 700.0);
        assert_ne!(first, second);
        assert!((first.1 - second.1).abs() >= 10.0);
        assert_eq!(labels.free(300.0, 50.0, 2, 10.0, 700.0), (300.0, 50.0));
    }
}
