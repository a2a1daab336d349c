//! A short tone at a clock's marks, by whatever player the system has.
//!
//! Nothing depends on it: it never waits, and what fails is silent. The table
//! shows the same mark at the same moment.

use std::fs::File;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

use crate::sheets::ClockMark;

/// Samples a second.
const RATE: u32 = 22_050;

/// Tones of the desk, on or off.
#[derive(Debug)]
pub struct Sound {
    on: bool,
    /// Whether this desk may make any: not where the time stands, as in tests.
    real: bool,
    /// The marks that were sounded, for tests.
    sounded: Vec<ClockMark>,
    /// Whether a player is at work.
    busy: Arc<AtomicBool>,
    files: Vec<PathBuf>,
}

impl Sound {
    /// On; `real` where tones may be made.
    pub fn new(real: bool) -> Self {
        Self {
            on: true,
            real,
            sounded: Vec::new(),
            busy: Arc::default(),
            files: Vec::new(),
        }
    }

    /// Whether it is on.
    pub const fn is_on(&self) -> bool {
        self.on
    }

    /// On or off.
    pub const fn turn(&mut self) {
        self.on = !self.on;
    }

    /// The marks that were sounded so far where none are made, newest last.
    pub fn sounded(&self) -> &[ClockMark] {
        &self.sounded
    }

    /// Sounds a mark, if it is on; returns at once.
    pub fn play(&mut self, mark: ClockMark) {
        if !self.on {
            return;
        }
        if !self.real {
            self.sounded.push(mark);
            return;
        }
        // One tone at a time; a player that hangs stays alone.
        if self.busy.swap(true, Ordering::Relaxed) {
            return;
        }
        let file = self.file(mark);
        let busy = Arc::clone(&self.busy);
        let work = move || {
            for (program, arguments) in players(file.as_deref()) {
                if ran(program, &arguments) {
                    break;
                }
            }
            busy.store(false, Ordering::Relaxed);
        };
        let thread = std::thread::Builder::new().name("tone".to_owned());
        if thread.spawn(work).is_err() {
            self.busy.store(false, Ordering::Relaxed);
        }
    }

    /// The tone's file, made where it isn't there yet.
    fn file(&mut self, mark: ClockMark) -> Option<PathBuf> {
        let word = match mark {
            ClockMark::FinalCall => "final-call",
            ClockMark::Up => "time-up",
        };
        let name = format!("maxday-{}-{word}.wav", std::process::id());
        let path = std::env::temp_dir().join(name);
        if self.files.contains(&path) {
            return Some(path);
        }
        let mut file = File::create_new(&path).ok()?;
        file.write_all(&tone(mark)).ok()?;
        self.files.push(path.clone());
        Some(path)
    }
}

impl Drop for Sound {
    fn drop(&mut self) {
        for file in &self.files {
            let _ = std::fs::remove_file(file);
        }
    }
}

/// The players to try, in order. Each comes with its system or is common on
/// it; which system it is, is asked when it runs.
fn players(file: Option<&Path>) -> Vec<(&'static str, Vec<String>)> {
    let file = file.map(|path| path.to_string_lossy().into_owned());
    let with = |program, options: &[&str]| {
        let mut arguments: Vec<String> =
            options.iter().map(|o| (*o).to_owned()).collect();
        arguments.push(file.clone()?);
        Some((program, arguments))
    };
    match std::env::consts::OS {
        "windows" => {
            // The system's own signal: it has a file of its own for it.
            vec![("rundll32.exe", vec!["user32.dll,MessageBeep".to_owned()])]
        }
        "macos" => with("afplay", &[]).into_iter().collect(),
        _ => [
            with("pw-play", &[]),
            with("paplay", &[]),
            with("aplay", &["-q"]),
        ]
        .into_iter()
        .flatten()
        .collect(),
    }
}

/// Runs a player to its end; whether that went well.
fn ran(program: &str, arguments: &[String]) -> bool {
    Command::new(program)
        .args(arguments)
        .stdin(Stdio::null())
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .status()
        .is_ok_and(|status| status.success())
}

/// A tone as a WAV file (RIFF, 16 bits a sample, one channel): one beat at the
/// final call, two lower ones at the end.
fn tone(mark: ClockMark) -> Vec<u8> {
    // The half wave of a square tone, in samples: about 880 and 440 a second.
    let (half, beats) = match mark {
        ClockMark::FinalCall => (12_u32, 1_u32),
        ClockMark::Up => (25, 2),
    };
    let (beat, pause) = (RATE / 4, RATE / 10);
    let mut samples: Vec<u8> = Vec::new();
    for _ in 0..beats {
        for at in 0..beat {
            let high = (at / half).is_multiple_of(2);
            let level: i16 = if high { 6_000 } else { -6_000 };
            samples.extend(level.to_le_bytes());
        }
        samples.extend((0..pause).flat_map(|_| 0_i16.to_le_bytes()));
    }
    let long = u32::try_from(samples.len()).unwrap_or(0);
    let mut file = Vec::with_capacity(samples.len() + 44);
    file.extend(b"RIFF");
    file.extend((36 + long).to_le_bytes());
    file.extend(b"WAVEfmt ");
    file.extend(16_u32.to_le_bytes());
    file.extend(1_u16.to_le_bytes());
    file.extend(1_u16.to_le_bytes());
    file.extend(RATE.to_le_bytes());
    file.extend((RATE * 2).to_le_bytes());
    file.extend(2_u16.to_le_bytes());
    file.extend(16_u16.to_le_bytes());
    file.extend(b"data");
    file.extend(long.to_le_bytes());
    file.extend(samples);
    file
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_tone_is_a_whole_file() {
        for mark in [ClockMark::FinalCall, ClockMark::Up] {
            let file = tone(mark);
            let long = u32::try_from(file.len()).unwrap();
            assert_eq!(&file[..4], b"RIFF");
            assert_eq!(file[4..8], (long - 8).to_le_bytes());
            assert_eq!(file[40..44], (long - 44).to_le_bytes());
        }
    }

    #[test]
    fn without_a_player_nothing_happens() {
        assert!(!ran("maxday-has-no-such-player", &[]));
    }

    #[test]
    fn what_is_off_is_silent() {
        let mut sound = Sound::new(false);
        sound.play(ClockMark::FinalCall);
        sound.turn();
        sound.play(ClockMark::Up);
        assert_eq!(sound.sounded(), [ClockMark::FinalCall]);
    }
}
