//! Patterns are named off the film alone: how often rightly, which way each knob and each fault goes, and what turning the cap tells.

use mistcoat::gun::{Fault, Faults, GunSetting};
use mistcoat::job::Job;
use mistcoat::report::{CurtainKind, Pattern, PatternKind, curtain_shape, flood_test};
use mistcoat_tests::names_table::{SEED, SETTINGS, named, page, right};
use mistcoat_tests::patterns::sprayed;

const DROPLETS: u64 = 60_000;

/// 200 random settings, seed used for nothing else: at least 90 of 100 right away from borders, and the docs show the table.
#[test]
fn names_are_right_and_the_docs_show_how_often() {
    let cards = named(SEED, SETTINGS);
    let (good, clear) = right(&cards);
    let missed: Vec<_> = cards.iter().filter(|c| !c.truth.border && c.name != Some(c.truth.kind)).collect();
    assert!(clear >= SETTINGS / 2, "only {clear} stand clear of a border");
    assert!(10 * good >= 9 * clear, "{good} of {clear}: {missed:#?}");
    let docs = include_str!("../../../docs/methods/pattern-names.md");
    assert!(
        docs == page(&cards),
        "docs/methods/pattern-names.md is old: cargo run --release -p mistcoat-tests --bin pattern_names"
    );
}

fn job(kit: &str) -> Job {
    let paint = mistcoat::catalogue::kit(kit).unwrap().rated_paint;
    let text = format!(
        "version = 1\ngun.kit = \"{kit}\"\npaint.kind = \"{paint}\"\n\
         part.panel = {{ width = \"600 mm\", height = \"600 mm\" }}\nstroke = {{ distance = \"190 mm\", burst = \"1 s\" }}\n"
    );
    Job::from_toml(&text).unwrap_or_else(|e| panic!("{kit}: {e}"))
}

fn pattern(job: &Job) -> Pattern {
    let (prepared, card) = sprayed(job, DROPLETS).unwrap_or_else(|e| panic!("{e}"));
    Pattern::on(&card, prepared.spray.volume_flow).expect("a film")
}

#[test]
fn every_kit_with_a_fan_is_balanced_as_rated_and_each_knob_goes_its_way() {
    for data in mistcoat::catalogue::kits() {
        let kit = data.kit();
        if !kit.has_fan() {
            continue;
        }
        let rated = job(&kit.id);
        let now = pattern(&rated);
        assert_eq!(now.kind, PatternKind::Balanced, "{}: {:?}", kit.id, now.reading);
    }
    for id in ["hvlp-gravity-1.3", "lvlp-gravity-1.2", "conventional-gravity-1.4", "compliant-gravity-1.3"] {
        let rated = job(id);
        let with = |change: &dyn Fn(&mut Job)| {
            let mut job = rated.clone();
            change(&mut job);
            let p = pattern(&job);
            (p.kind, format!("{id}: {:?}", p.reading))
        };
        let (kind, what) = with(&|j| j.gun.fluid *= 0.5);
        assert_eq!(kind, PatternKind::Split, "half the fluid, {what}");
        let (kind, what) =
            with(&|j| j.gun.inlet_pressure = (1.5 * j.gun.inlet_pressure).min(j.kit.highest_pressure));
        assert_eq!(kind, PatternKind::Split, "more pressure, {what}");
        let (kind, what) = with(&|j| j.gun.fan = 0.5);
        assert_eq!(kind, PatternKind::HeavyCentre, "fan closed to half, {what}");
        let (kind, what) = with(&|j| {
            j.paint.viscosity *= 2.0;
            j.paint.viscosity_high_shear *= 2.0;
        });
        assert_eq!(kind, PatternKind::HeavyCentre, "twice the viscosity, {what}");
    }
}

fn faulty(fault: Fault, cap_turn: f64) -> Job {
    let mut job = job("hvlp-gravity-1.3");
    job.gun = GunSetting { faults: Faults::NONE.with(fault), cap_turn: cap_turn.to_radians(), ..job.gun };
    job
}

/// Where the mark lies on the card: to the right and up.
fn mark(fault: Fault, cap_turn: f64, wanted: PatternKind) -> [f64; 2] {
    let p = pattern(&faulty(fault, cap_turn));
    assert_eq!(p.kind, wanted, "{fault:?} at {cap_turn}: {:?}", p.reading);
    p.toward_on_card(cap_turn.to_radians()).expect("a side").map(f64::round)
}

