//! The drawings of the guided test: what a hand sees at the bench, in lines of one ink.
//!
//! Each is a path in a field of 136 × 48, so that the window draws it sharp at any size. What tells two
//! answers apart is what is drawn: how wide the file's flat is, how a stream forks and bursts, how far the
//! magnet pulls.

use std::fmt::Write;

/// A drawing: thin lines, and what is filled.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct Sketch {
    /// Lines.
    pub(super) lines: String,
    /// Filled shapes.
    pub(super) solid: String,
}

/// The drawing of an answer; empty where there is none.
pub(super) fn sketch(key: &str, id: &str) -> Sketch {
    let (lines, solid) = match (key, id) {
        ("file-bite" | "ground", _) => return filed(id, key == "ground"),
        ("spark", _) => return stream(id),
        ("magnet", _) => magnet(id),
        ("chip", "long") => {
            ("M56 28 H120 M56 20 C72 22 84 14 80 6 C76 0 66 4 68 10 C70 15 76 13 75 9", WEDGE)
        }
        ("chip", "crisp") => (
            "M56 28 H120 M58 20 L64 14 L70 18 L64 23 Z M76 14 L84 10 L87 16 L79 19 Z M92 22 L98 17 L102 22 L96 26 Z",
            WEDGE,
        ),
        ("chip", "crumbs") => ("M56 28 H120", CRUMBS),
        ("chip", _) => ("M56 28 H120 M60 24 L66 18 M68 25 L72 20 M60 14 L54 8 M66 12 L64 5", WEDGE),
        ("quench-coupon", "bends") => (
            "M8 40 H48 V28 H8 Z M28 28 C28 16 40 12 60 12 H116 M28 40 V46 M124 12 L112 7 M124 12 L112 17",
            "",
        ),
        ("quench-coupon", "bites") => return pair(14.0, true),
        ("quench-coupon", _) => return pair(0.0, true),
        ("air-coupon" | "cut-edge", _) => {
            return pair(
                match id {
                    "same" => 26.0,
                    "harder" => 12.0,
                    _ => 0.0,
                },
                false,
            );
        }
        ("look", _) => look(id),
        ("was", _) => was(id),
        ("density", _) => (
            "M14 42 H70 M42 42 V34 M24 34 H60 V14 H24 Z M24 14 L34 6 H70 L60 14 M70 6 V26 L60 34 M84 34 H128 M84 38 V30 M128 38 V30 M84 14 H112 M84 22 H120",
            "",
        ),
        _ => ("", ""),
    };
    Sketch { lines: lines.to_owned(), solid: solid.to_owned() }
}

const WEDGE: &str = "M14 12 L44 24 L56 26 L46 18 L20 4 Z";
const CRUMBS: &str = "M14 12 L44 24 L56 26 L46 18 L20 4 Z M62 22 h4 v4 h-4 Z M70 17 h3 v3 h-3 Z M76 22 h5 v4 h-5 Z M84 14 h3 v3 h-3 Z M88 22 h4 v4 h-4 Z M97 18 h3 v3 h-3 Z M103 23 h3 v3 h-3 Z";

/// A bar with its corner up under a file: the flat that one stroke leaves, and its chips.
fn filed(id: &str, ground: bool) -> Sketch {
    let flat = match id {
        "easy" | "bites" => 30.0,
        "effort" => 12.0,
        _ => 0.0,
    };
    let mut made = Sketch::default();
    file(&mut made, 12.0, 124.0, flat > 0.0);
    corner(&mut made, 64.0, flat, 26.0);
    if ground {
        // The layer that was ground off on both sides of the spot.
        made.lines.push_str(" M20 46 L34 32 M108 46 L94 32 M16 38 H28 M100 38 H112");
    }
    match flat {
        0.0 => glints(&mut made, 64.0),
        wide => chips(&mut made, 64.0 - wide / 2.0, if wide > 20.0 { 9 } else { 3 }),
    }
    made
}

