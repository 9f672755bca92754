//! The sheet says what the job and the run say, in either system, on one page.

use super::*;

const TABLE: &str = include_str!("../../examples/jobs/table-tops-to-mix.toml");
const LEG: &str = include_str!("../../examples/jobs/chair-leg-wide-fan.toml");

fn sheet(text: &str, system: System) -> (SetUpSheet, Report) {
    let text = text.replace("droplets = 200000", "droplets = 20000");
    let mut run = Run::with_card(Job::from_toml(&text).unwrap(), 20_000, crate::flight::levels()[0]).unwrap();
    run.finish();
    let report = run.report().unwrap();
    (SetUpSheet::new(&run, &report, system), report)
}

fn value<'a>(sheet: &'a SetUpSheet, heading: &str, what: &str) -> &'a Line {
    let block = sheet.blocks.iter().find(|b| b.heading == heading).unwrap();
    block.lines.iter().find(|l| l.what == what).unwrap()
}

#[test]
fn figures_are_the_jobs_and_the_reports() {
    let (sheet, report) = sheet(TABLE, System::Metric);
    assert_eq!(value(&sheet, "Hand", "distance").value, "180 mm");
    assert_eq!(value(&sheet, "Hand", "pace").value, "2.9 s a metre");
    assert_eq!(value(&sheet, "Gun and air", "gauge at the gun").value, "2.0 bar");
    assert_eq!(value(&sheet, "Data sheet's window", "inlet pressure").value, "1.8 to 2.2 bar");
    let ml = show(Quantity::Volume, report.paint.sprayed_ml * 1e-6, System::Metric);
    assert_eq!(value(&sheet, "Expect", "paint a part").value, ml);
    assert!(sheet.sentence.starts_with(&ml));
    let down = report.pattern.unwrap().length_mm * 0.5;
    assert!((sheet.view.down - down).abs() < 1e-9, "{} {down}", sheet.view.down);
    assert_eq!(sheet.knobs[0].said, "fully open, 1 1/2 turns out");
    assert_eq!(link::decode(sheet.link.as_deref().unwrap()).unwrap(), sheet.job);
}

#[test]
fn us_sheets_have_us_units_alone() {
    let (sheet, _) = sheet(TABLE, System::Us);
    let said = sheet.words();
    let has = |unit: &str| said.split(|c: char| c.is_whitespace() || ",;:.()".contains(c)).any(|w| w == unit);
    for unit in ["bar", "mm/s", "um", "mL", "L/min"] {
        assert!(!has(unit), "{unit} in {said}");
    }
    for unit in ["psi", "in", "mil", "oz", "cfm"] {
        assert!(has(unit), "no {unit} in {said}");
    }
}

#[test]
fn paint_with_isocyanate_alone_brings_its_caution() {
    let enamel = LEG.replace("two-pack-clear", "waterborne-basecoat").replace("mix = \"2:1\"\n", "");
    for (text, wanted) in [(LEG, true), (enamel.as_str(), false)] {
        let (sheet, _) = sheet(text, System::Metric);
        assert_eq!(sheet.cautions.iter().any(|c| c == TWO_PACK), wanted, "{}", sheet.about);
    }
}

#[cfg(feature = "charts")]
#[test]
fn the_page_holds_everything_and_nothing_runs_over_its_edge() {
    for (text, system) in [(TABLE, System::Metric), (LEG, System::Metric), (TABLE, System::Us)] {
        let (sheet, _) = sheet(text, system);
        let drawn = svg(&sheet, Some("http://127.0.0.1:8080/#job=1.abc"));
        let (wide, high) = if sheet.us { (215.9, 279.4) } else { (210.0, 297.0) };
        let attribute = |tag: &str, name: &str| -> Option<f64> {
            tag.split(&format!(" {name}=\"")).nth(1)?.split('"').next()?.parse().ok()
        };
        for tag in drawn.split("<text").skip(1) {
            let (x, y) = (attribute(tag, "x").unwrap(), attribute(tag, "y").unwrap());
            let size = attribute(tag, "font-size").unwrap();
            let letters = tag.split('>').nth(1).unwrap().split('<').next().unwrap().chars().count() as f64;
            // The narrowest mean letter of the typefaces named: a bound from below on what is drawn.
            assert!(x >= 5.0 && x + 0.42 * size * letters <= wide - 5.0, "over the side: {tag}");
            assert!(y >= 5.0 && y <= high - 5.0, "over the foot: {tag}");
        }
        for block in &sheet.blocks {
            assert!(drawn.contains(&block.heading), "{}", block.heading);
        }
        assert!(drawn.contains("<metadata>") && drawn.contains(sheet.link.as_deref().unwrap()));
    }
}
