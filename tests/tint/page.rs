//! Both modes of looking at a colour, against figures of an independent implementation:
//! films to half of the last printed digit, peaks and sigmas likewise.

use strawblue::engine::tint::{Course, HeatCurve, Heating, Stage};

use crate::near;

fn ramp(minutes: f64) -> Heating {
    Heating::new(Course::Minutes { start_c: 20.0, minutes }).unwrap()
}

fn afterwards(near_peak_min: f64) -> Heating {
    Heating::new(Course::Afterwards {
        start_c: 20.0,
        near_peak_min,
        up_k_per_min: 96.0,
        down_k_per_min: 10.0,
    })
    .unwrap()
}

#[test]
fn film_while_the_flame_is_on() {
    let minutes = [1.0, 2.5, 5.0, 10.0];
    for (peak_c, films) in [
        (200.0, [3.9365, 5.1145, 6.2346, 7.6001]),
        (230.0, [6.8290, 8.8727, 10.8159, 13.1848]),
        (260.0, [11.1656, 14.5070, 17.6843, 21.5573]),
        (300.0, [19.9131, 25.8724, 31.5388, 38.4462]),
        (335.0, [31.1039, 40.4122, 49.2630, 60.0523]),
    ] {
        for (minutes, film) in minutes.into_iter().zip(films) {
            near(ramp(minutes).film_nm(peak_c), film, 5.1e-5, &format!("{peak_c} °C in {minutes} min"));
        }
    }
    for (start_c, film) in [(0.0, 14.18), (20.0, 14.51), (100.0, 16.29), (150.0, 18.13)] {
        let heating = Heating::new(Course::Minutes { start_c, minutes: 2.5 }).unwrap();
        near(heating.film_nm(260.0), film, 5.1e-3, &format!("from {start_c} °C"));
    }
}

#[test]
fn peak_while_the_flame_is_on() {
    let films = [16.8, 32.5, 38.0, 40.0, 42.8];
    for (minutes, peaks) in [
        (1.0, [(287.66, 23.3), (338.67, 25.3), (352.09, 25.9), (356.62, 26.1), (362.69, 26.4)]),
        (2.0, [(273.92, 21.2), (322.45, 22.5), (335.18, 22.9), (339.48, 23.1), (345.23, 23.2)]),
        (2.5, [(269.63, 20.7), (317.40, 21.9), (329.93, 22.2), (334.15, 22.3), (339.81, 22.5)]),
        (3.0, [(266.17, 20.4), (313.34, 21.4), (325.70, 21.7), (329.86, 21.9), (335.44, 22.0)]),
        (5.0, [(256.71, 19.8), (302.23, 20.6), (314.14, 20.9), (318.15, 20.9), (323.53, 21.1)]),
        (10.0, [(244.37, 19.7), (287.80, 20.4), (299.14, 20.6), (302.95, 20.7), (308.06, 20.8)]),
    ] {
        for (film_nm, (peak_c, sigma_k)) in films.into_iter().zip(peaks) {
            let what = format!("d {film_nm} in {minutes} min");
            near(ramp(minutes).peak_c(film_nm).unwrap(), peak_c, 5.1e-3, &what);
            near(ramp(minutes).sigma_k(film_nm).unwrap(), sigma_k, 0.051, &what);
        }
    }
    // One rate is another question than one time: 96 K/min is 2.5 min to 260 °C.
    let rate = Heating::new(Course::Rate { start_c: 20.0, k_per_min: 96.0 }).unwrap();
    near(rate.film_nm(260.0), ramp(2.5).film_nm(260.0), 1e-9, "the same ramp");
    near(rate.peak_c(38.0).unwrap(), 324.0, 0.5, "d 38 at 96 K/min");
}

