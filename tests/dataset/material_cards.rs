//! Strengths of our grades beside an outside dataset: the material cards of Debian's `freecad-common`.
//!
//! `material_cards.ron` is an extract of them; where the package is installed the cards themselves are
//! read too, and must say what the extract says.

use std::path::Path;

use serde::Deserialize;
use strawblue::reference::{ConditionKind, Grade, embedded};

#[derive(Debug, Deserialize)]
struct Card {
    number: String,
    name: String,
    kind: ConditionKind,
    yield_mpa: f64,
    tensile_mpa: f64,
}

/// Where the package puts its cards.
const INSTALLED: &str = "/usr/share/freecad/Mod/Material/StandardMaterial";

fn cards() -> Vec<Card> {
    ron::from_str(include_str!("material_cards.ron")).expect("the extract reads")
}

/// By its material number, or by its name where the number has changed since (S235JR).
fn grade_of(card: &Card) -> &'static Grade {
    embedded()
        .grades
        .iter()
        .find(|grade| grade.also.contains(&card.number) || grade.designation == card.name)
        .unwrap_or_else(|| panic!("no grade is {} {}", card.number, card.name))
}

/// A card has the strength of the thinnest size. A grade of a European standard has the same least yield to
/// a percent, since both copy one standard; an American bar that is sold for it is within an eighth. The
/// card's tensile strength lies in our range, or within a tenth of our least.
#[test]
fn the_strengths_are_those_of_the_material_cards() {
    let mut off = Vec::new();
    for card in cards() {
        let grade = grade_of(&card);
        let row = grade
            .conditions
            .iter()
            .filter(|row| row.kind == card.kind && row.yield_mpa.is_some())
            .min_by(|one, other| {
                let thin = |up_to_mm: Option<f64>| up_to_mm.unwrap_or(f64::INFINITY);
                thin(one.up_to_mm).total_cmp(&thin(other.up_to_mm))
            })
            .unwrap_or_else(|| panic!("{} has no {:?}", grade.designation, card.kind));
        let european = grade.standards.iter().any(|standard| standard.starts_with("EN "));
        let (ours, share) = (row.yield_mpa.expect("filtered"), if european { 0.01 } else { 0.125 });
        if (card.yield_mpa - ours).abs() > share * ours {
            off.push(format!(
                "{} ({}): yield {} beside {ours}",
                card.name, grade.designation, card.yield_mpa
            ));
        }
        let least = row.tensile_min_mpa.expect("a row with a yield has a tensile strength");
        let most = row.tensile_max_mpa.unwrap_or(1.1 * least);
        if card.tensile_mpa < 0.9 * least || card.tensile_mpa > most {
            off.push(format!("{}: tensile {} beside {least} to {most}", card.name, card.tensile_mpa));
        }
    }
    assert!(off.is_empty(), "{}", off.join("\n"));
}

/// The extract is what the installed cards say; without the package there is nothing to compare.
#[test]
fn the_extract_is_what_the_installed_cards_say() {
    let Ok(folder) = Path::new(INSTALLED).read_dir() else { return };
    let texts: Vec<String> = folder
        .filter_map(Result::ok)
        .filter(|entry| entry.path().extension().is_some_and(|ending| ending == "FCMat"))
        .filter_map(|entry| std::fs::read_to_string(entry.path()).ok())
        .collect();
    let says = |text: &str, key: &str| {
        let line = text.lines().find_map(|line| line.strip_prefix(key)?.trim_start().strip_prefix('='));
        line.map(|value| value.trim().to_owned())
    };
    for card in cards() {
        let text = texts
            .iter()
            .find(|text| says(text, "Name").as_deref() == Some(card.name.as_str()))
            .unwrap_or_else(|| panic!("no card {}", card.name));
        let figure = |key| {
            let value = says(text, key)?;
            value.split(' ').next()?.parse::<f64>().ok()
        };
        assert_eq!(figure("YieldStrength"), Some(card.yield_mpa), "{}", card.name);
        assert_eq!(figure("UltimateTensileStrength"), Some(card.tensile_mpa), "{}", card.name);
    }
}
