//! `scrubline picture`: an SVG file of what the sketch shows.

use crate::{complaint, printed, scrubline};

fn picture(arguments: &[&str]) -> String {
    let text = printed(&scrubline(&[&["picture"], arguments].concat()));
    assert!(text.starts_with("<svg ") && text.trim_end().ends_with("</svg>"), "{text}");
    // Every element that is opened is closed, as XML asks.
    let opened = text.matches('<').count() - text.matches("</").count();
    assert_eq!(opened, text.matches("</").count() + text.matches("/>").count());
    text
}

#[test]
fn a_sketch_says_its_numbers() {
    let front = picture(&["--units", "in"]);
    assert!(
        front.contains("camber 0.00°") && front.contains("width=\"600\"")
            || front.contains("viewBox=\"0 0 600")
    );
    assert!(picture(&["--shows", "side"]).contains("caster"));
    assert!(picture(&["--shows", "top", "--theme", "dark"]).contains("toe"));
    let bump = picture(&["--travel", "30 mm"]);
    assert_ne!(bump, picture(&[]));
}

#[test]
fn a_curve_has_every_proposal() {
    let link = crate::reference("../links/v1/three_proposals_steered.link");
    let link = std::fs::read_to_string(link).unwrap();
    let curve = picture(&[link.trim(), "--shows", "curve", "--quantity", "roll_centre"]);
    for name in ["as it sits", "Spindle", "Bolt and shims", "Joint over", "Roll center"] {
        assert!(curve.contains(name), "{name}");
    }
}

#[test]
fn what_cannot_be_drawn_is_said() {
    assert!(complaint(&scrubline(&["picture", "--travel", "400 mm"]), 1).contains("Juniper pickup"));
    assert_eq!(scrubline(&["picture", "--width", "20"]).status.code(), Some(2));
}