#[test]
fn film_and_peak_afterwards() {
    let times = [1.0, 2.2083, 3.0, 4.2083, 6.2083];
    for (peak_c, films) in [
        (230.0, [13.3699, 16.7661, 18.7127, 20.9595, 23.7211]),
        (260.0, [22.7101, 28.4789, 31.4733, 35.0029, 39.4080]),
        (265.0, [24.6687, 30.9350, 34.1359, 37.9211, 42.6570]),
        (271.0, [27.1902, 34.0971, 37.5583, 41.6674, 46.8234]),
        (300.0, [42.3257, 53.0772, 58.0018, 63.9516, 71.5200]),
    ] {
        for (time, film) in times.into_iter().zip(films) {
            // The times are printed to four digits, which moves a film by less than 3e-4.
            near(afterwards(time).film_nm(peak_c), film, 4e-4, &format!("{peak_c} °C, {time} min"));
        }
    }
    let films = [16.8, 32.5, 35.0, 38.0, 42.8, 45.0];
    for (time, peaks) in [
        (
            1.0,
            [(242.52, 19.7), (282.34, 20.5), (287.19, 20.6), (292.66, 20.7), (300.77, 20.9), (304.25, 21.0)],
        ),
        (
            2.2083,
            [(230.11, 20.2), (268.03, 21.2), (272.63, 21.4), (277.84, 21.5), (285.53, 21.8), (288.84, 21.9)],
        ),
        (
            3.0,
            [(224.18, 20.2), (261.97, 21.2), (266.56, 21.4), (271.74, 21.5), (279.42, 21.8), (282.71, 21.9)],
        ),
        (
            4.2083,
            [(218.05, 20.4), (255.45, 21.4), (259.99, 21.6), (265.13, 21.7), (272.73, 22.0), (276.00, 22.1)],
        ),
        (
            6.2083,
            [(211.43, 20.7), (248.21, 21.8), (252.68, 21.9), (257.73, 22.1), (265.21, 22.4), (268.43, 22.5)],
        ),
        (
            10.0,
            [(203.80, 21.3), (239.69, 22.5), (244.05, 22.6), (248.98, 22.8), (256.28, 23.1), (259.41, 23.2)],
        ),
    ] {
        for (film_nm, (peak_c, sigma_k)) in films.into_iter().zip(peaks) {
            let what = format!("d {film_nm}, {time} min near the peak");
            near(afterwards(time).peak_c(film_nm).unwrap(), peak_c, 6e-3, &what);
            near(afterwards(time).sigma_k(film_nm).unwrap(), sigma_k, 0.051, &what);
        }
    }
}

#[test]
fn heating_minutes_are_not_minutes_at_the_peak() {
    let still_air = |mut history: strawblue::engine::tint::History| {
        history.stretches.push(strawblue::engine::tint::Stretch { from_c: 260.0, to_c: 200.0, minutes: 6.0 });
        history.film_nm().unwrap()
    };
    for (minutes, arrival, three, four, cooled) in [
        (1.0, 11.2, 32.7, 35.5, 39.1),
        (2.5, 14.5, 33.0, 35.7, 39.3),
        (5.0, 17.7, 33.6, 36.2, 39.7),
        (10.0, 21.6, 34.5, 37.0, 40.3),
    ] {
        let course = Course::Minutes { start_c: 20.0, minutes };
        let at_peak = |wait_min: f64| {
            let mut history = course.history(260.0, 0.0);
            history.stretches.push(strawblue::engine::tint::Stretch {
                from_c: 260.0,
                to_c: 260.0,
                minutes: wait_min,
            });
            history
        };
        let what = format!("ramp of {minutes} min");
        near(course.history(260.0, 0.0).film_nm().unwrap(), arrival, 0.051, &what);
        near(at_peak(3.0).film_nm().unwrap(), three, 0.051, &what);
        near(at_peak(4.0).film_nm().unwrap(), four, 0.051, &what);
        near(still_air(at_peak(4.0)), cooled, 0.051, &what);
    }
    let arrival = Stage::of(ramp(2.5).film_nm(260.0));
    assert!(arrival == Stage::FaintYellow || arrival == Stage::LightStraw);
    for film_nm in [38.0, 40.0] {
        let peak_c = ramp(2.5).peak_c(film_nm).unwrap();
        assert!((325.0..=340.0).contains(&peak_c), "{peak_c}");
    }
}

#[test]
fn a_curve_is_followed_to_where_it_first_reaches_the_target() {
    let straight = HeatCurve::new(vec![(0.0, 20.0), (1.0, 116.0), (2.5, 260.0)]).unwrap();
    let curve = Heating::new(Course::Curve(straight)).unwrap();
    near(curve.film_nm(260.0), ramp(2.5).film_nm(260.0), 1e-9, "a straight curve is a ramp");
    let waiting = HeatCurve::new(vec![(0.0, 20.0), (2.0, 250.0), (8.0, 250.0), (9.0, 270.0)]).unwrap();
    let curve = Heating::new(Course::Curve(waiting)).unwrap();
    assert!(curve.film_nm(250.1) > curve.film_nm(249.9) + 10.0, "the wait on the way counts");
    let film_nm = curve.film_nm(265.0);
    near(curve.peak_c(film_nm).unwrap(), 265.0, 1e-6, "inverse on a curve");
    assert!(HeatCurve::new(vec![(0.0, 20.0), (1.0, 10.0)]).is_err());
    assert!(HeatCurve::new(vec![(0.0, 20.0)]).is_err());
    assert!(HeatCurve::new(vec![(0.0, 20.0), (0.0, 100.0)]).is_err());
}
