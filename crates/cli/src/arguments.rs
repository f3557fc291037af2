//! What can be asked on the command line.

use clap::builder::{PossibleValuesParser, TypedValueParser as _};
use clap::{Args, Parser, Subcommand, ValueEnum};
use measure::Units;
use measure::{LengthUnit, parse_length};
use std::ffi::OsString;
use study::Quantity;
use truck::{Side, Task};

const EXAMPLES: &str = "\
Examples:
  scrubline report                           the demo truck, as it sits and with its plan
  scrubline report truck.json --units in     your own truck, in inches
  scrubline spread truck.json                how far off each answer may be, and what would help
  scrubline sweep truck.json > truck.csv     every number over three inches of bump and droop
  scrubline open 'https://example.org/#1…'   the file behind a link
  scrubline setup truck.json --camber 0      shims, bolt, rods for what you want it to read
  scrubline ways truck.json --drop '2 in'    which parts get it there, and what each gives up
  scrubline rear truck.json                  how the rear stands, its shaft, notch and headlamps
  scrubline bolt-up truck.json               which parts go together, by what you measured
  scrubline link truck.json                  the link of a file

A DESIGN is a JSON file, a link, the code behind its #, a text that has either in it,
or - for standard input. Left out, it is the demo truck.

Exit codes: 0 done, 1 the data cannot be used, 2 the command line cannot.";

const SWEEP_EXAMPLES: &str = "\
Examples:
  scrubline sweep --quantity camber,roll_centre --format text
  scrubline sweep truck.json --plan 1 --from -60mm --to 60mm --steps 25
  scrubline sweep truck.json --plan measured --units in > measured.csv
  scrubline sweep truck.json --from 0 --to 0 --steps 1 --link-from -50 --link-to 50
  scrubline sweep - --format json < truck.json

A pose that is not reached keeps its row: its numbers are empty and `status` says why.
Signs: travel + bump, camber + top out, toe + front in, caster + leans back at the top,
inclination + leans in at the top, scrub radius + contact outboard of the axis, trail +
axis meets the ground ahead of the contact.";

const REPORT_EXAMPLES: &str = "\
Examples:
  scrubline report truck.json
  scrubline report truck.json --plan 2 --units in
  scrubline report truck.json --side right
  scrubline report truck.json --format csv > report.csv";

const SPREAD_EXAMPLES: &str = "\
Examples:
  scrubline spread truck.json --units in
  scrubline spread truck.json --plan 1 --format csv > spread.csv
  scrubline spread truck.json --draws 10000

A tape is read to a sixteenth of an inch, a ball's center in its boot to a quarter, an angle to
a tenth of a degree; a guess is as far off as trucks of one class differ. Answers may be off by
so much 19 times in 20. A change is known better: what is off before it is off behind it too.";

const FIT_EXAMPLES: &str = "\
Examples:
  scrubline fit truck.json --units in
  scrubline fit truck.json --format json > fitted.json

Every number moves as little as it may, by how well it was measured, until the drawn truck says
what was read. Answers get better long before points do: of two balls that share a caster's error
neither is known to have been off. Readings that contradict each other or the tape move nothing.";

const AS_BUILT_EXAMPLES: &str = "\
Examples:
  scrubline as-built truck.json --units in
  scrubline as-built truck.json --plan 2 --side right --format csv

