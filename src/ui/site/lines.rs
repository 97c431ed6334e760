//! Line set between the words, drier, service ports and the gauges that hang on them.

use egui::{Align2, Color32, Stroke};
use visit::{Gauges, Measured, PipePoint, Port};

use super::labels::Labels;
use super::pen::{Pen, scatter};
use crate::palette;
use crate::view::{SiteLook, View};

/// Way of the suction line from coil to outdoor unit.
const SUCTION: [(f32, f32); 5] =
    [(624.0, 344.0), (716.0, 344.0), (716.0, 430.0), (716.0, 440.0), (806.0, 440.0)];
/// Way of the liquid line from outdoor unit to metering device.
const LIQUID: [(f32, f32); 4] = [(806.0, 474.0), (700.0, 474.0), (700.0, 388.0), (624.0, 388.0)];
const DRIER_X: (f32, f32) = (734.0, 772.0);

/// Both lines with drier, frost and what they feel like.
pub fn line_set(pen: &Pen, look: &SiteLook, labels: &Labels<'_>) {
    liquid_line(pen, look);
    suction_line(pen, look);
    drier(pen);
    valves(pen);
    notes(pen, look, labels);
}

fn suction_line(pen: &Pen, look: &SiteLook) {
    let path = [SUCTION[0], SUCTION[1], SUCTION[3], SUCTION[4]];
    let colour = palette::of_temperature(look.suction_line_k);
    // Insulation around copper.
    pen.path(&path, Stroke::new(pen.length(15.0), palette::INK));
    pen.path(&path, Stroke::new(pen.length(12.5), Color32::from_rgb(0x5a, 0x62, 0x66)));
    pen.path(&path, Stroke::new(pen.length(6.5), colour));
    // Bare copper at the valve.
    pen.path(&[(776.0, 440.0), (806.0, 440.0)], Stroke::new(pen.length(15.5), palette::PAPER));
    pen.path(&[(776.0, 440.0), (806.0, 440.0)], Stroke::new(pen.length(9.0), palette::INK));
    pen.path(&[(776.0, 440.0), (806.0, 440.0)], Stroke::new(pen.length(6.5), colour));
    if look.suction_line_k < 273.15 {
        frost(pen, look.suction_line_k);
    }
}

/// Frost where the line is bare, and out of the joints of the insulation; more of it the colder the line.
fn frost(pen: &Pen, line_k: f64) {
    let below_k = (273.15 - line_k).clamp(0.5, 15.0) as f32;
    let lumps = (10.0 + below_k * 1.6) as u32;
    let ice: Vec<((f32, f32), f32)> = (0..lumps)
        .map(|lump| {
            let x = 774.0 + 30.0 * scatter(lump);
            let y = 440.0 + 10.0 * (scatter(lump + 90) - 0.5);
            ((x, y), 2.4 + 3.0 * scatter(lump + 180) + below_k * 0.12)
        })
        .collect();
    pen.cloud(&ice, palette::ICE, palette::ICE_EDGE);
    for (index, at) in
        [(780.0, 428.0), (793.0, 452.0), (803.0, 427.0), (716.0, 400.0), (690.0, 344.0), (650.0, 344.0)]
            .into_iter()
            .enumerate()
    {
        pen.crystal(at, 5.5, scatter(index as u32) * 2.0);
    }
}

fn liquid_line(pen: &Pen, look: &SiteLook) {
    let after = palette::of_temperature(look.liquid_after_drier_k);
    let before = palette::of_temperature(look.liquid_before_drier_k);
    pen.path(&LIQUID, Stroke::new(pen.length(7.0), palette::INK));
    pen.path(&LIQUID, Stroke::new(pen.length(4.5), after));
    pen.path(&[LIQUID[0], (DRIER_X.1, LIQUID[0].1)], Stroke::new(pen.length(4.5), before));
}

fn drier(pen: &Pen) {
    let y = LIQUID[0].1;
    pen.polygon(
        &[
            (DRIER_X.0 - 3.0, y - 3.0),
            (DRIER_X.0 + 5.0, y - 9.0),
            (DRIER_X.1 - 5.0, y - 9.0),
            (DRIER_X.1 + 3.0, y - 3.0),
            (DRIER_X.1 + 3.0, y + 3.0),
            (DRIER_X.1 - 5.0, y + 9.0),
            (DRIER_X.0 + 5.0, y + 9.0),
            (DRIER_X.0 - 3.0, y + 3.0),
        ],
        palette::METAL,
        pen.ink(1.2),
    );
    // Flow mark on the shell: from the outdoor unit to the house.
    pen.arrow((764.0, y), egui::vec2(-22.0, 0.0), palette::INK, 1.4);
}

