//! There and back, over random designs and random bytes.

use crate::generate::{any_design, any_shared, shared};
use proptest::collection::vec;
use proptest::prelude::*;
use sharing::fuzz::{fuzz_file, fuzz_link};
use sharing::{find_code, from_code, from_tree, link, to_code, to_tree};
use truck::{Design, Field};
use yardstick::cases;

/// Every number of a design as bits: equality alone takes −0 for 0.
fn bits(design: &Design) -> Vec<Option<u64>> {
    let truck = Field::ALL.iter().map(|field| field.get(&design.truck));
    let changes = design.proposals.iter().flat_map(truck::Proposal::changes).flat_map(truck::Change::values);
    let rears = design.proposals.iter().map(|proposal| proposal.rear_down_mm);
    let axle = design.truck.rear.iter().map(|(_, value)| Some(value));
    let readings = design.truck.readings.iter().chain(design.built.iter()).chain(design.settled.iter());
    let readings =
        readings.flat_map(|(.., reading)| [Some(reading.value), Some(reading.tolerance), reading.swept_rad]);
    truck
        .chain(changes)
        .chain(rears)
        .chain(axle)
        .chain(readings)
        .map(|value| value.map(f64::to_bits))
        .collect()
}

proptest! {
    #![proptest_config(cases(250))]

    #[test]
    fn a_design_made_by_edits_is_the_same_behind_a_link_and_in_a_file(design in any_design()) {
        let given = shared(design);
        let code = to_code(&given);
        for read in [from_code(&code).unwrap(), from_tree(&to_tree(&given)).unwrap()] {
            prop_assert_eq!(&read, &given);
            prop_assert_eq!(bits(&read.design), bits(&given.design));
        }
    }

    #[test]
    fn what_the_sender_saw_comes_along_and_the_code_stays_the_same(given in any_shared()) {
        let code = to_code(&given);
        let read = from_code(&code).unwrap();
        prop_assert_eq!(&read, &given);
        prop_assert_eq!(to_code(&read), code.clone());
        prop_assert_eq!(to_code(&from_tree(&to_tree(&given)).unwrap()), code.clone());
        prop_assert_eq!(find_code(&link("https://example.org/pickups/", &code)), Ok(given));
    }
}

proptest! {
    #![proptest_config(cases(1000))]

    #[test]
    fn any_bytes_give_a_design_or_a_sentence(bytes in vec(any::<u8>(), 0..400)) {
        fuzz_link(&bytes);
        fuzz_file(&bytes);
    }

    /// Payloads of few ones reach deeper than noise does.
    #[test]
    fn sparse_bytes_give_a_design_or_a_sentence(
        bytes in vec(prop_oneof![Just(0_u8), Just(0x80), Just(0xff), Just(0x92), any::<u8>()], 0..60),
    ) {
        fuzz_link(&bytes);
        fuzz_file(&bytes);
    }

    #[test]
    fn any_text_gives_a_design_or_a_sentence(text in "\\PC{0,300}", digits in "[1-9A-Za-z#/= \n>]{0,200}") {
        fuzz_link(text.as_bytes());
        fuzz_link(digits.as_bytes());
    }
}
