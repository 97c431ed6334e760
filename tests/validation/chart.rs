//! Small line charts as SVG: published values with their band, ours beside them. Series differ by dash and mark, not by
//! colour alone. Numbers are written with fixed digits, so that the same run gives the same bytes.

/// How a series is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Style {
    /// Published: dashed, open squares.
    Published,
    /// A second published set: dotted, open diamonds.
    PublishedSecond,
    /// Ours: solid, filled circles.
    Ours,
    /// A second system of ours: solid, filled triangles.
    OursSecond,
    /// A line without marks, such as where both would agree.
    Guide,
}

/// Whether the points of a series are joined.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Join {
    /// By straight lines.
    Line,
    /// Not at all.
    Points,
}

/// How far a band reaches to either side of its series.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Band {
    /// There is none.
    None,
    /// So much, in units of the vertical axis.
    Absolute(f64),
    /// So much of the value.
    Share(f64),
}

impl Band {
    fn at(self, y: f64) -> f64 {
        match self {
            Band::None => 0.0,
            Band::Absolute(half) => half,
            Band::Share(share) => share * y,
        }
    }
}

/// Points with a name.
#[derive(Clone, Debug, PartialEq)]
pub struct Series {
    /// Name in the legend.
    pub name: String,
    /// Look.
    pub style: Style,
    /// Joined or not.
    pub join: Join,
    /// Band around it.
    pub band: Band,
    /// Points, left to right.
    pub points: Vec<(f64, f64)>,
}

impl Series {
    /// A joined series without a band.
    pub fn new(name: &str, style: Style, points: Vec<(f64, f64)>) -> Series {
        Series { name: name.to_owned(), style, join: Join::Line, band: Band::None, points }
    }

    /// With a band of this half height.
    pub fn band(mut self, half: f64) -> Series {
        self.band = Band::Absolute(half);
        self
    }

    /// With a band of this share of the value.
    pub fn band_share(mut self, share: f64) -> Series {
        self.band = Band::Share(share);
        self
    }

    /// Marks only.
    pub fn apart(mut self) -> Series {
        self.join = Join::Points;
        self
    }
}

/// A chart.
#[derive(Clone, Debug, PartialEq)]
pub struct Chart {
    /// File name without ending.
    pub file: &'static str,
    /// Title, also the text that stands for the picture.
    pub title: String,
    /// Horizontal axis with unit.
    pub x: String,
    /// Vertical axis with unit.
    pub y: String,
    /// What is drawn, first at the bottom.
    pub series: Vec<Series>,
}

const WIDTH: f64 = 720.0;
const LEFT: f64 = 70.0;
const RIGHT: f64 = 20.0;
const TOP: f64 = 44.0;
const PLOT_HEIGHT: f64 = 330.0;
const BELOW: f64 = 56.0;
const LEGEND_ROW: f64 = 20.0;
/// Longest name that leaves room for a second column.
const LEGEND_NAME_MAX: usize = 36;
const INK: &str = "#222222";
const GRID: &str = "#d9d9d9";

impl Style {
    /// Blue and vermilion of the palette that colour-blind people can tell apart (Okabe & Ito 2008); grey for published.
    fn colour(self) -> &'static str {
        match self {
            Style::Published | Style::Guide => "#555555",
            Style::PublishedSecond => "#8a6d00",
            Style::Ours => "#0072b2",
            Style::OursSecond => "#d55e00",
        }
    }

    fn dash(self) -> &'static str {
        match self {
            Style::Published => " stroke-dasharray=\"8 5\"",
            Style::PublishedSecond => " stroke-dasharray=\"2 4\"",
            Style::Guide => " stroke-dasharray=\"1 3\"",
            Style::Ours | Style::OursSecond => "",
        }
    }

    fn mark(self, x: f64, y: f64) -> String {
        let colour = self.colour();
        match self {
            Style::Published => format!(
                "<rect x=\"{:.1}\" y=\"{:.1}\" width=\"9\" height=\"9\" fill=\"white\" stroke=\"{colour}\" stroke-width=\"1.6\"/>\n",
                x - 4.5,
                y - 4.5
            ),
            Style::PublishedSecond => format!(
                "<path d=\"M{x:.1} {:.1} L{:.1} {y:.1} L{x:.1} {:.1} L{:.1} {y:.1} Z\" fill=\"white\" stroke=\"{colour}\" stroke-width=\"1.6\"/>\n",
                y - 6.0,
                x + 6.0,
                y + 6.0,
                x - 6.0
            ),
            Style::Ours => format!("<circle cx=\"{x:.1}\" cy=\"{y:.1}\" r=\"4.5\" fill=\"{colour}\"/>\n"),
            Style::OursSecond => format!(
                "<path d=\"M{x:.1} {:.1} L{:.1} {:.1} L{:.1} {:.1} Z\" fill=\"{colour}\"/>\n",
                y - 6.0,
                x + 5.5,
                y + 4.5,
                x - 5.5,
                y + 4.5
            ),
            Style::Guide => String::new(),
        }
    }
}

