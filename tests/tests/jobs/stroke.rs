//! Hands, plans and recorded tracks in the job file.

use mistcoat::job::{Job, LONGEST_TEXT, LONGEST_WITH_TRACK, PassOrder};
use mistcoat::stroke::{Hand, MOST_MOMENTS};

fn read(stroke: &str) -> Result<Job, mistcoat::job::JobError> {
    Job::from_toml(&format!(
        "version = 1\n[gun]\nkit = \"hvlp-gravity-1.3\"\n[paint]\nkind = \"two-pack-clear\"\n[part]\npanel = {{ width = \"600 mm\", \
         height = \"400 mm\" }}\n[stroke]\ndistance = \"180 mm\"\n{stroke}\n"
    ))
}

const SPEED: &str = "speed = \"450 mm/s\"\n";

#[test]
fn a_hand_is_a_word_or_figures() {
    let hand = |text: &str| read(&format!("{SPEED}{text}")).unwrap_or_else(|e| panic!("{e}")).stroke.hand;
    assert!(hand("").is_machine());
    assert_eq!(hand("hand = \"steady\""), Hand::named("steady").expect("known"));
    let own = hand(
        "hand = { aim = \"10 mm\", speed = \"7 %\", pivot = \"600 mm\", heel = \"5 deg\", drift = \"-20 mm\" }",
    );
    let wanted = Hand {
        aim: 0.01,
        speed: 0.07,
        distance: 0.0,
        pivot: Some(0.6),
        heel: 5f64.to_radians(),
        drift: -0.02,
    };
    assert!((own.heel - wanted.heel).abs() < 1e-12 && Hand { heel: wanted.heel, ..own } == wanted, "{own:?}");
    assert_eq!(read(&format!("{SPEED}plan = \"cross\"")).expect("a plan").stroke.order, PassOrder::Cross);
}

#[test]
fn bad_hands_plans_and_tracks_are_refused_by_key_and_row() {
    let rows = |text: &str| format!("track = [{text}]");
    let good = "[0, 0, 0, 180, 0, 0, 1]";
    for (text, key, said) in [
        (format!("{SPEED}hand = \"stedy\""), "stroke.hand", "did you mean \"steady\"?"),
        (format!("{SPEED}hand = {{ aim = \"1 m\" }}"), "stroke.hand.aim", "0 to 200 mm"),
        (format!("{SPEED}hand = {{ aim = 10 }}"), "stroke.hand.aim", "the unit is missing"),
        (format!("{SPEED}hand = {{ wobble = 1 }}"), "stroke.hand.wobble", "there is no such key"),
        (format!("{SPEED}heel = \"60 deg\""), "stroke.heel", "-40 to 40 deg"),
        (rows(good), "stroke.track", "2 to 40000 moments"),
        (rows(&format!("{good}, [1, 2, 3]")), "stroke.track", "row 2: it has 3 numbers"),
        (rows(&format!("{good}, [1, 0, 0, nan, 0, 0, 0]")), "stroke.track", "row 2"),
        (rows(&format!("{good}, [1, 0, 0, 5, 0, 0, 0]")), "stroke.track", "row 2, distance is 5 mm"),
        (rows("[3, 0, 0, 180, 0, 0, 1], [1, 0, 0, 180, 0, 0, 0]"), "stroke.track", "row 2, time is 1 s"),
        (rows("[0, 0, 0, 180, 0, 0, 0], [1, 0, 0, 180, 0, 0, 0]"), "stroke.track", "never pulled"),
        (rows(&format!("{good}, \"x\"")), "stroke.track", "row 2: it is text"),
        (
            format!("burst = \"1 s\"\n{}", rows(&format!("{good}, [1, 0, 0, 180, 0, 0, 0]"))),
            "stroke.track",
            "holds the gun still",
        ),
    ] {
        let error = read(&text).expect_err(&text);
        assert_eq!(error.key, key, "{error}");
        assert!(error.to_string().contains(said), "{said}: {error}");
    }
}

#[test]
fn a_long_track_is_read_and_a_longer_one_refused() {
    let track = |rows: usize| {
        let row = |i: usize| {
            format!("[{:.3}, {:.1}, 12.5, 180.0, 0.0, 0.0, 1]", i as f64 * 0.016, (i % 600) as f64)
        };
        format!("track = [{}]", (0..rows).map(row).collect::<Vec<_>>().join(","))
    };
    let long = track(MOST_MOMENTS);
    assert!((LONGEST_TEXT..LONGEST_WITH_TRACK).contains(&long.len()), "{}", long.len());
    let job = read(&long).unwrap_or_else(|e| panic!("{e}"));
    assert_eq!(job.track.expect("a track").moments().len(), MOST_MOMENTS);
    let error = read(&track(MOST_MOMENTS + 1)).expect_err("too long");
    assert!(error.to_string().contains("40001 rows") && error.to_string().len() < 2000, "{error}");
}
