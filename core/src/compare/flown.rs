//! What a full run says of a gun: paint for a part at the film wanted, its spread over the replicate groups and over the
//! model's variants.

use crate::error::ParameterError;
use crate::film::evenness;
use crate::report::{Pattern, PatternKind, landed_ratio, likely_factors, pattern_sizes, rest};
use crate::run::Run;
use crate::search::{AirFigures, air_of};
use crate::set_up::Model;
use crate::tally::{GROUPS, jackknife};

/// A gun's figures for one part. Volumes are paint as in the cup, at the middle of the film wanted.
#[derive(Debug, Clone, PartialEq)]
pub struct Flown {
    /// Paint for a part [m3].
    pub volume: f64,
    /// The same without one replicate group.
    pub without: [f64; GROUPS],
    /// The same by each of the model's variants.
    pub variants: Vec<(&'static str, f64)>,
    /// Share of the landed share that the model's other constants leave open [-].
    pub rest: f64,
    /// Trigger on for a part [s].
    pub seconds: f64,
    /// Speed that lays the film wanted [m/s].
    pub speed: f64,
    /// Standard deviation over mean of the film, and its standard error [-].
    pub unevenness: (f64, f64),
    /// The pattern's name.
    pub kind: Option<PatternKind>,
    /// Fan height on a flat card at the job's distance [m].
    pub fan: f64,
    /// Free air [m3/s].
    pub air: f64,
    /// Your air against it, where the job names a supply.
    pub air_against: Option<AirFigures>,
    /// Mean dry film as the run was flown [m].
    pub film: f64,
}

impl Flown {
    /// Reads a finished run; `target` is the mean dry film wanted [m].
    ///
    /// # Errors
    /// Nothing landed on the part, or a value out of a model's range.
    pub fn read(run: &Run, target: f64) -> Result<Self, ParameterError> {
        let prepared = run.prepared();
        let (job, spray) = (&prepared.job, &prepared.spray);
        let film = run.film();
        let (mean, _) = film.mean_dry();
        let uneven = evenness(&film).filter(|_| mean > 0.0 && target > 0.0);
        let nothing = || ParameterError::new("stroke", "no paint on the part", "strokes that meet the part");
        let uneven = uneven.ok_or_else(nothing)?;
        let strokes = prepared.strokes(run.card());
        let sprayed = strokes.seconds() * spray.volume_flow;
        let cells = film.len() as f64;
        let groups: [f64; GROUPS] = core::array::from_fn(|g| film.group(g).iter().sum::<f64>() / cells);
        let all: f64 = groups.iter().sum();
        let without = groups.map(|own| {
            let rest = (all - own) / (GROUPS - 1) as f64;
            if rest > 0.0 { sprayed * target / rest } else { f64::MAX }
        });
        let volume = sprayed * target / mean;
        let range =
            Model::default().size_range_with(&job.neighbours, &job.kit, &job.gun, &job.paint, &job.booth)?;
        let variants = range
            .iter()
            .map(|v| {
                let part = run.part();
                let ratio = landed_ratio(&spray.sizes, &v.sizes, &part.sprayed, &part.landed);
                (v.change, ratio.filter(|r| *r > 0.0).map_or(volume, |r| volume / r))
            })
            .collect();
        let air_against = air_of(prepared, &strokes, job.stroke.speed * mean / target);
        Ok(Self {
            volume,
            without,
            variants,
            rest: rest(job),
            seconds: strokes.seconds() * target / mean,
            speed: job.stroke.speed * mean / target,
            unevenness: (uneven.cv, uneven.standard_error),
            kind: Pattern::on(run.card(), spray.volume_flow).map(|p| p.kind),
            fan: pattern_sizes(run.card(), None).length,
            air: prepared.state.air.free_air(),
            air_against,
            film: mean,
        })
    }

    /// Lowest and highest volume over the model's variants and what its other constants leave open [m3].
    #[must_use]
    pub fn range(&self) -> (f64, f64) {
        let ratios: Vec<f64> = self.variants.iter().map(|v| self.volume / v.1).collect();
        let (least, most) = likely_factors(&ratios, self.rest);
        (self.volume / most, self.volume / least)
    }

    /// Counting error of the volume [m3].
    #[must_use]
    pub fn standard_error(&self) -> f64 {
        jackknife(core::array::from_fn(|g| self.without[g] - self.volume))
    }
}
