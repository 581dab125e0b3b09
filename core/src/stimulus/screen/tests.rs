//! Geometry against plane trigonometry worked out by hand, within a thousandth, and published sizes.
//!
//! Unless said otherwise the screen is 400 mm away and a card's long edge of 85.60 mm (ISO/IEC 7810) measures 516 px.

use super::*;

const AWAY: Millimetres = Millimetres(400.0);

fn scale() -> Scale {
    Scale::from_card(CardEdge::Long, Px(516.0)).expect("a phone")
}

/// A screen of so many millimetres at a distance of so many centimetres.
fn screen(width_mm: f64, height_mm: f64, distance_cm: f64) -> Screen {
    let px = |mm| scale().px(Millimetres(mm));
    Screen::new(scale(), px(width_mm), px(height_mm), Centimetres(distance_cm)).expect("a phone")
}

#[track_caller]
fn close(actual: f64, expected: f64) {
    let within = 1e-3 * expected.abs();
    assert!((actual - expected).abs() <= within, "expected {expected}, found {actual}");
}

/// 800 tan 0.5° and 600 tan 0.5°.
#[test]
fn g1_g2_a_degree_looked_at() {
    close(size(Degrees(1.0), AWAY).0, 6.9815);
    close(size(Degrees(1.0), Millimetres(300.0)).0, 5.2361);
    close(angle(Millimetres(6.9815), AWAY).0, 1.0);
}

/// 516 / 85.60, its inverse, and 325 / 53.98 (edges by ISO/IEC 7810).
#[test]
fn g3_g4_the_scale_from_a_card() {
    close(scale().px_per_mm(), 6.0280);
    close(scale().mm(Px(1.0)).0, 0.16589);
    let short = Scale::from_card(CardEdge::Short, Px(325.0)).expect("a phone");
    close(short.px_per_mm(), 6.0207);
}

/// 400 tan 10°, to both sides and up.
#[test]
fn g5_ten_degrees_from_the_middle() {
    let screen = screen(200.0, 200.0, 40.0);
    close(position(Degrees(10.0), AWAY).0, 70.531);
    close(screen.px(At::along(Axis::Horizontal, 10.0)).0.0, 425.16);
    close(screen.px(At::along(Axis::Horizontal, -10.0)).0.0, -425.16);
    close(screen.px(At::along(Axis::Vertical, 10.0)).1.0, -425.16);
}

/// atan(200 / 6 / 400), at 6 px/mm.
#[test]
fn g6_pixels_as_an_angle() {
    let six = Scale::from_px_per_mm(6.0).expect("a phone");
    close(eccentricity(six.mm(Px(200.0)), AWAY).0, 4.7636);
    let screen = Screen::new(six, Px(800.0), Px(800.0), Centimetres(40.0)).expect("a phone");
    close(screen.at(Px(200.0), Px(0.0)).right, 4.7636);
}

/// 400 × 20 π / 180, and a frame's share of it.
#[test]
fn g7_g8_twenty_degrees_a_second_in_the_middle() {
    close(speed(20.0, Degrees(0.0), AWAY).0, 139.63);
    let px = screen(200.0, 200.0, 40.0).speed_px(20.0, Degrees(0.0));
    close(px, 841.67);
    for (frames, each) in [(30.0, 28.056), (60.0, 14.028), (90.0, 9.3519), (120.0, 7.0139)] {
        close(px / frames, each);
    }
}

/// 1 / cos² 15° = 1.07180.
#[test]
fn g9_further_out_the_same_speed_takes_more_pixels() {
    let screen = screen(300.0, 200.0, 40.0);
    close(screen.speed_px(20.0, Degrees(15.0)), 902.10);
    close(screen.speed_px(20.0, Degrees(15.0)) / screen.speed_px(20.0, Degrees(0.0)), 1.07180);
}

/// atan(70.35 / 300), and other screens: the long side of a 6.1 inch phone and of an 11 inch tablet.
#[test]
fn g10_what_fits_a_screen() {
    close(screen(140.7, 64.9, 30.0).half_field(Axis::Horizontal).0, 13.20);
    close(screen(140.7, 64.9, 30.0).field(Axis::Horizontal).0, 26.40);
    close(screen(140.7, 64.9, 40.0).half_field(Axis::Horizontal).0, 9.97);
    close(screen(223.5, 167.6, 40.0).half_field(Axis::Horizontal).0, 15.61);
    close(screen(140.7, 64.9, 40.0).half_field(Axis::Vertical).0, 4.638);
}

