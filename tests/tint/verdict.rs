//! A colour held against the limits of a plan, and a colour on steel that carried one before.

use proptest::prelude::*;
use strawblue::engine::tint::{
    Afterwards, Circumstances, FlameOn, Held, Mode, Pace, Refusal, Span, Stage, TintError, TintLimits,
    colour_on_colour, judge_tint, peak_from_stages, peak_on_colour, proof_of,
};

fn flame(minutes: f64) -> Mode {
    Mode::FlameOn(FlameOn { start_c: 20.0, pace: Pace::Minutes(Span::exactly(minutes)), film_before_nm: 0.0 })
}

fn after(minutes: f64) -> Mode {
    Mode::Afterwards(Afterwards { near_peak_min: Span::exactly(minutes), ..Afterwards::default() })
}

fn limits(minimum_c: f64, maximum_c: f64, ceiling_c: f64) -> TintLimits {
    TintLimits { minimum_c: Some(minimum_c), maximum_c: Some(maximum_c), ceiling_c: Some(ceiling_c) }
}

#[test]
fn each_limit_is_judged_at_its_unfavourable_end() {
    let peak =
        peak_from_stages(&after(3.0), Stage::BluishPurple, Stage::BluishPurple, &Circumstances::BRIGHT)
            .unwrap();
    let (low_c, high_c) = (peak.band_c.0.unwrap(), peak.band_c.1);
    let held = |minimum_c, maximum_c, ceiling_c| {
        let found = judge_tint(&peak, &limits(minimum_c, maximum_c, ceiling_c));
        (found.minimum.unwrap(), found.maximum.unwrap(), found.ceiling.unwrap())
    };
    assert_eq!(held(low_c, high_c, high_c), (Held::Kept, Held::Kept, Held::Kept));
    assert_eq!(held(low_c + 0.1, high_c - 0.1, 600.0), (Held::Unsure, Held::Unsure, Held::Kept));
    assert_eq!(held(high_c + 0.1, high_c + 20.0, 600.0), (Held::Missed, Held::Kept, Held::Kept));
    assert_eq!(held(0.0, low_c - 1.0, low_c - 0.5), (Held::Kept, Held::Missed, Held::Missed));
    assert_eq!(judge_tint(&peak, &TintLimits::default()), strawblue::engine::tint::TintVerdict::default());
}

/// No tint at all never shows that a minimum is reached.
#[test]
fn no_tint_keeps_no_minimum() {
    let bright = peak_from_stages(&after(3.0), Stage::Bright, Stage::Bright, &Circumstances::BRIGHT).unwrap();
    let found = judge_tint(&bright, &limits(20.0, 400.0, 500.0));
    assert_eq!(found.minimum, Some(Held::Unsure));
    assert_eq!(found.maximum, Some(Held::Kept));
}

/// A film of a second heating starts where the first left off: a purple on straw was made by
/// less heat than a purple on bright steel.
#[test]
fn a_second_heating_needs_less_heat_for_the_same_colour() {
    let mode = flame(2.5);
    let on = |before| {
        peak_on_colour(&mode, before, (Stage::BluishPurple, Stage::BluishPurple), &Circumstances::BRIGHT)
            .unwrap()
    };
    let (bright, straw) = (on(Stage::Bright), on(Stage::DarkStraw));
    assert!(straw.band_c.0.unwrap() < bright.band_c.0.unwrap());
    assert!(straw.central_c.0.unwrap() < bright.central_c.0.unwrap());
    // The same colour as before may be no new film at all: no lower end.
    let same = on(Stage::BluishPurple);
    assert_eq!((same.band_c.0, same.central_c.0, same.outcome.low), (None, None, None));
    // An earlier colour than the one that was there can't be new.
    let earlier =
        peak_on_colour(&mode, Stage::Blue, (Stage::LightStraw, Stage::LightStraw), &Circumstances::BRIGHT);
    assert_eq!(earlier, Err(TintError::Refused(Refusal::ThereBefore)));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    /// A colour never calls a limit kept that its band can break: nothing flatters.
    #[test]
    fn a_colour_never_flatters(
        stage in 1_usize..10,
        minutes in 0.5_f64..60.0,
        minimum_c in 50.0_f64..500.0,
        width_k in 0.0_f64..200.0,
        flame_on in any::<bool>(),
    ) {
        let mode = if flame_on { flame(minutes) } else { after(minutes) };
        let stage = Stage::ALL[stage];
        let peak = peak_from_stages(&mode, stage, stage, &Circumstances::BRIGHT).unwrap();
        let found = judge_tint(&peak, &limits(minimum_c, minimum_c + width_k, minimum_c + width_k + 50.0));
        let (low_c, high_c) = (peak.band_c.0.unwrap(), peak.band_c.1);
        prop_assert_eq!(found.minimum == Some(Held::Kept), low_c >= minimum_c);
        prop_assert_eq!(found.maximum == Some(Held::Kept), high_c <= minimum_c + width_k);
        prop_assert!(!(found.minimum == Some(Held::Missed) && found.maximum == Some(Held::Missed)));
        // Two sigma on either side of the central range, never less.
        prop_assert!(low_c < peak.central_c.0.unwrap() && high_c > peak.central_c.1);
    }

    /// What was there before never raises the heat that a colour stands for, and the two ends
    /// of an earlier colour hold its middle between them.
    #[test]
    fn an_earlier_film_never_raises_the_peak(before in 0_usize..9, ahead in 1_usize..5, minutes in 0.5_f64..60.0) {
        let (before, seen) = (Stage::ALL[before], Stage::ALL[(before + ahead).min(9)]);
        let mode = after(minutes);
        let bright = peak_from_stages(&mode, seen, seen, &Circumstances::BRIGHT).unwrap();
        let second = peak_on_colour(&mode, before, (seen, seen), &Circumstances::BRIGHT).unwrap();
        let typical = peak_from_stages(&mode.on_film(before.typical_nm()), seen, seen, &Circumstances::BRIGHT).unwrap();
        // Without sigma, which a film that is there already may widen.
        prop_assert!(second.central_c.1 <= bright.central_c.1 + 1e-9);
        prop_assert!(second.central_c.1 >= typical.central_c.1 - 1e-9);
        if let (Some(low), Some(typical)) = (second.central_c.0, typical.central_c.0) {
            prop_assert!(low <= typical + 1e-9);
        }
    }
}

