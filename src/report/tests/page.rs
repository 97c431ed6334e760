//! The page: whole, well formed, self-contained, and safe against what stands in a call file.

mod common;

use std::collections::BTreeSet;
use std::sync::LazyLock;

use call::Milestone;
use diagnosis::{Hypothesis, Purpose};
use judge::{Area, Mark, Marks, Reason};
use report::{
    AfterEntry, PathStep, PosteriorHistory, Review, ReviewFigures, SoundPath, StepGain, Words, html,
};
use roxmltree::{Document, Node, ParsingOptions};
use visit::{AirPoint, Bulb, Declaration, Move, PipePoint, Place, Port, Visit};
use words::Units;

const NASTY: &str = "Ice & <script>alert(\"x\")</script> 'n' more \u{7}";

struct Judged {
    visit: Visit,
    review: Review,
    dossier: ReviewFigures,
}

static JUDGED: LazyLock<Judged> = LazyLock::new(|| {
    let mut call = common::call();
    call.title = call::Text::english(NASTY);
    call.complaint = call::Text::english(NASTY);
    for rule in &mut call.prerequisites {
        rule.why = call::Text::english(NASTY);
    }
    let cause = plant::FaultKind::Undercharged;
    let declaration = Declaration { cause, place: None, evidence: vec![3], rules_out: Vec::new() };
    let visit = common::visit_after(
        &call,
        &[
            Move::Look(Place::IndoorCoil),
            Move::ConnectGauges,
            Move::ReadGauge(Port::Suction),
            Move::ReadGauge(Port::Liquid),
            Move::ReadPipe(PipePoint::SuctionAtServiceValve),
            Move::ReadAir(AirPoint::Supply, Bulb::Dry),
            Move::Declare(declaration),
            Move::CloseTicket,
        ],
    );
    let mark = |area, reason, entry| Mark { area, points: 0.0, of: 10.0, reason, entry };
    let rule = |rule, before, one_of| Reason::OutOfOrder { rule, before, one_of: vec![one_of] };
    let marks = Marks::of(vec![
        mark(Area::Order, rule(0, Milestone::GaugesConnected, Milestone::CoilThawed), Some(2)),
        mark(Area::Order, rule(1, Milestone::TicketClosed, Milestone::RepairVerified), Some(8)),
        mark(Area::Evidence, Reason::CauseWrong { cause }, Some(7)),
    ]);
    let review = Review::new(&visit, &marks);
    let mut dossier = figures(&visit, 2.0);
    dossier.chances = Some(chances(&visit));
    dossier.path = Some(SoundPath {
        steps: vec![PathStep {
            action: Move::InspectFilter,
            minutes: 5.0,
            aim: Purpose::Tests { expected_bits: 0.5 },
            gain: Some(StepGain {
                gained_bits: 0.4,
                leader: Hypothesis::single(cause, None),
                before_probability: 0.4,
                after_probability: 0.6,
            }),
            entry: None,
        }],
    });
    Judged { visit, review, dossier }
});

/// Two suspects: the readings speak for the filter.
fn chances(visit: &Visit) -> PosteriorHistory {
    PosteriorHistory {
        suspects: vec![
            Hypothesis::single(plant::FaultKind::LoadedFilter, None),
            Hypothesis::single(plant::FaultKind::Undercharged, None),
        ],
        before: vec![0.4, 0.6],
        entries: visit
            .notebook()
            .iter()
            .map(|entry| {
                let after = if entry.number < 3 { [0.4, 0.6] } else { [0.95, 0.05] };
                AfterEntry {
                    entry: entry.number,
                    after: after.to_vec(),
                    gained_bits: if entry.number == 3 { 0.8 } else { 0.0 },
                    doubt: report::doubt_of(&entry.outcome),
                }
            })
            .collect(),
    }
}

fn page(units: Units) -> String {
    html::page(&JUDGED.review, &JUDGED.visit, &JUDGED.dossier, Words::in_units(units))
}

fn parsed(page: &str) -> Document<'_> {
    let options = ParsingOptions { allow_dtd: true, ..ParsingOptions::default() };
    Document::parse_with_options(page, options).unwrap_or_else(|error| panic!("not well formed: {error}"))
}

fn named<'a, 'i>(document: &'a Document<'i>, name: &'a str) -> impl Iterator<Item = Node<'a, 'i>> {
    document.descendants().filter(move |node| node.has_tag_name(name))
}

fn all_text(node: Node<'_, '_>) -> String {
    node.descendants().filter(Node::is_text).filter_map(|text| text.text()).collect()
}

