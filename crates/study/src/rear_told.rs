//! Every answer of the rear by its name, in one table, each with its spread.
//!
//! The table is apart from that of the figures, since only who asks for the rear pays for it.

mod low;
mod studied;

use crate::figure::{Judged, LITTLE_BUMP_MM, Sort, Value};
use crate::rear::{Channel, NoRear, WITHIN};
use crate::spread::COVERAGE;
use crate::stance::Stance;
use std::f64::consts::PI;
use studied::RearStudied;
use truck::{RearField, Side, TAPE_MM, line};

/// Lamp centres are to be at least so high, mm: 22 in. FMVSS 108 (seen), at curb weight (memory), so as the
/// truck sits; local rules decide. Of frame and bumper it says nothing, and what states say differs: no limit
/// is put to them.
const LOWEST_LAMP_MM: f64 = 22.0 * 25.4;
/// And at most, mm: 54 in. The same.
const HIGHEST_LAMP_MM: f64 = 54.0 * 25.4;
/// How far ahead lamps are aimed, mm: 25 ft. The same.
const AIM_MM: f64 = 25.0 * 12.0 * 25.4;
/// By so much a beam may be off there, mm: 4 in. The same.
const AIM_OFF_MM: f64 = 4.0 * 25.4;
/// A shackle nearer than this to the line of its spring's eyes is near enough to lock or to flip over, rad: 15°,
/// at which 3 mm of spring are left of a shackle of 80. Common practice, no source.
const STRAIGHT_RAD: f64 = PI / 12.0;
/// At rest a shackle is usually no nearer to it than this, rad: 60°, square being the rule (a trade article, seen);
/// how far off square is let pass is common practice, no source.
const USUAL_RAD: f64 = PI / 3.0;
/// What is said where the tape cannot tell.
const TOO_NEAR: &str = "too near to tell";
/// And where a guess would.
const GUESSED: &str = "rests on a guess";
/// Down and up.
const SIGNS: [f64; 2] = [-1.0, 1.0];

/// When an answer is tight or bad.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Judge {
    /// Never.
    Never,
    /// Under half an inch is little, none is bad.
    Travel,
    /// Less than to where the stop is solid is bad.
    Metal,
    /// Over the whole is bad.
    Share,
    /// A bare notch is bad whatever it leaves.
    Bare,
    /// Less than the rail had is to be said.
    Weaker,
    /// Joints that keep no rule.
    Rules,
    /// Outside the law's heights.
    Lamp,
    /// Off by more than is let pass.
    Aim,
    /// A shackle that is nearly straight is bad, and one that leans far is to be said.
    Leans,
    /// A shackle that comes near to straight on its way is bad.
    Swings,
    /// Below the scrub line is bad.
    Line,
    /// Below the rims is to be said.
    Rims,
}

/// Which ends of the truck an answer is of.
#[derive(Clone, Copy, Debug, PartialEq)]
enum End {
    Rear,
    /// What the bed carries is part of it.
    Bed,
    /// How the front stands is part of it.
    Both,
    /// How both ends stand under each load is.
    Loads,
}

impl RearStudied {
    /// Whether what an end's answers need beside the rear is a guess.
    const fn rests_on_guess(&self, end: End) -> bool {
        match end {
            End::Rear => false,
            End::Bed => self.bed_guessed,
            End::Both => self.front_guessed,
            End::Loads => self.front_guessed || self.bed_guessed || self.driver_guessed,
        }
    }
}

struct Row {
    /// Its key and its label, a line each.
    words: &'static str,
    sort: Sort,
    judge: Judge,
    end: End,
    read: Read,
}

