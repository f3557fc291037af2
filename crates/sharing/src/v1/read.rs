//! The bits of version 1 into a design: everything that is read is checked.

use super::bits::Reader;
use super::defaults::{self, Base};
use super::stated::Stated;
use super::{ids, ledger, readings, rear, usual_source};
use crate::link_error::LinkError;
use crate::shared::{self, Opening, Shared};
use measure::Units;
use truck::{
    Change, ChangeKind, ChangeSources, Design, Field, Kind, Ledger, MOST_PROPOSALS, Place, Proposal,
    ProposalId, Readings, Source, Sources, Staying,
};

/// What a payload holds.
///
/// # Errors
/// [`LinkError::Newer`] for an id that is unknown here or for more than a design
/// can hold, [`LinkError::OutOfLimits`] for a number that cannot be entered,
/// [`LinkError::Unreadable`] for what no version writes.
pub(crate) fn read(payload: &[u8]) -> Result<Shared, LinkError> {
    let mut bits = Reader::new(payload);
    // A design that is all defaults has no payload at all.
    let found = if payload.is_empty() { Some(Found::default()) } else { whole(&mut bits) };
    let shared = bits.sound(found)?.shared();
    if shared.design.fits_a_link() { Ok(shared) } else { Err(LinkError::Newer) }
}

// Below, nothing is what was refused: the reader knows why, or it contradicts itself.

fn whole(bits: &mut Reader<'_>) -> Option<Found> {
    let mut found = Found::default();
    for section in bits.ids() {
        found.section(section, bits)?;
    }
    if bits.is_at_end() { Some(found) } else { bits.newer() }
}

/// What was found so far; the rest is default.
struct Found {
    title: String,
    note: String,
    truck: Stated,
    /// `None` where nothing is said of them.
    proposals: Option<Vec<Proposal>>,
    opening: Opening,
    ledger: Ledger,
    built: Readings,
    settled: Readings,
}

impl Default for Found {
    fn default() -> Self {
        Self {
            title: defaults::TITLE.to_owned(),
            note: String::new(),
            truck: Stated::default(),
            proposals: None,
            opening: Opening::default(),
            ledger: Ledger::EMPTY,
            built: Readings::default(),
            settled: Readings::default(),
        }
    }
}

impl Found {
    fn section(&mut self, id: u8, bits: &mut Reader<'_>) -> Option<()> {
        match id {
            ids::section::TITLE => self.title = shared::name(&bits.text(Design::LONGEST_NAME)),
            ids::section::NOTE => self.note = shared::note(&bits.text(Design::LONGEST_NOTE)),
            ids::section::NUMBERS => self.truck.numbers = numbers(bits)?,
            ids::section::SOURCES => self.truck.sources = sources(bits, &self.truck.numbers)?,
            ids::section::SPRING => spring(bits, &mut self.truck)?,
            ids::section::PROPOSALS => self.proposals = Some(proposals(bits)?),
            ids::section::OPENING => opening(bits, &mut self.opening)?,
            ids::section::RIGHT => self.truck.right = right(bits)?,
            ids::section::READINGS => self.truck.readings = readings::read(bits)?,
            ids::section::LEDGER => self.ledger = ledger::read(bits)?,
            ids::section::REAR => self.truck.rear = rear::read(bits)?,
            ids::section::BUILT => self.built = readings::read(bits)?,
            ids::section::SETTLED => self.settled = readings::read(bits)?,
            ids::section::GUESSES => {
                bits.small_of(&ids::GUESS_RULES)?;
                let code = u8::try_from(bits.bits(3)).ok();
                self.truck.sources.follow(bits.known(code.and_then(Staying::from_code))?);
            }
            ids::section::BASE => self.truck.base = bits.small_of(&Base::ALL)?,
            _ => return bits.newer(),
        }
        Some(())
    }