/// The reference pixel of CSS Values is 1/96 inch at 28 inches: atan(1 / 2688); ten degrees are about 469 of them, which
/// the guideline's issue list gives as well (w3c/wcag 553).
#[test]
fn g12_the_reference_pixel() {
    let inch = 25.4;
    let pixel = angle(Millimetres(inch / 96.0), Millimetres(28.0 * inch));
    close(pixel.0, 0.02132);
    close(10.0 / pixel.0, 469.0);
}

/// A circle around the middle is a circle on the screen, and every place comes back from its pixels.
#[test]
fn places_come_back_from_their_pixels() {
    let screen = screen(300.0, 300.0, 40.0);
    for turn in 0..24 {
        let angle = f64::from(turn) * 15.0_f64.to_radians();
        let at = At { right: 10.0 * angle.cos(), up: 10.0 * angle.sin() };
        let (right, down) = screen.px(at);
        close(right.0.hypot(down.0), 425.16);
        let back = screen.at(right, down);
        assert!((back.right - at.right).abs() < 1e-9 && (back.up - at.up).abs() < 1e-9, "{at:?} came back as {back:?}");
    }
    assert_eq!(screen.at(Px(0.0), Px(0.0)), At::MIDDLE);
    assert_eq!(screen.px(At::MIDDLE).0, Px(0.0));
}

/// 2π (1 - cos 2.5°); the rectangle by its sides over the square of the distance, within one in a hundred; the quarter of
/// a ten degree field that WCAG 2.2 states as 0.006 sr.
#[test]
fn solid_angles() {
    close(disc(Degrees(5.0)), 0.005_980);
    close(disc(Degrees(1.0)), 0.000_239_2);
    close(disc(Degrees(5.008)), 0.006);
    close(disc(Degrees(10.0)) / 4.0, 0.005_978);
    let phone = screen(140.7, 64.9, 40.0).solid_angle();
    assert!((phone - 0.0560).abs() < 0.000_6, "{phone}");
    // A square whose half side equals the distance is a sixth of the whole sphere.
    close(rectangle(Millimetres(80.0), Millimetres(80.0), Millimetres(40.0)), 4.0 * std::f64::consts::PI / 6.0);
}

#[test]
fn a_card_of_three_pixels_is_refused_and_says_what_is_possible() {
    let said = Scale::from_card(CardEdge::Long, Px(3.0)).expect_err("no screen").to_string();
    assert_eq!(
        said,
        "3 is not possible for the card's long edge on this screen. Type a number from 129 px to 1712 px."
    );
    for px in [0.0, -516.0, 128.0, 1713.0, f64::NAN, f64::INFINITY] {
        assert!(Scale::from_card(CardEdge::Long, Px(px)).is_err(), "{px}");
    }
    assert!(Scale::from_card(CardEdge::Short, Px(80.0)).is_err());
    for edge in [CardEdge::Long, CardEdge::Short] {
        for px in [edge.quantity().min, edge.quantity().max] {
            let scale = Scale::from_card(edge, Px(px)).expect("within bounds");
            assert_eq!(Scale::from_px_per_mm(scale.px_per_mm()), Ok(scale), "what was measured can be kept");
        }
    }
}

#[test]
fn a_screen_at_five_centimetres_is_refused() {
    let at = |cm| Screen::new(scale(), Px(390.0), Px(844.0), Centimetres(cm));
    let said = at(5.0).expect_err("too near").to_string();
    assert!(said.contains("distance from the eyes to the screen") && said.contains("from 20 cm to 200 cm"), "{said}");
    assert!(at(f64::NAN).is_err() && at(201.0).is_err());
    for preset in PRESETS {
        assert!(at(preset.0).is_ok());
    }
    assert!(Screen::new(scale(), Px(0.0), Px(844.0), Centimetres(40.0)).is_err());
}

#[test]
fn a_scale_ends_with_its_zoom_and_its_pixel_ratio() {
    let kept = Calibration { scale: scale(), pixel_ratio: 3.0, zoom: 1.0 };
    assert_eq!(kept.scale_at(3.0, 1.0), Some(scale()));
    for (ratio, zoom) in [(2.0, 1.0), (3.3, 1.0), (3.0, 1.1), (3.0, 0.99), (f64::NAN, 1.0), (0.0, 1.0)] {
        assert_eq!(kept.scale_at(ratio, zoom), None, "{ratio} {zoom}");
    }
}
