//! A layer between SQLite and the disk that takes notes and makes trouble.
//!
//! It is SQLite's own interface to the system (`sqlite3_vfs`), put in front of
//! the usual one for the whole test program. Files in a folder that is
//! [watched](Watch) have every write, truncation, sync and deletion written
//! down, and may fail on demand; all else passes through.

// All unsafe code of the tests is in this file. What holds throughout:
// SQLite hands every method the object that `open` filled in, never two
// methods of one object at a time, and buffers as long as it says.
#![allow(unsafe_code)]

use std::collections::BTreeMap;
use std::ffi::{CStr, c_char, c_int, c_void};
use std::mem::size_of;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, OnceLock};

use rusqlite::ffi::{self, sqlite3_file, sqlite3_int64, sqlite3_io_methods, sqlite3_vfs};

/// Something that was done to a file of a watched folder, by its name.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Op {
    /// It was made.
    Make(String),
    /// Bytes were written at a place.
    Write(String, u64, Vec<u8>),
    /// It was cut or grown to a length.
    Truncate(String, u64),
    /// All that was written is on the disk; the file's name, too.
    Sync(String),
    /// Its name was taken away.
    Delete(String),
    /// The folder's names are on the disk.
    SyncFolder,
    /// An act was acknowledged: what the test itself notes.
    Acknowledged,
}

impl Op {
    /// A word for tables.
    pub const fn word(&self) -> &'static str {
        match self {
            Self::Make(_) => "make",
            Self::Write(..) => "write",
            Self::Truncate(..) => "truncate",
            Self::Sync(_) => "sync",
            Self::Delete(_) => "delete",
            Self::SyncFolder => "sync folder",
            Self::Acknowledged => "acknowledged",
        }
    }
}

/// A kind of call that can fail.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Call {
    /// Opening a file that isn't there yet, as a journal is.
    Make,
    /// Writing.
    Write,
    /// Cutting.
    Truncate,
    /// Syncing.
    Sync,
    /// Deleting.
    Delete,
}

/// What is to go wrong.
#[derive(Debug, Clone, Copy)]
pub struct Trouble {
    /// In which calls.
    pub call: Call,
    /// How many of them still go well.
    pub after: u32,
    /// Whether all later ones fail as well.
    pub lasts: bool,
    /// What SQLite is told.
    pub code: c_int,
}

/// A folder that is watched as long as this lives.
#[derive(Debug)]
pub struct Watch {
    folder: PathBuf,
    notes: Arc<Notes>,
}

#[derive(Debug, Default)]
struct Notes(Mutex<Inner>);

#[derive(Debug, Default)]
struct Inner {
    ops: Vec<Op>,
    keeps: bool,
    trouble: Option<Trouble>,
    seen: u32,
    struck: u32,
}

static WATCHED: Mutex<BTreeMap<PathBuf, Arc<Notes>>> = Mutex::new(BTreeMap::new());

impl Watch {
    /// Watches a folder from now on; files that are open already aren't seen.
    pub fn new(folder: &Path) -> Self {
        install();
        let folder = folder.canonicalize().unwrap();
        let notes = Arc::new(Notes::default());
        let before = WATCHED
            .lock()
            .unwrap()
            .insert(folder.clone(), Arc::clone(&notes));
        assert!(before.is_none(), "{} is watched already", folder.display());
        Self { folder, notes }
    }

    /// Writes down what is done from now on.
    pub fn record(&self) {
        let mut inner = self.notes.0.lock().unwrap();
        inner.ops.clear();
        inner.keeps = true;
    }

    /// Notes that an act was acknowledged.
    pub fn acknowledge(&self) {
        self.notes.0.lock().unwrap().ops.push(Op::Acknowledged);
    }

    /// What was done since [`Watch::record`].
    pub fn ops(&self) -> Vec<Op> {
        self.notes.0.lock().unwrap().ops.clone()
    }

    /// Makes trouble from now on.
    pub fn trouble(&self, trouble: Trouble) {
        let mut inner = self.notes.0.lock().unwrap();
        inner.trouble = Some(trouble);
        (inner.seen, inner.struck) = (0, 0);
    }

    /// Makes no more trouble; says how often it struck.
    pub fn peace(&self) -> u32 {
        let mut inner = self.notes.0.lock().unwrap();
        inner.trouble = None;
        inner.struck
    }
}

impl Drop for Watch {
    fn drop(&mut self) {
        let _ = WATCHED.lock().unwrap().remove(&self.folder);
    }
}

impl Notes {
    /// Whether a call of that kind fails now, and with what.
    fn fails(&self, call: Call) -> Option<c_int> {
        let mut inner = self.0.lock().unwrap();
        let trouble = inner.trouble.filter(|t| t.call == call)?;
        inner.seen += 1;
        let turn = inner.seen - 1;
        let strikes = turn == trouble.after || (trouble.lasts && turn > trouble.after);
        if !strikes {
            return None;
        }
        inner.struck += 1;
        Some(trouble.code)
    }