/// How an answer is read: a number, or words.
enum Read {
    Number(fn(&RearStudied) -> Option<f64>),
    Words(fn(&RearStudied) -> Option<&'static str>),
}

impl Row {
    fn value(&self, of: &RearStudied) -> Option<Value> {
        match self.read {
            Read::Number(read) => read(of).map(Value::Number),
            Read::Words(read) => read(of).map(Value::Words),
        }
    }
}

/// An answer of the rear.
#[derive(Clone, Copy)]
pub struct RearAnswer(&'static Row);

impl std::fmt::Debug for RearAnswer {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(self.key())
    }
}

macro_rules! read {
    (Words $read:expr) => {
        Read::Words($read)
    };
    ($sort:ident $read:expr) => {
        Read::Number($read)
    };
}

macro_rules! rear_answers {
    ($($key:literal $sort:ident $judge:ident $end:ident $label:literal |$s:ident| $value:expr;)*) => {
        const ROWS: &[Row] = &[$(Row {
            words: concat!($key, "\n", $label),
            sort: Sort::$sort,
            judge: Judge::$judge,
            end: End::$end,
            read: read!($sort |$s| $value),
        },)*];
    };
}

rear_answers! {
    "rear_frame_height" Length Never Rear "Rear frame height" |s|
        Some(s.number(RearField::FrameHeight)? - s.down_mm()?);
    "rear_comes_down" Length Never Rear "Rear comes down by" |s| s.down_mm();
    "nose_down" Angle Never Both "Nose down against as it sits" |s| s.nose_down_rad();
    "bed_sinks" Length Never Bed "Load in the bed sinks the rear by" |s| s.bed_sinks_mm();
    "shackle" Angle Leans Rear "Shackle to the line of the eyes" |s| Some(s.rest()?.spring?.shackle_rad);
    "shackle_bump" Angle Swings Rear "Shackle at full bump" |s| s.shackle_bump_rad();
    "shackle_droop" Angle Swings Rear "Shackle at full droop" |s| s.shackle_droop_rad();
    "rear_bump_bed" Length Travel Bed "Rear bump travel with that load" |s|
        Some(s.bump()?.0 - s.bed_sinks_mm()?);
    "rear_bump" Length Travel Rear "Rear bump travel" |s| Some(s.bump()?.0);
    "rear_bump_by" Words Never Rear "Rear bump travel, ended by" |s| Some(s.bump()?.1);
    "rear_rims" Length Never Rear "Rear rims' lowest edge" |s| s.rim_mm();
    "axle_over_line" Length Line Rear "Axle's lowest point, above the rear scrub line" |s|
        s.over_line_mm(s.axle_low()?);
    "axle_over_rim" Length Rims Rear "Axle's lowest point, above the rear rims" |s|
        s.over_rim_mm(s.axle_low()?);
    "plate_over_line" Length Line Rear "U-bolt plate, above the rear scrub line" |s|
        s.over_line_mm(s.plate_low()?);
    "plate_over_rim" Length Rims Rear "U-bolt plate, above the rear rims" |s|
        s.over_rim_mm(s.plate_low()?);
    "shackle_over_line" Length Line Loads "Shackle, above the rear scrub line" |s|
        s.over_line_mm(s.shackle_low()?.0);
    "shackle_over_rim" Length Rims Loads "Shackle, above the rear rims" |s|
        s.over_rim_mm(s.shackle_low()?.0);
    "shackle_load" Words Never Loads "Shackle, lowest" |s| Some(s.shackle_low()?.1);
    "rear_stop" Length Never Rear "Axle tube to the rear bump stop" |s| s.stop_mm();
    "rear_tube" Length Metal Rear "Axle tube to the frame" |s| s.tube_mm();
    "notch_wanted" Length Never Rear "Notch that lets the stop be solid first" |s| {
        // A touch is not enough: until it is known how the stop squeezes, nobody cuts by it.
        s.number(RearField::StopSquash)?;
        Some((s.solid_mm()? - s.tube_mm()? + s.parts.notch_mm).max(0.0))
    };
    "rear_fender" Length Never Rear "Top of the rear tire under the fender lip by" |s| s.fender_mm();
    "rear_shock_closed" Length Travel Rear "Rear shock on the axle, upright, to closed" |s| s.shock_closed_mm();
    "rear_shock_open" Length Travel Rear "Rear shock on the axle, upright, to pulled out" |s| s.shock_open_mm();
    "pinion_up" Angle Never Rear "Pinion turned up, against the frame" |s| Some(s.rest()?.pinion_up_rad);
    "pinion_up_ground" Angle Never Both "Pinion turned up, against the ground" |s|
        Some(s.rest()?.pinion_up_rad - s.nose_down_rad()?);
    "joint_front" Angle Never Rear "Front joint, true angle" |s| Some(s.joints()?.front_rad);
    "joint_rear" Angle Never Rear "Rear joint, true angle" |s| Some(s.joints()?.rear_rad);
    "joints" Words Rules Rear "Joints by the trade's rules" |s| Some(s.joints()?.by_the_rules());
    "swing" Share Share Rear "Shaft's swing at top speed, of what is let pass" |s|
        Some(s.joints()?.swing_share(s.number(RearField::ShaftSpeed)?));
    "slip" Length Never Rear "Slip yoke, pulled out by" |s| {
        let [was, is] = s.shaft()?;
        Some(is.length_mm() - was.length_mm())
    };
    "rail_bare" Share Bare Rear "Rail's strength left at a bare notch" |s|
        s.rail_left(Channel::bare);
    "rail_plated" Share Weaker Rear "Rail's strength left with a plate along it" |s| s.rail_left(Channel::plated);
    "rail_boxed" Share Weaker Rear "Rail's strength left plated and boxed" |s| s.rail_left(Channel::boxed);
    "rear_frame_low" Length Never Bed "Rear frame height, worst load" |s| Some(s.frame_low()?.0);
    "rear_frame_load" Words Never Bed "Rear frame, lowest" |s| Some(s.frame_low()?.1);
    "front_bumper_low" Length Never Loads "Front bumper, worst load" |s| Some(s.front_bumper()?.0);
    "front_bumper_load" Words Never Loads "Front bumper, lowest" |s| Some(s.front_bumper()?.1);
    "rear_bumper_low" Length Never Loads "Rear bumper, worst load" |s| Some(s.rear_bumper()?.0);
    "rear_bumper_load" Words Never Loads "Rear bumper, lowest" |s| Some(s.rear_bumper()?.1);
    "lamp_height" Length Lamp Both "Headlamp center, above the ground" |s| s.lamp_mm();
    "lamp_aim" Length Aim Both "Headlamp beam at 25 ft, lower by" |s|
        Some(AIM_MM * linkage::angle::tan(s.nose_down_rad()?));
}

/// An answer as it is told.
#[derive(Clone, Copy, Debug)]
pub struct RearTold {
    /// Which.
    pub answer: RearAnswer,
    /// Its value; `None` where a number that it needs is not stated.
    pub value: Option<Value>,
    /// ± in its unit, two deviations, by the tools that measured the rear, and by a tape at the front
    /// where how that comes down is part of it. `None` of words, and where it is not known.
    pub spread: Option<f64>,
    /// Whether it rests on a number that nobody has measured.
    pub is_guess: bool,
    /// What is to be thought of it, in a few words; `None` where it is fine.
    pub verdict: Option<&'static str>,
}

/// What is told of a truck's rear.
#[derive(Clone, Debug)]
pub struct RearAnswers {
    /// Every answer, in the order of the table.
    pub told: Vec<RearTold>,
    /// Why the rear's parts say nothing of how it stands, or of how it stands loaded; `None` where they do.
    pub trouble: Option<NoRear>,
    /// What is taken of the rear that nobody has stated, in a sentence; `None` where nothing is.
    pub taken: Option<&'static str>,
}

impl RearAnswer {
    /// The name in files.
    #[must_use]
    pub fn key(self) -> &'static str {
        line(self.0.words, 0)
    }

