//! Times that keep the screen smooth. Measured in release only.

use std::ops::ControlFlow;
use std::time::{Duration, Instant};

use image::{DynamicImage, Rgb, RgbImage};
use strawblue::engine::photo::{PhotoQuestion, PhotoReference, Region, match_photo};
use strawblue::engine::tint::{Circumstances, Course, Heating, colour, strip};

/// The quickest of some runs: another program may take the processor in the others.
fn quickest(runs: usize, mut work: impl FnMut()) -> Duration {
    (0..runs)
        .map(|_| {
            let begin = Instant::now();
            work();
            begin.elapsed()
        })
        .min()
        .unwrap()
}

#[test]
#[cfg_attr(debug_assertions, ignore = "timed in release")]
fn a_strip_of_600_columns_takes_half_a_millisecond() {
    colour::prepare();
    let course =
        Course::Afterwards { start_c: 20.0, near_peak_min: 4.0, up_k_per_min: 96.0, down_k_per_min: 10.0 };
    let heating = Heating::new(course).unwrap();
    let took = quickest(50, || {
        let columns = strip(&heating, 150.0, 380.0, 600);
        assert_eq!(std::hint::black_box(columns).len(), 600);
    });
    println!("strip of 600 columns: {took:?}");
    assert!(took <= Duration::from_micros(500), "{took:?}");
}

#[test]
#[cfg_attr(debug_assertions, ignore = "timed in release")]
fn a_photo_of_12_megapixels_takes_a_second_at_most() {
    let photo =
        RgbImage::from_fn(
            4000,
            3000,
            |x, _| if x < 2000 { Rgb([190, 190, 190]) } else { Rgb([140, 108, 66]) },
        );
    let photo = DynamicImage::ImageRgb8(photo);
    let half = |x: u32| Region { x, y: 0, width: 2000, height: 3000 };
    let question = PhotoQuestion {
        spot: half(2000),
        reference: PhotoReference::BrightSteel(half(0)),
        steel: Circumstances::BRIGHT,
    };
    let took = quickest(3, || {
        match_photo(&photo, &question, &mut |_| ControlFlow::Continue(())).unwrap();
    });
    println!("photo of 12 megapixels: {took:?}");
    assert!(took <= Duration::from_secs(1), "{took:?}");
}
