//! What a mark is.

use serde::{Deserialize, Serialize};

use crate::reason::Reason;

/// All marks of one visit.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Marks {
    /// Points earned, 0 to 100.
    pub total: f64,
    /// Every mark, area by area.
    pub items: Vec<Mark>,
}

/// Points earned or lost for one thing.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Mark {
    /// Area it belongs to.
    pub area: Area,
    /// Points earned; below zero where a mistake costs points that were earned elsewhere in the area.
    pub points: f64,
    /// Points that could be earned.
    pub of: f64,
    /// Why.
    pub reason: Reason,
    /// Number of the notebook entry that earned or lost it; none when something was never done.
    pub entry: Option<u32>,
}

/// An area of the marks.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Area {
    /// Whether things were done in a sound order.
    Order,
    /// Whether the readings single out the declared cause.
    Evidence,
    /// How refrigerant was handled.
    Refrigerant,
    /// Whether equipment and technician were kept safe.
    Safety,
    /// Whether the cause is gone, and proven gone.
    Repair,
    /// How long it took.
    Time,
}

impl Area {
    /// Every area, in the order of the review.
    pub const ALL: [Area; 6] =
        [Area::Order, Area::Evidence, Area::Refrigerant, Area::Safety, Area::Repair, Area::Time];

    /// Points of the area. They add up to 100.
    pub fn weight(self) -> f64 {
        match self {
            Area::Order => 20.0,
            Area::Evidence => 25.0,
            Area::Refrigerant => 20.0,
            Area::Safety => 10.0,
            Area::Repair => 20.0,
            Area::Time => 5.0,
        }
    }
}

impl Marks {
    /// Adds up marks. An area never falls below zero.
    pub fn of(items: Vec<Mark>) -> Marks {
        let total = Area::ALL.iter().map(|area| area_points(&items, *area)).sum();
        Marks { total, items }
    }

    /// Points earned in an area, not below zero.
    pub fn points_in(&self, area: Area) -> f64 {
        area_points(&self.items, area)
    }

    /// Marks of an area, in order.
    pub fn items_in(&self, area: Area) -> impl Iterator<Item = &Mark> {
        self.items.iter().filter(move |mark| mark.area == area)
    }
}

/// Never below zero and never above the area's weight.
fn area_points(items: &[Mark], area: Area) -> f64 {
    let sum: f64 = items.iter().filter(|mark| mark.area == area).map(|mark| mark.points).sum();
    // Equal shares of an area add up to it but for rounding; a millionth of a point is none.
    let sum = (sum * 1.0e6).round() / 1.0e6;
    sum.clamp(0.0, area.weight())
}

/// Shares of one mark that is earned in full, in part, or not at all.
pub(crate) fn mark(area: Area, of: f64, share: f64, reason: Reason, entry: Option<u32>) -> Mark {
    Mark { area, points: of * share.clamp(0.0, 1.0), of, reason, entry }
}

/// 1 at or below `full`, 0 at or above `none`, linear between.
pub(crate) fn falling(value: f64, full: f64, none: f64) -> f64 {
    ((none - value) / (none - full)).clamp(0.0, 1.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn weights_add_up_to_100() {
        assert_eq!(Area::ALL.iter().map(|area| area.weight()).sum::<f64>(), 100.0);
    }

    #[test]
    fn a_penalty_never_takes_points_from_another_area() {
        let one = |area, points| Mark { area, points, of: 5.0, reason: Reason::NothingDone, entry: None };
        let marks = Marks::of(vec![one(Area::Evidence, -9.0), one(Area::Safety, 5.0)]);
        assert_eq!(marks.total, 5.0);
        assert_eq!(marks.points_in(Area::Evidence), 0.0);
    }

    #[test]
    fn equal_shares_add_up_to_the_area() {
        let each = Area::Order.weight() / 22.0;
        let items = (0..22)
            .map(|_| Mark {
                area: Area::Order,
                points: each,
                of: each,
                reason: Reason::NothingDone,
                entry: None,
            })
            .collect();
        assert_eq!(Marks::of(items).points_in(Area::Order), Area::Order.weight());
    }

    #[test]
    fn a_share_falls_linearly() {
        assert_eq!(falling(1.0, 2.0, 4.0), 1.0);
        assert_eq!(falling(3.0, 2.0, 4.0), 0.5);
        assert_eq!(falling(5.0, 2.0, 4.0), 0.0);
    }
}
