//! The one door to files: whole or not at all, never through a link, never over what nobody named.
//!
//! A file that a person named is replaced, at once and whole. Where the program makes up the name inside a folder that was named,
//! another file of the name is left alone and a number is added. `-` is standard output. A device or a pipe is written
//! through: renaming a file over it would take it away.

use slingseal_app::catalogue::desk as words;
use std::fs::{File, Metadata, OpenOptions};
use std::io::{BufWriter, Write};
use std::path::{Path, PathBuf};

use slingseal_app::{AppError, said_by_system as plain};

use crate::console::Shown;
use crate::fault::bad_input;

fn failed(path: &Path, error: &std::io::Error) -> AppError {
    bad_input(words::PlaceNotWritten { path: path.shown(), plain: plain(error) })
}

/// Writes a file, making its folder.
pub(crate) fn write(path: &Path, bytes: &[u8]) -> Result<(), AppError> {
    if let Some(folder) = path.parent().filter(|folder| !folder.as_os_str().is_empty()) {
        std::fs::create_dir_all(folder).map_err(|error| failed(folder, &error))?;
    }
    write_whole(path, |out| out.write_all(bytes).map_err(|error| failed(path, &error)))
}

/// Writes a file piece by piece, whole or not at all: one cut short by a full disk must not pass for one.
pub(crate) fn write_whole<T>(
    path: &Path,
    fill: impl FnOnce(&mut dyn Write) -> Result<T, AppError>,
) -> Result<T, AppError> {
    let wrong = |error: std::io::Error| failed(path, &error);
    if path == Path::new("-") {
        crate::console::take_output();
        let mut out = std::io::stdout().lock();
        let filled = fill(&mut out)?;
        out.flush().map_err(wrong)?;
        return Ok(filled);
    }
    match std::fs::symlink_metadata(path) {
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => {}
        Err(error) => return Err(wrong(error)),
        Ok(known) => {
            let link = known.is_symlink();
            let behind = if link { std::fs::metadata(path).ok() } else { Some(known) };
            match behind {
                Some(behind) if is_stream(&behind) => {
                    let mut out = OpenOptions::new().write(true).open(path).map_err(wrong)?;
                    let filled = fill(&mut out)?;
                    out.flush().map_err(wrong)?;
                    return Ok(filled);
                }
                _ if link => {
                    let path = path.shown();
                    return Err(bad_input(words::NameIsALink { path: &path }));
                }
                Some(behind) if behind.is_dir() => {
                    return Err(bad_input(words::NameIsAFolder { path: path.shown() }));
                }
                _ => {}
            }
        }
    }
    let (part, file) = part_of(path)?;
    let mut file = BufWriter::new(file);
    let filled = fill(&mut file).and_then(|filled| {
        file.flush().and_then(|()| file.get_ref().sync_all()).map_err(wrong)?;
        std::fs::rename(&part, path).map_err(wrong)?;
        Ok(filled)
    });
    if filled.is_err() {
        // What is left of it serves nobody; the error is told.
        let _ = std::fs::remove_file(&part);
    }
    filled
}

/// Writes files of names that the program makes up into a folder that was named for them: all of them or none, each in place of
/// one of its name that was there. `fill` asks for a place by a file's name.
#[cfg(feature = "parquet")]
pub(crate) fn write_set<T>(
    folder: &Path,
    fill: impl FnOnce(&mut dyn FnMut(&str) -> std::io::Result<Box<dyn Write + Send>>) -> Result<T, AppError>,
) -> Result<T, AppError> {
    std::fs::create_dir_all(folder).map_err(|error| failed(folder, &error))?;
    let mut parts: Vec<(PathBuf, PathBuf, File)> = Vec::new();
    let mut place = |name: &str| -> std::io::Result<Box<dyn Write + Send>> {
        let path = folder.join(name);
        let (part, file) = part_of(&path).map_err(std::io::Error::other)?;
        parts.push((part, path, file.try_clone()?));
        Ok(Box::new(BufWriter::new(file)))
    };
    let filled = fill(&mut place).and_then(|filled| {
        for (part, path, file) in &parts {
            let wrong = |error: std::io::Error| failed(path, &error);
            file.sync_all().map_err(wrong)?;
            std::fs::rename(part, path).map_err(wrong)?;
        }
        Ok(filled)
    });
    if filled.is_err() {
        for (part, ..) in &parts {
            let _ = std::fs::remove_file(part);
        }
    }
    filled
}

/// A device or a pipe: neither a file nor a folder.
fn is_stream(known: &Metadata) -> bool {
    !known.is_file() && !known.is_dir() && !known.is_symlink()
}

/// A new file beside the one that is meant. It is made anew: a link that somebody put there beforehand is not followed.
fn part_of(path: &Path) -> Result<(PathBuf, File), AppError> {
    let name = path.file_name().unwrap_or_default();
    for number in 0..100 {
        let mut part = std::ffi::OsString::from(".");
        part.push(name);
        part.push(format!(".{number}.part"));
        let part = path.with_file_name(part);
        match OpenOptions::new().write(true).create_new(true).open(&part) {
            Err(error) if error.kind() == std::io::ErrorKind::AlreadyExists => {}
            made => return made.map(|file| (part, file)).map_err(|error| failed(path, &error)),
        }
    }
    Err(bad_input(words::TooManyUnfinished { path: path.shown() }))
}

