//! One setting flown with few droplets: enough to choose between settings, since all trials fly the same streams.
//!
//! A footprint once flown serves any speed and, on a tube, any number of sides: the film wanted gives the speed.

use crate::course::Course;
use crate::error::ParameterError;
use crate::film::{FilmMap, evenness};
use crate::flight::{Batch, levels};
use crate::job::{Job, PartShape};
use crate::report::{Pattern, PatternKind};
use crate::run::{CardTally, PartTally, Prepared, Tally, fly_all};
use crate::search::air_of;

/// Droplets of a trial, to the part and to the card each.
pub(super) const DROPLETS: u64 = 8192;

/// A setting under trial.
pub(super) struct Trial {
    prepared: Prepared,
    part: PartTally,
    card: CardTally,
    flown: [u64; 2],
    batch: Batch<f32>,
    target: f64,
}

/// What a trial says of one way to move the gun.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Laid {
    /// Passes from this many sides.
    pub sides: u32,
    /// Speed that lays the film wanted [m/s].
    pub speed: f64,
    /// Trigger on, for a part [s].
    pub seconds: f64,
    /// Paint for a part [m3].
    pub volume: f64,
    /// Standard deviation over mean of the film [-].
    pub unevenness: f64,
    /// Your air holds it, or is not known.
    pub held: bool,
}

impl Trial {
    /// A trial of a job's setting; `target` is the mean dry film to lay [m].
    ///
    /// # Errors
    /// A set-up that cannot be sprayed, by its key.
    pub fn new(job: Job, target: f64) -> Result<Self, ParameterError> {
        let prepared = Prepared::new(job)?;
        let part = PartTally::new(prepared.grid());
        Ok(Self {
            prepared,
            part,
            card: CardTally::default(),
            flown: [0; 2],
            batch: Batch::default(),
            target,
        })
    }

    /// Whether the film waits for the card, since the fan's height spaces the passes.
    pub fn needs_card(&self) -> bool {
        self.prepared.spaced_by_fan()
    }

    /// Flies at most `most` droplets to the part; true when all its droplets are flown.
    pub fn fly_part(&mut self, most: u64, threads: bool) -> bool {
        let grid = self.part.footprint.grid;
        let empty = || PartTally::new(grid);
        fly(&self.prepared.course, &mut self.flown[0], most, &mut self.batch, &mut self.part, empty, threads)
    }

    /// Flies at most `most` droplets to the card; true when all its droplets are flown.
    pub fn fly_card(&mut self, most: u64, threads: bool) -> bool {
        let empty = CardTally::default;
        fly(&self.prepared.card, &mut self.flown[1], most, &mut self.batch, &mut self.card, empty, threads)
    }

    /// The pattern's name, once the card is flown.
    pub fn kind(&self) -> Option<PatternKind> {
        Pattern::on(&self.card, self.prepared.spray.volume_flow).map(|p| p.kind)
    }

    /// The film wanted, laid from the job's sides first and then from `sides`; where nothing landed there is none.
    pub fn laid(&self, sides: &[u32]) -> Vec<Laid> {
        let own = self.prepared.job.stroke.sides;
        let round = matches!(self.prepared.job.part, PartShape::Tube { .. });
        let others = sides.iter().copied().filter(|&s| round && s != own);
        std::iter::once(own).chain(others).filter_map(|sides| self.lay(sides)).collect()
    }

    fn lay(&self, sides: u32) -> Option<Laid> {
        let mut job = self.prepared.job.clone();
        job.stroke.sides = sides;
        let speed = job.stroke.speed;
        let prepared = Prepared { job, ..self.prepared.clone() };
        let strokes = prepared.strokes(&self.card);
        let mut film: FilmMap = prepared.bare_film();
        prepared.swept(&self.part, &strokes).lay(&mut film);
        let (mean, _) = film.mean_dry();
        let uneven = evenness(&film)?;
        if mean <= 0.0 || speed <= 0.0 {
            return None;
        }
        let more = self.target / mean;
        let seconds = strokes.seconds() * more;
        let held = air_of(&prepared, &strokes, speed / more).is_none_or(|air| air.holds());
        Some(Laid {
            sides,
            speed: speed / more,
            seconds,
            volume: seconds * prepared.spray.volume_flow,
            unevenness: uneven.cv,
            held,
        })
    }
}

/// Flies droplets from `flown` on; true when [`DROPLETS`] are flown.
fn fly<T: Tally>(
    course: &Course,
    flown: &mut u64,
    most: u64,
    batch: &mut Batch<f32>,
    tally: &mut T,
    empty: impl Fn() -> T + Sync + Send,
    threads: bool,
) -> bool {
    let level = levels()[0];
    let next = DROPLETS.min(flown.saturating_add(most));
    if threads {
        fly_all(course, level, *flown, next, empty, tally);
    } else {
        course.fly(level, *flown, next, batch, |o| tally.count(o));
    }
    *flown = next;
    next == DROPLETS
}
