//! Time: par time earns all, twice that nothing.

use visit::Visit;

use crate::mark::{Area, Mark, falling, mark};
use crate::reason::Reason;
use crate::repair::is_solved;

pub(crate) fn marks(visit: &Visit) -> Vec<Mark> {
    let of = Area::Time.weight();
    let last = visit.notebook().last().map(|entry| entry.number);
    if !visit.is_closed() || !is_solved(visit) {
        return vec![mark(Area::Time, of, 0.0, Reason::TimeNotCounted, last)];
    }
    let par_s = visit.call().par_time_s;
    let took_s = visit.site().minutes * 60.0;
    let reason = Reason::Took { took_for_s: took_s, par_for_s: par_s, cost: visit.cost() };
    vec![mark(Area::Time, of, falling(took_s, par_s, 2.0 * par_s), reason, last)]
}
