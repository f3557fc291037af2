//! The file: what is read, what is said, and a published car in it.

use crate::generate::{edited, shared};
use measure::Units;
use sharing::{FileError, Opening, Shared, Tree, from_code, from_tree, print_json, to_code, to_tree};
use truck::{Change, ChangeKind, DroppedSpindle, Edit, Field, ProposalId, Source, demo};

/// Reads JSON text with a library, as the command does.
pub(crate) fn parse(text: &str) -> Tree {
    fn tree(value: serde_json::Value) -> Tree {
        use serde_json::Value;
        match value {
            Value::Null => Tree::Null,
            Value::Bool(value) => Tree::Bool(value),
            Value::Number(number) => Tree::Number(number.as_f64().unwrap()),
            Value::String(text) => Tree::Text(text),
            Value::Array(items) => Tree::List(items.into_iter().map(tree).collect()),
            Value::Object(members) => {
                Tree::Object(members.into_iter().map(|(key, value)| (key, tree(value))).collect())
            }
        }
    }
    tree(serde_json::from_str(text).unwrap())
}

/// The code that says nothing: a version and its check.
const EMPTY: &str = "147bV";

fn read(text: &str) -> Result<Shared, FileError> {
    from_tree(&parse(text))
}

#[test]
fn text_there_and_back() {
    let design = edited(
        &demo(),
        [
            Edit::Title("Brücke \"1\" \\ 卡车".to_owned()),
            Edit::Note("one\ntwo".to_owned()),
            Edit::MeasureAll(vec![(Field::LowerBallY, 650.01), (Field::Camber, -0.35_f64.to_radians())]),
            Edit::Measure { field: Field::TireDiameter, value: Some(652.5) },
            Edit::Source(Field::BarLength, Source::Assumed),
        ],
    );
    let opening = Opening {
        proposal: Some(ProposalId(0)),
        travel_mm: 25.4,
        steer_rad: -12.25_f64.to_radians(),
        units: Some(Units::Millimetres),
        lesson: Some(3),
    };
    let given = Shared { design, opening }.kept();
    let text = print_json(&to_tree(&given));
    assert_eq!(read(&text), Ok(given.clone()));
    assert_eq!(from_code(&to_code(&given)), Ok(given));
    for line in [
        "\"scrubline\": 1,",
        "\"lower_ball\": { \"x\": 3, \"y\": 650.01, \"z\": 228 },",
        "\"alignment\": { \"camber\": -0.35, \"toe\": 0 },",
        "\"other\": { \"bar_length\": \"assumed\" }",
        "\"note\": \"one\\ntwo\",",
    ] {
        assert!(text.contains(line), "{line} is not in\n{text}");
    }
}

/// What a file leaves out is the default; text and proposals are simply not there.
#[test]
fn the_shortest_file() {
    let found = read("{\"scrubline\": 1}").unwrap();
    assert_eq!(found.design.truck, from_code(EMPTY).unwrap().design.truck);
    assert_eq!((found.design.title.as_str(), found.design.proposals.len()), ("", 0));
    assert_eq!(found.opening, Opening::default());
}

#[test]
fn a_rear_that_comes_down_too_far_is_refused() {
    let said = read("{\"scrubline\": 1, \"proposals\": [{\"rear_down\": 301}]}").unwrap_err().to_string();
    let wanted = "The file gives a number outside what can be entered: \
                  proposals[0].rear_down (Rear comes down by) takes -150 to 300.";
    assert_eq!(said, wanted);
}

