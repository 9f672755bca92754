//! The short way of laying: where the figures kept follow from the film as it lies, from the paint and from the time, the passes of a
//! machine over a panel are laid from tables. The digits are those of the report. Also tells whether a wanted error is reached.

use super::answer::{Figure, Point, Value};
use super::plan::Plan;
use super::replicates::Replicates;
use super::under_way::threads;
use crate::film::{Evenness, FilmMap};
use crate::gun::Warning;
use crate::job::{Job, PartShape};
use crate::judge::{Ends, ends_of};
use crate::report::{FEWEST, Landed, left_out, likely_factors, likely_over, likely_ratios, rest, together};
use crate::run::Run;
use crate::stroke::{Pass, PassTables, Strokes};
use crate::tally::{GROUPS, standard_error};

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
    flight: Flown,
    /// One for each thread that lays.
    desks: Vec<Desk>,
}

/// What all threads lay from.
struct Flown {
    tables: PassTables,
    job: Job,
    /// Done the long way: what hangs on the gun alone is read from it.
    first: Option<Point>,
    fan: f64,
    /// Landed share by the model's size variants over its figure [-].
    ratios: Vec<f64>,
    /// Lowest and highest factor on the paint flow [-].
    flows: (f64, f64),
}

/// What one thread lays on: the last strokes and what they bring, and the film.
#[derive(Clone)]
struct Desk {
    passes: Vec<Pass>,
    coats: u32,
    sums: Vec<f64>,
    film: FilmMap,
}

impl Laid {
    /// Of what a run has flown; none where the long way is needed.
    pub fn new(plan: &Plan, run: &Run) -> Option<Self> {
        let prepared = run.prepared();
        let job = &prepared.job;
        let known = |path: &str| OF_THE_FILM.contains(&path) || OF_THE_GUN.contains(&path);
        let panel = matches!(job.part, PartShape::Panel { .. });
        let passes = job.stroke.is_swept() && job.stroke.burst.is_none() && job.track.is_none();
        let plain = job.supply.is_none() && !job.mixing.asked;
        let counted = run.flown() >= FEWEST;
        if !(panel && passes && plain && counted && plan.columns().iter().all(|c| known(c.path))) {
            return None;
        }
        let strokes = prepared.strokes(run.card());
        let Strokes::Passes { passes, coats, .. } = &strokes else { return None };
        let film = prepared.bare_film();
        let tables = PassTables::new(&prepared.swept(run.part(), &strokes), film.face(), passes)?;
        let (sizes, part) = (&prepared.spray.sizes, run.part());
        let model = crate::set_up::Model::default();
        let variants =
            model.size_range_with(&job.neighbours, &job.kit, &job.gun, &job.paint, &job.booth).ok()?;
        let sums = tables.sums(passes, *coats)?;
        let flight = Flown {
            tables,
            job: job.clone(),
            first: None,
            fan: prepared.fan_across(run.card()),
            ratios: likely_ratios(sizes, &variants, &part.sprayed, &part.landed),
            flows: model.flow_range(&job.kit, &job.gun, &job.paint, &job.booth).ok()?,
        };
        Some(Self { flight, desks: vec![Desk { passes: passes.clone(), coats: *coats, sums, film }] })
    }

    /// Takes a point that was done the long way.
    pub fn learn(&mut self, first: &Point) {
        if first.impossible.is_none() {
            self.flight.first.get_or_insert_with(|| first.clone());
        }
    }

    /// What is flown reaches the error that a job of the same flight asks for; none where the long way is needed.
    pub fn is_sure_enough(&mut self, job: &Job) -> Option<bool> {
        let (_, _, dry) = self.flight.lay(job, self.desks.first_mut()?)?;
        Some(job.run.is_reached(dry))
    }

    /// A point of the same flight; none where it needs the long way.
    pub fn point(&mut self, plan: &Plan, number: usize, job: &Job, run: &Run) -> Option<Point> {
        self.flight.point(self.desks.first_mut()?, plan, number, job, run)
    }

    /// Points of the same flight, on all threads where the crate has them; none for those that need the long way.
    pub fn points(&mut self, plan: &Plan, numbers: &[usize], run: &Run) -> Vec<Option<Point>> {
        let desks = threads().min(numbers.len()).max(1);
        while let Some(desk) = self.desks.first().filter(|_| self.desks.len() < desks) {
            self.desks.push(desk.clone());
        }
        let flight = &self.flight;
        shared_out(&mut self.desks[..desks], numbers, |desk, number| {
            flight.point(desk, plan, number, &plan.job(number).ok()?, run)
        })
    }
}