/// Belly towards the blocked hole; half a turn of the cap takes it to the other side, a quarter up or down.
#[test]
fn a_crescent_bulges_towards_the_blocked_hole_and_turns_with_the_cap() {
    for (fault, side) in [(Fault::HornLeftBlocked, -1.0), (Fault::HornRightBlocked, 1.0)] {
        assert_eq!(mark(fault, 0.0, PatternKind::Crescent), [side, 0.0]);
        assert_eq!(mark(fault, 180.0, PatternKind::Crescent), [-side, 0.0]);
        // The cap turned clockwise takes its right hole down.
        assert_eq!(mark(fault, 90.0, PatternKind::Crescent), [0.0, -side]);
        assert_eq!(mark(fault, 360.0, PatternKind::Crescent), [side, 0.0]);
    }
}

/// The cap's mark turns, the tip's stays: that is how a painter tells them apart.
#[test]
fn half_a_turn_of_the_cap_tells_cap_from_tip() {
    assert_eq!(mark(Fault::CapDirty, 0.0, PatternKind::HeavyEnd), [0.0, 1.0]);
    assert_eq!(mark(Fault::CapDirty, 180.0, PatternKind::HeavyEnd), [0.0, -1.0]);
    for (fault, end) in [(Fault::TipNicked, 1.0), (Fault::TipWorn, -1.0)] {
        assert_eq!(mark(fault, 0.0, PatternKind::HeavyEnd), [0.0, end]);
        assert_eq!(mark(fault, 180.0, PatternKind::HeavyEnd), [0.0, end]);
    }
}

/// The same marks on the part itself, in the footprint as it lies in the room.
#[test]
fn the_part_shows_the_mark_where_the_card_has_it() {
    for (cap_turn, right) in [(0.0, -1.0), (180.0, 1.0)] {
        let job = faulty(Fault::HornLeftBlocked, cap_turn);
        let prepared = mistcoat::run::Prepared::new(job).unwrap();
        let mut sum = 0.0;
        let mut landed = 0.0;
        mistcoat_tests::scenes::fly(&prepared.course, 20_000, |o| {
            if o.fate == mistcoat::tally::Fate::Landed && o.place.y.abs() < 0.03 {
                sum += o.place.x;
                landed += 1.0;
            }
        });
        assert!(sum / landed * right > 0.01, "{cap_turn}: {}", sum / landed);
    }
}

#[test]
fn spits_are_seen_and_equal_solids_hold() {
    let job = faulty(Fault::TipPassageLeaks, 0.0);
    assert_eq!(pattern(&job).kind, PatternKind::Spitting);
    let (_, card) = sprayed(&job, 20_000).unwrap();
    assert_eq!(card.fates.total(), 20_000, "each droplet has one fate");
    assert_eq!(card.fates.of(mistcoat::tally::Fate::Lost), 0);
}

/// The runs of the flood test say what the film says.
#[test]
fn the_curtain_agrees_with_the_name() {
    let mut misses = Vec::new();
    for id in ["hvlp-gravity-1.3", "lvlp-gravity-1.2", "conventional-gravity-1.4", "compliant-gravity-1.3"] {
        let rated = job(id);
        let mut check = |what: &str, change: &dyn Fn(&mut Job), wanted: CurtainKind, name: PatternKind| {
            let mut job = rated.clone();
            change(&mut job);
            let (prepared, card) = sprayed(&job, 200_000).unwrap_or_else(|e| panic!("{e}"));
            let curtain = flood_test(&card, &prepared.spray, 3.5);
            let kind = Pattern::on(&card, prepared.spray.volume_flow).map(|p| p.kind);
            println!("{id}, {what}: {:?}, {kind:?}, {:?}", curtain.reading, curtain_shape(&curtain.lengths));
            if curtain.reading != wanted || kind != Some(name) {
                misses.push(format!("{id}, {what}: {:?} {:?}", curtain.reading, kind));
            }
        };
        check("as rated", &|_| (), CurtainKind::Even, PatternKind::Balanced);
        check("fan closed to half", &|j| j.gun.fan = 0.5, CurtainKind::LongMiddle, PatternKind::HeavyCentre);
        check("half the fluid", &|j| j.gun.fluid *= 0.5, CurtainKind::TwoTails, PatternKind::Split);
        let press =
            |j: &mut Job| j.gun.inlet_pressure = (1.5 * j.gun.inlet_pressure).min(j.kit.highest_pressure);
        check("more pressure", &press, CurtainKind::TwoTails, PatternKind::Split);
    }
    assert!(misses.is_empty(), "{misses:#?}");
}
