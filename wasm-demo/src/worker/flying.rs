//! The library's run as the worker flies it.

use mistcoat::flight::{Batch, levels};
use mistcoat::job::Job;
use mistcoat::run::Run;
use mistcoat::tally::Fate;

use super::{Flight, Refusal};
use crate::protocol::Film;

/// Droplets whose ends the page draws: the job's first.
const DRAWN: u64 = 2400;

/// A run under way, and the ends of its first droplets.
pub struct Flying {
    run: Run,
    ends: Vec<f32>,
    /// Report as JSON and digest, once asked for.
    told: std::cell::OnceCell<Result<(String, u64), Refusal>>,
}

impl Flying {
    fn told(&self) -> &Result<(String, u64), Refusal> {
        self.told.get_or_init(|| {
            let refuse = |e: mistcoat::error::ParameterError| Refusal {
                key: Some(e.key.clone()),
                message: e.to_string(),
            };
            let report = self.run.report().map_err(refuse)?.to_json();
            let digest = self.run.digest_of(&report);
            Ok((report, digest))
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
        let mut ends = Vec::with_capacity(3 * DRAWN as usize);
        run.prepared().course.fly(levels()[0], 0, DRAWN, &mut Batch::default(), |o| {
            let landed = f32::from(u8::from(o.fate == Fate::Landed));
            ends.extend([o.position[2] as f32, o.position[1] as f32, landed]);
        });
        Ok(Self { run, ends, told: std::cell::OnceCell::new() })
    }

    fn advance(&mut self, most: u64) -> bool {
        self.run.advance(most)
    }

    fn progress(&self) -> (u64, u64) {
        self.run.progress()
    }

    fn film(&self) -> Film {
        let picture = self.run.picture();
        let (columns, rows) = (picture.nx, picture.ny);
        // The library counts rows upwards, a picture downwards.
        let values =
            (0..rows).rev().flat_map(|j| &picture.dry[j * columns..(j + 1) * columns]).map(|&h| h as f32);
        Film {
            columns: columns as u32,
            rows: rows as u32,
            values: values.collect(),
            droplets: (self.ends.len() / 3) as u32,
            ends: self.ends.clone(),
        }
    }

    fn report(&self) -> Result<String, Refusal> {
        self.told().as_ref().map(|(report, _)| report.clone()).map_err(Clone::clone)
    }

    fn digest(&self) -> u64 {
        self.told().as_ref().map_or(0, |(_, digest)| *digest)
    }
}
