//! The figures: every answer by its name, in one table.
//!
//! A row says what a figure is called, what sort of number it is, what is said of less and of
//! more of it, what it may rest on, when it is tight or bad, and how it is read from the
//! studies. Rows compute nothing: whoever shows a figure has the studies made.

mod basis;
mod guesses;
mod narrowing;
mod read_off;
mod studies;
mod told;

pub use guesses::{Guess, Guesses};
pub use narrowing::{Narrowing, Trial, Values};
pub use studies::{Studied, Studies};
pub use told::{Judged, Sort, Told, Value};

use crate::as_read::{fender_above_mm, stop_daylight_mm};
use crate::clearance::{Pair, TIGHT_MM};
use crate::quantity::{Quantity, Unit};
use crate::rest::HeldBy;
use crate::scrub_line::Low;
use crate::sides::LeftRight;
use crate::travel_left::Limiter;
use basis::Basis;
use read_off::as_told;
use std::fmt;
use truck::{LoadCase, Side, line};

/// Less bump travel than this to the stop is little, mm: half an inch. Common practice, no source.
pub const LITTLE_BUMP_MM: f64 = 12.7;

/// What figures are about: what they rest on is told together.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Topic {
    /// How high it stands, and its spring.
    Height,
    /// Camber, and all that is read in front view.
    Camber,
    /// Caster and trail.
    Caster,
    /// Toe and steering.
    Toe,
    /// Travel.
    Travel,
    /// The room of a pair.
    Room(Pair),
}

impl Topic {
    /// Every topic, in the order in which they are told.
    pub fn all() -> impl Iterator<Item = Self> {
        let named = [Self::Height, Self::Camber, Self::Caster, Self::Toe, Self::Travel];
        named.into_iter().chain(Pair::ALL.iter().copied().map(Self::Room))
    }

    /// What people call it.
    #[must_use]
    pub fn label(self) -> String {
        match self {
            Self::Height => "Ride height and spring".to_owned(),
            Self::Camber => "Camber".to_owned(),
            Self::Caster => "Caster and trail".to_owned(),
            Self::Toe => "Toe".to_owned(),
            Self::Travel => "Travel to the stops".to_owned(),
            Self::Room(pair) => capital(pair.label()),
        }
    }
}

/// What a figure is of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Of {
    Truck,
    Pair(Pair),
    Low(Low),
    Lock(Side),
    Sides(Quantity),
    Through(Quantity),
}

/// When a figure is tight or bad.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Judge {
    /// Never.
    Never,
    /// It stands on anything but its spring.
    Stands,
    /// Room: under a quarter of an inch, or none.
    Room,
    /// Bump travel: little, or ended by anything but the stop.
    Bump,
    /// More than the part may bear.
    Share,
    /// Nothing is left.
    Loose,
}

struct Row {
    /// Its key, its label, what it is called right under the figure that it belongs to, and what is said of
    /// less of it and of more: a line each, since five words apart are to be found by five addresses.
    words: &'static str,
    sort: Sort,
    topic: Topic,
    judge: Judge,
    basis: &'static [Basis],
    read: fn(&dyn Studies, Of) -> Option<Value>,
}

impl Row {
    fn key(&self) -> &'static str {
        line(self.words, 0)
    }
}

/// An answer that people act on.
#[derive(Clone, Copy)]
pub struct Figure {
    row: &'static Row,
    of: Of,
}

impl PartialEq for Figure {
    fn eq(&self, other: &Self) -> bool {
        (self.row.words, self.of) == (other.row.words, other.of)
    }
}

impl Eq for Figure {}

impl fmt::Debug for Figure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.key())
    }
}

fn number(value: f64) -> Option<Value> {
    Some(Value::Number(value))
}

fn words(words: &'static str) -> Option<Value> {
    Some(Value::Words(words))
}

