//! Indoor equipment: ducts, grille, register, filter slot, coil cabinet, blower compartment.

use egui::{Align2, Color32, Stroke, vec2};
use plant::Switch;
use visit::{AirPoint, Panel};

use super::labels::{Labels, Motion};
use super::pen::{Pen, scatter, turned};
use crate::palette;
use crate::view::{BulbLook, CoilFace, CoilLook, SiteLook, is_running};
use crate::wording;
use words::Words;

/// Keys of the letters on the low-voltage board, from above.
const BOARD: [&str; 4] =
    ["screen-drawn-board-r", "screen-drawn-board-c", "screen-drawn-board-y", "screen-drawn-board-g"];
const DUCT: Color32 = Color32::from_rgb(0xe4, 0xe3, 0xdc);
const INSIDE: Color32 = Color32::from_rgb(0xf3, 0xf4, 0xf1);

/// Return box, supply duct, grille and register with the air that moves there.
pub fn ducts(pen: &Pen, look: &SiteLook, labels: &Labels<'_>, motion: Motion) {
    let line = pen.ink(1.3);
    // Supply: plenum through the ceiling, trunk in the attic, drop to the register.
    pen.block((516.0, 160.0), (594.0, 216.0), DUCT, line);
    pen.block((146.0, 158.0), (594.0, 184.0), DUCT, line);
    pen.block((146.0, 158.0), (206.0, 200.0), DUCT, line);
    pen.block((147.5, 159.5), (592.5, 182.5), DUCT, Stroke::NONE);
    // Register in the ceiling.
    pen.block((140.0, 198.0), (212.0, 206.0), palette::METAL, line);
    for slat in 0..6 {
        let x = 147.0 + slat as f32 * 11.0;
        pen.line((x, 199.0), (x + 5.0, 205.0), Stroke::new(1.2, palette::INK));
    }
    // Return: grille in the closet wall, box below the filter.
    pen.block((458.0, 440.0), (620.0, 504.0), DUCT, line);
    pen.block((446.0, 432.0), (462.0, 498.0), palette::METAL, line);
    for slat in 0..8 {
        let y = 437.0 + slat as f32 * 7.6;
        pen.line((447.0, y + 4.0), (461.0, y), Stroke::new(1.2, palette::INK));
    }
    air_at_register(pen, look, labels, motion);
    air_at_grille(pen, look, labels, motion);
}

fn air_at_register(pen: &Pen, look: &SiteLook, labels: &Labels<'_>, motion: Motion) {
    let share = look.air_share as f32;
    let colour = palette::of_temperature(look.register_air_k);
    for (index, spread) in [-1.0_f32, -0.5, 0.0, 0.5, 1.0].into_iter().enumerate() {
        if share <= 0.03 + 0.12 * (index as f32 - 2.0).abs() {
            continue;
        }
        let drift = drift(motion, index as u32) * share;
        let reach = 16.0 + 52.0 * share;
        let start = (176.0 + spread * 26.0 + spread * drift * 5.0, 212.0 + drift * 12.0);
        pen.arrow(start, vec2(spread * reach * 0.45, reach), colour, 1.6 + 1.2 * share);
    }
    let felt = if share > 0.05 {
        let feel = wording::feel(look.register_air_k, labels.words);
        labels.words.fill("screen-drawn-air", &[("air", labels.words.say(&look.air())), ("feel", feel)])
    } else {
        labels.words.say(&look.air())
    };
    let text = labels.air(AirPoint::Supply, felt);
    pen.note((176.0, 252.0 + 46.0 * share), Align2::CENTER_CENTER, &text, palette::INK);
}

