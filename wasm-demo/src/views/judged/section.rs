//! The section: rules with what was found, spots, comb, next coat, dew point, and what is not modelled.

use leptos::prelude::*;
use mistcoat::judge::{Decision, FilmVerdict, Source, Verdict, words as said_by};
use mistcoat::units::{Quantity, System};

use super::by::VerdictLine;
use super::comb::CombBlock;
use super::dew::DewBlock;
use super::next_coat::NextCoatBlock;
use super::spots::Spots;
use super::{judged, verdict_word};
use crate::figures::with_signs;
use crate::figures::{of_100, parted, said};
use crate::views::desk::desk;
use crate::words::{fill, words};

/// The section.
#[component]
pub fn Judged() -> impl IntoView {
    let desk = desk();
    let judged = judged(desk);
    let w = words().judge;
    move || {
        let judgement = judged.get()?;
        let system = desk.system.get();
        Some(view! {
            <section class="judged">
                <h2>{w.title}</h2>
                {judgement.film.clone().map(|film| view! { <Rules film=film.clone() system=system /> <Spots film=film system=system /> })}
                <div class="judged-three">
                    {judgement.comb.clone().map(|comb| view! { <CombBlock comb=comb system=system /> })}
                    {judgement.next_coat.map(|next| view! { <NextCoatBlock next=next system=system /> })}
                    <DewBlock fields=false />
                </div>
                <p class="small">{w.not_modelled}</p>
            </section>
        })
    }
}

/// "from memory, check the standard".
fn source_word(source: Source) -> &'static str {
    let [seen, memory, ours] = words().judge.sources;
    match source {
        Source::Seen => seen,
        Source::FromMemory => memory,
        Source::Ours => ours,
    }
}

/// "27 ± 0.2 µm".
fn found(d: &Decision, system: System) -> String {
    let w = words().judge;
    match d.unit {
        mistcoat::judge::Unit::Um => {
            let value = parted(Quantity::Film, d.found * 1e-6, system).0;
            fill(w.give_or_take, &[&value, &said(Quantity::Film, d.standard_error * 1e-6, system)])
        }
        mistcoat::judge::Unit::Percent => {
            let of = words().of_100;
            fill(
                w.give_or_take,
                &[&of_100(d.found / 100.0), &format!("{} {of}", of_100(d.standard_error / 100.0))],
            )
        }
    }
}

/// Sentence, shares and rules.
#[component]
fn Rules(film: FilmVerdict, system: System) -> impl IntoView {
    let w = words().judge;
    let [rule, found_head, verdict, source] = w.rules_head;
    let shares = film.shares.as_ref().map(|s| {
        let say = |percent: f64| of_100(percent / 100.0);
        fill(w.thin_right_thick, &[&say(s.thin_percent), &say(s.right_percent), &say(s.thick_percent)])
    });
    let rows = film.decisions.clone();
    view! {
        <VerdictLine by=true />
        {shares.map(|s| view! { <p class="text">{s}</p> })}
        {film.notes.iter().map(|note| view! { <p class="text">{with_signs(&said_by::note(note, system))}</p> }).collect_view()}
        {(!rows.is_empty()).then(|| view! {
            <div class="judged-scroll">
                <table class="judged-table" data-rules="">
                    <thead><tr><th scope="col">{rule}</th><th scope="col">{found_head}</th><th scope="col">{verdict}</th><th scope="col">{source}</th></tr></thead>
                    <tbody>{rows.iter().map(|d| view! {
                        <tr>
                            <th scope="row">{with_signs(&said_by::rule(d, system))}</th>
                            <td>{found(d, system)}</td>
                            <td class:wrong=d.verdict == Verdict::Fail><b>{verdict_word(d.verdict)}</b></td>
                            <td class="beside">{source_word(d.source)}</td>
                        </tr>
                    }).collect_view()}</tbody>
                </table>
            </div>
        })}
    }
}