macro_rules! figures {
    (
        whole { $($name:ident $key:literal $sort:ident $topic:ident $judge:ident $label:literal / $sublabel:literal
            [$($basis:ident)*] $less:literal $more:literal |$s:ident| $value:expr;)* }
        each { $($each:ident($of:ident: $type:ty) $each_key:literal $each_sort:ident $each_topic:ident $each_judge:ident
            $each_label:literal / $each_sublabel:literal [$($each_basis:ident)*] $each_less:literal $each_more:literal
            |$e:ident, $o:ident| $each_value:expr;)* }
    ) => {
        impl Figure {
            $(
                #[doc = $label]
                pub const $name: Self = Self {
                    row: &Row {
                        words: concat!($key, "\n", $label, "\n", $sublabel, "\n", $less, "\n", $more),
                        sort: Sort::$sort,
                        topic: Topic::$topic,
                        judge: Judge::$judge,
                        basis: &[$(Basis::$basis,)*],
                        read: |$s, _| $value,
                    },
                    of: Of::Truck,
                };
            )*

            $(
                #[doc = concat!("Of each: ", $each_sublabel)]
                #[must_use]
                pub const fn $each(of: $type) -> Self {
                    const ROW: Row = Row {
                        words: concat!(
                            $each_key, "\n", $each_label, "\n", $each_sublabel, "\n", $each_less, "\n", $each_more
                        ),
                        sort: Sort::$each_sort,
                        topic: Topic::$each_topic,
                        judge: Judge::$each_judge,
                        basis: &[$(Basis::$each_basis,)*],
                        read: |$e, of| {
                            let Of::$of($o) = of else { return None };
                            $each_value
                        },
                    };
                    Self { row: &ROW, of: Of::$of(of) }
                }
            )*

            /// Every figure of the truck as a whole.
            pub const WHOLE: &'static [Self] = &[$(Self::$name,)*];
        }
    };
}

