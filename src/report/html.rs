//! The review as one HTML file that needs nothing else: style and drawings are inside, and it prints.
//!
//! It is written as XML too, so that it can be checked by any XML reader.

mod chart;
mod figures;
mod moves;
mod numbering;
mod parts;
mod text;

use visit::Visit;

use crate::dossier::ReviewFigures;
use crate::review::Review;
use words::Words;

use numbering::Figures;
use text::{element, escape, section};

const STYLE: &str = include_str!("html/style.css");

/// The page of a judged visit, in the language and units of the reader.
pub fn page(review: &Review, visit: &Visit, dossier: &ReviewFigures, words: Words) -> String {
    let mut figures = Figures::default();
    // Each with its identifier, the key of its heading, and its contents.
    let mut sections: Vec<(&str, &str, String)> = vec![
        ("marks", "page-marks", parts::marks(review, visit.call(), words)),
        ("moves", "page-evidence", parts::evidence(review, visit, dossier, words, &mut figures)),
    ];
    if let Some(chances) = &dossier.chances {
        sections.push(("readings", "page-rulings", parts::rulings(visit, chances, words)));
    }
    sections.push(("course", "page-course", parts::course(visit, dossier, words, &mut figures)));
    sections.push(("cycle", "page-cycle", parts::cycle(&dossier.cycles, words, &mut figures)));
    sections.push(("later", "page-later", parts::run_on(review, &dossier.run_on, words, &mut figures)));
    if let Some(path) = &dossier.path {
        sections.push(("path", "page-path", parts::path(path, visit.call(), words)));
    }
    sections.push(("notebook", "page-done", parts::notebook(visit, words)));
    sections.push(("refrigerant", "page-refrigerant", parts::refrigerant(&review.refrigerant, words)));

    let (title, call, seed) = (words.own(&review.title), review.call.clone(), review.seed.to_string());
    let title = words.fill("page-title", &[("title", title), ("call", call), ("seed", seed)]);
    let mut page = format!(
        "<!DOCTYPE html>\n<html lang=\"{}\">\n<head>\n<meta charset=\"utf-8\"/>\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n<title>{}</title>\n\
         <style>\n{STYLE}</style>\n</head>\n<body>\n<main>\n",
        escape(&words.label("page-language")),
        escape(&title)
    );
    page.push_str(&parts::header(review, words));
    page.push_str(&format!("<nav aria-label=\"{}\"><ol>\n", escape(&words.label("page-contents"))));
    for (id, title, _) in &sections {
        page.push_str(&format!("<li><a href=\"#{id}-part\">{}</a></li>\n", escape(&words.label(title))));
    }
    page.push_str("</ol></nav>\n");
    for (id, title, contents) in &sections {
        page.push_str(&section(&format!("{id}-part"), &words.label(title), contents));
    }
    page.push_str("</main>\n<footer>\n");
    page.push_str(&element("p", &words.label("page-disclaimer")));
    page.push_str("</footer>\n</body>\n</html>\n");
    page
}
