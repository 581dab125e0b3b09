//! Draws every icon of the app from the one drawing in `public/icon.svg`: `cargo run -p sidelight-site --example icons`.

use std::error::Error;
use std::fs;
use std::path::{Path, PathBuf};

use resvg::tiny_skia::{Pixmap, Transform};
use resvg::usvg::{Options, Tree};

struct Icon {
    name: &'static str,
    size: u16,
    /// Systems that cut icons to their own shape want the ground to reach every corner.
    full_ground: bool,
}

const ICONS: [Icon; 5] = [
    Icon { name: "favicon.png", size: 48, full_ground: false },
    Icon { name: "icon-192.png", size: 192, full_ground: false },
    Icon { name: "icon-512.png", size: 512, full_ground: false },
    Icon { name: "icon-maskable-512.png", size: 512, full_ground: true },
    Icon { name: "apple-touch-icon.png", size: 180, full_ground: true },
];

fn main() -> Result<(), Box<dyn Error>> {
    let drawing = fs::read_to_string(public().join("icon.svg"))?;
    for icon in &ICONS {
        let path = public().join(icon.name);
        fs::write(&path, draw(&drawing, icon)?.encode_png()?)?;
        println!("{}", path.display());
    }
    Ok(())
}

fn public() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../public")
}

fn draw(drawing: &str, icon: &Icon) -> Result<Pixmap, Box<dyn Error>> {
    let rounded = r#"rx="112""#;
    if !drawing.contains(rounded) {
        return Err("icon.svg has no ground with rounded corners to square off".into());
    }
    let drawing = if icon.full_ground { drawing.replace(rounded, "") } else { drawing.to_owned() };
    let tree = Tree::from_str(&drawing, &Options::default())?;
    let mut pixmap = Pixmap::new(icon.size.into(), icon.size.into()).ok_or("an icon of no size")?;
    let scale = f32::from(icon.size) / tree.size().width();
    resvg::render(&tree, Transform::from_scale(scale, scale), &mut pixmap.as_mut());
    Ok(pixmap)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Most a colour value may differ: renderings on two processors are not equal to the last bit.
    const TOLERANCE: u8 = 3;

    #[test]
    fn committed_icons_show_the_drawing() {
        let drawing = fs::read_to_string(public().join("icon.svg")).expect("the drawing");
        for icon in &ICONS {
            let committed = Pixmap::load_png(public().join(icon.name)).expect(icon.name);
            let drawn = draw(&drawing, icon).expect(icon.name);
            assert_eq!(committed.width(), u32::from(icon.size));
            assert_eq!(committed.data().len(), drawn.data().len(), "{}", icon.name);
            let differs = committed.data().iter().zip(drawn.data()).any(|(a, b)| a.abs_diff(*b) > TOLERANCE);
            assert!(!differs, "{} is older than the drawing; draw the icons again", icon.name);
        }
    }

    #[test]
    fn a_maskable_icon_keeps_its_mark_inside_the_safe_circle() {
        let drawing = fs::read_to_string(public().join("icon.svg")).expect("the drawing");
        let maskable = ICONS.iter().find(|icon| icon.name.contains("maskable")).expect("listed");
        let pixmap = draw(&drawing, maskable).expect("drawn");
        let ground = pixmap.pixel(0, 0).expect("a corner");
        assert_eq!(ground.alpha(), 255);
        // The manifest standard: a circle of two fifths of the width stays visible under every mask.
        let (centre, radius) = (256, 204);
        for (x, y) in (0_i32..512).flat_map(|x| (0_i32..512).map(move |y| (x, y))) {
            let (dx, dy) = (x - centre, y - centre);
            let outside = dx * dx + dy * dy > radius * radius;
            let pixel = pixmap.pixel(x.cast_unsigned(), y.cast_unsigned()).expect("inside the picture");
            assert!(!outside || pixel == ground, "the mark reaches ({x}, {y})");
        }
    }
}
