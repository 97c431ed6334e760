//! Time: par time earns all, twice that nothing.

use visit::Visit;

use crate::mark::{Area, Mark, falling, mark};
use crate::repair::is_solved;

pub(crate) fn marks(visit: &Visit) -> Vec<Mark> {
    let of = Area::Time.weight();
    let last = visit.notebook().last().map(|entry| entry.number);
    if !visit.is_closed() || !is_solved(visit) {
        let reason =
            "Time counts only when the cause is gone, the charge right and the ticket closed.".to_owned();
        return vec![mark(Area::Time, of, 0.0, reason, last)];
    }
    let par_s = visit.call().par_time_s;
    let took_s = visit.site().minutes * 60.0;
    let (took, par, cost) = (took_s / 60.0, par_s / 60.0, visit.cost());
    let reason = format!("The visit took {took:.0} min against {par:.0} min; parts cost {cost:.0}.");
    vec![mark(Area::Time, of, falling(took_s, par_s, 2.0 * par_s), reason, last)]
}
