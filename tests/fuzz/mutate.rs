//! Spoils sound inputs in ways that look like chance and can be had again.

/// Numbers that look like chance (an xorshift).
pub struct Dice(u64);

impl Dice {
    pub fn new(seed: u64) -> Self {
        Self(seed.wrapping_mul(0x9e37_79b9_7f4a_7c15) | 1)
    }

    pub fn next(&mut self) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        self.0
    }

    /// A number below `n`, 0 where `n` is 0.
    pub fn below(&mut self, n: usize) -> usize {
        let n = n as u64;
        usize::try_from(self.next().checked_rem(n).unwrap_or(0)).unwrap()
    }

    fn of<'a, T: ?Sized>(&mut self, list: &[&'a T]) -> &'a T {
        list[self.below(list.len())]
    }
}

/// Words that upset many readers.
const ODD: &[&str] = &[
    "",
    "\0",
    "\u{feff}",
    "\r\n",
    "\n",
    "\r",
    "\"",
    "\"\"",
    ",",
    ";",
    "\t",
    "=",
    ":",
    "-",
    "+",
    "0",
    "-0",
    "-1",
    "1e9",
    "NaN",
    "inf",
    "0.0000000000001",
    "9223372036854775807",
    "-9223372036854775808",
    "18446744073709551616",
    "99999999999999999999999999",
    "65535",
    "65536",
    "255",
    "256",
    "10000",
    "١٢",
    "１２",
    "½",
    "é",
    "e\u{301}",
    "\u{202e}",
    "\u{1f3cb}",
    "ẞ",
    "İ",
    "ﬁ",
];

/// The longest input.
const MOST: usize = 1 << 20;

/// A seed, spoilt a few times.
pub fn spoilt(dice: &mut Dice, seeds: &[Vec<u8>], words: &[&str]) -> Vec<u8> {
    let mut input = seeds[dice.below(seeds.len())].clone();
    // Large inputs are cut to a piece now and then, so that more are tried.
    if input.len() > 4_000 && dice.below(3) > 0 && input.starts_with(b"act") {
        input = piece_of_lines(dice, &input);
    }
    let times = 1 + dice.below(6);
    for _ in 0..times {
        once(dice, &mut input, seeds, words);
        input.truncate(MOST);
    }
    input
}

fn once(dice: &mut Dice, input: &mut Vec<u8>, seeds: &[Vec<u8>], words: &[&str]) {
    let at = dice.below(input.len() + 1);
    match dice.below(12) {
        0 if at < input.len() => input[at] ^= 1 << dice.below(8),
        1 if at < input.len() => input[at] = dice.next().to_le_bytes()[0],
        2 => drop(cut(dice, input, at)),
        3 => {
            let piece = cut(dice, &mut input.clone(), at);
            insert(input, at, &piece);
        }
        4 => {
            let piece = cut(dice, &mut input.clone(), at);
            let to = dice.below(input.len() + 1);
            insert(input, to, &piece);
        }
        5 => {
            let mut other = seeds[dice.below(seeds.len())].clone();
            let from = dice.below(other.len() + 1);
            let piece = cut(dice, &mut other, from);
            insert(input, at, &piece);
        }
        6 => input.truncate(at),
        7 | 8 => {
            let word = dice.of(ODD);
            put(dice, input, at, word.as_bytes());
        }
        9 | 10 if !words.is_empty() => {
            let word = dice.of(words);
            put(dice, input, at, word.as_bytes());
        }
        _ => number(dice, input),
    }
}

/// Takes a piece out.
fn cut(dice: &mut Dice, input: &mut Vec<u8>, at: usize) -> Vec<u8> {
    let most = input.len().saturating_sub(at);
    let long = match dice.below(4) {
        0 => dice.below(most + 1),
        _ => dice.below(most.min(24) + 1),
    };
    input.drain(at..at + long).collect()
}

fn insert(input: &mut Vec<u8>, at: usize, piece: &[u8]) {
    drop(input.splice(at..at, piece.iter().copied()));
}

/// Puts a word in, or in place of as much as it is long or of the cell there.
fn put(dice: &mut Dice, input: &mut Vec<u8>, at: usize, word: &[u8]) {
    let until = match dice.below(3) {
        0 => at,
        1 => (at + word.len()).min(input.len()),
        _ => {
            let ends = |b: &u8| b",;\n \"=".contains(b);
            input[at..]
                .iter()
                .position(ends)
                .map_or(input.len(), |n| at + n)
        }
    };
    drop(input.splice(at..until, word.iter().copied()));
}

/// Changes a number that is written somewhere.
fn number(dice: &mut Dice, input: &mut [u8]) {
    let digits: Vec<usize> = input
        .iter()
        .enumerate()
        .filter(|(_, b)| b.is_ascii_digit())
        .map(|(n, _)| n)
        .collect();
    if let Some(at) = digits.get(dice.below(digits.len())) {
        input[*at] = b'0' + dice.next().to_le_bytes()[0] % 10;
    }
}

/// The header and some lines that follow each other.
fn piece_of_lines(dice: &mut Dice, input: &[u8]) -> Vec<u8> {
    let lines: Vec<&[u8]> = input.split_inclusive(|b| *b == b'\n').collect();
    let from = 1 + dice.below(lines.len().saturating_sub(1));
    let until = (from + 1 + dice.below(40)).min(lines.len());
    let mut piece = lines[0].to_vec();
    // The beginning of a day is what all else stands on.
    if dice.below(2) == 0 {
        let begin = lines.len().min(1 + dice.below(30));
        piece.extend(lines[1..begin.max(1)].concat());
    }
    piece.extend(lines[from.min(until)..until].concat());
    piece
}
