//! Sheet, sky, ground and the house cut open.

use egui::{Align2, Color32, Rect, Stroke, vec2};
use plant::Mode;

use super::labels::Labels;
use super::pen::{Pen, scatter};
use crate::palette;
use crate::view::SiteLook;
use words::Words;

/// Height of the ground in world units.
pub const GROUND: f32 = 512.0;
const PLASTER: Color32 = Color32::from_rgb(0xfe, 0xfc, 0xf7);
const WOOD: Color32 = Color32::from_rgb(0xd8, 0xc0, 0x98);

/// The grid of the sheet, over the sky.
pub fn grid(pen: &Pen, rect: Rect) {
    let step = pen.length(20.0).max(8.0);
    let origin = pen.at(0.0, GROUND);
    let stroke = Stroke::new(1.0, palette::INK.gamma_multiply(0.045));
    let mut x = origin.x - ((origin.x - rect.left()) / step).floor() * step;
    while x < rect.right() {
        pen.painter().vline(x, rect.y_range(), stroke);
        x += step;
    }
    let mut y = origin.y - ((origin.y - rect.top()) / step).floor() * step;
    while y < rect.bottom() {
        pen.painter().hline(rect.x_range(), y, stroke);
        y += step;
    }
}

/// Light of the hour: sun or moon on its way, and a tint.
pub fn sky(pen: &Pen, look: &SiteLook) {
    let clip = pen.painter().clip_rect();
    let ground = pen.at(0.0, GROUND).y;
    let above = Rect::from_min_max(clip.min, egui::pos2(clip.right(), ground));
    let hour = look.hour_of_day as f32;
    let is_day = (6.0..18.0).contains(&hour);
    let elevation = (((hour - 6.0) / 12.0) * std::f32::consts::PI).sin();
    pen.painter().add(egui::Shape::gradient_rect(above, egui::Direction::TopDown, wash(elevation)));
    let way = if is_day { (hour - 6.0) / 12.0 } else { ((hour - 18.0).rem_euclid(24.0)) / 12.0 };
    let height = (way * std::f32::consts::PI).sin();
    let centre = (740.0 + 200.0 * way, 190.0 - 120.0 * height);
    if is_day {
        let sun = Color32::from_rgb(0xf0, 0xc1, 0x5a);
        pen.disc(centre, 19.0, sun, pen.ink(1.2));
        for ray in 0..12 {
            let angle = ray as f32 * std::f32::consts::TAU / 12.0;
            let (sin, cos) = angle.sin_cos();
            pen.line(
                (centre.0 + cos * 24.0, centre.1 + sin * 24.0),
                (centre.0 + cos * 31.0, centre.1 + sin * 31.0),
                pen.ink(1.2),
            );
        }
    } else {
        pen.disc(centre, 16.0, Color32::from_rgb(0xf1, 0xee, 0xdc), pen.ink(1.2));
        pen.disc((centre.0 + 4.0, centre.1 - 4.0), 3.0, Color32::from_rgb(0xd8, 0xd4, 0xbd), Stroke::NONE);
        pen.disc((centre.0 - 5.0, centre.1 + 5.0), 2.2, Color32::from_rgb(0xd8, 0xd4, 0xbd), Stroke::NONE);
    }
}

/// Wash of watercolour on the paper, top and horizon, by the height of the sun (sine, -1 to 1). Opaque: blending
/// is not the same on every renderer.
fn wash(elevation: f32) -> [Color32; 2] {
    const NIGHT: [[f32; 3]; 2] = [[138.0, 150.0, 172.0], [186.0, 192.0, 200.0]];
    const DAWN: [[f32; 3]; 2] = [[212.0, 222.0, 230.0], [248.0, 222.0, 194.0]];
    const DAY: [[f32; 3]; 2] = [[204.0, 226.0, 236.0], [243.0, 243.0, 236.0]];
    let (from, to, share) = if elevation < 0.1 {
        (NIGHT, DAWN, (elevation + 0.3) / 0.4)
    } else {
        (DAWN, DAY, (elevation - 0.1) / 0.3)
    };
    let share = share.clamp(0.0, 1.0);
    [0, 1].map(|edge| {
        let [red, green, blue] =
            [0, 1, 2].map(|part| (from[edge][part] + share * (to[edge][part] - from[edge][part])) as u8);
        Color32::from_rgb(red, green, blue)
    })
}

