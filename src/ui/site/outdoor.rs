//! Outdoor unit and disconnect.

use egui::{Align2, Color32, Stroke, vec2};
use plant::Switch;
use visit::Panel;

use super::house::GROUND;
use super::labels::{Labels, Motion};
use super::pen::{Pen, turned};
use crate::palette;
use crate::view::{SiteLook, is_running};
use words::Words;

/// The outdoor unit on its pad: cabinet, coil louvres, fan, compressor inside, electrical panel.
pub fn unit(pen: &Pen, look: &SiteLook, labels: &Labels<'_>, motion: Motion) {
    let line = pen.ink(1.5);
    pen.block((796.0, 504.0), (960.0, GROUND + 3.0), Color32::from_rgb(0xcd, 0xc9, 0xc0), line);
    // Cabinet, cut open: the coil stands along the walls.
    pen.block((810.0, 384.0), (946.0, 504.0), Color32::from_rgb(0xee, 0xf0, 0xed), line);
    for (x0, x1) in [(810.0, 826.0), (930.0, 946.0)] {
        pen.block((x0, 392.0), (x1, 498.0), palette::METAL, pen.ink(1.0));
        for louvre in 0..13 {
            let y = 398.0 + louvre as f32 * 7.8;
            pen.line((x0 + 1.5, y), (x1 - 1.5, y), Stroke::new(1.0, palette::METAL_DARK));
        }
    }
    fan(pen, look.outdoor_fan_speed, motion);
    compressor(pen, look.compressor_speed, labels.words, motion);
    electrical(pen, look);
}

/// Fan under the top grille, seen from the side: blades widen and narrow as they pass.
fn fan(pen: &Pen, speed: f64, motion: Motion) {
    let angle = turned(motion.moved_s, speed * 0.8);
    let hub = (878.0, 396.0);
    pen.line((hub.0, hub.1), (hub.0, 414.0), pen.ink(2.0));
    pen.block((868.0, 404.0), (888.0, 422.0), palette::METAL_DARK, pen.ink(1.0));
    for blade in 0..3 {
        let around = angle + blade as f32 * std::f32::consts::TAU / 3.0;
        let reach = 42.0 * around.cos();
        let lift = 5.0 * around.sin();
        pen.polygon(
            &[
                (hub.0, hub.1 - 3.0),
                (hub.0 + reach, hub.1 - 4.0 + lift),
                (hub.0 + reach * 0.96, hub.1 + 3.0 + lift),
                (hub.0, hub.1 + 3.0),
            ],
            palette::METAL,
            pen.ink(1.1),
        );
    }
    pen.disc(hub, 5.0, palette::METAL_DARK, pen.ink(1.1));
    // Grille.
    pen.block((820.0, 378.0), (936.0, 385.0), palette::METAL, pen.ink(1.2));
    for bar in 0..14 {
        let x = 826.0 + bar as f32 * 8.0;
        pen.line((x, 379.0), (x, 384.0), Stroke::new(1.0, palette::INK));
    }
    if is_running(speed) {
        for (index, x) in [846.0_f32, 878.0, 910.0].into_iter().enumerate() {
            let drift = ((motion.moved_s * 0.9 + index as f64 * 0.37).fract() * 10.0) as f32;
            pen.arrow((x, 372.0 - drift), vec2(0.0, -18.0), palette::PENCIL, 1.6);
        }
    }
}

