//! How much to mix: the number, the jug to scale, each tin in mL and g, where it goes, cup fills and lots.

use leptos::prelude::*;
use mistcoat::job::Job;
use mistcoat::paint::MixPlan;
use mistcoat::units::{Quantity, System};

use super::clipboard::Clipboard;
use super::counted::{Counted, Last};
use super::desk::desk;
use super::fields::{NumberField, QuantityField};
use super::sheet_fields::percent;
use crate::draw::jug::{Pour, SIZE, jug, jug_for, spoken};
use crate::draw::range::{range_bar, round_axis};
use crate::figures::{parted, said};
use crate::state::{band_shown, mix_of, span, volume};
use crate::words::{fill, words};

/// The Paint view's clipboard.
#[component]
pub fn MixClipboard() -> impl IntoView {
    let desk = desk();
    let w = words().paint;
    let found = move || {
        let (run, job) = (desk.run.get()?, desk.parsed.get()?);
        if job.stroke.burst.is_some() {
            return Some(Err(w.no_burst.to_string()));
        }
        // A run on another view's card says nothing of this part.
        let of_part = Job::from_toml(&run.job).is_ok_and(|flown| flown.stroke.burst.is_none());
        of_part.then(|| mix_of(&run, &job).map(|plan| (plan, job)).map_err(|why| fill(w.cannot_say, &[&why])))
    };
    let last = Last::new(None);
    view! {
        <Clipboard>
            <p class="kicker">{move || desk.parsed.with(|j| j.as_ref().map(|j| kicker(j, desk.system.get())))}</p>
            <div class="fields mix-parts"><NumberField label=w.parts key="mix.parts" read=|j| j.mixing.parts.to_string() /></div>
            {move || found().map(|found| match found {
                Ok((plan, job)) => view! { <Answer plan=plan job=job last=last /> }.into_any(),
                Err(why) => view! { <p class="advice">{why}</p> }.into_any(),
            })}
            <div class="fields mix-fields">
                <NumberField label=w.reserve key="mix.reserve" read=|j| percent(j.mixing.reserve) />
                <QuantityField label=w.test_card key="mix.test_card" quantity=Quantity::Time read=|j| Some(j.mixing.test_card) />
                <NumberField label=w.duty key="mix.duty" read=|j| percent(j.mixing.duty) />
            </div>
        </Clipboard>
    }
}

fn kicker(job: &Job, system: System) -> String {
    let w = words();
    let part = super::part_said::part_said(&job.part, system);
    let coats = match job.stroke.coats {
        1 => w.coats_words[0].to_string(),
        coats => fill(w.coats_words[1], &[&coats.to_string()]),
    };
    fill(w.paint.for_parts, &[&job.mixing.parts.to_string(), &part, &coats])
}

/// Sentence, range, jug, tins, where it goes.
#[component]
fn Answer(plan: MixPlan, job: Job, last: Last) -> impl IntoView {
    let desk = desk();
    let w = words().paint;
    let system = desk.system.get();
    let many = plan.lots > 1;
    let (number, unit) = parted(Quantity::Volume, plan.lot, system);
    let opening = if many { fill(w.mix_lots, &[&plan.lots.to_string()]) } else { w.mix_sentence.to_string() };
    let range = plan.range.map(|ends| {
        let figure = |v: f64| parted(Quantity::Volume, v, system);
        let value = |v: f64| figure(v).0.parse::<f64>().unwrap_or(0.0);
        let (end, step) = round_axis(value(ends[1]) * 1.02);
        let bar = range_bar(
            336.0,
            value(ends[0]),
            value(plan.mixed),
            value(ends[1]),
            end,
            step,
            &figure(ends[1]).1,
        );
        let likely = if ends[0] < ends[1] {
            fill(w.likely, &[&figure(ends[0]).0, &said(Quantity::Volume, ends[1], system)])
        } else {
            w.likely_rounded.to_string()
        };
        view! {
            <svg class="range" viewBox="0 0 336 42" aria-hidden="true" inner_html=bar></svg>
            <p class="small">{likely}</p>
        }
    });
    let wanted = job.spec.map(|s| {
        let times = if s.per_coat { f64::from(job.stroke.coats) } else { 1.0 };
        [s.low * times, s.high * times]
    });
    let mean = desk.run.get().and_then(|r| r.number("film.dry_um.mean")).map(|um| um * 1e-6);
    let film = mean.map(|mean| {
        let now = fill(w.this_film, &[&said(Quantity::Film, mean, system)]);
        let band = wanted.map(|band| fill(w.film_wanted, &[&band_shown(Quantity::Film, band, system)]));
        format!("{now}{}.", band.unwrap_or_default())
    });
    let astray = mean.zip(wanted).and_then(|(mean, [low, high])| match mean {
        _ if mean < low => Some(w.too_thin),
        _ if mean > high => Some(w.too_thick),
        _ => None,
    });
    view! {
        <p class="sentence" aria-live="polite">
            <span>{opening}</span>
            <span data-mix=format!("{:.0}", plan.mixed * 1e6)><Counted text=number unit=unit.clone() last=last />" "{unit}"."</span>
        </p>
        {range}
        <p class="small">{film}</p>
        {astray.map(|words| view! { <p class="outside">{words}</p> })}
        <Jug plan=plan.clone() />
        <Tins plan=plan.clone() />
        <Goes plan=plan.clone() />
        <dl class="lines">
            <div><dt>{w.cup_fills}</dt><dd>{plan.cup_fills}</dd><dd class="beside">{fill(w.of_cup, &[&said(Quantity::Volume, job.kit.cup_volume, system)])}</dd></div>
            <div><dt>{w.working}</dt><dd>{span(plan.seconds)}</dd><dd class="beside">{(job.stroke.coats > 1).then_some(w.flash_in)}</dd></div>
            <div><dt>{w.lots}</dt><dd>{plan.lots}</dd><dd class="beside">
                {job.sheet.pot_life.map_or(w.no_pot_life.to_string(), |life| fill(w.lots_why, &[&span(life)]))}</dd></div>
        </dl>
        {plan.warnings.into_iter().map(|m| view! { <p class="outside">{m}</p> }).collect_view()}
    }
}