fn valves(pen: &Pen) {
    for y in [440.0, 474.0] {
        pen.block((796.0, y - 7.0), (810.0, y + 7.0), palette::METAL_DARK, pen.ink(1.1));
        pen.block((799.0, y - 13.0), (805.0, y - 7.0), Color32::from_rgb(0xd9, 0xb7, 0x63), pen.ink(0.9));
    }
}

/// Key to the lines, under the ground: as thick as in the drawing, with what each feels like or what a clamp shows.
fn notes(pen: &Pen, look: &SiteLook, labels: &Labels<'_>) {
    let ink = Stroke::new(pen.length(15.0), palette::INK);
    let mantle = Stroke::new(pen.length(12.5), Color32::from_rgb(0x5a, 0x62, 0x66));
    let (first, second) = (546.0, 574.0);
    for stroke in [ink, mantle] {
        pen.line((510.0, first), (544.0, first), stroke);
    }
    let colour = palette::of_temperature(look.suction_line_k);
    pen.line((510.0, first), (544.0, first), Stroke::new(pen.length(6.5), colour));
    let suction = labels.pipe(PipePoint::SuctionAtServiceValve, look.suction_line_k);
    let text = if look.has_frosted_suction_line() {
        labels.words.fill("screen-drawn-suction-line-frosted", &[("suction", suction)])
    } else {
        labels.words.fill("screen-drawn-suction-line", &[("suction", suction)])
    };
    pen.text((556.0, first), Align2::LEFT_CENTER, &text, palette::INK);

    pen.line((510.0, second), (544.0, second), Stroke::new(pen.length(7.0), palette::INK));
    let before_colour = palette::of_temperature(look.liquid_before_drier_k);
    let after_colour = palette::of_temperature(look.liquid_after_drier_k);
    pen.line((510.0, second), (527.0, second), Stroke::new(pen.length(4.5), after_colour));
    pen.line((527.0, second), (544.0, second), Stroke::new(pen.length(4.5), before_colour));
    let after = labels.pipe(PipePoint::LiquidAfterDrier, look.liquid_after_drier_k);
    let before = labels.pipe(PipePoint::LiquidBeforeDrier, look.liquid_before_drier_k);
    let text = labels.words.fill("screen-drawn-liquid-line", &[("before", before), ("after", after)]);
    pen.text((556.0, second), Align2::LEFT_CENTER, &text, palette::INK);
}

/// Hoses and the two dials of the manifold, when connected.
pub fn gauges(pen: &Pen, view: &View<'_>, labels: &Labels<'_>) {
    if view.site.gauges == Gauges::Off {
        return;
    }
    let hose = |points: &[(f32, f32)], colour: Color32| {
        pen.path(points, Stroke::new(pen.length(5.0), palette::INK));
        pen.path(points, Stroke::new(pen.length(3.0), colour));
    };
    let low_hose = Color32::from_rgb(0x3f, 0x7c, 0x8a);
    let high_hose = Color32::from_rgb(0xb0, 0x6a, 0x3c);
    hose(&[(802.0, 427.0), (798.0, 404.0), (786.0, 372.0), (784.0, 346.0)], low_hose);
    hose(&[(802.0, 461.0), (818.0, 454.0), (820.0, 396.0), (820.0, 346.0)], high_hose);
    pen.block((766.0, 333.0), (838.0, 351.0), palette::METAL_DARK, pen.ink(1.2));
    let words = labels.words;
    for (x, port, letter, top_pa) in [
        (784.0, Port::Suction, "screen-drawn-suction-letter", 2.4e6),
        (820.0, Port::Liquid, "screen-drawn-liquid-letter", 4.8e6),
    ] {
        pen.disc((x, 317.0), 17.0, Color32::WHITE, pen.ink(1.4));
        let value = view.live_value(Measured::GaugePressure(port)).unwrap_or(0.0);
        let share = (value / top_pa).clamp(0.0, 1.0) as f32;
        let angle = (135.0 + 270.0 * share).to_radians();
        pen.line((x, 317.0), (x + 13.0 * angle.cos(), 317.0 + 13.0 * angle.sin()), pen.ink(1.6));
        pen.disc((x, 317.0), 2.0, palette::INK, Stroke::NONE);
        pen.text((x, 342.0), Align2::CENTER_CENTER, &words.label(letter), palette::INK);
    }
    let shown = |port| labels.displayed(Measured::GaugePressure(port));
    if let (Some(suction), Some(liquid)) = (shown(Port::Suction), shown(Port::Liquid)) {
        let suction = words.fill("screen-drawn-suction-gauge", &[("pressure", suction)]);
        pen.note((846.0, 306.0), Align2::LEFT_CENTER, &suction, palette::INK);
        let liquid = words.fill("screen-drawn-liquid-gauge", &[("pressure", liquid)]);
        pen.note((846.0, 328.0), Align2::LEFT_CENTER, &liquid, palette::INK);
    }
}
