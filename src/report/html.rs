//! The review as one HTML file that needs nothing else: style and drawings are inside, and it prints.
//!
//! It is written as XML too, so that it can be checked by any XML reader. Whatever is spliced into it is escaped, unless its
//! type says that it is markup.

mod axes;
mod elements;
mod figures;
mod moves;
mod numbering;
mod parts;

use maud::{DOCTYPE, Markup, PreEscaped, html};
use visit::Visit;

use crate::dossier::ReviewFigures;
use crate::review::Review;
use words::Words;

use elements::section;
use numbering::Figures;

const STYLE: &str = include_str!("html/style.css");
/// Written out, since `html!` leaves elements without contents open, which XML does not allow.
const META: PreEscaped<&str> = PreEscaped(
    "<meta charset=\"utf-8\"/><meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>",
);

/// The page of a judged visit, in the language and units of the reader.
pub fn page(review: &Review, visit: &Visit, dossier: &ReviewFigures, words: Words) -> String {
    let mut figures = Figures::default();
    // Each with its identifier, the key of its heading, and its contents.
    let mut sections: Vec<(&str, &str, Markup)> = vec![
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
    let page = html! {
        (DOCTYPE)
        html lang=(words.label("page-language")) {
            head {
                (META)
                title { (title) }
                style { (PreEscaped(STYLE)) (PreEscaped(chart::STYLE)) }
            }
            body {
                main {
                    (parts::header(review, words))
                    nav aria-label=(words.label("page-contents")) {
                        ol {
                            @for (id, title, _) in &sections {
                                li { a href={ "#" (id) "-part" } { (words.label(title)) } }
                            }
                        }
                    }
                    @for (id, title, contents) in &sections {
                        (section(&format!("{id}-part"), &words.label(title), contents))
                    }
                }
                footer { p { (words.label("page-disclaimer")) } }
            }
        }
    };
    chart::holdable(page) + "\n"
}