/// The compressor is behind sheet metal; it is heard.
fn compressor(pen: &Pen, speed: f64, words: Words, motion: Motion) {
    let shake = if is_running(speed) { ((motion.moved_s * 40.0) as f32).sin() * 0.7 } else { 0.0 };
    let (x0, x1) = (850.0 + shake, 894.0 + shake);
    let dark = Color32::from_rgb(0x4c, 0x56, 0x5c);
    pen.painter().rect(
        egui::Rect::from_min_max(pen.at(x0, 432.0), pen.at(x1, 500.0)),
        pen.length(14.0),
        dark,
        pen.ink(1.3),
        egui::StrokeKind::Middle,
    );
    pen.line((x0, 448.0), (x1, 448.0), Stroke::new(1.0, palette::METAL_DARK));
    let state =
        if is_running(speed) { "screen-drawn-compressor-runs" } else { "screen-drawn-compressor-off" };
    pen.text((872.0, 470.0), Align2::CENTER_CENTER, &words.label(state), Color32::WHITE);
    if is_running(speed) {
        for reach in [6.0, 12.0] {
            for (x, sign) in [(894.0, 1.0_f32), (850.0, -1.0)] {
                let points: Vec<(f32, f32)> = (-3..=3)
                    .map(|step| {
                        let angle = step as f32 * 0.22;
                        (x + sign * (reach * angle.cos()), 466.0 + reach * 2.0 * angle.sin())
                    })
                    .collect();
                pen.path(&points, Stroke::new(1.2, palette::PENCIL));
            }
        }
    }
}

fn electrical(pen: &Pen, look: &SiteLook) {
    let (min, max) = ((904.0, 440.0), (928.0, 492.0));
    if look.is_open(Panel::OutdoorElectrical) {
        pen.block(min, max, Color32::WHITE, pen.ink(1.2));
        pen.block((908.0, 446.0), (924.0, 466.0), dark_plastic(), pen.ink(0.9));
        for x in [911.5, 920.5] {
            pen.disc((x, 449.5), 1.8, palette::COPPER, Stroke::NONE);
            pen.disc((x, 462.5), 1.8, palette::COPPER, Stroke::NONE);
        }
        pen.disc((916.0, 479.0), 7.5, palette::METAL, pen.ink(0.9));
    } else {
        pen.block(min, max, palette::METAL, pen.ink(1.0));
        pen.disc((916.0, 446.0), 1.8, palette::METAL_DARK, Stroke::new(0.8, palette::PENCIL));
        pen.disc((916.0, 486.0), 1.8, palette::METAL_DARK, Stroke::new(0.8, palette::PENCIL));
        pen.path(&[(917.0, 456.0), (913.0, 466.0), (919.0, 466.0), (915.0, 476.0)], pen.ink(1.2));
    }
}

fn dark_plastic() -> Color32 {
    Color32::from_rgb(0x3a, 0x42, 0x47)
}

/// Disconnect on the outer wall: seated, or pulled and hung out.
pub fn disconnect(pen: &Pen, look: &SiteLook, labels: &Labels<'_>) {
    // Conduit to the unit.
    pen.path(&[(705.0, 296.0), (705.0, 322.0)], Stroke::new(pen.length(4.0), palette::METAL_DARK));
    pen.dashes(
        &[(705.0, 322.0), (784.0, 322.0), (784.0, 396.0), (810.0, 396.0)],
        Stroke::new(1.6, palette::PENCIL),
    );
    pen.block((690.0, 240.0), (720.0, 296.0), palette::METAL, pen.ink(1.4));
    match look.outdoor_disconnect {
        Switch::Closed => {
            pen.block((696.0, 254.0), (714.0, 278.0), dark_plastic(), pen.ink(1.0));
            pen.block((700.0, 262.0), (710.0, 270.0), palette::METAL, pen.ink(0.9));
            let text = labels.words.label("screen-drawn-disconnect-in");
            pen.note((732.0, 272.0), Align2::LEFT_CENTER, &text, palette::INK);
        }
        Switch::Open => {
            pen.block((696.0, 254.0), (714.0, 278.0), Color32::WHITE, pen.ink(1.0));
            for x in [701.0, 709.0] {
                pen.line((x, 258.0), (x, 274.0), pen.ink(1.6));
            }
            pen.block((724.0, 284.0), (742.0, 306.0), dark_plastic(), pen.ink(1.0));
            pen.line((720.0, 290.0), (724.0, 292.0), pen.ink(1.0));
            let text = labels.words.label("screen-drawn-disconnect-out");
            pen.note((732.0, 272.0), Align2::LEFT_CENTER, &text, palette::BRICK);
        }
    }
}
