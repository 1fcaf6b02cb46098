//! `backup` and `restore`: all that is kept, in one file and back.

use std::path::Path;

use serde_json::json;

use super::Said;
use super::arguments::Request;
use crate::backup::{BackupError, pack, restore};
use crate::job::Store;
use crate::units::shortened;
use crate::words::Words;

/// Packs everything into a file.
pub(super) fn backup(given: &[String], request: &Request, words: &Words) -> Said {
    answer(given, "backup", request, words, |folder, file, path| {
        let packed = pack(folder, file)?;
        if request.json {
            let left_out: Vec<String> =
                packed.left_out.iter().map(|path| path.display().to_string()).collect();
            let (jobs, files) = (packed.jobs, packed.files);
            return Ok(Said::json(
                &json!({ "file": path, "jobs": jobs, "files": files, "left_out": left_out }),
            ));
        }
        let left_out = packed
            .left_out
            .iter()
            .map(|path| words.with("backup-left-out", &[("path", &path.display().to_string())]) + "\n");
        let err = left_out.collect();
        let out = words.count("backup-made", packed.jobs, &[("path", path)]) + "\n";
        Ok(Said { err, ..Said::answered(out) })
    })
}

/// Takes everything of a file back.
pub(super) fn restored(given: &[String], request: &Request, words: &Words) -> Said {
    answer(given, "restore", request, words, |folder, file, path| {
        let done = restore(folder, file)?;
        let aside: Vec<String> = done.aside.iter().map(|path| path.display().to_string()).collect();
        if request.json {
            return Ok(Said::json(&json!({
                "file": path, "jobs": done.jobs, "new_records": done.records, "merged": done.merged, "aside": aside
            })));
        }
        Ok(Said::answered(done.say(words).join("\n") + "\n"))
    })
}

/// One file, and the folder that is kept.
fn answer(
    given: &[String],
    command: &str,
    request: &Request,
    words: &Words,
    does: impl FnOnce(&Path, &Path, &str) -> Result<Said, BackupError>,
) -> Said {
    let [path] = given else {
        return Said::not_understood(words.with("cli-backup-file", &[("command", command)]), request.json);
    };
    let Some(folder) = Store::desktop_folder() else {
        return Said::problems(&[(command.to_owned(), words.get("cli-log-no-folder"))], request.json);
    };
    does(&folder, Path::new(path), path)
        .unwrap_or_else(|error| Said::problems(&[(shortened(path), error.say(words))], request.json))
}
