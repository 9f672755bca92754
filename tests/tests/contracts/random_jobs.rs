//! Three hundred jobs drawn over the whole range of the keys: each runs to finite figures, with no droplet lost, or is
//! refused by a key.

use mistcoat::flight::{Batch, levels};
use mistcoat::job::Job;
use mistcoat::run::{PartTally, Run, Tally};
use mistcoat::stream::{Purpose, Stream};
use mistcoat::tally::Fate;
use std::collections::BTreeMap;

const JOBS: u64 = 300;

/// Jobs that are flown: `MISTCOAT_JOBS`, else `JOBS`.
fn jobs() -> u64 {
    std::env::var("MISTCOAT_JOBS").ok().and_then(|n| n.parse().ok()).unwrap_or(JOBS)
}
const DROPLETS: u64 = 200;

/// Draws of one job.
struct Draw(Stream);

impl Draw {
    fn within(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.0.open01()
    }

    /// Even in the logarithm.
    fn scale(&mut self, low: f64, high: f64) -> f64 {
        low * (high / low).powf(self.0.open01())
    }

    fn one<'a>(&mut self, words: &[&'a str]) -> &'a str {
        words[((self.0.open01() * words.len() as f64) as usize).min(words.len() - 1)]
    }

    fn chance(&mut self, of: f64) -> bool {
        self.0.open01() < of
    }
}

/// Text of a job drawn at random; most are good, some cannot be sprayed.
fn text(number: u64) -> String {
    let mut d = Draw(Stream::new(20_260_101, number, Purpose::Emission));
    let kits = ["hvlp-gravity-1.3", "lvlp-gravity-1.2", "conventional-gravity-1.4", "touchup-gravity-0.8"];
    let mut lines = vec!["version = 1".to_owned(), format!("gun.kit = \"{}\"", d.one(&kits))];
    let mut add = |line: String| lines.push(line);
    if d.chance(0.7) {
        add(format!("gun.inlet_pressure = \"{:.3} bar\"", d.scale(0.2, 4.0)));
    }
    if d.chance(0.7) {
        add(format!("gun.fan = {:.3}", d.within(0.0, 1.0)));
    }
    if d.chance(0.7) {
        add(format!("gun.fluid = {:.3}", d.within(0.05, 1.0)));
    }
    if d.chance(0.3) {
        add(format!("gun.trigger = {:.3}", d.within(0.3, 1.0)));
    }
    if d.chance(0.2) {
        add(format!("gun.tip_bore = \"{:.2} mm\"", d.scale(0.2, 3.0)));
    }
    if d.chance(0.2) {
        add(format!("gun.horn_angle = \"{:.1} deg\"", d.within(20.0, 89.0)));
    }
    add(format!("paint.kind = \"{}\"", d.one(&["two-pack-clear", "solvent-basecoat"])));
    if d.chance(0.4) {
        add(format!("paint.thinning = {:.3}", d.within(0.0, 1.0)));
    }
    add(format!("paint.temperature = \"{:.1} C\"", d.within(5.0, 45.0)));
    if d.chance(0.2) {
        add(format!("paint.viscosity = \"{:.2} mPa s\"", d.scale(1.0, 2000.0)));
    }
    if d.chance(0.1) {
        add(format!("paint.volume_solids = {:.3}", d.within(0.02, 1.0)));
    }
    add(format!("booth.temperature = \"{:.1} C\"", d.within(0.0, 50.0)));
    add(format!("booth.humidity = {:.3}", d.within(0.0, 1.0)));
    if d.chance(0.5) {
        let (w, h) = (d.scale(10.0, 1500.0), d.scale(10.0, 1500.0));
        add(format!("part.panel = {{ width = \"{w:.1} mm\", height = \"{h:.1} mm\" }}"));
    } else {
        let (w, l) = (d.scale(3.0, 300.0), d.scale(20.0, 3000.0));
        add(format!("part.tube = {{ diameter = \"{w:.1} mm\", length = \"{l:.1} mm\" }}"));
        add(format!("stroke.sides = {}", d.within(1.0, 12.99) as u32));
        add(format!("stroke.fan_axis = \"{}\"", d.one(&["across", "along"])));
    }
    add(format!("part.lean = \"{:.1} deg\"", d.within(0.0, 180.0)));
    add(format!("stroke.distance = \"{:.1} mm\"", d.scale(50.0, 600.0)));
    add(format!("stroke.speed = \"{:.1} mm/s\"", d.scale(10.0, 3000.0)));
    add(format!("stroke.overlap = {:.3}", d.within(0.0, 0.95)));
    add(format!("stroke.lead = \"{:.1} mm\"", d.within(0.0, 500.0)));
    add(format!("stroke.coats = {}", d.within(1.0, 10.99) as u32));
    if d.chance(0.15) {
        add(format!("stroke.burst = \"{:.2} s\"", d.scale(0.05, 60.0)));
    }
    if d.chance(0.5) {
        add(format!(
            "spec.dry_film = [\"{:.1} um\", \"{:.1} um\"]",
            d.within(1.0, 30.0),
            d.within(31.0, 200.0)
        ));
    }
    add(format!("run.droplets = {DROPLETS}"));
    add(format!("run.seed = {}", d.within(0.0, 1e15) as u64));
    lines.join("\n") + "\n"
}

