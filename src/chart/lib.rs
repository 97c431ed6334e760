//! Line charts as SVG: axes, curves that differ in their dashes, marks that differ in their shapes.
//!
//! [`Chart::svg`] is a drawing inside a page that holds [`STYLE`], [`Chart::file`] a file of its own. Other drawings are made of
//! the same pieces: [`drawing`], [`x_ticks`], [`Shape::at`]. Names, labels and ticks come in as they are to be read: nothing here
//! knows a language or a unit. Numbers are written with fixed digits, so that the same chart gives the same bytes.

mod axis;
mod labels;
mod look;

use maud::{Markup, PreEscaped, html};

pub use axis::{Axis, Foot};
pub use look::{Band, Join, Pen, Shape};

pub use labels::LETTER;

use labels::Labels;

/// How drawings look: a style sheet for the page that holds them. A file of its own holds it too.
pub const STYLE: &str = include_str!("chart.css");

/// Width of every drawing, px; a page scales it.
pub const WIDTH: f64 = 760.0;
const LEFT: f64 = 58.0;
const RIGHT: f64 = 14.0;
const BOTTOM: f64 = 36.0;
/// Height of a line of the legend, px.
const LEGEND_LINE: f64 = 16.0;
/// Room for the title on a file of its own, px.
const HEADING: f64 = 34.0;

/// One chart.
#[derive(Clone, Debug, PartialEq)]
pub struct Chart {
    /// Prefix of the identifiers inside; differs from chart to chart of a page.
    pub id: String,
    /// Name, for those who do not see the drawing; a file of its own shows it too.
    pub title: String,
    /// What the drawing shows in a sentence, for those who do not see it.
    pub about: String,
    /// Height of the drawing, px.
    pub height: f64,
    /// Horizontal axis.
    pub x: Axis,
    /// Vertical axis.
    pub y: Axis,
    /// Curves, first at the bottom.
    pub curves: Vec<Curve>,
    /// Single marks, over the curves.
    pub marks: Vec<Mark>,
    /// Level lines with their names, by their value on the vertical axis.
    pub levels: Vec<(f64, String)>,
}

/// A curve.
#[derive(Clone, Debug, PartialEq)]
pub struct Curve {
    /// Name in the legend; a curve without one isn't listed there.
    pub name: String,
    /// How it is drawn.
    pub pen: Pen,
    /// Whether its points are joined.
    pub join: Join,
    /// What stands at each of its points.
    pub sign: Option<Shape>,
    /// How far a band reaches around it.
    pub band: Option<Band>,
    /// Points, left to right, in the values of the axes.
    pub points: Vec<[f64; 2]>,
}

impl Curve {
    /// A line without signs and band.
    pub fn new(name: String, pen: Pen, points: Vec<[f64; 2]>) -> Curve {
        Curve { name, pen, join: Join::Line, sign: None, band: None, points }
    }
}

/// A mark, such as a reading.
#[derive(Clone, Debug, PartialEq)]
pub struct Mark {
    /// Where it stands, in the values of the axes.
    pub at: [f64; 2],
    /// Its shape.
    pub shape: Shape,
    /// What is written beside it.
    pub label: String,
}

/// Markup as a text that any XML reader takes: signs that XML cannot hold become a replacement sign.
pub fn holdable(markup: Markup) -> String {
    let fits = |sign: char| {
        matches!(sign, '\n' | '\t') || !(sign.is_control() || matches!(sign, '\u{fffe}' | '\u{ffff}'))
    };
    markup.into_string().chars().map(|sign| if fits(sign) { sign } else { '\u{fffd}' }).collect()
}

/// A drawing with its name and description, in a page.
pub fn drawing(id: &str, title: &str, about: &str, height: f64, contents: &Markup) -> Markup {
    html! {
        svg viewBox=(format_args!("0 0 {WIDTH:.0} {height:.0}")) role="img" aria-labelledby={ (id) "-t " (id) "-d" } {
            title id={ (id) "-t" } { (title) }
            desc id={ (id) "-d" } { (about) }
            (contents)
        }
    }
}

/// Ticks of a lower axis over the height of a box, and its label. All in px.
pub fn x_ticks(axis: &Axis, left: f64, right: f64, top: f64, bottom: f64) -> Markup {
    html! {
        @for (value, word) in &axis.ticks {
            @let x = axis.place(*value, left, right);
            path class="grid" d=(format_args!("M{x:.1} {top:.1}V{bottom:.1}")) {}
            text class="mid" x=(px(x)) y=(px(bottom + 15.0)) { (word) }
        }
        text class="mid" x=(px((left + right) / 2.0)) y=(px(bottom + 31.0)) { (axis.label) }
    }
}

/// A length as it is written: a tenth of a px is less than anybody sees.
pub fn px(length: f64) -> String {
    format!("{length:.1}")
}

/// The box of the curves, px.
#[derive(Clone, Copy)]
struct Frame {
    left: f64,
    right: f64,
    top: f64,
    bottom: f64,
}

impl Chart {
    /// The drawing in a page that holds [`STYLE`].
    pub fn svg(&self) -> Markup {
        drawing(&self.id, &self.title, &self.about, self.height, &self.contents())
    }

    /// The drawing as a file that needs nothing else, with its title on it.
    pub fn file(&self) -> String {
        let height = self.height + HEADING;
        holdable(html! {
            svg xmlns="http://www.w3.org/2000/svg" width=(format_args!("{WIDTH:.0}")) height=(format_args!("{height:.0}"))
                viewBox=(format_args!("0 0 {WIDTH:.0} {height:.0}")) role="img"
                aria-labelledby={ (self.id) "-t " (self.id) "-d" } {
                title id={ (self.id) "-t" } { (self.title) }
                desc id={ (self.id) "-d" } { (self.about) }
                style { (PreEscaped(STYLE)) }
                rect class="paper" width=(format_args!("{WIDTH:.0}")) height=(format_args!("{height:.0}")) {}
                text class="heading" x=(px(LEFT)) y="23.0" { (self.title) }
                g transform=(format_args!("translate(0 {HEADING:.0})")) { (self.contents()) }
            }
        }) + "\n"
    }

