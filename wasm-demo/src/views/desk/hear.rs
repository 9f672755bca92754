//! What the desk takes in of a run under way and of one that is finished.

use std::sync::Arc;

use leptos::prelude::*;
use mistcoat::job::{Job, PartShape};

use super::Desk;
use crate::booth3d::played::{self, Played};
use crate::protocol::Film;
use crate::state::{DropletEnd, FilmGrid, RunView, members};

impl Desk {
    /// Takes the film of a run under way on the job `text`; news of any other text is dropped.
    pub fn hear_film(
        &self,
        text: &str,
        film: &Film,
        done: f64,
        droplets: impl FnOnce() -> Arc<[DropletEnd]>,
    ) {
        if self.flown.with_untracked(|t| t == text) {
            self.done.set(done);
            self.so_far.set(film.so_far);
            self.played.set(None);
            if film.legs > 0 && self.under.with_untracked(Option::is_none) {
                let way = played::way_of(&film.played, film.legs as usize);
                // Before a panel a card is flown first, which finds the fan and so the passes.
                let from = if Job::from_toml(text).is_ok_and(|j| j.part.is_of_tubes()) { 0.0 } else { done };
                self.under.set(Some((Arc::new(way), from)));
            }
            if film.droplets as usize != self.aloft.with_untracked(|d| d.len()) {
                self.aloft.set(droplets());
            }
            self.take_film(text, film);
        }
    }

    /// Takes in a film, all faces; gives the one shown.
    fn take_film(&self, text: &str, film: &Film) -> Option<FilmGrid> {
        let job = Job::from_toml(text).ok()?;
        let all = members(&job, film);
        let member = match job.part {
            PartShape::Frame(_) => self.member.get_untracked().min(all.len().max(1) - 1),
            _ => 0,
        };
        let shown = all.get(member);
        let shown = shown.map(|m| m.grid.clone()).or_else(|| grid(&job, film));
        self.members.set(all);
        self.film.set(shown.clone());
        shown
    }

    /// Shows the film of another member of a frame.
    pub fn show_member(&self, member: usize) {
        self.member.set(member);
        let shown = self.members.with(|all| all.get(member).map(|m| m.grid.clone()));
        if shown.is_some() {
            self.film.set(shown);
        }
    }

    /// Takes a finished run on the job `text`; a report that cannot be read counts as none.
    pub fn hear_done(&self, text: &str, report: &str, digest: u64, film: &Film, droplets: Arc<[DropletEnd]>) {
        if self.flown.with_untracked(|t| t != text) {
            return;
        }
        let cells = film.values.len();
        let played = Played::unpack(film.legs as usize, film.layers as usize, cells, &film.played);
        let film = self.take_film(text, film);
        self.played.set(played.map(Arc::new));
        self.under.set(None);
        self.so_far.set(None);
        self.done.set(1.0);
        let report = serde_json::from_str(report).unwrap_or(serde_json::Value::Null);
        self.run.set(Some(Arc::new(RunView { job: text.into(), report, film, droplets, digest })));
    }

    /// Takes in the set-up sheets of the run just heard of.
    pub fn hear_sheets(&self, text: &str, sheets: &str) {
        if self.flown.with_untracked(|t| t == text) {
            self.sheets.set(serde_json::from_str(sheets).unwrap_or_default());
        }
    }
}

fn grid(job: &Job, film: &Film) -> Option<FilmGrid> {
    let ([columns, rows], values) = film.faces().next()?;
    FilmGrid::over(&job.part, columns, rows, values.to_vec())
}
