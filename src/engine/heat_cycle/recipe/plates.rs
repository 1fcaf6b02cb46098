//! Sections of flat parts, one metre deep: x across the weld, y up.

use super::{Fillet, Filling, Matter, Places, Recipe, Stations, m};
use crate::engine::heat_cycle::fineness::Fineness;
use crate::engine::heat_cycle::lines::Axis;
use crate::engine::heat_cycle::shape::{JointShape, TeeKind};

/// A web of half thickness e on a plate whose top is y = 0.
pub(super) fn tee(shape: &JointShape, fineness: Fineness, zone: f64, required: f64) -> Recipe {
    let JointShape::Tee { kind, plate_mm, web_mm, leg_mm, half_width_mm, web_height_mm, length_mm } = *shape
    else {
        unreachable!("the recipe of a tee is asked for a tee")
    };
    let (plate, e, leg, half, height) =
        (m(plate_mm), m(web_mm) / 2.0, m(leg_mm), m(half_width_mm), m(web_height_mm));
    let both = kind == TeeKind::BothSides;
    let left = if kind == TeeKind::Corner { -e } else { -half };
    let fillet = |side: f64| Fillet { corner: (side * e, 0.0), right: side > 0.0, up: true, leg };
    let toes = |side: f64| [(side * (e + leg), 0.0), (side * e, leg)];
    let mut x = Axis {
        must: vec![left, -e, e, e + leg, half],
        may: vec![e + leg + zone],
        fine: vec![(e, e + leg)],
        finest: leg / fineness.spacing().per_leg,
    };
    if both {
        x.must.push(-e - leg);
        x.may.insert(0, -(e + leg + zone));
        x.fine.insert(0, (-e - leg, -e));
    } else {
        // The upper toe alone reaches to the other side of the web.
        x.may.insert(0, (e - (zone * zone - leg * leg).max(0.0).sqrt()).min(-e - 1e-4));
    }
    let y = Axis {
        must: vec![-plate, 0.0, leg, height],
        may: vec![leg + zone],
        fine: vec![(0.0, leg)],
        finest: x.finest,
    };
    let reach = e + leg + required;
    let other_reach = if both { reach } else { e + required };
    Recipe {
        round: false,
        x,
        y,
        matter: Box::new(move |x, y| match y < 0.0 {
            true => Matter::First,
            false if x.abs() < e => Matter::Second,
            false => Matter::Void,
        }),
        fillets: if both { vec![fillet(1.0), fillet(-1.0)] } else { vec![fillet(1.0)] },
        filling: Filling::Corners,
        toes: if both { [toes(1.0), toes(-1.0)].concat() } else { toes(1.0).to_vec() },
        required: Box::new(move |matter, x, y| match matter {
            Matter::First => x >= -other_reach && x <= reach,
            _ => y <= leg + required,
        }),
        stations: Stations::ByMember,
        places: Places {
            core: (0.0, -plate / 2.0),
            far_face: (0.0, -plate),
            required: (reach, -plate / 2.0),
        },
        run_length: m(length_mm),
        beads: None,
    }
}

/// The upper plate ends at x = 0; the lower one has its top at y = 0.
pub(super) fn lap(shape: &JointShape, fineness: Fineness, zone: f64, required: f64) -> Recipe {
    let JointShape::Lap { lower_mm, upper_mm, leg_mm, overlap_mm, lower_reach_mm, upper_reach_mm, length_mm } =
        *shape
    else {
        unreachable!("the recipe of a lap is asked for a lap")
    };
    let (lower, upper, leg, overlap) = (m(lower_mm), m(upper_mm), m(leg_mm), m(overlap_mm));
    let (right, left) = (m(lower_reach_mm), -m(upper_reach_mm));
    let finest = leg / fineness.spacing().per_leg;
    Recipe {
        round: false,
        x: Axis {
            must: vec![left, -overlap, 0.0, leg, right],
            may: vec![-zone, leg + zone],
            fine: vec![(0.0, leg)],
            finest,
        },
        y: Axis { must: vec![-lower, 0.0, leg, upper], may: vec![], fine: vec![(0.0, leg)], finest },
        matter: Box::new(move |x, y| {
            if y < 0.0 {
                if x > -overlap { Matter::First } else { Matter::Void }
            } else if x < 0.0 {
                Matter::Second
            } else {
                Matter::Void
            }
        }),
        fillets: vec![Fillet { corner: (0.0, 0.0), right: true, up: true, leg }],
        filling: Filling::Corners,
        toes: vec![(leg, 0.0), (0.0, leg)],
        required: Box::new(move |matter, x, _| match matter {
            Matter::First => x >= -required && x <= leg + required,
            _ => x >= -required,
        }),
        stations: Stations::Columns,
        places: Places {
            core: (0.0, -lower / 2.0),
            far_face: (0.0, -lower),
            required: (leg + required, -lower / 2.0),
        },
        run_length: m(length_mm),
        beads: None,
    }
}

