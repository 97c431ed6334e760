//! The parts of the page.

use call::Call;
use judge::Mark;
use visit::{Trust, Visit};
use words::{Words, money, span};

use crate::cycle::Cycles;
use crate::dossier::ReviewFigures;
use crate::notebook::{clock, outcome_text};
use crate::path::SoundPath;
use crate::posterior::PosteriorHistory;
use crate::review::{AreaMarks, RefrigerantBalance, Review};
use crate::ruled::{doubt_of, doubt_text, rulings_of_evidence};
use crate::run_on::Projection;
use crate::text::ticket;
use crate::timeline::Timeline;

use super::numbering::Figures;
use super::text::{element, escape, table};
use super::{figures, moves};

/// A paragraph that a message fills.
fn paragraph(key: &str, words: Words) -> String {
    element("p", &words.label(key))
}

/// Headings of columns.
fn head(keys: &[&str], words: Words) -> Vec<String> {
    keys.iter().map(|key| if key.is_empty() { String::new() } else { words.label(key) }).collect()
}

/// Title, score and what was wrong.
pub(super) fn header(review: &Review, words: Words) -> String {
    let mut header = String::from("<header>\n");
    header.push_str(&element("h1", &words.own(&review.title)));
    let (call, seed) = (review.call.clone(), review.seed.to_string());
    let of_visit = words.fill("page-review-of-visit", &[("call", call), ("seed", seed)]);
    header.push_str(&element("p", &of_visit));
    let quote = words.fill("page-quote", &[("complaint", words.own(&review.complaint))]);
    header.push_str(&format!("<p class=\"quote\">{}</p>\n", escape(&quote)));
    let score = words.fill("page-score", &[("points", format!("{:.0}", review.total_points))]);
    header.push_str(&format!("<p class=\"score\">{}</p>\n", escape(&score)));
    let wrong: Vec<String> = review.wrong.iter().map(|wrong| words.heading(wrong)).collect();
    let wrong = if wrong.is_empty() { words.label("page-nothing-wrong") } else { wrong.join("; ") };
    let declared = review.declared.map_or_else(|| words.label("page-nothing"), |kind| words.say(&kind));
    let took = words.fill(
        "page-took",
        &[
            ("ticket", ticket(review).to_owned()),
            ("took", span(60.0 * review.time_on_site_min)),
            ("par", span(60.0 * review.par_time_min)),
        ],
    );
    let facts = [
        ("page-what-was-wrong", wrong),
        ("page-declared", words::first_upper(&declared)),
        ("page-time", took),
        ("page-cost", money(review.parts_cost)),
    ];
    header.push_str("<dl>\n");
    for (name, fact) in facts {
        header.push_str(&format!("<dt>{}</dt><dd>{}</dd>\n", escape(&words.label(name)), escape(&fact)));
    }
    header.push_str("</dl>\n</header>\n");
    header
}

/// Every mark with its reason, area by area.
pub(super) fn marks(review: &Review, call: &Call, words: Words) -> String {
    let caption = escape(&words.label("page-marks-caption"));
    let mut marks = format!("<table class=\"marks\">\n<caption>{caption}</caption>\n<thead><tr>");
    for name in head(&["page-earned", "page-points", "page-why", "page-where"], words) {
        marks.push_str(&format!("<th scope=\"col\">{}</th>", escape(&name)));
    }
    marks.push_str("</tr></thead>\n");
    for area in &review.areas {
        area_marks(&mut marks, area, call, words);
    }
    marks.push_str("</table>\n");
    marks
}

fn area_marks(marks: &mut String, area: &AreaMarks, call: &Call, words: Words) {
    let (points, of) = (format!("{:.1}", area.points), format!("{:.0}", area.of));
    let sum = words
        .fill("page-area-points", &[("area", words.heading(&area.area)), ("points", points), ("of", of)]);
    marks.push_str(&format!(
        "<tbody>\n<tr class=\"area-name\"><th scope=\"rowgroup\" colspan=\"4\">{}</th></tr>\n",
        escape(&sum)
    ));
    for mark in &area.marks {
        let entry = mark.entry.map(|entry| words.fill("page-entry-number", &[("entry", entry.to_string())]));
        marks.push_str(&format!(
            "<tr><td>{}</td><td>{}</td><td>{}</td><td>{}</td></tr>\n",
            escape(&words.label(sign(mark))),
            escape(&points_text(mark, words)),
            escape(&words.reason(&mark.reason, call)),
            escape(&entry.unwrap_or_default())
        ));
    }
    marks.push_str("</tbody>\n");
}