    fn note(&self, op: Op) {
        let mut inner = self.0.lock().unwrap();
        if inner.keeps {
            inner.ops.push(op);
        }
    }
}

/// Who watches the folder of that path, and the file's name.
fn watcher(path: &Path) -> Option<(Arc<Notes>, String)> {
    let folder = path.parent()?;
    let notes = WATCHED.lock().unwrap().get(folder).cloned()?;
    let name = path.file_name()?.to_string_lossy().into_owned();
    Some((notes, name))
}

/// An open file as SQLite sees it; the real one stands right behind it.
#[repr(C, align(16))]
struct Shimmed {
    base: sqlite3_file,
    watched: Option<Box<(Arc<Notes>, String)>>,
}

/// The pointer to the usual layer, which SQLite never takes away.
struct Real(*mut sqlite3_vfs);

// SAFETY: the layer is made to be called from all threads, and is only read.
unsafe impl Send for Real {}
// SAFETY: as above.
unsafe impl Sync for Real {}

static REAL: OnceLock<Real> = OnceLock::new();

fn real() -> *mut sqlite3_vfs {
    REAL.get().unwrap().0
}

/// Puts the shim in front, once.
fn install() {
    let _ = REAL.get_or_init(|| {
        // SAFETY: without a name it gives the usual layer, which lives as long as
        // the program; its copy differs in what is set here, lives as long as
        // well, and keeps methods that don't ask whose they are.
        unsafe {
            assert_eq!(ffi::sqlite3_initialize(), ffi::SQLITE_OK);
            let real = ffi::sqlite3_vfs_find(std::ptr::null());
            assert!(!real.is_null());
            let mut shim = std::ptr::read(real);
            shim.szOsFile += c_int::try_from(size_of::<Shimmed>()).unwrap();
            shim.pNext = std::ptr::null_mut();
            shim.zName = c"watched".as_ptr();
            shim.xOpen = Some(open);
            shim.xDelete = Some(delete);
            let shim = Box::leak(Box::new(shim));
            assert_eq!(ffi::sqlite3_vfs_register(shim, 1), ffi::SQLITE_OK);
            Real(real)
        }
    });
}

/// The real file behind a shimmed one.
///
/// # Safety
/// `file` is one that SQLite made room for as [`install`] said.
unsafe fn behind(file: *mut sqlite3_file) -> *mut sqlite3_file {
    // SAFETY: the room is as long as both together.
    unsafe { file.cast::<u8>().add(size_of::<Shimmed>()).cast() }
}

/// Who watches an open file.
///
/// # Safety
/// As [`behind`]; the file is open.
unsafe fn notes_of<'a>(file: *mut sqlite3_file) -> Option<&'a (Arc<Notes>, String)> {
    // SAFETY: `open` filled it in, and `close` is what ends it.
    unsafe { (*file.cast::<Shimmed>()).watched.as_deref() }
}

unsafe extern "C" fn open(
    _: *mut sqlite3_vfs,
    name: *const c_char,
    file: *mut sqlite3_file,
    flags: c_int,
    out: *mut c_int,
) -> c_int {
    // SAFETY: SQLite gives a name that ends in zero, or none for a temporary
    // file, and room for the file as long as `install` said.
    unsafe {
        (*file).pMethods = std::ptr::null();
        let path = (!name.is_null())
            .then(|| PathBuf::from(CStr::from_ptr(name).to_string_lossy().into_owned()));
        let watched = path.as_deref().and_then(watcher);
        let is_new = path.as_deref().is_some_and(|p| !p.exists());
        if let Some((notes, _)) = &watched
            && is_new
            && flags & ffi::SQLITE_OPEN_CREATE != 0
            && let Some(code) = notes.fails(Call::Make)
        {
            return code;
        }
        let inner = behind(file);
        let code = (*real()).xOpen.unwrap()(real(), name, inner, flags, out);
        if code != ffi::SQLITE_OK {
            if !(*inner).pMethods.is_null() {
                let _ = (*(*inner).pMethods).xClose.unwrap()(inner);
            }
            return code;
        }
        if let Some((notes, name)) = &watched
            && is_new
        {
            notes.note(Op::Make(name.clone()));
        }
        std::ptr::write(
            file.cast::<Shimmed>(),
            Shimmed {
                base: sqlite3_file { pMethods: &METHODS },
                watched: watched.map(Box::new),
            },
        );
        ffi::SQLITE_OK
    }
}