fn air_at_grille(pen: &Pen, look: &SiteLook, labels: &Labels<'_>, motion: Motion) {
    let share = look.air_share as f32;
    let colour = palette::of_temperature(look.room_k);
    for (index, y) in [446.0_f32, 465.0, 484.0].into_iter().enumerate() {
        if share <= 0.05 + 0.1 * (index as f32 - 1.0).abs() {
            continue;
        }
        let reach = 14.0 + 30.0 * share;
        let drift = drift(motion, index as u32 + 7) * share * 8.0;
        pen.arrow((440.0 - reach - 8.0 + drift, y), vec2(reach, 0.0), colour, 1.6 + 1.2 * share);
    }
    if let Some(displayed) =
        labels.displayed(visit::Measured::AirTemperature(AirPoint::Return, visit::Bulb::Dry))
    {
        pen.note((390.0, 428.0), Align2::CENTER_CENTER, &displayed, palette::INK);
    }
}

/// Air handler: filter slot, coil cabinet, blower compartment. What is behind a closed panel stays hidden.
pub fn air_handler(pen: &Pen, look: &SiteLook, labels: &Labels<'_>, motion: Motion) {
    let words = labels.words;
    let line = pen.ink(1.5);
    match &look.coil {
        Some(coil) => {
            pen.block((490.0, 302.0), (624.0, 416.0), INSIDE, line);
            open_coil(pen, coil);
            lifted_panel(pen, (636.0, 404.0));
        }
        None => closed(pen, (490.0, 302.0), (624.0, 416.0), &words.label("screen-drawn-coil-panel"), words),
    }
    match look.blower_speed {
        Some(speed) => {
            pen.block((490.0, 216.0), (624.0, 302.0), INSIDE, line);
            open_blower(pen, speed, look, words, motion);
        }
        None => closed(pen, (490.0, 216.0), (624.0, 302.0), &words.label("screen-drawn-blower-panel"), words),
    }
    // Filter slot with its door and pull.
    pen.block((488.0, 416.0), (626.0, 440.0), palette::METAL, line);
    pen.block((494.0, 421.0), (620.0, 435.0), palette::FIELD, Stroke::new(1.0, palette::INK));
    pen.hatch((494.0, 421.0), (620.0, 435.0), 5.0, Stroke::new(0.8, palette::PENCIL));
    pen.block((626.0, 422.0), (632.0, 434.0), palette::METAL_DARK, Stroke::new(1.0, palette::INK));
    if look.indoor_switch == Switch::Open {
        let switch = words.label("screen-drawn-service-switch-off");
        pen.note((557.0, 470.0), Align2::CENTER_CENTER, &switch, palette::BRICK);
    }
}

/// A closed panel with its name, and under it that it is closed.
fn closed(pen: &Pen, min: (f32, f32), max: (f32, f32), name: &str, words: Words) {
    pen.block(min, max, palette::METAL, pen.ink(1.5));
    pen.block(
        (min.0 + 7.0, min.1 + 7.0),
        (max.0 - 7.0, max.1 - 7.0),
        Color32::TRANSPARENT,
        Stroke::new(1.0, palette::METAL_DARK),
    );
    for (x, y) in [
        (min.0 + 13.0, min.1 + 13.0),
        (max.0 - 13.0, min.1 + 13.0),
        (min.0 + 13.0, max.1 - 13.0),
        (max.0 - 13.0, max.1 - 13.0),
    ] {
        pen.disc((x, y), 2.4, palette::METAL_DARK, Stroke::new(1.0, palette::PENCIL));
    }
    let centre = ((min.0 + max.0) / 2.0, (min.1 + max.1) / 2.0);
    let half_line = 8.0 / pen.length(1.0);
    pen.text((centre.0, centre.1 - half_line), Align2::CENTER_CENTER, name, palette::PENCIL);
    let is_closed = words.label("screen-drawn-panel-closed");
    pen.text((centre.0, centre.1 + half_line), Align2::CENTER_CENTER, &is_closed, palette::PENCIL);
}

/// The taken-off panel leans beside the cabinet.
fn lifted_panel(pen: &Pen, foot: (f32, f32)) {
    pen.polygon(
        &[
            (foot.0 + 2.0, foot.1 + 98.0),
            (foot.0 + 8.0, foot.1 + 98.0),
            (foot.0 + 22.0, foot.1 + 44.0),
            (foot.0 + 16.0, foot.1 + 44.0),
        ],
        palette::METAL,
        pen.ink(1.0),
    );
}