    /// What people call it.
    #[must_use]
    pub fn label(self) -> &'static str {
        line(self.0.words, 1)
    }

    /// Whether how the front stands is half of it: what hangs low behind the axle is the rear's, though the
    /// front tilts it.
    #[must_use]
    pub fn hangs_on_front(self) -> bool {
        self.0.end == End::Both
    }

    /// What sort of number it is.
    #[must_use]
    pub const fn sort(self) -> Sort {
        self.0.sort
    }

    /// What is said of it where it is not fine.
    const fn verdict(self, judged: Judged) -> Option<&'static str> {
        Some(match (judged, self.0.judge) {
            (Judged::Fine, _) => return None,
            (Judged::Open, _) => TOO_NEAR,
            (Judged::Tight, Judge::Travel) => "little",
            (_, Judge::Metal) => "the frame is hit first",
            (_, Judge::Weaker) => "weaker than uncut",
            (_, Judge::Bare) => "never driven unboxed",
            (_, Judge::Rules) => "set the pinion, or the transmission's mount",
            (_, Judge::Lamp) => "outside 22 to 54 in",
            (_, Judge::Aim) => "have them aimed",
            (_, Judge::Share) => "too much",
            (Judged::Bad, Judge::Leans | Judge::Swings) => {
                "no, dangerous: so near straight it locks its spring or flips over"
            }
            (_, Judge::Leans | Judge::Swings) => "60° to 120° is usual",
            (_, Judge::Line) => "hangs below it, and drags once a tire is flat",
            (_, Judge::Rims) => "below the rims, local rules decide",
            (_, Judge::Travel | Judge::Never) => "none",
        })
    }

    fn judged(self, value: Option<Value>, spread: Option<f64>, studied: &RearStudied) -> Judged {
        let Some(spread) = spread else {
            // Within the spread it changes words or is gone.
            return match (value, self.0.judge) {
                (None, _) | (_, Judge::Never) => Judged::Fine,
                (_, Judge::Bare) => Judged::Bad,
                _ => Judged::Open,
            };
        };
        // Bad only where the whole spread is, fine only where all of it is.
        let below = |mm: f64, limit_mm: f64, worse: Judged| {
            if mm + spread < limit_mm {
                worse
            } else if mm - spread < limit_mm {
                Judged::Open
            } else {
                Judged::Fine
            }
        };
        let at = match value {
            None => return Judged::Fine,
            Some(Value::Words(words)) => {
                let kept = self.0.judge != Judge::Rules || words == WITHIN;
                return if kept { Judged::Fine } else { Judged::Tight };
            }
            Some(Value::Number(at)) => at,
            Some(Value::Preload(_)) => return Judged::Fine,
        };
        match self.0.judge {
            Judge::Never | Judge::Rules => Judged::Fine,
            Judge::Travel => match below(at, 0.0, Judged::Bad) {
                Judged::Fine => below(at, LITTLE_BUMP_MM, Judged::Tight),
                judged => judged,
            },
            Judge::Metal => below(at, studied.solid_mm().unwrap_or(0.0).max(0.0), Judged::Bad),
            Judge::Weaker => below(at, 1.0, Judged::Tight),
            Judge::Share => below(-at, -1.0, Judged::Bad),
            Judge::Bare => Judged::Bad,
            Judge::Leans | Judge::Swings => {
                let off_straight = at.min(PI - at);
                match below(off_straight, STRAIGHT_RAD, Judged::Bad) {
                    // No more than advice, and only where it is sure.
                    Judged::Fine if self.0.judge == Judge::Leans && off_straight + spread < USUAL_RAD => {
                        Judged::Tight
                    }
                    judged => judged,
                }
            }
            Judge::Line => below(at, 0.0, Judged::Bad),
            Judge::Rims => below(at, 0.0, Judged::Tight),
            Judge::Lamp => match below(at, LOWEST_LAMP_MM, Judged::Bad) {
                Judged::Fine => below(-at, -HIGHEST_LAMP_MM, Judged::Bad),
                judged => judged,
            },
            Judge::Aim => below(-at.abs(), -AIM_OFF_MM, Judged::Tight),
        }
    }
}

