//! By hand, as the worker does it: flies the gun's imprints once, lays what the hand does as it comes, and judges a try.
//!
//! What the page tells is a list of numbers, the first of which says what: see [`Order`].

use mistcoat::film::FilmMap;
use mistcoat::flight::{Batch, levels};
use mistcoat::job::{Job, PartShape};
use mistcoat::practice::{Aim, shares};
use mistcoat::run::{CARD_DROPLETS, CardTally, PoseRange, Prepared, Tally};
use mistcoat::stroke::{Layer, Shelf, Strokes};

mod judging;
mod laying;
mod told;

use judging::Judging;
use laying::Laying;
pub use told::{Card, Order, Pass, Plan, Spoken, Told};

use crate::protocol::Film;
use crate::worker::Refusal;

/// Droplets of the first, rough footprint, with which one can begin.
pub const FIRST: u64 = 30_000;
/// Droplets at each pose but the job's own.
pub const OUTER: u64 = 20_000;
/// Droplets between two looks at the clock.
const PIECE: u64 = 512;
/// Segments between two looks at the clock.
const SEGMENTS: usize = 24;
/// Poses that are flown: tip to panel [m], heel and swing [rad].
pub const REACH: PoseRange =
    PoseRange { distance: [0.08, 0.4], heel: [-0.45, 0.45], swing: [-0.45, 0.45], aside: [0.0, 0.0] };

/// The task.
pub struct Practising {
    prepared: Prepared,
    size: [f64; 2],
    band: Option<[f64; 2]>,
    shelf: Shelf,
    card: CardTally,
    card_flown: u64,
    batch: Batch<f32>,
    bare: FilmMap,
    /// Made again when more of the shelf is flown; for pictures under way.
    layer: Option<Layer>,
    /// With all groups; made when all is flown.
    full: Option<Layer>,
    aim: Option<Aim>,
    /// Share of the panel with the film wanted when a machine lays the plan.
    best: Option<(Laying, Option<f64>)>,
    /// The hand, live.
    live: Laying,
    judging: Option<Judging>,
    /// A try is over that cannot be judged before all is flown.
    due: bool,
    card_told: Option<Card>,
    /// A replay's film, and how far it is wanted.
    shown: Option<(Laying, usize)>,
    news: bool,
    picture: bool,
}

fn refused(key: &str, message: String) -> Refusal {
    Refusal { key: Some(key.to_string()).filter(|k| !k.is_empty()), message }
}

impl Practising {
    /// Reads the job.
    ///
    /// # Errors
    /// A job that cannot be sprayed, or whose part is no panel, by its key.
    pub fn start(job: &str) -> Result<Self, Refusal> {
        let job = Job::from_toml(job).map_err(|e| refused(&e.key, e.problem().to_string()))?;
        // The hand is the painter's own; what it is to do is a machine's.
        let job = job.by_machine();
        let PartShape::Panel { width, height } = job.part else {
            return Err(refused("part", "by hand paints panels".into()));
        };
        if job.stroke.burst.is_some() {
            return Err(refused("stroke.burst", "by hand needs passes".into()));
        }
        let coats = if job.spec.is_some_and(|s| !s.per_coat) { f64::from(job.stroke.coats) } else { 1.0 };
        // One coat is practised.
        let band = job.spec.map(|s| [s.low / coats, s.high / coats]);
        let droplets = job.run.droplets;
        let prepared = Prepared::new(job).map_err(|e| refused(&e.key, e.to_string()))?;
        let shelf = prepared.shelf(&REACH, droplets, OUTER).map_err(|e| refused(&e.key, e.to_string()))?;
        let bare = prepared.bare_film();
        Ok(Self {
            size: [width, height],
            band,
            shelf,
            card: CardTally::default(),
            card_flown: 0,
            batch: Batch::default(),
            live: Laying::new(Vec::new(), &bare),
            bare,
            layer: None,
            full: None,
            aim: None,
            best: None,
            judging: None,
            due: false,
            card_told: None,
            shown: None,
            news: true,
            picture: true,
            prepared,
        })
    }

    /// Flies on, then lays what is asked for, while there is time. Never done: it rests.
    pub fn advance(&mut self, time_left: &mut dyn FnMut() -> bool) -> bool {
        while !self.rests() {
            self.piece();
            if !time_left() {
                break;
            }
        }
        false
    }

    /// All is flown and laid.
    pub fn rests(&self) -> bool {
        self.full.is_some()
            && self.judging.is_none()
            && self.best.as_ref().is_some_and(|(_, share)| share.is_some())
            && self.shown.as_ref().is_none_or(|(laying, to)| laying.at >= *to || laying.is_done())
    }

