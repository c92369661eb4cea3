//! Texts on disk: read for sheets that take something from them, and written whole or not at all.
//!
//! Only what is a file, and no longer than anybody writes one, is read for others: a path may lead to
//! a device that never ends or to the very pipe on which an editor speaks. It must not know what the
//! texts say.

use std::io::{Error, ErrorKind, Read, Write};
use std::path::{Component, Path, PathBuf};

use tempfile::NamedTempFile;

/// The longest sheet that is read, in bytes.
const LONGEST_SHEET: u64 = 16 << 20;
/// Why bytes are not read that are no text in UTF-8.
const NOT_TEXT: &str = "it is not plain text; open it in an editor and save it as UTF-8";
/// The longest rulebook that is read, in bytes.
pub const LONGEST_RULEBOOK: u64 = 256 << 10;

/// The text of a sheet, or why it cannot be had, as the end of a sentence.
pub fn read(path: &Path) -> Result<String, String> {
    read_within(path, LONGEST_SHEET)
}

/// A text of at most so many bytes, or why it cannot be had, as the end of a sentence.
pub fn read_within(path: &Path, longest: u64) -> Result<String, String> {
    let about = std::fs::metadata(path).map_err(|error| reason(&error))?;
    if !about.is_file() {
        return Err("it is not a file".to_owned());
    }
    if about.len() > longest {
        return Err(too_long(longest));
    }
    std::fs::read_to_string(path).map_err(|error| reason(&error))
}

/// The text of a sheet that a person names, which may also be a pipe; or why it cannot be had, as the
/// end of a sentence.
pub fn read_named(path: &Path) -> Result<String, String> {
    let opened = std::fs::File::open(path);
    let why = |error| if path.is_symlink() { dangling(&error) } else { reason(&error) };
    let file = opened.map_err(why)?;
    if file.metadata().is_ok_and(|about| about.is_dir()) {
        return Err("it is a folder".to_owned());
    }
    read_all(file)
}

/// All of a text that has no more bytes than a sheet may have; or why it cannot be had, as the end of
/// a sentence.
pub fn read_all(source: impl Read) -> Result<String, String> {
    let mut bytes = Vec::new();
    source.take(LONGEST_SHEET + 1).read_to_end(&mut bytes).map_err(|error| reason(&error))?;
    if bytes.len() as u64 > LONGEST_SHEET {
        return Err(too_long(LONGEST_SHEET));
    }
    String::from_utf8(bytes).map_err(|_| NOT_TEXT.to_owned())
}

/// The real path of a file, with all links followed; where it is not there, that of its folder with its
/// name. Or why there is none, as the end of a sentence: a link that leads nowhere may yet be opened in
/// ways that cannot be foreseen.
pub fn real(path: &Path) -> Result<PathBuf, String> {
    let path = if path.as_os_str().is_empty() { Path::new(".") } else { path };
    std::fs::canonicalize(path).or_else(|error| match (path.parent(), path.file_name()) {
        _ if path.is_symlink() => Err(dangling(&error)),
        (Some(folder), Some(name)) => Ok(real(folder)?.join(name)),
        _ => Err(reason(&error)),
    })
}

fn dangling(error: &Error) -> String {
    let reason = match error.kind() {
        ErrorKind::NotFound => "it is a link that leads nowhere",
        ErrorKind::PermissionDenied => "it is a link into a folder that is protected",
        _ => "it is a link that cannot be followed to its end",
    };
    reason.to_owned()
}

/// The path without the dots in it, as it is written.
pub fn plain(path: &Path) -> PathBuf {
    let mut plain = PathBuf::new();
    for part in path.components() {
        match part {
            Component::ParentDir => {
                plain.pop();
            }
            Component::CurDir => {}
            _ => plain.push(part),
        }
    }
    plain
}

/// Why a text is not read that has more bytes than may be, as the end of a sentence.
pub fn too_long(longest: u64) -> String {
    format!("it is too long; it may have {} kB", longest >> 10)
}

/// Puts a text, or other bytes, in the place of a file, at once: whoever looks sees the old ones or the
/// new ones. The file keeps its permissions, and one that may not be written is left alone.
pub fn write(path: &Path, bytes: impl AsRef<[u8]>) -> Result<(), Error> {
    let path = std::fs::canonicalize(path)?;
    let about = std::fs::metadata(&path)?;
    if !about.is_file() {
        // A device or a pipe takes the bytes, and is never replaced by a file.
        return std::fs::write(&path, bytes);
    }
    let permissions = about.permissions();
    if permissions.readonly() {
        return Err(ErrorKind::PermissionDenied.into());
    }
    let mut beside = beside(&path)?;
    beside.write_all(bytes.as_ref())?;
    beside.as_file().set_permissions(permissions)?;
    beside.persist(&path)?;
    Ok(())
}

/// Writes a file that is not there yet, whole or not at all. Fails if it is there.
pub fn create(path: &Path, bytes: impl AsRef<[u8]>) -> Result<(), Error> {
    let mut beside = beside(path)?;
    beside.write_all(bytes.as_ref())?;
    beside.persist_noclobber(path)?;
    Ok(())
}

/// A file in the same folder that takes the place of another when it is done. It has the permissions of
/// any new file.
fn beside(path: &Path) -> Result<NamedTempFile, Error> {
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty());
    let mut builder = tempfile::Builder::new();
    #[cfg(unix)]
    let builder = builder.permissions(std::os::unix::fs::PermissionsExt::from_mode(0o666));
    builder.tempfile_in(folder.unwrap_or(Path::new(".")))
}

/// Why a file cannot be had, as the end of a sentence.
pub fn reason(error: &Error) -> String {
    let reason = match error.kind() {
        ErrorKind::NotFound => "there is no such file",
        ErrorKind::PermissionDenied => "it is protected",
        ErrorKind::InvalidData => NOT_TEXT,
        _ => "it cannot be opened",
    };
    reason.to_owned()
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    #[test]
    fn a_file_is_made_only_where_none_is_and_leaves_nothing_beside_it() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("a.txt");
        create(&path, "first").unwrap();
        assert_eq!(create(&path, "second").unwrap_err().kind(), ErrorKind::AlreadyExists);
        assert_eq!(std::fs::read_to_string(&path).unwrap(), "first");
        write(&path, "third").unwrap();
        assert_eq!(std::fs::read_to_string(&path).unwrap(), "third");
        assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), 1);
    }

    #[cfg(unix)]
    #[test]
    fn a_file_has_the_permissions_of_any_new_one_and_keeps_those_it_has() {
        use std::os::unix::fs::PermissionsExt;
        let folder = tempfile::tempdir().unwrap();
        let mode =
            |name: &str| std::fs::metadata(folder.path().join(name)).unwrap().permissions().mode();
        std::fs::write(folder.path().join("plain"), "").unwrap();
        create(&folder.path().join("made"), "").unwrap();
        assert_eq!(mode("made"), mode("plain"));
        let path = folder.path().join("made");
        std::fs::set_permissions(&path, std::fs::Permissions::from_mode(0o640)).unwrap();
        write(&path, "new").unwrap();
        assert_eq!(mode("made") & 0o777, 0o640);
        std::fs::set_permissions(&path, std::fs::Permissions::from_mode(0o440)).unwrap();
        assert_eq!(write(&path, "newer").unwrap_err().kind(), ErrorKind::PermissionDenied);
    }
}
