use super::*;

use roxmltree::{Document, Node};

fn chart() -> Chart {
    let steps = |n: f64| Axis::from_zero("of <x> & \u{7}".to_owned(), n, 10.0, &[1.0]);
    let points = vec![[0.0, 1.0], [2.0, 3.0]];
    let mut banded = Curve::new("a & b".to_owned(), Pen::Dashed, points.clone());
    banded.band = Some(Band::Absolute(0.5));
    banded.sign = Some(Shape::Diamond);
    let mut apart = Curve::new("apart".to_owned(), Pen::Solid, points.clone());
    apart.join = Join::Points;
    apart.sign = Some(Shape::Full);
    Chart {
        id: "one".to_owned(),
        title: "A <title>".to_owned(),
        about: "What it shows".to_owned(),
        height: 200.0,
        x: steps(4.0),
        y: steps(5.0),
        curves: vec![banded, apart, Curve::new(String::new(), Pen::Guide, points)],
        marks: vec![Mark { at: [1.0, 2.0], shape: Shape::Hollow, label: "7".to_owned() }],
        levels: vec![(2.5, "half".to_owned()), (9.0, "outside".to_owned())],
    }
}

fn count(document: &Document<'_>, name: &str, class: &str) -> usize {
    document
        .descendants()
        .filter(|node| node.has_tag_name(("http://www.w3.org/2000/svg", name)))
        .filter(|node| node.attribute("class").is_some_and(|classes| classes.split(' ').any(|c| c == class)))
        .count()
}

#[test]
fn a_file_is_well_formed_needs_nothing_else_and_says_what_it_shows() {
    let file = chart().file();
    let document = Document::parse(&file).unwrap_or_else(|error| panic!("{error}\n{file}"));
    assert_eq!(document.root_element().attribute("aria-labelledby"), Some("one-t one-d"));
    let texts: Vec<&str> = document.descendants().filter(Node::is_text).filter_map(|t| t.text()).collect();
    for told in ["A <title>", "What it shows", "of <x> & \u{fffd}", "a & b", "half", "7"] {
        assert!(texts.contains(&told), "{told} is missing from {texts:?}");
    }
    assert!(!texts.contains(&"outside"), "a level outside the box is left out");
    assert!(!file.contains("var(") && !file.contains("url(") && !file.contains("@import"));
}

#[test]
fn curves_show_their_line_signs_and_band_also_in_the_legend() {
    let file = chart().file();
    let document = Document::parse(&file).unwrap_or_else(|error| panic!("{error}\n{file}"));
    assert_eq!(count(&document, "polygon", "reach"), 1);
    assert_eq!(count(&document, "rect", "reach"), 1);
    assert_eq!(count(&document, "polyline", "p1"), 1);
    assert_eq!(count(&document, "polyline", "p0"), 0, "points that are not joined");
    assert_eq!(count(&document, "polyline", "level"), 1);
    assert_eq!(count(&document, "path", "hollow"), 3, "two points and the legend");
    assert_eq!(count(&document, "circle", "full"), 3, "two points and the legend");
    assert_eq!(count(&document, "circle", "hollow"), 1);
}

#[test]
fn every_class_that_is_drawn_has_a_look() {
    let pens = [Pen::Solid, Pen::Dashed, Pen::Dotted, Pen::DashDot, Pen::Ground, Pen::Guide];
    let classes = pens.iter().flat_map(|pen| [pen.class(), pen.ink()]).chain([
        "grid", "box", "mid", "end", "halo", "small", "reach", "sign", "full", "hollow", "paper", "heading",
    ]);
    for class in classes {
        let named = [' ', ',', ':'].iter().any(|after| STYLE.contains(&format!(".{class}{after}")));
        assert!(named, "no rule for .{class}");
    }
}

/// Without colour, which a reader may not see or print.
#[test]
fn lines_differ_in_their_dashes_and_shapes_in_their_outline() {
    let dashes = |class: &str| {
        let rule = STYLE.lines().find(|line| line.contains(&format!(".{class} {{"))).expect("a rule");
        rule.split("stroke-dasharray:").nth(1).map(str::to_owned)
    };
    let mut lines: Vec<_> = ["p0", "p1", "p2", "p3", "level"].map(dashes).to_vec();
    let mut shapes: Vec<String> =
        [Shape::Full, Shape::Hollow, Shape::Square, Shape::HollowSquare, Shape::Diamond, Shape::Triangle]
            .map(|shape| shape.at(0.0, 0.0).into_string())
            .to_vec();
    lines.sort();
    lines.dedup();
    shapes.sort();
    shapes.dedup();
    assert_eq!((lines.len(), shapes.len()), (5, 6), "{lines:?} {shapes:?}");
}

#[test]
fn the_same_chart_gives_the_same_bytes() {
    assert_eq!(chart().file(), chart().file());
    assert_eq!(chart().svg().into_string(), chart().svg().into_string());
}
