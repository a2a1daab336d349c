//! Records read straight from the pages of a database that SQLite may refuse.
//!
//! Follows the file format that SQLite has published ("Database File Format",
//! sqlite.org): leaves of tables, their cells, and the pages onto which a long
//! record flows over. Whatever doesn't fit is passed over without a word: the
//! journal's own chain says which of the records are to be believed.

use rusqlite::types::Value;

/// The most columns that a record of ours has.
const MOST_COLUMNS: usize = 32;

/// A record with its row's number.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Record {
    /// The row's number.
    pub(super) row: i64,
    /// Its columns, as they are stored.
    pub(super) columns: Vec<Value>,
}

/// All records that stand in leaves of tables, page by page.
///
/// Pages that are no leaf, or no longer one, are looked at all the same: the
/// byte that says so may be the one that is damaged.
pub(super) fn records(bytes: &[u8]) -> Vec<Record> {
    let file = File {
        bytes,
        page: page_size(bytes),
    };
    let mut found = Vec::new();
    for start in (0..bytes.len()).step_by(file.page) {
        file.leaf(start, &mut found);
    }
    found
}

/// The size of a page, 4,096 bytes where the header makes no sense.
fn page_size(bytes: &[u8]) -> usize {
    match bytes.get(16..18) {
        Some([0, 1]) => 65_536,
        Some([high, low]) => {
            let size = usize::from(u16::from_be_bytes([*high, *low]));
            if size.is_power_of_two() && size >= 512 {
                size
            } else {
                4_096
            }
        }
        _ => 4_096,
    }
}

struct File<'a> {
    bytes: &'a [u8],
    page: usize,
}

impl<'a> File<'a> {
    /// Reads the cells of the page that begins there.
    fn leaf(&self, start: usize, found: &mut Vec<Record>) {
        let end = (start + self.page).min(self.bytes.len());
        let page = &self.bytes[start..end];
        // The file's own header stands before that of the first page.
        let pointers = if start == 0 { 108 } else { 8 };
        for at in (pointers..page.len().saturating_sub(1)).step_by(2) {
            let pointer = usize::from(u16::from_be_bytes([page[at], page[at + 1]]));
            // Cells stand behind the pointers to them.
            if pointer < at + 2 || pointer >= page.len() {
                break;
            }
            if let Some(record) = self.cell(&page[pointer..]) {
                found.push(record);
            }
        }
    }

    fn cell(&self, mut cell: &'a [u8]) -> Option<Record> {
        let length = usize::try_from(varint(&mut cell)?).ok()?;
        let row = i64::from_be_bytes(varint(&mut cell)?.to_be_bytes());
        if row < 1 || length > self.bytes.len() {
            return None;
        }
        let payload = self.payload(cell, length)?;
        Some(Record {
            row,
            columns: columns(&payload)?,
        })
    }

    /// The record's bytes: those in the cell, then those on further pages.
    fn payload(&self, cell: &[u8], length: usize) -> Option<Vec<u8>> {
        let most = self.page - 35;
        if length <= most {
            return Some(cell.get(..length)?.to_vec());
        }
        let least = (self.page - 12) * 32 / 255 - 23;
        let fitted = least + (length - least) % (self.page - 4);
        let local = if fitted <= most { fitted } else { least };
        let mut payload = cell.get(..local)?.to_vec();
        let mut next = number(cell.get(local..local + 4)?);
        while payload.len() < length {
            let start = usize::try_from(next).ok()?.checked_sub(1)? * self.page;
            let page = self
                .bytes
                .get(start..(start + self.page).min(self.bytes.len()))?;
            next = number(page.get(..4)?);
            let wanted = (length - payload.len()).min(self.page - 4);
            payload.extend_from_slice(page.get(4..4 + wanted)?);
        }
        Some(payload)
    }
}

/// Up to eight bytes as an unsigned number.
fn number(bytes: &[u8]) -> u64 {
    bytes.iter().fold(0, |n, byte| n << 8 | u64::from(*byte))
}

/// A number of one to nine bytes; moves on behind it.
fn varint(bytes: &mut &[u8]) -> Option<u64> {
    let mut n = 0_u64;
    for i in 0..9 {
        let (byte, rest) = bytes.split_first()?;
        *bytes = rest;
        if i == 8 {
            return Some(n << 8 | u64::from(*byte));
        }
        n = n << 7 | u64::from(byte & 0x7f);
        if byte & 0x80 == 0 {
            return Some(n);
        }
    }
    None
}

