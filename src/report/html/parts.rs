//! The parts of the page.

use call::Call;
use judge::Mark;
use maud::{Markup, html};
use visit::{Entry, Trust, Visit};
use words::{Words, money, span};

use crate::cycle::Cycles;
use crate::dossier::ReviewFigures;
use crate::notebook::{clock, outcome_text};
use crate::path::SoundPath;
use crate::posterior::PosteriorHistory;
use crate::review::{AreaMarks, RefrigerantBalance, Review};
use crate::ruled::{Ruling, doubt_of, doubt_text, rulings_of_evidence};
use crate::run_on::Projection;
use crate::text::ticket;
use crate::timeline::Timeline;

use super::elements::{LINE_BREAK, table, table_head};
use super::numbering::Figures;
use super::{figures, moves};

/// A paragraph that a message fills.
fn paragraph(key: &str, words: Words) -> Markup {
    html! { p { (words.label(key)) } }
}

/// Headings of columns.
fn head(keys: &[&str], words: Words) -> Vec<String> {
    keys.iter().map(|key| if key.is_empty() { String::new() } else { words.label(key) }).collect()
}

/// Title, score and what was wrong.
pub(super) fn header(review: &Review, words: Words) -> Markup {
    let (call, seed) = (review.call.clone(), review.seed.to_string());
    let score = words.fill("page-score", &[("points", format!("{:.0}", review.total_points))]);
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
    html! {
        header {
            h1 { (words.own(&review.title)) }
            p { (words.fill("page-review-of-visit", &[("call", call), ("seed", seed)])) }
            p class="quote" { (words.fill("page-quote", &[("complaint", words.own(&review.complaint))])) }
            p class="score" { (score) }
            dl {
                @for (name, fact) in facts { dt { (words.label(name)) } dd { (fact) } }
            }
        }
    }
}

/// Every mark with its reason, area by area.
pub(super) fn marks(review: &Review, call: &Call, words: Words) -> Markup {
    html! {
        table class="marks" {
            caption { (words.label("page-marks-caption")) }
            (table_head(&head(&["page-earned", "page-points", "page-why", "page-where"], words)))
            @for area in &review.areas { (area_marks(area, call, words)) }
        }
    }
}

fn area_marks(area: &AreaMarks, call: &Call, words: Words) -> Markup {
    let (points, of) = (format!("{:.1}", area.points), format!("{:.0}", area.of));
    let sum = words
        .fill("page-area-points", &[("area", words.heading(&area.area)), ("points", points), ("of", of)]);
    let entry = |mark: &Mark| {
        mark.entry.map(|entry| words.fill("page-entry-number", &[("entry", entry.to_string())]))
    };
    html! {
        tbody {
            tr class="area-name" { th scope="rowgroup" colspan="4" { (sum) } }
            @for mark in &area.marks {
                tr {
                    td { (words.label(sign(mark))) }
                    td { (points_text(mark, words)) }
                    td { (words.reason(&mark.reason, call)) }
                    td { (entry(mark).unwrap_or_default()) }
                }
            }
        }
    }
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
) -> Markup {
    let timeline = Timeline::of(visit, review, dossier.chances.as_ref());
    let breaks = review.order_breaks_by_entry();
    html! {
        @if dossier.chances.is_none() { (paragraph("page-not-weighed", words)) }
        (counter.add(&moves::svg(&timeline, words), &words.label("page-moves-caption")))
        h3 { (words.label("page-order-broke")) }
        @if breaks.is_empty() {
            (paragraph("page-order-held", words))
        } @else {
            ul {
                @for (entry, reasons) in breaks {
                    @let told: Vec<String> = reasons.into_iter().map(|reason| words.heading(reason)).collect();
                    li {
                        b { (words.fill("page-entry-lead", &[("entry", entry.to_string())])) } " " (told.join(" "))
                    }
                }
            }
        }
    }
}

/// Every entry that said something, and what.
pub(super) fn rulings(visit: &Visit, chances: &PosteriorHistory, words: Words) -> Markup {
    let rulings: Vec<(&Entry, Ruling)> = rulings_of_evidence(visit.notebook(), chances)
        .into_iter()
        .filter_map(|ruling| {
            let entry = visit.notebook().iter().find(|entry| entry.number == ruling.entry)?;
            Some((entry, ruling))
        })
        .collect();
    let mut doubts: Vec<Trust> = Vec::new();
    for doubt in rulings.iter().filter_map(|(_, ruling)| ruling.doubt) {
        if !doubts.contains(&doubt) {
            doubts.push(doubt);
        }
    }
    let rows = html! {
        @for (entry, ruling) in &rulings {
            tr {
                th scope="row" { (entry.number) }
                td { (clock(entry.started_s - visit.arrival_s())) }
                td { (words.say(&entry.action)) ". " (outcome_text(entry, visit.call(), words)) }
                td { (what_it_did(ruling, chances, words)) }
                td { (format_args!("{:.2}", ruling.gained_bits)) }
            }
        }
    };
    let names =
        head(&["page-entry", "page-time", "page-read-or-seen", "page-what-it-did", "page-bits"], words);
    html! {
        (paragraph("page-rulings-about", words))
        @if !doubts.is_empty() {
            (paragraph("page-some-in-doubt", words))
            ul { @for doubt in doubts { li { (doubt_text(doubt, words).unwrap_or_default()) } } }
        }
        @if rulings.is_empty() {
            (paragraph("page-nothing-read", words))
        } @else {
            (table("entry", &words.label("page-rulings-caption"), &names, &rows))
        }
    }
}

