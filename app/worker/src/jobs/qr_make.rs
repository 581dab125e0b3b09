//! A text as a QR code, drawn as SVG.

use std::fmt::Write as _;

use fast_qr::{ECL, Module, QRBuilder};
use sidelight_worker::{Answer, Qr};

use super::Done;

/// White modules that ISO/IEC 18004 asks for around a code.
const MARGIN: usize = 4;

/// Above this many bytes a code is drawn with the least correction, so that its modules stay large enough for a camera.
const LONG: usize = 300;

pub fn run(text: &str) -> Done {
    let level = if text.len() > LONG { ECL::L } else { ECL::M };
    let code = QRBuilder::new(text).ecl(level).build();
    let code = code.map_err(|_| "This is too long for one QR code.".to_owned())?;
    let version = u8::try_from((code.size - 17) / 4).unwrap_or(u8::MAX);
    let modules = u32::try_from(code.size).unwrap_or(u32::MAX);
    let dark = |x: usize, y: usize| code[y][x].value() == Module::DARK;
    Ok((Answer::Qr(Qr { svg: svg(code.size, dark), version, modules }), Vec::new()))
}

/// Runs of dark modules in a row are one rectangle, which keeps the drawing small.
fn svg(size: usize, dark: impl Fn(usize, usize) -> bool) -> String {
    let side = size + 2 * MARGIN;
    let mut path = String::new();
    for y in 0..size {
        let mut x = 0;
        while x < size {
            let run = (x..size).take_while(|at| dark(*at, y)).count();
            if run > 0 {
                let _ = write!(path, "M{} {}h{run}v1h-{run}z", x + MARGIN, y + MARGIN);
            }
            x += run.max(1);
        }
    }
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {side} {side}\" shape-rendering=\"crispEdges\" \
         role=\"img\" aria-label=\"QR code\"><path fill=\"#fff\" d=\"M0 0h{side}v{side}H0z\"/>\
         <path fill=\"#000\" d=\"{path}\"/></svg>"
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(text: &str) -> Qr {
        match run(text) {
            Ok((Answer::Qr(code), _)) => code,
            other => panic!("{other:?}"),
        }
    }

    #[test]
    fn the_size_follows_from_the_version_and_capitals_make_it_smaller() {
        let text = "SIDELIGHT RECEIPT 1 12 0123456789ABCDEF0123456789ABCDEF0123456789ABCDEF0123456789ABCDEF";
        let (upper, lower) = (of(text), of(&text.to_lowercase()));
        // ISO/IEC 18004: a code of version v has 17 + 4 v modules on each side. 87 letters and digits at level M fit
        // version 4 (90 of them), 87 bytes need version 6 (106).
        assert_eq!((upper.version, upper.modules), (4, 33));
        assert_eq!((lower.version, lower.modules), (6, 41));
        assert!(upper.svg.contains("viewBox=\"0 0 41 41\""));
    }

    #[test]
    fn what_fits_no_code_is_refused_in_a_sentence() {
        assert_eq!(run(&"é".repeat(2_000)), Err("This is too long for one QR code.".to_owned()));
    }
}
