//! Names of types and variants as keys of messages.

/// A name as the locale files write it: `SuctionAtBulb` is `suction-at-bulb`. A hyphen goes before each capital that begins a word.
pub(crate) fn kebab(name: &str) -> String {
    let letters: Vec<char> = name.chars().collect();
    let mut key = String::with_capacity(name.len() + 4);
    for (index, letter) in letters.iter().enumerate() {
        let before = index.checked_sub(1).map(|at| letters[at]);
        let after = letters.get(index + 1);
        let begins = letter.is_uppercase()
            && before.is_some_and(|before| {
                !before.is_uppercase() && before != '_' || after.is_some_and(|after| after.is_lowercase())
            });
        if begins {
            key.push('-');
        }
        match letter {
            '_' => key.push('-'),
            other => key.extend(other.to_lowercase()),
        }
    }
    key
}

#[cfg(test)]
mod tests {
    use super::kebab;

    #[test]
    fn names_become_keys() {
        for (name, key) in [
            ("SuctionAtBulb", "suction-at-bulb"),
            ("ThermostatNoG", "thermostat-no-g"),
            ("ServiceLine1", "service-line1"),
            ("R410A", "r410-a"),
            ("set_point_k", "set-point-k"),
            ("Move", "move"),
        ] {
            assert_eq!(kebab(name), key);
        }
    }
}
