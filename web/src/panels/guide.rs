//! How to measure each group of points, with tape, level, string and angle gauge.

use drawing::Handle;
use truck::Group;

/// Before anything else is measured.
pub(crate) const FIRST: &[&str] = &[
    "Roll the truck ten feet and bounce it. Set the tire pressures. Note the fuel, and whether the driver is in.",
    "Garage floors run a degree. Zero the angle gauge on a straight-edge laid between the tire contacts.",
    "Heights are from that line. Widths are from the centreline: drop a plumb line from both rails, snap a string midway between.",
    "Forward and back are from the line through both wheel centres, + forward.",
    "Stands under the frame for anything you do underneath, never a jack.",
];

/// What a group is called, how it is measured, and where it is in the picture.
pub(crate) const fn of(group: Group) -> (&'static str, &'static str, Option<Handle>) {
    match group {
        Group::LowerArm => (
            "Lower arm pivots",
            "Measure to the middle of each bushing bolt. With a strut rod the front pivot is the middle of the rod's frame bushing, the rear one the arm's own bushing; front to back the other way round if the rod runs back.",
            Some(Handle::LowerAxis),
        ),
        Group::UpperArm => (
            "Upper arm pivots",
            "Measure to the ends of the cross shaft where the arm turns on it, not to the bolts that hold the shaft to its bracket.",
            Some(Handle::UpperAxis),
        ),
        Group::Knuckle => (
            "Balls, wheel, camber and toe",
            "A ball's centre hides in its boot: measure to the middle of the housing and count on a quarter inch. Wheel centre: height of the hub's middle, and half of the width over both tires' middles. Camber on the wheel's rim with the gauge zeroed as above.",
            Some(Handle::LowerBall),
        ),
        Group::TieRod => (
            "Tie rod",
            "Measure to the middles of the two ball ends, wheels straight ahead. The inner end's height decides the bump steer: take it twice.",
            Some(Handle::TieInner),
        ),
        Group::Stops => (
            "Stops",
            "Daylight between the rubber and what it meets, at rest. How far it squeezes before it is hard: half of its free height if you do not know. From the lower pivot to the rubber, along the arm. Droop: raise the frame until the wheel hangs and measure hub to fender before and after.",
            None,
        ),
        Group::Load => (
            "Load",
            "A scale under the tire at ride height, all four level. Without one, leave it assumed: what levers do still holds to about a tenth.",
            None,
        ),
        Group::Bar => (
            "Torsion bar",
            "Caliper on a clean part of the bar. The length that twists is between the splines. Lever from the bar's middle to where the bolt pushes; angle between the two with the gauge. Count threads over an inch. Mark the bar's position before it ever comes out.",
            None,
        ),
        Group::Coil => (
            "Coil",
            "Caliper on the wire; outside diameter less one wire is the mean. Count the coils that do not touch a seat. Pitch: from one coil to the next, at rest. Seats: where the end coils bear.",
            None,
        ),
        Group::WheelRate => (
            "Rate at the wheel",
            "Set a known weight over the axle, and divide what one side got of it by how far that side sank.",
            None,
        ),
        Group::Tire => (
            "Tire and wheel",
            "Size from the sidewall. Overall diameter with a tape around the tread, divided by 3.1416, where you want it exact. Offset: centre plane to mounting face, + when the face is outboard.",
            Some(Handle::WheelCentre),
        ),
        Group::Frame => (
            "Frame rail and wheelbase",
            "The rail beside the tire: its face towards the wheel, its bottom, how far it runs ahead of and behind the axle.",
            Some(Handle::Rail),
        ),
        Group::Fender => (
            "Fender lip",
            "The lip's inner edge right above the wheel centre: height from the floor line, width from the centreline. Then how far it runs level to each side.",
            Some(Handle::Fender),
        ),
    }
}

/// The groups, in the order in which they are best measured.
pub(crate) const GROUPS: [Group; 12] = [
    Group::Knuckle,
    Group::LowerArm,
    Group::UpperArm,
    Group::TieRod,
    Group::Frame,
    Group::Fender,
    Group::Tire,
    Group::Stops,
    Group::Load,
    Group::Bar,
    Group::Coil,
    Group::WheelRate,
];