/// What is told of the rear of a truck that stands.
#[must_use]
pub fn rear_told(stance: &Stance) -> RearAnswers {
    let studied = RearStudied::of(stance);
    RearAnswers { told: told(stance, &studied), trouble: studied.trouble(), taken: studied.taken() }
}

fn told(stance: &Stance, studied: &RearStudied) -> Vec<RearTold> {
    let read = |of: &RearStudied| ROWS.iter().map(|row| row.value(of)).collect::<Vec<_>>();
    let values = read(studied);
    let variances = variances(studied, &read);
    let guessed = guessed(stance, studied, &values, &read);
    let mut told = Vec::new();
    for (at, row) in ROWS.iter().enumerate() {
        let value = values[at];
        let spread = variances[at].map(|variance| COVERAGE * variance.sqrt());
        let is_guess = value.is_some() && (guessed[at] || studied.rests_on_guess(row.end));
        let answer = RearAnswer(row);
        let verdict = match answer.judged(value, spread, studied) {
            // A guess gives no verdict; a bare notch is bad whatever the numbers.
            Judged::Tight | Judged::Bad if is_guess && row.judge != Judge::Bare => Some(GUESSED),
            judged => answer.verdict(judged),
        };
        let spread = spread.filter(|_| matches!(value, Some(Value::Number(_))));
        told.push(RearTold { answer, value, spread, is_guess, verdict });
    }
    told
}

