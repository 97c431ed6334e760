//! The parts of the page.

use judge::Mark;
use visit::{Trust, Visit};

use crate::chances::Chances;
use crate::cycle::Cycles;
use crate::dossier::Dossier;
use crate::notebook::{clock, outcome_text};
use crate::path::SoundPath;
use crate::review::{AreaMarks, RefrigerantBalance, Review, WrongThing};
use crate::ruled::{doubt_of, doubt_text, doubt_words, rulings_of_evidence};
use crate::run_on::RunOn;
use crate::timeline::Timeline;
use words::Words;

use super::text::{element, escape, table};
use super::{Figures, figures, moves};

/// Title, score and what was wrong.
pub(super) fn header(review: &Review) -> String {
    let state = if review.closed { "Ticket closed" } else { "Ticket still open" };
    let mut header = String::from("<header>\n");
    header.push_str(&element("h1", &review.title));
    header
        .push_str(&element("p", &format!("Review of a visit. Call {}, seed {}.", review.call, review.seed)));
    header.push_str(&format!("<p class=\"quote\">“{}”</p>\n", escape(&review.complaint)));
    header.push_str(&format!("<p class=\"score\">{:.0} of 100 points</p>\n", review.total_points));
    let wrong: Vec<String> = review.wrong.iter().map(wrong_text).collect();
    let declared = review.declared.map_or("nothing", |kind| kind.label());
    let facts = [
        ("What was wrong", if wrong.is_empty() { "Nothing".to_owned() } else { wrong.join("; ") }),
        ("Declared", declared.to_owned()),
        (
            "Time",
            format!(
                "{state} after {:.0} min on site; a sound visit needs about {:.0} min",
                review.time_on_site_min, review.par_time_min
            ),
        ),
        ("Parts and refrigerant", format!("{:.0}", review.parts_cost)),
    ];
    header.push_str("<dl>\n");
    for (name, fact) in facts {
        header.push_str(&format!("<dt>{}</dt><dd>{}</dd>\n", escape(name), escape(&fact)));
    }
    header.push_str("</dl>\n</header>\n");
    header
}

fn wrong_text(wrong: &WrongThing) -> String {
    let place = wrong.place.map(|place| format!(" ({})", place.label())).unwrap_or_default();
    let state = if wrong.still_there { "still there" } else { "gone" };
    format!("{}{place}, severity {:.2} of 1: {state}", wrong.kind.label(), wrong.severity)
}

/// Every mark with its reason, area by area.
pub(super) fn marks(review: &Review) -> String {
    let mut marks = String::from(
        "<table class=\"marks\">\n<caption>Every mark, area by area</caption>\n<thead><tr><th scope=\"col\">Earned</th>\
         <th scope=\"col\">Points</th><th scope=\"col\">Why</th><th scope=\"col\">Where</th></tr></thead>\n",
    );
    for area in &review.areas {
        area_marks(&mut marks, area);
    }
    marks.push_str("</table>\n");
    marks
}

fn area_marks(marks: &mut String, area: &AreaMarks) {
    marks.push_str(&format!(
        "<tbody>\n<tr class=\"area-name\"><th scope=\"rowgroup\" colspan=\"4\">{}: {:.1} of {:.0}</th></tr>\n",
        escape(area.area.label()),
        area.points,
        area.of
    ));
    for mark in &area.marks {
        let entry = mark.entry.map_or_else(String::new, |entry| format!("entry {entry}"));
        marks.push_str(&format!(
            "<tr><td>{}</td><td>{}</td><td>{}</td><td>{entry}</td></tr>\n",
            sign(mark),
            points_text(mark),
            escape(&mark.reason)
        ));
    }
    marks.push_str("</tbody>\n");
}

fn sign(mark: &Mark) -> &'static str {
    if mark.points >= mark.of - 1.0e-9 && mark.points >= 0.0 {
        "✓ yes"
    } else if mark.points > 1.0e-9 {
        "◐ in part"
    } else {
        "✗ no"
    }
}

fn points_text(mark: &Mark) -> String {
    if mark.of > 0.0 {
        format!("{:.1} of {:.1}", mark.points, mark.of)
    } else {
        format!("{:.1}", mark.points)
    }
}

/// Moves, suspects, and where the order broke.
pub(super) fn evidence(review: &Review, visit: &Visit, dossier: &Dossier, counter: &mut Figures) -> String {
    let timeline = Timeline::of(visit, review, dossier.chances.as_ref());
    let mut contents = String::new();
    if dossier.chances.is_none() {
        contents.push_str(&element("p", "The evidence has not been weighed."));
    }
    let caption = "Your moves by number of the entry. Full dot: a sound reading. Hollow dot: a reading in doubt. Square: \
                   something seen. Upright stroke: a deed. Level stroke: not possible. A cross, with a dashed line, \
                   marks where the sound order broke. Under them, each band runs from 0 to 100 %: how likely that \
                   suspect was after what had been read so far.";
    contents.push_str(&counter.add(&moves::svg(&timeline), caption));
    let breaks = review.order_breaks_by_entry();
    contents.push_str(&element("h3", "Where the order broke"));
    if breaks.is_empty() {
        contents.push_str(&element("p", "It did not break at any move."));
    } else {
        contents.push_str("<ul>\n");
        for (entry, told) in breaks {
            contents.push_str(&format!("<li><b>Entry {entry}.</b> {}</li>\n", escape(&told)));
        }
        contents.push_str("</ul>\n");
    }
    contents
}