    fn shared(self) -> Shared {
        let Self { title, note, truck, proposals, opening, ledger, built, settled } = self;
        let proposals = proposals.unwrap_or_else(|| defaults::proposals(truck.base));
        let design = Design {
            title,
            note,
            truck: truck.truck(),
            proposals,
            ledger,
            built,
            settled,
            work: String::new(),
        };
        Shared { opening: opening.kept(&design), design }
    }
}

fn numbers(bits: &mut Reader<'_>) -> Option<Vec<(Field, Option<f64>)>> {
    let mut numbers = Vec::new();
    for id in bits.ids() {
        let field = bits.known(Field::from_id(id))?;
        let stated = !field.is_optional() || bits.bit();
        numbers.push((field, if stated { Some(number(bits, field)?) } else { None }));
    }
    Some(numbers)
}

fn number(bits: &mut Reader<'_>, field: Field) -> Option<f64> {
    let value = field.kind().value(defaults::steps(field) + bits.steps());
    bits.within(field.accept(value), field.label())
}

/// The numbers of the right; one that both sides share here is a newer Scrubline's.
fn right(bits: &mut Reader<'_>) -> Option<Vec<(Field, f64)>> {
    let mut numbers = Vec::new();
    for id in bits.ids() {
        let field = bits.known(Field::from_id(id).filter(|field| field.is_sided()))?;
        numbers.push((field, number(bits, field)?));
    }
    Some(numbers)
}

fn sources(bits: &mut Reader<'_>, numbers: &[(Field, Option<f64>)]) -> Option<Sources> {
    let rule: Source = bits.one_of(&ids::SOURCES, 2)?;
    let mut sources = Sources::all(rule);
    let any = bits.bit();
    for (field, _) in numbers {
        let unusual = any && bits.bit();
        let source = if unusual { bits.one_of(&ids::SOURCES, 2)? } else { usual_source(rule, *field) };
        sources.set(*field, source);
    }
    Some(sources)
}

fn spring(bits: &mut Reader<'_>, truck: &mut Stated) -> Option<()> {
    for id in bits.ids() {
        match id {
            ids::spring::KIND => truck.spring = bits.small_of(&ids::SPRING_KINDS)?,
            ids::spring::ARM => truck.arm = bits.small_of(&ids::ARMS)?,
            ids::spring::NAMED => truck.sources.name_spring(),
            _ => return bits.newer(),
        }
    }
    Some(())
}

fn proposals(bits: &mut Reader<'_>) -> Option<Vec<Proposal>> {
    let mut proposals: Vec<Proposal> = Vec::new();
    for _ in 0..bits.small() {
        if proposals.len() == MOST_PROPOSALS {
            return bits.newer();
        }
        let place = u8::try_from(proposals.len()).expect("proposals are few");
        let proposal = proposal(bits, place)?;
        if proposals.iter().any(|other| other.id == proposal.id) {
            return None;
        }
        proposals.push(proposal);
    }
    Some(proposals)
}

fn proposal(bits: &mut Reader<'_>, place: u8) -> Option<Proposal> {
    let mut proposal = Proposal::new(ProposalId(place), String::new());
    // In the order of the link, which may be another one than ours.
    let mut slots = Vec::new();
    for id in bits.ids() {
        match id {
            ids::proposal::ID => proposal.id = ProposalId(bits.byte()),
            ids::proposal::NAME => proposal.name = shared::name(&bits.text(Design::LONGEST_NAME)),
            ids::proposal::REAR_DOWN => {
                let down_mm = Proposal::accept_rear_down(Kind::Length.value(bits.steps()));
                proposal.rear_down_mm = Some(bits.within(down_mm, shared::REAR_DOWN)?);
            }
            ids::proposal::SOURCES => {
                for (kind, place) in &slots {
                    origins(bits, *kind, *place, &mut proposal.sources)?;
                }
            }
            _ => {
                let side = ids::proposal::SIDES.into_iter().find(|(list, _)| *list == id);
                let (_, side) = bits.known(side)?;
                for _ in 0..bits.small() {
                    let change = change(bits)?;
                    let (kind, place) = change.slot();
                    bits.known((side.is_none() || !kind.is_rear()).then_some(()))?;
                    shared::put(&mut proposal, side, change)?;
                    if !slots.contains(&(kind, place)) {
                        slots.push((kind, place));
                    }
                }
            }
        }
    }
    Some(proposal)
}

