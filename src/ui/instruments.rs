//! The strip of instruments under the drawing: two dials, and the displays of clamps and air probes.

use egui::{Frame, Grid, Margin, Response, RichText, Ui, vec2};
use media::refrigerant::Refrigerant;
use visit::{Measured, Port, Trust};

use crate::dial::{self, Face};
use crate::parts::{heading, small, strong};
use crate::view::View;
use crate::{palette, wording};
use words::Words;

/// The strip.
pub fn strip(ui: &mut Ui, view: &View<'_>) {
    let frame = Frame::NONE.fill(palette::SHEET).inner_margin(Margin::symmetric(10, 6));
    egui::Panel::bottom("instruments").frame(frame).resizable(false).exact_size(158.0).show(ui, |ui| {
        ui.horizontal_top(|ui| {
            for (port, face) in [(Port::Suction, &dial::SUCTION), (Port::Liquid, &dial::LIQUID)] {
                gauge(ui, view.words, view, port, face);
            }
            ui.separator();
            ui.vertical(|ui| displays(ui, view.words, view));
        });
    });
}

fn gauge(ui: &mut Ui, words: Words, view: &View<'_>, port: Port, face: &Face) {
    let shown = view.live.iter().find(|one| one.quantity == Measured::GaugePressure(port));
    let value_pa = shown.map(|one| one.value);
    ui.allocate_ui(vec2(228.0, 146.0), |ui| {
        ui.horizontal_top(|ui| {
            dial::show(ui, face, value_pa, words);
            ui.vertical(|ui| {
                ui.set_width(96.0);
                strong(ui, words.heading(&port));
                match shown {
                    None => {
                        small(ui, words.label("screen-gauge-off"));
                    }
                    Some(one) => {
                        ui.label(palette::bold(words.value(one.quantity, one.value)));
                        let boiling_k = saturation_k(view.refrigerant, port, one.value + view.atmosphere_pa);
                        let boiling = match boiling_k {
                            Some(boiling_k) => words.units.temperature(boiling_k),
                            None => words.label("screen-not-known"),
                        };
                        let boiling = match port {
                            Port::Suction => words.fill("screen-gauge-dew", &[("temperature", boiling)]),
                            Port::Liquid => words.fill("screen-gauge-bubble", &[("temperature", boiling)]),
                        };
                        small(ui, boiling);
                        if let Some(doubt) = report::doubt_then(one.trust, words) {
                            doubted(ui, one.trust, words).on_hover_text(doubt);
                        }
                    }
                }
            });
        });
    });
}

/// The temperature printed beside the pressure on a gauge face: dew point low side, bubble point high side, K.
fn saturation_k(refrigerant: &Refrigerant, port: Port, pressure_pa: f64) -> Option<f64> {
    let (low_pa, high_pa) = refrigerant.pressure_range_pa();
    (low_pa..=high_pa).contains(&pressure_pa).then(|| match port {
        Port::Suction => refrigerant.dew_k(pressure_pa),
        Port::Liquid => refrigerant.bubble_k(pressure_pa),
    })
}

fn displays(ui: &mut Ui, words: Words, view: &View<'_>) {
    let others: Vec<_> =
        view.live.iter().filter(|one| !matches!(one.quantity, Measured::GaugePressure(_))).collect();
    if others.is_empty() {
        heading(ui, &words.label("screen-instruments"));
        small(ui, words.label("screen-instruments-none"));
        return;
    }
    egui::ScrollArea::vertical().auto_shrink(false).show(ui, |ui| {
        // Low rows: everything in the bag must fit.
        ui.spacing_mut().interact_size.y = 16.0;
        Grid::new("displays").num_columns(3).spacing(vec2(12.0, 0.0)).show(ui, |ui| {
            for one in others {
                ui.label(RichText::new(wording::display(one.quantity, words)).size(palette::SMALL_PX))
                    .on_hover_text(words.heading(&one.quantity));
                ui.label(palette::bold(words.value(one.quantity, one.value)));
                match report::doubt_then(one.trust, words) {
                    Some(doubt) => {
                        doubted(ui, one.trust, words).on_hover_text(doubt);
                    }
                    None => {
                        small(ui, words.label("screen-instruments-settled"));
                    }
                }
                ui.end_row();
            }
        });
    });
}

/// Why a value in doubt is, in a word.
fn doubted(ui: &mut Ui, trust: Trust, words: Words) -> Response {
    let text = words.fill("screen-doubt", &[("doubt", wording::doubt_in_a_word(trust, words))]);
    ui.label(RichText::new(text).size(palette::SMALL_PX).color(palette::BRICK))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_gauge_face_reads_the_published_saturation_temperature() {
        // R-410A dew point: 118.36 psig at 40 °F (14.696 psi atmosphere). Source: CoolProp 8.0.0.
        let pressure_pa = media::units::pa_from_psig(118.36, media::units::STANDARD_ATMOSPHERE_PA);
        let dew_k = saturation_k(Refrigerant::r410a(), Port::Suction, pressure_pa).expect("inside the table");
        assert!((media::units::fahrenheit_from_kelvin(dew_k) - 40.0).abs() < 0.05);
    }
}
