//! Plans worked by hand, lots, and what is refused.

use super::*;
use crate::catalogue::recipe;

fn need() -> MixNeed {
    MixNeed {
        parts: 6,
        sprayed: 31.4 * ML,
        landed: [0.457, 0.400, 0.482],
        test_card: 12.7 * ML,
        residue: 15.0 * ML,
        cup: 600.0 * ML,
        reserve: 0.10,
        trigger: 12.3,
        duty: 0.4,
        coats: 1,
        flash: 480.0,
        pot_life: Some(7200.0),
    }
}

/// By hand: (6 x 31.4 + 12.7 + 15) x 1.1 = 237.71 -> 240 mL; 2:1 with 10 % of the mix is 20/33, 10/33, 3/33.
#[test]
fn six_table_tops_by_hand() {
    let clear = recipe("two-pack-clear").unwrap();
    let plan = MixPlan::new(&need(), &clear, &clear.usual).unwrap();
    let ml = |x: f64, want: f64| assert!((x / ML - want).abs() < 0.005, "{} is not {want}", x / ML);
    ml(plan.mixed, 240.0);
    ml(plan.on_parts, 86.10);
    ml(plan.overspray, 102.30);
    ml(plan.reserve, 21.61);
    ml(plan.rounding, 2.29);
    let sum = plan.on_parts + plan.overspray + plan.test_card + plan.left + plan.reserve + plan.rounding;
    ml(sum, 240.0);
    ml(plan.base.volume, 145.45);
    ml(plan.hardener.volume, 72.73);
    ml(plan.thinner.volume, 21.82);
    assert!((plan.base.mass * 1e3 - 143.27).abs() < 0.01 && (plan.hardener.mass * 1e3 - 77.09).abs() < 0.01);
    assert!((plan.lot_mass() / plan.lot / clear.mixed(&clear.usual).unwrap().density - 1.0).abs() < 1e-12);
    assert_eq!((plan.lots, plan.cup_fills), (1, 1));
    // 188.4 x 0.457/0.482 = 178.6 -> 227.0 -> 230; 188.4 x 0.457/0.400 = 215.2 -> 267.2 -> 270.
    let range = plan.range.unwrap();
    ml(range[0], 230.0);
    ml(range[1], 270.0);
    assert!((plan.seconds - 6.0 * 12.3 / 0.4).abs() < 1e-9 && plan.warnings.is_empty());
}

#[test]
fn a_job_longer_than_the_pot_life_is_mixed_in_lots() {
    let surfacer = recipe("primer-surfacer").unwrap();
    // 60 parts, 2 coats: 60 x 24.6/0.4 = 3690 s of work, a round of 1845 s is longer than the flash: nobody waits.
    let many =
        MixNeed { parts: 60, coats: 2, trigger: 24.6, sprayed: 62.8 * ML, pot_life: Some(3600.0), ..need() };
    let plan = MixPlan::new(&many, &surfacer, &surfacer.usual).unwrap();
    assert!((plan.seconds - 3690.0).abs() < 1e-6);
    assert_eq!((plan.lots, plan.cup_fills), (2, 7));
    assert!((plan.left - 30.0 * ML).abs() < 1e-12 && (plan.lot * 2.0 - plan.mixed).abs() < 1e-12);
    // 5 parts: a round of 153.75 s, then wait until the flash is over: 307.5 + 480 - 153.75.
    let few = MixNeed { parts: 5, ..many };
    assert!((few.seconds() - 633.75).abs() < 1e-9);
    let short = MixNeed { pot_life: Some(20.0), ..few };
    let plan = MixPlan::new(&short, &surfacer, &surfacer.usual).unwrap();
    assert!(plan.warnings.iter().any(|w| w.contains("pot life")), "{:?}", plan.warnings);
}

#[test]
fn little_hardener_is_weighed_nothing_landed_has_no_range_and_nonsense_is_refused() {
    let clear = recipe("two-pack-clear").unwrap();
    let tiny = MixNeed { parts: 1, sprayed: 2.0 * ML, test_card: 0.0, residue: 3.0 * ML, ..need() };
    let plan = MixPlan::new(&tiny, &clear, &clear.usual).unwrap();
    assert!((plan.mixed - 6.0 * ML).abs() < 1e-12 && plan.warnings[0].contains("weigh"), "{plan:?}");
    let none = MixNeed { landed: [0.0; 3], ..need() };
    assert_eq!(MixPlan::new(&none, &clear, &clear.usual).unwrap().range, None);
    for bad in [
        MixNeed { sprayed: f64::NAN, ..need() },
        MixNeed { sprayed: 0.0, ..need() },
        MixNeed { parts: 0, ..need() },
        MixNeed { duty: 0.0, ..need() },
        MixNeed { reserve: -0.1, ..need() },
        MixNeed { landed: [1.2, 0.4, 0.5], ..need() },
        MixNeed { pot_life: Some(0.0), ..need() },
    ] {
        assert!(MixPlan::new(&bad, &clear, &clear.usual).is_err(), "{bad:?}");
    }
}

#[test]
fn rounding_never_takes_paint_away_and_adds_at_most_a_step() {
    let mut last = 0.0;
    for i in 1..4000 {
        let volume = f64::from(i) * 3.7 * ML;
        let up = round_up(volume);
        assert!(up >= volume - 1e-12 && up - volume < (0.25 * volume).max(1.01 * ML) && up >= last);
        last = up;
    }
    assert!((round_up(240.0 * ML) - 240.0 * ML).abs() < 1e-12);
}
