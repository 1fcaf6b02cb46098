//! Search finds by every designation, lists and never selects.

use std::collections::HashSet;

use proptest::prelude::*;
use strawblue::reference::search::{Answer, Item, Match};
use strawblue::reference::spelling::{normal, one_slip};
use strawblue::reference::{Reference, embedded};

fn grades_of(reference: &Reference, answer: &Answer, how: Match) -> Vec<String> {
    answer
        .hits
        .iter()
        .filter(|hit| hit.how == how)
        .filter_map(|hit| reference.grade_of(hit))
        .map(|grade| grade.id.clone())
        .collect()
}

#[test]
fn every_designation_finds_its_own_row() {
    let reference = embedded();
    for (place, grade) in reference.grades.iter().enumerate() {
        for name in std::iter::once(&grade.designation).chain(std::iter::once(&grade.id)).chain(&grade.also) {
            let found = reference.search(name);
            assert!(
                found.exact().iter().any(|hit| hit.item == Item::Grade(place)),
                "{name} does not find {}: {:?}",
                grade.id,
                found.hits
            );
        }
        for name in &grade.near {
            assert!(
                reference.search(name).hits.iter().any(|hit| hit.item == Item::Grade(place)),
                "{name} does not list {}",
                grade.id
            );
        }
    }
    for (place, filler) in reference.fillers.iter().enumerate() {
        for name in std::iter::once(&filler.classification).chain(&filler.also) {
            assert!(
                reference.search(name).exact().iter().any(|hit| hit.item == Item::Filler(place)),
                "{name} does not find {}",
                filler.id
            );
        }
    }
}

/// A slip in a name that every steel of a family begins with finds the family, as one in a whole name does.
#[test]
fn a_slip_in_the_beginning_of_names_lists_neighbours() {
    let reference = embedded();
    for (slip, meant) in [("S335", "S355J2"), ("S3555J2", "S355J2"), ("4l40", "4140"), ("S653", "S690QL")] {
        let found = reference.search(slip);
        let neighbours = grades_of(reference, &found, Match::Neighbour);
        let listed = neighbours.iter().any(|id| id == meant);
        // One slip, not two.
        assert_eq!(listed, slip != "S653", "{slip}: {neighbours:?}");
        assert!(
            found.exact().is_empty() && found.hits.iter().all(|hit| hit.how == Match::Neighbour),
            "{slip}"
        );
    }
}

#[test]
fn spelling_forgives_case_spaces_and_hyphens() {
    let reference = embedded();
    for query in ["4140", "sae 4140", "AISI4140", "41-40", " G41400 ", "g41400"] {
        assert_eq!(
            reference.grade_of(&reference.search(query).hits[0]).map(|grade| grade.id.as_str()),
            Some("4140"),
            "{query}"
        );
    }
    for query in ["42crmo4", "42 Cr Mo 4", "42-CRMO-4"] {
        assert_eq!(
            reference.grade_of(&reference.search(query).hits[0]).map(|grade| grade.id.as_str()),
            Some("42CrMo4"),
            "{query}"
        );
    }
    let wanted = |query: &str, id: &str| {
        let answer = reference.search(query);
        assert_eq!(
            reference.filler_of(&answer.hits[0]).map(|filler| filler.id.as_str()),
            Some(id),
            "{query}"
        );
    };
    wanted("e7018", "e7018");
    wanted("7018", "e7018");
    wanted("ER70S6", "er70s-6");
    wanted("er 309 L", "er309l");
}

// Trade fact, no source: 1.7225 is the number of 42CrMo4, and stockholders sell 4140 under it.
#[test]
fn grades_that_share_a_number_are_all_listed_with_their_differences() {
    let reference = embedded();
    let answer = reference.search("1.7225");
    let mut ids: Vec<&str> = answer
        .exact()
        .iter()
        .filter_map(|hit| reference.grade_of(hit))
        .map(|grade| grade.id.as_str())
        .collect();
    ids.sort_unstable();
    assert_eq!(ids, ["4140", "4142", "42CrMo4"]);
    assert!(!reference.search("17225").hits.is_empty(), "the point may be left out");
    assert_eq!(reference.search("1,7225").exact().len(), 3, "a comma is a point");

    let twins = reference.twins("42CrMo4");
    let twin = twins.iter().find(|twin| twin.grade.id == "4140").expect("4140 shares a number with 42CrMo4");
    assert!(twin.differs.iter().any(|(element, _, _)| element.symbol() == "Mn"), "their manganese differs");
    assert!(reference.twins("no such grade").is_empty());
}

