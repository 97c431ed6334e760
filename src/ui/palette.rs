//! Colours and text sizes: ink on warm paper, as on a drawing board. Meaning is never carried by colour alone.

use std::sync::Arc;

use egui::{
    Color32, CornerRadius, FontData, FontDefinitions, FontFamily, FontId, Margin, RichText, Stroke,
    TextStyle, Visuals, vec2,
};

/// Paper of the drawing and the screen.
pub const PAPER: Color32 = Color32::from_rgb(0xf7, 0xf3, 0xe9);
/// Paper of panels, one shade lighter.
pub const SHEET: Color32 = Color32::from_rgb(0xfd, 0xfb, 0xf5);
/// Fields and buttons at rest.
pub const FIELD: Color32 = Color32::from_rgb(0xec, 0xe5, 0xd5);
/// Fields under the pointer.
pub const FIELD_HOVERED: Color32 = Color32::from_rgb(0xe0, 0xd7, 0xc1);
/// Text and outlines.
pub const INK: Color32 = Color32::from_rgb(0x1d, 0x2b, 0x36);
/// Second-rank text; still 5:1 on paper.
pub const PENCIL: Color32 = Color32::from_rgb(0x52, 0x5f, 0x69);
/// Rules between parts.
pub const RULE: Color32 = Color32::from_rgb(0xcb, 0xc1, 0xad);
/// Edges of buttons and check boxes.
pub const EDGE: Color32 = Color32::from_rgb(0x8f, 0x88, 0x78);
/// What is chosen, what has the keyboard.
pub const ACCENT: Color32 = Color32::from_rgb(0x12, 0x5e, 0x63);
/// The same, darker: under the pointer.
pub const ACCENT_DARK: Color32 = Color32::from_rgb(0x0b, 0x45, 0x49);
/// Ground of what is chosen.
pub const ACCENT_WASH: Color32 = Color32::from_rgb(0xcf, 0xe3, 0xe0);
/// Cautions and refusals (with a word and a shape).
pub const BRICK: Color32 = Color32::from_rgb(0x9a, 0x34, 0x1a);
/// Ground of cautions.
pub const BRICK_WASH: Color32 = Color32::from_rgb(0xf9, 0xe4, 0xd6);
/// Marks earned (with a number).
pub const MOSS: Color32 = Color32::from_rgb(0x3d, 0x6b, 0x35);
/// Metal of cabinets.
pub const METAL: Color32 = Color32::from_rgb(0xd9, 0xdb, 0xd8);
/// Metal in shade.
pub const METAL_DARK: Color32 = Color32::from_rgb(0xa9, 0xae, 0xad);
/// Copper.
pub const COPPER: Color32 = Color32::from_rgb(0xb8, 0x73, 0x3a);
/// Ice and frost.
pub const ICE: Color32 = Color32::from_rgb(0xf4, 0xfb, 0xff);
/// Edge of ice.
pub const ICE_EDGE: Color32 = Color32::from_rgb(0x5f, 0x95, 0xb5);

/// Smallest text on screen, px.
pub const SMALL_PX: f32 = 13.0;
/// Running text, px.
pub const BODY_PX: f32 = 14.5;

/// Font of running text.
pub fn body() -> FontId {
    FontId::new(BODY_PX, FontFamily::Proportional)
}

/// Font of the smallest text.
pub fn small() -> FontId {
    FontId::new(SMALL_PX, FontFamily::Proportional)
}

fn bold_family() -> FontFamily {
    FontFamily::Name("bold".into())
}

/// Bold text.
pub fn bold(text: impl Into<String>) -> RichText {
    RichText::new(text).family(bold_family())
}

/// Colour of a temperature: blue below freezing, over grey at room temperature, to red.
pub fn of_temperature(temperature_k: f64) -> Color32 {
    const STOPS: [(f64, [f64; 3]); 6] = [
        (-10.0, [45.0, 75.0, 160.0]),
        (4.0, [40.0, 120.0, 190.0]),
        (16.0, [95.0, 160.0, 180.0]),
        (25.0, [135.0, 140.0, 130.0]),
        (40.0, [205.0, 125.0, 55.0]),
        (65.0, [175.0, 50.0, 35.0]),
    ];
    let celsius = temperature_k - 273.15;
    if !celsius.is_finite() {
        return PENCIL;
    }
    let mut colour = STOPS[0].1;
    for pair in STOPS.windows(2) {
        let (low_c, low) = pair[0];
        let (high_c, high) = pair[1];
        let share = ((celsius - low_c) / (high_c - low_c)).clamp(0.0, 1.0);
        if share > 0.0 {
            colour = [0, 1, 2].map(|i| low[i] + share * (high[i] - low[i]));
        }
    }
    let [red, green, blue] = colour.map(|part| part.round() as u8);
    Color32::from_rgb(red, green, blue)
}

/// Whether [`apply`] has come into force; text cannot be laid out in our fonts before.
pub fn is_applied(ctx: &egui::Context) -> bool {
    ctx.fonts(|fonts| fonts.definitions().families.contains_key(&bold_family()))
}

/// Sets fonts, text sizes, spacing and colours of the whole screen, from the next frame on.
pub fn apply(ctx: &egui::Context) {
    ctx.set_fonts(fonts());
    ctx.set_theme(egui::Theme::Light);
    ctx.all_styles_mut(|style| {
        style.text_styles = [
            (TextStyle::Heading, FontId::new(21.0, FontFamily::Proportional)),
            (TextStyle::Body, body()),
            (TextStyle::Button, body()),
            (TextStyle::Small, small()),
            (TextStyle::Monospace, FontId::new(13.5, FontFamily::Monospace)),
        ]
        .into();
        style.spacing.item_spacing = vec2(8.0, 6.0);
        style.spacing.button_padding = vec2(9.0, 4.0);
        style.spacing.interact_size.y = 24.0;
        style.spacing.scroll = egui::style::ScrollStyle::thin();
        style.spacing.scroll.fade.strength = 0.0;
        style.spacing.window_margin = Margin::same(16);
        style.interaction.selectable_labels = false;
        style.interaction.tooltip_delay = 0.4;
        style.visuals = visuals();
    });
}

