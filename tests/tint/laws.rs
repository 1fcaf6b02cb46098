//! Laws that hold for every history.

use proptest::prelude::*;
use strawblue::engine::tint::{Course, Heating, History, Stretch};

/// Stretches that join: each begins where the one before ended.
fn history() -> impl Strategy<Value = History> {
    let points = prop::collection::vec((-20.0..450.0_f64, 0.01..60.0_f64), 2..8);
    (points, 0.0..60.0_f64).prop_map(|(points, film_before_nm)| History {
        film_before_nm,
        stretches: points
            .windows(2)
            .map(|pair| Stretch { from_c: pair[0].0, to_c: pair[1].0, minutes: pair[1].1 })
            .collect(),
    })
}

fn course() -> impl Strategy<Value = Course> {
    let start = -20.0..150.0_f64;
    prop_oneof![
        (0.05..600.0_f64).prop_map(|minutes| Course::Constant { minutes }),
        (start.clone(), 0.1..120.0_f64).prop_map(|(start_c, minutes)| Course::Minutes { start_c, minutes }),
        (start.clone(), 1.0..600.0_f64).prop_map(|(start_c, k_per_min)| Course::Rate { start_c, k_per_min }),
        (start, 0.1..60.0_f64, 2.0..300.0_f64, 0.5..60.0_f64).prop_map(
            |(start_c, near_peak_min, up_k_per_min, down_k_per_min)| Course::Afterwards {
                start_c,
                near_peak_min,
                up_k_per_min,
                down_k_per_min
            }
        ),
    ]
}

/// The same course, longer.
fn longer(course: &Course, factor: f64) -> Course {
    match course.clone() {
        Course::Constant { minutes } => Course::Constant { minutes: minutes * factor },
        Course::Minutes { start_c, minutes } => Course::Minutes { start_c, minutes: minutes * factor },
        Course::Rate { start_c, k_per_min } => Course::Rate { start_c, k_per_min: k_per_min / factor },
        Course::Afterwards { start_c, near_peak_min, up_k_per_min, down_k_per_min } => Course::Afterwards {
            start_c,
            near_peak_min: near_peak_min * factor,
            up_k_per_min,
            down_k_per_min,
        },
        curve @ Course::Curve(_) => curve,
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(300) })]

    #[test]
    fn film_never_shrinks_along_a_history(history in history()) {
        let mut before = history.film_before_nm;
        for count in 0..=history.stretches.len() {
            let part = History { film_before_nm: history.film_before_nm, stretches: history.stretches[..count].to_vec() };
            let film = part.film_nm().unwrap();
            prop_assert!(film >= before - 1e-9, "{film} after {before}");
            before = film;
        }
    }

    #[test]
    fn hotter_or_longer_is_never_thinner(
        course in course(), peak_c in 160.0..420.0_f64, more_k in 0.0..80.0_f64, factor in 1.0..5.0_f64, before in 0.0..40.0_f64,
    ) {
        let heating = Heating::on_film(course.clone(), before).unwrap();
        let film = heating.film_nm(peak_c);
        prop_assert!(heating.film_nm(peak_c + more_k) >= film - 1e-9);
        let slow = Heating::on_film(longer(&course, factor), before).unwrap();
        prop_assert!(slow.film_nm(peak_c) >= film - 1e-9);
    }

    #[test]
    fn inverse_of_inverse(course in course(), peak_c in 170.0..420.0_f64) {
        let heating = Heating::new(course).unwrap();
        let film = heating.film_nm(peak_c);
        let back = heating.peak_c(film).unwrap();
        prop_assert!((back - peak_c).abs() < 0.1, "{back} for {peak_c}");
        prop_assert!((heating.film_nm(back) - film).abs() < 1e-6 * film.max(1.0));
        let wide = heating.sigma_k(film);
        prop_assert!(wide.is_none_or(|sigma| sigma > (12.0_f64 * 12.0 + 64.0 + 100.0).sqrt()));
    }

    #[test]
    fn splitting_a_stretch_changes_nothing(from_c in 0.0..400.0_f64, to_c in 0.0..400.0_f64, minutes in 0.1..60.0_f64, share in 0.0..1.0_f64) {
        let middle_c = from_c + (to_c - from_c) * share;
        let whole = History { film_before_nm: 3.0, stretches: vec![Stretch { from_c, to_c, minutes }] };
        let halves = History { film_before_nm: 3.0, stretches: vec![
            Stretch { from_c, to_c: middle_c, minutes: minutes * share },
            Stretch { from_c: middle_c, to_c, minutes: minutes * (1.0 - share) },
        ]};
        prop_assert!((whole.film_nm().unwrap() - halves.film_nm().unwrap()).abs() < 1e-6);
    }

    #[test]
    fn any_input_gets_an_answer_or_an_error(minutes in any::<f64>(), start_c in any::<f64>(), film in any::<f64>(), peak_c in any::<f64>()) {
        if let Ok(heating) = Heating::on_film(Course::Minutes { start_c, minutes }, film) {
            let _ = heating.film_nm(peak_c);
            let _ = heating.sigma_k(film);
        }
    }
}

#[test]
fn steps_of_a_second_against_the_closed_form() {
    // An independent fine-step sum: growth at the middle of each hundredth of a second.
    let growth = strawblue::engine::tint::growth::Growth::model();
    for (from_c, to_c, minutes) in
        [(20.0, 260.0, 2.5), (260.0, 200.0, 6.0), (150.0, 335.0, 10.0), (20.0, 200.0, 1.0)]
    {
        let steps = 6000.0 * minutes;
        let mut sum = 0.0;
        let mut step = 0.5;
        while step < steps {
            sum += growth.rate(from_c + (to_c - from_c) * step / steps) * minutes / steps;
            step += 1.0;
        }
        let closed = growth.on_line(from_c, to_c, minutes);
        assert!((closed / sum - 1.0).abs() < 1e-6, "{from_c} to {to_c}: {closed} {sum}");
    }
}
