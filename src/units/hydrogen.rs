//! Diffusible hydrogen: a figure, or a class of a named scheme.

use super::measure::{self, Row};
use super::{Accepts, Choice, Problem, limits, number};

/// Diffusible hydrogen as typed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hydrogen {
    /// ml/100 g of deposited metal: the figure, or the upper end of the class.
    pub ml: f64,
    /// The class, where one was typed.
    pub class: Option<&'static str>,
    /// The class has no upper end (D1.1 H3, EN scale A): `ml` stands for it, and the
    /// process may bring more.
    pub open: bool,
}

/// One class: what is typed, how it is written, its upper end, whether it is open.
struct Class {
    typed: &'static [&'static str],
    name: &'static str,
    ml: f64,
    open: bool,
}

const fn class(typed: &'static [&'static str], name: &'static str, ml: f64) -> Class {
    Class { typed, name, ml, open: false }
}

/// Designators of AWS filler specifications and of ISO filler standards give the most
/// ml/100 g by their number (Funderburk, hydrogen designators; ISO from memory). D1.1
/// annex: H1 5, H2 10, H3 not controlled, taken as 30 (from memory). EN 1011-2 scale by
/// ISO 3690: A above 15, B 15, C 10, D 5, E 3.
const CLASSES: &[Class] = &[
    class(&["H4", "H4R", "AWSH4", "AWSH4R"], "H4", 4.0),
    class(&["H5", "ISOH5", "ENH5"], "H5", 5.0),
    class(&["H8", "H8R", "AWSH8", "AWSH8R"], "H8", 8.0),
    class(&["H10", "ISOH10", "ENH10"], "H10", 10.0),
    class(&["H15", "ISOH15", "ENH15"], "H15", 15.0),
    class(&["H16", "H16R", "AWSH16", "AWSH16R"], "H16", 16.0),
    class(&["AWSH2", "AWSH2R"], "AWS H2", 2.0),
    class(&["D1.1H1", "AWSD1.1H1", "D11H1"], "D1.1 H1", 5.0),
    class(&["D1.1H2", "AWSD1.1H2", "D11H2"], "D1.1 H2", 10.0),
    Class { typed: &["D1.1H3", "AWSD1.1H3", "D11H3"], name: "D1.1 H3", ml: 30.0, open: true },
    Class { typed: &["ENA", "SCALEA", "ENSCALEA", "EN1011A"], name: "EN A", ml: 30.0, open: true },
    class(&["ENB", "SCALEB", "ENSCALEB", "EN1011B"], "EN B", 15.0),
    class(&["ENC", "SCALEC", "ENSCALEC", "EN1011C"], "EN C", 10.0),
    class(&["END", "SCALED", "ENSCALED", "EN1011D"], "EN D", 5.0),
    class(&["ENE", "SCALEE", "ENSCALEE", "EN1011E"], "EN E", 3.0),
];

/// Diffusible hydrogen as people write it: `3 ml`, `3`, `5 ml/100 g`, `H5`, `H4R`,
/// `D1.1 H2`, `EN D`, `scale D`.
///
/// # Errors
/// A [`Problem`] if it is no hydrogen figure or class, or outside the limits. Bare
/// `H1`, `H2`, `H3` and a bare letter mean different things in different schemes:
/// they are asked about.
pub fn hydrogen(text: &str) -> Result<Hydrogen, Problem> {
    const ROWS: &[Row] = &[
        Row::plain(
            "ml/100 g",
            &["ml", "ml/100g", "ml/100gm", "ml/100gdepositedmetal", "cm3/100g", "cc/100g", "cc", "hd"],
        ),
        // 1 ml/100 g is 2.016 g / 22 414 ml = 0.8994 ppm.
        Row::over("ppm", &["ppm"], 2.016 / 22_414.0 * 1.0e4),
    ];
    let tidied = number::tidied(text, Accepts::Hydrogen)?;
    let squeezed: String = tidied.to_uppercase().chars().filter(|c| !matches!(c, ' ' | '-' | ':')).collect();
    if let Some(class) = CLASSES.iter().find(|class| class.typed.contains(&squeezed.as_str())) {
        return Ok(Hydrogen { ml: class.ml, class: Some(class.name), open: class.open });
    }
    let choices: &[(&str, &'static str)] = match squeezed.as_str() {
        "H1" => &[("D1.1 H1", "hydrogen-means-d11-h1"), ("1 ml", "hydrogen-means-figure")],
        "H2" => &[
            ("D1.1 H2", "hydrogen-means-d11-h2"),
            ("AWS H2", "hydrogen-means-aws-h2"),
            ("2 ml", "hydrogen-means-figure"),
        ],
        "H3" => &[("D1.1 H3", "hydrogen-means-d11-h3"), ("3 ml", "hydrogen-means-figure")],
        "A" => &[("EN A", "hydrogen-means-en-a"), ("5 ml", "hydrogen-means-other-letter")],
        "B" => &[("EN B", "hydrogen-means-en-b"), ("5 ml", "hydrogen-means-other-letter")],
        "C" => &[("EN C", "hydrogen-means-en-c"), ("5 ml", "hydrogen-means-other-letter")],
        "D" => &[("EN D", "hydrogen-means-en-d"), ("5 ml", "hydrogen-means-other-letter")],
        "E" => &[("EN E", "hydrogen-means-en-e"), ("5 ml", "hydrogen-means-other-letter")],
        _ => &[],
    };
    if !choices.is_empty() {
        let choices =
            choices.iter().map(|&(write, means)| Choice { write: write.to_owned(), means }).collect();
        return Err(Problem::Ambiguous { typed: text.to_owned(), choices });
    }
    let read = measure::read(text, Accepts::Hydrogen, ROWS, 0, limits::HYDROGEN_ML)?;
    Ok(Hydrogen { ml: read.value, class: None, open: false })
}
