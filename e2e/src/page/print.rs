//! What stands in a print: pages, and how large its letters are.

use anyhow::{Context, Result, ensure};
use lopdf::content::{Content, Operation};
use lopdf::{Document, Object};

/// A page printed to PDF.
pub struct Print {
    /// The number of sheets.
    pub pages: usize,
    /// The file.
    pub pdf: Vec<u8>,
}

impl Print {
    /// Reads a file.
    pub fn of(pdf: Vec<u8>) -> Result<Print> {
        let read = Document::load_mem(&pdf).context("the print is no readable PDF")?;
        Ok(Print { pages: read.get_pages().len(), pdf })
    }

    /// The size of the smallest letters, in points.
    pub fn least_points(&self) -> Result<f64> {
        let read = Document::load_mem(&self.pdf)?;
        let mut least = f64::INFINITY;
        for page in read.get_pages().into_values() {
            let content = Content::decode(&read.get_page_content(page)?)?;
            least = smallest(&content.operations).min(least);
        }
        ensure!(least.is_finite(), "there are no letters in the print");
        Ok(least)
    }
}

/// How much a transformation makes of a height of one.
#[derive(Clone, Copy)]
struct Heights {
    page: f64,
    text: f64,
    font: f64,
}

/// A page is one list of operations; only the scale of a height is followed, for nothing in it is turned.
fn smallest(operations: &[Operation]) -> f64 {
    let mut now = Heights { page: 1.0, text: 1.0, font: 0.0 };
    let (mut saved, mut least) = (Vec::new(), f64::INFINITY);
    for Operation { operator, operands } in operations {
        let number = |at: usize| operands.get(at).map_or(1.0, value);
        match operator.as_str() {
            "q" => saved.push(now),
            "Q" => now = saved.pop().unwrap_or(now),
            "cm" => now.page *= number(3).abs(),
            "BT" => now.text = 1.0,
            "Tm" => now.text = number(3).abs(),
            "Tf" => now.font = number(1),
            "Tj" | "TJ" => least = least.min(now.page * now.text * now.font),
            _ => {}
        }
    }
    least
}

fn value(object: &Object) -> f64 {
    object.as_float().map_or(1.0, f64::from)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A page scaled by 0.24 with letters of 50 and, within a scale of its own, of 30: 12 and 3.6 points.
    #[test]
    fn the_smallest_letters_are_found_through_every_scale() {
        let page = b".24 0 0 -.24 0 842 cm BT /F1 50 Tf 1 0 0 -1 9 9 Tm (a) Tj ET q .5 0 0 .5 0 0 cm BT /F1 30 Tf [(b)] TJ ET Q";
        let content = Content::decode(page).expect("operations");
        assert!((smallest(&content.operations) - 3.6).abs() < 1e-6);
        let first = content.operations.iter().take_while(|one| one.operator != "q").cloned().collect::<Vec<_>>();
        assert!((smallest(&first) - 12.0).abs() < 1e-6);
    }
}
