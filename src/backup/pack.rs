//! All that a person keeps, into one file.

use std::collections::BTreeSet;
use std::fs;
use std::io::{self, Read, Write};
use std::path::{Path, PathBuf};
use std::time::UNIX_EPOCH;

use super::contents::{CONTENTS, Contents, Kept, LONGEST, Packed as PackedFile, ROOMS, SCHEMA};
use super::{BackupError, at};

/// What was packed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Packed {
    /// Jobs of the log.
    pub jobs: usize,
    /// Files.
    pub files: usize,
    /// Files that were left out, because they are too long to be anything that the program keeps.
    pub left_out: Vec<PathBuf>,
}

/// Packs what lies in the folder into a new file, which is there as a whole or not at all.
///
/// # Errors
/// [`BackupError::Taken`] where a file of this name is there; what the system says.
pub fn pack(folder: &Path, to: &Path) -> Result<Packed, BackupError> {
    if fs::symlink_metadata(to).is_ok() {
        return Err(BackupError::Taken { file: to.to_owned() });
    }
    let parent = to.parent().filter(|parent| !parent.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let mut builder = tempfile::Builder::new();
    builder.prefix(".half-written-");
    // As open to others as any file that a person makes.
    #[cfg(unix)]
    builder.permissions(std::os::unix::fs::PermissionsExt::from_mode(0o666));
    let mut beside = builder.tempfile_in(parent).map_err(at(to))?;
    let packed = write(folder, beside.as_file_mut(), to)?;
    beside.as_file().sync_all().map_err(at(to))?;
    beside.persist_noclobber(to).map_err(|error| match error.error.kind() {
        io::ErrorKind::AlreadyExists => BackupError::Taken { file: to.to_owned() },
        _ => at(to)(error.error),
    })?;
    // The name itself reaches the disk too, where the system can do that to a folder.
    if let Ok(parent) = fs::File::open(parent) {
        let _ = parent.sync_all();
    }
    Ok(packed)
}

fn write(folder: &Path, file: &mut fs::File, to: &Path) -> Result<Packed, BackupError> {
    let mut archive = tar::Builder::new(io::BufWriter::new(file));
    let mut contents =
        Contents { schema: SCHEMA, program: env!("CARGO_PKG_VERSION").to_owned(), files: Vec::new() };
    let mut left_out = Vec::new();
    for name in names(folder)? {
        let path = folder.join(&name);
        // A save puts another file in the place of the one that was listed: either is whole.
        let open = match fs::File::open(&path) {
            Err(cause) if cause.kind() == io::ErrorKind::NotFound => continue,
            open => open.map_err(at(&path))?,
        };
        let found = open.metadata().map_err(at(&path))?;
        let mut bytes = Vec::new();
        open.take(LONGEST + 1).read_to_end(&mut bytes).map_err(at(&path))?;
        if bytes.len() as u64 > LONGEST {
            left_out.push(path);
            continue;
        }
        let written = found.modified().ok().and_then(|at| at.duration_since(UNIX_EPOCH).ok());
        put(&mut archive, &name, &bytes, written.map_or(0, |since| since.as_secs())).map_err(at(to))?;
        contents.files.push(PackedFile::of(&name, bytes.len() as u64, crc32fast::hash(&bytes)));
    }
    let list = serde_json::to_vec_pretty(&contents).expect("texts and numbers always write as JSON");
    put(&mut archive, CONTENTS, &list, 0).map_err(at(to))?;
    archive.into_inner().and_then(|mut inner| inner.flush()).map_err(at(to))?;
    let jobs: BTreeSet<_> = contents
        .files
        .iter()
        .filter_map(|file| match Kept::of(&file.name) {
            Some(Kept::OfJob(_, job, _)) => Some(job),
            _ => None,
        })
        .collect();
    Ok(Packed { jobs: jobs.len(), files: contents.files.len(), left_out })
}

fn put(archive: &mut tar::Builder<impl Write>, name: &str, bytes: &[u8], at: u64) -> io::Result<()> {
    let mut header = tar::Header::new_gnu();
    header.set_size(bytes.len() as u64);
    header.set_mode(0o644);
    header.set_mtime(at);
    archive.append_data(&mut header, name, bytes)
}

/// The files of the folder that are kept, in order.
fn names(folder: &Path) -> Result<Vec<String>, BackupError> {
    let mut found: Vec<String> = entries(folder)?.into_iter().map(|(name, _)| name).collect();
    for (room, _) in ROOMS {
        for (job, path) in entries(&folder.join(room))? {
            found.extend(entries(&path)?.into_iter().map(|(file, _)| format!("{room}/{job}/{file}")));
        }
    }
    found.retain(|name| Kept::of(name).is_some() && folder.join(name).is_file());
    found.sort();
    Ok(found)
}

/// The entries of a folder by name; none where it is no folder.
fn entries(folder: &Path) -> Result<Vec<(String, PathBuf)>, BackupError> {
    let read = match fs::read_dir(folder) {
        Err(cause) if matches!(cause.kind(), io::ErrorKind::NotFound | io::ErrorKind::NotADirectory) => {
            return Ok(Vec::new());
        }
        read => read.map_err(at(folder))?,
    };
    let mut found = Vec::new();
    for entry in read {
        let entry = entry.map_err(at(folder))?;
        // What has no text for a name is nothing that the program made.
        if let Ok(name) = entry.file_name().into_string() {
            found.push((name, entry.path()));
        }
    }
    Ok(found)
}