figures! {
    whole {
    HELD_BY "held_by" Words Height Stands "Stands on" / "" [Stance] "" "" |s| words(s.rest().held_by.label());
    FRAME_HEIGHT "ride_height" Length Height Never "Frame height" / "" [Stance RailBottom] "lower" "higher"
        |s| number(s.rest().ride_height_mm());
    DROP "drop" Length Height Never "Lower than as it sits by" / "" [Stance RailBottom] "" ""
        |s| number(s.as_it_sits()?.ride_height_mm() - s.rest().ride_height_mm());
    HEIGHT_WITH_DRIVER "ride_height_driver" Length Height Never "Frame height with the driver" / "with the driver"
        [Stance RailBottom Cases] "lower" "higher" |s| number(s.height_under_mm(LoadCase::Driver)?);
    HEIGHT_WITH_BED "ride_height_bed" Length Height Never
        "Frame height with the load in the bed" / "with the load in the bed"
        [Stance RailBottom Cases Wheelbase] "lower" "higher" |s| number(s.height_under_mm(LoadCase::Bed)?);
    FENDER_ABOVE "fender_above_tire" Length Height Never
        "Top of the tire to the fender lip, straight up" / "" [Stance FenderLip] "less" "more"
        |s| number(fender_above_mm(s.rest(), &s.gauged()?.pose));
    REAR_DOWN "rear_down" Length Height Never "Rear comes down by" / "" [RearParts] "" ""
        |s| number(s.rest().stance().rear().known_down_mm()?);

    CAMBER "camber" Angle Camber Never "Camber" / "" [Stance] "" ""
        |s| number(s.gauged()?.attitude.camber_rad);
    CASTER_GROUND "caster_ground" Angle Caster Never "Caster, against the ground" / "" [Stance Rake] "" ""
        |s| number(s.gauged()?.caster_ground_rad());
    CASTER "caster" Angle Caster Never "Caster, against the frame" / "" [Stance] "" ""
        |s| number(s.gauged()?.attitude.caster_rad);
    TOE "toe" Angle Toe Never "Toe of this wheel" / "" [Stance] "" ""
        |s| number(s.gauged()?.attitude.toe_rad);
    INCLINATION "inclination" Angle Camber Never "Steering-axis inclination" / "" [Stance] "" ""
        |s| number(s.gauged()?.attitude.inclination_rad);
    SCRUB_RADIUS "scrub_radius" Length Camber Never "Scrub radius" / "" [Stance] "" ""
        |s| number(s.gauged()?.attitude.scrub_radius_mm);
    TRAIL_GROUND "trail_ground" Length Caster Never "Mechanical trail, against the ground" / ""
        [Stance Rake] "" "" |s| number(s.gauged()?.trail_ground_mm());
    TRAIL "trail" Length Caster Never "Mechanical trail, against the frame" / "" [Stance] "" ""
        |s| number(s.gauged()?.attitude.trail_mm);
    HALF_TRACK "half_track" Length Camber Never "Half of the track" / "" [Stance] "" ""
        |s| number(s.gauged()?.attitude.contact.y);
    TRACK "track" Length Camber Never "Track" / "" [Stance] "narrower" "wider"
        |s| number(2.0 * s.gauged()?.attitude.contact.y);
    ROLL_CENTRE "roll_centre" Length Camber Never "Roll center" / "" [Stance] "lower" "higher"
        |s| number(s.gauged()?.centre.roll_centre_mm?);
    ROLL_CENTRE_BOARD "roll_centre_board" Length Camber Never "Roll center, drawn from the arms" / "" [Stance]
        "" "" |s| number(s.gauged()?.board.roll_centre_mm?);
    CAMBER_GAIN "camber_rate" AnglePerLength Camber Never "Camber gained in bump" / "" [Stance] "" ""
        |s| number(s.gauged()?.rates.camber_rad);
    BUMP_STEER "toe_rate" AnglePerLength Toe Never "Bump steer: toe in bump" / "" [Stance] "" ""
        |s| number(s.gauged()?.rates.toe_rad);

    WHEEL_RATE "wheel_rate" Rate Height Never "Wheel rate" / "" [Stance] "" ""
        |s| number(s.rest().wheel_rate_n_per_mm);
    RIDE_FREQUENCY "ride_frequency" Frequency Height Never "Ride frequency, tire left out" / "" [Stance]
        "softer" "stiffer" |s| number(s.rest().ride_frequency_hz());
    STRESS "spring_stress" Stress Height Never "Spring, shear stress at rest" / "" [Stance] "" ""
        |s| number(s.spring_loads()?.rest.stress_n_per_mm2?);
    STRESS_AT_STOP "spring_stress_bump" Stress Travel Never
        "Spring, shear stress at the bump stop solid" / "at the bump stop solid" [Stance] "" ""
        |s| number(s.spring_loads()?.bump?.stress_n_per_mm2?);
    SHARE_AT_STOP "spring_share_bump" Share Travel Share
        "Spring at the bump stop, of what it may bear" / "as a share of what it may bear" [Stance] "" ""
        |s| number(s.spring_loads()?.bump?.share?);
    HARDER_AT_STOP "spring_harder_bump" Harder Travel Never
        "Spring at the bump stop, against as it sits" / "against as it sits" [Stance] "" ""
        |s| number(s.spring_loads()?.bump?.harder_than(&crate::spring_loads::spring_loads(s.as_it_sits()?).bump?)?);
    COIL_BIND "coil_bind" Length Travel Never
        "Coil's room to solid at the bump stop" / "coil's room to solid there" [Stance] "" ""
        |s| number(s.spring_loads()?.room_to_bind_mm?);
    SPRING_AT_DROOP "spring_at_droop" Words Travel Loose "Spring at full droop" / "" [Stance] "" "" |s| {
        let work = s.spring_loads()?;
        let plain = || words(if work.droop?.is_loose() { LOOSE } else { "holds" });
        work.preload.map(Value::Preload).or_else(plain)
    };

    BUMP "bump_left" Length Travel Bump "Bump travel" / "" [Stance Limiters] "less" "more"
        |s| number(s.travel()?.bump.travel_mm);
    BUMP_ENDED_BY "bump_ended_by" Words Travel Never "Bump travel, ended by" / "ended by" [Stance Limiters] "" ""
        |s| words(s.travel()?.bump.by.label());
    BUMP_TOUCH "bump_stop_touch" Length Travel Never
        "Bump travel to the stop's first touch" / "to the bump stop's first touch" [Stance] "less" "more"
        |s| number(s.rest().travel_at(s.rest().stops.touch_rad));
    BUMP_SOLID "bump_stop_solid" Length Travel Never
        "Bump travel to the stop solid" / "to the bump stop solid" [Stance] "less" "more"
        |s| number(s.rest().travel_at(s.rest().stops.solid_rad));
    STOP_DAYLIGHT "stop_daylight" Length Travel Never "Daylight at the bump stop" / "" [Stance] "less" "more"
        |s| number(stop_daylight_mm(s.rest(), &s.gauged()?.pose));
    DROOP "droop_left" Length Travel Never "Droop travel" / "" [Stance Limiters] "less" "more"
        |s| number(s.travel()?.droop.travel_mm);
    DROOP_ENDED_BY "droop_ended_by" Words Travel Never "Droop travel, ended by" / "ended by" [Stance Limiters] "" ""
        |s| words(s.travel()?.droop.by.label());
    DROOP_STOP "droop_stop" Length Travel Never "Droop travel to the droop stop" / "to the droop stop" [Stance]
        "less" "more" |s| number(-s.rest().travel_at(s.rest().stops.droop_rad));
    RIM_EDGE "rim_edge" Length Height Never "Rim's lowest edge, above the ground" / "" [Stance] "" ""
        |s| number(s.scrub_line()?.rim_low_mm);
    }
    each {
    lock_left_wheel(Lock: Side) "left_wheel" Angle Toe Never ": left wheel, + to the left" / "" [Stance Steering] "" ""
        |s, side| number(s.lock(side)?.left_rad);
    lock_right_wheel(Lock: Side) "right_wheel" Angle Toe Never
        ": right wheel, + to the left" / "right wheel, + to the left" [Stance Steering] "" ""
        |s, side| number(s.lock(side)?.right_rad);
    lock_outer(Lock: Side) "outer_over_ideal" Angle Toe Never
        ": outer wheel, more than for one turning center" / "outer wheel, more than for one turning center"
        [Stance Steering Wheelbase] "" "" |s, side| {
            let turn = s.lock(side)?;
            number(turn.inner_outer_rad().1 - turn.ideal_outer_rad(wheelbase_mm(s)))
        };
    lock_circle(Lock: Side) "circle" Circle Toe Never
        ": turning circle, outer tire" / "turning circle, outer tire" [Stance Steering Wheelbase] "" "" |s, side| {
            let turn = s.lock(side)?;
            number(turn.circle_mm(wheelbase_mm(s), turn.inner_outer_rad().1)?)
        };
    lock_circle_over(Lock: Side) "circle_over_ideal" Circle Toe Never
        ": circle against one turning center, + wider" / "against one turning center, + wider"
        [Stance Steering Wheelbase] "" "" |s, side| {
            let (turn, wheelbase_mm) = (s.lock(side)?, wheelbase_mm(s));
            let circle = |outer_rad| turn.circle_mm(wheelbase_mm, outer_rad);
            number(circle(turn.inner_outer_rad().1)? - circle(turn.ideal_outer_rad(wheelbase_mm))?)
        };
    lock_scrub_radius(Lock: Side) "scrub_radius" Length Toe Never
        ": scrub radius, left" / "scrub radius, left" [Stance Steering] "" ""
        |s, side| number(s.lock(side)?.attitude.scrub_radius_mm);
    lock_trail(Lock: Side) "trail" Length Toe Never
        ": mechanical trail, left, against the frame" / "mechanical trail, left, against the frame" [Stance Steering]
        "" "" |s, side| number(s.lock(side)?.attitude.trail_mm);

    room(Pair: Pair) "" Length Height Room "" / "" [Stance Steering Own] "less" "more"
        |s, pair| number(s.room_mm(pair)?);
    least_room(Pair: Pair) "_least" Length Height Room
        ", least over travel and steer" / "least over travel and steer" [Stance Steering Own] "less" "more"
        |s, pair| number(s.found(pair)?.gap.distance_mm);
    least_at(Pair: Pair) "_least_at" Length Height Never ", nearest at a travel of" / "at a travel of" [Stance Steering Own]
        "" "" |s, pair| number(s.found(pair)?.at.travel_mm);
    least_steer(Pair: Pair) "_least_steer" Angle Height Never
        ", nearest with this wheel steered, + to the left" / "with this wheel steered, + to the left"
        [Stance Steering Own] "" "" |s, pair| {
            // A right corner is mirrored, and so is its heading.
            let sign = s.rest().fitted.measured.side().sign();
            number(sign * s.found(pair)?.at.heading_rad)
        };
    meets_at(Pair: Pair) "_meet_at" Length Height Never
        ", they meet in bump at" / "they meet in bump at" [Stance Steering Own] "" ""
        |s, pair| number(s.meeting(pair)?.meets_in_bump?.travel_mm);

    over_line(Low: Low) "_over_line" Length Height Never
        ", above the scrub line" / "" [Stance Cases Wheelbase Own] "" ""
        |s, low| number(s.scrub_line()?.point(low)?.over_line_mm);
    over_rim(Low: Low) "_over_rim" Length Height Never
        ", above the rim's lowest edge" / "above the rim's lowest edge" [Stance Cases Wheelbase Own] "" ""
        |s, low| number(s.scrub_line()?.point(low)?.over_rim_mm);
    low_load(Low: Low) "_load" Words Height Never ", lowest" / "lowest" [Stance Cases Wheelbase Own] "" ""
        |s, low| words(s.scrub_line()?.point(low)?.load.label());

    through(Through: Quantity) "_through" Length Camber Never
        ", through the travel" / "" [Stance Own] "" "" |s, quantity| number(quantity.read(s.gauged()?)?);

    at_left(Sides: Quantity) "_left" Length Camber Never ": left" / "" [Stance RailBottom] "" ""
        |s, quantity| number(side(s, quantity)?.left);
    at_right(Sides: Quantity) "_right" Length Camber Never ": right" / "right" [Stance RailBottom] "" ""
        |s, quantity| number(side(s, quantity)?.right);
    together(Sides: Quantity) "" Length Camber Never "" / "" [Stance RailBottom] "" ""
        |s, quantity| number(side(s, quantity)?.together());
    }
}

