//! A job flown, and what must hold of its droplets, its film and its report.

use super::{DROPLETS, sane_figures, sane_words};
use mistcoat::course::Outcome;
use mistcoat::flight::{Batch, levels};
use mistcoat::job::{Job, KEYS};
use mistcoat::report::{film_csv, words};
use mistcoat::run::{PartTally, Run, Tally};
use mistcoat::sheet::{SetUpSheet, svg};
use mistcoat::tally::Fate;
use mistcoat::units::System;

/// Droplets to the large card.
const CARD: u64 = 128;
/// Largest diameter over the start's where water settles: the heat that a droplet takes up from 5 to 50 C condenses 8 % of its mass, and
/// solvents that draw water, where the paint holds little else, take up twice that from damp air.
const MOST_DEW: f64 = 1.06;

/// Flies a job and looks at all that comes of it; the key where it cannot be sprayed.
///
/// # Errors
/// What does not hold.
pub fn held(job: Job) -> Result<Option<String>, String> {
    match Run::with_card(job, CARD, levels()[0]) {
        Err(error) => {
            let known =
                KEYS.iter().any(|k| k.path == error.key || k.path.starts_with(&format!("{}.", error.key)));
            if known && !error.allowed.is_empty() && !error.value.is_empty() {
                sane_words(&error.to_string())?;
                Ok(Some(error.key))
            } else {
                Err(format!("refused without its key or its reason: {error:?}"))
            }
        }
        Ok(mut run) => {
            droplets(&run)?;
            run.finish();
            defect(&run).map_or(Ok(None), Err)
        }
    }
}

/// Each droplet of the job: finite, never more than it was, with one fate.
fn droplets(run: &Run) -> Result<(), String> {
    let prepared = run.prepared();
    let (mut part, mut wrong) = (PartTally::new(prepared.grid()), None);
    // Water of damp air settles on a droplet that is colder than the dew point, where the paint takes it up.
    let takes_water = prepared.job.paint.solvents.iter().any(|s| s.name == "water");
    let most = if takes_water { MOST_DEW } else { 1.000_001 };
    let mut look = |o: &Outcome| {
        let figures = [o.diameter, o.density, o.wet, o.normal_speed, o.time, o.place[0], o.place[1]];
        let finite = figures.iter().all(|x| x.is_finite()) && o.position.is_finite();
        let smaller = o.diameter > 0.0 && o.diameter <= o.start_diameter * most;
        if !(finite && smaller && o.fate != Fate::Lost) {
            wrong = Some(format!("{o:?}"));
        }
        part.count(o);
    };
    let mut batch = Batch::default();
    match &prepared.frame {
        Some(frame) => frame.fly(levels()[0], 0, DROPLETS, &mut batch, &mut look),
        None => prepared.course.fly(levels()[0], 0, DROPLETS, &mut batch, &mut look),
    }
    if part.fates.total() != DROPLETS {
        return Err(format!("{} fates of {DROPLETS} droplets", part.fates.total()));
    }
    wrong.map_or(Ok(()), Err)
}

/// What does not hold of a run that is complete; none where all is well.
#[must_use]
pub fn defect(run: &Run) -> Option<String> {
    look(run).err()
}

fn look(run: &Run) -> Result<(), String> {
    if !run.is_complete() {
        return Err("the run does not end".into());
    }
    if run.card().fates.of(Fate::Lost) > 0 {
        return Err("a droplet to the card is lost".into());
    }
    let film = run.film();
    // Differences of sums over the whole footprint: below nothing by their rounding alone, which is far below an atom.
    for cells in [&film.dry, &film.wet, &film.groups] {
        let most = cells.iter().copied().fold(0.0, f64::max);
        if let Some(h) = cells.iter().find(|h| !h.is_finite() || **h < -1e-12 * most - 1e-16) {
            return Err(format!("film {h:e} of at most {most:e}"));
        }
    }
    let report = run.report().map_err(|e| e.to_string())?;
    let job = &run.prepared().job;
    let value = serde_json::from_str(&report.to_json()).map_err(|e| e.to_string())?;
    sane_figures(&value)?;
    sane_words(&words(&report, job))?;
    sane_words(&film_csv(&film, &job.part))?;
    for system in [System::Metric, System::Us] {
        let sheet = SetUpSheet::new(run, &report, system);
        let (text, drawing) = (sheet.words(), svg(&sheet, Some("http://127.0.0.1/#1.x")));
        sane_words(&text).map_err(|e| format!("sheet: {e}"))?;
        sane_words(&drawing).map_err(|e| format!("drawn sheet: {e}"))?;
        if drawing.contains("<script") {
            return Err("drawn sheet: a name became part of the drawing".into());
        }
    }
    Ok(())
}
