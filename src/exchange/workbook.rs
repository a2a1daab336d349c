//! A workbook's first sheet as rows of text cells, as a CSV file would have them.

use std::collections::BTreeMap;
use std::io::{Cursor, Read, sink};

use calamine::{
    DataRef, ExcelDateTime, Reader, SheetType, SheetVisible, Xlsx, XlsxError,
};

use super::Fault;
use super::text::{Row, Sheet};

/// Largest file, in bytes; a roster of thousands is far below a megabyte.
const MOST_PACKED: usize = 20_000_000;

/// Most bytes that its parts may unpack to, so that a small file can't fill memory.
const MOST_UNPACKED: u64 = 100_000_000;

/// Most filled cells; ten thousand athletes with fifty columns have half of it.
const MOST_CELLS: usize = 1_000_000;

const TOO_LARGE: &str = "The workbook is too large for a roster: it may have 20 MB, \
     100 MB unpacked and 1,000,000 filled cells; save the sheet with the roster alone.";

const BROKEN: &str = "The workbook is damaged and can't be read; open it in the \
     spreadsheet program and save it as .xlsx again, or as CSV.";

const LOCKED: &str = "The workbook is protected by a password; save it without one, or \
     as CSV.";

const OLD: &str = "This is a spreadsheet of the old form (.xls); save it as .xlsx or as \
     CSV.";

const OTHER: &str = "This is a packed file but no .xlsx workbook; save the roster as \
     .xlsx or as CSV.";

const EMPTY: &str = "The workbook's first sheet is empty; it needs a header row and \
     rows under it.";

/// Whether these bytes are a spreadsheet program's own file and no text.
pub fn is_workbook(bytes: &[u8]) -> bool {
    bytes.starts_with(b"PK\x03\x04")
        || bytes.starts_with(b"PK\x05\x06")
        || bytes.starts_with(&[0xD0, 0xCF, 0x11, 0xE0])
}

/// Reads the first sheet of an `.xlsx` workbook that isn't hidden.
///
/// Numbers become plain decimals of at most 15 figures (what a spreadsheet
/// keeps), dates `2009-04-03`, truth values `TRUE` and `FALSE`; a formula counts
/// by the value that was saved with it, merged cells by their first one. A cell
/// that shows an error has its word, such as `#N/A`. Rows are numbered as the
/// sheet numbers them.
///
/// # Errors
/// [`Fault`] of the whole file where it is locked, damaged, too large, empty or no
/// such workbook.
pub fn workbook_sheet(bytes: &[u8]) -> Result<Sheet, Fault> {
    if bytes.starts_with(&[0xD0, 0xCF, 0x11, 0xE0]) {
        let name: Vec<u8> = "EncryptedPackage".bytes().flat_map(|b| [b, 0]).collect();
        let locked = bytes.windows(name.len()).any(|part| part == name);
        return Err(Fault::whole(if locked { LOCKED } else { OLD }));
    }
    measure(bytes)?;
    let mut book: Xlsx<_> = Xlsx::new(Cursor::new(bytes)).map_err(|e| why(&e))?;
    let sheets = book.sheets_metadata().to_vec();
    let mut sheets = sheets.iter().filter(|s| s.typ == SheetType::WorkSheet);
    let first = sheets.clone().find(|s| s.visible == SheetVisible::Visible);
    let Some(first) = first.or_else(|| sheets.next()) else {
        return Err(Fault::whole(EMPTY));
    };
    let rows = filled(&mut book, &first.name)?;
    sheet_of(rows)
}

/// Refuses what would unpack to more than a roster can be.
fn measure(bytes: &[u8]) -> Result<(), Fault> {
    if bytes.len() > MOST_PACKED {
        return Err(Fault::whole(TOO_LARGE));
    }
    let broken = || Fault::whole(BROKEN);
    let mut parts = zip::ZipArchive::new(Cursor::new(bytes)).map_err(|_| broken())?;
    let mut is_xlsx = false;
    let mut left = MOST_UNPACKED;
    for at in 0..parts.len() {
        let part = parts.by_index(at).map_err(|_| broken())?;
        let name = part.name().map_err(|_| broken())?;
        is_xlsx |= name.eq_ignore_ascii_case("[Content_Types].xml");
        // What the directory says of a part's size may be a lie.
        let mut part = part.take(left.saturating_add(1));
        let size = std::io::copy(&mut part, &mut sink()).map_err(|_| broken())?;
        left = left
            .checked_sub(size)
            .ok_or_else(|| Fault::whole(TOO_LARGE))?;
    }
    if is_xlsx {
        Ok(())
    } else {
        Err(Fault::whole(OTHER))
    }
}

fn why(error: &XlsxError) -> Fault {
    Fault::whole(if matches!(error, XlsxError::Password) {
        LOCKED
    } else {
        BROKEN
    })
}

/// The filled cells by row and column, both from 0.
type Filled = BTreeMap<u32, BTreeMap<u32, String>>;

