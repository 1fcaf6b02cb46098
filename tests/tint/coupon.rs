//! A coupon of the bar moves the growth constant by Bayes' rule and narrows its band: against an
//! integral of prior and likelihood, against a thousand bars made up by chance, and laws.

use super::near;
use proptest::prelude::*;
use strawblue::engine::tint::{
    Circumstances, Coupon, CouponSeen, Course, FlameOn, Heating, Mode, Pace, Span, Stage, TintError,
    TintNote, peak_from_stages,
};

/// The sigmas that the model states of itself, K, and the factor on the handbook minutes.
const TABLES_K: f64 = 12.0;
const NAMING_K: f64 = 8.0;
const ALLOY_K: f64 = 10.0;
const MINUTES: f64 = 1.65;
/// Temperature constant of the growth law, K, and its exponent.
const B_K: f64 = 4_450.223_663_727;
const EXPONENT: f64 = 3.5;

fn course(minutes: f64) -> Course {
    Course::Minutes { start_c: 20.0, minutes }
}

fn seen(minutes: f64, stage: Stage, read_c: f64, instrument_k: f64) -> CouponSeen {
    CouponSeen {
        course: course(minutes),
        stages: (stage, stage),
        read_c: Span::exactly(read_c),
        instrument_k,
    }
}

fn heating(minutes: f64, coupon: Option<Coupon>) -> Heating {
    Heating::new(course(minutes)).unwrap().by(coupon)
}

/// The film in the middle of a stage, on the scale that growth is even on.
fn middle_nm(stage: Stage) -> f64 {
    (stage.from_nm() * stage.to_nm().unwrap()).sqrt()
}

fn plain_c(minutes: f64, stage: Stage) -> f64 {
    heating(minutes, None).peak_c(middle_nm(stage)).unwrap()
}

/// Prior times likelihood, summed over 40,000 steps of the growth constant, has the middle and the
/// spread that the coupon takes.
#[test]
fn the_growth_constant_moves_as_an_integral_of_prior_and_likelihood_does() {
    for (minutes, stage, off_k, instrument_k) in
        [(3.0, Stage::Blue, 15.0, 3.0), (8.0, Stage::Bronze, -25.0, 6.0), (1.2, Stage::LightBlue, 0.0, 2.5)]
    {
        let read_c = plain_c(minutes, stage) + off_k;
        let per_k = B_K / (read_c + 273.15).powi(2);
        let prior =
            ((TABLES_K * per_k).powi(2) + (ALLOY_K * per_k).powi(2) + (MINUTES.ln() / EXPONENT).powi(2))
                .sqrt();
        let width = (stage.to_nm().unwrap() / stage.from_nm()).ln() / 12.0_f64.sqrt();
        let noise = ((NAMING_K * per_k).powi(2) + (instrument_k * per_k).powi(2) + width.powi(2)).sqrt();
        let measured = (middle_nm(stage) / heating(minutes, None).film_nm(read_c)).ln();
        let (mut whole, mut first, mut second) = (0.0, 0.0, 0.0);
        for step in -20_000..=20_000 {
            let x = f64::from(step) * 1e-4;
            let density = (-0.5 * ((x / prior).powi(2) + ((measured - x) / noise).powi(2))).exp();
            whole += density;
            first += x * density;
            second += x * x * density;
        }
        let (mean, square) = (first / whole, second / whole);
        let coupon = Coupon::learn(&seen(minutes, stage, read_c, instrument_k)).unwrap();
        near(coupon.earlier_k() * per_k, mean, 1e-6, "shift of ln A");
        near(coupon.left_k(read_c) * per_k, (square - mean * mean).sqrt(), 1e-6, "sigma of ln A");
    }
}

/// Bars whose growth constant, instrument and names of colours are off by chance, as the model says
/// that they may be: two sigma hold the truth as often as two sigma should, and are narrower.
#[test]
fn a_thousand_bars_by_chance_lie_in_the_narrowed_band() {
    let mut seed = 20_261_129_u64;
    let mut even = || {
        seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        f64::from(u32::try_from(seed >> 32).unwrap()) / f64::from(u32::MAX)
    };
    // Twelve even numbers add up to a normal one.
    let mut normal = || (0..12).map(|_| even()).sum::<f64>() - 6.0;
    let (mut learnt, mut held, mut before, mut after) = (0.0, 0.0, 0.0, 0.0);
    for _ in 0..1000 {
        let peak_c = 285.0 + 8.0 * normal();
        let per_k = B_K / (peak_c + 273.15).powi(2);
        let truth = per_k * (TABLES_K * normal() + ALLOY_K * normal()) + MINUTES.ln() / EXPONENT * normal();
        let film = |at_c: f64, named_k: f64| {
            heating(3.0, None).film_nm(at_c) * (truth + per_k * NAMING_K * named_k).exp()
        };
        let stage = Stage::of(film(peak_c, normal()));
        let Ok(coupon) = Coupon::learn(&seen(3.0, stage, peak_c + 3.0 * normal(), 3.0)) else { continue };
        // The part, heated as the coupon was: what does its film say, and what is true?
        let part_c = 300.0;
        let film_nm = film(part_c, normal());
        let taught = heating(3.0, Some(coupon));
        let (Some(said_c), Some(sigma_k)) = (taught.peak_c(film_nm), taught.sigma_k(film_nm)) else {
            continue;
        };
        learnt += 1.0;
        held += f64::from(u8::from((said_c - part_c).abs() <= 2.0 * sigma_k));
        after += sigma_k;
        before += heating(3.0, None).sigma_k(film_nm).unwrap();
    }
    assert!(learnt > 900.0, "{learnt} coupons could be learnt from");
    let share = held / learnt;
    assert!((0.93..=0.995).contains(&share), "two sigma hold {share}");
    assert!(after < 0.7 * before, "{} K instead of {}", after / learnt, before / learnt);
}

