//! A pressure gauge: a plain round dial.

use egui::{Align2, Color32, FontId, Pos2, Sense, Stroke, Ui, Vec2, WidgetInfo, WidgetType, vec2};
use media::units::{pa_from_psi, psi_from_pa};
use visit::Port;

use crate::palette;
use words::{Units, Words};

/// What is printed on a dial.
pub struct Face {
    /// Port that it reads.
    pub port: Port,
    /// Key of the letter on the dial.
    letter: &'static str,
    /// Numbers in trade words, psig.
    marks_psig: &'static [f64],
    /// Numbers in SI, kPa gauge.
    marks_kpa: &'static [f64],
    /// End of the scale, Pa gauge.
    end_pa: f64,
}

/// Low side.
pub static SUCTION: Face = Face {
    port: Port::Suction,
    letter: "screen-drawn-suction-letter",
    marks_psig: &[0.0, 100.0, 200.0, 300.0],
    marks_kpa: &[0.0, 800.0, 1600.0, 2400.0],
    end_pa: 2.415e6,
};
/// High side.
pub static LIQUID: Face = Face {
    port: Port::Liquid,
    letter: "screen-drawn-liquid-letter",
    marks_psig: &[0.0, 200.0, 400.0, 600.0],
    marks_kpa: &[0.0, 1500.0, 3000.0, 4500.0],
    end_pa: 4.83e6,
};

/// Ticks from one number to the next.
const TICKS_A_MARK: f64 = 5.0;
/// A full vacuum is this share of the scale below zero.
const VACUUM_SHARE: f64 = 0.08;
const ATMOSPHERE_PA: f64 = media::units::STANDARD_ATMOSPHERE_PA;

/// Draws a dial; without a value the needle rests and the glass is grey.
pub fn show(ui: &mut Ui, face: &Face, gauge_pressure_pa: Option<f64>, words: Words) {
    let (rect, response) = ui.allocate_exact_size(Vec2::splat(128.0), Sense::hover());
    let spoken = match gauge_pressure_pa {
        Some(value_pa) => {
            let pressure = words.units.gauge_pressure(value_pa);
            words.fill("screen-gauge-spoken", &[("port", words.heading(&face.port)), ("pressure", pressure)])
        }
        None => words.fill("screen-gauge-spoken-off", &[("port", words.heading(&face.port))]),
    };
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Image, true, spoken.clone()));
    let painter = ui.painter_at(rect);
    let (centre, radius) = (rect.center(), 62.0);
    let glass = if gauge_pressure_pa.is_some() { Color32::WHITE } else { palette::PAPER };
    painter.circle(centre, radius, palette::METAL, Stroke::new(1.5, palette::INK));
    painter.circle(centre, radius - 5.0, glass, Stroke::new(1.0, palette::PENCIL));

    let marks: Vec<f64> = match words.units {
        Units::Ip => face.marks_psig.iter().map(|&mark| pa_from_psi(mark)).collect(),
        Units::Si => face.marks_kpa.iter().map(|&mark| mark * 1000.0).collect(),
    };
    let step_pa = marks[1] - marks[0];
    let mut tick_pa = 0.0;
    while tick_pa <= face.end_pa * 1.001 {
        line(&painter, centre, share(face, tick_pa), radius - 10.0, radius - 7.0, 1.0);
        tick_pa += step_pa / TICKS_A_MARK;
    }
    for mark_pa in marks {
        let angle_share = share(face, mark_pa);
        line(&painter, centre, angle_share, radius - 13.0, radius - 7.0, 1.8);
        let number = match words.units {
            Units::Ip => psi_from_pa(mark_pa),
            Units::Si => mark_pa / 1000.0,
        };
        let at = centre + direction(angle_share) * (radius - 23.0);
        painter.text(at, Align2::CENTER_CENTER, format!("{number:.0}"), number_font(), palette::INK);
    }
    painter.text(
        centre + vec2(0.0, 25.0),
        Align2::CENTER_CENTER,
        words.units.pressure_unit(),
        number_font(),
        palette::PENCIL,
    );
    painter.text(
        centre + vec2(0.0, 45.0),
        Align2::CENTER_CENTER,
        words.label(face.letter),
        FontId::proportional(15.0),
        palette::INK,
    );
    needle(&painter, centre, share(face, gauge_pressure_pa.unwrap_or(0.0)), radius);
}

fn number_font() -> FontId {
    FontId::proportional(palette::SMALL_PX)
}

/// Share of the scale, a little below zero for a vacuum, held at the stops.
fn share(face: &Face, gauge_pressure_pa: f64) -> f64 {
    if gauge_pressure_pa < 0.0 {
        (gauge_pressure_pa / ATMOSPHERE_PA * VACUUM_SHARE).max(-VACUUM_SHARE)
    } else {
        (gauge_pressure_pa / face.end_pa).min(1.03)
    }
}

/// Direction of a share of the scale: from lower left over the top to lower right.
fn direction(share: f64) -> Vec2 {
    let angle = (135.0 + 270.0 * share as f32).to_radians();
    vec2(angle.cos(), angle.sin())
}

fn line(painter: &egui::Painter, centre: Pos2, share: f64, from: f32, to: f32, width: f32) {
    let along = direction(share);
    painter.line_segment([centre + along * from, centre + along * to], Stroke::new(width, palette::INK));
}

fn needle(painter: &egui::Painter, centre: Pos2, share: f64, radius: f32) {
    let along = direction(share);
    let side = along.rot90() * 2.6;
    painter.add(egui::Shape::convex_polygon(
        vec![centre + along * (radius - 14.0), centre + side, centre - along * 12.0, centre - side],
        palette::BRICK,
        Stroke::NONE,
    ));
    painter.circle(centre, 4.5, palette::INK, Stroke::NONE);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_needle_rises_with_pressure_and_stays_between_its_stops() {
        for face in [&SUCTION, &LIQUID] {
            let shares: Vec<f64> =
                [-2.0e5, -1.0e5, 0.0, 5.0e5, 1.0e6, 2.0e6, 9.0e6].map(|value| share(face, value)).to_vec();
            assert!(shares.windows(2).all(|pair| pair[0] <= pair[1]), "{shares:?}");
            assert!(shares[0] >= -VACUUM_SHARE && shares[6] <= 1.03);
            let last_mark_pa = pa_from_psi(*face.marks_psig.last().expect("a scale has marks"));
            assert!(share(face, last_mark_pa) <= 1.0, "the last number stands past the end of the scale");
        }
    }
}