/// Where an axis begins and ends, and its step: round numbers.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Axis {
    low: f64,
    high: f64,
    step: f64,
}

impl Axis {
    fn over(values: impl Iterator<Item = f64>) -> Axis {
        let (low, high) = values
            .filter(|v| v.is_finite())
            .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), v| (low.min(v), high.max(v)));
        let (low, high) = if high > low { (low, high) } else { (low - 0.5, low + 0.5) };
        let rough = (high - low) / 6.0;
        let decade = libm::pow(10.0, libm::floor(libm::log10(rough)));
        let step = [1.0, 2.0, 5.0, 10.0].map(|m| m * decade).into_iter().find(|s| *s >= rough);
        let step = step.unwrap_or(10.0 * decade);
        Axis { low: libm::floor(low / step + 1e-9) * step, high: libm::ceil(high / step - 1e-9) * step, step }
    }

    fn ticks(&self) -> impl Iterator<Item = f64> + '_ {
        let count = libm::round((self.high - self.low) / self.step) as u32;
        (0..=count).map(|i| self.low + f64::from(i) * self.step)
    }

    fn label(&self, value: f64) -> String {
        let decimals = (-libm::floor(libm::log10(self.step) + 1e-9)).max(0.0) as usize;
        let value = if value.abs() < 1e-9 { 0.0 } else { value };
        format!("{value:.decimals$}")
    }

    fn share(&self, value: f64) -> f64 {
        (value - self.low) / (self.high - self.low)
    }
}

fn text(x: f64, y: f64, anchor: &str, size: u32, content: &str) -> String {
    let content = content.replace('&', "&amp;").replace('<', "&lt;");
    format!(
        "<text x=\"{x:.1}\" y=\"{y:.1}\" text-anchor=\"{anchor}\" font-size=\"{size}\" fill=\"{INK}\">{content}</text>\n"
    )
}

fn polyline(points: &[(f64, f64)], style: Style) -> String {
    let path: Vec<String> = points.iter().map(|(x, y)| format!("{x:.1},{y:.1}")).collect();
    format!(
        "<polyline points=\"{}\" fill=\"none\" stroke=\"{}\" stroke-width=\"2\"{}/>\n",
        path.join(" "),
        style.colour(),
        style.dash()
    )
}

