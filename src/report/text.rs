//! The review as a page of plain text.

use call::Call;
use judge::Mark;
use visit::Visit;
use words::{Words, money, span};

use crate::notebook::reviewed_line;
use crate::review::{AreaMarks, RefrigerantBalance, Review};

/// Width at which reasons are broken.
const WIDTH: usize = 100;
/// A space at which no line is broken; written as an ordinary one.
const UNBROKEN: char = '\u{a0}';

impl Review {
    /// The review as a page of plain text.
    pub fn to_text(&self, visit: &Visit, words: Words) -> String {
        page(self, visit, words)
    }
}

fn page(review: &Review, visit: &Visit, words: Words) -> String {
    let mut page = String::new();
    header(&mut page, review, words);
    let heading = |page: &mut String, key: &str| page.push_str(&format!("\n{}\n", words.label(key)));
    heading(&mut page, "page-what-was-wrong");
    for wrong in &review.wrong {
        page.push_str(&format!("  {}.\n", words.heading(wrong)));
    }
    let declared = match &review.declared {
        Some(cause) => words.fill("page-declared-cause", &[("cause", words.say(cause))]),
        None => words.label("page-nothing-declared"),
    };
    page.push_str(&format!("  {declared}\n"));
    heading(&mut page, "page-marks");
    for area in &review.areas {
        area_lines(&mut page, area, visit.call(), words);
    }
    heading(&mut page, "page-done");
    for entry in visit.notebook() {
        push_wrapped(&mut page, &reviewed_line(entry, visit.arrival_s(), visit.call(), words), 11);
    }
    heading(&mut page, "page-refrigerant");
    balance(&mut page, &review.refrigerant, words);
    page.push('\n');
    push_wrapped(&mut page, &words.label("page-disclaimer"), 0);
    page
}

fn header(page: &mut String, review: &Review, words: Words) {
    page.push_str(&words.fill("page-review", &[("title", words.own(&review.title))]));
    page.push('\n');
    let (call, seed) = (review.call.clone(), review.seed.to_string());
    page.push_str(&words.fill("page-call", &[("call", call), ("seed", seed)]));
    page.push('\n');
    push_wrapped(page, &words.fill("page-customer", &[("complaint", words.own(&review.complaint))]), 0);
    let ended = words.fill(
        "page-ended",
        &[
            ("ticket", ticket(review).to_owned()),
            ("took", span(60.0 * review.time_on_site_min)),
            ("par", span(60.0 * review.par_time_min)),
            ("cost", money(review.parts_cost)),
        ],
    );
    push_wrapped(page, &ended, 0);
    page.push_str(&words.fill("page-points-sum", &[("points", format!("{:.0}", review.total_points))]));
    page.push('\n');
}

/// How the ticket was left, for messages to choose by.
pub(crate) fn ticket(review: &Review) -> &'static str {
    if review.closed { "closed" } else { "open" }
}

fn area_lines(page: &mut String, area: &AreaMarks, call: &Call, words: Words) {
    let points = points_of(format!("{:>4.1}", area.points), format!("{:>2.0}", area.of), words);
    page.push_str(&format!("  {:<12} {points}\n", words.heading(&area.area)));
    for mark in &area.marks {
        push_wrapped(page, &mark_line(mark, call, words), 20);
    }
}

fn points_of(points: String, of: String, words: Words) -> String {
    words.fill("page-points-of", &[("points", points), ("of", of)])
}

fn mark_line(mark: &Mark, call: &Call, words: Words) -> String {
    let entry = mark.entry.map(|entry| {
        let number = words.fill("page-entry-number", &[("entry", entry.to_string())]);
        format!(" [{}]", number.replace(' ', &UNBROKEN.to_string()))
    });
    let points = if mark.of > 0.0 {
        points_of(format!("{:>4.1}", mark.points), format!("{:>4.1}", mark.of), words)
    } else {
        format!("{:>4.1}        ", mark.points)
    };
    format!("      {points}  {}{}", words.reason(&mark.reason, call), entry.unwrap_or_default())
}

fn balance(page: &mut String, balance: &RefrigerantBalance, words: Words) {
    for (line, mass_kg) in balance.lines() {
        page.push_str(&format!("  {:<26} {:>10}\n", words.heading(&line), words.units.mass(mass_kg)));
    }
}

/// Breaks a line at spaces; lines after the first are indented.
fn push_wrapped(page: &mut String, line: &str, indent: usize) {
    let lead: String = line.chars().take_while(|letter| *letter == ' ').collect();
    let mut width = lead.chars().count();
    page.push_str(&lead);
    let mut is_first = true;
    for word in line.trim_start().split(' ') {
        let length = word.chars().count();
        if !is_first && width + 1 + length > WIDTH {
            page.push('\n');
            page.push_str(&" ".repeat(indent));
            width = indent;
        } else if !is_first {
            page.push(' ');
            width += 1;
        }
        page.push_str(&word.replace(UNBROKEN, " "));
        width += length;
        is_first = false;
    }
    page.push('\n');
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn long_lines_are_broken_and_indented() {
        let mut page = String::new();
        push_wrapped(&mut page, &format!("  {}", "word ".repeat(40).trim_end()), 4);
        let lines: Vec<&str> = page.lines().collect();
        assert!(lines.len() >= 2);
        assert!(lines.iter().all(|line| line.chars().count() <= WIDTH));
        assert!(lines[0].starts_with("  word") && lines[1].starts_with("    word"));
        assert_eq!(page.matches("word").count(), 40);
    }

    #[test]
    fn columns_inside_a_line_are_kept() {
        let mut page = String::new();
        push_wrapped(&mut page, "  4  1:05  Look: done.", 11);
        assert_eq!(page, "  4  1:05  Look: done.\n");
    }
}