fn fonts() -> FontDefinitions {
    let mut fonts = FontDefinitions::default();
    let regular = FontData::from_static(include_bytes!("../../assets/fonts/clear-sans-regular.ttf"));
    let bold = FontData::from_static(include_bytes!("../../assets/fonts/clear-sans-bold.ttf"));
    fonts.font_data.insert("clear-sans".to_owned(), Arc::new(regular));
    fonts.font_data.insert("clear-sans-bold".to_owned(), Arc::new(bold));
    // Behind ours stay the fonts that come with egui, for signs that ours lacks.
    let mut family = fonts.families.get(&FontFamily::Proportional).cloned().unwrap_or_default();
    family.insert(0, "clear-sans".to_owned());
    fonts.families.insert(FontFamily::Proportional, family.clone());
    family.insert(0, "clear-sans-bold".to_owned());
    fonts.families.insert(bold_family(), family);
    fonts
}

fn visuals() -> Visuals {
    let mut visuals = Visuals::light();
    let radius = CornerRadius::same(3);
    visuals.panel_fill = SHEET;
    visuals.window_fill = SHEET;
    visuals.window_stroke = Stroke::new(1.5, INK);
    visuals.window_corner_radius = CornerRadius::same(4);
    visuals.extreme_bg_color = Color32::WHITE;
    visuals.faint_bg_color = PAPER;
    visuals.weak_text_color = Some(PENCIL);
    visuals.warn_fg_color = BRICK;
    visuals.error_fg_color = BRICK;
    visuals.hyperlink_color = ACCENT;
    visuals.disabled_alpha = 0.65;
    visuals.selection.bg_fill = ACCENT_WASH;
    visuals.selection.stroke = Stroke::new(1.5, ACCENT);
    visuals.slider_trailing_fill = true;

    let widgets = &mut visuals.widgets;
    widgets.noninteractive.bg_fill = SHEET;
    widgets.noninteractive.weak_bg_fill = SHEET;
    widgets.noninteractive.bg_stroke = Stroke::new(1.0, RULE);
    widgets.noninteractive.fg_stroke = Stroke::new(1.0, INK);
    widgets.inactive.bg_fill = FIELD;
    widgets.inactive.weak_bg_fill = FIELD;
    widgets.inactive.bg_stroke = Stroke::new(1.0, EDGE);
    widgets.inactive.fg_stroke = Stroke::new(1.0, INK);
    widgets.hovered.bg_fill = FIELD_HOVERED;
    widgets.hovered.weak_bg_fill = FIELD_HOVERED;
    widgets.hovered.bg_stroke = Stroke::new(1.5, INK);
    widgets.hovered.fg_stroke = Stroke::new(1.5, INK);
    // "Active" is also how a widget with the keyboard looks: it must stand out.
    widgets.active.bg_fill = ACCENT_WASH;
    widgets.active.weak_bg_fill = ACCENT_WASH;
    widgets.active.bg_stroke = Stroke::new(2.5, ACCENT);
    widgets.active.fg_stroke = Stroke::new(2.0, INK);
    widgets.open.bg_fill = FIELD_HOVERED;
    widgets.open.weak_bg_fill = FIELD_HOVERED;
    widgets.open.bg_stroke = Stroke::new(1.5, INK);
    widgets.open.fg_stroke = Stroke::new(1.0, INK);
    for widget in [
        &mut widgets.noninteractive,
        &mut widgets.inactive,
        &mut widgets.hovered,
        &mut widgets.active,
        &mut widgets.open,
    ] {
        widget.corner_radius = radius;
        widget.expansion = 0.0;
    }
    visuals
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Relative luminance and contrast after WCAG 2.1, "relative luminance" and "contrast ratio".
    fn contrast(one: Color32, other: Color32) -> f64 {
        let luminance = |colour: Color32| {
            let part = |byte: u8| {
                let share = f64::from(byte) / 255.0;
                if share <= 0.03928 { share / 12.92 } else { libm::pow((share + 0.055) / 1.055, 2.4) }
            };
            0.2126 * part(colour.r()) + 0.7152 * part(colour.g()) + 0.0722 * part(colour.b())
        };
        let (a, b) = (luminance(one), luminance(other));
        (a.max(b) + 0.05) / (a.min(b) + 0.05)
    }

    #[test]
    fn text_stands_out_from_its_ground() {
        // WCAG 2.1, 1.4.3: 4.5 for running text.
        for ground in [PAPER, SHEET, FIELD, FIELD_HOVERED, ACCENT_WASH, BRICK_WASH] {
            assert!(contrast(INK, ground) > 7.0);
            assert!(contrast(PENCIL, ground) > 4.5, "{ground:?}: {}", contrast(PENCIL, ground));
            assert!(contrast(BRICK, ground) > 4.5, "{ground:?}");
            assert!(contrast(ACCENT, ground) > 4.5, "{ground:?}");
        }
    }

    #[test]
    fn colours_of_temperature_run_from_blue_to_red() {
        let cold = of_temperature(268.0);
        let hot = of_temperature(335.0);
        assert!(cold.b() > cold.r());
        assert!(hot.r() > hot.b());
        assert_eq!(of_temperature(f64::NAN), PENCIL);
    }
}
