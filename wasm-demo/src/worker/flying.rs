//! The library's run as the worker flies it.

use mistcoat::flight::levels;
use mistcoat::job::Job;
use mistcoat::report::Report;
use mistcoat::run::Run;
use mistcoat::sheet::SetUpSheet;
use mistcoat::units::System;

use super::{Flight, Refusal};
use crate::booth3d::played::{MOST, Played};
use crate::booth3d::way::Way;
use crate::protocol::Film;

/// Droplets of the drawn snapshot: the job's first.
const DRAWN: u64 = 2400;
/// Droplets drawn at a time.
const PIECE: u64 = 240;

/// A run under way, and where its first droplets hang in the air.
pub struct Flying {
    run: Run,
    ends: Vec<f32>,
    /// Droplets of the snapshot so far.
    drawn: u64,
    /// The gun's way, once the film's first droplets say that it is known.
    way: std::cell::OnceCell<Way>,
    /// What is told in the end, once asked for: on a frame a report takes tens of milliseconds.
    told: std::cell::OnceCell<Result<InTheEnd, Refusal>>,
}

/// The report, the same as JSON, and the run's digest.
struct InTheEnd {
    report: Report,
    json: String,
    digest: u64,
}

impl Flying {
    /// A piece of the snapshot: short, so that the worker hears its messages in between.
    fn draw_some(&mut self) {
        let range = self.drawn..DRAWN.min(self.drawn + PIECE);
        self.drawn = range.end;
        let prepared = self.run.prepared();
        let distance = prepared.job.stroke.distance;
        let specks = prepared.course.snapshot_piece(levels()[0], range, DRAWN, distance);
        self.ends.extend(specks.iter().flat_map(|s| {
            let [sideways, across, along] = s.position.map_or([f64::INFINITY; 3], Into::into);
            [along, across, sideways, s.end[1], f64::from(u8::from(s.lands))].map(|v| v as f32)
        }));
    }

    fn way(&self) -> &Way {
        self.way.get_or_init(|| {
            let prepared = self.run.prepared();
            let strokes = prepared.strokes(self.run.card());
            Way::of(&strokes, &prepared.job.stroke, prepared.bare_film().faces())
        })
    }

    /// The complete run to be watched again; none where it would be too much to send.
    fn played(&self) -> Option<Played> {
        let prepared = self.run.prepared();
        let bare = prepared.bare_film();
        let strokes = prepared.strokes(self.run.card());
        let way = Way::of(&strokes, &prepared.job.stroke, bare.faces());
        if way.deposits == 0 || way.deposits.saturating_mul(bare.len()) > MOST {
            return None;
        }
        let mut layers = Vec::with_capacity(way.deposits);
        self.run.deposits(&mut |d| layers.push(d.dry.iter().map(|&h| h as f32).collect()));
        (layers.len() == way.deposits).then_some(Played { way, layers })
    }

    fn told(&self) -> &Result<InTheEnd, Refusal> {
        self.told.get_or_init(|| {
            let refuse = |e: mistcoat::error::ParameterError| Refusal {
                key: Some(e.key.clone()),
                message: e.to_string(),
            };
            let report = self.run.report().map_err(refuse)?;
            let json = report.to_json();
            let digest = self.run.digest_of(&json);
            Ok(InTheEnd { report, json, digest })
        })
    }
}

impl Flight for Flying {
    fn start(job: &str) -> Result<Self, Refusal> {
        let job = Job::from_toml(job).map_err(|e| Refusal {
            key: Some(e.key.clone()).filter(|k| !k.is_empty()),
            message: e.problem().to_string(),
        })?;
        let run = Run::new(job).map_err(|e| Refusal { key: Some(e.key.clone()), message: e.to_string() })?;
        Ok(Self {
            run,
            ends: Vec::new(),
            drawn: 0,
            way: std::cell::OnceCell::new(),
            told: std::cell::OnceCell::new(),
        })
    }

    fn advance(&mut self, most: u64) -> bool {
        if self.drawn < DRAWN {
            self.draw_some();
        }
        self.run.advance(most)
    }

    fn progress(&self) -> (u64, u64) {
        self.run.progress()
    }

    fn film(&self) -> Film {
        let picture = self.run.picture();
        let so_far = if self.run.is_complete() { None } else { self.run.so_far(&picture) };
        let film = Film::of(&picture);
        let film = match self.run.set_film() {
            Some(set) => film.setting(set),
            None => film,
        };
        let painted = film.values.iter().any(|&h| h > 0.0);
        let played = match self.run.is_complete() {
            true => self.played().unwrap_or_default(),
            // On the way the gun's way alone: before the card is flown nobody knows how the passes are spaced.
            false if painted => Played { way: self.way().clone(), layers: Vec::new() },
            false => Played::default(),
        };
        Film {
            so_far,
            droplets: (self.ends.len() / Film::NUMBERS) as u32,
            ends: self.ends.clone(),
            legs: played.way.legs.len() as u32,
            layers: played.layers.len() as u32,
            played: played.pack(),
            ..film
        }
    }

    fn report(&self) -> Result<String, Refusal> {
        self.told().as_ref().map(|told| told.json.clone()).map_err(Clone::clone)
    }

    fn sheets(&self) -> String {
        // A report that cannot be said is refused before.
        let Ok(told) = self.told() else { return "[]".into() };
        let sheet = |system| SetUpSheet::new(&self.run, &told.report, system);
        serde_json::to_string(&[sheet(System::Metric), sheet(System::Us)]).unwrap_or_else(|_| "[]".into())
    }

    fn digest(&self) -> u64 {
        self.told().as_ref().map_or(0, |told| told.digest)
    }
}
