//! The rows of the list of steels.

use std::collections::BTreeSet;

use slint::SharedString;

use super::detail::{equivalents_line, limits_text};
use super::steel_id::SteelId;

use crate::app::rows::model;
use crate::app::{State, ui};
use crate::job::OwnSteel;
use crate::reference::search::{Hit, Match};
use crate::reference::{Element, Grade};
use crate::words::List;

/// More columns than this don't fit a phone; no number is shared by more.
const COLUMNS: usize = 3;

/// What the list is drawn from.
pub(super) struct View<'a> {
    pub(crate) state: &'a State,
    pub(super) own: Vec<OwnSteel>,
    pub(crate) groups: BTreeSet<String>,
    pub(super) detail: Option<String>,
    pub(crate) chosen: String,
}

/// Nothing typed: own steels, then the groups.
pub(crate) fn browse(view: &View<'_>) -> Vec<ui::SteelEntry> {
    let mut entries = vec![certificate_row(view), unmarked_row(view)];
    if !view.own.is_empty() {
        entries.push(head(view, "own", "steels-own", ""));
        entries.extend(view.own.iter().map(|own| own_row(view, own)));
    }
    entries.push(head(view, "groups", "steels-by-group", ""));
    for group in view.state.reference.groups() {
        push_group(view, group, &mut entries);
    }
    entries
}

/// What a query finds.
pub(crate) fn found(view: &View<'_>, query: &str) -> Vec<ui::SteelEntry> {
    let reference = view.state.reference;
    let answer = reference.search(query);
    let asked = query.trim().to_lowercase();
    let mut entries: Vec<ui::SteelEntry> = view
        .own
        .iter()
        .filter(|own| own.name.to_lowercase().contains(&asked))
        .map(|own| own_row(view, own))
        .collect();
    for note in &answer.notes {
        entries
            .push(ui::SteelEntry { also: view.state.word(note), ..head(view, note, "steels-word-note", "") });
    }
    let mut hits: Vec<(&Hit, &Grade)> =
        answer.hits.iter().filter_map(|hit| reference.grade_of(hit).map(|grade| (hit, grade))).collect();
    // A number belongs first to the steel that names it first.
    hits.sort_by_key(|(hit, grade)| {
        let place = grade.also.iter().position(|also| *also == hit.written);
        (hit.how, place.filter(|_| hit.how == Match::CrossReference))
    });
    let exact: Vec<&Grade> =
        hits.iter().filter(|(hit, _)| hit.how <= Match::CrossReference).map(|(_, grade)| *grade).collect();
    if (2..=COLUMNS).contains(&exact.len()) {
        entries.push(twins(view, query.trim(), &exact));
    }
    let mut under = Under::Found;
    for (hit, grade) in hits {
        let now = Under::of(hit, grade);
        if now != under {
            under = now;
            let (id, title, note) = match now {
                Under::Found => ("found", "steels-found", ""),
                Under::Similar => ("similar", "steels-similar", "steels-similar-note"),
                Under::Neighbour => ("neighbours", "steels-did-you-mean", "steels-did-you-mean-note"),
            };
            entries.push(head(view, id, title, note));
        }
        let group = view.state.word(&format!("group-{}", grade.group));
        entries.push(ui::SteelEntry { matched: matched(view, hit, grade), group, ..steel_row(view, grade) });
    }
    for group in &answer.groups {
        push_group(view, group, &mut entries);
    }
    if entries.is_empty() {
        let title = view.state.words.with("steels-nothing", &[("query", query.trim())]);
        let empty = ui::SteelEntry {
            kind: ui::SteelEntryKind::Empty,
            title: title.into(),
            also: view.state.word("steels-nothing-try"),
            ..ui::SteelEntry::default()
        };
        return vec![empty, unmarked_row(view)];
    }
    if answer.more {
        entries.push(head(view, "more", "steels-more", "steels-more-note"));
    }
    entries.extend([certificate_row(view), unmarked_row(view)]);
    entries
}

/// Which head a hit stands under.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Under {
    Found,
    Similar,
    Neighbour,
}

impl Under {
    fn of(hit: &Hit, grade: &Grade) -> Self {
        match hit.how {
            Match::Neighbour => Self::Neighbour,
            // A number typed without its point is the steel's own all the same.
            Match::Similar if grade.near.contains(&hit.written) => Self::Similar,
            _ => Self::Found,
        }
    }
}

