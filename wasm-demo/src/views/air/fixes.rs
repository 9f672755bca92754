//! What would help, best buy first; prices are the user's.

use leptos::html;
use leptos::prelude::*;
use mistcoat::set_up::{Change, Fix, Short};
use mistcoat::supply::Verdict;
use mistcoat::units::System;

use super::super::desk::{Desk, desk};
use super::super::fields::Complaint;
use super::{AIR, BAR, BORE, LONG, TANK, air_desk};
use crate::figures::seconds;
use crate::words::{fill, words};
use mistcoat::job::{with_key, without_key};

fn name(change: &Change, system: System) -> String {
    let names = words().air.changes;
    match change {
        Change::WiderHose(bore) => fill(names[0], &[&BORE.said(*bore, system)]),
        Change::ShorterHose(length) => fill(names[1], &[&LONG.said(*length, system)]),
        Change::FullBoreCouplings(count) => fill(names[2], &[&count.to_string()]),
        Change::LargerTank(volume) => fill(names[3], &[&TANK.said(*volume, system)]),
        Change::MoreAir(data) => fill(names[4], &[data.name]),
    }
}

/// A gain in what is short, as said.
fn amount(short: Short, gain: f64, system: System) -> String {
    match short {
        Short::Pressure | Short::Nothing => BAR.said(gain, system),
        Short::Air => AIR.said(gain, system),
        Short::Seconds => seconds(gain),
    }
}

/// What a change gains, and how the air then stands.
fn says(short: Short, fix: &Fix, system: System) -> String {
    let w = words().air;
    let answer = match fix.answer.verdict {
        Verdict::ForEver => w.answers[0],
        Verdict::ThisJob => w.answers[1],
        Verdict::RunsDown => w.answers[2],
        Verdict::Never => w.answers[3],
    };
    let gain = match fix.gain {
        Some(gain) if gain > 0.0 => fill(w.gains, &[&amount(short, gain, system)]),
        Some(_) => w.gains_nothing.into(),
        None => return answer.into(),
    };
    format!("{gain}: {answer}")
}

/// Gain for one unit of money; finer where it is small.
fn per_money(short: Short, fix: &Fix, system: System) -> Option<String> {
    let per = fix.gain_per_money()?;
    let w = words().air;
    let said = match short {
        Short::Pressure | Short::Nothing => {
            format!("{:.3} {}", BAR.value(per, system), BAR.unit(system).0)
        }
        Short::Air => format!("{:.2} {}", AIR.value(per, system), AIR.unit(system).0),
        Short::Seconds => format!("{per:.2} s"),
    };
    Some(fill(w.per_money, &[&said]))
}

#[component]
fn Row(key: &'static str) -> impl IntoView {
    let desk: Desk = desk();
    let air = air_desk();
    let w = words().air;
    let node = NodeRef::<html::Input>::new();
    let of = move || {
        let state = air.get()?;
        let fix = state.fixes.iter().find(|fix| fix.change.price_key() == key)?.clone();
        Some((state.short, fix))
    };
    let title = move || of().map(|(_, fix)| name(&fix.change, desk.system.get())).unwrap_or_default();
    let told = move || of().map(|(short, fix)| says(short, &fix, desk.system.get()));
    let rate = move || of().and_then(|(short, fix)| per_money(short, &fix, desk.system.get()));
    let price = move || {
        desk.parsed
            .with(|j| j.as_ref().and_then(|j| j.air_prices.of(key)))
            .map(|p| format!("{p}"))
            .unwrap_or_default()
    };
    let bad = move || desk.refused.with(|r| r.as_ref().is_some_and(|r| r.key == key));
    let label = move || format!("{}: {}", w.price, title());
    view! {
        <li class="fix" data-fix=key>
            <p class="name">{title}</p>
            <p class="fix-gain">{told}</p>
            <label><span class="unseen">{label}</span><span class="small" aria-hidden="true">{w.price}</span>
                <input node_ref=node type="text" inputmode="decimal" size="6" autocomplete="off" name=key prop:value=price aria-invalid=move || bad().to_string()
                    on:change=move |event| {
                        let text = event_target_value(&event);
                        let edited = desk.job.with_untracked(|job| {
                            if text.trim().is_empty() { without_key(job, key) } else { with_key(job, key, &text) }
                        });
                        if desk.take(key, edited) && let Some(input) = node.get_untracked() {
                            input.set_value(&untrack(price));
                        }
                    } />
            </label>
            <p class="small">{rate}</p>
            <Complaint key=key keys=&[] />
        </li>
    }
}

/// The changes, best first.
#[component]
pub fn Fixes() -> impl IntoView {
    let air = air_desk();
    let w = words().air;
    let keys = Memo::new(move |_| {
        air.get()
            .map(|s| s.fixes.iter().map(|f| f.change.price_key()).collect::<Vec<_>>())
            .unwrap_or_default()
    });
    let short = move || {
        air.get().map(|s| match s.short {
            Short::Pressure => w.short[0],
            Short::Air => w.short[1],
            Short::Seconds => w.short[2],
            Short::Nothing => w.short[3],
        })
    };
    view! {
        <div class="air-fixes" hidden=move || keys.with(Vec::is_empty)>
            <h2 class="kicker">{w.help}</h2>
            <p class="small">{short} " " {w.help_note}</p>
            <ol class="fixes"><For each=move || keys.get() key=|key| *key let:key><Row key=key /></For></ol>
        </div>
    }
}
