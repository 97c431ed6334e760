//! Characters that are not what a text seems to be: they steer a terminal or turn the order of what is read.

/// Whether a character belongs into no text: control characters other than line breaks and tabs, and those that set the direction of
/// writing (Unicode Standard, annex 9, explicit formatting characters).
pub fn is_hidden(c: char) -> bool {
    let turns =
        matches!(c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' | '\u{200e}' | '\u{200f}' | '\u{061c}');
    turns || c.is_control() && !matches!(c, '\n' | '\r' | '\t')
}

/// Most characters of a strange text that are repeated in a message.
const SHOWN: usize = 120;

/// A text as a message may show it: hidden characters by their numbers, and not without end.
pub fn shown(text: &str) -> String {
    let mut told = String::new();
    for (count, c) in text.chars().enumerate() {
        if count == SHOWN {
            told.push('…');
            break;
        }
        if is_hidden(c) {
            told.push_str(&format!("U+{:04X}", u32::from(c)));
        } else {
            told.push(c);
        }
    }
    told
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_steers_is_told_by_its_number() {
        assert_eq!(shown("a\u{1b}[2Jb\u{202e}c\n"), "aU+001B[2JbU+202Ec\n");
        assert!(!"Grüße, 75 °F – naïve\tπ\r\n".chars().any(is_hidden));
        assert_eq!(shown(&"x".repeat(1000)).chars().count(), SHOWN + 1);
    }
}
