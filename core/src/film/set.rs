//! A film that has set: its dry film, its texture, and what is wrong with it cell by cell, each with its reason.

use super::wet::{QUANTA, WetCell, WetFilm};
use super::{Face, LandedDroplets, Levelled, Levelling, RUN, Slide, texture};

/// Dry film over the dry film that landed, from which paint has gathered [-]. Ours: half as much again is seen as a fat edge.
const GATHERED: f64 = 1.5;
/// Growth of a ripple overhead, as an exponent of e, from which it hangs in drops. Ours: a ripple of a hundredth becomes the film.
const HANGS: f64 = 4.6;
/// Share of a droplet mark that is left, from which a film is dry spray [-]: it had less time than one time constant.
pub(super) const DRY: f64 = 0.367_879_441_171_442_33;
/// Film that is told apart from none at all [m].
const NOTHING: f64 = 1e-12;

/// What is wrong with a cell, if anything; bare counts before runs, runs before dry.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Mark {
    /// Nothing.
    Sound,
    /// Next to no film.
    Bare,
    /// The film slid further than `RUN`.
    Slid,
    /// Film slid into it from above.
    Gathered,
    /// It hangs in drops on the underside.
    Hangs,
    /// The droplets' marks set before they levelled.
    Unlevelled,
    /// Thinner than one layer of droplets.
    Scattered,
}

impl Mark {
    /// All but the sound ones.
    pub const ALL: [Self; 6] =
        [Self::Bare, Self::Slid, Self::Gathered, Self::Hangs, Self::Unlevelled, Self::Scattered];

    /// Its word: "bare", "run" or "dry"; none where the film is sound.
    #[must_use]
    pub fn word(self) -> Option<&'static str> {
        match self {
            Self::Sound => None,
            Self::Bare => Some("bare"),
            Self::Slid | Self::Gathered | Self::Hangs => Some("run"),
            Self::Unlevelled | Self::Scattered => Some("dry"),
        }
    }

    /// Why, in words.
    #[must_use]
    pub fn reason(self) -> &'static str {
        match self {
            Self::Sound => "",
            Self::Bare => "less than a tenth of the film wanted",
            Self::Slid => "too thick for its slope: the film slid more than 1.6 mm before it set",
            Self::Gathered => "film slid in from above and gathered",
            Self::Hangs => "too thick overhead: it hangs in drops",
            Self::Unlevelled => {
                "landed too dry or too thin: droplet marks of 1 mm set before they could level"
            }
            Self::Scattered => "thinner than one layer of droplets: they do not join to a film",
        }
    }
}

/// A cell that has set.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SetCell {
    /// Dry film after it ran [m].
    pub dry: f64,
    /// Waviness of the dry film, root mean square [m].
    pub waviness: f64,
    /// Share of a droplet's mark that is left [-].
    pub dryness: f64,
    /// Way that its surface slid [m].
    pub slid: f64,
    /// What is wrong.
    pub mark: Mark,
}

/// A film that has set.
#[derive(Debug, Clone, PartialEq)]
pub struct SetFilm {
    /// The faces.
    pub faces: Vec<Face>,
    /// Their cells.
    pub cells: Vec<SetCell>,
    /// Cells that are not meant to be painted: left out of means and shares.
    pub hidden: Vec<bool>,
    /// Distance between the tears of the longest run [m]; none without runs on a slope.
    pub tear_spacing: Option<f64>,
    /// Runs are at least as long as told.
    pub held_back: bool,
    /// Film that was wet by cell just after the last coat [m]: what a comb meets. Coats that had set lie under it.
    pub fresh_wet: Vec<f64>,
    /// Its solids [m].
    pub fresh_solids: Vec<f64>,
    /// Dry film below which a place is bare [m].
    pub bare: f64,
    /// Thickness of one droplet's splat [m].
    pub splat: f64,
}

/// From a wet film to a set one, a piece of its cells at a time.
pub struct Reading {
    /// Droplets as they landed.
    pub droplets: LandedDroplets,
    /// Dry film below which a place is bare [m].
    pub bare: f64,
    /// Solids over wet film as landed, mean [-].
    pub solids: f64,
}

