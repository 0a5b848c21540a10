use std::cell::{Cell, RefCell};
use std::fs::File;
use std::io::{Read, Seek, SeekFrom, Write};
use std::path::{Path, PathBuf};

use slingseal_words::{Digest, Time};

use super::{DeviceId, Head, MemoryRow};

const MARK: &[u8; 8] = b"SLSEEN2\n";
const LENGTH: usize = 8 + 16 + 8 + 32 + 1 + 8 + 8 + 8;
/// As it was before writes outside the journal were counted.
const MARK_1: &[u8; 8] = b"SLSEEN1\n";
const LENGTH_1: usize = LENGTH - 16;

/// A small file beside the database that says how far the journal had come when a `write` last returned, how many writes the
/// journal does not tell of there were, and the latest time that was judged at.
///
/// The accident that it prevents: someone clears away the `-wal` file of a program that was killed, or puts back an older
/// copy of the database, and the answers of the last minutes, or a void or a revocation that a hook had received, are gone
/// with nothing to show that they ever were. It is
/// written after the commit and without a sync of its own, so it costs microseconds and never runs ahead of the database.
pub(super) struct Witness {
    path: PathBuf,
    file: RefCell<Option<File>>,
    last: Cell<Option<Seen>>,
}

/// What the file said.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Seen {
    pub(super) device: DeviceId,
    pub(super) head: Head,
    pub(super) suspect: bool,
    /// Writes outside the journal.
    pub(super) writes: u64,
    /// The latest time that anything was judged at; none where nothing was.
    pub(super) judged: Option<Time>,
}

impl Witness {
    pub(super) fn beside(database: &Path) -> Self {
        let mut path = database.as_os_str().to_owned();
        path.push("-seen");
        Self { path: path.into(), file: RefCell::new(None), last: Cell::new(None) }
    }

    /// What was seen last; `None` where there is no file or it makes no sense.
    pub(super) fn seen(&self) -> Option<Seen> {
        let mut bytes = Vec::new();
        File::open(&self.path).ok()?.take(LENGTH as u64 + 1).read_to_end(&mut bytes).ok()?;
        let (content, sum) = bytes.split_at_checked(bytes.len().checked_sub(8)?)?;
        if sum_of(content) != sum {
            return None;
        }
        let (mark, rest) = content.split_at_checked(8)?;
        let older = match (mark, bytes.len()) {
            (mark, LENGTH) if mark == MARK => false,
            (mark, LENGTH_1) if mark == MARK_1 => true,
            _ => return None,
        };
        let (device, rest) = rest.split_at_checked(16)?;
        let (seq, rest) = rest.split_at_checked(8)?;
        let (digest, rest) = rest.split_at_checked(32)?;
        let (suspect, rest) = rest.split_at_checked(1)?;
        let (writes, judged) = if older { (0, i64::MIN) } else { counts(rest)? };
        Some(Seen {
            device: DeviceId(device.try_into().ok()?),
            head: Head { seq: u64::from_be_bytes(seq.try_into().ok()?), digest: Digest::from_slice(digest)? },
            suspect: suspect != [0],
            writes,
            judged: (judged != i64::MIN).then(|| Time::from_unix(judged)),
        })
    }

    /// A `write` returned, or the home was opened.
    pub(super) fn saw(&self, device: DeviceId, head: Head, memory: Option<MemoryRow>) {
        let last = self.last.get();
        let suspect = last.is_some_and(|last| last.suspect);
        let (writes, judged) = match (memory, last) {
            (Some(memory), _) => (memory.writes, memory.judged),
            (None, Some(last)) => (last.writes, last.judged),
            (None, None) => (0, None),
        };
        self.put(Seen { device, head, suspect, writes, judged });
    }

    /// Something read was damaged: the next opening looks at everything.
    pub(super) fn suspect(&self) {
        if let Some(last) = self.last.get().filter(|last| !last.suspect) {
            self.put(Seen { suspect: true, ..last });
        }
    }

    /// A failure is passed over: the entry itself is safe on disk, and the next one writes here again.
    fn put(&self, seen: Seen) {
        self.last.set(Some(seen));
        let mut bytes = Vec::with_capacity(LENGTH);
        bytes.extend_from_slice(MARK);
        bytes.extend_from_slice(&seen.device.0);
        bytes.extend_from_slice(&seen.head.seq.to_be_bytes());
        bytes.extend_from_slice(seen.head.digest.as_bytes());
        bytes.push(u8::from(seen.suspect));
        bytes.extend_from_slice(&seen.writes.to_be_bytes());
        bytes.extend_from_slice(&seen.judged.map_or(i64::MIN, Time::unix).to_be_bytes());
        let sum = sum_of(&bytes);
        bytes.extend_from_slice(&sum);
        let mut file = self.file.borrow_mut();
        if file.is_none() {
            *file = File::options().write(true).create(true).truncate(false).open(&self.path).ok();
        }
        if let Some(file) = file.as_mut() {
            let _ = file.seek(SeekFrom::Start(0)).and_then(|_| file.write_all(&bytes));
        }
    }
}

fn counts(bytes: &[u8]) -> Option<(u64, i64)> {
    let (writes, judged) = bytes.split_at_checked(8)?;
    Some((u64::from_be_bytes(writes.try_into().ok()?), i64::from_be_bytes(judged.try_into().ok()?)))
}

fn sum_of(content: &[u8]) -> Vec<u8> {
    Digest::of(content).as_bytes().iter().take(8).copied().collect()
}