/// The numbers of a change that are not typed from a part.
fn origins(
    bits: &mut Reader<'_>,
    kind: ChangeKind,
    place: Option<Place>,
    sources: &mut ChangeSources,
) -> Option<()> {
    for id in bits.ids() {
        let at = usize::from(id);
        bits.known(kind.numbers().get(at))?;
        let source = if bits.bit() { Source::Assumed } else { Source::Measured };
        sources.set((kind, place, at), source);
    }
    Some(())
}

fn change(bits: &mut Reader<'_>) -> Option<Change> {
    let kind_id = bits.byte();
    let kind = bits.known(ChangeKind::ALL.into_iter().find(|kind| kind.id() == kind_id))?;
    let place = if bits.bit() {
        let place_id = bits.byte();
        let place = kind.places().iter().find(|place: &&Place| place.id() == place_id);
        Some(*bits.known(place)?)
    } else if kind.places().is_empty() {
        None
    } else {
        return None;
    };
    let usual = defaults::change_values(kind);
    let mut values = usual.clone();
    for id in bits.ids() {
        let index = usize::from(id);
        let number = bits.known(kind.numbers().get(index))?;
        let value = Some(number.kind.value(defaults::change_steps(kind, index) + bits.steps()));
        let mut alone = usual.clone();
        alone[index] = value;
        values[index] = value;
        bits.within(kind.with(place, &alone), number.label())?;
    }
    kind.with(place, &values)
}

fn opening(bits: &mut Reader<'_>, opening: &mut Opening) -> Option<()> {
    for id in bits.ids() {
        match id {
            ids::opening::PROPOSAL => opening.proposal = Some(ProposalId(bits.byte())),
            ids::opening::TRAVEL => {
                let travel = Opening::accept_travel(Kind::Length.value(bits.steps()));
                opening.travel_mm = bits.within(travel, "Travel")?;
            }
            ids::opening::STEER => {
                let steer = Opening::accept_steer(Kind::Angle.value(bits.steps()));
                opening.steer_rad = bits.within(steer, "Steer")?;
            }
            ids::opening::UNITS => {
                opening.units = Some(bits.small_of(&[Units::Inches, Units::Millimetres])?);
            }
            ids::opening::LESSON => opening.lesson = Some(bits.byte()),
            _ => return bits.newer(),
        }
    }
    Some(())
}

#[cfg(test)]
mod tests {
    use super::super::bits::Writer;
    use super::super::write::write;
    use super::*;
    use truck::{RearAxle, RearField};

    /// What is read of bits that follow the ids of one section.
    fn section(id: u8, fill: impl FnOnce(&mut Writer)) -> Result<Shared, LinkError> {
        let mut bits = Writer::default();
        bits.ids(&[id]);
        fill(&mut bits);
        read(&bits.into_bytes())
    }

    /// A proposal of one change, or of the same change several times.
    fn changes(count: u32, change: impl Fn(&mut Writer)) -> Result<Shared, LinkError> {
        section(ids::section::PROPOSALS, |bits| {
            bits.small(1);
            bits.ids(&[ids::proposal::CHANGES]);
            bits.small(count);
            (0..count).for_each(|_| change(bits));
        })
    }

    /// A change of a kind, at a place, with one number so many steps from its default.
    fn change(kind: u32, place: Option<u32>, number: u8, steps: i64) -> impl Fn(&mut Writer) {
        move |bits| {
            bits.small(kind);
            bits.bit(place.is_some());
            place.into_iter().for_each(|place| bits.small(place));
            bits.ids(&[number]);
            bits.steps(steps);
        }
    }

