//! Looking for a safety note: as it is spelt here or there, or called in the shop.

use strawblue::reference::{Role, embedded};
use strawblue::report::{Pen, cautions_with};
use strawblue::units::Show;
use strawblue::words::Words;

fn found(query: &str) -> Vec<String> {
    let words = Words::english();
    let pen = Pen { reference: embedded(), words: &words, show: Show::default() };
    cautions_with(&pen, query).iter().map(|caution| caution.id.clone()).collect()
}

// British and American spelling, and what the thing is called in the shop: common practice, no source.
#[test]
fn a_note_is_found_by_every_name_of_the_thing() {
    for (query, first) in [
        ("galvanised", "c044"),
        ("galvanized", "c044"),
        // Where no note has all of it, those that have the most.
        ("Galvanized bracket", "c044"),
        ("gas bottle", "c014"),
        ("gas cylinder", "c014"),
        ("earth clamp", "c121"),
        ("ground clamp", "c121"),
        ("sealed tube", "c027"),
        ("drum", "c076"),
        ("barrel", "c076"),
        ("tire", "c107"),
        ("tyre", "c107"),
        ("ceramic fiber", "c074"),
        ("ceramic fibre", "c074"),
        ("aluminum dust", "c008"),
        ("aluminium dust", "c008"),
        ("brake cleaner", "c050"),
        ("gas strut", "c078"),
        ("angle grinder", "c004"),
        ("chrome", "c129"),
        ("lead paint", "c046"),
        ("argon", "c079"),
        ("helium", "c079"),
        ("CO2", "c067"),
        ("ln2", "c064"),
        ("viton", "c051"),
        ("o-ring", "c051"),
        ("bronze bush", "c048"),
        ("TIG", "c079"),
        ("pacemaker", "c104"),
        ("sling", "c056"),
        ("headache", "c026"),
        ("pit", "c079"),
    ] {
        let found = found(query);
        assert!(found.iter().take(3).any(|id| id == first), "{query}: {found:?}");
    }
}

#[test]
fn a_word_in_the_title_comes_first() {
    for (query, first) in
        [("lead", "c046"), ("acetylene", "c012"), ("ozone", "c039"), ("shock", "c033"), ("press", "c118")]
    {
        let found = found(query);
        let words = Words::english();
        let title = words.get(&format!("caution-{}", found[0])).to_lowercase();
        assert!(title.contains(query), "{query}: {title}");
        assert!(found.iter().any(|id| id == first), "{query}: {found:?}");
    }
    // First aid for the same word follows the cautions whose titles have it.
    let shock = found("shock");
    assert!(shock.contains(&"c086".to_owned()), "{shock:?}");
}

/// What is called just so comes first; then what kills today stands before what kills in years.
#[test]
fn what_kills_today_comes_before_what_kills_later() {
    assert_eq!(found("burn").first().map(String::as_str), Some("c081"), "{:?}", found("burn"));
    for query in ["gas bottle", "gas cylinder"] {
        let found = found(query);
        let at = |id: &str| found.iter().position(|found| found == id).expect("it is found");
        assert!(at("c076") < at("c129"), "{query}: used containers before chrome plating: {found:?}");
    }
}

/// A word is looked for from its beginning: "arc" is no part of "search".
#[test]
fn a_word_begins_where_a_word_begins() {
    assert!(found("cetylene").is_empty() && !found("acetylene").is_empty());
    assert!(found("").is_empty() && found("  ").is_empty() && found("zebra").is_empty());
}

/// Spelling never decides: each word of a group finds what the others find.
#[test]
fn words_of_a_group_find_the_same() {
    let words = Words::english();
    let groups = words.get("safety-same-words");
    let idle: Vec<&str> =
        groups.split(';').filter(|group| found(group.split(',').next().unwrap_or("")).is_empty()).collect();
    assert!(idle.is_empty(), "nothing has {idle:?}");
    for group in groups.split(';') {
        let all: Vec<Vec<String>> = group.split(',').map(found).collect();
        assert!(all.windows(2).all(|pair| pair[0] == pair[1]), "{group}: {all:?}");
    }
}

/// Who asks for more finds no less.
#[test]
fn several_words_at_once_hide_no_danger() {
    let all = found("grind galvanised closed tube");
    for word in ["galvanised", "closed tube"] {
        for id in found(word) {
            assert!(all.contains(&id), "{word}: {id} is not in {all:?}");
        }
    }
    for feeling in ["dizzy", "fainted"] {
        assert!(found(feeling).contains(&"c079".to_owned()), "{feeling}: {:?}", found(feeling));
    }
}

/// The search never clears what it does not know.
#[test]
fn what_is_not_listed_is_not_called_safe() {
    let words = Words::english();
    let said = words.get("safety-nothing-found");
    assert!(said.contains("does not make it safe") && said.contains("do not heat"), "{said}");
    assert!(!words.with("safety-found-none", &[("query", "zebra")]).starts_with("No "));
}

/// Every note can be found by its own title, and the fixed lines are not in the way.
#[test]
fn every_note_is_found_by_its_title() {
    let words = Words::english();
    for caution in &embedded().cautions {
        let title = words.get(&caution.message()).replace([',', ':'], " ");
        let found = found(&title);
        assert_eq!(found.contains(&caution.id), caution.role != Role::Briefing, "{title}: {found:?}");
    }
}

/// In any language the English words find what they find in English, and so do the language's own, with and
/// without their accents (common practice, no source).
#[test]
fn a_note_is_found_by_the_words_of_its_language_and_by_the_english_ones() {
    let in_language = |tag: &str, query: &str| -> Vec<String> {
        let words = Words::of(tag);
        let pen = Pen { reference: embedded(), words: &words, show: Show::default() };
        cautions_with(&pen, query).iter().map(|caution| caution.id.clone()).collect()
    };
    for tag in Words::languages() {
        for (query, first) in
            [("gas bottle", "c014"), ("brake cleaner", "c050"), ("galvanized", "c044"), ("TIG", "c079")]
        {
            let found = in_language(tag, query);
            assert!(found.iter().take(4).any(|id| id == first), "{tag}, {query}: {found:?}");
        }
    }
    for (tag, query, first) in [
        ("de", "Gasflasche", "c014"),
        ("de", "Bremsenreiniger", "c050"),
        ("de", "verzinkt", "c044"),
        ("de", "herzschrittmacher", "c104"),
        ("es", "botella de gas", "c014"),
        ("es", "limpiador de frenos", "c050"),
        ("es", "galvanizado", "c044"),
        ("es", "marcapasos", "c104"),
        ("fr", "bouteille de gaz", "c014"),
        ("fr", "nettoyant de frein", "c050"),
        ("fr", "galvanise", "c044"),
        ("fr", "stimulateur cardiaque", "c104"),
        ("pt-BR", "cilindro de gas", "c014"),
        ("pt-BR", "limpa-freios", "c050"),
        ("pt-BR", "galvanizado", "c044"),
        ("pt-BR", "marca-passo", "c104"),
    ] {
        let found = in_language(tag, query);
        assert!(found.iter().take(5).any(|id| id == first), "{tag}, {query}: {found:?}");
    }
}