impl Chart {
    /// The picture.
    pub fn svg(&self) -> String {
        let xs = self.series.iter().flat_map(|s| s.points.iter().map(|p| p.0));
        let ys = self
            .series
            .iter()
            .flat_map(|s| s.points.iter().flat_map(|p| [p.1 - s.band.at(p.1), p.1 + s.band.at(p.1)]));
        let (x_axis, y_axis) = (Axis::over(xs), Axis::over(ys));
        let plot_width = WIDTH - LEFT - RIGHT;
        let place = |(x, y): (f64, f64)| {
            (LEFT + x_axis.share(x) * plot_width, TOP + (1.0 - y_axis.share(y)) * PLOT_HEIGHT)
        };
        let rows = self.series.len().div_ceil(self.legend_columns()) as f64;
        let height = TOP + PLOT_HEIGHT + BELOW + rows * LEGEND_ROW + 8.0;
        let mut svg = format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{WIDTH}\" height=\"{height}\" viewBox=\"0 0 {WIDTH} {height}\" font-family=\"DejaVu Sans, Arial, sans-serif\" role=\"img\">\n<title>{}</title>\n<rect width=\"{WIDTH}\" height=\"{height}\" fill=\"white\"/>\n",
            self.title
        );
        svg += &text(LEFT, 26.0, "start", 16, &self.title);
        for tick in x_axis.ticks() {
            let (x, _) = place((tick, y_axis.low));
            svg += &format!(
                "<line x1=\"{x:.1}\" y1=\"{TOP}\" x2=\"{x:.1}\" y2=\"{:.1}\" stroke=\"{GRID}\"/>\n",
                TOP + PLOT_HEIGHT
            );
            svg += &text(x, TOP + PLOT_HEIGHT + 18.0, "middle", 13, &x_axis.label(tick));
        }
        for tick in y_axis.ticks() {
            let (_, y) = place((x_axis.low, tick));
            svg += &format!(
                "<line x1=\"{LEFT}\" y1=\"{y:.1}\" x2=\"{:.1}\" y2=\"{y:.1}\" stroke=\"{GRID}\"/>\n",
                LEFT + plot_width
            );
            svg += &text(LEFT - 8.0, y + 4.5, "end", 13, &y_axis.label(tick));
        }
        for series in self.series.iter().filter(|s| s.band != Band::None) {
            let upper = series.points.iter().map(|p| place((p.0, p.1 + series.band.at(p.1))));
            let lower = series.points.iter().rev().map(|p| place((p.0, p.1 - series.band.at(p.1))));
            let outline: Vec<String> = upper.chain(lower).map(|(x, y)| format!("{x:.1},{y:.1}")).collect();
            svg += &format!(
                "<polygon points=\"{}\" fill=\"{}\" fill-opacity=\"0.13\" stroke=\"{}\" stroke-opacity=\"0.4\"/>\n",
                outline.join(" "),
                series.style.colour(),
                series.style.colour()
            );
        }
        for series in &self.series {
            let points: Vec<(f64, f64)> = series.points.iter().map(|p| place(*p)).collect();
            if series.join == Join::Line {
                svg += &polyline(&points, series.style);
            }
            for (x, y) in points {
                svg += &series.style.mark(x, y);
            }
        }
        svg += &format!(
            "<rect x=\"{LEFT}\" y=\"{TOP}\" width=\"{plot_width:.1}\" height=\"{PLOT_HEIGHT}\" fill=\"none\" stroke=\"{INK}\"/>\n"
        );
        svg += &text(LEFT + 0.5 * plot_width, TOP + PLOT_HEIGHT + 42.0, "middle", 14, &self.x);
        let middle = TOP + 0.5 * PLOT_HEIGHT;
        svg += &format!("<g transform=\"rotate(-90 18 {middle:.1})\">\n");
        svg += &text(18.0, middle, "middle", 14, &self.y);
        svg += "</g>\n";
        svg += &self.legend(TOP + PLOT_HEIGHT + BELOW + 10.0);
        svg + "</svg>\n"
    }

    /// Two to a row, or one where a name is long.
    fn legend_columns(&self) -> usize {
        if self.series.iter().any(|s| s.name.chars().count() > LEGEND_NAME_MAX) { 1 } else { 2 }
    }

    fn legend(&self, top: f64) -> String {
        let mut svg = String::new();
        for (i, series) in self.series.iter().enumerate() {
            let columns = self.legend_columns();
            let x = LEFT + (i % columns) as f64 * 0.5 * (WIDTH - LEFT - RIGHT);
            let y = top + (i / columns) as f64 * LEGEND_ROW;
            if series.band != Band::None {
                svg += &format!(
                    "<rect x=\"{x:.1}\" y=\"{:.1}\" width=\"36\" height=\"14\" fill=\"{}\" fill-opacity=\"0.13\"/>\n",
                    y - 7.0,
                    series.style.colour()
                );
            }
            if series.join == Join::Line {
                svg += &polyline(&[(x, y), (x + 36.0, y)], series.style);
            }
            svg += &series.style.mark(x + 18.0, y);
            svg += &text(x + 44.0, y + 4.5, "start", 13, &series.name);
        }
        svg
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn axes_end_on_round_numbers_and_hold_every_value() {
        let axis = Axis::over([0.713, 1.052].into_iter());
        assert!(axis.low <= 0.713 && axis.high >= 1.052);
        assert!(axis.ticks().count() >= 4 && axis.ticks().count() <= 9);
        assert_eq!(axis.label(0.8), "0.8");
        let flat = Axis::over([3.0, 3.0].into_iter());
        assert!(flat.low < 3.0 && flat.high > 3.0);
    }

    #[test]
    fn every_style_has_its_own_dash_or_mark() {
        let looks: Vec<String> =
            [Style::Published, Style::PublishedSecond, Style::Ours, Style::OursSecond, Style::Guide]
                .map(|s| format!("{}{}", s.dash(), s.mark(0.0, 0.0).chars().take(5).collect::<String>()))
                .to_vec();
        let mut apart = looks.clone();
        apart.sort();
        apart.dedup();
        assert_eq!(apart.len(), looks.len(), "{looks:?}");
    }
}
