//! What the program carries of `data/`: packed by the build, unpacked where it is read.

/// The text of a file of `data/`, by its name.
macro_rules! data {
    ($name:expr) => {
        $crate::packed::text(include_bytes!(concat!(env!("OUT_DIR"), "/", $name, ".z")))
    };
}
pub(crate) use data;

/// The text of what the build packed.
///
/// # Panics
/// Never: the build packed it, and the tests read every file.
pub(crate) fn text(packed: &[u8]) -> String {
    let bytes = miniz_oxide::inflate::decompress_to_vec(packed).expect("the build packed it");
    String::from_utf8(bytes).expect("a data file is text")
}
