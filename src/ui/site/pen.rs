//! A pen that draws in world coordinates.

use std::f32::consts::TAU;

use egui::{Align2, Color32, FontId, Painter, Pos2, Rect, Shape, Stroke, StrokeKind, Vec2, pos2, vec2};

use crate::palette;

/// Width and height of the drawing in world units.
pub const WORLD: egui::Vec2 = vec2(1000.0, 600.0);

/// Draws in world coordinates on a painter.
pub struct Pen {
    painter: Painter,
    origin: Pos2,
    scale: f32,
}

impl Pen {
    /// Fits the world into a rectangle of the screen, centred.
    pub fn new(painter: Painter, rect: Rect) -> Pen {
        let scale = (rect.width() / WORLD.x).min(rect.height() / WORLD.y);
        let origin = rect.center() - WORLD * scale / 2.0;
        Pen { painter, origin, scale }
    }

    /// The painter, in screen coordinates.
    pub fn painter(&self) -> &Painter {
        &self.painter
    }

    /// A point on screen.
    pub fn at(&self, x: f32, y: f32) -> Pos2 {
        self.origin + vec2(x, y) * self.scale
    }

    /// A length on screen.
    pub fn length(&self, length: f32) -> f32 {
        length * self.scale
    }

    /// A rectangle on screen from one in the world.
    pub fn rect(&self, world: Rect) -> Rect {
        Rect::from_min_max(self.at(world.min.x, world.min.y), self.at(world.max.x, world.max.y))
    }

    /// An ink stroke of a width in screen points, a little wider on large screens.
    pub fn ink(&self, width: f32) -> Stroke {
        Stroke::new(width * self.scale.clamp(0.8, 1.6), palette::INK)
    }

    /// A line.
    pub fn line(&self, from: (f32, f32), to: (f32, f32), stroke: Stroke) {
        self.painter.line_segment([self.at(from.0, from.1), self.at(to.0, to.1)], stroke);
    }

    /// A line through several points.
    pub fn path(&self, points: &[(f32, f32)], stroke: Stroke) {
        self.painter.line(points.iter().map(|&(x, y)| self.at(x, y)).collect(), stroke);
    }

    /// A dashed line.
    pub fn dashes(&self, points: &[(f32, f32)], stroke: Stroke) {
        let points: Vec<Pos2> = points.iter().map(|&(x, y)| self.at(x, y)).collect();
        self.painter.extend(Shape::dashed_line(&points, stroke, 5.0, 4.0));
    }

    /// A filled and outlined convex polygon.
    pub fn polygon(&self, points: &[(f32, f32)], fill: Color32, stroke: Stroke) {
        let points = points.iter().map(|&(x, y)| self.at(x, y)).collect();
        self.painter.add(Shape::convex_polygon(points, fill, stroke));
    }

    /// A filled and outlined rectangle from its corners.
    pub fn block(&self, min: (f32, f32), max: (f32, f32), fill: Color32, stroke: Stroke) {
        self.painter.rect(
            Rect::from_min_max(self.at(min.0, min.1), self.at(max.0, max.1)),
            1.5,
            fill,
            stroke,
            StrokeKind::Middle,
        );
    }

    /// A filled circle with an outline.
    pub fn disc(&self, centre: (f32, f32), radius: f32, fill: Color32, stroke: Stroke) {
        self.painter.circle(self.at(centre.0, centre.1), self.length(radius), fill, stroke);
    }

    /// Section hatching inside a rectangle.
    pub fn hatch(&self, min: (f32, f32), max: (f32, f32), spacing: f32, stroke: Stroke) {
        let rect = Rect::from_min_max(self.at(min.0, min.1), self.at(max.0, max.1));
        let painter = self.painter.with_clip_rect(rect.intersect(self.painter.clip_rect()));
        let step = self.length(spacing).max(4.0);
        let mut x = rect.left() - rect.height();
        while x < rect.right() {
            painter.line_segment([pos2(x, rect.bottom()), pos2(x + rect.height(), rect.top())], stroke);
            x += step;
        }
    }

    /// Text; returns the space it takes on screen.
    pub fn text(&self, at: (f32, f32), anchor: Align2, text: &str, colour: Color32) -> Rect {
        self.painter.text(self.at(at.0, at.1), anchor, text, palette::small(), colour)
    }

