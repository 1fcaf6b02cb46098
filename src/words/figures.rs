//! Figures that stand in a sentence, written in the reader's units. The language file calls
//! them by name:
//!
//! | in the file | in °C and mm | in °F and inches |
//! |---|---|---|
//! | `{ TEMP(260) }` | 260 °C | 500 °F |
//! | `{ TEMP(375, 575) }` | 375–575 °C | 710–1070 °F |
//! | `{ TEMP(79, f: "175") }`, printed in both | 79 °C | 175 °F |
//! | `{ RISE(50) }`, a difference | 50 °C | 90 °F |
//! | `{ LENGTH("75 mm", "3 in") }` | 75 mm | 3 in |
//!
//! A figure is written with the decimal mark of the file; the texts of a length come as they are.
//!
//! One figure is turned by [`whole_fahrenheit`]. A range of points from 100 °C up is one of a
//! handbook, and goes to the nearest 10 °F, as handbooks print it. What decides a weld is
//! never in such a sentence: limits come from the plan and are rounded to the safe side there.

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

use fluent::{FluentArgs, FluentBundle, FluentResource, FluentValue};

/// In what a sentence writes its figures.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Scales {
    /// °F in place of °C.
    pub fahrenheit: bool,
    /// Inches and feet in place of mm and m.
    pub inches: bool,
}

/// Scales that the functions of a language share with its words.
#[derive(Default)]
pub(super) struct SharedScales {
    fahrenheit: AtomicBool,
    inches: AtomicBool,
}

/// How a figure is written.
#[derive(Clone, Copy)]
struct Written {
    scales: Scales,
    mark: char,
}

impl SharedScales {
    pub(super) fn set(&self, scales: Scales) {
        self.fahrenheit.store(scales.fahrenheit, Ordering::Relaxed);
        self.inches.store(scales.inches, Ordering::Relaxed);
    }

    fn get(&self) -> Scales {
        Scales {
            fahrenheit: self.fahrenheit.load(Ordering::Relaxed),
            inches: self.inches.load(Ordering::Relaxed),
        }
    }
}

/// Gives a language the functions, with its decimal mark.
///
/// # Panics
/// Never: each name is given once.
pub(super) fn add_to(bundle: &mut FluentBundle<FluentResource>, scales: &Arc<SharedScales>, mark: char) {
    let mut add = |name, write: fn(&[FluentValue], &FluentArgs, Written) -> Option<String>| {
        let scales = Arc::clone(scales);
        bundle
            .add_function(name, move |figures, named| {
                let as_written = Written { scales: scales.get(), mark };
                write(figures, named, as_written).map_or(FluentValue::Error, FluentValue::from)
            })
            .expect("each function is added once");
    };
    add("TEMP", points);
    add("RISE", rise);
    add("LENGTH", length);
}

/// A point of °C in whole °F. Where a round figure (to 10 °F) is the same whole °C, it is that:
/// 316 °C was 600 °F in the book that it comes from, and not 601.
pub(crate) fn whole_fahrenheit(point_c: f64) -> f64 {
    let round = nearest_ten(point_c * 1.8 + 32.0);
    let same = point_c.fract() == 0.0 && ((round - 32.0) / 1.8).round() == point_c;
    if same { round } else { (point_c * 1.8 + 32.0).round() }
}

fn nearest_ten(point: f64) -> f64 {
    (point / 10.0).round() * 10.0
}

fn points(figures: &[FluentValue], named: &FluentArgs, as_written: Written) -> Option<String> {
    let points = numbers(figures)?;
    if !as_written.scales.fahrenheit {
        return written(&points, "°C", as_written.mark);
    }
    match named.get("f") {
        None => {}
        Some(FluentValue::String(printed)) => return Some(format!("{printed}\u{a0}°F")),
        Some(_) => return None,
    }
    let of_handbook = points.len() == 2 && points[0] >= 100.0;
    let turned: Vec<f64> = points
        .iter()
        .map(|point| if of_handbook { nearest_ten(point * 1.8 + 32.0) } else { whole_fahrenheit(*point) })
        .collect();
    written(&turned, "°F", as_written.mark)
}

fn rise(figures: &[FluentValue], _named: &FluentArgs, as_written: Written) -> Option<String> {
    let rises = numbers(figures)?;
    if as_written.scales.fahrenheit {
        let turned: Vec<f64> = rises.iter().map(|rise| (rise * 1.8).round()).collect();
        return written(&turned, "°F", as_written.mark);
    }
    written(&rises, "°C", as_written.mark)
}

fn length(texts: &[FluentValue], _named: &FluentArgs, as_written: Written) -> Option<String> {
    let [FluentValue::String(metric), FluentValue::String(inches)] = texts else { return None };
    // A figure and its unit stay on one line.
    Some(if as_written.scales.inches { inches } else { metric }.replace(' ', "\u{a0}"))
}

fn numbers(figures: &[FluentValue]) -> Option<Vec<f64>> {
    figures
        .iter()
        .map(|figure| match figure {
            FluentValue::Number(number) => Some(number.value),
            _ => None,
        })
        .collect()
}

fn written(figures: &[f64], unit: &str, mark: char) -> Option<String> {
    let plain = |figure: f64| {
        let sign = if figure < 0.0 { "\u{2212}" } else { "" };
        format!("{sign}{}", figure.abs()).replace('.', mark.encode_utf8(&mut [0; 4]))
    };
    match *figures {
        [one] => Some(format!("{}\u{a0}{unit}", plain(one))),
        [low, high] => Some(format!("{}–{}\u{a0}{unit}", plain(low), plain(high))),
        _ => None,
    }
}
