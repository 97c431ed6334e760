//! Digests: what tells two texts apart.

use crate::names::under_first_names;
use crate::spec::Call;

/// FNV-1a, 64 bits: the published offset basis and prime of Fowler, Noll and Vo.
pub fn fnv1a_64(bytes: &[u8]) -> u64 {
    bytes.iter().fold(0xcbf2_9ce4_8422_2325, |hash, byte| {
        (hash ^ u64::from(*byte)).wrapping_mul(0x0000_0100_0000_01b3)
    })
}

/// FNV-1a (64 bit, hexadecimal) of a text in which kinds of fault stand under the first names that they had: a kind that is called
/// otherwise since leaves the digest of every file and record as it was.
pub fn text_digest(text: &str) -> String {
    format!("{:016x}", fnv1a_64(under_first_names(text).as_bytes()))
}

impl Call {
    /// Digest of its text, hexadecimal: FNV-1a (64 bit), whatever the ends of its lines are.
    pub fn digest(&self) -> String {
        text_digest(&self.source.replace("\r\n", "\n"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn fnv_matches_published_vectors() {
        assert_eq!(fnv1a_64(b""), 0xcbf2_9ce4_8422_2325);
        assert_eq!(fnv1a_64(b"a"), 0xaf63_dc4c_8601_ec8c);
        assert_eq!(fnv1a_64(b"foobar"), 0x8594_4171_f739_67e8);
    }

    #[test]
    fn ends_of_lines_do_not_count() {
        let (id, text) = crate::built_in()[0];
        let digest = |text: &str| crate::read(text, id).expect("it is valid").digest();
        assert_eq!(digest(text), digest(&text.replace('\n', "\r\n")));
        assert_ne!(digest(text), digest(&format!("{text}\n// more")));
    }
}