What was read once the work was done stands under \"built\" in the file, as \"readings\" of the truck
do: { \"left\": { \"ride_height\": { \"value\": 249, \"tool\": \"tape\" } } }; what was read again after
100 miles under \"settled\", which is then what is compared, with how much it settled. A change is compared with a
change: what was read as it sat, and what the parts are said to do. Where both tools together are
worth less than a quarter of what matters nothing is told.";

const SETUP_EXAMPLES: &str = "\
Examples:
  scrubline setup truck.json --height '9 1/2 in' --camber 0 --caster 2.5 --toe 0.1
  scrubline setup truck.json --plan 2 --camber=-0.5 --caster-by strut-rod --units in
  scrubline setup truck.json --height 240 --bump 30 --format json

What is left out stays as the truck reads now. Caster is against the ground, toe is that of
one wheel. Have it aligned on a rack all the same: this brings it near.";

const WAYS_EXAMPLES: &str = "\
Examples:
  scrubline ways truck.json --drop '2 1/2 in' --bump '1 in' --units in
  scrubline ways truck.json --drop 60 --spindles 38.1,50.8 --turns 8 --no-trim
  scrubline ways truck.json --drop '3 in' --tires 195/60R14,205/60R14 --frequency 1,1.5

Every combination is tried. What breaks a limit is counted by its reason, and so is what is
as good with a part less; the rest is ranked by what it gives up: a centimeter of bump travel,
a degree of camber or two of caster count one, a tenth of a hertz and a part a half, a cut or
a trim two more. Where there is no way, the nearest misses stand beside their reasons.

A wheel that turns keeps a quarter inch to brake, joints, arms, rods and steering, unless
--turning-room asks for more or less. No ball joint is turned over: on the arm with the
spring its bolts would carry the truck, and on the other it lowers nothing.";

const BOLT_UP_EXAMPLES: &str = "\
Examples:
  scrubline bolt-up truck.json
  scrubline bolt-up truck.json --all --units in
  scrubline bolt-up 'https://example.org/#1…' --format json

A number that came by link is someone else's: it may say no, and never that parts mate.";

const REAR_EXAMPLES: &str = "\
Examples:
  scrubline rear truck.json --units in
  scrubline rear truck.json --plan 1 --format csv > rear.csv

Leaf springs and a live axle. What is not measured leaves its answers open: no number of the rear
is ever guessed. ± is by the tools that measured the rear; a verdict needs more than that in hand.";

const WORK_EXAMPLES: &str = "\
Examples:
  scrubline work truck.json
  scrubline work truck.json --plan 2 > work.txt
  scrubline work truck.json --first shock_off=tie_parted

A task is there when its change is in the plan, or its part is marked in the ledger as one
from another truck or a shop. What you put first is added to what must come first, and takes
nothing of it away.";

const PICTURE_EXAMPLES: &str = "\
Examples:
  scrubline picture truck.json > front.svg
  scrubline picture truck.json --shows side --travel '1 in' --units in > side.svg
  scrubline picture truck.json --shows curve --quantity camber --theme dark > camber.svg";

const LINK_EXAMPLES: &str = "\
Examples:
  scrubline link truck.json                                   the code alone
  scrubline link truck.json --page https://example.org/sketch/";

const OPEN_EXAMPLES: &str = "\
Examples:
  scrubline open 'https://example.org/#1…' > truck.json
  scrubline open post.txt --format text
  xclip -o | scrubline open -";

/// Lower an old pickup's front end on paper first: ride height, alignment, travel and clearance.
#[derive(Debug, Parser)]
#[command(name = "scrubline", version, max_term_width = 100, after_help = EXAMPLES)]
pub(crate) struct Arguments {
    #[command(subcommand)]
    pub(crate) command: Command,
}

#[derive(Debug, Subcommand)]
pub(crate) enum Command {
    /// Move the wheel through its travel: one row a pose, one column a number
    #[command(after_help = SWEEP_EXAMPLES)]
    Sweep(Sweep),
    /// Set the truck as it sits and its plans side by side, at rest
    #[command(after_help = REPORT_EXAMPLES)]
    Report(Report),
    /// Say how far off each answer may be, by how well the truck was measured, and what would help
    #[command(after_help = SPREAD_EXAMPLES)]
    Spread(Spread),
    /// Find the numbers that agree best with what was read off the truck, and move to them
    #[command(after_help = FIT_EXAMPLES)]
    Fit(Fit),
    /// Say what to turn, shim and screw for a ride height and an alignment
    #[command(after_help = SETUP_EXAMPLES)]
    Setup(Setup),
    /// Find the combinations of parts that bring the truck down within limits
    #[command(after_help = WAYS_EXAMPLES)]
    Ways(WaysDown),
    /// Say which parts go together by what was measured of them, and what to measure next
    #[command(name = "bolt-up", after_help = BOLT_UP_EXAMPLES)]
    BoltUp(BoltUp),
    /// Say how the rear stands with each plan's parts on it, and what comes of it
    #[command(after_help = REAR_EXAMPLES)]
    Rear(Rear),
    /// List what is to be done, in the order in which it is done, and why so
    #[command(after_help = WORK_EXAMPLES)]
    Work(Work),
    /// Compare the truck as it was built with a plan, and say what alone would make it come out so
    #[command(name = "as-built", after_help = AS_BUILT_EXAMPLES)]
    AsBuilt(AsBuilt),
    /// Draw the sketch, from the front, the side or above, or a curve, as an SVG file
    #[command(after_help = PICTURE_EXAMPLES)]
    Picture(Picture),
    /// Print the link of a design: the code behind #, or a whole address
    #[command(after_help = LINK_EXAMPLES)]
    Link(Link),
    /// Print the design behind a link, a code or a text that has either in it
    #[command(after_help = OPEN_EXAMPLES)]
    Open(Open),
    /// Print the JSON Schema of a design's file
    Schema,
}

#[derive(Args, Debug)]
pub(crate) struct Asked {
    /// A JSON file, a link, its code, or - for standard input; left out, the demo truck
    pub(crate) design: Option<OsString>,
    /// A plan by its place in the list, from 1, or by its name; 0 or `measured` is the
    /// truck as it sits
    #[arg(long = "plan", alias = "proposal", value_name = "N|NAME")]
    pub(crate) proposal: Option<String>,
}

/// The side that is asked about.
#[derive(Args, Debug)]
pub(crate) struct OneSide {
    /// The side of the truck: the right is the left's mirror but for what was measured there
    #[arg(long, value_enum, default_value_t = SideChoice::Left)]
    side: SideChoice,
}

impl OneSide {
    pub(crate) const fn side(&self) -> Side {
        match self.side {
            SideChoice::Left => Side::Left,
            SideChoice::Right => Side::Right,
        }
    }
}

/// A side of the truck.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum SideChoice {
    /// The driver's left
    Left,
    /// The driver's right
    Right,
}

