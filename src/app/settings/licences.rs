//! Whose work is in the app, and under which licence.

/// A licence that somebody's work comes under.
pub(super) struct Licence {
    pub(crate) id: &'static str,
    pub(crate) title: &'static str,
    pub(crate) kind: &'static str,
    /// Whose work it is, where the title is only what it is.
    pub(super) works: &'static str,
    pub(crate) text: &'static str,
}

/// The text of the MIT licence, without a holder.
const MIT: &str = include_str!("../../../data/licences/mit.txt");

/// Our own files, the font, the toolkit, and the libraries that are named in `Cargo.toml`.
/// Names and texts of licences are not translated.
pub(super) const LICENCES: [Licence; 5] = [
    Licence { id: "own", title: "Strawblue", kind: "MIT OR Apache-2.0", works: "", text: MIT },
    Licence {
        id: "plex",
        title: "IBM Plex Sans",
        kind: "SIL Open Font License 1.1",
        works: "",
        text: include_str!("../../../ui/fonts/LICENSE_FONT"),
    },
    Licence {
        id: "slint",
        title: "Slint",
        kind: "Royalty-free licence 2.0",
        works: "",
        text: include_str!("../../../data/licences/slint-royalty-free-2.0.md"),
    },
    Licence {
        id: "libraries",
        title: "Rust",
        kind: "MIT OR Apache-2.0",
        works: "serde, serde_json, strum, ron, once_cell, fluent, fluent-syntax, unic-langid, thiserror, \
                directories, tempfile, image, palette, libm, num-complex, fontique, rfd, krilla, skrifa, \
                zeno, sys-locale, miniz_oxide, tar",
        text: MIT,
    },
    Licence {
        id: "roots",
        title: "roots",
        kind: "BSD-2-Clause",
        works: "",
        text: include_str!("../../../data/licences/bsd-2-clause-roots.txt"),
    },
];
