//! What is drawn of each kind: the first part, the second, what holds the two, and an arrow for
//! each of its numbers in their order.

use super::Arrow::{self, Across, Along, At, Down, Span};
use super::Piece::{self, Bent, Block, Cross, Cut, Disc, Number, Outline, Teeth, Thread};
use crate::palette::Ink::{Before, Centre, Joint, Press, Rod, Rubber, Section, Steel};
use truck::Mating;

/// The pieces of the first part, of the second and of what holds them, and the arrows.
pub(super) fn drawn(kind: Mating) -> ([&'static [Piece]; 3], &'static [Arrow]) {
    match kind {
        Mating::BoltInHole => ([BOLT, HOLE, &[]], BOLT_IN_HOLE),
        Mating::HolePattern => ([PLATE, PLATE, SMALL_BOLT], HOLE_PATTERN),
        Mating::Spline => ([SOCKET, BAR, OLD_BAR], SPLINE),
        Mating::Width => ([FORK, BETWEEN, &[]], WIDTH),
        Mating::Hose => ([HOSE, ROUTE, &[]], HOSE_ON_ITS_WAY),
        _ => ([&[]; 3], &[]),
    }
}

const BOLT: &[Piece] =
    &[Block(Steel, (44, 12, 92, 32)), Block(Steel, (54, 32, 82, 104)), Thread((54, 74, 82, 98))];
const HOLE: &[Piece] = &[Block(Press, (16, 12, 120, 108)), Disc(Joint, 68, 60, 28), Cross(68, 60, 36)];
const BOLT_IN_HOLE: &[Arrow] = &[
    Across((54, 52), (82, 52), 52),
    Across((40, 60), (96, 60), 122),
    Down((68, 32), (68, 88), 130),
    At((140, 60), (180, 60)),
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
    Across((33, 46), (103, 46), 10),
    Span((36, 38), (100, 90)),
    Down((90, 33), (90, 95), 130),
    Down((46, 33), (46, 95), 6),
    Span((100, 38), (36, 90)),
    Across((33, 82), (103, 82), 118),
    Across((33, 46), (59, 46), 10),
    Across((77, 46), (103, 46), 10),
    Across((77, 82), (103, 82), 118),
    Across((33, 82), (59, 82), 118);
    At((160, 128), (160, 99)),
    Across((154, 72), (166, 72), 72),
    At((160, 6), (160, 33)),
    At((136, 114), (184, 114))
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
const SOCKET: &[Piece] =
    &[Block(Section, (16, 12, 120, 108)), Teeth(Joint, 68, 60, 38), Cut(3), Cross(68, 60, 8)];
const BAR: &[Piece] = &[Teeth(Steel, 68, 60, 38), Cross(68, 60, 8)];
/// The bar pushed home, from the side, and over the old one.
const OLD_BAR: &[Piece] =
    &[Block(Section, (136, 22, 160, 62)), Cut(1), Block(Steel, (142, 34, 188, 50)), Teeth(Rod, 160, 94, 18)];
const SPLINE: &[Arrow] = &[
    At((122, 10), (96, 32)),
    At((68, 60), (91, 37)),
    Across((30, 60), (106, 60), 124),
    Across((30, 60), (106, 60), 124),
    Across((142, 94), (178, 94), 126),
    At((74, 2), (73, 21)),
    At((68, 60), (72, 28)),
    Across((142, 34), (160, 34), 14),
    Along((184, 24), (206, 42), (184, 60)),
    At((196, 70), (164, 70)),
];

const BETWEEN: &[Piece] = &[Block(Steel, (36, 22, 100, 98)), Outline(Centre, &[(28, 60), (108, 60)])];
const WIDTH: &[Arrow] = &[
    Across((36, 74), (100, 74), 74),
    Across((36, 98), (100, 98), 118),
    Along((136, 64), (160, 30), (184, 64)),
];

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
    Across((6, 70), (130, 70), 98),
    Along((22, 34), (20, 86), (51, 104)),
    Along((22, 34), (56, 104), (105, 86)),
    At((122, 12), (122, 47)),
];
