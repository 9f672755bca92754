//! The short way of laying: where the figures kept follow from the film as it lies, from the paint and from the time, the passes of a
//! machine over a panel are laid from tables. The digits are those of the report.

use super::answer::{Figure, Point, Value};
use super::plan::Plan;
use super::replicates::Replicates;
use crate::film::{Evenness, FilmMap};
use crate::gun::Warning;
use crate::job::{Job, PartShape};
use crate::judge::{Ends, ends};
use crate::report::{FEWEST, Landed, left_out, likely_over, likely_ratios};
use crate::run::Run;
use crate::stroke::{Pass, PassTables, Strokes};

/// Figures that it knows; the rest of these hang on the gun alone and are the first point's.
const OF_THE_FILM: [&str; 11] = [
    "droplets",
    "transfer_efficiency.value",
    "film.dry_um.mean",
    "film.dry_um.min",
    "film.thinnest_over_mean",
    "film.cv_percent.value",
    "film.in_band_percent",
    "paint.sprayed_ml",
    "paint.on_part_ml",
    "paint.lost_ml",
    "paint.seconds",
];
const OF_THE_GUN: [&str; 7] = [
    "gun.inlet_bar",
    "gun.cap_bar",
    "gun.free_air_l_min",
    "gun.fluid_ml_min",
    "spray.sauter_um",
    "spray.volume_median_um",
    "paint.kinematic_mm2_s",
];

/// A flight that is laid so.
pub(super) struct Laid {
    tables: PassTables,
    job: Job,
    first: Point,
    fan: f64,
    ratios: Vec<f64>,
    passes: Vec<Pass>,
    sums: Vec<f64>,
    film: FilmMap,
}

impl Laid {
    /// After the first point of a flight was done the long way; none where that is needed.
    pub fn new(plan: &Plan, run: &Run, first: &Point) -> Option<Self> {
        let prepared = run.prepared();
        let job = &prepared.job;
        let known = |path: &str| OF_THE_FILM.contains(&path) || OF_THE_GUN.contains(&path);
        let panel = matches!(job.part, PartShape::Panel { .. });
        let passes = job.stroke.is_swept() && job.stroke.burst.is_none() && job.track.is_none();
        let plain = job.supply.is_none() && !job.mixing.asked && job.run.standard_error.is_none();
        let counted = run.flown() >= FEWEST && first.impossible.is_none();
        if !(panel && passes && plain && counted && plan.columns().iter().all(|c| known(c.path))) {
            return None;
        }
        let strokes = prepared.strokes(run.card());
        let Strokes::Passes { passes, .. } = &strokes else { return None };
        let film = prepared.bare_film();
        let tables = PassTables::new(&prepared.swept(run.part(), &strokes), film.face(), passes)?;
        let (sizes, part) = (&prepared.spray.sizes, run.part());
        let variants = crate::set_up::Model::default()
            .size_range_with(&job.neighbours, &job.kit, &job.gun, &job.paint, &job.booth)
            .ok()?;
        Some(Self {
            sums: tables.sums(passes)?,
            passes: passes.clone(),
            tables,
            job: job.clone(),
            first: first.clone(),
            fan: prepared.fan_across(run.card()),
            ratios: likely_ratios(sizes, &variants, &part.sprayed, &part.landed),
            film,
        })
    }

