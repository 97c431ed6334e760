//! The calls that come with the program, as the list shows them.

use crate::look::CallCard;

/// The calls that come with the program.
pub fn cards() -> Vec<CallCard> {
    let read = |id: &str, text: &str| {
        // Each one is valid: a test holds that.
        let call = call::read(text, id).ok()?;
        Some(CallCard {
            id: id.to_owned(),
            title: call.title,
            complaint: call.complaint,
            par_time_s: call.par_time_s,
        })
    };
    call::built_in().iter().filter_map(|(id, text)| read(id, text)).collect()
}