/// Two bars under one file: the known soft one, and beside it the one that is asked about.
fn pair(flat: f64, alone: bool) -> Sketch {
    let mut made = Sketch::default();
    file(&mut made, 6.0, 130.0, true);
    let at = if alone { 68.0 } else { 102.0 };
    if !alone {
        corner(&mut made, 36.0, 26.0, 14.0);
    }
    corner(&mut made, at, flat, 14.0);
    if flat <= 0.0 {
        glints(&mut made, at);
    }
    made
}

/// A file lying level, its teeth down; a dull one has none.
fn file(made: &mut Sketch, from: f64, to: f64, sharp: bool) {
    let _ = write!(made.lines, "M{from} 6 H{to} V18 H{from} Z");
    let mut x = from + 3.0;
    while sharp && x < to - 2.0 {
        let _ = write!(made.lines, " M{x} 18 L{} 12", x + 4.0);
        x += 5.0;
    }
}

/// A corner under the file at `x`, with its flat and how far its sides run out.
fn corner(made: &mut Sketch, x: f64, flat: f64, slope: f64) {
    let half = flat / 2.0;
    let (left, right) = (x - half, x + half);
    let _ = write!(made.lines, " M{} 46 L{left} 20 H{right} L{} 46", left - slope, right + slope);
    if flat > 0.0 {
        let _ = write!(made.solid, " M{left} 19 H{right} V22 H{left} Z");
    }
}

/// Chips that fall beside the flat.
fn chips(made: &mut Sketch, x: f64, count: u32) {
    for nth in 0..count {
        let (dx, y) = (f64::from(nth % 3) * 6.0, 26.0 + f64::from(nth / 3) * 6.0);
        let at = x - 16.0 - dx - (y - 26.0) * 0.9;
        let _ = write!(made.solid, " M{at} {y} h3 v2 h-3 Z");
    }
}

/// What shines where a file skates.
fn glints(made: &mut Sketch, x: f64) {
    for (dx, dy) in [(-14.0, 2.0), (-12.0, 8.0), (14.0, 2.0), (12.0, 8.0)] {
        let _ = write!(made.lines, " M{} {} L{} {}", x + dx * 0.7, 22.0 + dy * 0.4, x + dx * 1.5, 22.0 + dy);
    }
}

/// How a stream of sparks looks.
struct Stream {
    /// Length of its longest line.
    long: f64,
    /// How many lines.
    rays: u32,
    /// How often a line forks at its end.
    forks: u32,
    /// Bursts on each line, and their size.
    bursts: (u32, f64),
    /// Tails shaped like leaves.
    leaves: bool,
    /// Broken, faint lines.
    faint: bool,
}

fn stream(id: &str) -> Sketch {
    let base = Stream { long: 104.0, rays: 5, forks: 0, bursts: (0, 0.0), leaves: false, faint: false };
    let of = match id {
        "leaf" => Stream { leaves: true, ..base },
        "few-forks" => Stream { forks: 1, ..base },
        "more-forks" => Stream { long: 100.0, rays: 6, forks: 2, bursts: (1, 3.6), ..base },
        "bushy" => Stream { long: 88.0, rays: 7, bursts: (3, 4.4), ..base },
        "short-fine" => Stream { long: 46.0, rays: 6, bursts: (2, 3.0), ..base },
        "forks-twice" => Stream { long: 92.0, rays: 4, forks: 3, ..base },
        "short-no-forks" => Stream { long: 56.0, ..base },
        "dull-red" => Stream { rays: 4, faint: true, ..base },
        _ => Stream { rays: 0, ..base },
    };
    // The wheel.
    let mut made =
        Sketch { lines: "M4 4 A20 20 0 0 1 4 44 M4 12 A12 12 0 0 1 4 36".to_owned(), solid: String::new() };
    for nth in 0..of.rays {
        ray(&mut made, &of, nth);
    }
    made
}