#[component]
fn Jug(plan: MixPlan) -> impl IntoView {
    let desk = desk();
    let w = words().paint;
    let system = desk.system.get();
    let metric = system == System::Metric;
    let scale = mistcoat::units::value_shown(Quantity::Volume, 1.0, system);
    let mut below = 0.0;
    let pours: Vec<Pour> = [(w.base, plan.base), (w.hardener, plan.hardener), (w.thinner_tin, plan.thinner)]
        .into_iter()
        .filter(|(_, tin)| tin.volume > 0.0)
        .map(|(name, tin)| {
            below += tin.volume;
            Pour {
                volume: tin.volume * scale,
                name: name.to_string(),
                up_to: fill(w.up_to, &[&said(Quantity::Volume, below, system)]),
            }
        })
        .collect();
    let unit = if metric { "mL" } else { "fl oz" };
    let size = format!("{}\u{202f}{unit}", jug_for(below * scale, metric));
    view! {
        <svg class="jug" viewBox=format!("0 0 {} {}", SIZE.0, SIZE.1) role="img" aria-label=spoken(&pours) inner_html=jug(&pours, metric, unit)></svg>
        <p class="small">{fill(w.jug_note, &[&size])}</p>
    }
}

#[component]
fn Tins(plan: MixPlan) -> impl IntoView {
    let desk = desk();
    let w = words().paint;
    let system = desk.system.get();
    let grams = |kg: f64| {
        if kg < 0.01 { format!("{:.1}\u{202f}g", kg * 1e3) } else { format!("{:.0}\u{202f}g", kg * 1e3) }
    };
    let title =
        if plan.lots > 1 { fill(w.one_lot, &[&plan.lots.to_string()]) } else { w.all_lots.to_string() };
    let rows = [(w.base, plan.base), (w.hardener, plan.hardener), (w.thinner_tin, plan.thinner)];
    view! {
        <h2 class="kicker">{title}</h2>
        <dl class="lines tins">
            {rows.into_iter().filter(|(_, tin)| tin.volume > 0.0).map(|(name, tin)| view! {
                <div><dt>{name}</dt><dd>{volume(tin.volume, system)}</dd><dd class="beside">{grams(tin.mass)}</dd></div>
            }).collect_view()}
        </dl>
        <p class="small">{w.weigh}</p>
    }
}

#[component]
fn Goes(plan: MixPlan) -> impl IntoView {
    let desk = desk();
    let w = words().paint;
    let system = desk.system.get();
    let rows = [
        (w.on_parts, plan.on_parts),
        (w.overspray, plan.overspray),
        (w.on_cards, plan.test_card),
        (w.left, plan.left),
        (w.kept_back, plan.reserve),
        (w.rounding, plan.rounding),
    ];
    let sum = plan.mixed;
    view! {
        <table class="goes">
            <caption class="kicker">{w.goes}</caption>
            <tbody>
                {rows.into_iter().map(|(name, v)| view! {
                    <tr><th scope="row">{name}</th>
                        <td class="goes-bar" aria-hidden="true"><svg viewBox="0 0 100 8" preserveAspectRatio="none"><rect class="goes-rect" y="0" height="8" width=format!("{:.2}", 100.0 * v / sum)></rect></svg></td>
                        <td>{said(Quantity::Volume, v, system)}</td></tr>
                }).collect_view()}
                <tr class="goes-sum"><th scope="row">{w.sum}</th><td></td><td>{volume(sum, system)}</td></tr>
            </tbody>
        </table>
    }
}
