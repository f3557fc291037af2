//! Inks: one table of colours for light and dark paper, one of what is drawn in them.

/// Light or dark paper.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Theme {
    /// Dark ink on light paper.
    Light,
    /// Light ink on dark paper.
    Dark,
}

macro_rules! colours {
    ($($name:ident $light:literal $dark:literal;)*) => {
        /// A colour of the drawing.
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        pub(crate) enum Colour { None, $($name,)* }

        impl Colour {
            #[cfg(test)]
            const ALL: &'static [Self] = &[$(Self::$name,)*];

            pub(crate) const fn on(self, theme: Theme) -> &'static str {
                HUES[self as usize][theme as usize]
            }
        }

        static HUES: &[[&str; 2]] = &[["none"; 2], $([$light, $dark],)*];
    };
}

colours! {
    Paper "#fbfaf5" "#14191f";
    Ink "#1c2530" "#e9e6dc";
    Soft "#55606d" "#a9b2bd";
    Faint "#a8aeb2" "#56616c";
    Before "#68727e" "#8f99a5";
    Accent "#2347b0" "#9db8ff";
    Tint "#dfe6f8" "#2a3757";
    OnAccent "#ffffff" "#10182b";
    First "#2347b0" "#9db8ff";
    Second "#8a5000" "#efb765";
    Third "#7a2f7d" "#e0a0e2";
    Dimension "#3a4450" "#c6c8c6";
    Contact "#b3101c" "#ff7d78";
    Hurt "#f6d3d1" "#4b2224";
    Steel "#f6f5ee" "#2c3640";
    Press "#e7e8e3" "#232c35";
    Forging "#e9dfc6" "#5d5644";
    Frame "#f1ebdb" "#2a2e30";
    Rubber "#3b444e" "#5f6b77";
    Sidewall "#b9c1c8" "#39434d";
    Barrel "#e2e7ea" "#202830";
    Rotor "#c6ced3" "#4a5661";
    Tape "#ffdd5c" "#7d6b1c";
}

struct Row {
    class: &'static str,
    fill: Colour,
    stroke: Colour,
    /// Width of the stroke, px; of a text, its weight / 100.
    width: &'static str,
    dash: &'static str,
}

