//! The figure of moves and suspects.

use crate::timeline::{MovePoint, MoveSort, PosteriorRow, Timeline, number_places};

use words::Words;

use super::chart::{Axis, LETTER, WIDTH, open_svg, x_ticks};
use super::text::escape;

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
pub(super) fn svg(timeline: &Timeline, words: Words) -> String {
    let axis = Axis::minutes(words.label("page-axis-minutes"), timeline.last_min);
    let numbers = numbers(&timeline.moves, &axis);
    let lines = numbers.iter().map(|number| number.line + 1).max().unwrap_or(1);
    // Where the shapes of the moves stand, and under them the bands.
    let shapes = 18.0 + LINE * lines as f64;
    let top = shapes + 16.0;
    let bottom = top + ROW * timeline.rows.len() as f64;
    let (title, about) = (words.label("page-moves-title"), words.label("page-moves-about"));
    let mut svg = open_svg("moves", &title, &about, bottom + 42.0);
    svg.push_str(&x_ticks(&axis, LEFT, RIGHT, shapes + 10.0, bottom));
    let name = escape(&words.label("page-moves"));
    svg.push_str(&format!("<text x=\"4\" y=\"{:.1}\">{name}</text>\n", shapes + 4.0));
    svg.push_str(&format!("<path class=\"axis\" d=\"M{LEFT:.1} {shapes:.1}H{RIGHT:.1}\"/>\n"));
    // All lines first: no number is crossed out by its neighbour's.
    for number in &numbers {
        let (x, middle) = (number.x, number.middle);
        let (from, to) = (shapes - 4.0, number.foot(shapes) + 2.0);
        svg.push_str(&format!("<path class=\"lead\" d=\"M{x:.1} {from:.1}L{middle:.1} {to:.1}\"/>\n"));
    }
    for (point, number) in timeline.moves.iter().zip(&numbers) {
        let class = if point.broke_order { "mid small halo bold" } else { "mid small halo" };
        svg.push_str(&format!(
            "<text class=\"{class}\" x=\"{:.1}\" y=\"{:.1}\">{}</text>",
            number.middle,
            number.foot(shapes),
            point.entry
        ));
        shape(&mut svg, point, number.x, shapes);
    }
    for (index, row) in timeline.rows.iter().enumerate() {
        chances(&mut svg, row, top + ROW * index as f64, &axis, words);
    }
    for point in timeline.moves.iter().filter(|point| point.broke_order) {
        let x = axis.place(point.minute, LEFT, RIGHT);
        svg.push_str(&format!("<path class=\"break\" d=\"M{x:.1} {:.1}V{bottom:.1}\"/>\n", shapes + 7.0));
    }
    svg.push_str("</svg>\n");
    svg
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

fn shape(svg: &mut String, point: &MovePoint, x: f64, y: f64) {
    let drawn = match point.sort {
        MoveSort::SoundReading => format!("<circle class=\"full\" cx=\"{x:.1}\" cy=\"{y:.1}\" r=\"4\"/>"),
        MoveSort::DoubtfulReading => {
            format!("<circle class=\"hollow\" cx=\"{x:.1}\" cy=\"{y:.1}\" r=\"4\"/>")
        }
        MoveSort::Sight => {
            format!(
                "<rect class=\"full\" x=\"{:.1}\" y=\"{:.1}\" width=\"7\" height=\"7\"/>",
                x - 3.5,
                y - 3.5
            )
        }
        MoveSort::Deed => format!("<path class=\"deed\" d=\"M{x:.1} {:.1}v9\"/>", y - 4.5),
        MoveSort::Refused => {
            format!("<path class=\"deed\" d=\"M{:.1} {y:.1}h9\"/>", x - 4.5)
        }
    };
    svg.push_str(&drawn);
    if point.broke_order {
        // A cross under the line tells it from every other shape without colour.
        svg.push_str(&format!("<path class=\"cross\" d=\"M{:.1} {:.1}l8 8m0 -8l-8 8\"/>", x - 4.0, y + 7.0));
    }
    svg.push('\n');
}

/// One suspect: its name, its band from 0 to 100 %, and where it ended.
fn chances(svg: &mut String, row: &PosteriorRow, top: f64, axis: &Axis, words: Words) {
    let foot = top + BAND;
    let note = match (row.is_true, row.is_declared) {
        (true, true) => Some("page-true-and-declared"),
        (true, false) => Some("page-true"),
        (false, true) => Some("page-you-declared"),
        (false, false) => None,
    };
    let note = note.map(|key| words.label(key));
    let class = if row.is_true { "bold" } else { "" };
    let lines = wrapped(&words.heading(&row.who), 33);
    let count = lines.len() + usize::from(note.is_some());
    let mut y = top + BAND / 2.0 + 4.0 - 5.5 * (count as f64 - 1.0);
    for line in &lines {
        svg.push_str(&format!("<text class=\"{class}\" x=\"4\" y=\"{y:.1}\">{}</text>", escape(line)));
        y += 11.5;
    }
    if let Some(note) = note {
        svg.push_str(&format!("<text class=\"small\" x=\"4\" y=\"{y:.1}\">{}</text>", escape(&note)));
    }
    svg.push_str(&format!(
        "\n<rect class=\"band\" x=\"{LEFT:.1}\" y=\"{top:.1}\" width=\"{:.1}\" height=\"{BAND:.1}\"/>\n",
        RIGHT - LEFT
    ));
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
    let class = if row.is_true { "areatrue" } else { "area" };
    svg.push_str(&format!(
        "<path class=\"{class}\" d=\"{line}L{RIGHT:.1} {foot:.1}L{LEFT:.1} {foot:.1}Z\"/>"
    ));
    svg.push_str(&format!("<path class=\"step\" d=\"{line}\"/>"));
    svg.push_str(&format!(
        "<text x=\"{:.1}\" y=\"{:.1}\">{}</text>\n",
        RIGHT + 8.0,
        top + BAND / 2.0 + 4.0,
        escape(&words.probability(row.at_end()))
    ));
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