fn sign(mark: &Mark) -> &'static str {
    if mark.points >= mark.of - 1.0e-9 && mark.points >= 0.0 {
        "page-mark-full"
    } else if mark.points > 1.0e-9 {
        "page-mark-part"
    } else {
        "page-mark-none"
    }
}

fn points_text(mark: &Mark, words: Words) -> String {
    if mark.of > 0.0 {
        let (points, of) = (format!("{:.1}", mark.points), format!("{:.1}", mark.of));
        words.fill("page-points-of", &[("points", points), ("of", of)])
    } else {
        format!("{:.1}", mark.points)
    }
}

/// Moves, suspects, and where the order broke.
pub(super) fn evidence(
    review: &Review,
    visit: &Visit,
    dossier: &ReviewFigures,
    words: Words,
    counter: &mut Figures,
) -> String {
    let timeline = Timeline::of(visit, review, dossier.chances.as_ref());
    let mut contents = String::new();
    if dossier.chances.is_none() {
        contents.push_str(&paragraph("page-not-weighed", words));
    }
    contents.push_str(&counter.add(&moves::svg(&timeline, words), &words.label("page-moves-caption")));
    let breaks = review.order_breaks_by_entry();
    contents.push_str(&element("h3", &words.label("page-order-broke")));
    if breaks.is_empty() {
        contents.push_str(&paragraph("page-order-held", words));
    } else {
        contents.push_str("<ul>\n");
        for (entry, reasons) in breaks {
            let told: Vec<String> = reasons.into_iter().map(|reason| words.heading(reason)).collect();
            let lead = words.fill("page-entry-lead", &[("entry", entry.to_string())]);
            let (lead, told) = (escape(&lead), escape(&told.join(" ")));
            contents.push_str(&format!("<li><b>{lead}</b> {told}</li>\n"));
        }
        contents.push_str("</ul>\n");
    }
    contents
}

/// Every entry that said something, and what.
pub(super) fn rulings(visit: &Visit, chances: &PosteriorHistory, words: Words) -> String {
    let mut rows = Vec::new();
    let mut doubts: Vec<Trust> = Vec::new();
    for ruling in rulings_of_evidence(visit.notebook(), chances) {
        let Some(entry) = visit.notebook().iter().find(|entry| entry.number == ruling.entry) else {
            continue;
        };
        let mut told: Vec<String> =
            ruling.effects(chances).iter().map(|effect| escape(&words.say(effect))).collect();
        if let Some(doubt) = ruling.doubt {
            let in_doubt = words.fill("page-in-doubt", &[("doubt", words.say(&doubt))]);
            told.push(format!("<span class=\"doubt\">{}</span>", escape(&in_doubt)));
            if !doubts.contains(&doubt) {
                doubts.push(doubt);
            }
        }
        rows.push(vec![
            entry.number.to_string(),
            clock(entry.started_s - visit.arrival_s()),
            format!(
                "{}. {}",
                escape(&words.say(&entry.action)),
                escape(&outcome_text(entry, visit.call(), words))
            ),
            told.join("<br/>"),
            format!("{:.2}", ruling.gained_bits),
        ]);
    }
    let mut contents = paragraph("page-rulings-about", words);
    if !doubts.is_empty() {
        contents.push_str(&paragraph("page-some-in-doubt", words));
        contents.push_str("<ul>\n");
        for doubt in doubts {
            contents.push_str(&element("li", &doubt_text(doubt, words).unwrap_or_default()));
        }
        contents.push_str("</ul>\n");
    }
    if rows.is_empty() {
        contents.push_str(&paragraph("page-nothing-read", words));
        return contents;
    }
    let names =
        head(&["page-entry", "page-time", "page-read-or-seen", "page-what-it-did", "page-bits"], words);
    contents.push_str(&table("entry", &words.label("page-rulings-caption"), &names, &rows));
    contents
}

/// The plant's course.
pub(super) fn course(visit: &Visit, dossier: &ReviewFigures, words: Words, counter: &mut Figures) -> String {
    figures::course(visit, &dossier.course, words)
        .into_iter()
        .map(|(svg, caption)| counter.add(&svg, &caption))
        .collect()
}

