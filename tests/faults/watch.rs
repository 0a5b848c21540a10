//! A layer between SQLite and the disk (sqlite.org/vfs.html) that fails when it is told to, and that keeps what would be
//! left on the disk if the power went at a sync.

use std::collections::BTreeMap;
use std::ffi::{CStr, CString, c_char, c_int, c_void};
use std::path::{Path, PathBuf};
use std::sync::{Mutex, MutexGuard, OnceLock, PoisonError};

use rusqlite::ffi;

/// What to do, and what was seen.
#[derive(Default)]
pub(crate) struct Watch {
    /// After so many more writes and syncs everything fails with this code, until it is taken back.
    pub(crate) fail_after: Option<(u64, c_int)>,
    /// Keep what a power cut would leave.
    pub(crate) keep: bool,
    /// What the test has been told is safe, at this moment.
    pub(crate) acknowledged: u64,
    /// How many operations met the failure.
    pub(crate) failed: u64,
    /// What each file surely holds.
    durable: BTreeMap<PathBuf, Vec<u8>>,
    /// The moments at which the power could go.
    pub(crate) cuts: Vec<Cut>,
}

/// What a power cut leaves.
#[derive(Clone)]
pub(crate) struct Cut {
    /// What had been acknowledged by then.
    pub(crate) acknowledged: u64,
    /// Which of the ways it goes.
    pub(crate) way: &'static str,
    /// The files.
    pub(crate) files: BTreeMap<PathBuf, Vec<u8>>,
}

impl Watch {
    fn fails(&mut self) -> Option<c_int> {
        let (left, code) = self.fail_after.as_mut()?;
        if *left == 0 {
            self.failed += 1;
            return Some(*code);
        }
        *left -= 1;
        None
    }

    /// From here on cuts are kept; what lies in the folder now is on the disk.
    pub(crate) fn begin(&mut self, folder: &Path) {
        self.cuts.clear();
        self.durable.clear();
        for entry in std::fs::read_dir(folder).expect("the home's folder") {
            let path = entry.expect("an entry of it").path();
            let name = path.to_string_lossy();
            if name.ends_with(".db") || name.ends_with(".db-wal") {
                self.durable.insert(path.clone(), std::fs::read(&path).expect("a file of the home"));
            }
        }
        self.acknowledged = 0;
        self.keep = true;
    }

    /// The cuts since `begin`.
    pub(crate) fn end(&mut self) -> Vec<Cut> {
        self.keep = false;
        std::mem::take(&mut self.cuts)
    }

    /// A file is being synced: the power may go before it is, after some of it is, and after all of everything is.
    fn syncing(&mut self, path: &Path) {
        let now = std::fs::read(path).unwrap_or_default();
        let acknowledged = self.acknowledged;
        let before = self.durable.clone();
        let mut all = before.clone();
        for known in before.keys().chain([&path.to_owned()]) {
            if let Ok(bytes) = std::fs::read(known) {
                all.insert(known.clone(), bytes);
            }
        }
        let mut torn = before.clone();
        torn.insert(
            path.to_owned(),
            tear(before.get(path).map_or(&[], Vec::as_slice), &now, self.cuts.len()),
        );
        for (way, files) in [("nothing since", before), ("torn", torn), ("everything", all)] {
            self.cuts.push(Cut { acknowledged, way, files });
        }
        self.durable.insert(path.to_owned(), now);
    }
}

/// Half of the sectors new, half old: a disk writes its cache in any order.
fn tear(old: &[u8], new: &[u8], salt: usize) -> Vec<u8> {
    const SECTOR: usize = 512;
    let mut torn = old.to_vec();
    torn.resize(new.len().max(old.len()), 0);
    for (number, sector) in new.chunks(SECTOR).enumerate() {
        let coin = (number as u32 ^ salt as u32).wrapping_mul(0x9E37_79B9) >> 31;
        if coin == 1 {
            torn[number * SECTOR..number * SECTOR + sector.len()].copy_from_slice(sector);
        }
    }
    torn
}

static WATCH: Mutex<Option<Watch>> = Mutex::new(None);

fn watch() -> MutexGuard<'static, Option<Watch>> {
    WATCH.lock().unwrap_or_else(PoisonError::into_inner)
}

