//! The shapes that go with words, drawn in a square.

use super::content::Sign;
use super::draw::{Drawn, Ink, Point};

/// From this size on a sign has room for its exclamation mark.
const READABLE: f64 = 7.0;

/// Draws a sign in the square with its upper left corner at `at`.
pub(super) fn sign(sign: Sign, (left, top): Point, size: f64) -> Vec<Drawn> {
    let at = |x: f64, y: f64| (left + x * size, top + y * size);
    let area = |corners: &[Point], ink: Ink| Drawn::Area {
        points: corners.iter().map(|(x, y)| at(*x, *y)).collect(),
        ink,
    };
    let line = |points: &[Point], width: f64, ink: Ink| Drawn::Line {
        points: points.iter().map(|(x, y)| at(*x, *y)).collect(),
        width: width * size,
        ink,
        dash: None,
    };
    let exclaimed = |middle: f64| {
        // Smaller it is no sign any more, but a spot.
        if size < READABLE {
            return Vec::new();
        }
        vec![
            line(&[(0.5, middle - 0.22), (0.5, middle + 0.06)], 0.1, Ink::Paper),
            Drawn::Disc { centre: at(0.5, middle + 0.19), radius: 0.065 * size, ink: Ink::Paper },
        ]
    };
    let square = |ink: Ink| Drawn::framed(at(0.1, 0.1), at(0.9, 0.9), 0.11 * size, ink);
    match sign {
        Sign::Inside => vec![Drawn::Disc { centre: at(0.5, 0.5), radius: 0.34 * size, ink: Ink::Inside }],
        Sign::Below => {
            let mut drawn = vec![area(&[(0.0, 0.08), (1.0, 0.08), (0.5, 0.98)], Ink::Stop)];
            drawn.extend(exclaimed(0.38));
            drawn
        }
        Sign::Over => {
            let mut drawn = vec![area(&[(0.0, 0.92), (1.0, 0.92), (0.5, 0.02)], Ink::Stop)];
            drawn.extend(exclaimed(0.62));
            drawn
        }
        Sign::CannotTell => vec![square(Ink::Ink), line(&[(0.28, 0.5), (0.72, 0.5)], 0.13, Ink::Ink)],
        Sign::NoLimit => {
            vec![Drawn::Ring { centre: at(0.5, 0.5), radius: 0.3 * size, width: 0.12 * size, ink: Ink::Soft }]
        }
        Sign::Cracked => vec![
            area(&[(0.05, 0.05), (0.95, 0.05), (0.95, 0.95), (0.05, 0.95)], Ink::Stop),
            line(&[(0.62, 0.02), (0.38, 0.38), (0.6, 0.56), (0.4, 0.98)], 0.12, Ink::Paper),
        ],
        Sign::NotCracked => {
            vec![square(Ink::Inside), line(&[(0.28, 0.52), (0.45, 0.7), (0.74, 0.32)], 0.12, Ink::Inside)]
        }
        Sign::Caution => {
            let mut drawn = vec![area(&[(0.5, 0.0), (1.0, 0.5), (0.5, 1.0), (0.0, 0.5)], Ink::Stop)];
            drawn.extend(exclaimed(0.49));
            drawn
        }
        Sign::Heed => vec![
            line(&[(0.5, 0.06), (0.94, 0.5), (0.5, 0.94), (0.06, 0.5), (0.5, 0.06)], 0.09, Ink::Ink),
            line(&[(0.5, 0.27), (0.5, 0.56)], 0.1, Ink::Ink),
            Drawn::Disc { centre: at(0.5, 0.69), radius: 0.065 * size, ink: Ink::Ink },
        ],
        Sign::Published => vec![Drawn::Disc { centre: at(0.5, 0.5), radius: 0.42 * size, ink: Ink::Ink }],
        Sign::Practice => {
            let half: Vec<Point> = (0..=12)
                .map(|step| {
                    let turn = std::f64::consts::PI * (0.5 + f64::from(step) / 12.0);
                    (0.5 + 0.42 * turn.cos(), 0.5 + 0.42 * turn.sin())
                })
                .collect();
            vec![
                area(&half, Ink::Ink),
                Drawn::Ring { centre: at(0.5, 0.5), radius: 0.36 * size, width: 0.12 * size, ink: Ink::Ink },
            ]
        }
        Sign::Memory => {
            vec![Drawn::Ring { centre: at(0.5, 0.5), radius: 0.36 * size, width: 0.12 * size, ink: Ink::Ink }]
        }
    }
}

/// The sign of a kind of basis.
#[must_use]
pub fn of_basis(kind: &str) -> Option<Sign> {
    match kind {
        "published" => Some(Sign::Published),
        "practice" => Some(Sign::Practice),
        "memory" => Some(Sign::Memory),
        _ => None,
    }
}
