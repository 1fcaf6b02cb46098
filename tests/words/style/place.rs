//! Texts that are longer than their place.

use super::Text;

/// The most letters of a place at 360 px, by the beginning of the key. The longest beginning counts.
/// A figure counts as eight.
pub(super) const PLACES: &[(&str, usize)] = &[
    ("place-", 9),
    ("page-", 26),
    // Tags, marks of a basis, standings.
    ("basis-published", 16),
    ("basis-practice", 16),
    ("basis-memory", 16),
    ("basis-own", 16),
    ("basis-demanded", 16),
    ("standing-", 17),
    ("plan-legend-", 17),
    ("plan-governs", 9),
    ("range-inside", 17),
    ("range-outside", 17),
    ("range-at-limit", 17),
    ("range-not-stated", 17),
    ("leading-", 17),
    // Verdicts in the place of the figure.
    ("answer-dry", 28),
    ("answer-routes", 28),
    ("answer-uncovered", 28),
    ("answer-refused", 28),
    ("answer-refused-", 110),
    ("answer-asks", 28),
    ("answer-no-window", 28),
    ("tint-says-nothing", 28),
    ("tint-wait-none", 28),
    ("plan-stale", 34),
    // A word in the place of a limit, and the note below it.
    ("answer-ask-temper", 26),
    ("answer-no-ceiling", 18),
    ("answer-no-ceiling.note", 44),
    ("limit-", 44),
    // Labels of the form; a segment of three; a tile.
    ("field-", 34),
    ("input-", 62),
    ("option-", 48),
    ("form-joint-", 13),
    ("form-restraint-low", 9),
    ("form-restraint-medium", 9),
    ("form-restraint-high", 9),
    ("form-class-", 5),
    ("form-code-", 13),
    ("form-heat-net", 9),
    ("form-heat-arc", 10),
    ("form-heat-meters", 11),
    ("form-condition-", 34),
    ("tint-mode-", 16),
    ("settings-look-", 9),
    ("settings-controls-", 17),
    ("units-", 9),
    // Buttons.
    ("form-add-", 26),
    ("form-remove-", 26),
    ("certificate-save-", 26),
    ("certificate-discard", 26),
    ("certificate-clear-grade", 26),
    ("steels-delete-for-good", 26),
    ("steels-keep", 26),
    ("steels-use", 26),
    ("steels-type-certificate", 26),
    ("tool-clear", 26),
    ("photo-open", 26),
    ("photo-take", 26),
    ("tint-wait-plan", 26),
    ("welcome-", 30),
    ("settings-reset", 34),
    ("settings-reset-yes", 26),
    ("settings-reset-no", 26),
    ("settings-reset-sure", 110),
    ("settings-reset-done", 110),
    // A section head with a note beside it; lines of a tile.
    ("tint-i-see", 13),
    ("tint-cannot-judge", 13),
    ("tint-lightness", 18),
    ("tint-stage-", 34),
    // Heads of sections and of rows, names of methods.
    ("plan-levers", 26),
    ("plan-evidence", 26),
    ("question-", 34),
    // A row of the Bench.
    ("work-", 26),
    ("bench-take", 26),
    ("bench-clear-search", 26),
    ("evidence-says-", 14),
    ("lever-", 48),
    ("kind-", 20),
    ("group-", 48),
    ("joint-", 34),
    ("process-", 34),
    // After merging: titles and lines of the cautions and of the steps.
    ("severity-", 9),
    ("caution-c", 38),
    ("safety-place-", 38),
];
/// Keys that begin like a place and are none.
pub(super) const NO_PLACE: &[&str] = &[
    "joint-note-",
    "joint-means-",
    "process-means-",
    "basis-published-line",
    "basis-practice-line",
    "basis-memory-line",
];

pub(super) fn beyond_place(text: &Text) -> Option<String> {
    if NO_PLACE.iter().any(|key| text.key.starts_with(key)) {
        return None;
    }
    // A line below a head is no head: only the message itself, or the attribute that is named.
    let (_, most) = PLACES
        .iter()
        .filter(|(key, _)| text.key.starts_with(key) && (!text.key.contains('.') || key.contains('.')))
        .max_by_key(|(key, _)| key.len())?;
    let letters = text.said.chars().count();
    (letters > *most && !text.key.ends_with("-note"))
        .then(|| format!("{}: {letters} letters, {most} at most: {}", text.key, text.said))
}