/// The layer for one test at a time; while it is held, all of SQLite's files go through it.
pub(crate) struct Held(#[expect(dead_code, reason = "held for its lock")] MutexGuard<'static, ()>);

/// Takes the layer.
pub(crate) fn hold() -> Held {
    static ONE: Mutex<()> = Mutex::new(());
    let guard = ONE.lock().unwrap_or_else(PoisonError::into_inner);
    register();
    *watch() = Some(Watch::default());
    Held(guard)
}

impl Held {
    pub(crate) fn with<T>(&self, act: impl FnOnce(&mut Watch) -> T) -> T {
        act(watch().as_mut().expect("the layer is held"))
    }
}

impl Drop for Held {
    fn drop(&mut self) {
        *watch() = None;
    }
}

/// Our file: SQLite's own stands right behind it in the memory that SQLite gives.
#[repr(C)]
struct File {
    base: ffi::sqlite3_file,
    path: *mut PathBuf,
}

const OWN: usize = std::mem::size_of::<File>();

/// SQLite's own file behind ours.
unsafe fn real(file: *mut ffi::sqlite3_file) -> *mut ffi::sqlite3_file {
    unsafe { file.cast::<u8>().add(OWN).cast() }
}

/// A method of SQLite's own file.
macro_rules! own {
    ($file:expr, $method:ident ( $($argument:expr),* )) => {{
        let real = unsafe { real($file) };
        let method = unsafe { (*(*real).pMethods).$method }.expect("the file system has it");
        unsafe { method(real, $($argument),*) }
    }};
}

fn told() -> Option<c_int> {
    watch().as_mut().and_then(Watch::fails)
}

unsafe extern "C" fn close(file: *mut ffi::sqlite3_file) -> c_int {
    let ours = file.cast::<File>();
    let path = unsafe { (*ours).path };
    if !path.is_null() {
        drop(unsafe { Box::from_raw(path) });
        unsafe { (*ours).path = std::ptr::null_mut() };
    }
    own!(file, xClose())
}
unsafe extern "C" fn read(
    file: *mut ffi::sqlite3_file,
    into: *mut c_void,
    length: c_int,
    from: ffi::sqlite3_int64,
) -> c_int {
    own!(file, xRead(into, length, from))
}
unsafe extern "C" fn write(
    file: *mut ffi::sqlite3_file,
    bytes: *const c_void,
    length: c_int,
    to: ffi::sqlite3_int64,
) -> c_int {
    match told() {
        Some(code) => code,
        None => own!(file, xWrite(bytes, length, to)),
    }
}
unsafe extern "C" fn truncate(file: *mut ffi::sqlite3_file, size: ffi::sqlite3_int64) -> c_int {
    match told() {
        Some(code) => code,
        None => own!(file, xTruncate(size)),
    }
}
unsafe extern "C" fn sync(file: *mut ffi::sqlite3_file, flags: c_int) -> c_int {
    if let Some(code) = told() {
        return code;
    }
    let path = unsafe { (*file.cast::<File>()).path };
    if let (Some(watch), false) = (watch().as_mut(), path.is_null())
        && watch.keep
    {
        watch.syncing(unsafe { &*path });
    }
    own!(file, xSync(flags))
}
unsafe extern "C" fn size(file: *mut ffi::sqlite3_file, size: *mut ffi::sqlite3_int64) -> c_int {
    own!(file, xFileSize(size))
}
unsafe extern "C" fn lock(file: *mut ffi::sqlite3_file, level: c_int) -> c_int {
    own!(file, xLock(level))
}
unsafe extern "C" fn unlock(file: *mut ffi::sqlite3_file, level: c_int) -> c_int {
    own!(file, xUnlock(level))
}
unsafe extern "C" fn reserved(file: *mut ffi::sqlite3_file, answer: *mut c_int) -> c_int {
    own!(file, xCheckReservedLock(answer))
}
unsafe extern "C" fn control(file: *mut ffi::sqlite3_file, op: c_int, argument: *mut c_void) -> c_int {
    own!(file, xFileControl(op, argument))
}
unsafe extern "C" fn sector(file: *mut ffi::sqlite3_file) -> c_int {
    own!(file, xSectorSize())
}
/// Promises nothing of the disk, not even that a write of a sector leaves its neighbours alone.
unsafe extern "C" fn promises(_: *mut ffi::sqlite3_file) -> c_int {
    0
}
unsafe extern "C" fn shm_map(
    file: *mut ffi::sqlite3_file,
    page: c_int,
    size: c_int,
    extend: c_int,
    into: *mut *mut c_void,
) -> c_int {
    own!(file, xShmMap(page, size, extend, into))
}
unsafe extern "C" fn shm_lock(file: *mut ffi::sqlite3_file, at: c_int, count: c_int, flags: c_int) -> c_int {
    own!(file, xShmLock(at, count, flags))
}
unsafe extern "C" fn shm_barrier(file: *mut ffi::sqlite3_file) {
    own!(file, xShmBarrier())
}
unsafe extern "C" fn shm_unmap(file: *mut ffi::sqlite3_file, delete: c_int) -> c_int {
    own!(file, xShmUnmap(delete))
}

static METHODS: ffi::sqlite3_io_methods = ffi::sqlite3_io_methods {
    iVersion: 2,
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
    xDeviceCharacteristics: Some(promises),
    xShmMap: Some(shm_map),
    xShmLock: Some(shm_lock),
    xShmBarrier: Some(shm_barrier),
    xShmUnmap: Some(shm_unmap),
    xFetch: None,
    xUnfetch: None,
};

/// SQLite's own file system.
struct Own(*mut ffi::sqlite3_vfs);
// Read only after it is set, and SQLite's file system may be used from any thread.
unsafe impl Send for Own {}
unsafe impl Sync for Own {}
static SYSTEM: OnceLock<Own> = OnceLock::new();

fn system() -> *mut ffi::sqlite3_vfs {
    SYSTEM.get().expect("the layer is registered").0
}

unsafe extern "C" fn open(
    _: *mut ffi::sqlite3_vfs,
    name: ffi::sqlite3_filename,
    file: *mut ffi::sqlite3_file,
    flags: c_int,
    out: *mut c_int,
) -> c_int {
    let ours = file.cast::<File>();
    unsafe {
        (*ours).base.pMethods = std::ptr::null();
        (*ours).path = std::ptr::null_mut();
    }
    let open = unsafe { (*system()).xOpen }.expect("the file system opens");
    let done = unsafe { open(system(), name, real(file), flags, out) };
    if done == ffi::SQLITE_OK {
        if !name.is_null() {
            let path = PathBuf::from(unsafe { CStr::from_ptr(name) }.to_string_lossy().into_owned());
            unsafe { (*ours).path = Box::into_raw(Box::new(path)) };
        }
        unsafe { (*ours).base.pMethods = &raw const METHODS };
    }
    done
}

unsafe extern "C" fn delete(_: *mut ffi::sqlite3_vfs, name: *const c_char, sync: c_int) -> c_int {
    if let Some(code) = told() {
        return code;
    }
    if let Some(watch) = watch().as_mut() {
        let path = PathBuf::from(unsafe { CStr::from_ptr(name) }.to_string_lossy().into_owned());
        watch.durable.remove(&path);
    }
    let delete = unsafe { (*system()).xDelete }.expect("the file system deletes");
    unsafe { delete(system(), name, sync) }
}

/// Puts the layer before SQLite's own file system, once.
fn register() {
    SYSTEM.get_or_init(|| {
        let own = unsafe { ffi::sqlite3_vfs_find(std::ptr::null()) };
        assert!(!own.is_null(), "SQLite has a file system");
        let name = CString::new("watched").expect("a name without a zero");
        let mut layer = unsafe { *own };
        layer.szOsFile += OWN as c_int;
        layer.pNext = std::ptr::null_mut();
        layer.zName = name.into_raw();
        layer.xOpen = Some(open);
        layer.xDelete = Some(delete);
        let layer = Box::leak(Box::new(layer));
        let done = unsafe { ffi::sqlite3_vfs_register(layer, 1) };
        assert_eq!(done, ffi::SQLITE_OK);
        Own(own)
    });
}
