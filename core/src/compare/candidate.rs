//! A kit to compare with: out of the catalogue or from its box.

use crate::catalogue;
use crate::error::ParameterError;
use crate::gun::Kit;
use crate::job::{Job, KitSource, KitToCompare};
use crate::set_up::{BoxKit, Neighbour, from_box};

/// A kit to compare with.
#[derive(Debug, Clone, PartialEq)]
pub struct Candidate {
    /// The kit.
    pub kit: Kit,
    /// Its price, as the user typed it.
    pub price: Option<f64>,
    /// Kits that its box might as well stand for; none for a kit of the catalogue.
    pub neighbours: Vec<Neighbour>,
}

impl Candidate {
    /// The kits that a job asks for.
    ///
    /// # Errors
    /// A kit that cannot be, by its key.
    pub fn of(job: &Job) -> Result<Vec<Self>, ParameterError> {
        let candidate = |(i, entry): (usize, &KitToCompare)| {
            let (mut kit, neighbours) = match &entry.what {
                KitSource::Catalogue(id) => (catalogue::kit(id)?, Vec::new()),
                KitSource::Box(figures) => {
                    let BoxKit { kit, spread } = from_box(figures).map_err(|e| ParameterError {
                        key: format!("compare.kits: entry {}: {}", i + 1, e.key),
                        ..e
                    })?;
                    (kit, spread)
                }
            };
            if let Some(name) = &entry.name {
                kit.name.clone_from(name);
            }
            Ok(Self { kit, price: entry.price, neighbours })
        };
        job.compare.kits.iter().enumerate().map(candidate).collect()
    }
}
