//! Text into a page: escaping, and the few elements that are used everywhere.

/// Text as it may stand in an element or an attribute. Signs that XML cannot hold become a replacement sign.
pub(super) fn escape(text: &str) -> String {
    let mut escaped = String::with_capacity(text.len());
    for letter in text.chars() {
        match letter {
            '&' => escaped.push_str("&amp;"),
            '<' => escaped.push_str("&lt;"),
            '>' => escaped.push_str("&gt;"),
            '"' => escaped.push_str("&quot;"),
            '\'' => escaped.push_str("&#39;"),
            '\n' | '\t' => escaped.push(letter),
            '\u{fffe}' | '\u{ffff}' => escaped.push('\u{fffd}'),
            other if other.is_control() => escaped.push('\u{fffd}'),
            other => escaped.push(other),
        }
    }
    escaped
}

/// An element with text in it.
pub(super) fn element(name: &str, text: &str) -> String {
    format!("<{name}>{}</{name}>\n", escape(text))
}

/// A section with its heading; the contents are markup.
pub(super) fn section(id: &str, title: &str, contents: &str) -> String {
    format!(
        "<section id=\"{id}\" aria-labelledby=\"{id}-title\">\n<h2 id=\"{id}-title\">{}</h2>\n{contents}</section>\n",
        escape(title)
    )
}

/// A table: caption, column headings, rows of markup. The first cell of a row is its heading.
pub(super) fn table(class: &str, caption: &str, head: &[String], rows: &[Vec<String>]) -> String {
    let mut table = format!("<table class=\"{class}\">\n<caption>{}</caption>\n<thead><tr>", escape(caption));
    for name in head {
        table.push_str(&format!("<th scope=\"col\">{}</th>", escape(name)));
    }
    table.push_str("</tr></thead>\n<tbody>\n");
    for row in rows {
        table.push_str("<tr>");
        for (index, cell) in row.iter().enumerate() {
            if index == 0 {
                table.push_str(&format!("<th scope=\"row\">{cell}</th>"));
            } else {
                table.push_str(&format!("<td>{cell}</td>"));
            }
        }
        table.push_str("</tr>\n");
    }
    table.push_str("</tbody>\n</table>\n");
    table
}

/// A figure: a drawing and its caption.
pub(super) fn figure(number: u32, svg: &str, caption: &str) -> String {
    format!(
        "<figure>\n{svg}<figcaption><b>Figure {number}.</b> {}</figcaption>\n</figure>\n",
        escape(caption)
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn markup_in_text_stays_text() {
        assert_eq!(escape("<b a=\"1\" b='2'>&amp;"), "&lt;b a=&quot;1&quot; b=&#39;2&#39;&gt;&amp;amp;");
        assert_eq!(escape("a\u{0}b\u{1b}c\u{ffff}"), "a\u{fffd}b\u{fffd}c\u{fffd}");
        assert_eq!(escape("21 °C ± 0.5\n"), "21 °C ± 0.5\n");
    }
}
