//! A set-up flown with few droplets or many, from which the film of any stroke at its distance is laid.

use super::look::{FULL, FULL_PARTS, Look};
use super::way::Way;
use crate::error::ParameterError;
use crate::film::{Deposit, Face, FilmMap, SetFilm};
use crate::flight::levels;
use crate::job::{Job, RunSetting};
use crate::report::{Pattern, PatternKind};
use crate::run::{Prepared, Run, Settling};
use crate::stroke::{Layer, Moment, Off, Pass, Passing, Rows, Strip, Strokes, Track, legs};

/// Films of some parts, and what they took.
pub struct Films {
    /// One a part.
    pub films: Vec<FilmMap>,
    /// Trigger on, mean of the parts [s].
    pub seconds: f64,
    /// The same at full paint flow [s].
    pub open: f64,
    /// Parts of a full flight: a set-up keeps from its limits by the errors that such a one has.
    pub full_parts: u64,
    /// Counting error of a full flight over that of this one, by their droplets [-].
    pub full_share: f64,
}

/// A set-up under way or flown.
pub struct Flight {
    run: Run,
    layer: Option<Layer>,
    strip: Option<Strip>,
}

/// Half of the way of a pass whose profile is taken [m]: as far as a footprint reaches.
const REACH: f64 = 0.35;
/// Height of a profile [m], and its rows.
const TALL: f64 = 0.8;
const ROWS: usize = 160;

impl Flight {
    /// Prepares a job to fly so many droplets to the part and to the card.
    ///
    /// # Errors
    /// A set-up that cannot be sprayed, by its key.
    pub fn new(job: Job, droplets: u64, card: u64) -> Result<Self, ParameterError> {
        let run = RunSetting { droplets, standard_error: None, seed: job.run.seed };
        let run = Run::with_card(Job { run, ..job }, card, levels()[0])?;
        Ok(Self { run, layer: None, strip: None })
    }

    /// Flies at most `most` droplets more; true when all are flown. Any slicing and any number of threads give the same digits.
    pub fn fly(&mut self, most: u64, threads: bool) -> bool {
        let (flown, wanted) = self.run.progress();
        if flown < wanted {
            if threads {
                self.run.fly_on_all_threads(most.max(1));
            } else {
                self.run.fly(most.max(1));
            }
        }
        let (flown, wanted) = self.run.progress();
        if flown < wanted {
            return false;
        }
        if self.layer.is_none() {
            self.layer = self.run.shelf().map(Layer::full);
        }
        if self.strip.is_none() && Strip::does(&self.prepared().job.stroke) {
            self.strip = self.strip();
        }
        true
    }

    /// Lays what was flown along another job's strokes, to be let set by [`Flight::settle`]; false where that job needs droplets of its
    /// own.
    ///
    /// # Errors
    /// As [`Run::new`].
    pub fn relay(&mut self, job: Job) -> Result<bool, ParameterError> {
        let run = self.prepared().job.run;
        self.run.relay(Job { run, ..job })
    }

    /// A piece of the film's time; true when it has set.
    pub fn settle(&mut self, threads: bool) -> bool {
        if threads { self.run.advance_on_all_threads(u64::MAX) } else { self.run.advance(u64::MAX) }
    }

    /// Droplets flown and wanted.
    #[must_use]
    pub fn progress(&self) -> (u64, u64) {
        self.run.progress()
    }

    /// What it was prepared from.
    #[must_use]
    pub fn prepared(&self) -> &Prepared {
        self.run.prepared()
    }

    /// The run behind it.
    #[must_use]
    pub fn run(&self) -> &Run {
        &self.run
    }

    /// The pattern's name.
    #[must_use]
    pub fn kind(&self) -> Option<PatternKind> {
        Pattern::on(self.run.card(), self.prepared().spray.volume_flow).map(|p| p.kind)
    }

    /// The fan's size across the passes [m].
    #[must_use]
    pub fn fan(&self) -> f64 {
        self.prepared().fan_across(self.run.card())
    }

    /// Profiles of single passes under the job's hand.
    fn strip(&self) -> Option<Strip> {
        let prepared = self.prepared();
        let bare = prepared.bare_film();
        let face = bare.face();
        let radius = prepared.radius();
        let rows = match radius {
            Some(_) if face.closed => Rows { count: face.ny, step: face.cell_y, closed: true },
            // As tall as a footprint, on a curved face never all round.
            _ => {
                let round = radius.map_or(f64::MAX, |r| 0.95 * core::f64::consts::TAU * r);
                Rows { count: ROWS, step: TALL.min(round) / ROWS as f64, closed: false }
            }
        };
        let place = face.place;
        let column = Face {
            name: String::new(),
            first: 0,
            nx: 1,
            ny: rows.count,
            cell_x: 1e-3,
            cell_y: rows.step,
            closed: rows.closed,
            place,
        };
        let lay = |off: Off| {
            let mut film = FilmMap::over(vec![column.clone()]);
            match &self.layer {
                Some(layer) => {
                    let at = |time: f64, x: f64, trigger: f64| Moment {
                        time,
                        x,
                        y: off.aside,
                        distance: off.distance,
                        trigger,
                        ..Moment::default()
                    };
                    let moments = vec![at(0.0, -REACH, 1.0), at(2.0 * REACH, REACH, 0.0)];
                    if let Ok(track) = Track::new(moments) {
                        layer.lay_segments(&track, 0..1, 0, &mut film);
                    }
                }
                None => {
                    let passes = vec![Pass { from: -REACH, to: REACH, offset: 0.0, turn: 0.0, member: 0 }];
                    let strokes = Strokes::Passes { passes, speed: 1.0, coats: 1 };
                    prepared.swept(self.run.part(), &strokes).lay(&mut film);
                }
            }
            film
        };
        Some(Strip::new(prepared.job.stroke, radius, rows, lay))
    }

