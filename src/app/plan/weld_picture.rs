//! The joint of a fillet cut through, with its beads numbered in the order of work.

use slint::SharedString;

use crate::app::rows::model;
use crate::app::screen_values::float;
use crate::app::ui;
use crate::engine::job::Joint;
use crate::engine::weld_of_job::{JobWeld, Laid, Laying, SectionBead};
use crate::report::{Pen, beads_of};

/// Width of the drawing, px: that of a narrow phone without its margins.
const WIDTH: f64 = 300.0;
/// Length of a leg, px.
const LEG: f64 = 108.0;
/// The same where both sides are drawn.
const LEG_OF_TWO: f64 = 76.0;
/// Thickness of a drawn part, px.
const PART: f64 = 40.0;
/// A bead thinner than this has no room for its number, px.
const ROOM: f64 = 14.0;
/// So far outside the face the number of a thin last bead stands, px to each side.
const OUTSIDE: f64 = 8.0;

/// A corner between two parts: where it lies, and which way its legs go.
#[derive(Clone, Copy)]
struct Corner {
    x: f64,
    y: f64,
    right: bool,
    up: bool,
    leg: f64,
}

impl Corner {
    /// A point of the section, as shares of the leg, on the screen.
    fn at(&self, (along, across): (f64, f64)) -> (f64, f64) {
        let sign = |forward: bool| if forward { 1.0 } else { -1.0 };
        (self.x + sign(self.right) * along * self.leg, self.y - sign(self.up) * across * self.leg)
    }
}

/// The drawing: its height, its parts, and the corner of each fillet.
struct Drawing {
    height: f64,
    parts: String,
    corners: Vec<Corner>,
}

fn block(x: f64, y: f64, width: f64, height: f64) -> String {
    format!("M {x} {y} h {width} v {height} h -{width} Z ")
}

fn drawing(joint: Joint, both: bool) -> Drawing {
    if joint == Joint::BossThrough {
        // The pin stands on the left, the plate runs on to the right.
        let (pin, top, beyond) = (70.0, LEG_OF_TWO + 16.0, LEG_OF_TWO + 16.0);
        let corner = |y: f64, up: bool| Corner { x: pin, y, right: true, up, leg: LEG_OF_TWO };
        return Drawing {
            height: top + PART + beyond,
            parts: block(1.0, 1.0, pin - 1.0, top + PART + beyond - 2.0)
                + &block(pin, top, WIDTH - pin - 1.0, PART),
            corners: vec![corner(top, true), corner(top + PART, false)],
        };
    }
    let leg = if both { LEG_OF_TWO } else { LEG };
    let ground = leg + 16.0;
    let web = if both { (WIDTH - PART) / 2.0 } else { 60.0 };
    let corner = |x: f64, right: bool| Corner { x, y: ground, right, up: true, leg };
    let mut corners = vec![corner(web + PART, true)];
    if both {
        corners.insert(0, corner(web, false));
    }
    Drawing {
        height: ground + PART + 1.0,
        parts: block(web, 1.0, PART, ground - 1.0) + &block(1.0, ground, WIDTH - 2.0, PART),
        corners,
    }
}

fn bead(drawn: &SectionBead, corner: Corner, leg_mm: f64, (last_row, last): (usize, bool)) -> ui::WeldBead {
    let of_leg = |(x, y): (f64, f64)| (x / leg_mm, y / leg_mm);
    let shares: Vec<(f64, f64)> = drawn.bead.corners.iter().copied().map(of_leg).collect();
    let corners: Vec<(f64, f64)> = shares.iter().map(|share| corner.at(*share)).collect();
    let path: String = corners
        .iter()
        .enumerate()
        .map(|(at, (x, y))| format!("{} {x:.2} {y:.2} ", if at == 0 { "M" } else { "L" }))
        .collect();
    // A row lies between two lines across both legs.
    let borders = shares.iter().map(|(x, y)| x + y);
    let (inner, outer) = borders.fold((f64::MAX, 0.0_f64), |(low, high), at| (low.min(at), high.max(at)));
    let thick = (outer - inner) * corner.leg * std::f64::consts::FRAC_1_SQRT_2;
    let outermost: Vec<(f64, f64)> = shares.iter().copied().filter(|(x, y)| x + y > outer - 1e-6).collect();
    let middle = |points: &[(f64, f64)]| {
        #[allow(clippy::cast_precision_loss, reason = "a few corners")]
        let count = points.len().max(1) as f64;
        let sum = points.iter().fold((0.0, 0.0), |sum, point| (sum.0 + point.0, sum.1 + point.1));
        (sum.0 / count, sum.1 / count)
    };
    let out = OUTSIDE / corner.leg;
    let (place, shown) = match (thick >= ROOM, drawn.bead.row == last_row) {
        (true, _) => (middle(&shares), true),
        (false, true) => {
            let (x, y) = middle(&outermost);
            ((x + out, y + out), true)
        }
        (false, false) => (middle(&shares), false),
    };
    let (x, y) = corner.at(place);
    ui::WeldBead {
        path: (path + "Z").into(),
        text: if shown { drawn.number.to_string().into() } else { SharedString::default() },
        x: float(x),
        y: float(y),
        last,
    }
}

/// The picture of a weld; none where its beads are not known.
pub(super) fn picture(pen: &Pen<'_>, joint: Joint, weld: &JobWeld<'_>) -> ui::WeldPicture {
    let Ok(layers) = &weld.layers else { return ui::WeldPicture::default() };
    let both = match &weld.laying {
        Ok(Laying::Ring(ring)) => ring.both,
        Ok(Laying::Line { both, .. }) => *both,
        Ok(Laying::NoDiameter) => true,
        _ => false,
    };
    let drawing = drawing(joint, both);
    let Laid::Fillet(fillet) = layers.laid else { return ui::WeldPicture::default() };
    let leg_mm = fillet.first_mm;
    let section = weld.section();
    let last_row = section.iter().map(|one| one.bead.row).max().unwrap_or_default();
    let several = section.iter().any(|one| one.process != section[0].process);
    let beads = drawing.corners.iter().flat_map(|corner| {
        section.iter().map(|one| {
            let last = several && one.process + 1 == weld.runs.len();
            bead(one, *corner, leg_mm, (last_row, last))
        })
    });
    let name = |(at, corner): (usize, &Corner)| {
        let (x, y) = corner.at((0.94, 0.74));
        let text = pen.words.get(if at == 0 { "weld-face-first" } else { "weld-face-second" });
        ui::WeldBead { text: text.into(), x: float(x), y: float(y), ..ui::WeldBead::default() }
    };
    let faces = if both { drawing.corners.iter().enumerate().map(name).collect() } else { Vec::new() };
    let said = beads_of(pen, weld);
    ui::WeldPicture {
        title: said.as_str().into(),
        spoken: said.into(),
        width: float(WIDTH),
        height: float(drawing.height),
        parts: drawing.parts.into(),
        beads: model(beads.collect()),
        faces: model(faces),
    }
}