#[test]
fn the_page_is_well_formed_and_needs_nothing_else() {
    for units in [Units::Ip, Units::Si] {
        let page = page(units);
        let document = parsed(&page);
        for foreign in ["script", "link", "img", "iframe", "object", "embed", "image", "use", "foreignObject"]
        {
            assert_eq!(named(&document, foreign).count(), 0, "<{foreign}>");
        }
        for foreign in ["http:", "https:", "url(", "@import", "javascript:"] {
            assert!(!page.contains(foreign), "{foreign}");
        }
        let ids: Vec<&str> = document.descendants().filter_map(|node| node.attribute("id")).collect();
        let known: BTreeSet<&str> = ids.iter().copied().collect();
        assert_eq!(ids.len(), known.len(), "an identifier stands twice");
        for node in document.descendants().filter(Node::is_element) {
            for attribute in node.attributes() {
                let (name, value) = (attribute.name(), attribute.value());
                assert!(!name.starts_with("on") && name != "src", "{name}");
                if name == "href" {
                    let target = value.strip_prefix('#').expect("a link inside the page");
                    assert!(known.contains(target), "{value} leads nowhere");
                }
                if name == "aria-labelledby" {
                    assert!(value.split(' ').all(|id| known.contains(id)), "{value}");
                }
            }
        }
    }
}

#[test]
fn text_from_a_call_stays_text() {
    let page = page(Units::Ip);
    let document = parsed(&page);
    let title = named(&document, "h1").next().expect("a title");
    assert_eq!(all_text(title), NASTY.replace('\u{7}', "\u{fffd}"));
    assert!(!page.contains("<script") && !page.contains("alert(\"x\")"));
}

#[test]
fn those_who_cannot_see_the_page_can_use_it() {
    let page = page(Units::Ip);
    let document = parsed(&page);
    assert_eq!(named(&document, "html").next().and_then(|html| html.attribute("lang")), Some("en"));
    assert_eq!(named(&document, "h1").count(), 1);
    assert_eq!(named(&document, "main").count(), 1);
    let filled = |node: Node<'_, '_>, name: &str| {
        node.descendants().any(|inner| inner.has_tag_name(name) && !all_text(inner).trim().is_empty())
    };
    assert!(named(&document, "figure").count() >= 9);
    for figure in named(&document, "figure") {
        assert!(filled(figure, "figcaption"));
    }
    for svg in named(&document, "svg") {
        assert_eq!(svg.attribute("role"), Some("img"));
        assert!(filled(svg, "title") && filled(svg, "desc"));
    }
    assert!(named(&document, "table").count() >= 5);
    for table in named(&document, "table") {
        assert!(filled(table, "caption"));
        assert!(table.descendants().any(|node| node.attribute("scope") == Some("col")));
    }
    let mut level = 1;
    for heading in document.descendants().filter(|node| matches!(node.tag_name().name(), "h1" | "h2" | "h3"))
    {
        let this: u32 = heading.tag_name().name()[1..].parse().expect("a level");
        assert!(this <= level + 1, "a level is left out before {:?}", all_text(heading));
        level = this;
    }
}

#[test]
fn every_number_of_a_drawing_is_one() {
    let page = page(Units::Si);
    assert!(!page.contains("NaN") && !page.contains("inf,") && !page.contains(",inf"));
    let document = parsed(&page);
    for line in named(&document, "polyline") {
        let points = line.attribute("points").expect("points");
        for number in points.split([' ', ',']) {
            let value: f64 = number.parse().unwrap_or_else(|_| panic!("{number} is no number"));
            // A curve may leave its box by the width of a line, not more.
            assert!((-2.0..=770.0).contains(&value), "{value}");
        }
    }
}

#[test]
fn the_page_tells_what_the_reader_came_for() {
    let page = page(Units::Ip);
    for told in [
        "Where the order was broken",
        "<b>Entry 2.</b> Connecting the gauges came before a coil free of ice.",
        "Ruled out: low charge, no leak (60\u{a0}% to 5.0\u{a0}%).",
        "Points to: dirty or plugged filter (40\u{a0}% to 95\u{a0}%).",
        "In doubt: ice on the coil.",
        "(was wrong)",
        "(you declared it)",
        "What would have happened next",
        "A sound path through this call",
        "Left in the hoses",
        "psig",
    ] {
        assert!(page.contains(told), "{told}");
    }
    assert!(!page.contains("kPa"), "one system of units at a time");
}

#[test]
fn a_page_without_suspects_and_path_says_so() {
    let mut dossier = JUDGED.dossier.clone();
    dossier.chances = None;
    dossier.path = None;
    let page = html::page(&JUDGED.review, &JUDGED.visit, &dossier, Words::in_units(Units::Si));
    parsed(&page);
    assert!(page.contains("The evidence has not been weighed."));
    assert!(!page.contains("A sound path") && !page.contains("Ruled out"));
    assert!(page.contains("kPa") && !page.contains("psi"));
}

fn figures(visit: &Visit, hours: f64) -> ReviewFigures {
    let recording = visit::Recording::of(visit).expect("the plant stays finite");
    let figures = ReviewFigures::of(visit, &recording, hours, &diagnosis::Unwatched);
    figures.expect("the plants stay finite").expect("nobody stops it")
}

#[test]
fn a_dossier_can_be_saved() {
    let text = serde_json::to_string(&JUDGED.dossier).expect("a dossier is finite numbers and plain text");
    let again: ReviewFigures = serde_json::from_str(&text).expect("what was written can be read");
    assert_eq!(again.chances, JUDGED.dossier.chances);
    assert_eq!(again.path, JUDGED.dossier.path);
    assert_eq!(again.course.samples.len(), JUDGED.dossier.course.samples.len());
}