/// The variance of each answer by what measured it, to first order: the central difference for each
/// number, a deviation either way. `None` where an answer changes its words, or is gone, within that.
fn variances(studied: &RearStudied, read: &dyn Fn(&RearStudied) -> Vec<Option<Value>>) -> Vec<Option<f64>> {
    let mut moved: Vec<[RearStudied; 2]> = Vec::new();
    for (field, value) in studied.rear.iter() {
        let standard = field.tolerance(value) / COVERAGE;
        if standard != 0.0 {
            moved.push(SIGNS.map(|way| studied.with(field, value + way * standard)));
        }
    }
    // The front comes down by a tape's width more or less, where it comes down.
    if studied.front_down_mm != 0.0 {
        let down = |way| studied.front_down_mm + way * TAPE_MM / COVERAGE;
        moved.push(SIGNS.map(|way| studied.with_front(down(way))));
    }
    let mut variances = vec![Some(0.0); ROWS.len()];
    for [less, more] in &moved {
        for ((variance, less), more) in variances.iter_mut().zip(read(less)).zip(read(more)) {
            let by = match (less, more) {
                (Some(Value::Number(less)), Some(Value::Number(more))) => Some((more - less) / 2.0),
                (less, more) => (less == more).then_some(0.0),
            };
            *variance = variance.zip(by).map(|(variance, by)| variance + by * by);
        }
    }
    variances
}

/// Which answers a guessed number of the rear's parts moves.
fn guessed(
    stance: &Stance,
    studied: &RearStudied,
    values: &[Option<Value>],
    read: &dyn Fn(&RearStudied) -> Vec<Option<Value>>,
) -> Vec<bool> {
    let mut marks = vec![false; ROWS.len()];
    for (kind, place, at) in &stance.corner(Side::Left).fitted.guessed {
        for way in SIGNS {
            let mut changes = studied.changes.clone();
            let found = changes.iter_mut().find(|change| change.slot() == (*kind, *place));
            let Some((change, number)) = found.zip(kind.numbers().get(*at)) else { continue };
            let other = change.values()[*at]
                .and_then(|value| number.nearest(value + way * number.guess_width(value)));
            let Some(moved) = change.with_value(*at, other) else { continue };
            *change = moved;
            for ((mark, was), now) in marks.iter_mut().zip(values).zip(read(&studied.with_parts(&changes))) {
                *mark |= *was != now;
            }
        }
    }
    marks
}