fn open_coil(pen: &Pen, coil: &CoilLook) {
    // Drain pan under the coil.
    pen.polygon(
        &[(496.0, 402.0), (578.0, 402.0), (574.0, 411.0), (500.0, 411.0)],
        palette::METAL_DARK,
        pen.ink(1.0),
    );
    let (apex, left, right) = ((537.0, 314.0), (506.0, 400.0), (568.0, 400.0));
    slab(pen, left, apex, coil, 0);
    slab(pen, right, apex, coil, 40);
    if coil.face == CoilFace::FilterMat {
        filter_mat(pen);
    }
    bulb_and_valve(pen, coil);
}

/// Torn filter medium, sucked against the underside of the coil.
fn filter_mat(pen: &Pen) {
    let felt = Color32::from_rgb(0x8b, 0x87, 0x7c);
    let lumps: Vec<((f32, f32), f32)> = (0..22)
        .map(|lump| {
            let share = lump as f32 / 21.0;
            let sag = 10.0 * (1.0 - (2.0 * share - 1.0).abs());
            ((511.0 + 52.0 * share, 397.0 - 3.4 * sag + 3.0 * scatter(lump)), 4.0 + 2.5 * scatter(lump + 70))
        })
        .collect();
    pen.cloud(&lumps, felt, palette::INK);
}

/// One leaning slab of the coil: fins, tubes and the ice on it, from the bottom up.
fn slab(pen: &Pen, foot: (f32, f32), apex: (f32, f32), coil: &CoilLook, first: u32) {
    let along = vec2(apex.0 - foot.0, apex.1 - foot.1);
    let across = along.normalized().rot90() * 8.0;
    let corner = |share: f32, side: f32| {
        (foot.0 + along.x * share + across.x * side, foot.1 + along.y * share + across.y * side)
    };
    let fins = Color32::from_rgb(0xdf, 0xe3, 0xe1);
    pen.polygon(
        &[corner(0.0, -1.0), corner(0.0, 1.0), corner(1.0, 1.0), corner(1.0, -1.0)],
        fins,
        pen.ink(1.2),
    );
    for fin in 1..16 {
        let share = fin as f32 / 16.0;
        pen.line(corner(share, -1.0), corner(share, 1.0), Stroke::new(0.8, palette::METAL_DARK));
    }
    for tube in 0..7 {
        pen.disc(
            corner((tube as f32 + 0.6) / 7.2, 0.0),
            2.6,
            palette::COPPER,
            Stroke::new(0.8, palette::INK),
        );
    }
    if coil.iced_share < 0.01 {
        return;
    }
    let iced = coil.iced_share.clamp(0.0, 1.0) as f32;
    let thick = 2.5 + 9.0 * coil.thickness_share as f32;
    let lumps = (26.0 * iced).ceil() as u32;
    let ice: Vec<((f32, f32), f32)> = (0..lumps)
        .map(|lump| {
            let index = first + lump;
            let share = (lump as f32 + 0.5) / 26.0;
            let side = (if lump % 2 == 0 { 1.0 } else { -1.0 }) * (0.7 + 0.5 * scatter(index));
            (corner(share, side), thick * (0.65 + 0.5 * scatter(index + 500)))
        })
        .collect();
    pen.cloud(&ice, palette::ICE, palette::ICE_EDGE);
    for lump in 0..lumps / 3 {
        let centre = corner((lump as f32 * 3.0 + 1.5) / 26.0, 0.3);
        pen.crystal(centre, 4.5, scatter(first + lump) * 2.0);
    }
}

