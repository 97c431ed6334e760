//! Values and mistakes of texts, each mistake at its place.
#![allow(clippy::unwrap_used, reason = "a test that meets an error has failed")]

use std::collections::BTreeMap;

use ron_file::{
    Bracket, Example, Inside, Manner, Mistake, Nearest, OldName, Problems, Reading, TextOrTexts, Wanted,
};
use serde::Deserialize;

#[derive(Debug, Deserialize, PartialEq)]
enum Span {
    Minutes(f64),
    Hours(f64),
}

#[derive(Debug, Deserialize, PartialEq)]
enum Step {
    Stop,
    Wait(Span),
    Go { to: Span, times: u8 },
    Both(u8, i32),
    Read(Option<char>),
}

#[derive(Debug, Deserialize, PartialEq)]
#[serde(deny_unknown_fields)]
struct Plan {
    size: f64,
    span: (Span, Span),
    #[serde(default)]
    note: Option<String>,
    #[serde(default)]
    steps: Vec<Step>,
    #[serde(default)]
    says: TextOrTexts,
}

const EXAMPLES: &[(&str, &str)] = &[("size", "1"), ("span", "(Hours(1), Hours(2))")];
const MANNER: Manner<'static> =
    Manner { examples: EXAMPLES, old_names: &[("Halt", "Stop"), ("length", "size")] };

fn read<T: serde::de::DeserializeOwned>(text: &str) -> (Option<T>, Result<Vec<OldName>, Problems<Mistake>>) {
    let mut reading = Reading::<Mistake>::new(text);
    let value = reading.value(&MANNER);
    (value, reading.finish("p.ron"))
}

#[track_caller]
fn good<T: serde::de::DeserializeOwned>(text: &str) -> T {
    let (value, problems) = read::<T>(text);
    assert_eq!(problems, Ok(Vec::new()));
    value.unwrap()
}

/// What is wrong with a plan, each with line and column.
fn wrong<T: serde::de::DeserializeOwned>(text: &str) -> Vec<((usize, usize), Mistake)> {
    let problems = read::<T>(text).1.unwrap_err();
    assert_eq!(problems.more, 0);
    problems.told.into_iter().map(|one| ((one.place.line, one.place.column), one.kind)).collect()
}

fn places<T: serde::de::DeserializeOwned>(text: &str) -> Vec<(usize, usize)> {
    wrong::<T>(text).into_iter().map(|(place, _)| place).collect()
}

fn plan(inside: &str) -> String {
    format!("(size: 1, span: (Hours(1), Hours(2)), {inside})")
}

#[test]
fn a_sound_text_is_read() {
    let text = "\u{feff}#![enable(implicit_some)]\n// so\n(size: 2, span: (Minutes(1), Hours(2.5)), note: \"x\\n\\u{e9}\\x41\", /* a /* b */ */ steps: [Stop, Go(to: Hours(1), times: 0x1F), Both(1_0, -3), Read(None), Read(Some('\\'')), Read('c')], says: {\"en-US\": r#\"a \"b\"\"#, \"es\": \"c\"},)\n";
    let plan: Plan = good(text);
    assert_eq!(plan.span, (Span::Minutes(1.0), Span::Hours(2.5)));
    assert_eq!(plan.note.as_deref(), Some("x\né\u{41}"));
    let steps = vec![
        Step::Stop,
        Step::Go { to: Span::Hours(1.0), times: 31 },
        Step::Both(10, -3),
        Step::Read(None),
        Step::Read(Some('\'')),
        Step::Read(Some('c')),
    ];
    assert_eq!(plan.steps, steps);
    let texts = BTreeMap::from([("en-US".into(), "a \"b\"".into()), ("es".into(), "c".into())]);
    assert_eq!(plan.says, TextOrTexts::Texts(texts));
    let plan: Plan = good(&text_of_one());
    assert_eq!(plan.says, TextOrTexts::Text("hm".into()));
}

fn text_of_one() -> String {
    plan("says: \"hm\"")
}

#[test]
fn what_the_library_reads_is_read_the_same() {
    for number in [
        "1",
        "-0.0",
        "1e-300",
        "0.1",
        "123456789.123456789",
        "5e-324",
        "1.7976931348623157e308",
        "+3.5",
        ".5",
        "7.",
    ] {
        let ours: f64 = good(number);
        let theirs: f64 = ron::from_str(number).unwrap();
        assert_eq!(ours.to_bits(), theirs.to_bits(), "{number}");
    }
    for number in ["18446744073709551615", "0", "1_000"] {
        assert_eq!(good::<u64>(number), ron::from_str::<u64>(number).unwrap());
    }
}

#[test]
fn an_unknown_key_names_its_place_and_the_nearest() {
    let told = wrong::<Plan>("(\n  sise: 2, span: (Hours(1), Hours(2)))");
    let known = ["size", "span", "note", "steps", "says"].map(str::to_owned).to_vec();
    let kind = Mistake::UnknownKey {
        key: "sise".into(),
        inside: Inside::File,
        nearest: Nearest::Names { names: vec!["size".into()] },
        known,
    };
    assert_eq!(told, [((2, 3), kind)]);
}