/// Writes files of one made-up name, such as `void.png` and `void.txt`, into a folder: where one of them is there and says
/// something else, all get the next number, `void-2`.
pub(crate) fn write_together(
    folder: &Path,
    name: &str,
    files: &[(&str, &[u8])],
) -> Result<Vec<PathBuf>, AppError> {
    for number in 1..1_000 {
        let stem = if number == 1 { name.to_owned() } else { format!("{name}-{number}") };
        let paths: Vec<PathBuf> =
            files.iter().map(|(ending, _)| folder.join(format!("{stem}.{ending}"))).collect();
        let free = paths.iter().zip(files).all(|(path, (_, bytes))| {
            std::fs::symlink_metadata(path).is_err() || std::fs::read(path).is_ok_and(|there| there == *bytes)
        });
        if free {
            for (path, (_, bytes)) in paths.iter().zip(files) {
                write(path, bytes)?;
            }
            return Ok(paths);
        }
    }
    Err(bad_input(words::FolderFullOfName { folder: folder.shown(), name: &name }))
}

/// Closes one file to other people of the machine, as a home's own are.
#[cfg(unix)]
pub(crate) fn close_file(path: &Path) {
    use std::os::unix::fs::PermissionsExt;
    if std::fs::symlink_metadata(path).is_ok_and(|known| known.is_file()) {
        let _ = std::fs::set_permissions(path, std::fs::Permissions::from_mode(0o600));
    }
}

/// The same by Windows' access lists.
#[cfg(windows)]
pub(crate) fn close_file(path: &Path) {
    if std::fs::symlink_metadata(path).is_ok_and(|known| known.is_file()) {
        crate::windows::close_to_others(path);
    }
}

/// Closes a home to other people of the machine: its folder 0700, the files in it 0600. One that an earlier program left open is
/// mended. Where the system refuses, the home still works, as it did.
#[cfg(unix)]
pub(crate) fn close_to_others(home: &Path) {
    use std::os::unix::fs::PermissionsExt;
    let close = |path: &Path, rights: u32| {
        let open = std::fs::symlink_metadata(path)
            .is_ok_and(|known| !known.is_symlink() && known.permissions().mode() & 0o077 != 0);
        if open {
            let _ = std::fs::set_permissions(path, std::fs::Permissions::from_mode(rights));
        }
    };
    close(home, 0o700);
    for entry in std::fs::read_dir(home).into_iter().flatten().flatten() {
        if entry.file_type().is_ok_and(|kind| kind.is_file()) {
            close(&entry.path(), 0o600);
        }
    }
}

/// The same by Windows' access lists: the home's is handed down to what will be in it, and what is there is closed too.
#[cfg(windows)]
pub(crate) fn close_to_others(home: &Path) {
    crate::windows::close_to_others(home);
    std::fs::read_dir(home).into_iter().flatten().flatten().for_each(|entry| close_file(&entry.path()));
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_made_up_name_overwrites_nothing() {
        let folder = tempfile::tempdir().unwrap();
        let put = |bytes: &[u8]| write_together(folder.path(), "void", &[("txt", bytes)]).unwrap();
        assert_eq!(put(b"one"), [folder.path().join("void.txt")]);
        assert_eq!(put(b"two"), [folder.path().join("void-2.txt")]);
        assert_eq!(put(b"one"), [folder.path().join("void.txt")], "the same again");
        assert_eq!(std::fs::read(folder.path().join("void.txt")).unwrap(), b"one");
    }

    #[test]
    fn a_failed_file_leaves_what_was_there() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("account.csv");
        write(&path, b"whole").unwrap();
        let failed = write_whole(&path, |out| -> Result<(), AppError> {
            out.write_all(b"ha").unwrap();
            Err(bad_input("the disk is full"))
        });
        assert!(failed.is_err());
        assert_eq!(std::fs::read(&path).unwrap(), b"whole");
        assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), 1, "nothing unfinished stays");
    }

    #[cfg(unix)]
    #[test]
    fn links_are_not_followed_and_streams_stay() {
        let folder = tempfile::tempdir().unwrap();
        let (target, link) = (folder.path().join("precious"), folder.path().join("link"));
        std::fs::write(&target, b"precious").unwrap();
        std::os::unix::fs::symlink(&target, &link).unwrap();
        assert!(write(&link, b"other").unwrap_err().to_string().contains("is a link"));
        assert_eq!(std::fs::read(&target).unwrap(), b"precious");
        write(Path::new("/dev/null"), b"gone").unwrap();
        assert!(is_stream(&std::fs::metadata("/dev/null").unwrap()));
    }

    #[cfg(unix)]
    #[test]
    fn an_open_home_is_closed() {
        use std::os::unix::fs::PermissionsExt;
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join("slingseal.db");
        std::fs::write(&file, b"x").unwrap();
        let set = |path: &Path, mode| {
            std::fs::set_permissions(path, std::fs::Permissions::from_mode(mode)).unwrap();
        };
        set(&file, 0o644);
        set(folder.path(), 0o755);
        close_to_others(folder.path());
        let rights = |path: &Path| std::fs::metadata(path).unwrap().permissions().mode() & 0o777;
        assert_eq!((rights(folder.path()), rights(&file)), (0o700, 0o600));
    }
}