#[derive(Args, Debug)]
pub(crate) struct Printed {
    /// Units of lengths, in and out; inches in CSV and JSON are decimal
    #[arg(long, value_enum, default_value_t = UnitsChoice::Mm)]
    units: UnitsChoice,
    /// Decimals of lengths and angles, 4 in CSV and JSON where left out; rates of angles and
    /// ratios get two more there. A report in text has its own
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u8).range(0..=12))]
    pub(crate) decimals: Option<u8>,
}

impl Printed {
    pub(crate) const fn units(&self) -> Units {
        self.units.units()
    }

    /// Decimals in CSV and JSON.
    pub(crate) fn data_decimals(&self) -> u8 {
        self.decimals.unwrap_or(4)
    }
}

#[derive(Args, Debug)]
pub(crate) struct Sweep {
    #[command(flatten)]
    pub(crate) asked: Asked,
    #[command(flatten)]
    pub(crate) one: OneSide,
    /// First travel from rest, + bump: "-2 1/2 in", 76.2mm; a bare number is in --units; left out,
    /// three inches of droop, or rest with --lock-to-lock
    #[arg(long, value_name = "TRAVEL", allow_hyphen_values = true, value_parser = LengthText::parse)]
    pub(crate) from: Option<LengthText>,
    /// Last travel; left out, three inches of bump, or the first with --lock-to-lock
    #[arg(long, value_name = "TRAVEL", allow_hyphen_values = true, value_parser = LengthText::parse)]
    pub(crate) to: Option<LengthText>,
    /// Poses from first to last, both included; left out, 61, or 1 with --lock-to-lock
    #[arg(long, value_name = "N", value_parser = steps())]
    pub(crate) steps: Option<u32>,
    /// Poses from full lock to the right to full lock to the left, by the truck's own steering, at
    /// each travel; a column `steer_deg` gives the wheel's heading, + to the left
    #[arg(long, value_name = "N", value_parser = steps(), conflicts_with_all = ["link_from", "link_to", "link_steps"])]
    pub(crate) lock_to_lock: Option<u32>,
    /// First place of the tie rod's inner end, straight across from where it stands, + to the left
    /// of the truck
    #[arg(long, value_name = "LENGTH", default_value = "0", allow_hyphen_values = true)]
    #[arg(value_parser = LengthText::parse)]
    pub(crate) link_from: LengthText,
    /// Last place of the tie rod's inner end; left out, the first
    #[arg(long, value_name = "LENGTH", allow_hyphen_values = true, value_parser = LengthText::parse)]
    pub(crate) link_to: Option<LengthText>,
    /// Places of the tie rod's inner end, the whole travel at each; left out, 21 with --link-to,
    /// otherwise 1
    #[arg(long, value_name = "N", value_parser = steps())]
    pub(crate) link_steps: Option<u32>,
    /// The numbers to print, separated by commas or each with its own --quantity; left out, all
    /// of them, or a few that fit the screen with --format text
    #[arg(long, value_name = "KEY", value_delimiter = ',', value_parser = quantities())]
    pub(crate) quantity: Vec<Quantity>,
    /// How to print
    #[arg(long, value_enum, default_value_t = Format::Csv)]
    pub(crate) format: Format,
    #[command(flatten)]
    pub(crate) printed: Printed,
}

