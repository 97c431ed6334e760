//! Pictures of the document: published values with their band, ours beside them. Each kind of series has a line and a shape of its own.

use chart::{Axis, Curve, Join, Pen, Shape};

/// What a series is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Style {
    /// Published.
    Published,
    /// A second published set.
    PublishedSecond,
    /// Ours.
    Ours,
    /// A second system of ours.
    OursSecond,
    /// A line without marks, such as where both would agree.
    Guide,
}

impl Style {
    /// Its line and shape: published is open, ours is filled.
    fn look(self) -> (Pen, Option<Shape>) {
        match self {
            Style::Published => (Pen::Dashed, Some(Shape::HollowSquare)),
            Style::PublishedSecond => (Pen::Dotted, Some(Shape::Diamond)),
            Style::Ours => (Pen::Solid, Some(Shape::Full)),
            Style::OursSecond => (Pen::DashDot, Some(Shape::Triangle)),
            Style::Guide => (Pen::Guide, None),
        }
    }
}

/// Points with a name.
#[derive(Clone, Debug, PartialEq)]
pub struct Series(Curve);

impl Series {
    /// A joined series without a band; points from left to right.
    pub fn new(name: &str, style: Style, points: Vec<(f64, f64)>) -> Series {
        let (pen, sign) = style.look();
        let points = points.into_iter().map(|(x, y)| [x, y]).collect();
        Series(Curve { sign, ..Curve::new(name.to_owned(), pen, points) })
    }

    /// With a band of this half height.
    pub fn band(mut self, half: f64) -> Series {
        self.0.band = Some(chart::Band::Absolute(half));
        self
    }

    /// With a band of this share of the value.
    pub fn band_share(mut self, share: f64) -> Series {
        self.0.band = Some(chart::Band::Share(share));
        self
    }

    /// Marks only.
    pub fn apart(mut self) -> Series {
        self.0.join = Join::Points;
        self
    }
}

/// A picture.
#[derive(Clone, Debug, PartialEq)]
pub struct Chart {
    /// File name without ending.
    pub file: &'static str,
    /// Title, also the text that stands for the picture.
    pub title: String,
    /// Horizontal axis with unit.
    pub x: String,
    /// Vertical axis with unit.
    pub y: String,
    /// What is drawn, first at the bottom.
    pub series: Vec<Series>,
}

/// Height of a picture below its title, px.
const HEIGHT: f64 = 400.0;

impl Chart {
    /// The picture.
    pub fn svg(&self) -> String {
        let curves: Vec<Curve> = self.series.iter().map(|series| series.0.clone()).collect();
        let xs = curves.iter().flat_map(|curve| curve.points.iter().map(|[x, _]| *x));
        let ys = curves.iter().flat_map(|curve| {
            curve
                .points
                .iter()
                .flat_map(|[_, y]| curve.band.map_or([*y; 2], |band| [band.lower(*y), band.upper(*y)]))
        });
        let names: Vec<&str> = curves.iter().map(|curve| curve.name.as_str()).collect();
        chart::Chart {
            id: self.file.to_owned(),
            title: self.title.clone(),
            about: format!("{} over {}: {}.", self.y, self.x, names.join("; ")),
            height: HEIGHT,
            x: Axis::on_ticks(self.x.clone(), xs),
            y: Axis::on_ticks(self.y.clone(), ys),
            curves,
            marks: Vec::new(),
            levels: Vec::new(),
        }
        .file()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_style_has_its_own_line_and_shape() {
        let looks = [Style::Published, Style::PublishedSecond, Style::Ours, Style::OursSecond, Style::Guide]
            .map(Style::look);
        for (i, (pen, shape)) in looks.iter().enumerate() {
            for (other_pen, other_shape) in &looks[..i] {
                assert!(pen != other_pen && shape != other_shape, "{looks:?}");
            }
        }
    }

    #[test]
    fn a_picture_makes_room_for_its_bands() {
        let series = Series::new("a", Style::Published, vec![(0.0, 1.0), (1.0, 2.0)]);
        let tallest = |series: Series| {
            let chart = Chart {
                file: "a",
                title: String::new(),
                x: String::new(),
                y: String::new(),
                series: vec![series],
            };
            chart.svg().contains(">40</text>")
        };
        assert!(!tallest(series.clone()));
        assert!(tallest(series.clone().band(38.0)));
        assert!(tallest(series.band_share(19.0)));
    }
}