/// Plates with their undersides at y = 0, joined at x = 0.
pub(super) fn butt(shape: &JointShape, fineness: Fineness, zone: f64, required: f64) -> Recipe {
    let JointShape::Butt { first_mm, second_mm, gap_mm, angle_deg, half_width_mm, length_mm } = *shape else {
        unreachable!("the recipe of a butt is asked for a butt")
    };
    let (first, second, half) = (m(first_mm), m(second_mm), m(half_width_mm));
    let (thin, thick) = (first.min(second), first.max(second));
    let slope = (angle_deg.to_radians() / 2.0).tan();
    let half_at = move |y: f64| m(gap_mm) / 2.0 + y * slope;
    let top = half_at(thin);
    let finest = top / fineness.spacing().per_leg;
    Recipe {
        round: false,
        x: Axis {
            must: vec![-half, -top, 0.0, top, half],
            may: vec![-(top + zone), top + zone],
            fine: vec![(-top, top)],
            finest,
        },
        y: Axis { must: vec![0.0, thin, thick], may: vec![], fine: vec![(0.0, thin)], finest },
        matter: Box::new(move |x, y| {
            if y < thin && x.abs() <= half_at(y) {
                Matter::Weld
            } else if x < 0.0 {
                if y < first { Matter::First } else { Matter::Void }
            } else if y < second {
                Matter::Second
            } else {
                Matter::Void
            }
        }),
        fillets: vec![],
        filling: Filling::Up,
        toes: vec![(-top, thin), (top, thin), (0.0, 0.0)],
        required: Box::new(move |_, x, _| x.abs() <= top + required),
        stations: Stations::Columns,
        places: Places {
            core: (0.0, thin / 2.0),
            far_face: (0.0, 0.0),
            required: (top + required, second / 2.0),
        },
        run_length: m(length_mm),
        beads: None,
    }
}

/// A gouge in the top of a plate whose underside is y = 0.
pub(super) fn repair(shape: &JointShape, fineness: Fineness, zone: f64, required: f64) -> Recipe {
    let JointShape::Repair { plate_mm, depth_mm, width_mm, half_width_mm, length_mm } = *shape else {
        unreachable!("the recipe of a repair is asked for a repair")
    };
    let (plate, depth, w, half) = (m(plate_mm), m(depth_mm), m(width_mm) / 2.0, m(half_width_mm));
    let finest = depth / fineness.spacing().per_leg;
    Recipe {
        round: false,
        x: Axis {
            must: vec![-half, -w, w, half],
            may: vec![-(w + zone), w + zone],
            fine: vec![(-w, w)],
            finest,
        },
        y: Axis {
            must: vec![0.0, plate - depth, plate],
            may: vec![],
            fine: vec![(plate - depth, plate)],
            finest,
        },
        matter: Box::new(
            move |x, y| {
                if x.abs() <= w && y > plate - depth { Matter::Weld } else { Matter::First }
            },
        ),
        fillets: vec![],
        filling: Filling::Up,
        toes: vec![(-w, plate), (w, plate)],
        required: Box::new(move |_, x, _| x.abs() <= w + required),
        stations: Stations::Columns,
        places: Places {
            core: (0.0, plate / 2.0),
            far_face: (0.0, 0.0),
            required: (w + required, plate / 2.0),
        },
        run_length: m(length_mm),
        beads: None,
    }
}
