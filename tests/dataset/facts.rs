//! Facts that the embedded dataset carries, beside what is published.

use serde::Deserialize;
use strawblue::reference::{
    Basis, Composition, ConditionKind, Element, Grade, Group, IronRouteKind, Printed, Restraint, SheetCase,
    TemperKind, embedded,
};

#[derive(Deserialize)]
struct CeRow {
    id: String,
    ce_mid: f64,
    ce_max: f64,
    pcm_mid: f64,
    pcm_max: f64,
    cet_mid: f64,
    cet_max: f64,
}

/// CE (IIW), Pcm and CET, written out here so that the dataset is checked without the engine.
fn equivalents(composition: Composition) -> (f64, f64, f64) {
    let [c, si, mn, cr, mo, ni, v, cu, b] = [
        Element::C,
        Element::Si,
        Element::Mn,
        Element::Cr,
        Element::Mo,
        Element::Ni,
        Element::V,
        Element::Cu,
        Element::B,
    ]
    .map(|element| composition.get(element));
    (
        c + mn / 6.0 + (cr + mo + v) / 5.0 + (ni + cu) / 15.0,
        c + si / 30.0 + (mn + cu + cr) / 20.0 + ni / 60.0 + mo / 15.0 + v / 10.0 + 5.0 * b,
        c + (mn + mo) / 10.0 + (cr + cu) / 20.0 + ni / 40.0,
    )
}

fn maximum(grade: &Grade) -> Composition {
    let mut made = Composition::default();
    for (&element, limits) in &grade.composition {
        made.set(element, limits.max.or(limits.min).unwrap_or_default());
    }
    made
}

// Computed values, see the head of the file; the formulas are those of IIW Doc. IX-535-67,
// Ito and Bessyo (IIW IX-576-68) and EN 1011-2 C.3.2.1.
#[test]
fn carbon_equivalents_of_every_grade_are_those_worked_outside() {
    let rows: Vec<CeRow> = ron::from_str(include_str!("ce_check.ron")).expect("the file is well-formed");
    let reference = embedded();
    assert_eq!(rows.len(), reference.grades.len());
    for row in rows {
        let grade = reference.grade(&row.id).unwrap_or_else(|| panic!("{} is missing", row.id));
        let (mid, max) = (equivalents(grade.nominal()), equivalents(maximum(grade)));
        let pairs = [
            (mid.0, row.ce_mid),
            (max.0, row.ce_max),
            (mid.1, row.pcm_mid),
            (max.1, row.pcm_max),
            (mid.2, row.cet_mid),
            (max.2, row.cet_max),
        ];
        for (worked, printed) in pairs {
            assert!((worked - printed).abs() <= 0.000_51, "{}: {worked} beside {printed}", row.id);
        }
    }
}

// AWS D1.1 annex: high restraint, 1 1/2 to 3 in, group D, 300 °F, as worked in the society's
// forum; EN 1011-2:2001 Table C.1; AWS D1.1:2015 Table 3.3.
#[test]
fn published_cells_are_carried() {
    let reference = embedded();
    let cell = reference.d11.annex.cell(Restraint::High, 50.8, Group::D).expect("the table is whole");
    assert!(cell.f == 300.0 && cell.seen);
    let c1 = |hydrogen_above: f64, ce: f64, q: f64| {
        reference
            .table_c1
            .cells
            .iter()
            .find(|cell| {
                cell.hydrogen_above_ml == hydrogen_above && cell.ce == ce && cell.heat_input_kj_per_mm == q
            })
            .map(|cell| cell.combined_mm)
    };
    assert_eq!(c1(3.0, 0.49, 1.0), Some(50.0));
    assert_eq!(c1(15.0, 0.43, 2.0), Some(80.0));
    let b = reference.d11.category('B').expect("category B is there");
    let printed: Vec<Option<f64>> = b.rows.iter().map(|row| row.at.f).collect();
    assert_eq!(printed, [Some(32.0), Some(50.0), Some(150.0), Some(225.0)]);
}