/// The cycle with its numbers.
pub(super) fn cycle(cycles: &Cycles, words: Words, counter: &mut Figures) -> String {
    if cycles.cycles.is_empty() {
        return paragraph("page-no-cycle", words);
    }
    let caption = words.fill("page-cycle-caption", &[("refrigerant", words.say(&cycles.refrigerant))]);
    let mut contents = counter.add(&figures::cycle(cycles, words), &caption);
    let mut rows = Vec::new();
    for (index, cycle) in cycles.cycles.iter().chain(&cycles.sound).enumerate() {
        let name = if index < cycles.cycles.len() {
            figures::cycle_name(index, cycle, words)
        } else {
            words.heading(&cycle.moment)
        };
        rows.push(vec![
            escape(&name),
            words.units.temperature(cycle.evaporating_k),
            words.units.temperature(cycle.condensing_k),
            cycle.superheat_text(words),
            cycle.subcooling_text(words),
            words.fill("page-flow-each-minute", &[("mass", words.units.mass(cycle.flow_kg_s * 60.0))]),
            words.units.heat_rate(cycle.net_cooling_w),
        ]);
    }
    let names = head(
        &[
            "page-cycle-name",
            "page-evaporating",
            "page-condensing",
            "page-superheat",
            "page-subcooling",
            "page-flow",
            "page-net-cooling",
        ],
        words,
    );
    contents.push_str(&table("figures", &words.label("page-cycles-caption"), &names, &rows));
    let wet: Vec<String> = cycles
        .cycles
        .iter()
        .filter(|cycle| cycle.may_flood_back())
        .map(|cycle| words.say(&cycle.moment))
        .collect();
    if !wet.is_empty() {
        contents.push_str(&element("p", &words.fill("page-flooded", &[("moments", wet.join("; "))])));
    }
    contents
}

/// The plant after the visit, beside a repaired one.
pub(super) fn run_on(review: &Review, run_on: &Projection, words: Words, counter: &mut Figures) -> String {
    let is_left = review.wrong.iter().any(|wrong| wrong.still_there);
    let outcome = words.label(if is_left { "page-later-still-wrong" } else { "page-later-gone" });
    let (hours, set_point) =
        (format!("{:.0}", run_on.hours), words.units.wall_temperature(run_on.set_point_k));
    let conditions = words.fill("page-later-conditions", &[("hours", hours), ("set-point", set_point)]);
    let mut contents = element("p", &format!("{outcome} {conditions}"));
    let rows: Vec<Vec<String>> = run_on
        .facts()
        .iter()
        .map(|fact| {
            vec![
                escape(&words.heading(&fact.line)),
                escape(&words.say(&fact.as_left)),
                escape(&words.say(&fact.repaired)),
            ]
        })
        .collect();
    let names = head(&["", "page-as-left", "page-repaired"], words);
    contents.push_str(&table("figures", &words.label("page-in-numbers"), &names, &rows));
    for (svg, caption) in figures::run_on(run_on, words) {
        contents.push_str(&counter.add(&svg, &caption));
    }
    contents
}

/// A sound path, step by step.
pub(super) fn path(path: &SoundPath, call: &Call, words: Words) -> String {
    let rows: Vec<Vec<String>> = path
        .steps
        .iter()
        .zip(1..)
        .map(|(step, number): (_, u32)| {
            vec![
                number.to_string(),
                escape(&words.say(&step.action)),
                if step.minutes < 0.95 {
                    format!("{:.1}", step.minutes)
                } else {
                    format!("{:.0}", step.minutes)
                },
                escape(&step.entry.as_ref().map_or(String::new(), |entry| outcome_text(entry, call, words))),
                escape(&step.why(words).join(" ")),
            ]
        })
        .collect();
    let (steps, time) = (path.count_text(words), span(60.0 * path.minutes()));
    let caption = words.fill("page-path-caption", &[("steps", steps), ("time", time)]);
    let names = head(&["page-step", "page-move", "page-minutes", "page-what-came-of-it", "page-why"], words);
    table("path", &caption, &names, &rows)
}

/// Every entry of the notebook.
pub(super) fn notebook(visit: &Visit, words: Words) -> String {
    let rows: Vec<Vec<String>> = visit
        .notebook()
        .iter()
        .map(|entry| {
            let told = escape(&outcome_text(entry, visit.call(), words));
            let told = if doubt_of(&entry.outcome).is_some() {
                format!("<span class=\"doubt\">{told}</span>")
            } else {
                told
            };
            vec![
                entry.number.to_string(),
                clock(entry.started_s - visit.arrival_s()),
                escape(&words.say(&entry.action)),
                told,
            ]
        })
        .collect();
    if rows.is_empty() {
        return paragraph("page-nothing-done", words);
    }
    let names = head(&["page-entry", "page-time", "page-move", "page-what-came-of-it"], words);
    table("entry", &words.label("page-notebook"), &names, &rows)
}

/// Where the refrigerant went.
pub(super) fn refrigerant(balance: &RefrigerantBalance, words: Words) -> String {
    let rows: Vec<Vec<String>> = balance
        .lines()
        .into_iter()
        .map(|(line, mass_kg)| vec![escape(&words.heading(&line)), words.units.mass(mass_kg)])
        .collect();
    table("figures", &words.label("page-refrigerant-caption"), &head(&["", "page-mass"], words), &rows)
}
