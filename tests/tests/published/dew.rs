//! Dew points, and the three degrees that a surface must be above.

use crate::table::{missed, near, number, rows};
use mistcoat::air::dew_point;
use mistcoat::film::FilmMap;
use mistcoat::job::{Job, with_key};
use mistcoat::judge::{Film, Verdict, judge};

/// Table entries further off than its cutting explains: air C, humidity %, model less table [C].
const MISSES: [(f64, f64, f64); 11] = [
    (50.0, 30.0, 1.69),
    (45.0, 30.0, 1.42),
    (45.0, 40.0, 1.27),
    (45.0, 60.0, -0.57),
    (45.0, 80.0, -0.26),
    (40.0, 30.0, 1.13),
    (35.0, 40.0, 1.38),
    (35.0, 50.0, 2.02),
    (35.0, 60.0, 1.07),
    (25.0, 30.0, 1.21),
    (10.0, 60.0, 1.58),
];

/// Whole degrees, cut off: the dew point lies between an entry and one more.
#[test]
fn dew_points_of_a_published_table() {
    let mut misses = Vec::new();
    let mut held = 0;
    for row in rows("dew-point/table.csv") {
        let row: Vec<f64> = row.iter().map(|c| number(c)).collect();
        for (k, &table) in row[1..].iter().enumerate() {
            let humidity = 30.0 + 10.0 * k as f64;
            let dew = dew_point(273.15 + row[0], humidity / 100.0).unwrap() - 273.15;
            let off = dew - table;
            // Below zero a whole degree is cut towards zero or away from it: both are seen in this table.
            let cut = if table < 0.0 { -1.0 } else { 0.0 };
            if (cut - 0.15..1.05).contains(&off) {
                held += 1;
            } else {
                misses.push((row[0], humidity, (100.0 * off).round() / 100.0));
            }
        }
    }
    assert!(misses == MISSES, "{misses:?}");
    assert!(held == 61, "{held}");
    for (air, humidity, off) in &misses {
        let dew = dew_point(273.15 + air, humidity / 100.0).expect("air") - 273.15;
        missed(
            &format!("dew point, {air} C, {humidity:.0} % [C]"),
            dew,
            (dew - off).round(),
            "published table, whole degrees (seen)",
        );
    }
    // Single entries with a tenth or a whole degree, each seen beside its air: 30 C 55 %, 24 C 35 % (in F: 75 F, 45 F), 16 C 71 %;
    // 20 C 50 % from psychrometric tables, from memory.
    for (air, humidity, published, within, source) in [
        (30.0, 0.55, 20.0, 0.5, "a coating maker's glossary, seen"),
        (23.9, 0.35, 7.2, 0.5, "a coating maker's chart, seen"),
        (16.0, 0.71, 11.0, 0.5, "a manual on application conditions, seen"),
        (20.0, 0.50, 9.3, 0.06, "psychrometric tables, from memory"),
        (20.0, 0.80, 16.4, 0.06, "psychrometric tables, from memory"),
        (25.0, 0.60, 16.7, 0.06, "psychrometric tables, from memory"),
    ] {
        let dew = dew_point(273.15 + air, humidity).unwrap() - 273.15;
        near(&format!("dew point, {air} C, {:.0} % [C]", humidity * 100.0), dew, published, within, source);
    }
}

/// Surface at least 3 C above: worked examples of a manual on application conditions (seen).
#[test]
fn three_degrees_above_the_dew_point() {
    let base = "version = 1\n[gun]\nkit = \"hvlp-gravity-1.3\"\n[paint]\nkind = \"two-pack-clear\"\n[part]\npanel = { width = \"600 mm\", \
                height = \"400 mm\" }\n[stroke]\ndistance = \"180 mm\"\nspeed = \"450 mm/s\"\n";
    // Air, humidity, surface, verdict. 21 C with 17 C wet bulb is a dew point of 15 C in the manual: 68.6 % (computed).
    for (air, humidity, surface, verdict) in [
        ("21 C", "68.6 %", "19 C", Verdict::Pass),
        ("16 C", "71 %", "13 C", Verdict::Fail),
        ("20 C", "50 %", "12.3 C", Verdict::Pass),
        ("20 C", "50 %", "12.2 C", Verdict::Fail),
        ("25 C", "90 %", "10 C", Verdict::Fail),
    ] {
        let mut text = base.to_string();
        for (key, value) in
            [("booth.temperature", air), ("booth.humidity", humidity), ("part.temperature", surface)]
        {
            text = with_key(&text, key, value).unwrap();
        }
        let job = Job::from_toml(&text).unwrap();
        let bare = FilmMap::bare(4, 4, 0.1, 0.1);
        let film =
            Film { landed: &bare, dry: &bare.dry, fresh_wet: &bare.wet, fresh_dry: &bare.dry, droplets: 0 };
        let dew = judge(film, &job).dew.unwrap();
        assert_eq!(dew.verdict, verdict, "{air} {humidity} {surface}: {dew:?}");
    }
    // Without vapour there is no dew point, and nothing is said.
    let dry = Job::from_toml(&with_key(base, "booth.humidity", "0 %").unwrap()).unwrap();
    let bare = FilmMap::bare(4, 4, 0.1, 0.1);
    let film =
        Film { landed: &bare, dry: &bare.dry, fresh_wet: &bare.wet, fresh_dry: &bare.dry, droplets: 0 };
    assert!(judge(film, &dry).dew.is_none());
}
