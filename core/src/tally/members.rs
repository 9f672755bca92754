//! What landed on the members of a frame: counts by cell and replicate group, and by pass.

use super::{Digest, GROUPS, WET_UNIT};
use crate::film::Face;
use std::collections::BTreeMap;
use std::sync::Arc;

/// Parcels on the tubes of a frame.
#[derive(Debug, Clone, PartialEq)]
pub struct Members {
    faces: Arc<[Face]>,
    cells: usize,
    /// Group by group.
    solids: Vec<u32>,
    /// By pass of a coat and cell: parcels, and wet volume in [`WET_UNIT`].
    passes: BTreeMap<(u32, u32), (u32, u64)>,
}

impl Members {
    /// Nothing on these faces, a member each; their first cells must be set.
    #[must_use]
    pub fn new(faces: Arc<[Face]>) -> Self {
        let cells = faces.iter().map(Face::len).sum();
        Self { faces, cells, solids: vec![0; cells * GROUPS], passes: BTreeMap::new() }
    }

    /// Nothing on the same faces.
    #[must_use]
    pub fn emptied(&self) -> Self {
        Self::new(Arc::clone(&self.faces))
    }

    /// Counts a landed parcel: where along a member from its middle [m], the angle round it [rad], its wet volume share [-].
    pub fn count(&mut self, member: usize, [along, angle]: [f64; 2], wet: f64, group: usize, pass: usize) {
        let Some(face) = self.faces.get(member) else { return };
        let bin = |share: f64, n: usize| ((share * n as f64).max(0.0) as usize).min(n - 1);
        let i = bin(along / face.size().0 + 0.5, face.nx);
        let j = bin(angle / core::f64::consts::TAU + 0.5, face.ny);
        let cell = face.first + j * face.nx + i;
        self.solids[group * self.cells + cell] += 1;
        let on = self.passes.entry((pass as u32, cell as u32)).or_default();
        on.0 += 1;
        on.1 += (wet * WET_UNIT + 0.5) as u64;
    }

    /// Adds another slice's counts.
    pub fn merge(&mut self, other: &Self) {
        for (mine, theirs) in self.solids.iter_mut().zip(&other.solids) {
            *mine += theirs;
        }
        for (at, (solids, wet)) in &other.passes {
            let mine = self.passes.entry(*at).or_default();
            mine.0 += solids;
            mine.1 += wet;
        }
    }

    /// Parcels of one group, by cell.
    #[must_use]
    pub fn group(&self, group: usize) -> &[u32] {
        &self.solids[group * self.cells..(group + 1) * self.cells]
    }

    /// What one pass of a coat left, by cell: parcels, and their wet volume in parcels.
    pub fn of_pass(&self, pass: usize) -> impl Iterator<Item = (usize, f64, f64)> + '_ {
        let pass = pass as u32;
        self.passes.range((pass, 0)..=(pass, u32::MAX)).map(|(&(_, cell), &on)| in_parcels(cell, on))
    }

    /// The same of all passes, one after the other.
    pub fn of_all(&self) -> impl Iterator<Item = (usize, f64, f64)> + '_ {
        self.passes.iter().map(|(&(_, cell), &on)| in_parcels(cell, on))
    }

    /// Parcels on a member.
    #[must_use]
    pub fn on(&self, member: usize) -> u64 {
        let Some(face) = self.faces.get(member) else { return 0 };
        (0..GROUPS).flat_map(|group| &self.group(group)[face.cells()]).map(|&n| u64::from(n)).sum()
    }

    /// Parcels on all members.
    #[must_use]
    pub fn landed(&self) -> u64 {
        (0..self.faces.len()).map(|member| self.on(member)).sum()
    }

    /// Area of a cell [m2].
    #[must_use]
    pub fn area(&self, cell: usize) -> f64 {
        let face = self.faces.partition_point(|face| face.first <= cell).max(1) - 1;
        self.faces.get(face).map_or(1.0, Face::cell_area)
    }

    /// Takes the counts into a digest.
    pub fn digest(&self, digest: &mut Digest) {
        self.solids.iter().for_each(|&n| digest.count(u64::from(n)));
        for (&(pass, cell), &(solids, wet)) in &self.passes {
            [u64::from(pass), u64::from(cell), u64::from(solids), wet]
                .into_iter()
                .for_each(|n| digest.count(n));
        }
    }
}

fn in_parcels(cell: u32, (solids, wet): (u32, u64)) -> (usize, f64, f64) {
    (cell as usize, f64::from(solids), wet as f64 / WET_UNIT)
}
