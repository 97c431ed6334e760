//! Where each place is in the drawing.

use egui::{Rect, pos2};
use visit::Place;

/// Area of a place in world units.
pub fn area(place: Place) -> Rect {
    let (x0, y0, x1, y1) = match place {
        Place::Thermostat => (340.0, 306.0, 408.0, 352.0),
        Place::SupplyRegister => (120.0, 192.0, 230.0, 232.0),
        Place::ReturnGrille => (436.0, 430.0, 482.0, 500.0),
        Place::FilterSlot => (486.0, 417.0, 632.0, 437.0),
        Place::IndoorCoil => (490.0, 304.0, 580.0, 412.0),
        Place::MeteringDevice => (584.0, 304.0, 624.0, 412.0),
        Place::Blower => (490.0, 216.0, 580.0, 300.0),
        Place::ControlBoard => (584.0, 216.0, 624.0, 300.0),
        Place::LineSet => (636.0, 332.0, 742.0, 398.0),
        Place::Drier => (728.0, 462.0, 778.0, 486.0),
        Place::OutdoorDisconnect => (686.0, 236.0, 724.0, 296.0),
        Place::OutdoorUnit => (806.0, 366.0, 950.0, 508.0),
    };
    Rect::from_min_max(pos2(x0, y0), pos2(x1, y1))
}

/// Where the lettered balloon of a place sits, in world units: beside the part, never on a label.
pub fn balloon(place: Place) -> (f32, f32) {
    match place {
        Place::Thermostat => (328.0, 300.0),
        Place::SupplyRegister => (106.0, 212.0),
        Place::ReturnGrille => (434.0, 400.0),
        Place::FilterSlot => (646.0, 440.0),
        Place::IndoorCoil => (476.0, 330.0),
        Place::MeteringDevice => (640.0, 318.0),
        Place::Blower => (476.0, 240.0),
        Place::ControlBoard => (640.0, 240.0),
        Place::LineSet => (748.0, 366.0),
        Place::Drier => (752.0, 502.0),
        Place::OutdoorDisconnect => (738.0, 244.0),
        Place::OutdoorUnit => (958.0, 360.0),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::site::pen::WORLD;

    #[test]
    fn every_place_has_an_area_of_its_own_inside_the_drawing() {
        let sheet = Rect::from_min_size(pos2(0.0, 0.0), WORLD);
        for place in Place::ALL {
            assert!(sheet.contains_rect(area(place)), "{place:?} is off the sheet");
            for other in Place::ALL {
                let apart = place == other || !area(place).intersects(area(other));
                assert!(apart, "{place:?} and {other:?} overlap");
            }
        }
    }

    #[test]
    fn balloons_do_not_cover_each_other() {
        for place in Place::ALL {
            for other in Place::ALL {
                let (a, b) = (balloon(place), balloon(other));
                let apart = (a.0 - b.0).hypot(a.1 - b.1);
                assert!(place == other || apart > 40.0, "{place:?} and {other:?}");
            }
        }
    }
}