/// One line of a stream. Lengths and places are uneven in a fixed way, as a stream's are.
fn ray(made: &mut Sketch, of: &Stream, nth: u32) {
    let spread = if of.rays > 1 { f64::from(nth) / f64::from(of.rays - 1) - 0.5 } else { 0.0 };
    let uneven = [1.0, 0.8, 0.93, 0.74, 0.97, 0.84, 0.9][nth as usize % 7];
    let long = of.long * if of.forks == 2 || of.bursts.0 > 0 { uneven } else { 0.9 + 0.1 * uneven };
    let (x0, y0) = (25.0, 24.0 + spread * 8.0);
    let rise = spread * 32.0 / of.long;
    let at = |share: f64, off: f64| (x0 + long * share, y0 + long * share * rise + off);
    let mut line = |from: (f64, f64), to: (f64, f64)| {
        let _ = write!(made.lines, " M{:.1} {:.1} L{:.1} {:.1}", from.0, from.1, to.0, to.1);
    };
    match of.forks {
        _ if of.faint => {
            (0..4).map(f64::from).for_each(|part| line(at(part * 0.26, 0.0), at(part * 0.26 + 0.14, 0.0)));
        }
        0 => line(at(0.0, 0.0), at(1.0, 0.0)),
        1 | 2 => {
            line(at(0.0, 0.0), at(0.76, 0.0));
            line(at(0.76, 0.0), at(1.0, -3.0));
            line(at(0.76, 0.0), at(0.96, 3.4));
            if of.forks == 2 {
                line(at(0.5, 0.0), at(0.68, 4.2));
            }
        }
        // A fork on each prong of the fork.
        _ => {
            line(at(0.0, 0.0), at(0.6, 0.0));
            for side in [-1.0, 1.0] {
                line(at(0.6, 0.0), at(0.8, side * 2.8));
                line(at(0.8, side * 2.8), at(1.0, side * 5.4));
                line(at(0.8, side * 2.8), at(1.0, side * 1.6));
            }
        }
    }
    if of.leaves {
        let ((lx, ly), (x, y)) = (at(0.82, 0.0), at(1.0, 0.0));
        let (mx, my) = (f64::midpoint(lx, x), f64::midpoint(ly, y));
        let (up, down) = (my - 4.5, my + 4.5);
        let _ = write!(
            made.solid,
            " M{lx:.1} {ly:.1} Q{mx:.1} {up:.1} {x:.1} {y:.1} Q{mx:.1} {down:.1} {lx:.1} {ly:.1} Z"
        );
    }
    for burst in 0..of.bursts.0 {
        let (x, y) = at(1.0 - 0.26 * f64::from(burst) - 0.05 * f64::from(nth % 2), 0.0);
        star(made, x, y, of.bursts.1);
    }
}

/// A burst.
fn star(made: &mut Sketch, x: f64, y: f64, size: f64) {
    for (dx, dy) in [(1.0, 0.0), (0.5, 0.87), (-0.5, 0.87)] {
        let (dx, dy) = (dx * size, dy * size);
        let _ = write!(made.lines, " M{:.1} {:.1} L{:.1} {:.1}", x - dx, y - dy, x + dx, y + dy);
    }
}

fn magnet(id: &str) -> (&'static str, &'static str) {
    const POLES: &str = "M50 8 H58 V18 H50 Z M50 30 H58 V40 H50 Z";
    match id {
        "strong" => (
            "M50 8 H30 A16 16 0 0 0 30 40 H50 M50 18 H32 A6 6 0 0 0 32 30 H50 M58 4 H84 V44 H58 Z M124 24 H96 M104 16 L96 24 L104 32 M124 14 H110 M124 34 H110",
            POLES,
        ),
        "weak" => (
            "M50 8 H30 A16 16 0 0 0 30 40 H50 M50 18 H32 A6 6 0 0 0 32 30 H50 M66 4 H92 V44 H66 Z M116 24 H102 M108 18 L102 24 L108 30",
            POLES,
        ),
        _ => ("M50 8 H30 A16 16 0 0 0 30 40 H50 M50 18 H32 A6 6 0 0 0 32 30 H50 M94 4 H120 V44 H94 Z", POLES),
    }
}