#[test]
fn a_slip_lists_neighbours_and_selects_none() {
    let reference = embedded();
    let answer = reference.search("4141");
    assert!(answer.exact().is_empty());
    let ids = grades_of(reference, &answer, Match::Neighbour);
    assert!(
        ids.contains(&"4140".to_owned())
            && ids.contains(&"4145".to_owned())
            && ids.contains(&"4142".to_owned()),
        "{ids:?}"
    );
    let swapped = reference.search("4410");
    assert!(swapped.exact().is_empty());
    assert!(grades_of(reference, &swapped, Match::Neighbour).contains(&"4140".to_owned()));
    // Digits match exactly: no answer to 4140 is a slip, and 4130 is not among the exact ones.
    let exact = reference.search("4140");
    assert!(exact.hits.iter().all(|hit| hit.how != Match::Neighbour));
    assert!(!exact.exact().iter().any(|hit| reference.grade_of(hit).is_some_and(|grade| grade.id == "4130")));
}

#[test]
fn the_start_of_a_designation_lists_all_that_begin_so() {
    let reference = embedded();
    let answer = reference.search("a514");
    let ids: Vec<&str> =
        answer.hits.iter().filter_map(|hit| reference.grade_of(hit)).map(|grade| grade.id.as_str()).collect();
    for id in ["A514A", "A514B", "A514E", "A514F", "A514H", "A514P", "A514Q", "A514S"] {
        assert!(ids.contains(&id), "{id} in {ids:?}");
    }
    assert!(answer.exact().is_empty(), "A514 alone names no grade");
    assert!(!reference.search("F22").hits.is_empty() && !reference.search("wcb").hits.is_empty());
}

#[test]
fn everyday_words_find_something_and_warn() {
    let reference = embedded();
    for word in [
        "chromoly",
        "mild",
        "leaf spring",
        "axle",
        "cast",
        "stick",
        "wire",
        "Chrome-Moly",
        "LEAF SPRING",
        "chromo",
    ] {
        let answer = reference.search(word);
        assert!(answer.hits.iter().any(|hit| hit.how == Match::Word), "{word}");
        assert!(answer.exact().is_empty(), "{word} selects nothing");
    }
    assert!(grades_of(reference, &reference.search("chromoly"), Match::Word).contains(&"4130".to_owned()));
    assert!(
        reference
            .search("stick")
            .hits
            .iter()
            .any(|hit| reference.filler_of(hit).is_some_and(|filler| filler.id == "e7018"))
    );
    assert_eq!(reference.search("cast").notes, ["word-note-cast"]);
    assert!(reference.search("cast").groups.contains(&"cast-iron".to_owned()));
}

// Trade facts, no source: what people type for a steel, and what they then mean.
#[test]
fn what_people_type_lists_what_they_mean_first() {
    let reference = embedded();
    let first = |query: &str| {
        let answer = reference.search(query);
        let hit = answer.hits.first().and_then(|hit| reference.grade_of(hit));
        hit.map(|grade| grade.id.clone()).unwrap_or_default()
    };
    for (query, id) in [
        ("A706", "A706-60"),
        ("A128", "A128"),
        ("manganese steel", "A128"),
        ("22MnB5", "22MnB5"),
        ("15B30", "15B30"),
        ("2205", "2205"),
        ("1.4462", "2205"),
        ("2304", "2304"),
        ("4104", "430F"),
        ("EN8", "1040"),
        ("EN 8", "1040"),
        ("EN24", "4340"),
        ("S45C", "1045"),
        ("St37", "S235JR"),
        ("40X", "5140"),
        ("4140 prehard", "4140"),
        ("1.2311", "40CrMnMo7"),
        ("7225", "4140"),
    ] {
        assert_eq!(first(query), id, "{query}");
    }
    for query in ["EN19", "SCM440", "St52", "crankshaft", "bolt", "10.9", "rebar"] {
        let answer = reference.search(query);
        assert!(answer.hits.iter().all(|hit| hit.how < Match::Neighbour), "{query}");
        assert!(answer.exact().is_empty() && !answer.hits.is_empty(), "{query} lists and selects nothing");
    }
}

#[test]
fn what_is_no_steel_is_answered_as_none() {
    for query in ["aluminium", "aluminum", "6061", "titanium", "Ti-6Al-4V", "brass"] {
        let answer = embedded().search(query);
        assert!(answer.hits.is_empty(), "{query}: {:?}", answer.hits);
        assert_eq!(answer.notes, ["word-note-no-steel"], "{query}");
    }
    for (query, note) in
        [("A615", "word-note-rebar-615"), ("A148", "word-note-cast-steel"), ("bolt", "word-note-bolt")]
    {
        assert!(embedded().search(query).notes.iter().any(|found| found == note), "{query}");
    }
}

