//! The figure of moves and suspects.

use chart::{Axis, LETTER, Shape, WIDTH, drawing, px, x_ticks};
use maud::{Markup, html};

use crate::timeline::{MovePoint, MoveSort, PosteriorRow, Timeline, number_places};

use words::Words;

use super::axes;

const LEFT: f64 = 214.0;
const RIGHT: f64 = WIDTH - 84.0;
const ROW: f64 = 34.0;
const BAND: f64 = 24.0;
/// Lines on which numbers of moves may stand.
const LINES: usize = 4;
const LINE: f64 = 12.0;

/// A number's place over the shapes.
struct Number {
    x: f64,
    middle: f64,
    line: usize,
}

impl Number {
    /// Where it stands over a line of shapes.
    fn foot(&self, shapes: f64) -> f64 {
        shapes - 12.0 - LINE * self.line as f64
    }
}

/// The drawing.
pub(super) fn svg(timeline: &Timeline, words: Words) -> Markup {
    let axis = axes::minutes(words.label("page-axis-minutes"), timeline.last_min);
    let numbers = numbers(&timeline.moves, &axis);
    let lines = numbers.iter().map(|number| number.line + 1).max().unwrap_or(1);
    // Where the shapes of the moves stand, and under them the bands.
    let shapes = 18.0 + LINE * lines as f64;
    let top = shapes + 16.0;
    let bottom = top + ROW * timeline.rows.len() as f64;
    let contents = html! {
        (x_ticks(&axis, LEFT, RIGHT, shapes + 10.0, bottom))
        text x="4" y=(px(shapes + 4.0)) { (words.label("page-moves")) }
        path class="axis" d=(format_args!("M{LEFT:.1} {shapes:.1}H{RIGHT:.1}")) {}
        // All lines first: no number is crossed out by its neighbour's.
        @for number in &numbers {
            @let (from, to) = (shapes - 4.0, number.foot(shapes) + 2.0);
            path class="lead" d=(format_args!("M{:.1} {from:.1}L{:.1} {to:.1}", number.x, number.middle)) {}
        }
        @for (point, number) in timeline.moves.iter().zip(&numbers) {
            @let class = if point.broke_order { "mid small halo bold" } else { "mid small halo" };
            text class=(class) x=(px(number.middle)) y=(px(number.foot(shapes))) { (point.entry) }
            (shape(point, number.x, shapes))
        }
        @for (row, index) in timeline.rows.iter().zip(0_u32..) {
            (chances(row, top + ROW * f64::from(index), &axis, words))
        }
        @for point in timeline.moves.iter().filter(|point| point.broke_order) {
            @let x = axis.place(point.minute, LEFT, RIGHT);
            path class="break" d=(format_args!("M{x:.1} {:.1}V{bottom:.1}", shapes + 7.0)) {}
        }
    };
    let (title, about) = (words.label("page-moves-title"), words.label("page-moves-about"));
    drawing("moves", &title, &about, bottom + 42.0, &contents)
}

fn numbers(moves: &[MovePoint], axis: &Axis) -> Vec<Number> {
    let x = |point: &MovePoint| axis.place(point.minute, LEFT, RIGHT);
    let shapes = moves.iter().map(|point| (x(point), LETTER * point.entry.to_string().len() as f64 + 3.0));
    moves
        .iter()
        .zip(number_places(shapes, LINES))
        .map(|(point, place)| Number { x: x(point), middle: place.middle, line: place.line })
        .collect()
}

fn shape(point: &MovePoint, x: f64, y: f64) -> Markup {
    html! {
        @match point.sort {
            MoveSort::SoundReading => (Shape::Full.at(x, y)),
            MoveSort::DoubtfulReading => (Shape::Hollow.at(x, y)),
            MoveSort::Sight => (Shape::Square.at(x, y)),
            MoveSort::Deed => path class="deed" d=(format_args!("M{x:.1} {:.1}v9", y - 4.5)) {},
            MoveSort::Refused => path class="deed" d=(format_args!("M{:.1} {y:.1}h9", x - 4.5)) {},
        }
        // A cross under the line tells it from every other shape without colour.
        @if point.broke_order {
            path class="cross" d=(format_args!("M{:.1} {:.1}l8 8m0 -8l-8 8", x - 4.0, y + 7.0)) {}
        }
    }
}

/// One suspect: its name, its band from 0 to 100 %, and where it ended.
fn chances(row: &PosteriorRow, top: f64, axis: &Axis, words: Words) -> Markup {
    let foot = top + BAND;
    let note = match (row.is_true, row.is_declared) {
        (true, true) => Some("page-true-and-declared"),
        (true, false) => Some("page-true"),
        (false, true) => Some("page-you-declared"),
        (false, false) => None,
    };
    let lines = wrapped(&words.heading(&row.who), 33);
    let count = lines.len() + usize::from(note.is_some());
    let first_y = top + BAND / 2.0 + 4.0 - 5.5 * (count as f64 - 1.0);
    let line_y = |index: usize| px(first_y + 11.5 * index as f64);
    let step = step(row, foot, axis);
    html! {
        @for (index, line) in lines.iter().enumerate() {
            text class=(if row.is_true { "bold" } else { "" }) x="4" y=(line_y(index)) { (line) }
        }
        @if let Some(note) = note {
            text class="small" x="4" y=(line_y(lines.len())) { (words.label(note)) }
        }
        rect class="band" x=(px(LEFT)) y=(px(top)) width=(px(RIGHT - LEFT)) height=(px(BAND)) {}
        path class=(if row.is_true { "areatrue" } else { "area" })
            d=(format_args!("{step}L{RIGHT:.1} {foot:.1}L{LEFT:.1} {foot:.1}Z")) {}
        path class="step" d=(step) {}
        text x=(px(RIGHT + 8.0)) y=(px(top + BAND / 2.0 + 4.0)) { (words.probability(row.at_end())) }
    }
}

/// The line of a suspect's chances, as the data of a path.
fn step(row: &PosteriorRow, foot: f64, axis: &Axis) -> String {
    let mut line = String::new();
    let mut last_y = foot;
    for (index, [minute, probability]) in row.steps.iter().enumerate() {
        let x = axis.place(*minute, LEFT, RIGHT);
        let y = foot - BAND * probability.clamp(0.0, 1.0);
        line.push_str(&if index == 0 {
            format!("M{x:.1} {y:.1}")
        } else {
            format!("L{x:.1} {last_y:.1}L{x:.1} {y:.1}")
        });
        last_y = y;
    }
    line
}

/// Breaks a name into lines at spaces.
fn wrapped(text: &str, letters: usize) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in text.split(' ') {
        match lines.last_mut() {
            Some(line) if line.chars().count() + 1 + word.chars().count() <= letters => {
                line.push(' ');
                line.push_str(word);
            }
            _ => lines.push(word.to_owned()),
        }
    }
    lines
}
