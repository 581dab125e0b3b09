//! The log as a QR code, dark on light in any theme, for the practice's camera.

use std::fmt::Write as _;

use fast_qr::{ECL, Module, QRBuilder};

/// White modules that ISO/IEC 18004 asks for around a code.
const MARGIN: usize = 4;

/// The drawing; `None` when the text is too long for a code.
pub fn svg(text: &str, label: &str) -> Option<String> {
    let code = QRBuilder::new(text).ecl(ECL::M).build().ok()?;
    let side = code.size + 2 * MARGIN;
    let mut path = String::new();
    for y in 0..code.size {
        let mut x = 0;
        while x < code.size {
            let run = (x..code.size).take_while(|at| code[y][*at].value() == Module::DARK).count();
            if run > 0 {
                // Writing into a string cannot fail.
                let _ = write!(path, "M{} {}h{run}v1h-{run}z", x + MARGIN, y + MARGIN);
            }
            x += run.max(1);
        }
    }
    Some(format!(
        "<svg viewBox=\"0 0 {side} {side}\" shape-rendering=\"crispEdges\" role=\"img\" aria-label=\"{label}\">\
         <path fill=\"#fff\" d=\"M0 0h{side}v{side}H0z\"/><path fill=\"#000\" d=\"{path}\"/></svg>"
    ))
}