impl Flown {
    /// Lays a job's film: its strokes, each group's mean and the mean dry film with its error [m]; none where the long way is needed.
    fn lay(&self, job: &Job, desk: &mut Desk) -> Option<(Strokes, [f64; GROUPS], (f64, f64))> {
        if !self.is_alike(job) {
            return None;
        }
        let strokes = Strokes::plan(&job.stroke, &job.part, self.fan);
        let Strokes::Passes { passes, speed, coats } = &strokes else { return None };
        if (passes, *coats) != (&desk.passes, desk.coats) {
            desk.sums = self.tables.sums(passes, *coats)?;
            desk.passes.clone_from(passes);
            desk.coats = *coats;
        }
        self.tables.film(&desk.sums, *speed, &mut desk.film);
        let (film, means) = (&desk.film, desk.film.group_means());
        let dry = (film.mean_over_area(|cell| film.dry[cell]), standard_error(&means));
        Some((strokes, means, dry))
    }

    fn point(&self, desk: &mut Desk, plan: &Plan, number: usize, job: &Job, run: &Run) -> Option<Point> {
        self.first.as_ref()?;
        let (strokes, means, dry) = self.lay(job, desk)?;
        let (film, first) = (&desk.film, self.first.as_ref()?);
        let prepared = run.prepared();
        let (state, spray) = (&prepared.state, &prepared.spray);
        let cell_error = film.cell_error();
        let landed = Landed::of_mean(dry, film.area(), &strokes, spray);
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
        let found = ends_of(film, job, run.flown(), cell_error);
        if let Ends::Needs(droplets) = found {
            warnings.push(left_out(droplets));
        }
        let uneven = plan.columns().iter().any(|column| column.path == "film.cv_percent.value");
        let squares = if uneven { crate::film::squares(film) } else { None };
        let replicates = Replicates::with(film, run.flown(), means, squares);
        let even = squares.map(|(all, without)| Evenness::of(all, &without));
        let cell = cell_error * 1e6;
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
            let over = |value: f64, (low, high): (f64, f64)| [value * low, value * high];
            let likely = match path {
                "transfer_efficiency.value" => {
                    let (low, high) = likely_over(landed.share, &self.ratios, rest(job));
                    Some([low, high])
                }
                "film.dry_um.mean" => {
                    Some(over(dry, together(&[likely_factors(&self.ratios, rest(job)), self.flows])))
                }
                "paint.sprayed_ml" => Some(over(sprayed, self.flows)),
                _ => None,
            };
            let counted = super::Column::find(path).is_ok_and(|c| c.counted);
            let without = value
                .filter(|_| counted)
                .and_then(|value| replicates.as_ref()?.of_film(path, value, sprayed));
            Figure { value: value.map(Value::Number), standard_error: error, likely, without }
        };
        let figures = plan.columns().iter().enumerate().map(|(i, column)| {
            if OF_THE_FILM.contains(&column.path) { figure(column.path) } else { first.figures[i].clone() }
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
        // How sure it has to be does not change what is flown.
        let run = |job: &Job| (job.run.droplets, job.run.seed);
        let mut stroke = job.stroke;
        (stroke.speed, stroke.overlap, stroke.coats) =
            (own.stroke.speed, own.stroke.overlap, own.stroke.coats);
        (stroke.turn, stroke.flash) = (own.stroke.turn, own.stroke.flash);
        (&job.kit, &job.gun, &job.paint, &job.booth, &job.part)
            == (&own.kit, &own.gun, &own.paint, &own.booth, &own.part)
            && (job.lean, run(job), &job.neighbours) == (own.lean, run(own), &own.neighbours)
            && stroke == own.stroke
            && job.supply.is_none()
            && job.track.is_none()
            && !job.mixing.asked
    }
}

/// A stretch of the numbers for each desk, side by side; what came of them in their order.
#[cfg(feature = "parallel")]
fn shared_out<T: Send>(
    desks: &mut [Desk],
    numbers: &[usize],
    each: impl Fn(&mut Desk, usize) -> Option<T> + Sync + Send,
) -> Vec<Option<T>> {
    use rayon::prelude::*;
    let share = numbers.len().div_ceil(desks.len().max(1)).max(1);
    let stretches = desks.par_iter_mut().zip(numbers.par_chunks(share));
    let done = stretches.map(|(desk, share)| share.iter().map(|&n| each(desk, n)).collect::<Vec<_>>());
    done.collect::<Vec<_>>().into_iter().flatten().collect()
}

#[cfg(not(feature = "parallel"))]
fn shared_out<T>(
    desks: &mut [Desk],
    numbers: &[usize],
    each: impl Fn(&mut Desk, usize) -> Option<T>,
) -> Vec<Option<T>> {
    let Some(desk) = desks.first_mut() else { return Vec::new() };
    numbers.iter().map(|&n| each(desk, n)).collect()
}
