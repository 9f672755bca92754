//! A film by cells.

use super::{Face, Place};
use crate::tally::GROUPS;

/// Film by cell, over one face or several: their cells stand one face after the other in each list.
///
/// On a tube's face x runs along it and y round it, from behind (-pi) over the front (0) to behind.
#[derive(Debug, Clone, PartialEq)]
pub struct FilmMap {
    /// The faces; at least one.
    faces: Vec<Face>,
    /// Cells that are not meant to be painted; empty where all are.
    hidden: Vec<bool>,
    /// Dry film by cell, face by face, x fastest, y rising [m].
    pub dry: Vec<f64>,
    /// Wet film as landed, by cell [m].
    pub wet: Vec<f64>,
    /// Dry film of each replicate group alone, group by group [m].
    pub groups: Vec<f64>,
}

impl FilmMap {
    /// A bare part of these faces; each face's first cell is set here. No face at all gives one without cells.
    #[must_use]
    pub fn over(mut faces: Vec<Face>) -> Self {
        if faces.is_empty() {
            return Self::bare(0, 0, 1.0, 1.0);
        }
        let mut n = 0;
        for face in &mut faces {
            face.first = n;
            n += face.len();
        }
        Self {
            faces,
            hidden: Vec::new(),
            dry: vec![0.0; n],
            wet: vec![0.0; n],
            groups: vec![0.0; n * GROUPS],
        }
    }

    /// A bare upright panel.
    #[must_use]
    pub fn bare(nx: usize, ny: usize, cell_x: f64, cell_y: f64) -> Self {
        let place = Place::leaning(core::f64::consts::FRAC_PI_2, 0.0);
        Self::over(vec![Face { name: String::new(), first: 0, nx, ny, cell_x, cell_y, closed: false, place }])
    }

    /// The same, some cells not meant to be painted: inside another tube of a frame, or on a tube that only holds the parts.
    /// `hidden` has one value a cell; of another length it is left out.
    #[must_use]
    pub fn hiding(mut self, hidden: Vec<bool>) -> Self {
        if hidden.len() == self.len() && hidden.contains(&true) {
            self.hidden = hidden;
        }
        self
    }

    /// The cell is not meant to be painted: left out of means, ends and shares.
    #[must_use]
    pub fn is_hidden(&self, cell: usize) -> bool {
        self.hidden.get(cell).copied().unwrap_or(false)
    }

    /// Some cells are not meant to be painted.
    pub(super) fn hides_some(&self) -> bool {
        !self.hidden.is_empty()
    }

    /// The faces.
    #[must_use]
    pub fn faces(&self) -> &[Face] {
        &self.faces
    }

    /// The first face: the only one of a panel or a tube.
    #[must_use]
    pub fn face(&self) -> &Face {
        &self.faces[0]
    }

    /// Number of cells.
    #[must_use]
    pub fn len(&self) -> usize {
        self.dry.len()
    }

    /// No cells.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }

    /// Area meant to be painted [m2].
    #[must_use]
    pub fn area(&self) -> f64 {
        if !self.hidden.is_empty() {
            let shown = |face: &Face| face.cells().filter(|&cell| !self.hidden[cell]).count() as f64;
            return self.faces.iter().map(|face| shown(face) * face.cell_area()).sum();
        }
        self.faces.iter().map(|face| face.len() as f64 * face.cell_x * face.cell_y).sum()
    }

    /// Mean of a value by cell over the area meant to be painted.
    #[must_use]
    pub fn mean_over_area(&self, value: impl Fn(usize) -> f64) -> f64 {
        if let ([_], []) = (self.faces.as_slice(), self.hidden.as_slice()) {
            // All cells are of one size.
            return (0..self.len()).map(value).sum::<f64>() / self.len().max(1) as f64;
        }
        let over = |face: &Face| face.cells().filter(|&cell| !self.is_hidden(cell)).map(&value).sum::<f64>();
        let sum: f64 = self.faces.iter().map(|face| face.cell_area() * over(face)).sum();
        sum / self.area().max(f64::MIN_POSITIVE)
    }

    /// Share of the area whose dry film is between two values [m], both included [-].
    pub(crate) fn share_between(&self, low: f64, high: f64) -> f64 {
        let within = |h: &f64| (low..=high).contains(h);
        if self.faces.len() == 1 && self.hidden.is_empty() {
            let cells = self.dry.iter().filter(|h| within(h)).count();
            return cells as f64 / self.len().max(1) as f64;
        }
        self.mean_over_area(|cell| f64::from(u8::from(within(&self.dry[cell]))))
    }

    /// Dry film of one group [m].
    #[must_use]
    pub fn group(&self, group: usize) -> &[f64] {
        &self.groups[group * self.len()..(group + 1) * self.len()]
    }

    /// Mean wet film [m].
    #[must_use]
    pub fn mean_wet(&self) -> f64 {
        self.mean_over_area(|cell| self.wet[cell])
    }

    /// By how much a cell's dry film is off in a balanced half of the replicate groups [m], `sample` below [`GROUPS`]: one of each pair of
    /// groups, which by the signs of a Hadamard matrix; the samples of its second half are the other halves. The mean square over
    /// the samples is the square of the counting error, of figures that leap as of those that do not (balanced repeated replication).
    #[must_use]
    pub fn half_off(&self, cell: usize, sample: usize) -> f64 {
        let (n, pairs) = (self.len(), GROUPS / 2);
        let mut sum = 0.0;
        for pair in 0..pairs {
            let difference = self.groups[2 * pair * n + cell] - self.groups[(2 * pair + 1) * n + cell];
            let odd = ((sample % pairs) & pair).count_ones() % 2 == 1;
            sum += if odd { -difference } else { difference };
        }
        if sample < pairs { sum / GROUPS as f64 } else { -sum / GROUPS as f64 }
    }
}