#[test]
fn a_misspelled_first_key_and_a_missing_one_are_both_told() {
    let told = wrong::<Vec<Plan>>("[(sizee: 1)]");
    assert_eq!(told.len(), 2, "{told:?}");
    assert!(matches!(&told[0], ((1, 2), Mistake::MissingKey { key, .. }) if key == "span"), "{told:?}");
    assert!(matches!(&told[1], ((1, 3), Mistake::UnknownKey { .. })), "{told:?}");
}

#[test]
fn mistakes_of_every_sort_are_collected_where_they_stand() {
    let text = "(\n  banana: [1, 2],\n  size: \"big\",\n  span: (Hour(1), Minutes(2)),\n  nott: 3,\n)";
    assert_eq!(places::<Plan>(text), [(2, 3), (3, 9), (4, 10), (5, 3), (5, 9)]);
    assert!(read::<Plan>(text).0.is_some());
}

#[test]
fn a_missing_key_is_told_at_its_brackets_with_an_example() {
    let told = wrong::<Vec<Plan>>(
        "[\n  (size: 1, span: (Hours(1), Hours(2))),\n  (size: 1),\n  (span: (Hours(1), Hours(2)))]",
    );
    let missing = |key: &str, example: &str| Mistake::MissingKey {
        key: key.into(),
        inside: Inside::File,
        example: Example::Of(example.into()),
    };
    assert_eq!(
        told,
        [((3, 3), missing("span", "span: (Hours(1), Hours(2))")), ((4, 3), missing("size", "size: 1"))]
    );
}

#[test]
fn faulty_items_of_a_list_do_not_hide_the_next() {
    let text = "[\n  Stop,\n  Wiat(Hours(1)),\n  Wait(3),\n  Wait(Hours(\"x\")),\n  Fly(Hours(1)),\n  Go(to: Hours(1)),\n  Stop(),\n  Wait\n]";
    let told = wrong::<Vec<Step>>(text);
    let places: Vec<(usize, usize)> = told.iter().map(|(place, _)| *place).collect();
    assert_eq!(places, [(3, 3), (4, 8), (5, 14), (6, 3), (7, 3), (8, 3), (9, 3)], "{told:#?}");
    assert_eq!(told[5].1, Mistake::NoBrackets { name: "Stop".into() });
}

#[test]
fn each_sort_of_mistake_is_told_at_its_place() {
    let sort = |wanted, written: &str| Mistake::WrongSort {
        wanted,
        written: written.into(),
        example: Example::None,
    };
    for (inside, column, kind) in [
        ("note: Stop", 45, sort(Wanted::Text, "Stop")),
        ("steps: 3", 46, sort(Wanted::List, "3")),
        ("steps: [3]", 47, sort(Wanted::Name, "3")),
        ("steps: [Go(to: Hours(1), times: 300)]", 71, sort(Wanted::Whole, "300")),
        ("steps: [Read(Some(1))]", 57, sort(Wanted::Character, "1")),
        ("steps: [Both(1)]", 47, Mistake::Count { wanted: 2, found: 1 }),
        ("steps: [Both(1, 2, 3)]", 58, Mistake::Count { wanted: 2, found: 3 }),
        ("steps: [Wait]", 47, Mistake::NeedsValue { name: "Wait".into(), example: Example::None }),
        ("steps: [Wait(Hours(inf))]", 58, Mistake::NotFinite { written: "inf".into() }),
        ("steps: [Wait(Hours(1e999))]", 58, Mistake::NotFinite { written: "1e999".into() }),
        ("steps: [Wait(Hours(NaN))]", 58, Mistake::NotFinite { written: "NaN".into() }),
        ("steps: [a: Stop]", 47, Mistake::KeyTooMuch { key: "a".into() }),
        ("Stop", 39, Mistake::NoKey),
        ("size: 3", 39, Mistake::DoubledKey { key: "size".into() }),
        ("says: 3", 45, sort(Wanted::TextOrTexts, "3")),
        ("says: {\"en-US\": 3}", 55, sort(Wanted::Text, "3")),
        ("note:", 44, Mistake::ValueMissing { key: "note".into() }),
        ("note \"x\"", 44, Mistake::ColonMissing { key: "note".into() }),
        ("note: \"a\\qb\"", 45, Mistake::Escape),
        ("note: \"a\\u{1b}b\"", 45, Mistake::Hidden { code: "U+001B".into() }),
        ("note: \"a\u{202e}b\"", 47, Mistake::Hidden { code: "U+202E".into() }),
        ("note: \"a\0b\"", 47, Mistake::Hidden { code: "U+0000".into() }),
        ("@ note: \"x\"", 39, Mistake::Character { found: "@".into() }),
        ("steps: [Stop Stop]", 52, Mistake::CommaMissing),
        ("steps: [}]", 47, Mistake::ClosesNothing),
        ("steps: [Stop", 46, Mistake::Unclosed(Bracket::Square)),
        ("note: \"x", 45, Mistake::Unclosed(Bracket::Quote)),
        ("/* x", 39, Mistake::Unclosed(Bracket::Comment)),
    ] {
        assert_eq!(wrong::<Plan>(&plan(inside)), [((1, column), kind)], "{inside}");
    }
    assert_eq!(wrong::<Plan>(&format!("{} 3", plan(""))), [((1, 41), Mistake::AfterTheEnd)]);
    assert_eq!(wrong::<Plan>(" // only this"), [((1, 1), Mistake::Nothing)]);
    assert_eq!(wrong::<bool>("yes"), [((1, 1), sort(Wanted::YesOrNo, "yes"))]);
    assert_eq!(wrong::<Plan>("Stop"), [((1, 1), sort(Wanted::Keyed, "Stop"))]);
}

