//! The review as one HTML file that needs nothing else: style and drawings are inside, and it prints.
//!
//! It is written as XML too, so that it can be checked by any XML reader.

mod chart;
mod figures;
mod moves;
mod parts;
mod text;

use visit::Visit;

use crate::dossier::Dossier;
use crate::review::Review;
use words::Words;

use text::{element, escape, figure, section};

const STYLE: &str = include_str!("html/style.css");

/// The page of a judged visit, in the units of the reader.
pub fn page(review: &Review, visit: &Visit, dossier: &Dossier, words: Words) -> String {
    let mut figures = Figures::default();
    let mut sections: Vec<(&str, &str, String)> = vec![
        ("marks", "Marks", parts::marks(review)),
        ("moves", "Where the evidence led", parts::evidence(review, visit, dossier, &mut figures)),
    ];
    if let Some(chances) = &dossier.chances {
        sections.push(("readings", "What each reading ruled out", parts::rulings(visit, chances, words)));
    }
    sections.push(("course", "What the plant did", parts::course(visit, dossier, words, &mut figures)));
    sections.push(("cycle", "The refrigerant's cycle", parts::cycle(&dossier.cycles, words, &mut figures)));
    sections.push((
        "later",
        "What would have happened next",
        parts::run_on(review, &dossier.run_on, words, &mut figures),
    ));
    if let Some(path) = &dossier.path {
        sections.push(("path", "A sound path through this call", parts::path(path, visit.call(), words)));
    }
    sections.push(("notebook", "What was done", parts::notebook(visit, words)));
    sections.push((
        "refrigerant",
        "Where the refrigerant went",
        parts::refrigerant(&review.refrigerant, words),
    ));

    let mut page = format!(
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\"/>\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n<title>{}</title>\n\
         <style>\n{STYLE}</style>\n</head>\n<body>\n<main>\n",
        escape(&format!("Review: {} (call {}, seed {})", review.title, review.call, review.seed))
    );
    page.push_str(&parts::header(review));
    page.push_str("<nav aria-label=\"Contents\"><ol>\n");
    for (id, title, _) in &sections {
        page.push_str(&format!("<li><a href=\"#{id}-part\">{}</a></li>\n", escape(title)));
    }
    page.push_str("</ol></nav>\n");
    for (id, title, contents) in &sections {
        page.push_str(&section(&format!("{id}-part"), title, contents));
    }
    page.push_str("</main>\n<footer>\n");
    page.push_str(&element(
        "p",
        "This is a way of thinking, practised on a model. On real equipment, licensed practice, the equipment \
         maker's instructions and local codes decide.",
    ));
    page.push_str("</footer>\n</body>\n</html>\n");
    page
}

/// Counts the figures.
#[derive(Default)]
struct Figures {
    count: u32,
}

impl Figures {
    fn add(&mut self, svg: &str, caption: &str) -> String {
        self.count += 1;
        figure(self.count, svg, caption)
    }
}