#[derive(Args, Debug)]
pub(crate) struct Report {
    #[command(flatten)]
    pub(crate) asked: Asked,
    #[command(flatten)]
    pub(crate) one: OneSide,
    /// How to print
    #[arg(long, value_enum, default_value_t = Format::Text)]
    pub(crate) format: Format,
    #[command(flatten)]
    pub(crate) printed: Printed,
}

#[derive(Args, Debug)]
pub(crate) struct Spread {
    #[command(flatten)]
    pub(crate) asked: Asked,
    #[command(flatten)]
    pub(crate) one: OneSide,
    /// How many times a truck is drawn as it might truly be, for what ends the travel and where
    /// things come nearest
    #[arg(long, value_name = "N", default_value_t = study::Draws::ENOUGH, value_parser = draws)]
    pub(crate) draws: usize,
    /// How to print
    #[arg(long, value_enum, default_value_t = Format::Text)]
    pub(crate) format: Format,
    #[command(flatten)]
    pub(crate) printed: Printed,
}

#[derive(Args, Debug)]
pub(crate) struct Fit {
    /// A JSON file, a link, its code, or - for standard input; left out, the demo truck
    pub(crate) design: Option<OsString>,
    #[command(flatten)]
    pub(crate) one: OneSide,
    /// What would move, for people, or the JSON file with its numbers moved
    #[arg(long, value_enum, default_value_t = FitFormat::Text)]
    pub(crate) format: FitFormat,
    /// Units of lengths in the text
    #[arg(long, value_enum, default_value_t = UnitsChoice::Mm)]
    pub(crate) units: UnitsChoice,
}

/// How to print a fit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum FitFormat {
    /// What would move, in lines
    Text,
    /// The file with its numbers moved
    Json,
}

/// A count of draws: fewer have no ends, and more take all day.
fn draws(text: &str) -> Result<usize, String> {
    let count = text.parse().map_err(|_| "not a whole number".to_owned())?;
    if (40..=100_000).contains(&count) { Ok(count) } else { Err("40 to 100000".to_owned()) }
}

#[derive(Args, Debug)]
pub(crate) struct Setup {
    #[command(flatten)]
    pub(crate) asked: Asked,
    #[command(flatten)]
    pub(crate) one: OneSide,
    /// Left and right each by what is set there alone; what is not asked for stays as that side reads
    #[arg(long, conflicts_with = "side")]
    pub(crate) each_side: bool,
    /// Ride height from the ground to the bottom of the rail
    #[arg(long, value_name = "LENGTH", value_parser = LengthText::parse)]
    pub(crate) height: Option<LengthText>,
    /// Camber, degrees, + top out
    #[arg(long, value_name = "DEGREES", allow_hyphen_values = true, value_parser = degrees)]
    pub(crate) camber: Option<f64>,
    /// Caster against the ground, degrees
    #[arg(long, value_name = "DEGREES", allow_hyphen_values = true, value_parser = degrees)]
    pub(crate) caster: Option<f64>,
    /// Toe of one wheel, degrees, + front in
    #[arg(long, value_name = "DEGREES", allow_hyphen_values = true, value_parser = degrees)]
    pub(crate) toe: Option<f64>,
    /// Bump travel that is to be left; where the height leaves less, the lowest one that
    /// leaves it is named
    #[arg(long, value_name = "LENGTH", default_value = "1 in", value_parser = LengthText::parse)]
    pub(crate) bump: LengthText,
    /// What sets caster
    #[arg(long, value_enum, default_value_t = CasterChoice::Shims)]
    pub(crate) caster_by: CasterChoice,
    /// How to print
    #[arg(long, value_enum, default_value_t = Format::Text)]
    pub(crate) format: Format,
    #[command(flatten)]
    pub(crate) printed: Printed,
}