#[test]
fn a_coupon_on_the_model_moves_nothing_and_narrows() {
    for stage in [Stage::LightStraw, Stage::ReddishPurple, Stage::Blue, Stage::GreenishBlue] {
        let plain = plain_c(4.0, stage);
        let coupon = Coupon::learn(&seen(4.0, stage, plain, 3.0)).unwrap();
        let taught = heating(4.0, Some(coupon));
        let film_nm = middle_nm(stage);
        near(taught.peak_c(film_nm).unwrap(), plain, 1e-6, "the same peak");
        let (sigma_k, before_k) =
            (taught.sigma_k(film_nm).unwrap(), heating(4.0, None).sigma_k(film_nm).unwrap());
        assert!(sigma_k < before_k, "{sigma_k} K instead of {before_k}");
        assert!(sigma_k > NAMING_K, "what one calls a colour stays open");
    }
}

/// Near the coupon's own time its time law is known, an hour away it is as open as before.
#[test]
fn the_time_law_stays_open_away_from_the_coupon() {
    let coupon = Coupon::learn(&seen(10.0, Stage::Blue, plain_c(10.0, Stage::Blue), 3.0)).unwrap();
    let film_nm = middle_nm(Stage::Blue);
    let near_k = heating(10.0, Some(coupon.clone())).sigma_k(film_nm).unwrap();
    let far_k = heating(60.0, Some(coupon.clone())).sigma_k(film_nm).unwrap();
    assert!(far_k > near_k + 1.0, "{far_k} K an hour away, {near_k} K at its own time");
    let long = heating(600.0, Some(coupon));
    assert!(
        long.sigma_up_k(film_nm) > long.sigma_k(film_nm),
        "after hours it may have been hotter than it looks"
    );
}

#[test]
fn a_coupon_is_refused_where_it_says_nothing() {
    let refusal = |seen: &CouponSeen| match Coupon::learn(seen).unwrap_err() {
        TintError::Input(error) => error.key(),
        TintError::Refused(refusal) => refusal.id().to_owned(),
    };
    for stage in [Stage::Bright, Stage::Later] {
        assert_eq!(refusal(&seen(3.0, stage, 250.0, 3.0)), "error-tint-coupon-colour");
    }
    let swapped = CouponSeen { stages: (Stage::Blue, Stage::Bronze), ..seen(3.0, Stage::Blue, 300.0, 3.0) };
    assert_eq!(refusal(&swapped), "error-tint-coupon-colour");
    let blue_c = plain_c(3.0, Stage::Blue);
    for off_k in [-90.0, 90.0] {
        assert_eq!(refusal(&seen(3.0, Stage::Blue, blue_c + off_k, 3.0)), "error-tint-coupon-apart");
    }
    assert!(Coupon::learn(&seen(3.0, Stage::Blue, f64::NAN, 3.0)).is_err());
    assert!(Coupon::learn(&seen(f64::NAN, Stage::Blue, blue_c, 3.0)).is_err());
}

/// It counts wherever a colour is read, and says so.
#[test]
fn an_answer_says_that_a_coupon_counts() {
    let pace = Pace::Minutes(Span::exactly(3.0));
    let mode = Mode::FlameOn(FlameOn { start_c: 20.0, pace, film_before_nm: 0.0 });
    let plain = peak_from_stages(&mode, Stage::Blue, Stage::Blue, &Circumstances::BRIGHT).unwrap();
    let read_c = plain_c(3.0, Stage::Blue) + 20.0;
    let coupon = Coupon::learn(&seen(3.0, Stage::Blue, read_c, 3.0)).unwrap();
    let steel = Circumstances { coupon: Some(coupon), ..Circumstances::BRIGHT };
    let taught = peak_from_stages(&mode, Stage::Blue, Stage::Blue, &steel).unwrap();
    assert!(taught.notes.contains(&TintNote::ByCoupon) && !plain.notes.contains(&TintNote::ByCoupon));
    assert!(taught.band_c.1 - taught.band_c.0.unwrap() < plain.band_c.1 - plain.band_c.0.unwrap());
    assert!(taught.central_c.1 > plain.central_c.1, "a hotter coupon moves its colour up");
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(300) })]

    /// The colour moves towards what was read, never past it, and a surer instrument moves it further.
    #[test]
    fn a_colour_moves_towards_the_reading_and_never_past_it(
        minutes in 0.5..40.0_f64, off_k in -40.0..40.0_f64, place in 1..10_usize, instrument_k in 0.5..15.0_f64,
    ) {
        let stage = Stage::ALL[place];
        let plain = plain_c(minutes, stage);
        prop_assume!(plain + off_k > 100.0);
        let at = |instrument_k: f64| {
            let coupon = Coupon::learn(&seen(minutes, stage, plain + off_k, instrument_k)).ok()?;
            heating(minutes, Some(coupon)).peak_c(middle_nm(stage))
        };
        if let (Some(sure), Some(unsure)) = (at(instrument_k), at(instrument_k * 2.0)) {
            let (sure, unsure) = ((sure - plain) / off_k, (unsure - plain) / off_k);
            prop_assert!((-1e-6..=1.0 + 1e-6).contains(&sure), "moved {sure} of the way");
            prop_assert!(unsure <= sure + 1e-6, "{unsure} of the way against {sure}");
        }
    }
}
