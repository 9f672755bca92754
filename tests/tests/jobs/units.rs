//! Unit texts: any text is answered, good ones come back.

use mistcoat::job::{Job, with_key};
use mistcoat::units::{Quantity, System, parse, parse_share, show, unit_shown};
use proptest::prelude::*;
use proptest::test_runner::RngSeed;

/// The same cases on every run.
pub fn config() -> ProptestConfig {
    ProptestConfig {
        rng_seed: RngSeed::Fixed(20),
        failure_persistence: None,
        cases: 512,
        ..ProptestConfig::default()
    }
}

fn a_quantity() -> impl Strategy<Value = Quantity> {
    proptest::sample::select(Quantity::ALL.to_vec())
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn any_text_is_answered(quantity in a_quantity(), text in "\\PC{0,40}|[-+0-9.eE]{0,12} ?[a-zA-Z0-9/% ]{0,8}") {
        if let Ok(si) = parse(quantity, &text) {
            prop_assert!(si.is_finite());
        }
        if let Ok(share) = parse_share(&text) {
            prop_assert!(share.is_finite());
        }
    }

    #[test]
    fn every_unit_is_its_own_scale(quantity in a_quantity(), at in 0_usize..20, number in 0.001_f64..1000.0) {
        let names = quantity.unit_names();
        let unit = names[at % names.len()];
        let [zero, one, many] = [0.0, 1.0, number].map(|x| parse(quantity, &format!("{x} {unit}")).unwrap());
        let straight = zero + (one - zero) * number;
        prop_assert!((many - straight).abs() <= 1e-9 * straight.abs(), "{number} {unit}: {many}, {straight}");
        prop_assert_eq!(parse(quantity, &format!("{number:e}{unit}")), Ok(many));
    }

    /// What is shown reads back to within half of its last digit.
    #[test]
    fn what_is_shown_reads_back(quantity in a_quantity(), us in any::<bool>(), number in 0.02_f64..5000.0) {
        let system = if us { System::Us } else { System::Metric };
        let (unit, decimals) = unit_shown(quantity, system);
        let si = parse(quantity, &format!("{number} {unit}")).unwrap();
        let text = show(quantity, si, system);
        let shown: f64 = text.strip_suffix(unit).unwrap().trim().parse().unwrap();
        let last = [0.5, 0.05, 0.005][decimals];
        prop_assert!((shown - number).abs() <= last * (1.0 + 1e-9), "{text} for {number}");
        prop_assert!((shown - number).abs() <= 0.05 * number + 0.5 * f64::from(u8::from(quantity == Quantity::Temperature)));
    }

    /// No text makes the reader panic, and an error always points into the text.
    #[test]
    fn any_job_text_is_answered(key in "[a-z_.]{1,12}", value in "\\PC{0,20}|\"[0-9.]{1,4} ?[a-zA-Z/]{0,6}\"", at in 0_usize..40) {
        let good = crate::text_of("core/examples/jobs/table-top.toml");
        let mut lines: Vec<&str> = good.lines().collect();
        let new = format!("{key} = {value}");
        lines.insert(at.min(lines.len()), &new);
        let text = lines.join("\n");
        if let Err(error) = Job::from_toml(&text) {
            prop_assert!(error.line >= 1 && error.line <= text.lines().count().max(1) + 1);
            prop_assert!(!error.to_string().is_empty());
        }
        let _ = with_key(&text, &key, &value);
    }
}
