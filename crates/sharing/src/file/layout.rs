//! Under which names the file keeps what: read by the writer, the reader and
//! the schema alike.

use truck::{Arm, Field, Group, Kind, Side, Source, SpringKind};

/// Where a number of the truck stands below `truck`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Spot {
    /// `points.<point>.<axis>`
    Point(&'static str, &'static str),
    /// `<section>.<key>`
    Section(&'static str, &'static str),
}

/// The object of the points.
pub(super) const POINTS: &str = "points";
/// The object of the spring, which is more than numbers.
pub(super) const SPRING: &str = "spring";
/// The object of the right side's numbers that differ, by their keys.
pub(super) const RIGHT: &str = "right";
/// The object of what was read off the truck, by side.
pub(super) const READINGS: &str = "readings";
/// The object of what was read off the truck as it was built, by side.
pub(super) const BUILT: &str = "built";
/// The same, once it had settled.
pub(super) const SETTLED: &str = "settled";
/// The object of the rear axle's numbers.
pub(super) const REAR: &str = "rear";
/// How far a proposal's rear comes down.
pub(super) const REAR_DOWN: &str = "rear_down";
/// The side that a change is on alone.
pub(super) const SIDE: &str = "side";
/// The words of a side.
pub(super) const SIDES: [(Side, &str); 2] = [(Side::Left, "left"), (Side::Right, "right")];
/// Where numbers of a change came from, by their keys.
pub(super) const SOURCES_OF_CHANGE: &str = "sources";
/// That guesses follow what is known by rule 1, and what of them stays.
pub(super) const GUESSES: &str = "guesses_by_rule_1";
/// The sections of numbers, in the order of the file.
pub(super) const SECTIONS: [&str; 16] = [
    "alignment",
    "stops",
    "load",
    SPRING,
    "bar",
    "coil",
    "tire",
    "frame",
    "fender",
    "steering",
    "joints",
    "shims",
    "shock",
    "brake",
    "thickness",
    "low_points",
];

pub(super) const SOURCES: [(Source, &str); 3] =
    [(Source::Measured, "measured"), (Source::Typed, "typed"), (Source::Assumed, "assumed")];
pub(super) const SPRING_KINDS: [(SpringKind, &str); 3] = [
    (SpringKind::TorsionBar, "torsion_bar"),
    (SpringKind::Coil, "coil"),
    (SpringKind::WheelRate, "wheel_rate"),
];
pub(super) const ARMS: [(Arm, &str); 2] = [(Arm::Lower, "lower"), (Arm::Upper, "upper")];

/// Where a field stands.
pub(super) fn spot(field: Field) -> Spot {
    let key = field.key();
    match field.group() {
        Group::LowerArm
        | Group::UpperArm
        | Group::Knuckle
        | Group::TieRod
        | Group::StrutRod
        | Group::Shock
            if field.datum().is_some() =>
        {
            // The key of a coordinate ends with a line and its letter.
            Spot::Point(&key[..key.len() - 2], &key[key.len() - 1..])
        }
        Group::LowerArm | Group::UpperArm | Group::Knuckle => Spot::Section("alignment", key),
        Group::Steering | Group::TieRod | Group::StrutRod => Spot::Section("steering", key),
        Group::Joints => Spot::Section("joints", key),
        Group::Shims => Spot::Section("shims", key),
        Group::Shock => Spot::Section("shock", key),
        Group::Brake => Spot::Section("brake", key),
        Group::Thickness => Spot::Section("thickness", key),
        Group::LowPoints => Spot::Section("low_points", key),
        Group::Stops => Spot::Section("stops", key),
        Group::Load => Spot::Section("load", key),
        Group::Bar => Spot::Section("bar", key),
        Group::Coil => Spot::Section("coil", key),
        Group::WheelRate => Spot::Section(SPRING, key),
        Group::Tire => Spot::Section("tire", key),
        Group::Frame => Spot::Section("frame", key),
        Group::Fender => Spot::Section("fender", key),
    }
}

/// The fields of a section.
pub(super) fn section(name: &str) -> impl Iterator<Item = Field> {
    Field::ALL.iter().copied().filter(move |field| matches!(spot(*field), Spot::Section(of, _) if of == name))
}

/// The points, each once.
pub(super) fn points() -> Vec<&'static str> {
    let mut points: Vec<&'static str> = Vec::new();
    for field in Field::ALL.iter().copied() {
        match spot(field) {
            Spot::Point(point, _) if !points.contains(&point) => points.push(point),
            _ => {}
        }
    }
    points
}

/// The coordinates of a point.
pub(super) fn coordinates(name: &str) -> impl Iterator<Item = (Field, &'static str)> {
    Field::ALL.iter().copied().filter_map(move |field| match spot(field) {
        Spot::Point(point, axis) if point == name => Some((field, axis)),
        _ => None,
    })
}

/// The word of one of a list.
pub(super) fn word<T: PartialEq>(list: &[(T, &'static str)], value: &T) -> &'static str {
    list.iter().find(|(other, _)| other == value).map_or("", |(_, word)| word)
}

/// The core's unit from the file's.
pub(super) fn to_core(kind: Kind, value: f64) -> f64 {
    if kind == Kind::Angle { value.to_radians() } else { value }
}

/// The file's unit from the core's; degrees to the two decimals they are kept in.
pub(super) fn to_file(kind: Kind, value: f64) -> f64 {
    if kind == Kind::Angle { (value.to_degrees() * 100.0).round() / 100.0 } else { value }
}

/// What the file's number is measured in.
pub(super) const fn unit(kind: Kind) -> &'static str {
    match kind {
        Kind::Length => "mm",
        Kind::Angle => "degrees",
        Kind::Force => "N",
        Kind::Rate => "N/mm",
        Kind::Modulus | Kind::Stress => "N/mm²",
        Kind::Torque => "N·m",
        Kind::Count | Kind::Whole | Kind::RimCode => "a plain number",
        Kind::Choice(_) => "the place of one in its list, from 0",
    }
}