/// Effects of an entry and its doubt, each on a line.
fn what_it_did(ruling: &Ruling, chances: &PosteriorHistory, words: Words) -> Markup {
    let effects = ruling.effects(chances);
    html! {
        @for (index, effect) in effects.iter().enumerate() {
            @if index > 0 { (LINE_BREAK) }
            (words.say(effect))
        }
        @if let Some(doubt) = ruling.doubt {
            @if !effects.is_empty() { (LINE_BREAK) }
            span class="doubt" { (words.fill("page-in-doubt", &[("doubt", words.say(&doubt))])) }
        }
    }
}

/// The plant's course.
pub(super) fn course(visit: &Visit, dossier: &ReviewFigures, words: Words, counter: &mut Figures) -> Markup {
    html! {
        @for (svg, caption) in figures::course(visit, &dossier.course, words) { (counter.add(&svg, &caption)) }
    }
}

/// The cycle with its numbers.
pub(super) fn cycle(cycles: &Cycles, words: Words, counter: &mut Figures) -> Markup {
    if cycles.cycles.is_empty() {
        return paragraph("page-no-cycle", words);
    }
    let caption = words.fill("page-cycle-caption", &[("refrigerant", words.say(&cycles.refrigerant))]);
    let named = cycles
        .cycles
        .iter()
        .enumerate()
        .map(|(index, cycle)| (figures::cycle_name(index, cycle, words), cycle))
        .chain(cycles.sound.iter().map(|cycle| (words.heading(&cycle.moment), cycle)));
    let rows = html! {
        @for (name, cycle) in named {
            tr {
                th scope="row" { (name) }
                td { (words.units.temperature(cycle.evaporating_k)) }
                td { (words.units.temperature(cycle.condensing_k)) }
                td { (cycle.superheat_text(words)) }
                td { (cycle.subcooling_text(words)) }
                td {
                    (words.fill("page-flow-each-minute", &[("mass", words.units.mass(cycle.flow_kg_s * 60.0))]))
                }
                td { (words.units.heat_rate(cycle.net_cooling_w)) }
            }
        }
    };
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
    let wet: Vec<String> = cycles
        .cycles
        .iter()
        .filter(|cycle| cycle.may_flood_back())
        .map(|cycle| words.say(&cycle.moment))
        .collect();
    html! {
        (counter.add(&figures::cycle(cycles, words), &caption))
        (table("figures", &words.label("page-cycles-caption"), &names, &rows))
        @if !wet.is_empty() { p { (words.fill("page-flooded", &[("moments", wet.join("; "))])) } }
    }
}

/// The plant after the visit, beside a repaired one.
pub(super) fn run_on(review: &Review, run_on: &Projection, words: Words, counter: &mut Figures) -> Markup {
    let is_left = review.wrong.iter().any(|wrong| wrong.still_there);
    let outcome = words.label(if is_left { "page-later-still-wrong" } else { "page-later-gone" });
    let (hours, set_point) =
        (format!("{:.0}", run_on.hours), words.units.wall_temperature(run_on.set_point_k));
    let conditions = words.fill("page-later-conditions", &[("hours", hours), ("set-point", set_point)]);
    let rows = html! {
        @for fact in run_on.facts() {
            tr {
                th scope="row" { (words.heading(&fact.line)) }
                td { (words.say(&fact.as_left)) }
                td { (words.say(&fact.repaired)) }
            }
        }
    };
    let names = head(&["", "page-as-left", "page-repaired"], words);
    html! {
        p { (outcome) " " (conditions) }
        (table("figures", &words.label("page-in-numbers"), &names, &rows))
        @for (svg, caption) in figures::run_on(run_on, words) { (counter.add(&svg, &caption)) }
    }
}

/// A sound path, step by step.
pub(super) fn path(path: &SoundPath, call: &Call, words: Words) -> Markup {
    let minutes =
        |minutes: f64| if minutes < 0.95 { format!("{minutes:.1}") } else { format!("{minutes:.0}") };
    let rows = html! {
        @for (step, number) in path.steps.iter().zip(1_u32..) {
            tr {
                th scope="row" { (number) }
                td { (words.say(&step.action)) }
                td { (minutes(step.minutes)) }
                td { (step.entry.as_ref().map_or(String::new(), |entry| outcome_text(entry, call, words))) }
                td { (step.why(words).join(" ")) }
            }
        }
    };
    let (steps, time) = (path.count_text(words), span(60.0 * path.minutes()));
    let caption = words.fill("page-path-caption", &[("steps", steps), ("time", time)]);
    let names = head(&["page-step", "page-move", "page-minutes", "page-what-came-of-it", "page-why"], words);
    table("path", &caption, &names, &rows)
}

/// Every entry of the notebook.
pub(super) fn notebook(visit: &Visit, words: Words) -> Markup {
    if visit.notebook().is_empty() {
        return paragraph("page-nothing-done", words);
    }
    let rows = html! {
        @for entry in visit.notebook() {
            @let told = outcome_text(entry, visit.call(), words);
            tr {
                th scope="row" { (entry.number) }
                td { (clock(entry.started_s - visit.arrival_s())) }
                td { (words.say(&entry.action)) }
                td {
                    @if doubt_of(&entry.outcome).is_some() { span class="doubt" { (told) } } @else { (told) }
                }
            }
        }
    };
    let names = head(&["page-entry", "page-time", "page-move", "page-what-came-of-it"], words);
    table("entry", &words.label("page-notebook"), &names, &rows)
}

/// Where the refrigerant went.
pub(super) fn refrigerant(balance: &RefrigerantBalance, words: Words) -> Markup {
    let rows = html! {
        @for (line, mass_kg) in balance.lines() {
            tr { th scope="row" { (words.heading(&line)) } td { (words.units.mass(mass_kg)) } }
        }
    };
    table("figures", &words.label("page-refrigerant-caption"), &head(&["", "page-mass"], words), &rows)
}