/// What is said of a spring with nothing left at full droop.
const LOOSE: &str = "loose";

fn wheelbase_mm(studies: &dyn Studies) -> f64 {
    studies.rest().fitted.measured.body.wheelbase_mm
}

fn side(studies: &dyn Studies, quantity: Quantity) -> Option<&LeftRight> {
    studies.sides()?.iter().find(|both| both.quantity == quantity)
}

/// Words with a capital at their beginning.
#[must_use]
pub fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_ascii_uppercase().to_string() + letters.as_str())
}

impl Figure {
    /// Every figure.
    pub fn all() -> impl Iterator<Item = Self> {
        let locks = [
            Self::lock_left_wheel,
            Self::lock_right_wheel,
            Self::lock_outer,
            Self::lock_circle,
            Self::lock_circle_over,
            Self::lock_scrub_radius,
            Self::lock_trail,
        ];
        let locks = Side::ALL.into_iter().flat_map(move |side| locks.map(|figure| figure(side)));
        let pairs = Pair::ALL.iter().flat_map(|pair| Self::of_pair(*pair));
        let lows = Low::ALL
            .into_iter()
            .flat_map(|low| [Self::over_line(low), Self::over_rim(low), Self::low_load(low)]);
        let sides = LeftRight::QUANTITIES.into_iter().flat_map(|quantity| {
            [Self::at_left(quantity), Self::at_right(quantity), Self::together(quantity)]
        });
        let through = Quantity::ALL.iter().copied().map(Self::through);
        Self::WHOLE.iter().copied().chain(locks).chain(pairs).chain(lows).chain(sides).chain(through)
    }