fn bulb_and_valve(pen: &Pen, coil: &CoilLook) {
    // Suction stub and liquid feed inside the cabinet.
    let copper = Stroke::new(pen.length(5.5), palette::COPPER);
    pen.path(&[(568.0, 344.0), (624.0, 344.0)], copper);
    pen.path(
        &[(624.0, 388.0), (600.0, 388.0), (572.0, 388.0)],
        Stroke::new(pen.length(3.0), palette::COPPER),
    );
    // Valve body with its head.
    pen.block((592.0, 381.0), (608.0, 396.0), Color32::from_rgb(0xd9, 0xb7, 0x63), pen.ink(1.0));
    pen.disc((600.0, 375.0), 8.0, Color32::from_rgb(0xd9, 0xb7, 0x63), pen.ink(1.0));
    let (bulb, tail) = match coil.bulb {
        BulbLook::Insulated | BulbLook::Bare => ((603.0, 336.0), (604.0, 356.0)),
        BulbLook::InHand => ((612.0, 316.0), (614.0, 346.0)),
        BulbLook::Hanging | BulbLook::InIceWater => ((592.0, 358.0), (610.0, 364.0)),
    };
    pen.path(&[(600.0, 368.0), tail, (bulb.0, bulb.1 + 3.0)], Stroke::new(1.2, palette::INK));
    match coil.bulb {
        BulbLook::Insulated => {
            pen.block((586.0, 330.0), (620.0, 352.0), Color32::from_rgb(0x3f, 0x48, 0x4e), pen.ink(1.0));
            pen.line((594.0, 330.0), (594.0, 352.0), Stroke::new(1.4, palette::METAL));
            pen.line((612.0, 330.0), (612.0, 352.0), Stroke::new(1.4, palette::METAL));
        }
        BulbLook::Bare => {
            pen.block((592.0, 332.0), (616.0, 340.0), palette::COPPER, pen.ink(1.0));
            pen.line((604.0, 331.0), (604.0, 348.0), Stroke::new(1.6, palette::METAL_DARK));
        }
        BulbLook::InHand | BulbLook::Hanging | BulbLook::InIceWater => {
            pen.block(
                (bulb.0 - 10.0, bulb.1 - 4.0),
                (bulb.0 + 10.0, bulb.1 + 4.0),
                palette::COPPER,
                pen.ink(1.0),
            );
            if coil.bulb == BulbLook::InIceWater {
                pen.block((576.0, 356.0), (608.0, 374.0), palette::ICE.gamma_multiply(0.8), pen.ink(1.0));
            }
        }
    }
}

fn open_blower(pen: &Pen, speed: f64, look: &SiteLook, words: Words, motion: Motion) {
    // Scroll housing, wheel, motor.
    let centre = (537.0, 262.0);
    pen.disc(centre, 35.0, palette::METAL, pen.ink(1.3));
    pen.block((537.0, 217.5), (572.0, 240.0), palette::METAL, Stroke::NONE);
    pen.path(&[(537.0, 227.0), (537.0, 217.0)], pen.ink(1.3));
    pen.path(&[(572.0, 262.0), (572.0, 217.0)], pen.ink(1.3));
    pen.disc(centre, 29.0, INSIDE, pen.ink(1.0));
    pen.wheel(centre, 28.0, 18, turned(motion.moved_s, speed), pen.ink(1.5));
    pen.disc(centre, 13.0, palette::METAL_DARK, pen.ink(1.2));
    let state = if is_running(speed) { "screen-drawn-wheel-turns" } else { "screen-drawn-wheel-still" };
    pen.note((537.0, 287.0), Align2::CENTER_CENTER, &words.label(state), palette::INK);
    // Low-voltage board.
    pen.block((590.0, 226.0), (618.0, 292.0), Color32::from_rgb(0xc9, 0xd6, 0xbd), pen.ink(1.0));
    for (index, name) in BOARD.into_iter().enumerate() {
        let y = 236.0 + index as f32 * 15.5;
        pen.disc((597.0, y), 2.8, palette::METAL, Stroke::new(1.0, palette::INK));
        pen.text((609.0, y), Align2::CENTER_CENTER, &words.label(name), palette::INK);
    }
    if look.is_open(Panel::BlowerCompartment) {
        lifted_panel(pen, (640.0, 404.0));
    }
}

fn drift(motion: Motion, index: u32) -> f32 {
    (motion.moved_s * 0.9 + f64::from(scatter(index))).fract() as f32
}
