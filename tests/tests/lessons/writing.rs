//! Lessons are short, ask, and are linked to the designs that they speak of.

use crate::{DOCUMENT, LESSONS, code, design, words, written};

/// The link stands in the document as text; where a design has changed, the new one is said here.
#[test]
fn each_is_a_link_to_its_design() {
    for lesson in 1..=LESSONS {
        let (found, _) = written(lesson).unwrap();
        let wanted = code(design(lesson));
        assert_eq!(found, wanted, "data-code of words-lesson-{lesson}");
        assert_eq!(sharing::from_code(&found).unwrap().design, design(lesson), "{lesson}");
    }
    assert!(written(LESSONS + 1).is_none(), "a lesson without a design");
    assert_eq!(DOCUMENT.matches("data-code=").count(), LESSONS);
}

#[test]
fn five_to_eight_short_steps_and_something_to_guess() {
    for lesson in 1..=LESSONS {
        let (_, steps) = written(lesson).unwrap();
        assert!((5..=8).contains(&steps.len()), "{lesson} has {} steps", steps.len());
        let mut asking = 0;
        for (at, step) in (1..).zip(steps) {
            for text in [&step.asked, &step.answer] {
                assert!(words(text) <= 35, "{lesson}-{at} has {} words: {text}", words(text));
            }
            assert!(words(&step.asked) >= 8, "{lesson}-{at}: {}", step.asked);
            // Numbers come from the model: no measure is written out.
            let literal =
                |text: &str| text.contains(" in ") && text.contains(char::is_numeric) && text.contains('/');
            assert!(!literal(&step.asked) && !literal(&step.answer), "{lesson}-{at}");
            if step.markup.contains("data-ask") {
                asking += 1;
                assert_eq!(step.choices.len(), 3, "{lesson}-{at}");
                assert!(step.choices.iter().all(|choice| (1..=5).contains(&words(choice))), "{lesson}-{at}");
                for sign in ["-1", "0", "1"] {
                    assert_eq!(
                        step.markup.matches(&format!("data-if=\"{sign}\"")).count(),
                        1,
                        "{lesson}-{at}"
                    );
                }
                assert!(step.markup.contains("data-verdict") && words(&step.answer) > 8, "{lesson}-{at}");
                assert!(step.answer.contains(" 0 "), "{lesson}-{at}: the answer has a number of the model");
            }
        }
        assert!(asking >= 2, "{lesson} asks {asking} times");
    }
}
