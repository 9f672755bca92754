//! Writes `docs/methods/pattern-names.md`: how often the pattern's name is right. With a seed as argument it prints that seed's
//! misses instead.

use mistcoat_tests::names_table::{SEED, SETTINGS, named, page, right};
use std::path::Path;

fn main() {
    let seed: Option<u64> = std::env::args().nth(1).and_then(|text| text.parse().ok());
    let cards = named(seed.unwrap_or(SEED), SETTINGS);
    for card in cards.iter().filter(|c| c.name != Some(c.truth.kind)) {
        println!("{:?} called {:?}: {}", card.truth, card.name, card.what);
    }
    println!("{:?} of those clear of a border are right", right(&cards));
    if seed.is_none() {
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../docs/methods/pattern-names.md");
        if let Err(error) = std::fs::write(&path, page(&cards)) {
            eprintln!("{}: {error}", path.display());
            std::process::exit(1);
        }
    }
}