    /// Text on a ground of paper, so that lines behind it do not disturb.
    pub fn note(&self, at: (f32, f32), anchor: Align2, text: &str, colour: Color32) {
        let galley = self.painter.layout_no_wrap(text.to_owned(), palette::small(), colour);
        let rect = anchor.anchor_size(self.at(at.0, at.1), galley.size());
        self.painter.rect_filled(rect.expand2(vec2(4.0, 1.0)), 3.0, palette::PAPER);
        self.painter.galley(rect.min, galley, colour);
    }

    /// An arrow from a point along a vector, with a solid head.
    pub fn arrow(&self, from: (f32, f32), along: Vec2, colour: Color32, width: f32) {
        let start = self.at(from.0, from.1);
        let vector = along * self.scale;
        let tip = start + vector;
        let direction = vector.normalized();
        let head = (width * 3.2).min(vector.length());
        let side = direction.rot90() * head * 0.55;
        let neck = tip - direction * head;
        self.painter.line_segment([start, neck], Stroke::new(width, colour));
        self.painter.add(Shape::convex_polygon(vec![tip, neck + side, neck - side], colour, Stroke::NONE));
    }

    /// A lettered balloon, as the parts list of a drawing uses.
    pub fn balloon(&self, at: (f32, f32), letter: char, chosen: Choice) {
        let centre = self.at(at.0, at.1);
        let (fill, text) = match chosen {
            Choice::Here => (palette::ACCENT, Color32::WHITE),
            Choice::Elsewhere => (palette::SHEET, palette::INK),
        };
        self.painter.circle(centre, 10.0, fill, Stroke::new(1.4, palette::INK));
        let font = FontId::proportional(palette::SMALL_PX);
        self.painter.text(centre, Align2::CENTER_CENTER, letter, font, text);
    }

    /// Blades of a wheel or fan, seen along the shaft.
    pub fn wheel(&self, centre: (f32, f32), radius: f32, blades: u32, turned: f32, stroke: Stroke) {
        for blade in 0..blades {
            let angle = turned + TAU * blade as f32 / blades as f32;
            let inner = vec2(angle.cos(), angle.sin()) * radius * 0.62;
            let outer = vec2((angle + 0.35).cos(), (angle + 0.35).sin()) * radius;
            self.line(
                (centre.0 + inner.x, centre.1 + inner.y),
                (centre.0 + outer.x, centre.1 + outer.y),
                stroke,
            );
        }
    }

    /// Discs that melt into one shape with one outline.
    pub fn cloud(&self, discs: &[((f32, f32), f32)], fill: Color32, edge: Color32) {
        for &(centre, radius) in discs {
            self.painter.circle_filled(self.at(centre.0, centre.1), self.length(radius) + 1.3, edge);
        }
        for &(centre, radius) in discs {
            self.painter.circle_filled(self.at(centre.0, centre.1), self.length(radius), fill);
        }
    }

    /// A six-armed ice crystal.
    pub fn crystal(&self, centre: (f32, f32), radius: f32, turned: f32) {
        let stroke = Stroke::new(1.2, palette::ICE_EDGE);
        for arm in 0..3 {
            let angle = turned + TAU * arm as f32 / 6.0;
            let reach = vec2(angle.cos(), angle.sin()) * radius;
            self.line(
                (centre.0 - reach.x, centre.1 - reach.y),
                (centre.0 + reach.x, centre.1 + reach.y),
                stroke,
            );
        }
    }
}

/// Whether something is the chosen one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Choice {
    /// The chosen one.
    Here,
    /// Another.
    Elsewhere,
}

/// Angle of a wheel after some seconds of movement at a share of its speed. Slower than in life: the eye must see it.
pub fn turned(moved_s: f64, speed_share: f64) -> f32 {
    const TURNS_A_SECOND: f64 = 1.1;
    ((moved_s * speed_share * TURNS_A_SECOND).fract() * std::f64::consts::TAU) as f32
}

/// A number from 0 to 1 that looks random and is the same each time, from a whole number.
pub fn scatter(index: u32) -> f32 {
    let mixed = index.wrapping_mul(2_654_435_761).rotate_left(13).wrapping_mul(2_246_822_519);
    (mixed >> 8) as f32 / (1u32 << 24) as f32
}
