//! How to measure each group of points, with tape, level, string and angle gauge.
//! The words themselves stand in `words.html`.

use drawing::Handle;
use truck::Group;

/// What a group is called, the id of the words on how it is measured, and where it is in the picture.
pub(crate) const fn of(group: Group) -> (&'static str, &'static str, Option<Handle>) {
    match group {
        Group::LowerArm => ("Lower arm pivots", "words-lower-arm", Some(Handle::LowerAxis)),
        Group::UpperArm => ("Upper arm pivots", "words-upper-arm", Some(Handle::UpperAxis)),
        Group::Knuckle => ("Balls, wheel, camber and toe", "words-knuckle", Some(Handle::LowerBall)),
        Group::TieRod => ("Tie rod", "words-tie-rod", Some(Handle::TieInner)),
        Group::Stops => ("Stops", "words-stops", None),
        Group::Load => ("Load", "words-load", None),
        Group::Bar => ("Torsion bar", "words-bar", None),
        Group::Coil => ("Coil", "words-coil", None),
        Group::WheelRate => ("Rate at the wheel", "words-wheel-rate", None),
        Group::Tire => ("Tire and wheel", "words-tire", Some(Handle::WheelCentre)),
        Group::Frame => ("Frame rail and wheelbase", "words-frame", Some(Handle::Rail)),
        Group::Fender => ("Fender lip", "words-fender", Some(Handle::Fender)),
        Group::Steering => ("Steering", "words-steering", Some(Handle::TieInner)),
        Group::StrutRod => ("Strut rod", "words-strut-rod", Some(Handle::LowerAxis)),
        Group::Joints => ("Swing of the ball joints", "words-joints", Some(Handle::UpperBall)),
        Group::Shims => ("Upper arm's shims", "words-shims", Some(Handle::UpperAxis)),
        Group::Shock => ("Shock", "words-shock", None),
        Group::Brake => ("Brake and rim barrel", "words-brake", Some(Handle::WheelCentre)),
        Group::Thickness => ("Thickness of arms and rods", "words-thickness", None),
        Group::LowPoints => ("What hangs lowest", "words-low-points", None),
    }
}