fn filled(book: &mut Xlsx<Cursor<&[u8]>>, name: &str) -> Result<Filled, Fault> {
    let mut rows = Filled::new();
    let mut reader = book.worksheet_cells_reader(name).map_err(|e| why(&e))?;
    let zeros: Vec<usize> = reader.styles().iter().map(leading_zeros).collect();
    let mut n = 0;
    while let Some((cell, style)) =
        reader.next_cell_with_style_id().map_err(|e| why(&e))?
    {
        let least = zeros.get(style).copied().unwrap_or_default();
        let text = text_of(cell.get_value(), least);
        if text.is_empty() {
            continue;
        }
        n += 1;
        if n > MOST_CELLS {
            return Err(Fault::whole(TOO_LARGE));
        }
        let (row, column) = cell.get_position();
        let _ = rows.entry(row).or_default().insert(column, text);
    }
    Ok(rows)
}

/// How many figures a format such as `00000` fills up to; 0 for every other.
///
/// Schools keep their numbers' leading zeros in this way.
fn leading_zeros(style: &calamine::Style) -> usize {
    let code = style
        .number_format
        .as_ref()
        .map_or("", |f| f.format_code.as_str());
    if code.len() > 1 && code.bytes().all(|b| b == b'0') {
        code.len()
    } else {
        0
    }
}

fn text_of(value: &DataRef<'_>, figures: usize) -> String {
    match value {
        DataRef::Empty => String::new(),
        DataRef::String(text) => text.clone(),
        DataRef::SharedString(text) => (*text).to_owned(),
        DataRef::Int(n) => format!("{n:0>figures$}"),
        DataRef::Float(n) => format!("{:0>figures$}", number(*n)),
        DataRef::Bool(true) => "TRUE".to_owned(),
        DataRef::Bool(false) => "FALSE".to_owned(),
        DataRef::DateTime(time) => moment(time),
        DataRef::DateTimeIso(text) => {
            text.strip_suffix("T00:00:00").unwrap_or(text).to_owned()
        }
        DataRef::DurationIso(text) => text.clone(),
        DataRef::Error(error) => error.to_string(),
    }
}

/// A plain decimal without an exponent, of 15 figures at most: the rest is noise of
/// floating point, as in 61.2 that was computed.
fn number(n: f64) -> String {
    let rounded = format!("{n:.14e}").parse::<f64>().unwrap_or(n);
    let text = rounded.to_string();
    if text == "-0" { "0".to_owned() } else { text }
}

fn moment(time: &ExcelDateTime) -> String {
    let (year, month, day, hour, minute, second, _) = time.to_ymd_hms_milli();
    let clock = if second == 0 {
        format!("{hour:02}:{minute:02}")
    } else {
        format!("{hour:02}:{minute:02}:{second:02}")
    };
    let whole_day = (hour, minute, second) == (0, 0, 0);
    if time.is_duration() || (0.0..1.0).contains(&time.as_f64()) {
        clock
    } else if whole_day {
        format!("{year:04}-{month:02}-{day:02}")
    } else {
        format!("{year:04}-{month:02}-{day:02} {clock}")
    }
}

fn sheet_of(rows: Filled) -> Result<Sheet, Fault> {
    let mut rows = rows
        .into_iter()
        .filter(|(_, cells)| cells.values().any(|text| !text.trim().is_empty()));
    let Some((at, cells)) = rows.next() else {
        return Err(Fault::whole(EMPTY));
    };
    let mut filled = cells.iter().filter(|(_, text)| !text.trim().is_empty());
    let width = filled.next_back().map_or(0, |(column, _)| column + 1);
    let header = row_of(at, &cells, width);
    let mut sheet = Sheet {
        delimiter: ',',
        header,
        rows: Vec::new(),
        faults: Vec::new(),
    };
    for (at, cells) in rows {
        let row = row_of(at, &cells, width);
        let beyond = cells.range(width..).find(|(_, t)| !t.trim().is_empty());
        match beyond {
            None => sheet.rows.push(row),
            Some((column, _)) => sheet.faults.push(Fault::at(
                row.place(),
                &letters(*column),
                "A cell is filled in a column without a header; write a header above \
                 it, or clear it.",
            )),
        }
    }
    Ok(sheet)
}

fn row_of(at: u32, cells: &BTreeMap<u32, String>, width: u32) -> Row {
    let number = u64::from(at) + 1;
    let text = |column| cells.get(&column).cloned().unwrap_or_default();
    Row {
        number,
        line: number,
        cells: (0..width).map(text).collect(),
    }
}

/// A column's letters as a spreadsheet writes them; `column` counts from 0.
fn letters(column: u32) -> String {
    let mut left = column + 1;
    let mut letters = Vec::new();
    while left > 0 {
        let letter = u8::try_from((left - 1) % 26).unwrap_or_default();
        letters.push(char::from(b'A' + letter));
        left = (left - 1) / 26;
    }
    letters.iter().rev().collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_plain_decimals() {
        for (n, text) in [
            (61.2, "61.2"),
            (0.1 + 0.2, "0.3"),
            (61.199_999_999_999_996, "61.2"),
            (135.0, "135"),
            (1e-7, "0.0000001"),
            (-0.0, "0"),
            (123_456_789_012_345.0, "123456789012345"),
        ] {
            assert_eq!(number(n), text);
        }
        assert_eq!(text_of(&DataRef::Float(123.0), 5), "00123");
    }

    #[test]
    fn columns_have_their_letters() {
        let all = [0, 25, 26, 701, 702].map(letters);
        assert_eq!(all, ["A", "Z", "AA", "ZZ", "AAA"]);
    }
}
