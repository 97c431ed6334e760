//! Numbers and texts as RON writes them.

/// A whole number as RON writes it.
pub(crate) fn whole_number(word: &str) -> Option<i128> {
    let word = word.replace('_', "");
    let (sign, digits) = match word.strip_prefix('-') {
        Some(digits) => (-1, digits),
        None => (1, word.strip_prefix('+').unwrap_or(&word)),
    };
    let number = match digits.get(..2) {
        Some("0x") => i128::from_str_radix(&digits[2..], 16),
        Some("0o") => i128::from_str_radix(&digits[2..], 8),
        Some("0b") => i128::from_str_radix(&digits[2..], 2),
        _ if digits.bytes().all(|byte| byte.is_ascii_digit()) => digits.parse(),
        _ => return None,
    };
    Some(sign * number.ok()?)
}

/// What a raw text says: what stands between its quotes.
pub(crate) fn raw(written: &str) -> &str {
    let (Some(open), Some(close)) = (written.find('"'), written.rfind('"')) else { return "" };
    written.get(open + 1..close).unwrap_or_default()
}

/// What a text in quotes says, given what follows the first quote; none if an escape is none.
pub(crate) fn unescaped(quoted: &str) -> Option<String> {
    let quoted = quoted.strip_suffix('"').unwrap_or(quoted);
    let mut text = String::with_capacity(quoted.len());
    let mut letters = quoted.chars();
    while let Some(letter) = letters.next() {
        if letter != '\\' {
            text.push(letter);
            continue;
        }
        text.push(match letters.next()? {
            'n' => '\n',
            'r' => '\r',
            't' => '\t',
            '0' => '\0',
            same @ ('"' | '\'' | '\\') => same,
            'x' => {
                let high = letters.next()?.to_digit(16)?;
                let low = letters.next()?.to_digit(16)?;
                char::from_u32(16 * high + low)?
            }
            'u' => {
                let rest = letters.as_str().strip_prefix('{')?;
                let (code, rest) = rest.split_once('}')?;
                letters = rest.chars();
                char::from_u32(u32::from_str_radix(code, 16).ok()?)?
            }
            _ => return None,
        });
    }
    Some(text)
}