/// What cannot be read is refused where it stands, with what can be.
#[test]
fn a_reading_that_is_none_is_refused_at_its_place() {
    let said = |side: &str, reading: &str| {
        let text =
            format!("{{\"scrubline\": 1, \"truck\": {{\"readings\": {{\"{side}\": {{{reading}}}}}}}}}");
        read(&text).unwrap_err().to_string()
    };
    let outside = |place: &str, label: &str, takes: &str| {
        "The file gives a number outside what can be entered: truck.readings.".to_owned()
            + &format!("{place} ({label}) takes {takes}.")
    };
    let fender = "\"tire_to_fender\": {\"value\": 54";
    assert_eq!(
        said("left", "\"tire_to_fender\": {\"value\": -0.5}"),
        outside("left.tire_to_fender.value", "tire to fender", "0 to 500")
    );
    for tolerance in ["0", "1000", "-2"] {
        assert_eq!(
            said("right", &format!("{fender}, \"tolerance\": {tolerance}}}")),
            outside("right.tire_to_fender.tolerance", "tire to fender", "0.05 to 10")
        );
    }
    assert_eq!(
        said("left", "\"caster_ground\": {\"value\": 2, \"swept\": 0}"),
        outside("left.caster_ground.swept", "Caster, against the ground", "5 to 40")
    );
    let newer = |place: &str| {
        format!("The file was made by a newer Scrubline: “truck.readings.{place}” is not known here.")
    };
    assert_eq!(said("left", "\"tire_to_mirror\": {\"value\": 5}"), newer("left.tire_to_mirror"));
    assert_eq!(said("left", &format!("{fender}, \"swept\": 20}}")), newer("left.tire_to_fender.swept"));
    assert_eq!(said("middle", ""), newer("middle"));
    assert_eq!(
        said("left", &format!("{fender}, \"tool\": \"shop\"}}")),
        newer("left.tire_to_fender.tool: shop")
    );
    let shape = said("left", "\"camber\": {\"tool\": \"shop\"}");
    assert!(
        shape.contains("truck.readings.left.camber must be an object that names its \"value\""),
        "{shape}"
    );
}

#[test]
fn what_is_said_of_a_bad_file() {
    for (text, said) in [
        ("{}", "This is not a Scrubline file: it has no \"scrubline\": 1."),
        ("[1]", "The file has the wrong shape: the whole must be an object."),
        ("{\"scrubline\": 2}", "The file was made by a newer Scrubline: “scrubline” is not known here."),
        ("{\"scrubline\": \"1\"}", "The file has the wrong shape: scrubline must be a number."),
        (
            "{\"scrubline\": 1, \"wheels\": 5}",
            "The file was made by a newer Scrubline: “wheels” is not known here.",
        ),
        (
            "{\"scrubline\": 1, \"truck\": {\"points\": {\"lower_ball\": {\"y\": \"far\"}}}}",
            "The file has the wrong shape: truck.points.lower_ball.y must be a number.",
        ),
        (
            "{\"scrubline\": 1, \"truck\": {\"points\": {\"lower_ball\": {\"y\": null}}}}",
            "The file has the wrong shape: truck.points.lower_ball.y must be a number.",
        ),
        (
            "{\"scrubline\": 1, \"truck\": {\"points\": {\"lower_ball\": {\"w\": 1}}}}",
            "The file was made by a newer Scrubline: “truck.points.lower_ball.w” is not known here.",
        ),
        (
            "{\"scrubline\": 1, \"truck\": {\"stops\": {\"bump_gap\": 301}}}",
            "The file gives a number outside what can be entered: \
             truck.stops.bump_gap (Daylight at the bump stop, at rest) takes 0 to 300.",
        ),
        (
            "{\"scrubline\": 1, \"truck\": {\"stops\": {\"lower_ball_y\": 301}}}",
            "The file was made by a newer Scrubline: “truck.stops.lower_ball_y” is not known here.",
        ),
        (
            "{\"scrubline\": 1, \"truck\": {\"spring\": {\"kind\": \"air\"}}}",
            "The file was made by a newer Scrubline: “truck.spring.kind: air” is not known here.",
        ),
        ("{\"scrubline\": 1, \"proposals\": [{}, {\"id\": 0}]}", "The file has proposals[1].id twice."),
        (
            "{\"scrubline\": 1, \"proposals\": [{}, {}, {}, {}]}",
            "The file has more than a design can hold in proposals.",
        ),
        (
            "{\"scrubline\": 1, \"proposals\": [{\"changes\": [{\"change\": \"moved_pivot\", \"up\": 5}]}]}",
            "The file has the wrong shape: proposals[0].changes[0] must be an object that names its \"place\".",
        ),
        (
            "{\"scrubline\": 1, \"proposals\": [{\"changes\": [{\"change\": \"dropped_spindle\", \"drop\": 500}]}]}",
            "The file gives a number outside what can be entered: \
             proposals[0].changes[0].drop (Drop, pin higher on the knuckle) takes -150 to 200.",
        ),
        (
            "{\"scrubline\": 1, \"proposals\": [{\"changes\": [{\"change\": \"cut_coil\"}, {\"change\": \"cut_coil\"}]}]}",
            "The file has proposals[0].changes[1] twice.",
        ),
    ] {
        assert_eq!(read(text).unwrap_err().to_string(), said);
    }
    let long = format!("{{\"scrubline\": 1, \"title\": \"{}\"}}", "t".repeat(81));
    assert_eq!(read(&long), Err(FileError::TooLong("title".to_owned())));
}

