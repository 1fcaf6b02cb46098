//! The joints and cycles that the tests of the heat cycle share.

use std::ops::ControlFlow;

use strawblue::engine::heat_cycle::{
    Cycle, Fineness, HeatCycle, JointShape, Keep, Pass, PostHeat, Reached, Refusal, Source, Surface,
    Surfaces, TeeKind, run,
};
use strawblue::reference::embedded;

pub(super) const AIR: Surface = Surface::new(10.0, 0.8);
pub(super) const DRAUGHT: Surface = Surface::new(25.0, 0.8);
pub(super) const BLANKET: Surface = Surface::new(2.4, 0.0);

/// A boss of 90 mm through a plate of 30 mm, 8 mm fillets on both faces: the invented demo.
pub(super) const BOSS: JointShape = JointShape::BossThrough {
    plate_mm: 30.0,
    diameter_mm: 90.0,
    boss_length_mm: 120.0,
    plate_width_mm: 160.0,
    plate_length_mm: 400.0,
    leg_mm: 8.0,
};

/// The surfaces of the second program are those of the dataset.
#[test]
fn surfaces_of_the_dataset() {
    let of = |id| Surface::of(embedded().heat_cycle.surface(id).unwrap_or_else(|| panic!("no surface {id}")));
    assert_eq!([of("still-air"), of("draught"), of("blanket")], [AIR, DRAUGHT, BLANKET]);
}

/// The joints of the second program, by its names.
pub(super) fn shape(joint: &str) -> JointShape {
    let tee = |kind| JointShape::Tee {
        kind,
        plate_mm: 30.0,
        web_mm: 20.0,
        leg_mm: 8.0,
        half_width_mm: 300.0,
        web_height_mm: 300.0,
        length_mm: 300.0,
    };
    match joint {
        "boss-through" => BOSS,
        "t-fillet-both-sides" => tee(TeeKind::BothSides),
        "t-fillet-one-side" => tee(TeeKind::OneSide),
        "corner" => tee(TeeKind::Corner),
        "lap" => JointShape::Lap {
            lower_mm: 30.0,
            upper_mm: 20.0,
            leg_mm: 8.0,
            overlap_mm: 100.0,
            lower_reach_mm: 300.0,
            upper_reach_mm: 300.0,
            length_mm: 300.0,
        },
        "butt" => JointShape::Butt {
            first_mm: 20.0,
            second_mm: 20.0,
            gap_mm: 3.0,
            angle_deg: 60.0,
            half_width_mm: 300.0,
            length_mm: 300.0,
        },
        "repair" => JointShape::Repair {
            plate_mm: 50.0,
            depth_mm: 10.0,
            width_mm: 20.0,
            half_width_mm: 300.0,
            length_mm: 100.0,
        },
        "run-on-shaft" => {
            JointShape::RunOnShaft { diameter_mm: 90.0, layer_mm: 3.0, band_mm: 40.0, shaft_length_mm: 500.0 }
        }
        "bar-to-bar" => JointShape::BarToBar {
            first_mm: 60.0,
            second_mm: 60.0,
            first_length_mm: 250.0,
            second_length_mm: 250.0,
            root_radius_mm: 4.0,
            groove_mm: 16.0,
        },
        other => panic!("no joint {other}"),
    }
}

pub(super) const fn pass(weld: usize, net_kj_per_mm: f64, arc_net_w: f64) -> Pass {
    Pass { weld, net_kj_per_mm, arc_net_w, hydrogen_ml: 4.0 }
}

/// The demo's cycle without its post-heat.
pub(super) fn demo(fineness: Fineness) -> HeatCycle {
    HeatCycle {
        shape: BOSS,
        part_length_mm: None,
        conductivity: [1.0; 3],
        gap_w_per_m2_k: None,
        shop_c: 15.0,
        surfaces: Surfaces::all(AIR),
        cooling: Surfaces::all(AIR),
        source: Source::Torch { power_w: 12_722.0 },
        reached: Reached::All,
        zone_mm: 75.0,
        required_mm: 50.0,
        minimum_c: 300.0,
        reserve_k: 30.0,
        ceiling_c: Some(510.0),
        interpass_c: Some(400.0),
        passes: vec![pass(0, 1.0, 1100.0), pass(1, 1.0, 1100.0), pass(0, 1.2, 2800.0), pass(1, 1.2, 2800.0)],
        pause_s: 120.0,
        post_heat: PostHeat::NONE,
        fusion_closed: false,
        fineness,
        keep: Keep::Figures,
    }
}

pub(super) fn cycle(query: &HeatCycle) -> Result<Cycle, Refusal> {
    run(embedded(), query, &mut go_on)
}

/// Nobody stops it.
pub(super) fn go_on(_: f64, _: strawblue::engine::heat_cycle::Phase) -> ControlFlow<()> {
    ControlFlow::Continue(())
}
