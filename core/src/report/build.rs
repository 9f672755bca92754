//! From a run's counts to its report.

use super::figures::{
    Counted, Efficiency, FateShares, FilmFigures, GunFigures, PaintFigures, PatternFigures, Report,
    SprayFigures, Spread,
};
use super::finish::FinishFigures;
use super::landed::{Landed, left_out};
use super::members;
use super::mix::{MixFigures, mix_plan};
use super::model_range::{REST_FLAT, likely_factors, likely_over, likely_ratios, rest, together};
use super::naming::Pattern;
use super::pattern::pattern_sizes;
use super::stroke::StrokeFigures;
use super::supply::SupplyFigures;
use crate::error::ParameterError;
use crate::film::evenness;
use crate::gun::Warning;
use crate::job::Job;
use crate::judge::{Ends, Film, ends, judge};
use crate::run::Run;
use crate::set_up::Model;
use crate::stroke::Strokes;
use crate::tally::{Fate, GROUPS, standard_error};
use std::collections::BTreeMap;

/// Fewer droplets than this tell no standard error.
pub(crate) const FEWEST: u64 = 32;

/// Said where paint ran faster than is followed.
const RUNS_FAST: &str =
    "paint ran down faster than the film's steps of 4 ms follow: runs are at least as long as told";

/// Standard error of a figure by leaving out one group at a time.
fn jackknife(figure: impl Fn(Option<usize>) -> Option<f64>) -> Option<f64> {
    let all = figure(None)?;
    let mut spread = 0.0;
    for group in 0..GROUPS {
        let difference = figure(Some(group))? - all;
        spread += difference * difference;
    }
    let n = GROUPS as f64;
    Some((spread * (n - 1.0) / n).sqrt())
}

