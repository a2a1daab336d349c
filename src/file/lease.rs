//! Who holds the day: one writer, known by a row with a heartbeat.

use std::fmt;

use rusqlite::{Connection, OptionalExtension, params};
use uuid::Uuid;

use super::error::FileError;
use super::host::{self, Life, Pulse};
use super::live::Live;
use crate::day::Stamp;

/// How often a holder should say that it lives, in milliseconds.
pub const HEARTBEAT_MS: i64 = 5_000;

/// How long after its last heartbeat a holder counts as gone, in milliseconds.
pub const STALE_MS: i64 = 20_000;

/// Who holds a day, or held it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Holder {
    /// The computer's name.
    pub host: String,
    /// The process's number on it.
    pub process: u32,
    /// The hand that opened the day; may be empty.
    pub who: String,
    /// The last sign of life, in milliseconds since 1970-01-01 00:00 UTC.
    pub heartbeat: i64,
}

impl fmt::Display for Holder {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if !self.who.is_empty() {
            write!(f, "{} on ", self.who)?;
        }
        write!(f, "{} (process {})", self.host, self.process)
    }
}

/// The right to write, given back when it is dropped by [`release`].
#[derive(Debug)]
pub(super) struct Lease {
    token: String,
    pulse: Pulse,
    /// The token of the crashed holder before.
    before: Option<String>,
}

/// What asking for the lease led to.
#[derive(Debug)]
pub(super) enum Claim {
    /// It is ours; a holder that had crashed is named.
    Ours(Lease, Option<Holder>),
    /// Somebody else has it.
    Held(Holder),
}

/// The holder that the file names, with its token.
fn read(conn: &Connection) -> rusqlite::Result<Option<(Holder, String)>> {
    conn.prepare_cached("SELECT host, process, who, heartbeat, token FROM lease")?
        .query_row([], |row| {
            let holder = Holder {
                host: row.get(0)?,
                process: row.get(1)?,
                who: row.get(2)?,
                heartbeat: row.get(3)?,
            };
            Ok((holder, row.get(4)?))
        })
        .optional()
}

/// Who holds the day, if anybody.
pub(super) fn holder(conn: &Connection) -> rusqlite::Result<Option<Holder>> {
    Ok(read(conn)?.map(|(holder, _)| holder))
}

/// Who holds the day and lives, as far as can be told.
///
/// A heartbeat that lies in the future comes from a clock that was set back
/// and is as stale as an old one.
pub(super) fn living(conn: &Connection, now: Stamp) -> rusqlite::Result<Option<Holder>> {
    Ok(read(conn)?
        .filter(|(holder, token)| lives(holder, token, now))
        .map(|(holder, _)| holder))
}

fn lives(holder: &Holder, token: &str, now: Stamp) -> bool {
    let life = if holder.host == host::name() {
        host::life_of(token)
    } else {
        Life::Unknown
    };
    let silent = now.ms.abs_diff(holder.heartbeat) > STALE_MS.unsigned_abs();
    life == Life::Alive || (life == Life::Unknown && !silent)
}

/// Takes the lease unless somebody who lives has it.
///
/// Runs inside the caller's transaction.
pub(super) fn claim(conn: &Connection, now: Stamp, who: &str) -> rusqlite::Result<Claim> {
    let before = read(conn)?;
    if let Some((holder, token)) = &before
        && lives(holder, token, now)
    {
        return Ok(Claim::Held(holder.clone()));
    }
    let token = Uuid::new_v4().to_string();
    let _ = conn.execute("DELETE FROM lease", [])?;
    let _ = conn.execute(
        "INSERT INTO lease (host, process, heartbeat, who, token) VALUES (?1, ?2, ?3, ?4, ?5)",
        params![host::name(), host::process(), now.ms, who, token],
    )?;
    let pulse = Pulse::start(&token);
    let (before, old) = before.unzip();
    let lease = Lease {
        token,
        pulse,
        before: old,
    };
    Ok(Claim::Ours(lease, before))
}

impl Live {
    /// Who holds the day now, as the file says.
    ///
    /// # Errors
    /// [`FileError`] where it can't be read.
    pub fn holder(&self) -> Result<Option<Holder>, FileError> {
        holder(&self.store().conn).map_err(|e| self.store().fail(&e))
    }

    /// Who holds the day now and lives, as far as can be told.
    ///
    /// # Errors
    /// [`FileError`] where it can't be read.
    pub fn living_holder(&self, now: Stamp) -> Result<Option<Holder>, FileError> {
        living(&self.store().conn, now).map_err(|e| self.store().fail(&e))
    }
}

impl Lease {
    /// To be called once the claim is committed.
    ///
    /// Until then the file still names the holder before, whose sign of life
    /// has to go on saying that it is gone.
    pub(super) fn stored(&mut self) {
        self.pulse.named = true;
        if let Some(token) = self.before.take() {
            host::forget(&token);
        }
    }

    /// To be called once the giving back is committed.
    ///
    /// Where it isn't, the next opener sees that the holder is gone and takes
    /// over without waiting.
    pub(super) fn given_back(mut self) {
        self.stored();
        self.pulse.named = false;
    }

    /// Whether the file still names this lease.
    pub(super) fn is_ours(&self, conn: &Connection) -> rusqlite::Result<bool> {
        conn.prepare_cached("SELECT 1 FROM lease WHERE token = ?1")?
            .exists([&self.token])
    }

    /// Says that the holder lives; false where the lease is lost.
    pub(super) fn beat(&self, conn: &Connection, now: Stamp) -> rusqlite::Result<bool> {
        let n = conn
            .prepare_cached("UPDATE lease SET heartbeat = ?1 WHERE token = ?2")?
            .execute(params![now.ms, self.token])?;
        Ok(n == 1)
    }

    /// Gives the lease back.
    pub(super) fn release(&self, conn: &Connection) -> rusqlite::Result<()> {
        let _ = conn.execute("DELETE FROM lease WHERE token = ?1", [&self.token])?;
        Ok(())
    }
}
