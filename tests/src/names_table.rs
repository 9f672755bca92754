//! How often the pattern's name is right: the table of `docs/methods/pattern-names.md`.

use crate::patterns::{BORDERS, Draws, Truth, random_setting, sprayed, truth};
use mistcoat::report::{Pattern, PatternKind};
use mistcoat::spray::Spray;

/// Seed of the settings: used for nothing else.
pub const SEED: u64 = 20_260_731;
/// Settings of the table.
pub const SETTINGS: usize = 200;
/// Droplets of a card.
pub const DROPLETS: u64 = 60_000;

/// One named card.
#[derive(Debug, Clone)]
pub struct Named {
    /// What was set, in a few words.
    pub what: String,
    /// What it is by the state.
    pub truth: Truth,
    /// What the film was called.
    pub name: Option<PatternKind>,
    /// The side of the belly or of the heavy end is right, too.
    pub side: bool,
}

/// Names `settings` random cards; settings that do not spray are drawn again.
#[must_use]
pub fn named(seed: u64, settings: usize) -> Vec<Named> {
    let mut draws = Draws::new(seed);
    let mut out = Vec::new();
    while out.len() < settings {
        let job = random_setting(&mut draws);
        let Ok((prepared, card)) = sprayed(&job, DROPLETS) else { continue };
        let spray = &prepared.spray;
        let pattern = Pattern::on(&card, spray.volume_flow);
        let faults: Vec<_> = job.gun.faults.iter().map(|f| f.word()).collect();
        out.push(Named {
            what: format!(
                "{} at {:.0} mm, {:.2} bar, fan {:.2}, fluid {:.2}, {:?} {:?} {:?}",
                job.kit.id,
                job.stroke.distance * 1e3,
                job.gun.inlet_pressure * 1e-5,
                job.gun.fan,
                job.gun.fluid,
                faults,
                spray.along,
                pattern.map(|p| (p.reading.exponent(), p.reading))
            ),
            side: side(pattern, spray),
            truth: truth(spray, job.stroke.distance),
            name: pattern.map(|p| p.kind),
        });
    }
    out
}

/// Belly towards the push, heavy end where the paint was moved to.
fn side(pattern: Option<Pattern>, spray: &Spray) -> bool {
    let push = &spray.askew;
    pattern.is_none_or(|p| match (p.kind, p.toward) {
        (PatternKind::Crescent, Some([x, _])) => x * push.bow > 0.0,
        (PatternKind::HeavyEnd, Some([_, y])) => y * push.along > 0.0,
        _ => true,
    })
}

/// Right and all, of the settings away from every border.
#[must_use]
pub fn right(cards: &[Named]) -> (usize, usize) {
    let clear = || cards.iter().filter(|c| !c.truth.border);
    (clear().filter(|c| c.name == Some(c.truth.kind) && c.side).count(), clear().count())
}

fn row(cards: &[Named], kind: PatternKind, border: bool) -> (usize, String) {
    let of = || cards.iter().filter(|c| c.truth.kind == kind && c.truth.border == border);
    let cells = PatternKind::ALL.into_iter().map(|name| {
        let n = of().filter(|c| c.name == Some(name)).count();
        if n == 0 { String::new() } else { n.to_string() }
    });
    (of().count(), cells.collect::<Vec<_>>().join(" | "))
}

/// The page of the docs.
#[must_use]
pub fn page(cards: &[Named]) -> String {
    let (good, clear) = right(cards);
    let near = cards.len() - clear;
    let near_good = cards.iter().filter(|c| c.truth.border && c.name == Some(c.truth.kind)).count();
    let head: Vec<_> = PatternKind::ALL.iter().map(|k| k.word()).collect();
    let mut text = format!(
        "# Names of patterns\n\nWritten by `cargo run --release -p mistcoat-tests --bin pattern_names`; a test holds it. Code: \
         `core/src/report/naming.rs`, `reading.rs`.\n\nThe name is read off the film alone: landed paint by place on a large card, its drop \
         sizes, its thickness a second. The truth is read off the state of gun and spray alone (`tests/src/patterns.rs`). {} random \
         settings of all kits of the catalogue, sound and faulty, seed {SEED}, {DROPLETS} droplets each; bounds and the exponent's fit were \
         chosen on cards of another seed.\n\n**{good} of {clear}** settings that stand clear of every border are named right ({:.0} of 100), the side of a crescent's belly and of a heavy end \
         included. \
         {near} stand within a margin of a border: of those {near_good} are named as the state has it, the rest after a \
         neighbour.\n\nBorders by the state, with the margin counted apart:\n\n| border | at | margin |\n|---|---|---|\n",
        cards.len(),
        100.0 * good as f64 / clear.max(1) as f64
    );
    for (what, [low, at, high]) in BORDERS {
        text += &format!("| {what} | {at} | {low} to {high} |\n");
    }
    for (title, border) in [("Clear of every border", false), ("Near a border", true)] {
        text += &format!(
            "\n## {title}\n\nRow: the state. Column: the name off the film.\n\n| state | cards | {} |\n",
            head.join(" | ")
        );
        text += &format!("|---|---|{}\n", "---|".repeat(head.len()));
        for kind in PatternKind::ALL {
            let (count, cells) = row(cards, kind, border);
            text += &format!("| {} | {count} | {cells} |\n", kind.word());
        }
    }
    text
}