    #[test]
    fn an_id_that_is_not_known_is_newer() {
        let newer = Err(LinkError::Newer);
        let number = |id| section(ids::section::NUMBERS, |bits| (bits.ids(&[id]), bits.steps(1)).1);
        assert_eq!(section(15, |_| {}), newer);
        assert!(section(ids::section::GUESSES, |bits| (bits.small(0), bits.bits(7, 3)).1).is_ok());
        assert_eq!(section(ids::section::GUESSES, |bits| (bits.small(1), bits.bits(0, 3)).1), newer);
        let rear = |id| section(ids::section::REAR, |bits| (bits.ids(&[id]), bits.steps(1)).1);
        assert_eq!(rear(51), newer);
        assert!(rear(50).is_ok());
        let right = |id| section(ids::section::RIGHT, |bits| (bits.ids(&[id]), bits.steps(1)).1);
        assert_eq!(right(Field::Wheelbase.id()), newer);
        assert_eq!(right(124), newer);
        assert!(right(Field::LowerBallZ.id()).is_ok());
        assert!(section(ids::section::BASE, |bits| bits.small(2)).is_ok());
        assert_eq!(section(ids::section::BASE, |bits| bits.small(3)), newer);
        assert_eq!(section(255, |_| {}), newer);
        assert_eq!(number(70), newer);
        assert_eq!(number(82), newer);
        assert_eq!(number(124), newer);
        assert!(number(0).is_ok());
        assert_eq!(section(ids::section::SOURCES, |bits| bits.bits(0b110, 3)), newer);
        assert_eq!(section(ids::section::SPRING, |bits| (bits.ids(&[0]), bits.small(3)).1), newer);
        assert!(section(ids::section::SPRING, |bits| bits.ids(&[2])).is_ok());
        assert_eq!(section(ids::section::SPRING, |bits| bits.ids(&[3])), newer);
        let proposal = |id| section(ids::section::PROPOSALS, |bits| (bits.small(1), bits.ids(&[id])).1);
        assert_eq!(proposal(7), newer);
        assert_eq!(section(ids::section::OPENING, |bits| bits.ids(&[5])), newer);
        assert_eq!(changes(1, change(28, None, 0, 1)), newer);
        assert_eq!(changes(1, change(0, Some(0), 0, 1)), newer);
        assert_eq!(changes(1, change(1, Some(10), 0, 1)), newer);
        assert_eq!(changes(1, change(0, None, 5, 1)), newer);
        assert!(changes(1, change(1, Some(5), 2, 1)).is_ok());
    }

    /// A truck's rear is written as a difference where every number of the base is stated, whatever it is, and
    /// in full where one is not.
    #[test]
    fn a_rear_that_lacks_a_number_of_the_base_is_written_in_full() {
        let base_of = |shared: &Shared| {
            let payload = write(shared);
            let base = whole(&mut Reader::new(&payload)).unwrap().truck.base;
            assert_eq!(read(&payload).as_ref(), Ok(shared));
            base
        };
        let with_rear = section(ids::section::BASE, |bits| bits.small(2)).unwrap();
        assert_eq!(base_of(&with_rear), Base::WithRear);
        for field in RearField::ALL.into_iter().filter(|field| field.id() < 39) {
            let stated = |value| {
                let mut other = with_rear.clone();
                other.design.truck.rear.put(field, value).unwrap();
                base_of(&other)
            };
            let (low, high) = field.limits();
            let core = |value: f64| if field.kind() == Kind::Angle { value.to_radians() } else { value };
            assert_eq!(stated(Some(core(low))), Base::WithRear, "{field:?}");
            assert_eq!(stated(Some(core(high))), Base::WithRear, "{field:?}");
            assert_eq!(stated(None), Base::Whole, "{field:?}");
        }
        let mut none = with_rear.clone();
        none.design.truck.rear = RearAxle::UNKNOWN;
        assert_eq!(base_of(&none), Base::Whole);
        // As every whole rear was written before there was that base.
        let mut bits = Writer::default();
        bits.ids(&[ids::section::PROPOSALS, ids::section::BASE, ids::section::REAR]);
        bits.small(0);
        bits.small(1);
        bits.ids(&(0..39).collect::<Vec<_>>());
        (0..39).for_each(|_| bits.steps(0));
        let mut before = with_rear;
        before.design.proposals.clear();
        for field in RearField::ALL.into_iter().filter(|field| field.id() < 39) {
            let value = field.kind().value(defaults::rear_steps(field));
            before.design.truck.rear.put(field, Some(value)).unwrap();
        }
        assert_eq!(read(&bits.into_bytes()).as_ref(), Ok(&before));
        assert_eq!(base_of(&before), Base::WithRear);
    }