#[test]
fn a_filler_answers_to_its_short_name() {
    let reference = embedded();
    for (query, id) in [
        ("ER312", "er312"),
        ("E312", "er312"),
        ("E7018-H4R", "e7018"),
        ("E7018 H4R", "e7018"),
        ("E7018-1-H8", "e7018-1"),
        ("E71T-1C", "e71t-1"),
        ("E71T-1C-H8", "e71t-1"),
        ("ISO 14343-A 18 8 Mn", "18-8-mn"),
        ("18 8 Mn", "18-8-mn"),
        ("ER307", "18-8-mn"),
    ] {
        let found = strawblue::job::find_filler(query, reference).map(|filler| filler.id.clone());
        assert_eq!(found, Ok(id.to_owned()), "{query}");
    }
}

#[test]
fn nothing_is_found_for_nothing_and_for_nonsense() {
    let reference = embedded();
    for query in ["", "   ", "-", "zzzz", "🔥", "\u{0}", "99999999999999"] {
        assert!(reference.search(query).hits.is_empty(), "{query:?}");
    }
}

#[test]
fn words_are_asked_one_by_one_where_the_whole_finds_nothing() {
    let reference = embedded();
    let answer = reference.search("4140 shaft");
    assert_eq!(
        reference.grade_of(&answer.hits[0]).map(|grade| grade.id.as_str()),
        Some("4140"),
        "{:?}",
        answer.hits
    );
    assert!(answer.hits.iter().any(|hit| hit.how == Match::Word));
    assert!(reference.search("stick 7018").hits.iter().any(|hit| hit.how == Match::Part));
}

proptest! {
    #[test]
    fn any_text_is_answered_with_each_row_once(query in "\\PC{0,40}") {
        let answer = embedded().search(&query);
        let items: HashSet<Item> = answer.hits.iter().map(|hit| hit.item).collect();
        prop_assert_eq!(items.len(), answer.hits.len());
        prop_assert!(answer.hits.len() <= 60);
        prop_assert_eq!(&answer, &embedded().search(&query));
    }

    #[test]
    fn hyphens_spaces_and_case_change_nothing(place in 0..embedded().grades.len(), at in 0usize..12, upper: bool, mark in "[ -]") {
        let grade = &embedded().grades.rows()[place];
        let at = (0..=at.min(grade.id.len())).rev().find(|&at| grade.id.is_char_boundary(at)).unwrap_or(0);
        let (left, right) = grade.id.split_at(at);
        let typed = format!("{left}{mark}{right}");
        let typed = if upper { typed.to_uppercase() } else { typed.to_lowercase() };
        let found = embedded().search(&typed);
        prop_assert!(found.exact().iter().any(|hit| hit.item == Item::Grade(place)), "{} {:?}", typed, found);
    }
}

#[test]
fn every_grade_can_be_browsed_to() {
    let reference = embedded();
    let groups = reference.groups();
    assert!((15..=25).contains(&groups.len()), "{} groups", groups.len());
    let browsed: usize = groups.iter().map(|group| reference.browse(group).len()).sum();
    assert_eq!(browsed, reference.grades.len());
}

#[test]
fn case_spaces_hyphens_and_bodies_do_not_count() {
    for text in ["42CrMo4", "42 cr mo 4", "42-CrMo-4", " 42crmo4 "] {
        assert_eq!(normal(text), "42crmo4");
    }
    for text in ["SAE 4140", "sae4140", "AISI-4140", "41 40", "AISI 4140 steel"] {
        assert_eq!(normal(text), "4140");
    }
    assert_eq!(normal("1,7225"), "1.7225");
    assert_eq!(normal("ASTM A514 Gr A"), "a514a");
    assert_eq!(normal("steel"), "steel");
    assert!(!embedded().search("gr ey").exact().is_empty(), "a piece may be such a word");
}

#[test]
fn a_slip_is_one_letter_or_one_swap() {
    let slip = |left: &str, right: &str| {
        one_slip(&left.chars().collect::<Vec<_>>(), &right.chars().collect::<Vec<_>>())
    };
    assert!(slip("4410", "4140") && slip("4143", "4140") && slip("414", "4140") && slip("41400", "4140"));
    assert!(!slip("4140", "4140") && !slip("4014", "4140") && !slip("41", "4140"));
}