impl SetFilm {
    /// Reads the next `most` cells; true when all are read.
    pub fn read(&mut self, wet: &WetFilm, reading: &Reading, most: usize) -> bool {
        let bands = texture::bands();
        let weight = wet.laws().density * super::GRAVITY;
        let (first, end) = (self.cells.len(), (self.cells.len() + most).min(wet.cells().len()));
        for face in wet.faces() {
            let range = face.cells();
            for index in range.start.max(first)..range.end.min(end) {
                let row = (index - face.first) / face.nx;
                let levelling = Levelling {
                    surface_tension: wet.laws().surface_tension,
                    press: weight * face.place.down(face.y(row))[2],
                };
                self.cells.push(cell(&wet.cells()[index], &levelling, &bands, reading));
            }
        }
        if end < wet.cells().len() {
            return false;
        }
        self.faces = wet.faces().to_vec();
        self.held_back = wet.held_back();
        (self.bare, self.splat) = (reading.bare, reading.droplets.splat());
        self.tear_spacing = tear_spacing(wet);
        true
    }

    /// An empty one, to be read; `hidden` tells the cells that are not meant to be painted.
    #[must_use]
    pub fn unread(hidden: Vec<bool>) -> Self {
        Self {
            faces: Vec::new(),
            cells: Vec::new(),
            hidden,
            tear_spacing: None,
            held_back: false,
            fresh_wet: Vec::new(),
            fresh_solids: Vec::new(),
            bare: 0.0,
            splat: 0.0,
        }
    }

    /// Notes the film that is wet now: all has landed.
    pub fn note_fresh(&mut self, wet: &WetFilm) {
        self.fresh_wet = wet.cells().iter().map(WetCell::film).collect();
        self.fresh_solids = wet.cells().iter().map(|cell| cell.solids as f64 / QUANTA).collect();
    }

    /// The cells of a face that are meant to be painted.
    pub fn meant(&self, face: &Face) -> impl Iterator<Item = usize> {
        face.cells().filter(|&cell| !self.hidden.get(cell).copied().unwrap_or(false))
    }

    /// Mean over the area of a value by cell.
    #[must_use]
    pub fn mean_over_area(&self, value: impl Fn(&SetCell) -> f64) -> f64 {
        let mut sums = [0.0; 2];
        for face in &self.faces {
            for cell in self.meant(face) {
                sums[0] += face.cell_area() * value(&self.cells[cell]);
                sums[1] += face.cell_area();
            }
        }
        sums[0] / sums[1].max(f64::MIN_POSITIVE)
    }

    /// Share of the area with such a mark [-].
    #[must_use]
    pub fn share(&self, word: &str) -> f64 {
        self.mean_over_area(|cell| f64::from(u8::from(cell.mark.word() == Some(word))))
    }
}

fn cell(wet: &WetCell, levelling: &Levelling, bands: &[(f64, f64)], reading: &Reading) -> SetCell {
    let landed = wet.landed as f64 / QUANTA;
    let film =
        Levelled { ripple: wet.ripple, film: wet.levelling_film().unwrap_or(landed), thinness: wet.thinness };
    let dry = wet.dry();
    let dryness = if landed > NOTHING { texture::dry_spray(levelling, &film) } else { 0.0 };
    let gathered = wet.slid_in > 0 && dry > GATHERED * wet.landed_solids as f64 / QUANTA;
    let slid = wet.slid.max(wet.slid_before);
    let mark = if dry < reading.bare {
        Mark::Bare
    } else if slid > RUN {
        Mark::Slid
    } else if gathered {
        Mark::Gathered
    } else if levelling.hanging(film.film, film.thinness) > HANGS {
        Mark::Hangs
    } else if landed < reading.droplets.splat() {
        Mark::Scattered
    } else if dryness > DRY {
        Mark::Unlevelled
    } else {
        Mark::Sound
    };
    let waviness = texture::waviness(bands, &reading.droplets, levelling, &film, reading.solids);
    SetCell { dry, waviness, dryness, slid, mark }
}

/// Of the cell that slid farthest.
fn tear_spacing(wet: &WetFilm) -> Option<f64> {
    let mut longest = (RUN, None);
    for (number, face) in wet.faces().iter().enumerate() {
        for index in face.cells() {
            let cell = &wet.cells()[index];
            let slid = cell.slid.max(cell.slid_before);
            if slid > longest.0 {
                longest = (slid, Some((number, (index - face.first) / face.nx, cell.landed)));
            }
        }
    }
    let (face, row, landed) = longest.1?;
    let (pull, laws) = (wet.pull(face, row), wet.laws());
    let film = landed as f64 / QUANTA;
    (pull > 0.0).then(|| Slide::newtonian(pull, laws.viscosity).tear_spacing(film, laws.surface_tension))
}