/// Ground and house, with thermostat and furniture.
pub fn section(pen: &Pen, look: &SiteLook, labels: &Labels<'_>) {
    soil(pen);
    shrub(pen, (980.0, GROUND), 26.0);
    shrub(pen, (16.0, GROUND), 20.0);
    // Rooms.
    pen.block((40.0, 200.0), (680.0, GROUND), PLASTER, Stroke::NONE);
    // Attic and roof.
    pen.polygon(
        &[(12.0, 204.0), (360.0, 52.0), (708.0, 204.0)],
        Color32::from_rgb(0xf3, 0xea, 0xd8),
        Stroke::NONE,
    );
    for rafter in [(186.0, 128.0), (534.0, 128.0)] {
        pen.line((360.0, 66.0), rafter, Stroke::new(1.0, palette::RULE));
    }
    let roof = pen.ink(5.0);
    pen.path(&[(8.0, 207.0), (360.0, 52.0), (712.0, 207.0)], roof);
    pen.path(&[(8.0, 207.0), (360.0, 52.0), (712.0, 207.0)], Stroke::new(roof.width * 0.4, WOOD));
    // Cut parts: walls, ceiling, floor slab.
    for (min, max) in [
        ((40.0, 200.0), (52.0, GROUND)),
        ((668.0, 200.0), (680.0, GROUND)),
        ((40.0, 196.0), (680.0, 204.0)),
        ((40.0, GROUND - 8.0), (680.0, GROUND)),
    ] {
        pen.block(min, max, WOOD, pen.ink(1.2));
        pen.hatch(min, max, 7.0, Stroke::new(0.8, palette::INK.gamma_multiply(0.55)));
    }
    // Inner walls: living room | hallway with its opening | closet.
    pen.block((300.0, 204.0), (306.0, 292.0), WOOD, pen.ink(1.0));
    pen.block((452.0, 204.0), (458.0, 432.0), WOOD, pen.ink(1.0));
    pen.block((452.0, 498.0), (458.0, GROUND - 8.0), WOOD, pen.ink(1.0));
    living_room(pen);
    hallway(pen);
    thermostat(pen, look, labels);
}

/// What a drawing says of itself.
pub fn title_block(pen: &Pen, seed: u64, words: Words) {
    let title = words.label("screen-drawn-title");
    pen.text((40.0, 546.0), Align2::LEFT_CENTER, &title, palette::INK);
    let text = words.fill("screen-drawn-seed", &[("seed", seed.to_string())]);
    pen.text((40.0, 574.0), Align2::LEFT_CENTER, &text, palette::INK);
}

/// Houses in a row with their outdoor words, for the foot of the start screen.
pub fn street(painter: &egui::Painter, rect: Rect) {
    let ground = rect.bottom() - 16.0;
    let ink = Stroke::new(1.3, palette::PENCIL);
    painter.rect_filled(
        Rect::from_min_max(egui::pos2(rect.left(), ground), rect.max),
        0.0,
        Color32::from_rgb(0xe3, 0xd6, 0xbd),
    );
    let mut x = rect.left() + 30.0;
    let mut index = 0;
    while x < rect.right() - 120.0 {
        let (width, height) = (84.0 + 46.0 * scatter(index), 34.0 + 18.0 * scatter(index + 40));
        let eaves = ground - height;
        let walls = Rect::from_min_max(egui::pos2(x, eaves), egui::pos2(x + width, ground));
        painter.rect(walls, 0.0, PLASTER, ink, egui::StrokeKind::Middle);
        let roof = vec![
            egui::pos2(x - 8.0, eaves),
            egui::pos2(x + width / 2.0, eaves - 26.0 - 14.0 * scatter(index + 80)),
            egui::pos2(x + width + 8.0, eaves),
        ];
        painter.add(egui::Shape::convex_polygon(roof, WOOD, ink));
        let door = Rect::from_min_max(egui::pos2(x + 12.0, ground - 24.0), egui::pos2(x + 25.0, ground));
        painter.rect(door, 0.0, palette::FIELD_HOVERED, ink, egui::StrokeKind::Middle);
        let window = Rect::from_min_size(egui::pos2(x + width - 38.0, eaves + 10.0), vec2(22.0, 15.0));
        painter.rect(window, 0.0, Color32::from_rgb(0xdc, 0xea, 0xee), ink, egui::StrokeKind::Middle);
        let unit = Rect::from_min_max(
            egui::pos2(x + width + 12.0, ground - 18.0),
            egui::pos2(x + width + 30.0, ground),
        );
        painter.rect(unit, 1.0, palette::METAL, ink, egui::StrokeKind::Middle);
        for louvre in 1..4 {
            painter.hline(
                unit.x_range().shrink(3.0),
                unit.top() + louvre as f32 * 4.5,
                Stroke::new(1.0, palette::METAL_DARK),
            );
        }
        x += width + 60.0 + 70.0 * scatter(index + 120);
        index += 1;
    }
    painter.hline(rect.x_range(), ground, Stroke::new(1.8, palette::INK));
}