/// Every entry that said something, and what.
pub(super) fn rulings(visit: &Visit, chances: &Chances, words: Words) -> String {
    let mut rows = Vec::new();
    let mut doubts: Vec<Trust> = Vec::new();
    for ruling in rulings_of_evidence(visit.notebook(), chances) {
        let Some(entry) = visit.notebook().iter().find(|entry| entry.number == ruling.entry) else {
            continue;
        };
        let mut told: Vec<String> = ruling.told(chances).iter().map(|line| escape(line)).collect();
        if let Some(doubt) = ruling.doubt {
            told.push(format!("<span class=\"doubt\">In doubt: {}.</span>", escape(doubt_words(doubt))));
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
    let mut contents = element(
        "p",
        "Behind every suspect stand model plants that went through your moves. A reading that such a plant would \
         not have given counts against its suspect, by as much as instrument and model allow. Ruled out means: \
         five times less likely than before. One bit is what halving the suspects tells.",
    );
    if !doubts.is_empty() {
        contents.push_str("<p>Some readings were in doubt:</p>\n<ul>\n");
        for doubt in doubts {
            contents.push_str(&element("li", doubt_text(doubt).unwrap_or_default()));
        }
        contents.push_str("</ul>\n");
    }
    if rows.is_empty() {
        contents.push_str(&element("p", "Nothing was read or seen."));
        return contents;
    }
    contents.push_str(&table(
        "entry",
        "Entries that carried evidence",
        &["Entry", "Time", "What was read or seen", "What it did", "Bit"],
        &rows,
    ));
    contents
}

/// The plant's course.
pub(super) fn course(visit: &Visit, dossier: &Dossier, words: Words, counter: &mut Figures) -> String {
    figures::course(visit, &dossier.course, words)
        .into_iter()
        .map(|(svg, caption)| counter.add(&svg, caption))
        .collect()
}

/// The cycle with its numbers.
pub(super) fn cycle(cycles: &Cycles, words: Words, counter: &mut Figures) -> String {
    if cycles.cycles.is_empty() {
        return element(
            "p",
            "The compressor did not run while anything was read, so there is no cycle to show.",
        );
    }
    let caption = format!(
        "The cycle of {} at moments of this visit, and of the same system without a fault in the same air. 1 to 2: \
         evaporator. 3: compressor inlet. 4: compressor outlet. 5: condenser outlet. Corners follow from pressures \
         and line temperatures; wet vapour shows as saturated.",
        cycles.refrigerant
    );
    let mut contents = counter.add(&figures::cycle(cycles, words), &caption);
    let mut rows = Vec::new();
    for (index, cycle) in cycles.cycles.iter().chain(&cycles.sound).enumerate() {
        let name = if index < cycles.cycles.len() {
            format!("{}: {}", char::from(b'A' + index as u8), escape(&cycle.title))
        } else {
            escape(&cycle.title)
        };
        rows.push(vec![
            name,
            words.units.temperature(cycle.evaporating_k),
            words.units.temperature(cycle.condensing_k),
            cycle.superheat_text(words),
            cycle.subcooling_text(words),
            words.units.mass(cycle.flow_kg_s * 60.0) + "/min",
            words.units.heat_rate(cycle.net_cooling_w),
        ]);
    }
    contents.push_str(&table(
        "figures",
        "The cycles in numbers",
        &["Cycle", "Evaporating", "Condensing", "Superheat", "Subcooling", "Flow", "Net cooling"],
        &rows,
    ));
    let wet: Vec<&str> = cycles
        .cycles
        .iter()
        .filter(|cycle| cycle.may_flood_back())
        .map(|cycle| cycle.title.as_str())
        .collect();
    if !wet.is_empty() {
        let text = format!(
            "No superheat was left at {}: liquid may have come back to the compressor.",
            wet.join(" and ")
        );
        contents.push_str(&element("p", &text));
    }
    contents
}

/// The plant after the visit, beside a cured one.
pub(super) fn run_on(review: &Review, run_on: &RunOn, words: Words, counter: &mut Figures) -> String {
    let left = review.wrong.iter().any(|wrong| wrong.still_there);
    let mut contents = element(
        "p",
        &format!(
            "{} For {:.0} h more the plant ran on as you left it, in the same weather, with the customer's settings \
             back on the thermostat (set point {}). Beside it: the same house with a plant that has no fault, the \
             data plate's charge and no ice.",
            if left { "What was wrong is still there." } else { "What was wrong is gone." },
            run_on.hours,
            words.units.temperature(run_on.set_point_k)
        ),
    );
    let rows: Vec<Vec<String>> = run_on
        .facts(words)
        .into_iter()
        .map(|fact| vec![escape(fact.name), escape(&fact.as_left), escape(&fact.cured)])
        .collect();
    contents.push_str(&table("figures", "In numbers", &["", "As you left it", "Cured"], &rows));
    for (svg, caption) in figures::run_on(run_on, words) {
        contents.push_str(&counter.add(&svg, caption));
    }
    contents
}

/// A sound path, step by step.
pub(super) fn path(path: &SoundPath, call: &call::Call, words: Words) -> String {
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
                escape(&step.why),
            ]
        })
        .collect();
    table(
        "path",
        &format!("{}, {:.0} min in all", path.count_text(), path.minutes()),
        &["Step", "Move", "Minutes", "What came of it", "Why"],
        &rows,
    )
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
        return element("p", "Nothing was done.");
    }
    table("entry", "The notebook", &["Entry", "Time", "Move", "What came of it"], &rows)
}

/// Where the refrigerant went.
pub(super) fn refrigerant(balance: &RefrigerantBalance, words: Words) -> String {
    let rows: Vec<Vec<String>> = balance
        .lines()
        .into_iter()
        .map(|(name, mass_kg)| vec![escape(name), words.units.mass(mass_kg)])
        .collect();
    table("figures", "Refrigerant of the circuit", &["", "Mass"], &rows)
}