#[test]
fn a_missing_comma_hides_nothing() {
    assert_eq!(places::<Plan>("(size: 1\n span: (Hours(1), Houres(2)))"), [(2, 2), (2, 19)]);
}

#[test]
fn columns_count_characters_and_paths_lead_to_the_place() {
    let text =
        "(note: \"é°é\", steps: [Stop, Go(to: Hours(1), times: -1)], sise: 2, span: (Hours(1), Hours(2)))";
    let problems = read::<Plan>(text).1.unwrap_err();
    let told: Vec<(usize, &str)> =
        problems.told.iter().map(|one| (one.place.column, one.place.path.as_str())).collect();
    assert_eq!(told, [(53, "steps[1].times"), (59, "sise")]);
}

#[test]
fn old_names_are_read_as_those_of_today_and_told_once() {
    let (plan, noted) = read::<Plan>("(length: 3, span: (Hours(1), Hours(2)), steps: [Halt, Halt])");
    assert_eq!(plan.unwrap().steps, [Step::Stop, Step::Stop]);
    let old = |old: &str, new: &str| OldName { old: old.into(), new: new.into() };
    assert_eq!(noted, Ok(vec![old("length", "size"), old("Halt", "Stop")]));
    // The old and the new key are one.
    let told = wrong::<Plan>("(length: 3, size: 3, span: (Hours(1), Hours(2)))");
    assert_eq!(told, [((1, 13), Mistake::DoubledKey { key: "size".into() })]);
}

#[test]
fn what_is_wrong_already_is_not_told_again() {
    let mut reading = Reading::<Mistake>::new("(size: big, span: (Hours(1), Hours(2)))");
    let plan: Plan = reading.value(&MANNER).unwrap();
    assert_eq!(plan.size, 0.0);
    assert!(!reading.is_sound("size") && reading.is_sound("span") && !reading.is_sound("note"));
    reading.report("size", Mistake::Nothing);
    reading.report("span[1]", Mistake::Nothing);
    let told = reading.finish("p.ron").unwrap_err().told;
    assert_eq!(told.iter().map(|one| one.place.path.as_str()).collect::<Vec<_>>(), ["size", "span[1]"]);
}

#[test]
fn a_value_can_be_changed_and_all_else_stays() {
    let text = "(\n    size: 1, // how big\n    span: (Hours(1), Hours(2)),\n)\n";
    assert_eq!(
        ron_file::replaced(text, "span[1]", &2.5).unwrap(),
        "(\n    size: 1, // how big\n    span: (Hours(1), 2.5),\n)\n"
    );
    assert_eq!(ron_file::replaced(text, "note", &1), None);
    assert_eq!(ron_file::replaced("(a: [1", "a", &1), None);
    assert_eq!(ron_file::write(&vec![(1, "a")], 1), "[\n    (1, \"a\"),\n]\n");
}

proptest::proptest! {
    #[test]
    fn no_text_panics(text in "[(){}\\[\\],:a-zA-Z0-9\"'/*#.\\\\ \né-]{0,60}") {
        let (value, problems) = read::<Plan>(&text);
        proptest::prop_assert!(value.is_some() || problems.is_err());
    }

    #[test]
    fn no_spoilt_text_panics(cut in 0_usize..200, take in 0_usize..12, put in "[(){}\\[\\],:a-z\"'/*#\\\\]{0,3}") {
        let text = plan("note: \"a\\n\", steps: [Stop, Wait(Hours(1)), Go(to: Hours(1), times: 3)], says: {\"es\": r#\"x\"#}");
        let cut = cut.min(text.len());
        let end = (cut + take).min(text.len());
        let (value, problems) = read::<Plan>(&format!("{}{put}{}", &text[..cut], &text[end..]));
        proptest::prop_assert!(value.is_some() || problems.is_err());
    }
}