fn soil(pen: &Pen) {
    let clip = pen.painter().clip_rect();
    let top = pen.at(0.0, GROUND).y;
    let ground = Rect::from_min_max(egui::pos2(clip.left(), top), clip.max);
    pen.painter().rect_filled(ground, 0.0, Color32::from_rgb(0xe3, 0xd6, 0xbd));
    let painter = pen.painter().with_clip_rect(ground.intersect(clip));
    let stroke = Stroke::new(1.0, Color32::from_rgb(0xb4, 0xa0, 0x7c));
    let mut x = clip.left() - 20.0;
    while x < clip.right() {
        for dash in 0..3 {
            let start = egui::pos2(x + dash as f32 * 5.0, top + 14.0);
            painter.line_segment([start, start + vec2(9.0, -9.0)], stroke);
        }
        x += 46.0;
    }
    painter.hline(clip.x_range(), top, pen.ink(2.0));
}

fn shrub(pen: &Pen, foot: (f32, f32), size: f32) {
    let leaf = Color32::from_rgb(0x9d, 0xb3, 0x84);
    for (dx, dy, share) in [(-0.6, -0.5, 0.6), (0.6, -0.45, 0.55), (0.0, -0.9, 0.75)] {
        pen.disc((foot.0 + dx * size, foot.1 + dy * size), size * share, leaf, pen.ink(1.0));
    }
}

fn living_room(pen: &Pen) {
    let line = Stroke::new(1.2, palette::PENCIL);
    // Window.
    pen.block((70.0, 312.0), (134.0, 392.0), Color32::from_rgb(0xdc, 0xea, 0xee), line);
    pen.line((102.0, 312.0), (102.0, 392.0), line);
    pen.line((70.0, 352.0), (134.0, 352.0), line);
    // Sofa.
    let cloth = Color32::from_rgb(0xc5, 0xcf, 0xcc);
    pen.block((176.0, 424.0), (284.0, 470.0), cloth, line);
    pen.block((164.0, 448.0), (182.0, 496.0), cloth, line);
    pen.block((278.0, 448.0), (296.0, 496.0), cloth, line);
    pen.block((180.0, 466.0), (280.0, 492.0), cloth, line);
    pen.line((230.0, 466.0), (230.0, 492.0), line);
    for x in [170.0, 286.0] {
        pen.line((x, 496.0), (x, 504.0), line);
    }
    // Lamp.
    pen.line((152.0, 504.0), (152.0, 414.0), line);
    pen.polygon(
        &[(140.0, 414.0), (146.0, 390.0), (158.0, 390.0), (164.0, 414.0)],
        Color32::from_rgb(0xf1, 0xe0, 0xb0),
        line,
    );
}

fn hallway(pen: &Pen) {
    let line = Stroke::new(1.2, palette::PENCIL);
    // A door in the back wall.
    pen.block((310.0, 404.0), (344.0, 504.0), Color32::from_rgb(0xef, 0xe5, 0xd0), line);
    pen.disc((338.0, 456.0), 2.0, palette::PENCIL, Stroke::NONE);
}

fn thermostat(pen: &Pen, look: &SiteLook, labels: &Labels<'_>) {
    let line = pen.ink(1.4);
    pen.block((344.0, 308.0), (404.0, 350.0), palette::SHEET, line);
    pen.block(
        (349.0, 313.0),
        (399.0, 336.0),
        Color32::from_rgb(0xd5, 0xdf, 0xd0),
        Stroke::new(1.0, palette::PENCIL),
    );
    let font = egui::FontId::proportional(pen.length(15.0).max(palette::SMALL_PX));
    let room = labels.words.units.wall_temperature(look.room_k);
    pen.painter().text(pen.at(374.0, 324.5), Align2::CENTER_CENTER, room, font, palette::INK);
    for x in [360.0, 374.0, 388.0] {
        pen.disc((x, 343.5), 3.0, palette::FIELD, Stroke::new(1.0, palette::PENCIL));
    }
    let fan = labels.words.say(&look.fan);
    let mode = match look.mode {
        Mode::Off => labels.words.say(&look.mode),
        Mode::Cool => {
            let set_point = labels.words.units.wall_temperature(look.set_point_k);
            labels.words.fill("screen-drawn-cool-to", &[("set-point", set_point)])
        }
    };
    pen.text((376.0, 356.0), Align2::CENTER_TOP, &mode, palette::INK);
    let below = 356.0 + 15.0 / pen.length(1.0);
    pen.text((376.0, below), Align2::CENTER_TOP, &fan, palette::INK);
}
