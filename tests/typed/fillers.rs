//! A filler is asked about where it is not made for its process, or not for the steel.

use crate::typed_job::{faults, small};
use strawblue::engine::job::Process;
use strawblue::job::{Fault, FieldProblem, Slot};
use strawblue::words::Words;

fn asked(pairs: &[(&str, &str)]) -> Vec<(&'static str, String)> {
    let words = Words::english();
    let say = |(id, fault): (&'static str, Fault)| {
        let slot = Slot::from_id(id).expect("a field");
        (id, FieldProblem { slot, fault }.say(&words))
    };
    faults(pairs).into_iter().map(say).collect()
}

/// AWS A5.1 and A5.5 classify covered electrodes, A5.18 and A5.28 bare wires and rods, A5.20 and
/// A5.29 flux-cored wires, A5.17 wires with a flux (from memory).
#[test]
fn a_filler_of_another_process_is_asked_about() {
    for (process, filler) in [
        ("gtaw", "E7018"),
        ("gmaw", "E6013"),
        ("gmaw", "E7018"),
        ("smaw basic", "ER70S-6"),
        ("smaw basic", "E6013"),
        ("smaw basic", "E6010"),
        ("smaw rutile", "E7018"),
        ("smaw nickel", "E7018"),
        ("fcaw", "ER70S-6"),
        ("fcaw", "E7018"),
        ("gtaw", "E71T-1"),
        ("gmaw", "F7A2-EM12K"),
        ("saw", "E7018"),
    ] {
        let said = asked(&[("process", process), ("filler", filler)]);
        let [(id, said)] = said.as_slice() else { panic!("{process} {filler}: {said:?}") };
        assert_eq!(*id, "filler");
        assert!(said.contains(filler) && said.contains("not made for"), "{said}");
    }
    let said = &asked(&[("process", "gtaw"), ("filler", "E7018")])[0].1;
    assert!(said.contains("GTAW (TIG)") && said.contains("SMAW, basic (low-hydrogen)"), "{said}");
    for (process, filler) in [
        ("gtaw", "ER70S-6"),
        ("gmaw", "ER70S-6"),
        ("paw", "ER70S-2"),
        ("saw", "ER80S-B2"),
        ("mcaw", "E70C-6M"),
        ("smaw basic", "E7018-1"),
        ("smaw basic", "E11018-M"),
        ("smaw rutile", "E6013"),
        ("smaw cellulosic", "E6010"),
        ("smaw nickel", "ENiFe-CI"),
        ("fcaw-self", "E71T-8"),
        ("smaw basic", "E312"),
        ("gmaw", "18 8 Mn"),
        // One filler for all is that of one of them.
        ("gtaw + smaw basic", "E7018"),
        ("gtaw + smaw basic", "ER70S-2 + E7018"),
    ] {
        let found = small(&[("process", process), ("filler", filler)]);
        assert!(found.is_ok(), "{process} {filler}: {found:?}");
    }
    let turned = faults(&[("process", "gtaw + smaw basic"), ("filler", "E7018 + ER70S-2")]);
    assert_eq!(turned.iter().map(|(id, _)| *id).collect::<Vec<_>>(), ["filler", "filler-2"]);
}

/// Unalloyed weld metal on stainless steel is martensite (common practice: the constitution
/// diagrams of stainless weld metal show it).
#[test]
fn an_unalloyed_filler_on_stainless_steel_is_asked_about() {
    let on = |steel: &str, process: &str, filler: &str| {
        small(&[("steel", steel), ("process", process), ("filler", filler)])
    };
    for steel in ["304", "316", "430", "2205"] {
        for (process, filler) in [("smaw basic", "E7018"), ("smaw rutile", "E6013"), ("gtaw", "ER70S-6")] {
            let found = on(steel, process, filler).expect_err("asked");
            let Fault::FillerOnStainless { filler: named, steel: Some(of), fits } = &found[0].fault else {
                panic!("{steel} {filler}: {found:?}")
            };
            assert!(named == filler && of.contains(steel) && !fits.is_empty(), "{found:?}");
        }
    }
    for (steel, process, filler) in [
        ("304", "gtaw", "ER308L"),
        ("304", "smaw basic", "E312"),
        ("304", "gmaw", "ER309L"),
        ("4140", "smaw basic", "E7018"),
    ] {
        assert!(on(steel, process, filler).is_ok(), "{steel} {filler}");
    }
    let alone = faults(&[
        ("steel", ""),
        ("certificate", "C .05 Si .5 Mn 1.5 Cr 18.2 Ni 8.5"),
        ("process", "gtaw"),
        ("filler", "ER70S-6"),
    ]);
    assert!(matches!(alone[0].1, Fault::FillerOnStainless { steel: None, .. }), "{alone:?}");
    let fits = on("304", "gtaw", "ER70S-6").expect_err("asked");
    let said = fits[0].say(&Words::english());
    assert!(said.contains("ER308L") && said.contains("304"), "{said}");
    // The process is asked about first.
    assert!(matches!(
        on("304", "gtaw", "E7018").expect_err("asked")[0].fault,
        Fault::FillerOfOtherProcess { process: Process::Gtaw, .. }
    ));
}