fn matched(view: &View<'_>, hit: &Hit, grade: &Grade) -> SharedString {
    let key = match hit.how {
        Match::Designation => "steels-matched-exact",
        Match::CrossReference => "steels-matched-listed",
        Match::Word => "steels-matched-word",
        // What is read in the title need not be said again.
        Match::Neighbour if hit.written == grade.designation => return SharedString::default(),
        Match::Similar | Match::Neighbour | Match::Standard => "steels-matched-by",
        Match::Part | Match::Prefix => return SharedString::default(),
    };
    view.state.words.with(key, &[("written", &hit.written)]).into()
}

fn head(view: &View<'_>, id: &str, title: &str, note: &str) -> ui::SteelEntry {
    let also = if note.is_empty() { SharedString::default() } else { view.state.word(note) };
    ui::SteelEntry {
        kind: ui::SteelEntryKind::Head,
        id: id.into(),
        title: view.state.word(title),
        also,
        ..ui::SteelEntry::default()
    }
}

fn certificate_row(view: &View<'_>) -> ui::SteelEntry {
    ui::SteelEntry {
        kind: ui::SteelEntryKind::Certificate,
        id: "certificate".into(),
        title: view.state.word("steels-type-certificate"),
        also: view.state.word("steels-certificate-note"),
        ..ui::SteelEntry::default()
    }
}

fn unmarked_row(view: &View<'_>) -> ui::SteelEntry {
    ui::SteelEntry {
        kind: ui::SteelEntryKind::Unmarked,
        id: "unmarked".into(),
        title: view.state.word("steels-unmarked"),
        also: view.state.word("steels-unmarked-note"),
        ..ui::SteelEntry::default()
    }
}

fn push_group(view: &View<'_>, group: &str, entries: &mut Vec<ui::SteelEntry>) {
    let grades = view.state.reference.browse(group);
    let open = view.groups.contains(group);
    entries.push(ui::SteelEntry {
        kind: ui::SteelEntryKind::Group,
        id: group.into(),
        title: view.state.word(&format!("group-{group}")),
        count: view.state.words.count("steels-count", grades.len(), &[]).into(),
        open,
        ..ui::SteelEntry::default()
    });
    if open {
        entries.extend(grades.into_iter().map(|grade| steel_row(view, grade)));
    }
}

fn steel_row(view: &View<'_>, grade: &Grade) -> ui::SteelEntry {
    let also: Vec<&str> =
        grade.also.iter().take(3).chain(grade.standards.first()).map(String::as_str).collect();
    ui::SteelEntry {
        kind: ui::SteelEntryKind::Steel,
        id: grade.id.as_str().into(),
        title: grade.designation.as_str().into(),
        also: view.state.words.list(List::Names, &also).into(),
        open: view.detail.as_deref() == Some(grade.id.as_str()),
        chosen: view.chosen == grade.id,
        ..ui::SteelEntry::default()
    }
}

fn own_row(view: &View<'_>, own: &OwnSteel) -> ui::SteelEntry {
    let id = SteelId::Own(&own.name).to_string();
    ui::SteelEntry {
        kind: ui::SteelEntryKind::Steel,
        title: own.name.as_str().into(),
        also: equivalents_line(&view.state.pen(), own).into(),
        open: view.detail.as_deref() == Some(id.as_str()),
        chosen: view.chosen == id,
        own: true,
        id: id.into(),
        ..ui::SteelEntry::default()
    }
}

/// Steels that share a number, with what differs side by side.
fn twins(view: &View<'_>, number: &str, grades: &[&Grade]) -> ui::SteelEntry {
    let limits = |grade: &Grade, element| grade.composition.get(&element).copied().unwrap_or_default();
    let show = view.state.show();
    let figures: Vec<ui::TwinRow> = Element::ALL
        .iter()
        .copied()
        .filter(|&element| grades.iter().any(|grade| limits(grade, element) != limits(grades[0], element)))
        .map(|element| ui::TwinRow {
            label: element.symbol().into(),
            values: model(
                grades.iter().map(|grade| limits_text(&show, limits(grade, element)).into()).collect(),
            ),
        })
        .collect();
    let key = if figures.is_empty() { "steels-twins-alike" } else { "steels-twins" };
    ui::SteelEntry {
        kind: ui::SteelEntryKind::Twins,
        id: number.into(),
        title: view.state.words.count(key, grades.len(), &[("number", number)]).into(),
        names: model(grades.iter().map(|grade| grade.designation.as_str().into()).collect()),
        figures: model(figures),
        ..ui::SteelEntry::default()
    }
}