// NAVSEA S9074-AR-GIB-010/278 Table IV, groups S-1, S-4 and S-5.
#[test]
fn naval_groups_answer_as_printed() {
    let sheets = &embedded().own_sheets;
    let ask = |group: &str, tensile: Option<f64>, thickness_mm: f64, c: f64, cr: f64| {
        sheets
            .group(group)
            .map(|group| group.minimum(&SheetCase { tensile_mpa: tensile, thickness_mm, c, cr }))
    };
    let f = |f: f64| Some(Printed { c: None, f: Some(f) });
    assert_eq!(ask("s-4", Some(415.0), 12.7, 0.1, 1.25), f(60.0), "60 ksi up to 1/2 in");
    assert_eq!(ask("s-4", Some(415.0), 13.0, 0.1, 1.25), f(250.0), "over 1/2 in");
    assert_eq!(ask("s-4", Some(515.0), 6.0, 0.1, 1.25), f(250.0), "over 60 ksi");
    assert_eq!(ask("s-5", Some(415.0), 50.0, 0.1, 2.25), f(300.0), "thickness alone does not raise 2 1/4 Cr");
    assert_eq!(ask("s-5", Some(415.0), 50.0, 0.1, 9.0), f(400.0), "over 6 Cr and over 1/2 in");
    assert_eq!(ask("s-5", None, 6.0, 0.1, 2.25), f(400.0), "an unknown strength is taken as high");
    assert_eq!(ask("s-1", None, 30.0, 0.35, 0.0), f(175.0), "over 0.30 C and over 1 in");
    assert_eq!(ask("s-1", None, 30.0, 0.25, 0.0), f(60.0));
}

// Common practice, no source: a case temper is no temper of the core.
#[test]
fn case_hardening_grades_carry_their_low_temper_with_the_case_only() {
    let reference = embedded();
    let mut grades = 0;
    for grade in reference.browse("case-hardening") {
        grades += 1;
        for condition in &grade.conditions {
            let case = condition.temper.is_some_and(|temper| temper.kind == TemperKind::Case);
            assert_eq!(case, condition.kind == ConditionKind::CaseHardened, "{}", grade.id);
        }
        assert!(grade.condition_kinds()[0] != ConditionKind::CaseHardened, "{}", grade.id);
    }
    assert!(grades >= 5, "only {grades} case-hardening grades are listed");
}

// Common practice, no source: bearing steel of 1 % carbon hardens right through. There is no case
// that could be ground off, and its low temper is that of the whole part.
#[test]
fn bearing_steel_is_hardened_right_through() {
    let bearings = embedded().browse("bearing");
    assert_eq!(bearings.len(), 2);
    for grade in bearings {
        assert!(!grade.condition_kinds().contains(&ConditionKind::CaseHardened), "{}", grade.id);
        let temper = grade.temper_of(ConditionKind::HardenedTempered).expect("it has a temper");
        assert_eq!(
            (temper.low_c, temper.high_c, temper.kind),
            (150.0, Some(200.0), TemperKind::Typical),
            "{}",
            grade.id
        );
    }
}

#[test]
fn what_is_remembered_says_so() {
    let memory = |basis: &Basis| matches!(basis, Basis::Memory { .. });
    let grade = |id: &str| embedded().grade(id).unwrap_or_else(|| panic!("{id} is missing"));
    // Only a tensile of 200 MPa was seen for grey iron.
    assert!(memory(&grade("GREY").conditions[0].basis));
    for id in ["A709-HPS70W", "A710A", "O1", "52100", "AR400", "S355MC"] {
        assert!(grade(id).pwht.as_ref().is_some_and(|pwht| memory(&pwht.basis)), "{id}");
    }
    for id in ["S690QL", "AR400", "R260", "GREY", "O1"] {
        assert!(grade(id).published_preheat.as_ref().is_some_and(|preheat| memory(&preheat.basis)), "{id}");
    }
    for id in ["S690QL", "AR400"] {
        assert!(grade(id).interpass_rows.as_ref().is_some_and(|rows| memory(&rows.basis)), "{id}");
    }
    // Strengths that were seen, beside a temper that wasn't.
    let condition =
        grade("20NiCrMo2-2").condition_at(ConditionKind::CaseHardened, 20.0).expect("it is there");
    assert!(!memory(&condition.basis) && memory(condition.temper_rests_on()));
}

