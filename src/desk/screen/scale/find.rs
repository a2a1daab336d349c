//! Who is meant by a number or by the beginning of a name.

use crate::roster::Entry;

/// What was looked for, and which rows it may be.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Found {
    /// Nobody.
    Nobody,
    /// This row and no other.
    One(usize),
    /// Any of these rows, in the order of their numbers.
    Several(Vec<usize>),
}

/// Looks for a number or a name among entries.
///
/// A number means the entry that has just this number; where none has, those
/// that begin with it are shown, but none is taken for it. A name is found by
/// the beginning of any of its words, whole names first, without regard to
/// capitals and accents.
pub fn find(entries: &[&Entry], text: &str) -> Found {
    let wanted = text.trim();
    if wanted.is_empty() {
        return Found::Nobody;
    }
    if wanted.bytes().all(|b| b.is_ascii_digit()) {
        let whole = entries
            .iter()
            .position(|e| wanted.parse() == Ok(u32::from(e.number)));
        return match whole {
            Some(row) => Found::One(row),
            None => several(entries, |e| e.number.to_string().starts_with(wanted)),
        };
    }
    let wanted = folded(wanted);
    let whole: Vec<usize> = rows(entries, |e| {
        [&e.family, &e.given].iter().any(|n| folded(n) == wanted)
            || both_ways(e).contains(&wanted)
    });
    if let [row] = whole.as_slice() {
        return Found::One(*row);
    }
    let begun = rows(entries, |e| {
        both_ways(e).iter().any(|name| {
            let mut rest = name.as_str();
            loop {
                if rest.starts_with(&wanted) {
                    return true;
                }
                match rest.split_once([' ', '-']) {
                    Some((_, after)) => rest = after,
                    None => return false,
                }
            }
        })
    });
    match begun.as_slice() {
        [] => Found::Nobody,
        [row] => Found::One(*row),
        _ => Found::Several(begun),
    }
}

fn rows(entries: &[&Entry], fits: impl Fn(&Entry) -> bool) -> Vec<usize> {
    (0..entries.len())
        .filter(|row| fits(entries[*row]))
        .collect()
}

fn several(entries: &[&Entry], fits: impl Fn(&Entry) -> bool) -> Found {
    match rows(entries, fits) {
        none if none.is_empty() => Found::Nobody,
        some => Found::Several(some),
    }
}

/// Given and family name in either order.
fn both_ways(entry: &Entry) -> [String; 2] {
    let (given, family) = (folded(&entry.given), folded(&entry.family));
    [
        format!("{given} {family}").trim().to_owned(),
        format!("{family} {given}").trim().to_owned(),
    ]
}

/// Letters with marks, behind the plain letters that a keyboard has for them.
const MARKED: [(&str, &str); 33] = [
    ("a", "àáâãäåāăąǎạảấầẩẫậắằẳẵặ"),
    ("ae", "æ"),
    ("c", "çćĉċč"),
    ("d", "ďđð"),
    ("e", "èéêëēĕėęěẹẻẽếềểễệ"),
    ("g", "ĝğġģ"),
    ("h", "ĥħ"),
    ("i", "ìíîïĩīĭįıỉị"),
    ("j", "ĵ"),
    ("k", "ķ"),
    ("l", "ĺļľŀł"),
    ("n", "ñńņňŋ"),
    ("o", "òóôõöøōŏőơọỏốồổỗộớờởỡợ"),
    ("oe", "œ"),
    ("r", "ŕŗř"),
    ("s", "śŝşšș"),
    ("ss", "ß"),
    ("t", "ţťŧț"),
    ("th", "þ"),
    ("u", "ùúûüũūŭůűųưụủứừửữự"),
    ("w", "ŵẁẃẅ"),
    ("y", "ýÿŷỳỵỷỹ"),
    ("z", "źżž"),
    ("α", "ά"),
    ("ε", "έ"),
    ("η", "ή"),
    ("ι", "ίϊΐ"),
    ("ο", "ό"),
    ("σ", "ς"),
    ("υ", "ύϋΰ"),
    ("ω", "ώ"),
    ("е", "ё"),
    ("'", "’ʻ"),
];

/// A text in small letters without marks, with single blanks; a comma is a
/// blank.
fn folded(text: &str) -> String {
    let mut plain = String::with_capacity(text.len());
    for letter in text.chars().flat_map(char::to_lowercase) {
        if letter.is_ascii() && letter != ',' {
            plain.push(letter);
            continue;
        }
        match MARKED.iter().find(|(_, marked)| marked.contains(letter)) {
            Some((letters, _)) => plain.push_str(letters),
            // A mark that follows its letter.
            None if ('\u{300}'..='\u{36f}').contains(&letter) => {}
            None if letter == ',' => plain.push(' '),
            None => plain.push(letter),
        }
    }
    plain.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::roster::EntryKey;

    fn entries(names: &[(u16, &str, &str)]) -> Vec<Entry> {
        let entry = |(at, (number, given, family)): (u32, &(u16, &str, &str))| {
            let mut entry = Entry::new(EntryKey(at), *number);
            (*given).clone_into(&mut entry.given);
            (*family).clone_into(&mut entry.family);
            entry
        };
        (0..).zip(names).map(entry).collect()
    }

    fn found(text: &str) -> Found {
        // Invented names.
        let all = entries(&[
            (4, "Te Ariki", "Parewhata"),
            (12, "Łukasz", "Brzoz"),
            (41, "Inés", "Arrecife"),
            (47, "Ngozi", "Adanweke"),
            (48, "Inez", "Asante-Boru"),
            (61, "Þóra", "Hrafn"),
            (62, "Li", "Aman"),
            (63, "Lia", "Lindqvarn"),
            (64, "Ελένη", "Βαρδαλίδου"),
        ]);
        find(&all.iter().collect::<Vec<_>>(), text)
    }

    #[test]
    fn a_number_means_just_that_number() {
        assert_eq!(found("4"), Found::One(0));
        assert_eq!(found(" 47 "), Found::One(3));
        // Nobody has 6, so nobody is taken for it.
        assert_eq!(found("6"), Found::Several(vec![5, 6, 7, 8]));
        assert_eq!(found("9"), Found::Nobody);
        assert_eq!(found("04"), Found::One(0));
        assert_eq!(found("62.4"), Found::Nobody);
    }

    #[test]
    fn a_name_is_found_by_the_beginning_of_any_of_its_words() {
        for (text, row) in [
            ("pare", 0),
            ("ARIKI", 0),
            ("te ar", 0),
            ("parewhata te", 0),
            ("boru", 4),
            ("arrecife, ines", 2),
            ("ngozi a", 3),
            ("βαρ", 8),
            ("ελενη", 8),
        ] {
            assert_eq!(found(text), Found::One(row), "{text}");
        }
        assert_eq!(found("x"), Found::Nobody);
        assert_eq!(found("ukasz"), Found::Nobody);
    }

    #[test]
    fn marks_needn_t_be_typed() {
        assert_eq!(found("lukasz"), Found::One(1));
        assert_eq!(found("thor"), Found::One(5));
        assert_eq!(found("inés"), Found::One(2));
        assert_eq!(found("Ine\u{301}s"), Found::One(2));
        assert_eq!(found("ine"), Found::Several(vec![2, 4]));
    }

    #[test]
    fn a_whole_name_goes_before_the_beginning_of_another() {
        assert_eq!(found("li"), Found::One(6));
        assert_eq!(found("l"), Found::Several(vec![1, 6, 7]));
    }
}