/// What sets caster.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum CasterChoice {
    /// Different packs of shims at the two bolts
    Shims,
    /// The strut rod
    StrutRod,
}

/// An angle in degrees, as radians; a target beyond sixty is a slip of the finger.
fn degrees(text: &str) -> Result<f64, String> {
    let rad = measure::parse_angle(text).map(|angle| angle.rad).map_err(|error| error.to_string())?;
    if rad.to_degrees().abs() <= 60.0 { Ok(rad) } else { Err("more than 60 degrees".to_owned()) }
}

#[derive(Args, Debug)]
pub(crate) struct WaysDown {
    /// A JSON file, a link, its code, or - for standard input; left out, the demo truck
    pub(crate) design: Option<OsString>,
    /// How much lower the frame is to stand than it sits now
    #[arg(long, value_name = "LENGTH", value_parser = LengthText::parse)]
    pub(crate) drop: LengthText,
    /// How far the rear comes down; left out, it is taken to stay up
    #[arg(long, value_name = "LENGTH", allow_hyphen_values = true, value_parser = LengthText::parse)]
    pub(crate) rear_down: Option<LengthText>,
    /// Blocks and shackles that bring the rear down by as much, so that the rake stays
    #[arg(long, conflicts_with = "rear_down")]
    pub(crate) keep_rake: bool,
    /// How near to that is near enough
    #[arg(long, value_name = "LENGTH", default_value = "1/8 in", value_parser = LengthText::parse)]
    pub(crate) within: LengthText,
    /// Least bump travel that must be left
    #[arg(long, value_name = "LENGTH", default_value = "1 in", value_parser = LengthText::parse)]
    pub(crate) bump: LengthText,
    /// Least room of every pair on the way, from lock to lock
    #[arg(long, value_name = "LENGTH", default_value = "0", value_parser = LengthText::parse)]
    pub(crate) room: LengthText,
    /// Least room of rim and tire to brake, joints, arms, rods and steering, at any travel and steer
    #[arg(long, value_name = "LENGTH", default_value = "1/4 in", value_parser = LengthText::parse)]
    pub(crate) turning_room: LengthText,
    /// Least and greatest ride frequency, Hz
    #[arg(long, value_name = "LEAST,MOST", default_value = "0.8,1.8", value_parser = band)]
    pub(crate) frequency: (f64, f64),
    /// Whether things may come to hang below the scrub line
    #[arg(long)]
    pub(crate) below_the_line: bool,
    /// Whether camber may stay off
    #[arg(long)]
    pub(crate) no_shims: bool,
    /// Drops of the spindles on the table, at most 100
    #[arg(long, value_name = "LENGTHS", value_delimiter = ',', value_parser = LengthText::parse)]
    pub(crate) spindles: Option<Vec<LengthText>>,
    /// Most turns of the bar's bolt, out
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u8).range(0..=40))]
    pub(crate) turns: Option<u8>,
    /// Most coils to cut, by halves
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u8).range(0..=20))]
    pub(crate) coils: Option<u8>,
    /// Tire sizes on the table, at most 100, on the wheels it has
    #[arg(long, value_name = "SIZES", value_delimiter = ',', value_parser = tire)]
    pub(crate) tires: Vec<truck::TireSize>,
    /// No bump stop is trimmed
    #[arg(long)]
    pub(crate) no_trim: bool,
    /// How many to print
    #[arg(long, value_name = "N", default_value_t = 8)]
    pub(crate) best: u8,
    /// How to print
    #[arg(long, value_enum, default_value_t = Format::Text)]
    pub(crate) format: Format,
    #[command(flatten)]
    pub(crate) printed: Printed,
}

