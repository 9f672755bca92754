//! A frame of one's own: its list of tubes, a row each.

use leptos::prelude::*;
use mistcoat::job::drawn_tubes;
use mistcoat::part::Member;
use mistcoat::units::{Quantity, parse};

use super::desk::{Desk, desk};
use super::fields::Complaint;
use crate::figures::{said, with_unit};
use crate::state::tubes_literal;
use crate::words::{fill, words};

/// What a row's seven lengths are.
fn lengths(tube: &Member) -> [f64; 7] {
    let (a, b) = (tube.from, tube.to);
    [a.x, a.y, a.z, b.x, b.y, b.z, tube.diameter]
}

fn with_length(tube: &mut Member, which: usize, value: f64) {
    match which {
        0 => tube.from.x = value,
        1 => tube.from.y = value,
        2 => tube.from.z = value,
        3 => tube.to.x = value,
        4 => tube.to.y = value,
        5 => tube.to.z = value,
        _ => tube.diameter = value,
    }
}

/// Changes the list; what is refused is said under it. True when it was taken.
fn change(desk: Desk, act: impl FnOnce(&mut Vec<Member>)) -> bool {
    let Some(mut tubes) = desk.job.with_untracked(|text| drawn_tubes(text)) else { return false };
    act(&mut tubes);
    let text = desk.job.with_untracked(|text| mistcoat::job::without_key(text, "stroke.members"));
    let edited = text.and_then(|text| mistcoat::job::with_key(&text, "part.frame", &tubes_literal(&tubes)));
    desk.take("part.frame", edited)
}

/// A name that no tube has yet.
fn new_name(tubes: &[Member]) -> String {
    let name = |i: usize| fill(words().parts.tube_number, &[&i.to_string()]);
    (tubes.len() + 1..).map(name).find(|n| tubes.iter().all(|t| t.name != *n)).unwrap_or_default()
}

/// The list.
#[component]
pub fn Tubes() -> impl IntoView {
    let desk = desk();
    let w = words().parts;
    let tubes = Memo::new(move |_| desk.job.with(|text| drawn_tubes(text)).unwrap_or_default());
    let add = move |_| {
        change(desk, |tubes| {
            let name = new_name(tubes);
            let last = tubes.last().cloned();
            // Beside the last one, so that it can be seen at once.
            tubes.extend(last.map(|t| {
                let aside = glam::DVec3::new(0.1, 0.0, 0.0);
                Member { name, from: t.from + aside, to: t.to + aside, ..t }
            }));
        });
    };
    view! {
        <fieldset class="tubes">
            <legend>{w.tubes}</legend>
            <p class="small">{w.tubes_how}</p>
            <ol>
                {move || {
                    let count = tubes.with(Vec::len);
                    tubes.get().into_iter().enumerate().map(|(i, tube)| view! { <Row index=i tube=tube alone=count == 1 /> }).collect_view()
                }}
            </ol>
            <Complaint key="part.frame" keys=&["stroke.members"] />
            <button type="button" class="link" on:click=add>{w.add_tube}</button>
        </fieldset>
    }
}

#[component]
fn Row(index: usize, tube: Member, alone: bool) -> impl IntoView {
    let desk = desk();
    let w = words().parts;
    let rename = move |e| {
        let name = event_target_value(&e).trim().to_string();
        change(desk, |tubes| tubes[index].name = name);
    };
    let values = lengths(&tube);
    let number = move |which: usize| {
        let set = move |e| {
            let text = with_unit(&event_target_value(&e), Quantity::Length, desk.system.get_untracked());
            match parse(Quantity::Length, &text) {
                Ok(value) => {
                    change(desk, |tubes| with_length(&mut tubes[index], which, value));
                }
                Err(error) => desk.complain("part.frame", error.to_string()),
            }
        };
        let label = format!("{}, {}", w.tube_fields[which], tube_name(index));
        view! { <input type="text" autocomplete="off" aria-label=label prop:value=move || said(Quantity::Length, values[which], desk.system.get()) on:change=set /> }
    };
    view! {
        <li>
            <div class="tube-head">
                <input type="text" class="tube-name" autocomplete="off" aria-label=w.tube_name prop:value=tube.name.clone() on:change=rename />
                {(!alone).then(|| view! {
                    <button type="button" class="link" aria-label=fill(w.remove_tube_named, &[&tube.name])
                        on:click=move |_| { change(desk, |tubes| { tubes.remove(index); }); }>{w.remove_tube}</button>
                })}
            </div>
            <div class="tube-line"><span>{w.from}</span>{number(0)}{number(1)}{number(2)}</div>
            <div class="tube-line"><span>{w.to}</span>{number(3)}{number(4)}{number(5)}</div>
            <div class="tube-line"><span>{w.thick}</span>{number(6)}</div>
        </li>
    }
}

fn tube_name(index: usize) -> String {
    fill(words().parts.tube_number, &[&(index + 1).to_string()])
}