unsafe extern "C" fn delete(
    _: *mut sqlite3_vfs,
    name: *const c_char,
    sync_folder: c_int,
) -> c_int {
    // SAFETY: as in `open`.
    unsafe {
        let path = PathBuf::from(CStr::from_ptr(name).to_string_lossy().into_owned());
        let watched = watcher(&path);
        if let Some((notes, _)) = &watched
            && let Some(code) = notes.fails(Call::Delete)
        {
            return code;
        }
        let code = (*real()).xDelete.unwrap()(real(), name, sync_folder);
        if let Some((notes, name)) = watched
            && code == ffi::SQLITE_OK
        {
            notes.note(Op::Delete(name));
            if sync_folder != 0 {
                notes.note(Op::SyncFolder);
            }
        }
        code
    }
}

unsafe extern "C" fn close(file: *mut sqlite3_file) -> c_int {
    // SAFETY: the file is open, and this is the last call for it.
    unsafe {
        let inner = behind(file);
        let code = (*(*inner).pMethods).xClose.unwrap()(inner);
        std::ptr::drop_in_place(file.cast::<Shimmed>());
        code
    }
}

unsafe extern "C" fn write(
    file: *mut sqlite3_file,
    bytes: *const c_void,
    length: c_int,
    at: sqlite3_int64,
) -> c_int {
    // SAFETY: the file is open, and the buffer is as long as it says.
    unsafe {
        let inner = behind(file);
        let write = (*(*inner).pMethods).xWrite.unwrap();
        if let Some((notes, name)) = notes_of(file) {
            if let Some(code) = notes.fails(Call::Write) {
                // A full disk takes what still fits.
                let _ = write(inner, bytes, length / 2, at);
                return code;
            }
            let taken = std::slice::from_raw_parts(
                bytes.cast::<u8>(),
                usize::try_from(length).unwrap(),
            );
            let at = u64::try_from(at).unwrap();
            notes.note(Op::Write(name.clone(), at, taken.to_vec()));
        }
        write(inner, bytes, length, at)
    }
}

unsafe extern "C" fn truncate(file: *mut sqlite3_file, size: sqlite3_int64) -> c_int {
    // SAFETY: the file is open.
    unsafe {
        if let Some((notes, name)) = notes_of(file) {
            if let Some(code) = notes.fails(Call::Truncate) {
                return code;
            }
            notes.note(Op::Truncate(name.clone(), u64::try_from(size).unwrap()));
        }
        let inner = behind(file);
        (*(*inner).pMethods).xTruncate.unwrap()(inner, size)
    }
}

unsafe extern "C" fn sync(file: *mut sqlite3_file, flags: c_int) -> c_int {
    // SAFETY: the file is open.
    unsafe {
        let inner = behind(file);
        if let Some((notes, _)) = notes_of(file)
            && let Some(code) = notes.fails(Call::Sync)
        {
            return code;
        }
        let code = (*(*inner).pMethods).xSync.unwrap()(inner, flags);
        if let Some((notes, name)) = notes_of(file)
            && code == ffi::SQLITE_OK
        {
            notes.note(Op::Sync(name.clone()));
        }
        code
    }
}

/// Methods that only pass on.
macro_rules! pass_on {
    ($($name:ident $method:ident ($($arg:ident: $kind:ty),*);)+) => {$(
        unsafe extern "C" fn $name(file: *mut sqlite3_file $(, $arg: $kind)*) -> c_int {
            // SAFETY: the file is open, and what SQLite gave goes on as it is.
            unsafe {
                let inner = behind(file);
                (*(*inner).pMethods).$method.unwrap()(inner $(, $arg)*)
            }
        }
    )+};
}

pass_on! {
    read xRead (bytes: *mut c_void, length: c_int, at: sqlite3_int64);
    size xFileSize (size: *mut sqlite3_int64);
    lock xLock (level: c_int);
    unlock xUnlock (level: c_int);
    reserved xCheckReservedLock (found: *mut c_int);
    control xFileControl (op: c_int, what: *mut c_void);
    sector xSectorSize ();
    device xDeviceCharacteristics ();
}

static METHODS: sqlite3_io_methods = sqlite3_io_methods {
    // Without shared memory and mapped files, which a day doesn't use.
    iVersion: 1,
    xClose: Some(close),
    xRead: Some(read),
    xWrite: Some(write),
    xTruncate: Some(truncate),
    xSync: Some(sync),
    xFileSize: Some(size),
    xLock: Some(lock),
    xUnlock: Some(unlock),
    xCheckReservedLock: Some(reserved),
    xFileControl: Some(control),
    xSectorSize: Some(sector),
    xDeviceCharacteristics: Some(device),
    xShmMap: None,
    xShmLock: None,
    xShmBarrier: None,
    xShmUnmap: None,
    xFetch: None,
    xUnfetch: None,
};