fn band(text: &str) -> Result<(f64, f64), String> {
    let number = |text: &str| measure::parse_number(text).map_err(|error| error.to_string());
    let (low, high) = text.split_once(',').ok_or("two numbers with a comma between them")?;
    Ok((number(low)?, number(high)?))
}

fn tire(text: &str) -> Result<truck::TireSize, String> {
    let size = measure::TireSize::parse(text).map_err(|error| error.to_string())?;
    Ok(truck::TireSize {
        section_mm: size.width_mm,
        aspect_percent: size.aspect_percent,
        rim_code: size.rim_in,
    })
}

#[derive(Args, Debug)]
pub(crate) struct BoltUp {
    /// A JSON file, a link, its code, or - for standard input; left out, the demo truck
    #[arg(value_name = "FILE|LINK")]
    pub(crate) design: Option<OsString>,
    /// The rows of the usual swap in which nothing is written, too
    #[arg(long)]
    pub(crate) all: bool,
    /// How to print; numbers in CSV and JSON are millimetres
    #[arg(long, value_enum, default_value_t = Format::Text)]
    pub(crate) format: Format,
    /// Units of lengths in a row's line
    #[arg(long, value_enum, default_value_t = UnitsChoice::Mm)]
    pub(crate) units: UnitsChoice,
}

#[derive(Args, Debug)]
pub(crate) struct Rear {
    #[command(flatten)]
    pub(crate) asked: Asked,
    /// How to print
    #[arg(long, value_enum, default_value_t = Format::Text)]
    pub(crate) format: Format,
    #[command(flatten)]
    pub(crate) printed: Printed,
}

#[derive(Args, Debug)]
pub(crate) struct AsBuilt {
    #[command(flatten)]
    pub(crate) asked: Asked,
    #[command(flatten)]
    pub(crate) one: OneSide,
    /// How to print
    #[arg(long, value_enum, default_value_t = Format::Text)]
    pub(crate) format: Format,
    #[command(flatten)]
    pub(crate) printed: Printed,
}

#[derive(Args, Debug)]
pub(crate) struct Work {
    #[command(flatten)]
    pub(crate) asked: Asked,
    /// How to print
    #[arg(long, value_enum, default_value_t = Format::Text)]
    pub(crate) format: Format,
    /// Units of lengths and torques in the text
    #[arg(long, value_enum, default_value_t = UnitsChoice::Mm)]
    pub(crate) units: UnitsChoice,
    /// A task that is to come before another besides, by their names in files, as
    /// `shock_off=tie_parted`; may be given several times
    #[arg(long = "first", value_name = "FIRST=THEN", value_parser = before)]
    pub(crate) first: Vec<(Task, Task)>,
}

/// Two tasks, the first before the second.
fn before(text: &str) -> Result<(Task, Task), String> {
    let task = |key: &str| {
        let found = Task::ALL.iter().copied().find(|task| task.key() == key.trim());
        found.ok_or_else(|| {
            let keys: Vec<_> = Task::ALL.iter().map(|task| task.key()).collect();
            [key, " is no task: ", &keys.join(", ")].concat()
        })
    };
    let (first, then) = text.split_once('=').ok_or("two tasks, as shock_off=tie_parted")?;
    Ok((task(first)?, task(then)?))
}