    /// The one of the truck at rest with a name in tables; those of pairs, locks and the like are none.
    #[must_use]
    pub fn of_truck(key: &str) -> Option<Self> {
        Self::WHOLE.iter().copied().find(|figure| figure.row.key() == key)
    }

    /// What is told of a pair.
    #[must_use]
    pub const fn of_pair(pair: Pair) -> [Self; 5] {
        [
            Self::room(pair),
            Self::least_room(pair),
            Self::least_at(pair),
            Self::least_steer(pair),
            Self::meets_at(pair),
        ]
    }

    /// The name in tables: lower case, words joined by underscores.
    #[must_use]
    pub fn key(self) -> String {
        let before = match self.of {
            Of::Truck => "",
            Of::Pair(pair) => pair.key(),
            Of::Low(low) => low.key(),
            Of::Lock(Side::Left) => "lock_left_",
            Of::Lock(Side::Right) => "lock_right_",
            Of::Sides(quantity) if self.row.key().is_empty() => LeftRight::named(quantity).1,
            Of::Sides(quantity) | Of::Through(quantity) => quantity.key(),
        };
        before.to_owned() + self.row.key()
    }

    /// What people call it.
    #[must_use]
    pub fn label(self) -> String {
        let before = match self.of {
            Of::Truck => return line(self.row.words, 1).to_owned(),
            Of::Pair(pair) => capital(pair.label()),
            Of::Low(low) => capital(low.label()),
            Of::Lock(Side::Left) => "Full left".to_owned(),
            Of::Lock(Side::Right) => "Full right".to_owned(),
            Of::Sides(quantity) if self.row.key().is_empty() => LeftRight::named(quantity).0.to_owned(),
            Of::Sides(quantity) | Of::Through(quantity) => quantity.label().to_owned(),
        };
        before + line(self.row.words, 1)
    }

