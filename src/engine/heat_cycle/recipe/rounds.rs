//! Sections of round parts: x is the radius, y runs along the axis.

use std::f64::consts::{PI, TAU};

use super::{Fillet, Filling, Matter, Places, Recipe, Stations, m};
use crate::engine::heat_cycle::fineness::Fineness;
use crate::engine::heat_cycle::lines::Axis;
use crate::engine::heat_cycle::shape::JointShape;

/// The plate is a disc of its own area; its underside is y = 0.
pub(super) fn boss(shape: &JointShape, fineness: Fineness, zone: f64, required: f64) -> Recipe {
    let JointShape::BossThrough {
        plate_mm,
        diameter_mm,
        boss_length_mm,
        plate_width_mm,
        plate_length_mm,
        leg_mm,
    } = *shape
    else {
        unreachable!("the recipe of a boss is asked for a boss")
    };
    let (t, radius, leg) = (m(plate_mm), m(diameter_mm) / 2.0, m(leg_mm));
    let rim = (m(plate_width_mm) * m(plate_length_mm) / PI).sqrt();
    let beyond = (m(boss_length_mm) - t) / 2.0;
    let finest = leg / fineness.spacing().per_leg;
    let upper = Fillet { corner: (radius, t), right: true, up: true, leg };
    Recipe {
        round: true,
        x: Axis {
            must: vec![0.0, radius, radius + leg, rim],
            may: vec![radius + leg + zone],
            fine: vec![(radius, radius + leg)],
            finest,
        },
        y: Axis {
            must: vec![-beyond, -leg, 0.0, t, t + leg, t + beyond],
            may: vec![-leg - zone, t + leg + zone],
            fine: vec![(-leg, 0.0), (t, t + leg)],
            finest,
        },
        matter: Box::new(move |r, y| {
            if r < radius {
                Matter::Second
            } else if y > 0.0 && y < t {
                Matter::First
            } else {
                Matter::Void
            }
        }),
        fillets: vec![upper, Fillet { corner: (radius, 0.0), up: false, ..upper }],
        filling: Filling::Corners,
        toes: vec![(radius + leg, t), (radius, t + leg), (radius + leg, 0.0), (radius, -leg)],
        required: Box::new(move |matter, r, y| match matter {
            Matter::First => r <= radius + leg + required,
            _ => y >= -leg - required && y <= t + leg + required,
        }),
        stations: Stations::ByMember,
        places: Places {
            core: (0.0, t / 2.0),
            far_face: (radius + leg + required, 0.0),
            required: (radius + leg + required, t / 2.0),
        },
        run_length: TAU * (radius + leg / 3.0),
        beads: None,
    }
}

/// A layer round a shaft, in a band at its mid-length.
pub(super) fn shaft(shape: &JointShape, fineness: Fineness, zone: f64, required: f64) -> Recipe {
    let JointShape::RunOnShaft { diameter_mm, layer_mm, band_mm, shaft_length_mm } = *shape else {
        unreachable!("the recipe of a shaft is asked for a shaft")
    };
    let (radius, layer, band, length) = (m(diameter_mm) / 2.0, m(layer_mm), m(band_mm), m(shaft_length_mm));
    let low = (length - band) / 2.0;
    let high = low + band;
    let finest = (2.0 * layer / fineness.spacing().per_leg).max(fineness.finest_layer());
    Recipe {
        round: true,
        x: Axis {
            must: vec![0.0, radius, radius + layer],
            may: vec![],
            fine: vec![(radius, radius + layer)],
            finest,
        },
        y: Axis {
            must: vec![0.0, low, high, length],
            may: vec![low - zone, high + zone],
            fine: vec![(low, low), (high, high)],
            finest,
        },
        matter: Box::new(move |r, z| {
            if r < radius {
                Matter::First
            } else if z > low && z < high {
                Matter::Weld
            } else {
                Matter::Void
            }
        }),
        fillets: vec![],
        filling: Filling::Up,
        toes: vec![(radius, low), (radius, high)],
        required: Box::new(move |_, _, z| z >= low - required && z <= high + required),
        stations: Stations::Rows,
        places: Places {
            core: (0.0, length / 2.0),
            far_face: (0.0, length / 2.0),
            required: (0.0, high + required),
        },
        run_length: TAU * (radius + layer / 2.0),
        beads: shape.beads(),
    }
}

/// Bar on bar, a groove round a root face that stays unfused.
pub(super) fn bars(shape: &JointShape, fineness: Fineness, zone: f64, required: f64) -> Recipe {
    let JointShape::BarToBar {
        first_mm,
        second_mm,
        first_length_mm,
        second_length_mm,
        root_radius_mm,
        groove_mm,
    } = *shape
    else {
        unreachable!("the recipe of bars is asked for bars")
    };
    let (first, second) = (m(first_mm) / 2.0, m(second_mm) / 2.0);
    let (thin, thick) = (first.min(second), first.max(second));
    let (core, half) = (m(root_radius_mm), m(groove_mm) / 2.0);
    let finest = half / fineness.spacing().per_leg;
    Recipe {
        round: true,
        x: Axis { must: vec![0.0, core, thin, thick], may: vec![], fine: vec![(thin, thin)], finest },
        y: Axis {
            must: vec![-m(first_length_mm), -half, half, m(second_length_mm)],
            may: vec![-(half + zone), half + zone],
            fine: vec![(-half, half)],
            finest,
        },
        matter: Box::new(move |r, z| {
            let groove = half * (0.25 + 0.75 * (r - core) / (thin - core));
            if r > core && r < thin && z.abs() <= groove {
                Matter::Weld
            } else if z < 0.0 {
                if r < first { Matter::First } else { Matter::Void }
            } else if r < second {
                Matter::Second
            } else {
                Matter::Void
            }
        }),
        fillets: vec![],
        filling: Filling::Out,
        toes: vec![(thin, -half), (thin, half)],
        required: Box::new(move |_, _, z| z.abs() <= half + required),
        stations: Stations::Rows,
        places: Places { core: (0.0, 0.0), far_face: (0.0, 0.0), required: (0.0, half + required) },
        // Two thirds of the radius are the mean of a groove that is wide outside.
        run_length: TAU * 0.67 * thin,
        beads: None,
    }
}