/// Chromium shifts every colour to a higher heat, so a steel whose chromium is not known may be
/// hotter than its colour says: no maximum is kept, and no minimum is surely missed.
#[test]
fn unknown_chromium_keeps_no_maximum() {
    let unknown = Circumstances { chromium_pct: None, ..Circumstances::BRIGHT };
    let peak = peak_from_stages(&after(3.0), Stage::LightStraw, Stage::LightStraw, &unknown).unwrap();
    let found = judge_tint(&peak, &limits(400.0, 500.0, 600.0));
    assert_eq!(found.minimum, Some(Held::Unsure));
    assert_eq!(found.maximum, Some(Held::Unsure));
    assert_eq!(found.ceiling, Some(Held::Unsure));
    // Its cold end is still sound.
    assert_eq!(judge_tint(&peak, &limits(100.0, 500.0, 600.0)).minimum, Some(Held::Kept));
}

/// What is waited for and what is seen never disagree: the colour that shows a heat keeps it as
/// a minimum, the one before does not.
#[test]
fn the_colour_to_wait_for_keeps_the_minimum() {
    for mode in [flame(1.0), flame(2.5), flame(10.0), after(2.5), after(9.4), after(60.0)] {
        for before in [Stage::Bright, Stage::LightStraw, Stage::ReddishPurple] {
            for peak_c in (150..=420).step_by(7).map(f64::from) {
                let proof = proof_of(&mode, before, peak_c, &Circumstances::BRIGHT);
                let keeps = |stage: Stage| {
                    peak_on_colour(&mode, before, (stage, stage), &Circumstances::BRIGHT).is_ok_and(|peak| {
                        judge_tint(&peak, &limits(peak_c, 700.0, 700.0)).minimum == Some(Held::Kept)
                    })
                };
                if let Some(stage) = proof.reached_from {
                    assert!(stage < Stage::Later && keeps(stage) && !keeps(stage.before()), "{peak_c}");
                }
                if let (Some(below), Some(reached)) = (proof.below_up_to, proof.reached_from) {
                    assert!(below < reached, "{peak_c}");
                }
            }
        }
    }
}

/// An earlier colour widens what a heat can show, at its thick end too.
#[test]
fn an_earlier_colour_widens_what_a_heat_can_show() {
    let bright = colour_on_colour(&after(3.0), Stage::Bright, 260.0, &Circumstances::BRIGHT).unwrap();
    let purple = colour_on_colour(&after(3.0), Stage::ReddishPurple, 150.0, &Circumstances::BRIGHT).unwrap();
    assert!(bright.band_nm.low < bright.film_nm.low && bright.film_nm.high < bright.band_nm.high);
    // A cold reheat leaves what was there, up to the thick end of that colour.
    assert!(purple.band_nm.high >= Stage::ReddishPurple.to_nm().unwrap());
    assert_eq!(purple.stages.1, Stage::BluishPurple);
}
