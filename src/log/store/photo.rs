//! Pictures of trial pieces: each lies in the folder of its job, under a name by its bits.

use std::fs;
use std::io::{Cursor, Write};
use std::path::{Path, PathBuf};

use super::{LogStoreError, OpenLog, make_folder};
use crate::engine::photo::read_photo;
use crate::job::StoreError;

/// The longest picture that is kept, bytes.
const LONGEST: u64 = 30 << 20;
/// Pictures of these kinds.
const ENDINGS: [&str; 4] = ["jpg", "jpeg", "png", "webp"];

/// A picture that was read, to be kept with a job.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PhotoFile {
    bytes: Vec<u8>,
    ending: String,
}

fn failed(file: &Path) -> impl Fn(std::io::Error) -> StoreError {
    move |cause| StoreError::File { file: file.to_owned(), cause }
}

impl PhotoFile {
    /// Reads a picture, and looks whether it is one. It takes as long as the picture is large.
    ///
    /// # Errors
    /// [`LogStoreError::NoPicture`] for a file of another kind, a damaged one, or one that is too long or too
    /// large; what the system says.
    pub fn read(from: &Path) -> Result<Self, LogStoreError> {
        let no_picture = |why| LogStoreError::NoPicture { file: from.to_owned(), why };
        let ending = from.extension().and_then(|ending| ending.to_str()).map(str::to_ascii_lowercase);
        let ending = ending.filter(|ending| ENDINGS.contains(&ending.as_str()));
        if fs::metadata(from).map_err(failed(from))?.len() > LONGEST {
            return Err(no_picture(None));
        }
        let ending = ending.ok_or_else(|| no_picture(None))?;
        let bytes = fs::read(from).map_err(failed(from))?;
        read_photo(Cursor::new(&bytes)).map_err(|why| no_picture(Some(why)))?;
        Ok(Self { bytes, ending })
    }

    fn name(&self) -> String {
        format!("{:08x}-{}.{}", crc32fast::hash(&self.bytes), self.bytes.len(), self.ending)
    }
}

impl OpenLog {
    /// Copies a picture into the folder of the job; the name under which a trial piece knows it. It is on the
    /// disk when this returns. A picture that is there already keeps its name.
    ///
    /// # Errors
    /// As [`PhotoFile::read`].
    pub fn keep_photo(&self, from: &Path) -> Result<String, LogStoreError> {
        self.put_photo(&PhotoFile::read(from)?)
    }

    /// The same with a picture that was read before.
    ///
    /// # Errors
    /// [`LogStoreError::ReadOnly`] where a newer program wrote; what the system says.
    pub fn put_photo(&self, photo: &PhotoFile) -> Result<String, LogStoreError> {
        self.writable()?;
        let name = photo.name();
        let file = self.photo(&name);
        let failed = failed(&file);
        if fs::read(&file).is_ok_and(|there| there == photo.bytes) {
            return Ok(name);
        }
        make_folder(self.folder())?;
        let beside = tempfile::Builder::new().prefix(".half-written-").tempfile_in(self.folder());
        let mut beside = beside.map_err(&failed)?;
        beside.write_all(&photo.bytes).and_then(|()| beside.as_file().sync_all()).map_err(&failed)?;
        beside.persist(&file).map_err(|error| failed(error.error))?;
        if let Ok(folder) = fs::File::open(self.folder()) {
            let _ = folder.sync_all();
        }
        Ok(name)
    }

    /// Where a picture lies.
    #[must_use]
    pub fn photo(&self, name: &str) -> PathBuf {
        // A name is never a way out of the folder.
        let name = Path::new(name).file_name().unwrap_or_default();
        self.folder().join(name)
    }
}
