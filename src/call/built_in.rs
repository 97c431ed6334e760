//! The calls that come with the program.

/// Id and text of each built-in call, in the order of the list on screen.
#[must_use]
pub fn built_in() -> &'static [(&'static str, &'static str)] {
    &[
        ("tannery-lane", include_str!("../../scenarios/tannery-lane.ron")),
        ("orchard-court", include_str!("../../scenarios/orchard-court.ron")),
        ("kiln-street", include_str!("../../scenarios/kiln-street.ron")),
        ("ferry-steps", include_str!("../../scenarios/ferry-steps.ron")),
    ]
}
