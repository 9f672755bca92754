//! The constants listed in the docs are those of the code.

use mistcoat::airflow::{INTENSITY, TIME_SCALE};
use mistcoat::catalogue;
use mistcoat::constants::Constants;
use mistcoat::error::ParameterError;
use mistcoat::gun::Kit;
use mistcoat::job::Booth;
use mistcoat::set_up::{self, Model};
use std::path::Path;

#[test]
fn docs_list_every_constant_with_its_value() {
    let docs = Path::new(env!("CARGO_MANIFEST_DIR")).join("../docs/methods");
    let read =
        |page: &str| std::fs::read_to_string(docs.join(page)).unwrap_or_else(|e| panic!("{page}: {e}"));
    let text = ["gun.md", "drop-size.md", "pattern.md"].map(read).concat();
    let rows: Vec<Vec<&str>> = text
        .lines()
        .filter(|l| l.starts_with("| `"))
        .map(|l| l.trim_matches('|').split('|').map(str::trim).collect::<Vec<_>>())
        // Kits stand in tables of their own.
        .filter(|row| catalogue::kit(row[0].trim_matches('`')).is_err())
        .collect();
    for (name, value) in Constants::STANDARD.named() {
        let quoted = format!("`{name}`");
        let found: Vec<_> = rows.iter().filter(|r| r[0] == quoted).collect();
        assert_eq!(found.len(), 1, "{name} stands {} times in the docs", found.len());
        let said: f64 = found[0][1].parse().unwrap_or_else(|e| panic!("{name}: {} {e}", found[0][1]));
        assert!((said - value).abs() <= 1e-12 * value.abs(), "{name}: docs {said}, code {value}");
        assert!(found[0].len() == 4 && found[0][3].len() > 10, "{name}: no reason given");
    }
    assert_eq!(
        rows.len(),
        Constants::STANDARD.named().len(),
        "the docs list a constant that the code has not"
    );
}

/// Rows of the kits as rated; a new kit's is printed here to be copied. The Sauter mean is that before the largest droplets are cut off.
#[test]
fn docs_list_every_kit_with_its_figures() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../docs/methods/gun.md");
    let page = std::fs::read_to_string(&path).unwrap_or_else(|e| panic!("{}: {e}", path.display()));
    let (model, booth) = (Model::default(), Booth::at(293.15, 0.5));
    let row = |kit: Kit| -> Result<String, ParameterError> {
        let (paint, rated) = (catalogue::paint(&kit.rated_paint)?, kit.rated());
        let state = set_up::state(&kit, &rated, &paint, &booth)?;
        let sauter = set_up::spray(&kit, &rated, &paint, &booth)?.sizes.sauter_uncut() * 1e6;
        let thickest = model.viscosity_window(&kit, &paint, &booth)?.map_or(0.0, |window| window[1] * 1e6);
        Ok(format!(
            "| `{}` | {:.1} | {:.0} | {:.2} | {:.0} | {sauter:.0} | `{}` | {thickest:.0} |",
            kit.id,
            state.inlet_bar(),
            state.free_air_l_min(),
            state.cap_bar(),
            state.fluid_ml_min(),
            kit.rated_paint
        ))
    };
    let rows = catalogue::kits().iter().map(|kit| row(kit.kit()).unwrap_or_else(|e| panic!("{e}")));
    let lacking: Vec<String> = rows.filter(|row| !page.lines().any(|line| line == row)).collect();
    assert!(lacking.is_empty(), "docs/methods/gun.md lacks\n{}", lacking.join("\n"));
}

/// What a table says of a value, in SI: its first number, by the unit after it.
fn said(cell: &str) -> Option<f64> {
    let mut words = cell.split([' ', ',']);
    let number: f64 = words.next()?.parse().ok()?;
    let unit = match words.next() {
        Some("um") => 1e-6,
        Some("mm") => 1e-3,
        _ => 1.0,
    };
    Some(number * unit)
}

#[test]
fn fitted_constants_stand_on_the_page_with_their_value() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../docs/validation.md");
    let page = std::fs::read_to_string(&path).unwrap_or_else(|e| panic!("{}: {e}", path.display()));
    let (_, from) = page.split_once("\n## Fitted constants").expect("the section");
    let table = from.split("\n## ").next().unwrap_or_default();
    let mut known = Constants::STANDARD.named().to_vec();
    known.extend([("INTENSITY", INTENSITY), ("TIME_SCALE", TIME_SCALE)]);
    let mut held = 0;
    for row in table.lines().filter(|line| line.starts_with("| `")) {
        let cells: Vec<&str> = row.trim_matches('|').split('|').map(str::trim).collect();
        let names = cells[0].split(", ").filter_map(|name| name.strip_prefix('`')?.strip_suffix('`'));
        for (name, cell) in names.zip(cells[1].split(", ")) {
            let Some((_, value)) = known.iter().find(|(known, _)| *known == name) else { continue };
            let told = said(cell).unwrap_or_else(|| panic!("{name}: {cell} is no value"));
            assert!((told - value).abs() <= 1e-12 * value.abs(), "{name}: page {told}, code {value}");
            held += 1;
        }
    }
    assert!(held >= 9, "only {held} fitted constants were found");
}
