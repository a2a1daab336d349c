//! Tables as an `.xlsx` workbook.

use rust_xlsxwriter::{
    DocProperties, ExcelDateTime, Format, FormatAlign, Workbook, Worksheet, XlsxError,
};

use crate::day::Stamp;
use crate::sheets::{Cell, Table};

/// Decimals to which the masses of a column are lined up; a load that was typed in
/// the other unit may have more and then shows all of its own.
const LINED_UP: usize = 3;

/// Columns of texts that are numbers more often than not, and sort as such.
const NUMBERED: [&str; 2] = ["grade", "session"];

/// What a workbook is of.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct About<'a> {
    /// Its title.
    pub title: &'a str,
    /// For whom it is: `private` or `for posting`; stands on every printed page.
    pub audience: &'a str,
    /// When it was made, which the file tells of itself.
    pub made: Stamp,
}

/// Tables as a workbook, a sheet each under its name, with the columns and rows of
/// their CSV.
///
/// Counts and masses are numbers, all else is text; no text is ever a formula.
/// Attempts that were no lift are struck through.
///
/// # Errors
/// A sentence, where a sheet's name or a text is longer than a workbook allows.
pub fn workbook(sheets: &[(&str, Table)], about: &About<'_>) -> Result<Vec<u8>, String> {
    write(sheets, about).map_err(|e| format!("The workbook can't be made: {e}."))
}

fn write(sheets: &[(&str, Table)], about: &About<'_>) -> Result<Vec<u8>, XlsxError> {
    let mut book = Workbook::new();
    let made = ExcelDateTime::from_timestamp(about.made.ms.div_euclid(1000))?;
    let _ = book.set_properties(
        &DocProperties::new()
            .set_title(about.title)
            .set_subject(about.audience)
            .set_creation_datetime(&made),
    );
    for (name, table) in sheets {
        let sheet = book.add_worksheet();
        let _ = sheet.set_name(*name)?;
        fill(sheet, table)?;
        let _ = sheet
            .set_freeze_panes(1, 0)?
            .set_repeat_rows(0, 0)?
            .set_landscape()
            .set_print_fit_to_pages(1, 0)
            .set_footer(format!("&L{name}, {}&RPage &P of &N", about.audience));
    }
    book.save_to_buffer()
}

/// What stands in one cell of a sheet.
enum Put {
    Nothing,
    Text(String),
    /// A whole number.
    Count(f64),
    /// A decimal with as many decimals as it is written with, struck through or not.
    Decimal(f64, usize, bool),
}

fn fill(sheet: &mut Worksheet, table: &Table) -> Result<(), XlsxError> {
    let mut columns: Vec<(String, bool)> = Vec::new();
    for column in &table.columns {
        let numbers = NUMBERED.contains(&column.key.as_str());
        columns.push((column.key.clone(), numbers));
        if column.attempt {
            columns.push((format!("{} ruling", column.key), false));
        }
    }
    let rows: Vec<Vec<Put>> = table
        .groups
        .iter()
        .flat_map(|group| &group.rows)
        .map(|row| {
            let cells = row.iter().zip(&table.columns);
            cells
                .flat_map(|(cell, column)| {
                    let numbers = NUMBERED.contains(&column.key.as_str());
                    let mut puts = puts(cell, numbers);
                    let width = if column.attempt { 2 } else { 1 };
                    puts.resize_with(width, || Put::Nothing);
                    puts
                })
                .collect()
        })
        .collect();
    let head = Format::new()
        .set_bold()
        .set_text_wrap()
        .set_align(FormatAlign::Top);
    for (at, (name, _)) in (0_u16..).zip(&columns) {
        let cells = || rows.iter().filter_map(|row| row.get(usize::from(at)));
        let decimals = cells().map(decimals).filter(|d| *d <= LINED_UP).max();
        let decimals = decimals.unwrap_or_default();
        let _ = sheet.write_string_with_format(0, at, name, &head)?;
        let mut widest = name.split(' ').map(|w| w.chars().count()).max();
        for (row, cell) in (1_u32..).zip(cells()) {
            widest = widest.max(Some(put(sheet, (row, at), cell, decimals)?));
        }
        let width = widest.unwrap_or_default().clamp(5, 48) + 2;
        let _ = sheet.set_column_width(at, u8::try_from(width).unwrap_or(50))?;
    }
    Ok(())
}

fn puts(cell: &Cell, numbers: bool) -> Vec<Put> {
    let texts = cell.csv();
    let mut texts = texts.into_iter();
    let first = texts.next().unwrap_or_default();
    let first = match cell {
        Cell::Blank => Put::Nothing,
        Cell::Count(_) => first.parse().map_or(Put::Text(first), Put::Count),
        Cell::Text(_) if numbers => match first.parse::<u16>() {
            Ok(n) if n.to_string() == first => Put::Count(f64::from(n)),
            _ => Put::Text(first),
        },
        Cell::Text(_) => Put::Text(first),
        Cell::Mass(..) | Cell::Estimate(..) | Cell::Decimal(_) | Cell::Attempt { .. } => {
            let decimals = first.split_once('.').map_or(0, |(_, d)| d.len());
            match first.parse() {
                Ok(n) => Put::Decimal(n, decimals, cell.struck()),
                Err(_) if first.is_empty() => Put::Nothing,
                Err(_) => Put::Text(first),
            }
        }
    };
    let rest = texts.map(|text| match text.as_str() {
        "" => Put::Nothing,
        _ => Put::Text(text),
    });
    std::iter::once(first).chain(rest).collect()
}

const fn decimals(put: &Put) -> usize {
    match put {
        Put::Decimal(_, decimals, _) => *decimals,
        Put::Nothing | Put::Text(_) | Put::Count(_) => 0,
    }
}

/// Writes a cell; gives how many characters wide it is.
fn put(
    sheet: &mut Worksheet,
    (row, column): (u32, u16),
    cell: &Put,
    lined_up: usize,
) -> Result<usize, XlsxError> {
    match cell {
        Put::Nothing => Ok(0),
        Put::Text(text) => {
            // Without the prefix, whoever edits such a cell makes a formula of it.
            let risky = text.starts_with(['=', '+', '-', '@']);
            let _ = if risky {
                let format = Format::new().set_quote_prefix();
                sheet.write_string_with_format(row, column, text, &format)?
            } else {
                sheet.write_string(row, column, text)?
            };
            Ok(text.chars().count())
        }
        Put::Count(n) => {
            let format = Format::new().set_num_format("0");
            let _ = sheet.write_number_with_format(row, column, *n, &format)?;
            Ok(n.to_string().len())
        }
        Put::Decimal(n, decimals, struck) => {
            let decimals = lined_up.max(*decimals);
            let code = match decimals {
                0 => "0".to_owned(),
                d => format!("0.{}", "0".repeat(d)),
            };
            let mut format = Format::new().set_num_format(code);
            if *struck {
                format = format.set_font_strikethrough();
            }
            let _ = sheet.write_number_with_format(row, column, *n, &format)?;
            Ok(n.to_string().len().max(decimals + 4))
        }
    }
}
