//! A picture that has to speak for itself in a thread: key numbers and a legend under it.

use crate::palette::Ink;
use crate::scene::{Label, Scene, Shape};
use crate::text::{box_of, wrapped};

/// What stands under a picture.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Caption {
    /// What the picture is of.
    pub title: String,
    /// What is drawn dashed, and what is drawn through; the second may be missing.
    pub columns: Vec<String>,
    /// A number's name, and its value in each column.
    pub rows: Vec<(String, Vec<String>)>,
}

/// Air at the edges, px.
const EDGE_PX: f64 = 12.0;
/// Length of a legend's line, px.
const SAMPLE_PX: f64 = 26.0;

/// The picture with a caption under it: higher by what the caption takes, no wider.
#[must_use]
pub fn captioned(mut scene: Scene, caption: &Caption, type_px: f64) -> Scene {
    let wide = scene.width_px - 2.0 * EDGE_PX;
    let columns = caption.columns.len().max(1);
    // Names take what two numbers take.
    let each = wide / (2.0 + f64::from(u32::try_from(columns).unwrap_or(u32::MAX)));
    let left_of = |column: usize| (0..column).fold(EDGE_PX + 2.0 * each, |left, _| left + each);
    let mut top = scene.height_px + EDGE_PX / 2.0;
    let put = |scene: &mut Scene, text: &str, ink: Ink, (left, top): (f64, f64), most: f64| {
        let lines = wrapped(text, type_px, most);
        // A word that is longer than its column is set smaller.
        let size = type_px * (most / box_of(&lines, ink, type_px).0).min(1.0);
        let (width, height) = box_of(&lines, ink, size);
        let label = Label { left, top, width, height, size, ink, lines, spoken: text.to_owned() };
        scene.labels.push(label);
        height
    };
    top += put(&mut scene, &caption.title, Ink::TextInk, (EDGE_PX, top), wide) + EDGE_PX / 2.0;
    let mut high = 0.0_f64;
    for (at, name) in caption.columns.iter().enumerate() {
        let (line, ink) = if at == 0 { (Ink::Before, Ink::TextBefore) } else { (Ink::Edge, Ink::TextInk) };
        let left = left_of(at);
        scene.shapes.push(Shape::line(line, &[(left + 4.0, top + 4.0), (left + 4.0 + SAMPLE_PX, top + 4.0)]));
        high = high.max(put(&mut scene, name, ink, (left, top + 8.0), each));
    }
    top += 8.0 + high;
    for (name, values) in &caption.rows {
        let mut high = put(&mut scene, name, Ink::TextInk, (EDGE_PX, top), 2.0 * each);
        for (at, value) in values.iter().enumerate().take(columns) {
            high = high.max(put(&mut scene, value, Ink::TextInk, (left_of(at), top), each));
        }
        top += high;
    }
    scene.height_px = top + EDGE_PX;
    scene
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::transform::{View, Zoom};
    use measure::Units;

    fn view(width_px: f64) -> View {
        View {
            width_px,
            height_px: 300.0,
            type_px: 13.0,
            units: Units::Inches,
            prefix: String::new(),
            zoom: Zoom::default(),
            covered_px: (0.0, 0.0),
        }
    }

    fn caption() -> Caption {
        Caption {
            title: "A pickup with a title that is long enough to need two lines at the width of a thread, or three"
                .to_owned(),
            columns: vec!["As it sits".to_owned(), "Spindle, adjuster and the smaller tire".to_owned()],
            rows: vec![
                ("Frame height".to_owned(), vec!["11 13/16 in".to_owned(), "9 13/16 in".to_owned()]),
                (
                    "Bump steer: toe in an inch of bump".to_owned(),
                    vec!["−0.32°".to_owned(), "tire to fender first, then the stop".to_owned()],
                ),
            ],
        }
    }

    /// Boxes that overlap or leave the picture are what a reader cannot read.
    #[test]
    fn nothing_lies_on_anything_else_or_outside() {
        for width_px in [320.0, 600.0, 1000.0] {
            let scene = captioned(Scene::empty(&view(width_px)), &caption(), 13.0);
            assert_eq!(scene.labels.len(), 3 + 2 * 3);
            for (at, one) in scene.labels.iter().enumerate() {
                assert!(one.left >= 0.0 && one.left + one.width <= width_px, "{one:?} at {width_px}");
                assert!(one.top >= 300.0 && one.top + one.height <= scene.height_px, "{one:?}");
                for other in &scene.labels[..at] {
                    let across = one.left < other.left + other.width && other.left < one.left + one.width;
                    let along = one.top < other.top + other.height && other.top < one.top + one.height;
                    assert!(!(across && along), "{one:?} lies on {other:?} at {width_px}");
                }
            }
        }
    }

    #[test]
    fn every_word_is_there() {
        let scene = captioned(Scene::empty(&view(600.0)), &caption(), 13.0);
        let spoken: Vec<_> = scene.labels.iter().map(|label| label.spoken.as_str()).collect();
        for (name, values) in &caption().rows {
            assert!(spoken.contains(&name.as_str()));
            assert!(values.iter().all(|value| spoken.contains(&value.as_str())));
        }
    }
}
