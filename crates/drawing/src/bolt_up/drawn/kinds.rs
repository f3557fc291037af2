//! What is drawn of each kind: the first part, the second, what holds the two, and an arrow for
//! each of its numbers in their order.

use super::Arrow;
use super::Piece::{self, Bent, Block, Cross, Cut, Disc, Number, Outline, Teeth, Thread};
use super::{across, along, at, down, span};
use crate::palette::Ink::{Before, Centre, Joint, Press, Rod, Rubber, Section, Solid, Steel};
use truck::Mating;

/// The pieces of the first part, of the second and of what holds them, and the arrows. What only some rows of a kind ask
/// for the sketch is drawn for those.
pub(super) fn drawn(kind: Mating, is_sketched: bool) -> ([&'static [Piece]; 3], &'static [Arrow]) {
    match kind {
        Mating::PressFit if is_sketched => ([PRESSED, EYE, BUSHING], PRESS_FIT),
        Mating::Width if is_sketched => ([FORK, BETWEEN, MARK], WIDTH),
        Mating::Thread if is_sketched => ([SCREW, NUT, CLAMPED], THREAD),
        Mating::BoltInHole => ([BOLT, HOLE, &[]], BOLT_IN_HOLE),
        Mating::HolePattern => ([PLATE, PLATE, SMALL_BOLT], HOLE_PATTERN),
        Mating::NewHole => ([EDGE, PLATE, SMALL_BOLT], NEW_HOLE),
        Mating::CrushSleeve => ([FORK, TUBE, SMALL_BOLT], CRUSH_SLEEVE),
        Mating::PressFit => ([PRESSED, EYE, &[]], PRESS_FIT),
        Mating::RunningFit => ([HUB, SPINDLE, &[]], RUNNING_FIT),
        Mating::TaperSeat => ([STUD, SEAT, &[]], TAPER_SEAT),
        Mating::Spline => ([SOCKET, BAR, OLD_BAR], SPLINE),
        Mating::Thread => ([SCREW, NUT, &[]], THREAD),
        Mating::Circle => ([WHEEL, STUDS, LUG_NUT], CIRCLE),
        Mating::RotorInCaliper => ([ROTOR, CALIPER, &[]], ROTOR_IN_CALIPER),
        Mating::Width => ([FORK, BETWEEN, &[]], WIDTH),
        Mating::Hose => ([HOSE, ROUTE, &[]], HOSE_ON_ITS_WAY),
    }
}

const BOLT: &[Piece] =
    &[Block(Steel, (44, 12, 92, 32)), Block(Steel, (54, 32, 82, 104)), Thread((54, 74, 82, 98))];
const HOLE: &[Piece] = &[Block(Press, (16, 12, 120, 108)), Disc(Joint, 68, 60, 28), Cross(68, 60, 36)];
const BOLT_IN_HOLE: &[Arrow] = &[
    across((54, 52), (82, 52), 52),
    across((40, 60), (96, 60), 122),
    down((68, 32), (68, 88), 130),
    at((140, 60), (180, 60)),
];

const PLATE: &[Piece] = &[
    Block(Press, (18, 22, 118, 106)),
    Disc(Joint, 46, 46, 13),
    Disc(Joint, 90, 46, 13),
    Disc(Joint, 90, 82, 13),
    Disc(Joint, 46, 82, 13),
    Number(27, 46, "1"),
    Number(109, 46, "2"),
    Number(109, 82, "3"),
    Number(27, 82, "4"),
];
/// What holds the two, between them.
const SMALL_BOLT: &[Piece] = &[Block(Steel, (149, 36, 171, 48)), Block(Steel, (154, 48, 166, 96))];
macro_rules! of_plates {
    ($($on_a_plate:expr),*; $($rest:expr),*) => { &[$($on_a_plate,)* $($on_a_plate,)* $($rest,)*] };
}
const HOLE_PATTERN: &[Arrow] = of_plates![
    across((33, 46), (103, 46), 10),
    span((36, 38), (100, 90)),
    down((90, 33), (90, 95), 130),
    down((46, 33), (46, 95), 6),
    span((100, 38), (36, 90)),
    across((33, 82), (103, 82), 118),
    across((33, 46), (59, 46), 10),
    across((77, 46), (103, 46), 10),
    across((77, 82), (103, 82), 118),
    across((33, 82), (59, 82), 118);
    at((160, 128), (160, 99)),
    across((154, 72), (166, 72), 72),
    at((160, 6), (160, 33)),
    at((136, 114), (184, 114)),
    down((90, 46), (90, 56), 126),
    at((30, 128), (60, 110)),
    span((46, 82), (8, 82)),
    span((46, 90), (8, 90))
];

const EDGE: &[Piece] =
    &[Block(Press, (10, 18, 120, 104)), Disc(Joint, 36, 58, 13), Disc(Joint, 88, 58, 15), Cross(88, 58, 20)];
const NEW_HOLE: &[Arrow] = &[
    across((154, 72), (166, 72), 72),
    across((73, 58), (103, 58), 118),
    across((88, 58), (120, 58), 10),
    across((36, 58), (88, 58), 118),
    across((23, 58), (49, 58), 118),
    at((118, 122), (101, 72)),
    at((30, 128), (60, 98)),
];

/// What lies on both sides of something: its two walls cut.
const FORK: &[Piece] = &[
    Block(Section, (20, 14, 116, 30)),
    Cut(1),
    Block(Section, (20, 30, 36, 104)),
    Cut(1),
    Block(Section, (100, 30, 116, 104)),
    Cut(1),
];
const TUBE: &[Piece] = &[
    Block(Steel, (24, 32, 112, 92)),
    Block(Section, (24, 32, 112, 45)),
    Cut(1),
    Block(Section, (24, 79, 112, 92)),
    Cut(1),
];
const CRUSH_SLEEVE: &[Arrow] = &[
    across((36, 74), (100, 74), 74),
    across((24, 92), (112, 92), 118),
    down((112, 32), (112, 92), 128),
    down((24, 45), (24, 79), 10),
    at((68, 8), (68, 37)),
    across((154, 72), (166, 72), 72),
    at((160, 6), (160, 33)),
];

/// A bushing from its end, its hole beside its middle.
const BUSHING: &[Piece] = &[Disc(Press, 159, 88, 20), Disc(Joint, 166, 88, 8)];
const PRESSED: &[Piece] = &[Block(Steel, (26, 18, 110, 34)), Block(Steel, (34, 34, 102, 96))];
const EYE: &[Piece] = &[Disc(Section, 68, 60, 48), Disc(Joint, 68, 60, 33), Cut(2), Cross(68, 60, 40)];
const PRESS_FIT: &[Arrow] = &[
    across((34, 96), (102, 96), 118),
    across((35, 60), (101, 60), 124),
    across((101, 60), (116, 60), 60),
    down((102, 34), (102, 96), 126),
    at((130, 6), (104, 26)),
    at((68, 60), (46, 38)),
    at((6, 122), (38, 90)),
    across((159, 88), (166, 88), 116),
    at((166, 136), (166, 94)),
];

const HUB: &[Piece] = &[
    Block(Section, (28, 24, 118, 50)),
    Cut(1),
    Block(Section, (28, 78, 118, 104)),
    Cut(1),
    // Races, inner and outer.
    Block(Rod, (34, 42, 50, 56)),
    Block(Rod, (34, 72, 50, 86)),
    Block(Rod, (92, 42, 106, 56)),
    Block(Rod, (92, 72, 106, 86)),
    // Seal.
    Block(Rubber, (24, 44, 31, 84)),
];
const SPINDLE: &[Piece] = &[
    Block(Steel, (8, 24, 20, 104)),
    Block(Steel, (20, 42, 46, 86)),
    Block(Steel, (46, 47, 88, 81)),
    Block(Steel, (88, 52, 104, 76)),
    Block(Steel, (104, 55, 128, 73)),
    Disc(Solid, 120, 64, 3),
];
const RUNNING_FIT: &[Arrow] = &[
    at((42, 128), (42, 90)),
    at((99, 128), (99, 90)),
    across((50, 56), (92, 56), 64),
    across((46, 86), (88, 81), 122),
    at((74, 64), (53, 54)),
    at((2, 64), (22, 64)),
    at((112, 16), (112, 52)),
    at((120, 116), (120, 70)),
    across((34, 86), (118, 104), 116),
    across((34, 86), (118, 104), 124),
    at((122, 20), (116, 54)),
    down((28, 42), (28, 86), 28),
    down((204, 42), (204, 86), 164),
];

const STUD: &[Piece] = &[
    Disc(Steel, 68, 26, 13),
    Outline(Steel, &[(46, 34), (90, 34), (80, 86), (56, 86)]),
    Block(Steel, (60, 86, 76, 118)),
    Block(Rod, (51, 88, 85, 103)),
    // The pin through the nut's slots.
    Block(Solid, (54, 108, 82, 111)),
];
const SEAT: &[Piece] = &[
    Outline(Section, &[(16, 26), (46, 26), (56, 90), (16, 90)]),
    Cut(1),
    Outline(Section, &[(90, 26), (120, 26), (120, 90), (80, 90)]),
    Cut(1),
];
const TAPER_SEAT: &[Arrow] = &[
    across((46, 34), (90, 34), 6),
    down((90, 34), (83, 72), 112),
    across((53, 72), (83, 72), 72),
    across((46, 26), (90, 26), 10),
    down((90, 26), (85, 58), 128),
    across((51, 58), (85, 58), 58),
    at((134, 56), (89, 56)),
    along((34, 112), (68, 144), (102, 112)),
    at((120, 96), (88, 96)),
    at((20, 110), (51, 110)),
    at((90, 126), (70, 118)),
    down((16, 26), (16, 90), 6),
];

const SOCKET: &[Piece] =
    &[Block(Section, (16, 12, 120, 108)), Teeth(Joint, 68, 60, 38), Cut(3), Cross(68, 60, 8)];
const BAR: &[Piece] = &[Teeth(Steel, 68, 60, 38), Cross(68, 60, 8)];
/// The bar pushed home, from the side, and over the old one.
const OLD_BAR: &[Piece] =
    &[Block(Section, (136, 22, 160, 62)), Cut(1), Block(Steel, (142, 34, 188, 50)), Teeth(Rod, 160, 94, 18)];
const SPLINE: &[Arrow] = &[
    at((122, 10), (96, 32)),
    at((68, 60), (91, 37)),
    across((30, 60), (106, 60), 124),
    across((30, 60), (106, 60), 124),
    across((142, 94), (178, 94), 126),
    at((74, 2), (73, 21)),
    at((68, 60), (72, 28)),
    across((142, 34), (160, 34), 14),
    along((184, 24), (206, 42), (184, 60)),
    at((196, 70), (164, 70)),
];

const SCREW: &[Piece] =
    &[Block(Steel, (44, 12, 92, 30)), Block(Steel, (54, 30, 82, 106)), Thread((54, 50, 82, 98))];
const NUT: &[Piece] =
    &[Block(Steel, (54, 12, 82, 112)), Thread((54, 20, 82, 108)), Block(Rod, (38, 52, 98, 80))];
const THREAD: &[Arrow] = &[
    down((82, 66), (82, 74), 100),
    at((128, 66), (101, 66)),
    across((54, 106), (82, 106), 122),
    across((54, 112), (82, 112), 126),
    down((222, 52), (222, 80), 206),
    at((208, 96), (235, 96)),
    at((124, 24), (96, 50)),
    at((140, 40), (180, 40)),
    down((140, 62), (140, 102), 130),
    down((82, 30), (82, 50), 104),
];
/// Two plates, for a bolt that goes through both.
const CLAMPED: &[Piece] = &[Block(Press, (140, 62, 178, 78)), Block(Press, (140, 78, 178, 102))];

/// A disc with a bore or spigot in its middle and five places around it, the first on top.
macro_rules! around {
    ($ink:ident $over:literal $in_ink:ident $across:literal $place:ident $radius:literal) => {
        &[
            Disc($ink, 68, 60, $over),
            Disc($in_ink, 68, 60, $across),
            Disc($place, 68, 27, $radius),
            Disc($place, 99, 50, $radius),
            Disc($place, 87, 87, $radius),
            Disc($place, 49, 87, $radius),
            Disc($place, 37, 50, $radius),
        ]
    };
}
const WHEEL: &[Piece] = around!(Press 52 Joint 17 Joint 7);
const STUDS: &[Piece] = around!(Press 48 Steel 16 Solid 5);
/// A nut with its seat, and from the side what it clamps.
const LUG_NUT: &[Piece] = &[
    Block(Steel, (148, 40, 172, 62)),
    Outline(Steel, &[(148, 62), (172, 62), (166, 76), (154, 76)]),
    Block(Press, (138, 88, 156, 102)),
];
const CIRCLE: &[Arrow] = &[
    across((51, 60), (85, 60), 124),
    across((52, 60), (84, 60), 124),
    at((124, 120), (92, 93)),
    at((124, 120), (91, 92)),
    span((68, 27), (99, 50)),
    span((68, 27), (99, 50)),
    across((42, 87), (56, 87), 124),
    across((44, 87), (54, 87), 124),
    at((160, 110), (160, 79)),
    at((160, 8), (160, 37)),
    at((138, 60), (88, 60)),
    down((138, 88), (138, 102), 130),
    down((156, 88), (156, 102), 176),
];

const ROTOR: &[Piece] = &[
    // The knuckle's ears.
    Block(Section, (6, 30, 16, 90)),
    Cut(1),
    Block(Steel, (58, 14, 76, 106)),
    Block(Steel, (34, 40, 58, 80)),
    Outline(Centre, &[(67, 8), (67, 112)]),
];
const CALIPER: &[Piece] = &[
    Block(Section, (2, 58, 12, 98)),
    Cut(1),
    Block(Section, (24, 12, 116, 28)),
    Cut(1),
    Block(Section, (24, 28, 40, 92)),
    Cut(1),
    Block(Section, (100, 28, 116, 92)),
    Cut(1),
    // Pads, and the rotor that comes between them.
    Block(Rubber, (40, 42, 54, 86)),
    Block(Rubber, (86, 42, 100, 86)),
    Outline(Before, &[(62, 86), (62, 40), (78, 40), (78, 86)]),
];
const ROTOR_IN_CALIPER: &[Arrow] = &[
    across((16, 90), (67, 106), 122),
    across((58, 26), (76, 26), 26),
    across((12, 98), (60, 94), 112),
    across((12, 98), (80, 94), 128),
    across((54, 64), (86, 64), 64),
    down((254, 28), (254, 40), 254),
];

const BETWEEN: &[Piece] = &[Block(Steel, (36, 22, 100, 98)), Outline(Centre, &[(28, 60), (108, 60)])];
const WIDTH: &[Arrow] = &[
    across((36, 74), (100, 74), 74),
    across((36, 98), (100, 98), 118),
    along((136, 64), (160, 30), (184, 64)),
    across((6, 112), (68, 104), 124),
    across((6, 112), (68, 104), 130),
    across((112, 30), (140, 30), 14),
];
/// On the frame, beside the first part.
const MARK: &[Piece] = &[Block(Solid, (5, 92, 7, 118))];

const HOSE: &[Piece] =
    &[Block(Rubber, (22, 54, 114, 66)), Block(Steel, (6, 50, 22, 70)), Block(Steel, (114, 50, 130, 70))];
/// From the bracket on the frame to the caliper, hanging, and at the worse lock.
const ROUTE: &[Piece] = &[
    Block(Section, (8, 10, 36, 34)),
    Cut(1),
    Disc(Steel, 60, 112, 12),
    Disc(Before, 116, 92, 12),
    Bent(Rod, [(22, 34), (20, 86), (51, 104)]),
    Bent(Before, [(22, 34), (56, 104), (105, 86)]),
];
const HOSE_ON_ITS_WAY: &[Arrow] = &[
    across((6, 70), (130, 70), 98),
    along((22, 34), (20, 86), (51, 104)),
    along((22, 34), (56, 104), (105, 86)),
    at((122, 12), (122, 47)),
];
