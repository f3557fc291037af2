//! How to measure each group of points, with tape, level, string and angle gauge.
//! The words themselves stand in `words.html`.

use truck::Group;

/// What a group is called, and the id of the words on how it is measured.
pub(crate) const fn of(group: Group) -> (&'static str, &'static str) {
    match group {
        Group::LowerArm => ("Lower arm pivots", "words-lower-arm"),
        Group::UpperArm => ("Upper arm pivots", "words-upper-arm"),
        Group::Knuckle => ("Balls, wheel, camber and toe", "words-knuckle"),
        Group::TieRod => ("Tie rod", "words-tie-rod"),
        Group::Stops => ("Stops", "words-stops"),
        Group::Load => ("Load", "words-load"),
        Group::Bar => ("Torsion bar", "words-bar"),
        Group::Coil => ("Coil", "words-coil"),
        Group::WheelRate => ("Rate at the wheel", "words-wheel-rate"),
        Group::Tire => ("Tire and wheel", "words-tire"),
        Group::Frame => ("Frame rail and wheelbase", "words-frame"),
        Group::Fender => ("Fender lip", "words-fender"),
        Group::Steering => ("Steering", "words-steering"),
        Group::StrutRod => ("Strut rod", "words-strut-rod"),
        Group::Joints => ("Swing of the ball joints", "words-joints"),
        Group::Shims => ("Upper arm's shims", "words-shims"),
        Group::Shock => ("Shock", "words-shock"),
        Group::Brake => ("Brake and rim barrel", "words-brake"),
        Group::Thickness => ("Thickness of arms and rods", "words-thickness"),
        Group::LowPoints => ("What hangs lowest", "words-low-points"),
    }
}
