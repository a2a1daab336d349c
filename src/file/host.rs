//! What can be known of this computer and its processes by portable means.
//!
//! A holder keeps a locked file in the folder for temporary files as long as
//! it lives. The system drops that lock when the process ends, however it
//! ends, so another process on the same computer can tell a crash from a
//! slow holder at once.

use std::fs::{File, TryLockError};
use std::path::PathBuf;

/// The name of this computer, as far as its environment tells it.
pub(super) fn name() -> String {
    ["COMPUTERNAME", "HOSTNAME"]
        .iter()
        .filter_map(|key| std::env::var(key).ok())
        .map(|name| name.trim().to_owned())
        .find(|name| !name.is_empty())
        .unwrap_or_else(|| "this computer".to_owned())
}

/// This process's number.
pub(super) fn process() -> u32 {
    std::process::id()
}

/// A sign of life that ends with the process.
#[derive(Debug)]
pub(super) struct Pulse {
    kept: Option<(File, PathBuf)>,
    /// Whether a file names it: what ends without taking that back has to be
    /// known as gone, so the sign stays, unlocked.
    pub(super) named: bool,
}

/// What a token's sign of life says.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Life {
    /// The holder lives.
    Alive,
    /// The holder ended without saying so.
    Gone,
    /// Nothing is known: another computer or another account.
    Unknown,
}

fn path_of(token: &str) -> PathBuf {
    std::env::temp_dir().join(format!("maxday-{token}.held"))
}

impl Pulse {
    /// Shows a sign of life under `token`; without a place for it, none.
    pub(super) fn start(token: &str) -> Self {
        let path = path_of(token);
        let kept = File::create_new(&path)
            .ok()
            .filter(|file| file.try_lock().is_ok())
            .map(|file| (file, path));
        Self { kept, named: false }
    }
}

impl Drop for Pulse {
    fn drop(&mut self) {
        if let Some((file, path)) = self.kept.take() {
            drop(file);
            if !self.named {
                let _ = std::fs::remove_file(path);
            }
        }
    }
}

/// Takes away the sign of a holder that is gone, once no file names it.
pub(super) fn forget(token: &str) {
    let _ = std::fs::remove_file(path_of(token));
}

/// Whether the process that took `token` still lives.
pub(super) fn life_of(token: &str) -> Life {
    let path = path_of(token);
    let Ok(file) = File::options().read(true).write(true).open(&path) else {
        return Life::Unknown;
    };
    match file.try_lock() {
        Ok(()) => Life::Gone,
        Err(TryLockError::WouldBlock) => Life::Alive,
        Err(TryLockError::Error(_)) => Life::Unknown,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_sign_of_life_ends_with_its_holder() {
        let token = uuid::Uuid::new_v4().to_string();
        assert_eq!(life_of(&token), Life::Unknown);
        let pulse = Pulse::start(&token);
        assert_eq!(life_of(&token), Life::Alive);
        drop(pulse);
        assert_eq!(life_of(&token), Life::Unknown);
        drop(File::create_new(path_of(&token)).unwrap());
        assert_eq!(life_of(&token), Life::Gone);
        // As long as the file names it: asking doesn't change the answer.
        assert_eq!(life_of(&token), Life::Gone);
        forget(&token);
        assert_eq!(life_of(&token), Life::Unknown);

        let mut pulse = Pulse::start(&token);
        pulse.named = true;
        drop(pulse);
        assert_eq!(life_of(&token), Life::Gone);
        forget(&token);
    }
}
