//! `key=value; key=value`, and an act's identifier before its remark.

/// Reads `key=value; key=value`.
///
/// A value with `;`, `=` or a quote stands in double quotes, doubled inside.
/// Keys keep their case; a key may have spaces inside.
///
/// # Errors
/// A sentence that shows how it is written.
pub fn pairs(text: &str) -> Result<Vec<(String, String)>, String> {
    let mut found: Vec<(String, String)> = Vec::new();
    for part in parts(text)? {
        let part = part.trim();
        if part.is_empty() {
            continue;
        }
        // The plan of a session may go on behind a semicolon without quotes.
        if !part.contains('=')
            && let Some((_, plan)) =
                found.last_mut().filter(|(k, _)| k.starts_with("session."))
        {
            plan.push_str("; ");
            plan.push_str(part);
            continue;
        }
        let Some((key, value)) = part.split_once('=') else {
            return Err(format!(
                "“{part}” is not key=value; write key=value; key=value, with a value that \
                 has ; or = in double quotes."
            ));
        };
        let key = key.trim();
        if key.is_empty() {
            return Err(format!("“{part}” has no key before its = sign."));
        }
        if found.iter().any(|(k, _)| k.eq_ignore_ascii_case(key)) {
            return Err(format!("“{key}” is there twice; leave one of them."));
        }
        found.push((key.to_owned(), unquoted(value.trim())?));
    }
    Ok(found)
}

/// Writes `key=value; key=value` so that [`pairs`] reads it back.
pub fn show_pairs(pairs: &[(String, String)]) -> String {
    let parts: Vec<String> = pairs
        .iter()
        .map(|(key, value)| format!("{key}={}", quoted(value)))
        .collect();
    parts.join("; ")
}

/// Splits `ID; rest`; an id with `;` in it stands in double quotes.
pub fn split_id(text: &str) -> (String, &str) {
    let text = text.trim();
    if let Some(inside) = text.strip_prefix('"') {
        let mut id = String::new();
        let mut chars = inside.char_indices().peekable();
        while let Some((at, c)) = chars.next() {
            if c != '"' {
                id.push(c);
            } else if chars.next_if(|(_, c)| *c == '"').is_some() {
                id.push('"');
            } else {
                let rest = inside[at + 1..].trim_start();
                return (id, rest.strip_prefix(';').unwrap_or(rest).trim());
            }
        }
    }
    match text.split_once(';') {
        Some((id, rest)) => (id.trim().to_owned(), rest.trim()),
        None => (text.to_owned(), ""),
    }
}

/// An identifier as [`split_id`] reads it back.
pub(in crate::exchange) fn show_id(id: &str) -> String {
    quoted(id)
}

/// The parts between semicolons outside quotes.
fn parts(text: &str) -> Result<Vec<&str>, String> {
    let mut found = Vec::new();
    let mut from = 0;
    let mut open = false;
    for (at, c) in text.char_indices() {
        match c {
            '"' => open = !open,
            ';' if !open => {
                found.push(&text[from..at]);
                from = at + 1;
            }
            _ => {}
        }
    }
    if open {
        return Err(format!(
            "A quote in “{text}” is never closed; double a quote that belongs to the text."
        ));
    }
    found.push(&text[from..]);
    Ok(found)
}

fn unquoted(value: &str) -> Result<String, String> {
    let Some(inside) = value.strip_prefix('"') else {
        return Ok(value.to_owned());
    };
    match inside.strip_suffix('"') {
        Some(inside) if !inside.replace("\"\"", "").contains('"') => {
            Ok(inside.replace("\"\"", "\""))
        }
        _ => Err(format!(
            "“{value}” isn't one quoted value; double a quote that belongs to the text."
        )),
    }
}

fn quoted(value: &str) -> String {
    if value.contains([';', '=', '"']) || value != value.trim() {
        format!("\"{}\"", value.replace('"', "\"\""))
    } else {
        value.to_owned()
    }
}