macro_rules! inks {
    ($($name:ident $class:literal $fill:ident $stroke:ident $width:literal $dash:literal $what:literal)*) => {
        /// How a shape or a text is inked.
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        pub enum Ink { $(#[doc = $what] $name,)* }

        impl Ink {
            /// Every ink.
            pub const ALL: &'static [Self] = &[$(Self::$name,)*];

            const fn row(self) -> &'static Row {
                &ROWS[self as usize]
            }
        }

        static ROWS: [Row; Ink::ALL.len()] = [$(Row {
            class: $class, fill: Colour::$fill, stroke: Colour::$stroke, width: $width, dash: $dash,
        },)*];
    };
}

inks! {
    Tire "d-tire" Sidewall Ink "1.5" "" "A tire's silhouette."
    Rubber "d-rubber" Rubber Ink ".9" "" "Rubber, in section or from outside."
    Groove "d-groove" None Sidewall "1.3" "" "A groove of the tread."
    Cavity "d-cavity" Barrel Ink ".9" "" "The air inside a tire."
    Barrel "d-barrel" Barrel Soft ".8" "" "The inside of a rim."
    Rim "d-rim" None Ink "2.4" "" "Thin sheet metal, blacked in."
    Steel "d-steel" Steel Ink "1.6" "" "An arm."
    Press "d-press" Press Soft ".9" "" "What is pressed into an arm."
    Forging "d-forging" Forging Ink "1.6" "" "The knuckle."
    ForgingFill "d-forging-fill" Forging None "0" "" "The knuckle without its outline."
    Rotor "d-rotor" Rotor Ink "1" "" "Brake disc and hub."
    Pin "d-pin" Steel Ink "1.2" "" "The spindle's pin, shafts and studs."
    Rod "d-rod" Press Ink "1.2" "" "A rod."
    Frame "d-frame" Frame Ink "1.3" "" "Brackets and members of the frame."
    Inside "d-inside" Press Soft ".8" "" "The inside of the rail."
    Section "d-section" Paper Ink "1.6" "" "Cut metal."
    Hatch "d-hatch" None Ink ".7" "" "Section lines."
    SheetMetal "d-sheet" None Ink "3.4" "" "The fender's sheet metal, blacked in."
    Thin "d-thin" None Soft ".9" "" "Thin lines on parts."
    Edge "d-edge" None Ink "1.1" "" "Edges of parts."
    Joint "d-joint" Paper Ink "1.7" "" "The housing of a joint."
    Solid "d-solid" Ink None "0" "" "Solid ink."
    Ground "d-ground" None Ink "1.8" "" "The ground."
    Earth "d-earth" None Soft ".9" "" "What lies under the ground's line."
    Centre "d-centre" None Soft "1" "11 3 2 3" "Centrelines."
    Construction "d-construction" None Dimension ".9" "2 3" "Lines of a construction."
    Before "d-before" None Before "1.3" "5 3.5" "As measured."
    Dimension "d-dim" None Dimension "1.2" "" "Dimension lines."
    Extension "d-ext" None Dimension ".8" "" "Lines from a part to its dimension."
    Arrow "d-arrow" Dimension None "0" "" "Arrows of dimension lines."
    Leader "d-leader" None Soft ".9" "" "From a text to what it names."
    LeaderFoot "d-foot" None Ink "3.8" "" "Where a leader stands on what its text names."
    Accent "d-accent" None Accent "1.8" "" "The proposal, and what is dragged."
    AccentSolid "d-accent-solid" Accent None "0" "" "The same, solid."
    AccentTint "d-accent-tint" Tint Accent "1.6" "" "The same, tinted."
    Tape "d-tape" Tape Ink "1" "" "A tape that is laid to a number."
    Gap "d-gap" None Ink "2" "4 3" "Parts that do not meet."
    Grid "d-grid" None Faint ".7" "" "A chart's grid."
    Axis "d-axis" None Soft "1.3" "" "A chart's zero lines."
    Band "d-band" None Faint "1.1" "" "A chart's stretch out of reach."
    CurveBefore "d-curve-before" None Before "2" "6 4" "The curve as measured."
    Curve0 "d-curve-0" None First "2.6" "" "The first proposal's curve."
    Curve1 "d-curve-1" None Second "2.4" "12 3" "The second proposal's curve."
    Curve2 "d-curve-2" None Third "2.2" "2 2.5" "The third proposal's curve."
    Cursor "d-cursor" None Ink "1.2" "" "Where the reader stands."
    DotBefore "d-dot-before" Paper Before "1.8" "" "A point of the curve as measured."
    Dot0 "d-dot-0" First Paper "1" "" "A point of the first proposal's curve."
    Dot1 "d-dot-1" Second Paper "1" "" "A point of the second proposal's curve."
    Dot2 "d-dot-2" Third Paper "1" "" "A point of the third proposal's curve."
    Meets "d-meets" Hurt None "0" "" "Where two parts meet."
    MeetsCross "d-meets-cross" None Contact "1" "" "The lines or crosses over it."
    Tight "d-tight" Rotor None "0" "" "Where they pass each other closely, on a map."
    Near "d-near" Barrel None "0" "" "Where they come near each other, on a map."
    Map "d-map" None Soft ".8" "" "Strokes and points of a map."
    TextInk "d-text" Ink Paper "7" "" "Text."
    TextSoft "d-text-soft" Soft Paper "4" "" "Names and axes."
    TextDimension "d-text-dim" Dimension Paper "7" "" "Numbers in dimension lines."
    TextAccent "d-text-accent" Accent Paper "7" "" "Text of the proposal."
    Text0 "d-text-0" First Paper "7" "" "Text of the first proposal."
    Text1 "d-text-1" Second Paper "7" "" "Text of the second proposal."
    Text2 "d-text-2" Third Paper "7" "" "Text of the third proposal."
    TextContact "d-text-contact" Contact Paper "7" "" "Text of what meets."
    TextBefore "d-text-before" Before Paper "7" "" "Text of the truck as measured."
    TextTag "d-text-tag" OnAccent None "7" "" "Text on the accent."
}

impl Ink {
    /// The class in the markup.
    #[must_use]
    pub fn class(self) -> &'static str {
        self.row().class
    }

    /// Whether texts are inked so.
    #[must_use]
    pub fn is_text(self) -> bool {
        self.class().starts_with("d-text")
    }

    /// Whether it strokes or fills, not both: where two such shapes meet, neither has an edge on the other.
    pub(crate) fn is_plain(self) -> bool {
        self.row().fill == Colour::None || self.row().stroke == Colour::None
    }

    /// Whether it outlines a part, and so stands for it where it is only hinted at.
    pub(crate) const fn is_silhouette(self) -> bool {
        matches!(
            self,
            Self::Tire
                | Self::Steel
                | Self::Forging
                | Self::Frame
                | Self::Section
                | Self::SheetMetal
                | Self::Rod
                | Self::Before
        )
    }

    /// Whether labels had better keep off it.
    pub(crate) const fn is_busy(self) -> bool {
        !matches!(
            self,
            Self::Hatch | Self::Earth | Self::ForgingFill | Self::Before | Self::Grid | Self::Band
        )
    }
}