/// Flies a few droplets of a job to its part and to its card; an error where it cannot be sprayed, which an error must
/// say: then its key.
fn flies(number: u64, text: &str) -> Result<(), String> {
    let job = match Job::from_toml(text) {
        Ok(job) => job,
        Err(e) => {
            assert!(!e.key.is_empty() && !e.allowed.is_empty(), "job {number}: {e}\n{text}");
            return Err(e.key);
        }
    };
    let mut run = match Run::new(job) {
        Ok(run) => run,
        Err(e) => {
            assert!(!e.key.is_empty() && !e.allowed.is_empty(), "job {number}: {e}\n{text}");
            return Err(e.key);
        }
    };
    run.advance(DROPLETS);
    let mut part = PartTally::new(run.prepared().grid());
    let mut batch = Batch::default();
    run.prepared().course.fly(levels()[0], 0, DROPLETS, &mut batch, |o| {
        let figures = [o.diameter, o.density, o.wet, o.normal_speed, o.time, o.place[0], o.place[1]];
        let finite = figures.iter().all(|x| x.is_finite()) && o.position.is_finite();
        assert!(finite && o.fate != Fate::Lost, "job {number}: {o:?}\n{text}");
        assert!(
            o.diameter > 0.0 && o.diameter <= o.start_diameter * 1.000_001,
            "job {number}: {o:?}\n{text}"
        );
        part.count(o);
    });
    assert_eq!(part.fates.total(), DROPLETS, "job {number}");
    assert_eq!(run.card().fates.of(Fate::Lost), 0, "job {number}\n{text}");
    let (prepared, strokes) = (run.prepared(), run.prepared().strokes(run.card()));
    let mut film = prepared.bare_film();
    prepared.swept(&part, &strokes).lay(&mut film);
    // Differences of sums: below nothing by rounding alone.
    for cells in [&film.dry, &film.wet, &film.groups] {
        let most = cells.iter().copied().fold(0.0, f64::max);
        for h in cells {
            assert!(
                h.is_finite() && *h >= -1e-12 * most,
                "job {number}: film {h:e} of at most {most:e}\n{text}"
            );
        }
    }
    // Refuses a figure that is not finite.
    run.report().unwrap_or_else(|e| panic!("job {number}: {e}\n{text}"));
    Ok(())
}

#[test]
fn three_hundred_jobs_run() {
    let (mut flown, mut number, mut refused) = (0, 0, BTreeMap::<String, u32>::new());
    let jobs = jobs();
    while flown < jobs {
        match flies(number, &text(number)) {
            Ok(()) => flown += 1,
            Err(key) => *refused.entry(key).or_default() += 1,
        }
        number += 1;
        assert!(number < 4 * jobs, "too few of the jobs drawn can be sprayed: {flown} of {number}");
    }
    // The draw keeps to the keys' ranges: hardly any is refused.
    assert!(number < jobs + jobs / 4, "{flown} jobs flown; refused by key: {refused:?}");
    println!("{flown} jobs flown; refused by key: {refused:?}");
}

#[test]
fn a_dozen_of_them_run_to_the_end() {
    let (mut done, mut number) = (0, 0);
    while done < 12 {
        number += 1;
        let Ok(job) = Job::from_toml(&text(number)) else { continue };
        let Ok(mut run) = Run::new(job) else { continue };
        run.finish();
        assert!(run.is_complete() && run.flown() == DROPLETS, "job {number}");
        let report = run.report().unwrap_or_else(|e| panic!("job {number}: {e}"));
        assert_eq!(report.fates.lost, 0.0, "job {number}");
        for share in [report.transfer_efficiency.value, report.large_panel_efficiency.value] {
            assert!((0.0..=1.0).contains(&share), "job {number}: {share}");
        }
        done += 1;
    }
}