// A cap that holds only where the order asks for it must not make a steel look leaner.
#[test]
fn a_supplementary_cap_does_not_bind() {
    for id in ["A105", "A913-50", "A913-65"] {
        assert!(embedded().grade(id).is_some_and(|grade| grade.cev_cap.is_none()), "{id}");
    }
}

#[test]
fn strengths_follow_the_thickness_and_end_where_the_source_ends() {
    let grade = embedded().grade("42CrMo4").expect("the grade is there");
    let at = |mm: f64| grade.condition_at(ConditionKind::HardenedTempered, mm).and_then(|row| row.yield_mpa);
    // Data sheet to ISO 683-2: 16-40 mm 750 MPa, 40-100 mm 650 MPa.
    assert_eq!(
        (at(16.0), at(16.1), at(40.0), at(100.0)),
        (Some(900.0), Some(750.0), Some(750.0), Some(650.0))
    );
    assert_eq!(at(400.0), None);
    assert!(matches!(
        grade.condition_at(ConditionKind::HardenedTempered, 30.0).map(|row| &row.basis),
        Some(Basis::Published { .. })
    ));
    assert_eq!(grade.data_sheet.as_ref().and_then(|sheet| sheet.low_c), Some(300.0));
    let s355 = embedded().grade("S355J2").expect("the grade is there");
    assert_eq!(s355.cev_cap_at(25.0).map(|cap| cap.value), Some(0.45));
    assert_eq!(s355.cev_cap_at(60.0).map(|cap| cap.value), Some(0.47));
    assert_eq!(s355.cev_cap_at(500.0), None);
}

// AWS D1.1, older editions, from memory: A514 and A517 have rows of their own, 50/125/175/225 °F,
// and an interpass of 400 °F up to 1 1/2 in, 450 °F above.
#[test]
fn a514_has_rows_of_its_own() {
    let reference = embedded();
    for grade in
        reference.grades.iter().filter(|grade| grade.id.starts_with("A514") || grade.id.starts_with("A517"))
    {
        assert_eq!(grade.d11_category, None, "{}", grade.id);
        let rows = grade.preheat_rows.as_ref().expect("it has rows");
        let at = |mm: f64| rows.at(mm).and_then(|at| at.c);
        assert_eq!(
            (at(19.05), at(25.0), at(50.0), at(80.0)),
            (Some(10.0), Some(52.0), Some(79.0), Some(107.0))
        );
        let interpass = grade.interpass_rows.as_ref().expect("it has an interpass");
        assert_eq!(
            (interpass.at(38.1).and_then(|at| at.f), interpass.at(38.2).and_then(|at| at.f)),
            (Some(400.0), Some(450.0))
        );
    }
}

#[test]
fn iron_has_two_routes_that_are_not_blended() {
    let sheets = &embedded().own_sheets;
    let cold = sheets.iron_route(IronRouteKind::Cold).expect("the cold route is there");
    let hot = sheets.iron_route(IronRouteKind::Hot).expect("the hot route is there");
    assert!(
        cold.interpass_c < Some(hot.preheat_low_c)
            && cold.bead_mm == Some(25.0)
            && hot.cooling_k_per_h == Some(50.0)
    );
}

#[test]
fn a_filler_without_a_whole_composition_has_no_carbon_equivalent() {
    let reference = embedded();
    for id in ["e91t1-b3", "e71t-8", "rod-4140-4340"] {
        assert!(reference.filler(id).is_some_and(|filler| filler.nominal().is_none()), "{id}");
    }
    assert!(reference.filler("e7018").is_some_and(|filler| filler.nominal().is_some()));
}

// EN 1011-2, C.2.4, from memory: butt d1 + d2; T and fillet d1 + d2 + d3.
#[test]
fn combined_thickness_counts_the_ways_of_the_heat() {
    let combined = |joint: &str, first: f64, second: f64| {
        embedded().joint(joint).map(|joint| joint.ways.combined_mm(first, second))
    };
    assert_eq!(combined("butt", 20.0, 20.0), Some(40.0));
    assert_eq!(combined("t-fillet-one-side", 20.0, 15.0), Some(55.0));
    assert_eq!(combined("t-fillet-one-side", 12.0, 12.0), Some(36.0));
}