    #[test]
    fn more_than_a_design_holds_is_newer() {
        let newer = Err(LinkError::Newer);
        let four = |bits: &mut Writer| {
            bits.small(4);
            (0..4).for_each(|_| bits.ids(&[]));
        };
        assert_eq!(section(ids::section::PROPOSALS, four), newer);
        assert_eq!(section(ids::section::TITLE, |bits| bits.text(&"t".repeat(81))), newer);
        assert_eq!(section(ids::section::NOTE, |bits| bits.text(&"t".repeat(2001))), newer);
        // What follows the last section that is known.
        assert_eq!(section(ids::section::TITLE, |bits| (bits.text("t"), bits.bits(1, 20)).1), newer);
    }

    #[test]
    fn a_number_that_cannot_be_entered_is_named() {
        let number = |field: Field, steps| {
            section(ids::section::NUMBERS, |bits| (bits.ids(&[field.id()]), bits.steps(steps)).1)
        };
        let named = |label| Err(LinkError::OutOfLimits(label));
        assert_eq!(number(Field::BumpGap, -3000), named("Daylight at the bump stop, at rest"));
        assert_eq!(number(Field::Camber, 1501), named("Camber, + top out"));
        assert_eq!(number(Field::Camber, 4_300_000), named("Camber, + top out"));
        assert!(number(Field::Camber, 1500).is_ok());
        let right = |bits: &mut Writer| (bits.ids(&[Field::Camber.id()]), bits.steps(1501)).1;
        assert_eq!(section(ids::section::RIGHT, right), named("Camber, + top out"));
        assert_eq!(changes(1, change(0, None, 0, 20_001)), named("Drop, pin higher on the knuckle"));
        assert_eq!(changes(1, change(4, None, 1, 26)), named("Aspect"));
        let travel = |bits: &mut Writer| (bits.ids(&[ids::opening::TRAVEL]), bits.steps(100_001)).1;
        assert_eq!(section(ids::section::OPENING, travel), named("Travel"));
    }

    #[test]
    fn what_contradicts_itself_is_unreadable() {
        let unreadable = Err(LinkError::Unreadable);
        assert_eq!(changes(2, change(0, None, 0, 1)), unreadable);
        assert_eq!(changes(1, change(1, None, 0, 1)), unreadable);
        let twice = |bits: &mut Writer| {
            bits.small(2);
            bits.ids(&[]);
            bits.ids(&[ids::proposal::ID]);
            bits.small(0);
        };
        assert_eq!(section(ids::section::PROPOSALS, twice), unreadable);
        let no_text = |bits: &mut Writer| (bits.small(1), bits.bits(0xff, 8)).1;
        assert_eq!(section(ids::section::TITLE, no_text), unreadable);
        assert_eq!(section(ids::section::NOTE, |bits| bits.small(30)), unreadable);
    }

    #[test]
    fn a_strangers_text_loses_what_steers_a_screen() {
        let read = section(ids::section::TITLE, |bits| bits.text("a\u{1b}[31m\n\u{202e}b")).unwrap();
        assert_eq!(read.design.title, "a[31mb");
    }
}
