//! The elements that are used everywhere on the page.

use maud::{Markup, PreEscaped, html};

/// A new line in a cell. Elements without contents are closed as XML wants it, which `html!` does not do.
pub(super) const LINE_BREAK: PreEscaped<&str> = PreEscaped("<br/>");

/// A section with its heading.
pub(super) fn section(id: &str, title: &str, contents: &Markup) -> Markup {
    html! {
        section id=(id) aria-labelledby={ (id) "-title" } {
            h2 id={ (id) "-title" } { (title) }
            (contents)
        }
    }
}

/// A table: caption, headings of columns, rows. The first cell of a row is its heading.
pub(super) fn table(class: &str, caption: &str, head: &[String], rows: &Markup) -> Markup {
    html! {
        table class=(class) {
            caption { (caption) }
            (table_head(head))
            tbody { (rows) }
        }
    }
}

/// Headings of columns.
pub(super) fn table_head(names: &[String]) -> Markup {
    html! {
        thead { tr { @for name in names { th scope="col" { (name) } } } }
    }
}

/// A figure: a drawing and its caption.
pub(super) fn figure(number: u32, svg: &Markup, caption: &str) -> Markup {
    html! {
        figure {
            (svg)
            figcaption { b { "Figure " (number) "." } " " (caption) }
        }
    }
}
