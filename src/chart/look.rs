//! How curves and marks look. Dashes and shapes tell them apart without colour.

use maud::{Markup, html};

use crate::px;

/// How a curve is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Pen {
    /// A whole line.
    Solid,
    /// Long dashes.
    Dashed,
    /// Dots.
    Dotted,
    /// Dashes and dots by turns.
    DashDot,
    /// A thick grey line behind the others.
    Ground,
    /// A thin dotted line to hold others against.
    Guide,
}

impl Pen {
    /// Class of its lines in the style sheet.
    pub(crate) fn class(self) -> &'static str {
        match self {
            Pen::Solid => "p0",
            Pen::Dashed => "p1",
            Pen::Dotted => "p2",
            Pen::DashDot => "p3",
            Pen::Ground => "pg",
            Pen::Guide => "level",
        }
    }

    /// Class of what has its colour in the style sheet.
    pub(crate) fn ink(self) -> &'static str {
        match self {
            Pen::Solid => "c0",
            Pen::Dashed => "c1",
            Pen::Dotted => "c2",
            Pen::DashDot => "c3",
            Pen::Ground | Pen::Guide => "cg",
        }
    }
}

/// Whether the points of a curve are joined.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Join {
    /// By straight lines.
    Line,
    /// Not at all.
    Points,
}

/// How far a band reaches to either side of its curve.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Band {
    /// So much, in the values of the vertical axis.
    Absolute(f64),
    /// So much of the value.
    Share(f64),
}

impl Band {
    /// Half its height at a value.
    fn half(self, y: f64) -> f64 {
        match self {
            Band::Absolute(half) => half,
            Band::Share(share) => share * y,
        }
    }

    /// Its upper end at a value.
    pub fn upper(self, y: f64) -> f64 {
        y + self.half(y)
    }

    /// Its lower end at a value.
    pub fn lower(self, y: f64) -> f64 {
        y - self.half(y)
    }
}

/// Shape of a mark.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shape {
    /// A filled circle.
    Full,
    /// An open circle.
    Hollow,
    /// A filled square.
    Square,
    /// An open square.
    HollowSquare,
    /// An open diamond.
    Diamond,
    /// A filled triangle.
    Triangle,
    /// Nothing: only the label shows.
    Bare,
}

impl Shape {
    /// The shape at a place, px.
    pub fn at(self, x: f64, y: f64) -> Markup {
        html! {
            @match self {
                Shape::Full => circle class="full" cx=(px(x)) cy=(px(y)) r="4" {},
                Shape::Hollow => circle class="hollow" cx=(px(x)) cy=(px(y)) r="4" {},
                Shape::Square => rect class="full" x=(px(x - 3.5)) y=(px(y - 3.5)) width="7" height="7" {},
                Shape::HollowSquare => rect class="hollow" x=(px(x - 4.0)) y=(px(y - 4.0)) width="8" height="8" {},
                Shape::Diamond => path class="hollow" d=(format_args!("M{x:.1} {:.1}l5.5 5.5l-5.5 5.5l-5.5 -5.5Z", y - 5.5)) {},
                Shape::Triangle => path class="full" d=(format_args!("M{x:.1} {:.1}l5.5 9.5h-11Z", y - 6.0)) {},
                Shape::Bare => {},
            }
        }
    }
}