    /// Films of parts painted this way, once all is flown.
    #[must_use]
    pub fn lay(&self, way: Way, look: Look) -> Films {
        let Some(strip) = &self.strip else { return self.lay_in_full(way, look) };
        let job = way.set(self.prepared().job.clone());
        let legs = legs(&job.stroke, &job.part, self.fan());
        let bare = self.prepared().bare_film();
        let parts = look.parts_of(&job);
        let (mut seconds, mut films) = (0.0, Vec::new());
        for part in 0..parts {
            let by = Passing { speed: way.speed, seed: job.run.seed + part, columns: look.columns };
            let (film, time) = strip.lay(&legs, 0..legs.len(), &by, bare.face());
            seconds += time / parts as f64;
            films.push(film);
        }
        let full_parts = if job.stroke.hand.is_machine() { 1 } else { FULL_PARTS };
        Films { films, seconds, open: seconds, full_parts, full_share: self.full_share() }
    }

    /// Films are laid column by column from single passes, not piece by piece.
    #[must_use]
    pub fn is_by_columns(&self) -> bool {
        self.strip.is_some()
    }

    /// Parts that are laid for a look.
    #[must_use]
    pub fn parts(&self, look: Look) -> u64 {
        look.parts_of(&self.prepared().job)
    }

    fn full_share(&self) -> f64 {
        (self.prepared().job.run.droplets as f64 / FULL[0] as f64).sqrt().min(1.0)
    }

    /// A part painted this way, its film set: on a few columns, where single passes are known.
    #[must_use]
    pub fn set(&self, way: Way, look: Look, part: u64) -> Option<SetFilm> {
        let strip = self.strip.as_ref()?;
        let mut prepared = self.prepared().clone();
        prepared.job = way.set(prepared.job);
        let stroke = &prepared.job.stroke;
        let legs = legs(stroke, &prepared.job.part, self.fan());
        let seed = prepared.job.run.seed + part;
        let by = Passing { speed: way.speed, seed, columns: look.columns };
        let bare = prepared.bare_film();
        let (film, _) = strip.lay(&legs, 0..legs.len(), &by, bare.face());
        let mut times = Vec::new();
        let mut now = 0.0;
        for (leg, next) in legs.iter().zip(legs.iter().skip(1).map(Some).chain([None])) {
            let end = now + (leg.ends[1] - leg.ends[0]).abs() / way.speed;
            times.push([now, end]);
            let wait = next.map_or(0.0, |n| if n.coat > leg.coat { stroke.flash } else { stroke.turn });
            now = end + wait;
        }
        let mut settling = Settling::new(&prepared, self.run.part(), &film).ok()?;
        let deposit = |number: usize| {
            let [from, to] = *times.get(number)?;
            let (own, _) = strip.lay(&legs, number..number + 1, &by, bare.face());
            Some(Deposit { from, to, dry: own.dry, wet: own.wet })
        };
        while !settling.advance(&deposit) {}
        Some(settling.into_set())
    }

    /// The same with every piece of the gun's way laid on its own: slow, for hands that arc, tilt or drift.
    #[must_use]
    pub fn lay_in_full(&self, way: Way, look: Look) -> Films {
        let mut prepared = self.prepared().clone();
        prepared.job = way.set(prepared.job);
        let (parts, seed) = (look.parts_of(&prepared.job), prepared.job.run.seed);
        let bare = FilmMap::over(coarse(prepared.bare_film().faces(), look.columns));
        let (mut seconds, mut open, mut films) = (0.0, 0.0, Vec::new());
        for part in 0..parts {
            // Another hand over the same droplets.
            prepared.job.run.seed = seed + part;
            let strokes = prepared.strokes(self.run.card());
            seconds += strokes.seconds() / parts as f64;
            open += strokes.open_seconds() / parts as f64;
            let mut film = bare.clone();
            match (&strokes, &self.layer) {
                (Strokes::Track(track), Some(layer)) => {
                    layer.lay_segments(track, 0..track.moments().len() - 1, 0, &mut film);
                }
                _ => prepared.swept(self.run.part(), &strokes).lay(&mut film),
            }
            films.push(film);
        }
        Films { films, seconds, open, full_parts: parts, full_share: self.full_share() }
    }
}

/// The faces with fewer cells along the passes: a film hardly changes along them, its hand's errors by the hundred mm.
fn coarse(faces: &[Face], columns: usize) -> Vec<Face> {
    let fewer = |face: &Face| {
        let nx = face.nx.min(columns.max(1));
        Face { nx, cell_x: face.cell_x * face.nx as f64 / nx as f64, ..face.clone() }
    };
    faces.iter().map(fewer).collect()
}