/// The faces that texts are set in: the reader's own.
const FACES: &str = "system-ui,-apple-system,\"Segoe UI\",Roboto,\"DejaVu Sans\",sans-serif";

/// The colours of the three proposals, in their order: the same on chip, sketch, curve and column.
#[must_use]
pub fn proposal_hues(theme: Theme) -> [&'static str; 3] {
    [Colour::First, Colour::Second, Colour::Third].map(|colour| colour.on(theme))
}

/// The style rules of every picture, each behind a selector's scope.
///
/// `scope`: a selector such as `.drawing`. In a file of its own, behind `svg`, what is proposed has the first
/// proposal's colour; elsewhere that of `--plan` and `--plan-tint`.
#[must_use]
pub fn css(theme: Theme, scope: &str) -> String {
    let mut rules = String::with_capacity(8000);
    let mut add = |pieces: &[&str]| {
        for piece in pieces {
            rules.push_str(piece);
        }
    };
    add(&[scope, " text{font-family:", FACES, ";text-anchor:middle}"]);
    add(&[scope, " path,", scope, " circle{stroke-linejoin:round;stroke-linecap:round}"]);
    for ink in Ink::ALL {
        let row = ink.row();
        let hue = |colour: Colour| match colour {
            Colour::Accent if scope != "svg" => "var(--plan)",
            Colour::Tint if scope != "svg" => "var(--plan-tint)",
            other => other.on(theme),
        };
        add(&[scope, " .", row.class, "{fill:", hue(row.fill)]);
        if ink.is_text() {
            add(&[";font-weight:", row.width, "00"]);
            if row.stroke != Colour::None {
                // A rim of paper keeps a text clear of the lines it crosses.
                add(&[";paint-order:stroke;stroke-width:3px;stroke-linejoin:round;stroke:"]);
                add(&[hue(row.stroke)]);
            }
        } else if row.stroke != Colour::None {
            add(&[";stroke:", hue(row.stroke), ";stroke-width:", row.width]);
            if !row.dash.is_empty() {
                add(&[";stroke-linecap:butt;stroke-dasharray:", row.dash]);
            }
        }
        add(&["}"]);
    }
    rules
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Relative luminance.
    ///
    /// # Source
    /// W3C, Web Content Accessibility Guidelines 2.1, "relative luminance" and "contrast ratio".
    fn luminance(colour: &str) -> f64 {
        let channel = |at: usize| {
            let value = f64::from(u8::from_str_radix(&colour[at..at + 2], 16).unwrap()) / 255.0;
            if value <= 0.03928 { value / 12.92 } else { libm::pow((value + 0.055) / 1.055, 2.4) }
        };
        0.2126 * channel(1) + 0.7152 * channel(3) + 0.0722 * channel(5)
    }

    fn contrast(a: &str, b: &str) -> f64 {
        let (a, b) = (luminance(a), luminance(b));
        (a.max(b) + 0.05) / (a.min(b) + 0.05)
    }

    #[test]
    fn white_on_black_is_21_to_1() {
        assert!((contrast("#ffffff", "#000000") - 21.0).abs() < 1e-9);
    }

    #[test]
    fn every_colour_is_six_hexadecimal_digits() {
        for colour in Colour::ALL {
            for theme in [Theme::Light, Theme::Dark] {
                assert_eq!(colour.on(theme).len(), 7, "{colour:?}");
                assert!(luminance(colour.on(theme)) <= 1.0);
            }
        }
    }

    #[test]
    fn text_has_a_contrast_of_4_5() {
        for theme in [Theme::Light, Theme::Dark] {
            for ink in Ink::ALL.iter().filter(|ink| ink.is_text()) {
                let row = ink.row();
                // A tag lies on the colour of whichever proposal is dragged.
                let tagged = [Colour::First, Colour::Second, Colour::Third];
                let grounds = if *ink == Ink::TextTag { &tagged[..] } else { &[Colour::Paper] };
                for ground in grounds {
                    let found = contrast(row.fill.on(theme), ground.on(theme));
                    assert!(found >= 4.5, "{ink:?} on {ground:?} {theme:?}: {found}");
                }
            }
        }
    }

    #[test]
    fn lines_that_carry_meaning_have_a_contrast_of_3_on_what_they_are_drawn_on() {
        let fills = [Colour::Paper, Colour::Steel, Colour::Frame, Colour::Barrel, Colour::Press];
        let lines = [Ink::Steel, Ink::Forging, Ink::Section, Ink::SheetMetal, Ink::Ground, Ink::Dimension];
        let on_paper = [Ink::Before, Ink::Accent, Ink::Gap, Ink::CurveBefore, Ink::Curve0, Ink::Curve1];
        for theme in [Theme::Light, Theme::Dark] {
            for ink in lines {
                for fill in fills {
                    let found = contrast(ink.row().stroke.on(theme), fill.on(theme));
                    assert!(found >= 3.0, "{ink:?} on {fill:?} {theme:?}: {found}");
                }
            }
            for ink in on_paper.into_iter().chain([Ink::Curve2, Ink::Cursor, Ink::Axis, Ink::Centre]) {
                let found = contrast(ink.row().stroke.on(theme), Colour::Paper.on(theme));
                assert!(found >= 3.0, "{ink:?} {theme:?}: {found}");
            }
        }
    }

    #[test]
    fn a_file_has_the_first_proposal_s_colour_and_the_page_that_of_the_one_on_it() {
        for theme in [Theme::Light, Theme::Dark] {
            assert_eq!(Colour::Accent.on(theme), proposal_hues(theme)[0]);
            assert!(
                css(theme, "svg").contains(&["svg .d-text-accent{fill:", proposal_hues(theme)[0]].concat())
            );
            assert!(!css(theme, "svg").contains("var("), "no other reader of SVG knows it");
            assert!(css(theme, ".x").contains(".x .d-text-accent{fill:var(--plan)"));
        }
    }

    #[test]
    fn no_two_inks_share_a_class() {
        for (at, ink) in Ink::ALL.iter().enumerate() {
            assert!(Ink::ALL[..at].iter().all(|other| other.class() != ink.class()), "{ink:?}");
        }
    }
}
