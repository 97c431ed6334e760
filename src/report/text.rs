//! The review as a page of plain text.

use judge::Mark;
use visit::Visit;

use crate::notebook::reviewed_line;
use crate::review::{AreaMarks, RefrigerantBalance, Review, WrongThing};
use words::Words;

/// Width at which reasons are broken.
const WIDTH: usize = 100;
/// A space at which no line is broken; written as an ordinary one.
const UNBROKEN: char = '\u{a0}';

pub(crate) fn page(review: &Review, visit: &Visit, words: Words) -> String {
    let mut page = String::new();
    header(&mut page, review);
    page.push_str("\nWhat was wrong\n");
    for wrong in &review.wrong {
        page.push_str(&format!("  {}\n", wrong_line(wrong)));
    }
    match review.declared {
        Some(cause) => page.push_str(&format!("  Declared: {}.\n", cause.label())),
        None => page.push_str("  Nothing was declared.\n"),
    }
    page.push_str("\nMarks\n");
    for area in &review.areas {
        area_lines(&mut page, area);
    }
    page.push_str("\nWhat was done\n");
    for entry in visit.notebook() {
        push_wrapped(&mut page, &reviewed_line(entry, visit.arrival_s(), visit.call(), words), 11);
    }
    page.push_str("\nRefrigerant\n");
    balance(&mut page, &review.refrigerant, words);
    page.push_str(
        "\nThis is a way of thinking, practised on a model. On real equipment, licensed practice, the \
         equipment\nmaker's instructions and local codes decide.\n",
    );
    page
}

fn header(page: &mut String, review: &Review) {
    page.push_str(&format!("Review: {}\n", review.title));
    page.push_str(&format!("Call {}, seed {}.\n", review.call, review.seed));
    push_wrapped(page, &format!("The customer said: \"{}\"", review.complaint), 0);
    let state = if review.closed { "Ticket closed" } else { "Ticket still open" };
    page.push_str(&format!(
        "{state} after {:.0} min on site (a sound visit needs about {:.0}); parts cost {:.0}.\n",
        review.time_on_site_min, review.par_time_min, review.parts_cost
    ));
    page.push_str(&format!("Points: {:.0} of 100.\n", review.total_points));
}

fn wrong_line(wrong: &WrongThing) -> String {
    let place = wrong.place.map(|place| format!(" at the {}", place.label())).unwrap_or_default();
    let state = if wrong.still_there { "still there" } else { "gone" };
    format!("{}{place}, severity {:.2} of 1: {state}.", wrong.kind.label(), wrong.severity)
}

fn area_lines(page: &mut String, area: &AreaMarks) {
    page.push_str(&format!("  {:<12} {:>4.1} of {:>2.0}\n", area.area.label(), area.points, area.of));
    for mark in &area.marks {
        push_wrapped(page, &mark_line(mark), 20);
    }
}

fn mark_line(mark: &Mark) -> String {
    let entry = mark.entry.map(|entry| format!(" [entry{UNBROKEN}{entry}]")).unwrap_or_default();
    let points = if mark.of > 0.0 {
        format!("{:>4.1} of {:>4.1}", mark.points, mark.of)
    } else {
        format!("{:>4.1}        ", mark.points)
    };
    format!("      {points}  {}{entry}", mark.reason)
}

fn balance(page: &mut String, balance: &RefrigerantBalance, words: Words) {
    for (label, mass_kg) in balance.lines() {
        page.push_str(&format!("  {label:<26} {:>10}\n", words.units.mass(mass_kg)));
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