#[test]
fn twice_the_same_key_is_said() {
    let twice = |key: &str| {
        let one = (key.to_owned(), Tree::Text("t".to_owned()));
        Tree::Object(vec![("scrubline".to_owned(), Tree::Number(1.0)), one.clone(), one])
    };
    assert_eq!(from_tree(&twice("title")), Err(FileError::Twice("title".to_owned())));
    // A stranger's key is repeated in part only, and without what steers a screen.
    let said = from_tree(&twice(&"\u{7}k".repeat(5000))).unwrap_err().to_string();
    assert!(said.len() < 100 && !said.contains('\u{7}'), "{said}");
}

#[test]
fn depth_and_size_are_bounded() {
    let mut deep = Tree::Null;
    for _ in 0..20_000 {
        deep = Tree::List(vec![deep]);
    }
    let marked = |tree: Tree| {
        Tree::Object(vec![("scrubline".to_owned(), Tree::Number(1.0)), ("title".to_owned(), tree)])
    };
    let deep = marked(deep);
    assert_eq!(from_tree(&deep), Err(FileError::TooLarge));
    // Dropped level by level: the standard drop would recurse as deep as the tree.
    let mut rest = vec![deep];
    while let Some(tree) = rest.pop() {
        match tree {
            Tree::List(items) => rest.extend(items),
            Tree::Object(members) => rest.extend(members.into_iter().map(|(_, tree)| tree)),
            _ => {}
        }
    }
    assert_eq!(from_tree(&marked(Tree::List(vec![Tree::Null; 20_000]))), Err(FileError::TooLarge));
}

#[test]
fn numbers_that_json_cannot_say_are_refused() {
    for value in [f64::NAN, f64::INFINITY, -1.0, 1.5, 256.0] {
        let tree = Tree::Object(vec![("scrubline".to_owned(), Tree::Number(value))]);
        assert!(matches!(from_tree(&tree), Err(FileError::Shape { .. })), "{value}");
    }
}

/// The car of Rill & Castro, *Road Vehicle Dynamics: Fundamentals and Modeling*,
/// CRC Press, double-wishbone listing, its points in millimetres and raised by
/// the loaded radius of 285 mm so that the contact is at zero.
#[test]
fn the_published_car_is_a_file() {
    let text = r#"{
      "scrubline": 1,
      "title": "Published car",
      "truck": {
        "points": {
          "wheel_centre": { "x": 0, "y": 768, "z": 285 },
          "lower_front": { "x": 148, "y": 320, "z": 191 },
          "lower_rear": { "x": -251, "y": 320, "z": 205 },
          "lower_ball": { "x": 13, "y": 737, "z": 140 },
          "upper_front": { "x": 122, "y": 435, "z": 515 },
          "upper_rear": { "x": -105, "y": 435, "z": 481 },
          "upper_ball": { "x": -25, "y": 680, "z": 447 },
          "tie_inner": { "x": -150, "y": 380, "z": 247 },
          "tie_outer": { "x": -137, "y": 690, "z": 197 }
        },
        "alignment": { "camber": 0.8, "toe": 0 }
      }
    }"#;
    let car = read(text).unwrap().design;
    let points = &car.truck.points;
    assert_eq!(points.lower.rear.coords.as_slice(), [-251.0, 320.0, 205.0]);
    assert_eq!(points.tie_outer.coords.as_slice(), [-137.0, 690.0, 197.0]);
    assert!((points.camber_rad.to_degrees() - 0.8).abs() < 1e-12);
    assert_eq!(from_code(&to_code(&shared(car.clone()))), Ok(shared(car)));
}

#[test]
fn a_change_without_its_numbers_has_its_defaults() {
    let found = read(
        "{\"scrubline\": 1, \"proposals\": [{\"name\": \"p\", \"changes\": [
           {\"change\": \"tire_swap\", \"section\": 205}, {\"change\": \"dropped_spindle\", \"drop\": 50.8}]}]}",
    )
    .unwrap();
    let changes = found.design.proposals[0].changes();
    let spindle = DroppedSpindle { drop_mm: 50.8, ..DroppedSpindle::default() };
    assert_eq!(changes[0], Change::DroppedSpindle(spindle));
    assert_eq!(changes[1].kind(), ChangeKind::TireSwap);
    let numbers = [Some(205.0), Some(75.0), Some(14.0), Some(139.7), Some(0.0), None, None];
    assert_eq!(changes[1].values(), numbers);
}