#[derive(Args, Debug)]
pub(crate) struct Picture {
    #[command(flatten)]
    pub(crate) asked: Asked,
    #[command(flatten)]
    pub(crate) one: OneSide,
    /// What is drawn
    #[arg(long, value_enum, default_value_t = Shows::Front)]
    pub(crate) shows: Shows,
    /// Of a curve, against travel
    #[arg(long, value_name = "KEY", default_value = "camber", value_parser = quantities())]
    pub(crate) quantity: Quantity,
    /// Travel from rest at which the sketch stands, + bump; left out, the link's own
    #[arg(long, value_name = "TRAVEL", allow_hyphen_values = true, value_parser = LengthText::parse)]
    pub(crate) travel: Option<LengthText>,
    /// Width, pixels: 600 is a forum thread's
    #[arg(long, value_name = "PX", default_value_t = 600, value_parser = clap::value_parser!(u32).range(240..=4000))]
    pub(crate) width: u32,
    /// Height, pixels; left out, seven tenths of the width
    #[arg(long, value_name = "PX", value_parser = clap::value_parser!(u32).range(180..=4000))]
    pub(crate) height: Option<u32>,
    /// Paper white or dark
    #[arg(long, value_enum, default_value_t = ThemeChoice::Light)]
    pub(crate) theme: ThemeChoice,
    /// Units of lengths
    #[arg(long, value_enum, default_value_t = UnitsChoice::Mm)]
    pub(crate) units: UnitsChoice,
}

/// What a picture shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum Shows {
    /// The corner from the front
    Front,
    /// The corner from the side
    Side,
    /// The corner from above
    Top,
    /// Both axles from the side, where the rear is measured
    Whole,
    /// The rear from the side, where it is measured
    Rear,
    /// A number against travel, as it sits and with every plan
    Curve,
}

/// Paper white or dark.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum ThemeChoice {
    /// Ink on paper
    Light,
    /// For dark pages
    Dark,
}

#[derive(Args, Debug)]
pub(crate) struct Link {
    #[command(flatten)]
    pub(crate) asked: Asked,
    /// The page's address, to stand before the code
    #[arg(long, value_name = "ADDRESS", value_parser = clap::builder::NonEmptyStringValueParser::new())]
    pub(crate) page: Option<String>,
}

#[derive(Args, Debug)]
pub(crate) struct Open {
    /// A link, a code, a text that has either in it, a file, or - for standard input
    #[arg(value_name = "TEXT|FILE")]
    pub(crate) design: OsString,
    /// The JSON file, or a summary for people
    #[arg(long, value_enum, default_value_t = OpenFormat::Json)]
    pub(crate) format: OpenFormat,
    /// Units of lengths in the summary
    #[arg(long, value_enum, default_value_t = UnitsChoice::Mm)]
    pub(crate) units: UnitsChoice,
}

/// How to print.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum Format {
    /// Comma-separated values
    Csv,
    /// JSON
    Json,
    /// Columns for people
    Text,
}

/// How to print a design.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum OpenFormat {
    /// The file
    Json,
    /// A summary
    Text,
}

/// Units of lengths.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum UnitsChoice {
    /// Millimetres
    Mm,
    /// Inches
    In,
}

impl UnitsChoice {
    pub(crate) const fn units(self) -> Units {
        match self {
            Self::Mm => Units::Millimetres,
            Self::In => Units::Inches,
        }
    }
}

/// A length as it was typed, read before it is known what a bare number stands for.
#[derive(Clone, Copy, Debug)]
pub(crate) struct LengthText {
    bare_mm: f64,
    bare_inches: f64,
}

impl LengthText {
    fn parse(text: &str) -> Result<Self, String> {
        let read = |unit| parse_length(text, unit).map(|length| length.mm).map_err(|error| error.to_string());
        Ok(Self { bare_mm: read(LengthUnit::Millimetre)?, bare_inches: read(LengthUnit::Inch)? })
    }

    /// The length, mm.
    pub(crate) const fn mm(self, units: Units) -> f64 {
        match units {
            Units::Millimetres => self.bare_mm,
            Units::Inches => self.bare_inches,
        }
    }
}

/// A count of poses; the most is what a curve could ever use. Of travel and steer
/// together `sweep` allows a million.
fn steps() -> clap::builder::RangedI64ValueParser<u32> {
    clap::value_parser!(u32).range(1..=10_001)
}

fn quantities() -> impl clap::builder::TypedValueParser<Value = Quantity> {
    PossibleValuesParser::new(Quantity::ALL.iter().map(|quantity| quantity.key())).map(|key| {
        let found = Quantity::ALL.iter().copied().find(|quantity| quantity.key() == key);
        found.expect("only a quantity's key passes the list of keys")
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use clap::CommandFactory as _;

    #[test]
    fn the_definition_holds_together() {
        Arguments::command().debug_assert();
    }
}