    /// One short piece of work.
    fn piece(&mut self) {
        if let Some((laying, to)) = &mut self.shown
            && let Some(layer) = &self.layer
            && laying.at < (*to).min(laying.track.len())
        {
            let left = (*to).min(laying.track.len()) - laying.at;
            laying.some(layer, SEGMENTS.min(left));
            self.picture = true;
            return;
        }
        if self.layer.is_none() {
            self.fly(FIRST, true);
        } else if self.card_flown < CARD_DROPLETS {
            self.fly_card();
        } else if self.full.is_none() {
            self.fly(u64::MAX, false);
        } else if self.judging.is_some() {
            self.judge();
        } else if let Some((laying, share)) = &mut self.best
            && let Some(layer) = &self.layer
        {
            laying.some(layer, SEGMENTS);
            if laying.is_done() {
                *share = Some(self.band.map_or(f64::NAN, |band| shares(&laying.film, band).right));
                self.news = true;
            }
        }
    }

    /// Flies imprints; the film under way is laid anew when they are there.
    fn fly(&mut self, to: u64, first: bool) {
        let flown = self.shelf.progress().0;
        self.shelf.advance_at(levels()[0], PIECE.min(to - flown.min(to)), &mut self.batch);
        let now = self.shelf.progress().0;
        if first && now >= to || self.shelf.is_flown() {
            let layer = Layer::plain(&self.shelf);
            if self.shelf.is_flown() {
                self.full = Some(Layer::full(&self.shelf));
            }
            let mut live = Laying::new(std::mem::take(&mut self.live.track), &self.bare);
            live.some(&layer, usize::MAX);
            (self.live, self.layer, self.news, self.picture) = (live, Some(layer), true, true);
            if self.full.is_some() && std::mem::take(&mut self.due) {
                self.begin_judging();
            }
        }
    }

    fn fly_card(&mut self) {
        let next = CARD_DROPLETS.min(self.card_flown + PIECE);
        let card = &mut self.card;
        self.prepared.card.fly(levels()[0], self.card_flown, next, &mut self.batch, |o| card.count(o));
        self.card_flown = next;
        if next >= CARD_DROPLETS {
            if let Strokes::Passes { passes, .. } = self.prepared.strokes(&self.card) {
                let (plan, flow) = (&self.prepared.job.stroke, self.prepared.spray.volume_flow);
                self.aim = Aim::new(self.size, &passes, plan, flow);
            }
            let machine = self.aim.as_ref().and_then(|aim| aim.track(0.02));
            let moments = machine.map(|t| t.moments().to_vec()).unwrap_or_default();
            self.best = Some((Laying::new(moments, &self.bare), None));
            self.news = true;
        }
    }

    /// Does what the page tells it.
    pub fn hear(&mut self, numbers: &[f64]) {
        match Order::read(numbers) {
            Some(Order::Begin) => {
                self.live = Laying::new(Vec::new(), &self.bare);
                (self.judging, self.card_told, self.shown, self.due) = (None, None, None, false);
                (self.news, self.picture) = (true, true);
            }
            Some(Order::Moments(moments)) => {
                self.live.track.extend(moments);
                if let Some(layer) = &self.layer {
                    self.live.some(layer, usize::MAX);
                    self.picture = true;
                }
            }
            Some(Order::Judge) => self.begin_judging(),
            Some(Order::Show(moments)) => self.show(moments),
            None => {}
        }
    }

    /// A replay: the film as it was so many moments into the try; the whole try ends it.
    fn show(&mut self, moments: usize) {
        if moments >= self.live.track.len() {
            self.shown = None;
        } else if let Some((laying, to)) = self.shown.as_mut().filter(|(laying, _)| laying.at <= moments) {
            *to = moments;
            if let Some(layer) = &self.layer {
                laying.some(layer, SEGMENTS.min(moments.saturating_sub(laying.at)));
            }
        } else {
            self.shown = Some((Laying::new(self.live.track.clone(), &self.bare), moments));
        }
        self.picture = true;
    }

    /// Droplets flown and wanted, and what is left to lay.
    pub fn progress(&self) -> (u64, u64) {
        let (flown, wanted) = self.shelf.progress();
        (flown + self.card_flown, wanted + CARD_DROPLETS)
    }

    /// What is known by now, as JSON.
    pub fn partial(&mut self) -> Option<String> {
        if !std::mem::take(&mut self.news) {
            return None;
        }
        let told = Told {
            ready: self.layer.is_some(),
            plan: self
                .aim
                .as_ref()
                .map(|aim| Plan::new(aim, self.band, self.best.as_ref().and_then(|b| b.1))),
            card: self.card_told.clone(),
        };
        serde_json::to_string(&told).ok()
    }

    /// The film to be drawn, when there is a new one.
    pub fn film(&mut self) -> Option<Film> {
        if !std::mem::take(&mut self.picture) {
            return None;
        }
        let film = self.shown.as_ref().map_or(&self.live.film, |(laying, _)| &laying.film);
        let (columns, rows) = (film.face().nx, film.face().ny);
        // The library counts rows upwards, a picture downwards.
        let values =
            (0..rows).rev().flat_map(|j| &film.dry[j * columns..(j + 1) * columns]).map(|&h| h as f32);
        Some(Film { columns: columns as u32, rows: rows as u32, values: values.collect(), ..Film::default() })
    }
}

#[cfg(test)]
mod tests;