    /// A point of the same flight; none where it needs the long way.
    pub fn point(&mut self, plan: &Plan, number: usize, job: &Job, run: &Run) -> Option<Point> {
        if !self.is_alike(job) {
            return None;
        }
        let strokes = Strokes::plan(&job.stroke, &job.part, self.fan);
        let Strokes::Passes { passes, speed, coats } = &strokes else { return None };
        if *passes != self.passes {
            self.sums = self.tables.sums(passes)?;
            self.passes.clone_from(passes);
        }
        self.tables.film(&self.sums, *speed, *coats, &mut self.film);
        let prepared = run.prepared();
        let (state, spray) = (&prepared.state, &prepared.spray);
        let landed = Landed::new(&self.film, &strokes, spray);
        if landed.dry.0 <= 0.0 {
            return None;
        }
        let mut warnings: Vec<String> = state.warnings.iter().map(ToString::to_string).collect();
        let of_the_job = [
            Warning::overhead(&job.kit, job.lean),
            Warning::runs_dry(&job.kit, job.gun.cup_level, spray.volume_flow, strokes.seconds()),
        ];
        warnings.extend(of_the_job.iter().flatten().map(ToString::to_string));
        warnings.extend(job.notes.iter().cloned());
        let found = ends(&self.film, job, run.flown());
        if let Ends::Needs(droplets) = found {
            warnings.push(left_out(droplets));
        }
        let squares = crate::film::squares(&self.film);
        let replicates = Replicates::with(&self.film, run.flown(), squares);
        let even = squares.map(|(all, without)| Evenness::of(all, &without));
        let cell = self.film.cell_error() * 1e6;
        let (dry, error) = (landed.dry.0 * 1e6, landed.dry.1 * 1e6);
        let sprayed = landed.sprayed * 1e6;
        let figure = |path: &str| -> Figure {
            let ends = match found {
                Ends::Known { min, in_band, .. } => Some((min, in_band)),
                Ends::Needs(_) => None,
            };
            let (value, error) = match path {
                "droplets" => (Some(run.flown() as f64), None),
                "transfer_efficiency.value" => (Some(landed.share), Some(landed.error)),
                "film.dry_um.mean" => (Some(dry), Some(error)),
                "film.dry_um.min" => (ends.map(|e| e.0 * 1e6), ends.map(|_| cell)),
                "film.thinnest_over_mean" => (ends.map(|e| e.0 / landed.dry.0), ends.map(|_| cell / dry)),
                "film.cv_percent.value" => {
                    (even.map(|e| e.cv * 100.0), even.map(|e| e.standard_error * 100.0))
                }
                "film.in_band_percent" => (ends.and_then(|e| e.1).map(|share| share * 100.0), None),
                "paint.sprayed_ml" => (Some(sprayed), None),
                "paint.on_part_ml" => {
                    (Some(landed.sprayed * landed.share * 1e6), Some(landed.error * landed.sprayed * 1e6))
                }
                "paint.lost_ml" => (
                    Some(landed.sprayed * (1.0 - landed.share) * 1e6),
                    Some(landed.error * landed.sprayed * 1e6),
                ),
                _ => (Some(landed.seconds), None),
            };
            let likely = (path == "transfer_efficiency.value").then(|| {
                let (low, high) = likely_over(landed.share, &self.ratios);
                [low, high]
            });
            let counted = super::Column::find(path).is_ok_and(|c| c.counted);
            let without = value
                .filter(|_| counted)
                .and_then(|value| replicates.as_ref()?.of_film(path, value, sprayed));
            Figure { value: value.map(Value::Number), standard_error: error, likely, without }
        };
        let figures = plan.columns().iter().enumerate().map(|(i, column)| {
            if OF_THE_FILM.contains(&column.path) {
                figure(column.path)
            } else {
                self.first.figures[i].clone()
            }
        });
        Some(Point {
            number,
            settings: plan.settings(number).into_iter().map(String::from).collect(),
            droplets: run.flown(),
            figures: figures.collect(),
            impossible: None,
            warnings,
        })
    }

    /// Nothing but the strokes' speed, overlap, lead, coats and waits, and the film wanted, is other than at the first point.
    fn is_alike(&self, job: &Job) -> bool {
        let own = &self.job;
        let mut stroke = job.stroke;
        (stroke.speed, stroke.overlap, stroke.coats) =
            (own.stroke.speed, own.stroke.overlap, own.stroke.coats);
        (stroke.turn, stroke.flash) = (own.stroke.turn, own.stroke.flash);
        (&job.kit, &job.gun, &job.paint, &job.booth, &job.part)
            == (&own.kit, &own.gun, &own.paint, &own.booth, &own.part)
            && (job.lean, job.run, &job.neighbours) == (own.lean, own.run, &own.neighbours)
            && stroke == own.stroke
            && job.supply.is_none()
            && job.track.is_none()
            && !job.mixing.asked
    }
}