impl Report {
    /// The report of what a run has flown so far.
    ///
    /// # Errors
    /// A figure that came out not finite, by its path.
    pub fn new(run: &Run) -> Result<Self, ParameterError> {
        let prepared = run.prepared();
        let (job, state, spray) = (&prepared.job, &prepared.state, &prepared.spray);
        let (card, part) = (run.card(), run.part());
        let film = run.film();
        let strokes = prepared.strokes(card);
        let mut errors = BTreeMap::new();
        let mut warnings: Vec<String> = state.warnings.iter().map(ToString::to_string).collect();
        let seconds = strokes.seconds();
        let of_the_job = [
            Warning::overhead(&job.kit, job.lean),
            Warning::runs_dry(&job.kit, job.gun.cup_level, spray.volume_flow, seconds),
        ];
        warnings.extend(of_the_job.iter().flatten().map(ToString::to_string));
        warnings.extend(job.notes.iter().cloned());
        let counted = run.flown() >= FEWEST;

        let air = prepared.air_answer(&strokes)?;
        warnings.extend(air.iter().flat_map(|answer| answer.warnings.iter().map(ToString::to_string)));
        let Landed { sprayed, dry: (dry_mean, dry_error), share: landed, error: landed_error, .. } =
            Landed::new(&film, &strokes, spray);

        let variants =
            Model::default().size_range_with(&job.neighbours, &job.kit, &job.gun, &job.paint, &job.booth)?;
        let ratios = likely_ratios(&spray.sizes, &variants, &part.sprayed, &part.landed);
        let (low, high) = likely_over(landed, &ratios, rest(job));
        let transfer_efficiency = Efficiency {
            value: landed,
            standard_error: counted.then_some(landed_error),
            model_low: low,
            model_high: high,
        };
        let card_landed = card.fates.share(Fate::Landed);
        let by_group = core::array::from_fn(|g| {
            card.fates.of_group(Fate::Landed, g) as f64 / card.fates.group_total(g).max(1) as f64
        });
        let on_card = likely_ratios(&spray.sizes, &variants, &card.sprayed, &card.landed);
        let (low, high) = likely_over(card_landed, &on_card, REST_FLAT);
        let large_panel_efficiency = Efficiency {
            value: card_landed,
            standard_error: (card.fates.total() >= FEWEST).then(|| standard_error(&by_group)),
            model_low: low,
            model_high: high,
        };

        // In the gun's frame the face has no edge: what would land past the part has missed it, and of what bounces
        // or lands dry the part gets the same share as of what lands.
        let f = run.fates();
        let on_face = f.share(Fate::Landed);
        let met = if on_face > 0.0 { (landed / on_face).min(1.0) } else { 0.0 };
        let (bounced, dried) = (f.share(Fate::Bounced) * met, f.share(Fate::Dried) * met);
        let (drifted, lost) = (f.share(Fate::Drifted), f.share(Fate::Lost));
        let missed = (1.0 - landed - bounced - dried - drifted - lost).max(0.0);
        // Film and fates of a hand are put together of other poses' droplets: of few the rest may come to more than is left.
        let (others, left) = (bounced + dried + drifted + lost, (1.0 - landed).max(0.0));
        let fit = if others > left { left / others } else { 1.0 };
        let [bounced, dried, drifted, lost] = [bounced, dried, drifted, lost].map(|share| share * fit);
        let fates = FateShares { landed, missed, bounced, drifted, dried, lost };

        let pattern = Pattern::on(card, spray.volume_flow).map(|pattern| {
            let sizes = pattern_sizes(card, None);
            PatternFigures {
                length_mm: sizes.length * 1e3,
                width_mm: sizes.width * 1e3,
                kind: pattern.kind.word(),
                toward: pattern.side_on_card(job.gun.cap_turn),
            }
        });
        let median = |aerodynamic| card.overspray(aerodynamic, None).median().map(|d| d * 1e6);
        let spray_figures = SprayFigures {
            sauter_um: spray.sizes.sauter() * 1e6,
            volume_median_um: spray.sizes.quantile(0.5) * 1e6,
            overspray_volume_median_um: median(false),
            overspray_aerodynamic_median_um: median(true),
        };

        let wet_mean = film.mean_wet();
        let wet_over_dry = if dry_mean > 0.0 { wet_mean / dry_mean } else { 0.0 };
        // As the job is set the film goes with what lands and with what flows.
        let flows = Model::default().flow_range(&job.kit, &job.gun, &job.paint, &job.booth)?;
        let likely = together(&[likely_factors(&ratios, rest(job)), flows]);
        let mut dry = Spread::likely(dry_mean * 1e6, likely);
        let mut wet = Spread::likely(wet_mean * 1e6, likely);
        let (mut thinnest, mut in_band, mut finish) = (None, None, None);
        match ends(&film, job, run.flown()) {
            Ends::Known { min, max, thinnest: low, thickest: high, in_band: share } => {
                (dry.min, dry.max) = (Some(min * 1e6), Some(max * 1e6));
                (wet.min, wet.max) = (Some(film.wet[low].max(0.0) * 1e6), Some(film.wet[high] * 1e6));
                thinnest = (dry_mean > 0.0).then(|| min / dry_mean);
                in_band = share.map(|s| s * 100.0);
                finish = run.set_film().zip(run.set_laws()).map(|(set, (laws, steepest))| {
                    if set.held_back {
                        warnings.push(RUNS_FAST.into());
                    }
                    FinishFigures::new(set, laws, *steepest)
                });
            }
            Ends::Needs(droplets) => warnings.push(left_out(droplets)),
        }
        let members = members::members(run, &film, dry.min.is_some());
        warnings.extend(members::warnings(run));
        // A comb meets what is wet after the last coat; before the film's time is known, one coat as it landed.
        let one = job.stroke.burst.is_some() || job.stroke.coats <= 1;
        let (fresh_wet, fresh_dry) = match run.set_film() {
            Some(set) => (set.fresh_wet.as_slice(), set.fresh_solids.as_slice()),
            None if one => (film.wet.as_slice(), film.dry.as_slice()),
            None => (&[][..], &[][..]),
        };
        let set: Vec<f64> =
            run.set_film().map_or_else(|| film.dry.clone(), |set| set.cells.iter().map(|c| c.dry).collect());
        let judged = Film { landed: &film, dry: &set, fresh_wet, fresh_dry, droplets: run.flown() };
        let judgement = judge(judged, job);
        let cv_percent = evenness(&film)
            .filter(|_| counted)
            .map(|e| Counted { value: e.cv * 100.0, standard_error: e.standard_error * 100.0 });

        if counted {
            let mut error = |path: &str, value: Option<f64>| {
                if let Some(value) = value {
                    errors.insert(path.to_string(), value);
                }
            };
            error("transfer_efficiency.value", Some(landed_error));
            error("fates.landed", Some(landed_error));
            error("large_panel_efficiency.value", large_panel_efficiency.standard_error);
            error("film.dry_um.mean", Some(dry_error * 1e6));
            error("film.wet_um.mean", Some(dry_error * wet_over_dry * 1e6));
            error("film.cv_percent.value", cv_percent.map(|e| e.standard_error));
            for (path, value) in judgement.counting_errors() {
                error(path, Some(value));
            }
            error("paint.on_part_ml", Some(landed_error * sprayed * 1e6));
            error("paint.lost_ml", Some(landed_error * sprayed * 1e6));
            let cell = film.cell_error() * 1e6;
            for path in ["film.dry_um.min", "film.dry_um.max"] {
                error(path, dry.min.map(|_| cell));
            }
            for path in ["film.wet_um.min", "film.wet_um.max"] {
                error(path, dry.min.map(|_| cell * wet_over_dry));
            }
            let set = finish.as_ref().map(|_| ());
            error("finish.set_um.mean", set.map(|()| dry_error * 1e6));
            for path in ["finish.set_um.min", "finish.set_um.max"] {
                error(path, set.map(|()| cell));
            }
            if let Some(set) = run.set_film().filter(|_| finish.is_some()) {
                for (path, value) in FinishFigures::area_errors(set, &film) {
                    error(path, Some(value));
                }
            }
            error("film.thinnest_over_mean", thinnest.map(|_| cell / dry.mean));
            for (path, fate, scale) in [
                ("fates.bounced", Fate::Bounced, met),
                ("fates.drifted", Fate::Drifted, 1.0),
                ("fates.dried", Fate::Dried, met),
            ] {
                let shares = f.by_group(fate).map(|share| share * scale);
                error(path, Some(standard_error(&shares)));
            }
            error("fates.missed", Some(landed_error));
            error("pattern.length_mm", jackknife(|g| Some(pattern_sizes(card, g).length * 1e3)));
            error("pattern.width_mm", jackknife(|g| Some(pattern_sizes(card, g).width * 1e3)));
            let overspray = |a: bool| jackknife(|g| card.overspray(a, g).median().map(|d| d * 1e6));
            error("spray.overspray_volume_median_um", overspray(false));
            error("spray.overspray_aerodynamic_median_um", overspray(true));
        }

        let flow = state.paint_flow;
        let mix = mix(job, sprayed, seconds, flow, &transfer_efficiency, &mut warnings);
        if let Some(mix) = mix.filter(|_| counted) {
            let error = landed_error * sprayed * f64::from(mix.parts) * 1e6;
            errors.insert("mix.on_parts_ml".into(), error);
            errors.insert("mix.overspray_ml".into(), error);
        }

        Self {
            name: job.name.clone(),
            seed: job.run.seed,
            droplets: run.flown(),
            transfer_efficiency,
            large_panel_efficiency,
            fates,
            gun: GunFigures {
                inlet_bar: state.inlet_bar(),
                cap_bar: state.cap_bar(),
                free_air_l_min: state.free_air_l_min(),
                fluid_ml_min: state.fluid_ml_min(),
                air_liquid_ratio: state.air_liquid_ratio(),
                hvlp: state.hvlp,
            },
            supply: air.as_ref().map(SupplyFigures::new),
            spray: spray_figures,
            pattern,
            film: FilmFigures {
                wet_um: wet,
                dry_um: dry,
                thinnest_over_mean: thinnest,
                cv_percent,
                in_band_percent: in_band,
            },
            members,
            finish,
            judgement,
            paint: PaintFigures {
                sprayed_ml: sprayed * 1e6,
                sprayed_low_ml: sprayed * 1e6 * flows.0,
                sprayed_high_ml: sprayed * 1e6 * flows.1,
                on_part_ml: sprayed * landed * 1e6,
                lost_ml: sprayed * (1.0 - landed) * 1e6,
                seconds,
                kinematic_mm2_s: job.paint.kinematic_viscosity() * 1e6,
                volume_solids: job.paint.volume_solids,
            },
            stroke: stroke(job, &strokes),
            mix,
            standard_errors: errors,
            warnings,
        }
        .checked()
    }
}

/// What the hand did, where there is one.
fn stroke(job: &Job, strokes: &Strokes) -> Option<StrokeFigures> {
    let Strokes::Track(track) = strokes else { return None };
    let hand = if job.track.is_some() { "recorded" } else { job.stroke.hand.word().unwrap_or("own figures") };
    Some(StrokeFigures::new(track, hand))
}

/// How much to mix, where the job asks and something is sprayed.
fn mix(
    job: &Job,
    sprayed: f64,
    seconds: f64,
    flow: f64,
    landed: &Efficiency,
    warnings: &mut Vec<String>,
) -> Option<MixFigures> {
    if !job.mixing.asked || job.stroke.burst.is_some() {
        return None;
    }
    let plan = mix_plan(job, sprayed, seconds, flow, landed);
    match plan.and_then(|plan| MixFigures::new(job, &plan).map(|figures| (plan, figures))) {
        Ok((plan, figures)) => {
            warnings.extend(plan.warnings);
            Some(figures)
        }
        Err(error) => {
            warnings.push(format!("how much to mix cannot be said: {error}"));
            None
        }
    }
}
