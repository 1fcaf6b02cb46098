//! What colour is a film on the screen, and how far are two colours apart?

use once_cell::sync::Lazy;
use palette::color_difference::Ciede2000;
use palette::white_point::D65;
use palette::{FromColor, IntoColor, Lab, LinSrgb, Srgb, Xyz};

use super::optics::{FilmModel, bands, spread};

/// White of daylight summed on the grid of the model; it differs from the tabled one by
/// the width of the steps, and colours of the film are seen against it.
const TABLED_WHITE: [f64; 3] = [0.950_47, 1.0, 1.088_83];
/// Thickest film with a swatch, nm: past everything that may be judged.
const THICKEST_NM: f64 = 130.0;
/// Swatches per nm of the lookup.
const PER_NM: f64 = 2.0;
/// Screen colours per nm of the lookup.
const SCREEN_PER_NM: f64 = 10.0;

/// A colour in CIELAB under D65.
pub type LabColour = Lab<D65, f64>;

/// The colour of one film.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Swatch {
    /// CIE XYZ with Y = 1 for a perfect mirror.
    pub xyz: [f64; 3],
    /// CIELAB against daylight.
    pub lab: LabColour,
    /// Linear sRGB; below 0 where the screen can't show it.
    pub linear: [f64; 3],
    /// sRGB for the screen, clipped where the screen can't show it.
    pub srgb: [u8; 3],
}

/// The colour of a film by a set of choices: spectrum over 380 to 780 nm, 2° observer, D65.
#[must_use]
pub fn swatch(film_nm: f64, model: &FilmModel) -> Swatch {
    let (mut sum, mut white) = ([0.0; 3], [0.0; 3]);
    for band in bands() {
        let light = &band.light;
        let reflected = spread(band, film_nm, model);
        for (place, eye) in [light.x, light.y, light.z].into_iter().enumerate() {
            white[place] += eye * light.d65;
            sum[place] += eye * light.d65 * reflected;
        }
    }
    let xyz = sum.map(|part| part / white[1]);
    // palette knows the tabled white; only the ratio to white enters Lab.
    let against_white: [f64; 3] =
        std::array::from_fn(|place| sum[place] / white[place] * TABLED_WHITE[place]);
    let linear = linear_of(xyz);
    Swatch { xyz, lab: lab_of(against_white), linear, srgb: screen(linear) }
}

/// CIELAB of XYZ against the tabled white.
#[must_use]
pub fn lab_of(xyz: [f64; 3]) -> LabColour {
    Lab::from_color(Xyz::<D65, f64>::new(xyz[0], xyz[1], xyz[2]))
}

/// Linear sRGB of XYZ, unclipped.
#[must_use]
pub fn linear_of(xyz: [f64; 3]) -> [f64; 3] {
    use palette::convert::FromColorUnclamped;
    let linear = LinSrgb::<f64>::from_color_unclamped(Xyz::<D65, f64>::new(xyz[0], xyz[1], xyz[2]));
    [linear.red, linear.green, linear.blue]
}

/// CIELAB of linear sRGB.
#[must_use]
pub fn lab_of_linear(linear: [f64; 3]) -> LabColour {
    let xyz: Xyz<D65, f64> = LinSrgb::new(linear[0], linear[1], linear[2]).into_color();
    Lab::from_color(xyz)
}

/// Linear light of each sRGB byte.
pub(crate) static LINEAR: Lazy<[f64; 256]> = Lazy::new(|| {
    std::array::from_fn(|byte| {
        let byte = u8::try_from(byte).unwrap_or(u8::MAX);
        Srgb::<u8>::new(byte, 0, 0).into_linear::<f64>().red
    })
});

/// Screen bytes of linear sRGB, clipped.
#[must_use]
pub fn screen(linear: [f64; 3]) -> [u8; 3] {
    let clipped = linear.map(|part| part.clamp(0.0, 1.0));
    let bytes: Srgb<u8> =
        Srgb::<f64>::from_linear(LinSrgb::new(clipped[0], clipped[1], clipped[2])).into_format();
    [bytes.red, bytes.green, bytes.blue]
}

/// Colour difference ΔE of CIEDE2000.
#[must_use]
pub fn difference(a: LabColour, b: LabColour) -> f64 {
    Ciede2000::difference(a, b)
}

/// Swatches of the adopted model, half a nm apart, and their screen colours.
struct Films {
    swatches: Vec<Swatch>,
    screen: Vec<[u8; 3]>,
}

static FILMS: Lazy<Films> = Lazy::new(|| {
    let model = FilmModel::adopted();
    let swatches: Vec<Swatch> = steps(PER_NM).map(|film_nm| swatch(film_nm, &model)).collect();
    let screen = steps(SCREEN_PER_NM)
        .map(|film_nm| {
            let place = film_nm * PER_NM;
            let below = place.floor().min(THICKEST_NM * PER_NM - 1.0);
            let share = place - below;
            let (a, b) = (&swatches[index(below)], &swatches[index(below) + 1]);
            screen(std::array::from_fn(|part| a.linear[part] + (b.linear[part] - a.linear[part]) * share))
        })
        .collect();
    Films { swatches, screen }
});

fn steps(per_nm: f64) -> impl Iterator<Item = f64> {
    (0..=index(THICKEST_NM * per_nm)).map(move |step| f64::from(u32::try_from(step).unwrap_or(0)) / per_nm)
}

/// A rounded place in a table, from 0.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped to the table before")]
fn index(place: f64) -> usize {
    place.round().clamp(0.0, THICKEST_NM * SCREEN_PER_NM) as usize
}

/// The swatch of a film, to the next half nm; thicker films than 130 nm look like that one.
#[must_use]
pub fn film_swatch(film_nm: f64) -> Swatch {
    FILMS.swatches[index((film_nm * PER_NM).min(THICKEST_NM * PER_NM))]
}

/// The screen colour of a film, to the next tenth of a nm.
#[must_use]
pub fn film_screen(film_nm: f64) -> [u8; 3] {
    FILMS.screen[index(film_nm * SCREEN_PER_NM)]
}

/// Computes every swatch, so that the first strip does not wait for it.
pub fn prepare() {
    Lazy::force(&FILMS);
}