    /// What it is called right under the figure that it belongs to; `None` where it stands for itself.
    #[must_use]
    pub fn sublabel(self) -> Option<&'static str> {
        Some(line(self.row.words, 2)).filter(|sublabel| !sublabel.is_empty())
    }

    /// What sort of value it has.
    #[must_use]
    pub const fn sort(self) -> Sort {
        match self.of {
            Of::Sides(quantity) | Of::Through(quantity) => match quantity.unit() {
                Unit::Length => Sort::Length,
                Unit::Angle => Sort::Angle,
                Unit::AnglePerLength => Sort::AnglePerLength,
                Unit::Ratio => Sort::Ratio,
            },
            _ => self.row.sort,
        }
    }

    /// Whether it may jump while the truck changes little: it tells of the first of several things
    /// that end the travel, or of the nearest of several places, or it is words.
    #[must_use]
    pub fn switches(self) -> bool {
        let of_a_search = matches!(self.of, Of::Pair(_)) && !self.row.key().is_empty();
        of_a_search || self.row.basis.contains(&Basis::Limiters) || self.sort() == Sort::Words
    }

    /// Whether it tells how near a pair comes over travel and steer, or where.
    fn is_of_least_room(self) -> bool {
        matches!(self.of, Of::Pair(_)) && self.row.words.starts_with("_least")
    }

    /// Of a place of least room, the room there. In a flat minimum the place is arbitrary, so it rests on all
    /// that the room rests on.
    fn least_room_there(self) -> Option<Self> {
        match self.of {
            Of::Pair(pair) if self.row.words.starts_with("_least_") => Some(Self::least_room(pair)),
            _ => None,
        }
    }

    /// What it is about.
    #[must_use]
    pub const fn topic(self) -> Topic {
        match self.of {
            Of::Pair(pair) => Topic::Room(pair),
            Of::Sides(quantity) | Of::Through(quantity) => match quantity {
                Quantity::RideHeight => Topic::Height,
                Quantity::Caster | Quantity::CasterGround => Topic::Caster,
                Quantity::Toe => Topic::Toe,
                _ => self.row.topic,
            },
            _ => self.row.topic,
        }
    }

    /// What is said of a truck that has less of it than another, and of one that has more;
    /// `None` where neither is said.
    #[must_use]
    pub fn comparatives(self) -> Option<[&'static str; 2]> {
        let both = [3, 4].map(|at| line(self.row.words, at));
        (!both[0].is_empty()).then_some(both)
    }

    /// Its value; `None` where what it is read from is not there, or not stated. Where it was
    /// read off the truck, the reading with what the model says of the change.
    #[must_use]
    pub fn read(self, studies: &dyn Studies) -> Option<Value> {
        as_told(self.as_read(studies), self.model(studies))
    }

    /// What the model says, whatever was read off the truck.
    fn model(self, studies: &dyn Studies) -> Option<Value> {
        (self.row.read)(studies, self.of)
    }

    /// The figure as it is told, from the studies and from the guesses that it rests on.
    #[must_use]
    pub fn told(self, studies: &dyn Studies, rests_on: Guesses) -> Told {
        self.told_within(studies, rests_on, 0.0)
    }

    /// The figure as it is told where it may be off by `spread` either way, in the core's unit: its
    /// verdict keeps that much of a margin.
    #[must_use]
    pub fn told_within(self, studies: &dyn Studies, rests_on: Guesses, spread: f64) -> Told {
        let (model, read) = (self.model(studies), self.as_read(studies));
        let value = as_told(read, model);
        let model = read.and_then(|_| model?.number());
        let tolerance = read.map_or(0.0, |read| read.tolerance);
        let judged = match self.judged(value, tolerance.max(spread), studies) {
            Judged::Tight | Judged::Bad if !rests_on.is_empty() => Judged::Open,
            judged => judged,
        };
        Told { figure: self, value, model, rests_on, judged }
    }

    /// The figure as it is told with a number that was had from elsewhere, in the core's unit: how much
    /// two trucks differ in it, or what it would be. Nothing is thought of it.
    #[must_use]
    pub const fn told_as(self, number: f64, rests_on: Guesses) -> Told {
        let value = Some(Value::Number(number));
        Told { figure: self, value, model: None, rests_on, judged: Judged::Fine }
    }

    /// What is to be thought of a value that may be less by so much, were it all measured.
    fn judged(self, value: Option<Value>, tolerance: f64, studies: &dyn Studies) -> Judged {
        let under = |limit_mm: f64| match value {
            Some(Value::Number(mm)) if mm <= 0.0 => Judged::Bad,
            Some(Value::Number(mm)) if mm - tolerance <= limit_mm => Judged::Tight,
            _ => Judged::Fine,
        };
        let is_bad = match self.row.judge {
            Judge::Never => false,
            Judge::Room => return under(TIGHT_MM),
            Judge::Bump => {
                let by_stop = studies.travel().is_none_or(|remaining| remaining.bump.by == Limiter::BumpStop);
                return match under(LITTLE_BUMP_MM) {
                    Judged::Fine if !by_stop => Judged::Tight,
                    judged => judged,
                };
            }
            Judge::Stands => studies.rest().held_by != HeldBy::Spring,
            Judge::Share => matches!(value, Some(Value::Number(share)) if share > 1.0),
            Judge::Loose => match value {
                Some(Value::Preload(preload)) => preload.is_loose(),
                value => value == Some(Value::Words(LOOSE)),
            },
        };
        if is_bad { Judged::Bad } else { Judged::Fine }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Keys name columns of files: two alike, and one would be lost.
    #[test]
    fn keys_and_labels_are_one_to_one() {
        let all: Vec<_> = Figure::all().collect();
        for (at, figure) in all.iter().enumerate() {
            for other in &all[..at] {
                // The track is told of both sides and of a truck whose sides are alike: it is the same.
                let is_track = figure.key() == "track";
                assert!(other.key() != figure.key() || is_track, "{figure:?}");
                assert!(other.label() != figure.label() || is_track, "{}", figure.label());
            }
            assert!(figure.key().bytes().all(|byte| byte.is_ascii_lowercase() || byte == b'_'), "{figure:?}");
            assert!(!figure.label().is_empty() && figure.label().is_ascii(), "{figure:?}");
        }
        // Each side's number is called as the one of a truck that is alike on both, the two
        // together as a shop calls them.
        for (key, label) in [
            ("camber_left", "Camber: left"),
            ("toe_right", "Toe of this wheel: right"),
            ("cross_camber", "Cross camber"),
            ("total_toe", "Total toe"),
            ("set_back", "Set-back, right wheel behind the left"),
        ] {
            let found = all.iter().find(|figure| figure.key() == key);
            assert_eq!(found.map(|figure| figure.label()).as_deref(), Some(label));
        }
        assert!(Topic::all().all(|topic| all.iter().any(|figure| figure.topic() == topic)));
    }
}