    fn place(&self, frame: Frame, [x, y]: [f64; 2]) -> [f64; 2] {
        [self.x.place(x, frame.left, frame.right), self.y.place(y, frame.bottom, frame.top)]
    }

    fn contents(&self) -> Markup {
        let legend = self.legend(LEFT, WIDTH - RIGHT);
        let top = 12.0 + LEGEND_LINE * legend.lines;
        let frame = Frame { left: LEFT, right: WIDTH - RIGHT, top, bottom: self.height - BOTTOM };
        let Frame { left, right, top, bottom } = frame;
        // Names of levels and labels are written after the curves, so that their halo keeps them readable among them.
        html! {
            (legend.markup)
            @for (value, word) in &self.y.ticks {
                @let y = self.y.place(*value, bottom, top);
                path class="grid" d=(format_args!("M{left:.1} {y:.1}H{right:.1}")) {}
                text class="end" x=(px(left - 6.0)) y=(px(y + 4.0)) { (word) }
            }
            (x_ticks(&self.x, left, right, top, bottom))
            text class="mid" transform=(format_args!("translate(13 {:.1}) rotate(-90)", (top + bottom) / 2.0)) {
                (self.y.label)
            }
            rect class="box" x=(px(left)) y=(px(top)) width=(px(right - left)) height=(px(bottom - top)) {}
            @for (y, _) in self.levels_inside(frame) {
                path class="level" d=(format_args!("M{left:.1} {y:.1}H{right:.1}")) {}
            }
            @for curve in &self.curves { (self.curve(curve, frame)) }
            @for (y, name) in self.levels_inside(frame) {
                text class="end halo" x=(px(right - 4.0)) y=(px(y - 4.0)) { (name) }
            }
            (self.marks(frame))
        }
    }

    fn levels_inside(&self, frame: Frame) -> impl Iterator<Item = (f64, &String)> {
        self.levels
            .iter()
            .map(move |(value, name)| (self.y.place(*value, frame.bottom, frame.top), name))
            .filter(move |(y, _)| (frame.top..=frame.bottom).contains(y))
    }

    fn curve(&self, curve: &Curve, frame: Frame) -> Markup {
        let placed = |points: &mut dyn Iterator<Item = [f64; 2]>| -> String {
            points
                .map(|point| {
                    let [x, y] = self.place(frame, point);
                    format!("{x:.1},{y:.1}")
                })
                .collect::<Vec<String>>()
                .join(" ")
        };
        html! {
            @if let Some(band) = curve.band {
                @let upper = curve.points.iter().map(|[x, y]| [*x, band.upper(*y)]);
                @let lower = curve.points.iter().rev().map(|[x, y]| [*x, band.lower(*y)]);
                polygon class={ "reach " (curve.pen.ink()) } points=(placed(&mut upper.chain(lower))) {}
            }
            @if curve.join == Join::Line {
                polyline class=(curve.pen.class()) points=(placed(&mut curve.points.iter().copied())) {}
            }
            @if let Some(sign) = curve.sign {
                g class={ "sign " (curve.pen.ink()) } {
                    @for point in &curve.points {
                        @let [x, y] = self.place(frame, *point);
                        (sign.at(x, y))
                    }
                }
            }
        }
    }

    fn marks(&self, frame: Frame) -> Markup {
        let mut labels = Labels::default();
        html! {
            @for mark in &self.marks {
                @let [x, y] = self.place(frame, mark.at);
                (mark.shape.at(x, y))
                @let letters = mark.label.chars().count();
                @let [x, y] = labels.free([x + 6.0, y - 6.0], letters, frame.top + 10.0, frame.right);
                text class="halo small" x=(px(x)) y=(px(y)) { (mark.label) }
            }
        }
    }

    /// Names of the curves with a piece of their line, above the box.
    fn legend(&self, left: f64, right: f64) -> Legend {
        let (mut x, mut y) = (left, 13.0);
        let mut places = Vec::new();
        for curve in self.curves.iter().filter(|curve| !curve.name.is_empty()) {
            let width = 40.0 + LETTER * curve.name.chars().count() as f64;
            if x > left && x + width > right {
                (x, y) = (left, y + LEGEND_LINE);
            }
            places.push((curve, x, y));
            x += width + 18.0;
        }
        let markup = html! {
            @for (curve, x, y) in places {
                @if curve.band.is_some() {
                    rect class={ "reach " (curve.pen.ink()) } x=(px(x)) y=(px(y - 6.0)) width="34.0" height="12.0" {}
                }
                @if curve.join == Join::Line {
                    path class=(curve.pen.class()) d=(format_args!("M{x:.1} {y:.1}H{:.1}", x + 34.0)) {}
                }
                @if let Some(sign) = curve.sign {
                    g class={ "sign " (curve.pen.ink()) } { (sign.at(x + 17.0, y)) }
                }
                text x=(px(x + 40.0)) y=(px(y + 4.0)) { (curve.name) }
            }
        };
        Legend { markup, lines: (y - 13.0) / LEGEND_LINE + 1.0 }
    }
}

/// The legend and how many lines it takes.
struct Legend {
    markup: Markup,
    lines: f64,
}

#[cfg(test)]
mod tests;