/// A record's columns.
fn columns(payload: &[u8]) -> Option<Vec<Value>> {
    let mut head = payload;
    let size = usize::try_from(varint(&mut head)?).ok()?;
    let mut body = payload.get(size..)?;
    let mut head = payload.get(payload.len() - head.len()..size)?;
    let mut columns = Vec::new();
    while !head.is_empty() {
        if columns.len() == MOST_COLUMNS {
            return None;
        }
        let kind = varint(&mut head)?;
        columns.push(value(kind, &mut body)?);
    }
    Some(columns)
}

/// A value of that kind; moves on behind it.
fn value(kind: u64, body: &mut &[u8]) -> Option<Value> {
    let length = match kind {
        0 | 8 | 9 => 0,
        1..=4 => kind,
        5 => 6,
        6 | 7 => 8,
        10 | 11 => return None,
        _ => (kind - 12) / 2,
    };
    let (bytes, rest) = body.split_at_checked(usize::try_from(length).ok()?)?;
    *body = rest;
    Some(match kind {
        0 => Value::Null,
        1..=6 => Value::Integer(signed(bytes)),
        7 => Value::Real(f64::from_bits(number(bytes))),
        8 => Value::Integer(0),
        9 => Value::Integer(1),
        _ if kind.is_multiple_of(2) => Value::Blob(bytes.to_vec()),
        _ => Value::Text(String::from_utf8(bytes.to_vec()).ok()?),
    })
}

/// Up to eight bytes as a number with its sign in front.
fn signed(bytes: &[u8]) -> i64 {
    let fill = match bytes.first() {
        Some(byte) if byte & 0x80 != 0 => u64::MAX,
        _ => 0,
    };
    let n = bytes.iter().fold(fill, |n, byte| n << 8 | u64::from(*byte));
    i64::from_be_bytes(n.to_be_bytes())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn records_are_found_as_they_were_stored() {
        for page in [512, 4096, 65_536] {
            let folder = std::env::temp_dir();
            let path = folder.join(format!("maxday-scan-{page}-{}", std::process::id()));
            let _ = std::fs::remove_file(&path);
            let conn = rusqlite::Connection::open(&path).unwrap();
            conn.execute_batch(&format!(
                "PRAGMA page_size = {page}; CREATE TABLE t (n INTEGER PRIMARY KEY, a, b)"
            ))
            .unwrap();
            let values = |n: i64| {
                let long = usize::try_from(n * n * 7 % 30_000).unwrap();
                let number =
                    [0, 1, -1, 127, -129, 40_000, -3_000_000, i64::MAX, i64::MIN]
                        [usize::try_from(n % 9).unwrap()];
                (
                    match n % 4 {
                        0 => Value::Null,
                        1 => Value::Text("é".repeat(long)),
                        2 => Value::Blob(vec![7; long]),
                        _ => Value::Real(f64::from(u16::try_from(n).unwrap()) / 3.0),
                    },
                    Value::Integer(number << ((n % 3) * 8)),
                )
            };
            for n in 1..200 {
                let (a, b) = values(n);
                let _ = conn
                    .execute("INSERT INTO t VALUES (?1, ?2, ?3)", (n, a, b))
                    .unwrap();
            }
            drop(conn);
            let bytes = std::fs::read(&path).unwrap();
            std::fs::remove_file(&path).unwrap();
            let mut found: Vec<Record> = records(&bytes)
                .into_iter()
                .filter(|r| r.columns.len() == 3 && r.columns[0] == Value::Null)
                .collect();
            found.sort_by_key(|r| r.row);
            found.dedup();
            assert_eq!(found.len(), 199, "{page}");
            for (record, n) in found.into_iter().zip(1..) {
                let (a, b) = values(n);
                assert_eq!(record.row, n);
                assert_eq!(record.columns, [Value::Null, a, b], "{page}: row {n}");
            }
        }
    }

    #[test]
    fn noise_is_passed_over() {
        let mut n = 9_u64;
        for length in [0, 1, 17, 99, 100, 5_000, 20_000] {
            let noise: Vec<u8> = (0..length)
                .map(|_| {
                    n = n.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1);
                    n.to_be_bytes()[0]
                })
                .collect();
            let _ = records(&noise);
        }
    }
}
