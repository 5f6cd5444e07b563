//! Files named by the person: read with a bound, written with a clear word when they cannot be.

use crate::failure::Failure;
use lowside_session::size;
use std::fs::{self, File, OpenOptions};
use std::io::{self, BufWriter, Read, Write};
use std::path::Path;

/// Reads a regular UTF-8 file of at most `most` bytes. Never holds more than that in memory.
///
/// # Errors
/// [`Failure::Asked`] naming the file and what is wrong with it.
pub(crate) fn read(path: &Path, most: usize, what: &str) -> Result<String, Failure> {
    let name = path.display();
    let cannot = |e: &io::Error| Failure::Asked(format!("{name}: cannot be read: {}", cause(e)));
    let about = fs::metadata(path).map_err(|e| cannot(&e))?;
    if about.is_dir() {
        return Err(Failure::Asked(format!(
            "{name}: is a directory, not {what}"
        )));
    }
    // a device or pipe may never end, or never begin
    if !about.is_file() {
        return Err(Failure::Asked(format!(
            "{name}: is not a regular file, and only such can be {what}"
        )));
    }
    let too_large = || {
        let most = size(most);
        Failure::Asked(format!(
            "{name}: is larger than {most}, the most {what} may be"
        ))
    };
    let limit = most as u64;
    if about.len() > limit {
        return Err(too_large());
    }
    let mut bytes = Vec::with_capacity(usize::try_from(about.len()).unwrap_or(most) + 1);
    // the file may have grown since, and some report no length
    File::open(path)
        .and_then(|f| f.take(limit + 1).read_to_end(&mut bytes))
        .map_err(|e| cannot(&e))?;
    if bytes.len() as u64 > limit {
        return Err(too_large());
    }
    String::from_utf8(bytes).map_err(|e| {
        Failure::Asked(format!(
            "{name}: is not UTF-8 text (from byte {}), so it is not {what}",
            e.utf8_error().valid_up_to() + 1
        ))
    })
}

/// Opens a file to write from its beginning.
///
/// # Errors
/// [`Failure::Asked`] naming the file.
pub(crate) fn create(path: &Path) -> Result<BufWriter<File>, Failure> {
    File::create(path)
        .map(BufWriter::new)
        .map_err(|e| unwritable(path, &e))
}

/// Makes sure now, without touching what is there, that a file can be written later.
///
/// # Errors
/// [`Failure::Asked`] naming the file.
pub(crate) fn probe(path: &Path) -> Result<(), Failure> {
    let opened = OpenOptions::new().append(true).create(true).open(path);
    opened.map(drop).map_err(|e| unwritable(path, &e))
}

/// Writes a whole file.
///
/// # Errors
/// [`Failure::Asked`] naming the file.
pub(crate) fn write(path: &Path, text: &str) -> Result<(), Failure> {
    let mut file = create(path)?;
    file.write_all(text.as_bytes())
        .and_then(|()| file.flush())
        .map_err(|e| unwritable(path, &e))
}

/// That a file could not be written.
pub(crate) fn unwritable(path: &Path, error: &io::Error) -> Failure {
    Failure::Asked(format!(
        "{}: cannot be written: {}",
        path.display(),
        cause(error)
    ))
}

/// Are both the same existing file?
pub(crate) fn same(a: &Path, b: &Path) -> bool {
    match (fs::canonicalize(a), fs::canonicalize(b)) {
        (Ok(a), Ok(b)) => a == b,
        _ => a == b,
    }
}

/// The cause in plain words, the same on every system where the kind says enough.
fn cause(error: &io::Error) -> String {
    match error.kind() {
        io::ErrorKind::NotFound => "there is no such file or folder".into(),
        io::ErrorKind::PermissionDenied => "no permission".into(),
        io::ErrorKind::IsADirectory => "it is a directory".into(),
        io::ErrorKind::StorageFull => "no space is left".into(),
        _ => error.to_string(),
    }
}