fn look(id: &str) -> (&'static str, &'static str) {
    match id {
        "cast-skin" => (
            "M34 40 Q22 40 22 30 V20 Q22 8 36 8 H98 Q112 8 112 20 V30 Q112 40 100 40 Z M14 24 H120",
            "M36 14 h2 v2 h-2 Z M50 18 h2 v2 h-2 Z M64 13 h2 v2 h-2 Z M80 18 h2 v2 h-2 Z M94 14 h2 v2 h-2 Z M42 30 h2 v2 h-2 Z M58 34 h2 v2 h-2 Z M74 29 h2 v2 h-2 Z M90 34 h2 v2 h-2 Z",
        ),
        "forged" => (
            "M28 22 V16 Q28 8 38 8 H96 Q106 8 106 16 V22 M28 27 V32 Q28 40 38 40 H96 Q106 40 106 32 V27 M44 14 L52 18 L60 13 M74 34 L82 31 L90 35",
            "M14 22 H120 V27 H14 Z",
        ),
        "rolled" => (
            "M14 10 H120 V38 H14 Z M14 15 H120 M14 19 H88 M40 23 H120 M14 27 H104 M26 31 H120 M14 34 H72",
            "",
        ),
        "bright-bar" => {
            ("M28 8 H112 A8 16 0 0 1 112 40 H28 A8 16 0 0 1 28 8 A8 16 0 0 1 28 40", "M44 14 H108 V17 H44 Z")
        }
        _ => (
            "M14 8 H120 V40 H14 Z M28 8 Q32 24 24 40 M44 8 Q48 24 40 40 M60 8 Q64 24 56 40 M76 8 Q80 24 72 40 M92 8 Q96 24 88 40 M108 8 Q112 24 104 40",
            "",
        ),
    }
}

fn was(id: &str) -> (&'static str, &'static str) {
    match id {
        "section" => (
            "M16 6 H44 V12 H33 V36 H44 V42 H16 V36 H27 V12 H16 Z M60 6 V42 H90 V36 H66 V6 Z M104 8 H128 V40 H104 Z M110 14 H122 V34 H110 Z",
            "",
        ),
        "rebar" => (
            "M12 16 H124 V32 H12 Z M22 32 L30 16 M36 32 L44 16 M50 32 L58 16 M64 32 L72 16 M78 32 L86 16 M92 32 L100 16 M106 32 L114 16",
            "",
        ),
        "plate" => ("M14 32 L44 12 H124 L94 32 Z M14 32 V38 H94 V32 M94 38 L124 18 V12", ""),
        "shaft" => (
            "M10 18 H40 V12 H92 V18 H126 V30 H92 V36 H40 V30 H10 Z M4 24 H16 M22 24 H28 M34 24 H100 M108 24 H114 M120 24 H132",
            "",
        ),
        "gear-pin" => (
            "M40 24 m-9 0 a9 9 0 1 0 18 0 a9 9 0 1 0 -18 0 M36 4 H44 L46 9 L52 11 L56 8 L61 14 L58 19 L60 24 L58 29 L61 34 L56 40 L52 37 L46 39 L44 44 H36 L34 39 L28 37 L24 40 L19 34 L22 29 L20 24 L22 19 L19 14 L24 8 L28 11 L34 9 Z M82 16 H122 V32 H82 Z M88 16 V32",
            "",
        ),
        "spring" => ("M16 36 L28 10 L40 38 L52 10 L64 38 L76 10 L88 38 L100 10 L112 38 L120 14", ""),
        "rail" => ("M56 6 H80 Q84 10 80 16 H72 V34 L92 38 V42 H44 V38 L64 34 V16 H56 Q52 10 56 6 Z", ""),
        "edge-tool" => ("M10 18 H50 V30 H10 Z M50 14 H126 L112 34 H50 Z M50 28 H116", ""),
        "wear-casting" => ("M16 10 H52 L120 22 Q126 24 120 27 L52 40 H16 Z M28 18 H40 V32 H28 Z", ""),
        _ => (
            "M24 42 V16 Q24 8 32 8 H104 Q112 8 112 16 V42 Z M14 42 H122 M68 25 m-11 0 a11 11 0 1 0 22 0 a11 11 0 1 0 -22 0 M68 25 m-6 0 a6 6 0 1 0 12 0 a6 6 0 1 0 -12 0",
            "",
        ),
    }
}
