//! The members of a frame: their figures, which are sprayed, and whose film the map shows.

use leptos::prelude::*;
use mistcoat::job::PartShape;
use mistcoat::units::Quantity;

use super::desk::{Desk, desk};
use super::fields::Complaint;
use crate::figures::said;
use crate::state::{RunView, with_member};
use crate::words::words;

/// A member's figures, as the report has them.
fn figures(desk: Desk, run: &RunView, name: &str) -> Option<[String; 4]> {
    let list = run.report.get("members")?.as_array()?;
    let of = list.iter().find(|m| m.get("name").and_then(|n| n.as_str()) == Some(name))?;
    let number = |path: [&str; 2]| {
        of.get(path[0]).and_then(|v| if path[1].is_empty() { v.as_f64() } else { v.get(path[1])?.as_f64() })
    };
    let system = desk.system.get();
    let film =
        |v: Option<f64>| v.map_or_else(|| "\u{2013}".into(), |um| said(Quantity::Film, um * 1e-6, system));
    let ml = number(["on_it_ml", ""]).map(|ml| said(Quantity::Volume, ml * 1e-6, system));
    let band = number(["in_band_percent", ""]).map_or_else(|| "\u{2013}".into(), |p| format!("{p:.0} %"));
    Some([film(number(["dry_um", "mean"])), film(number(["dry_um", "min"])), band, ml.unwrap_or_default()])
}

/// The table; nothing for a part of one piece.
#[component]
pub fn MemberPicker() -> impl IntoView {
    let desk = desk();
    let w = words().parts;
    let frame = Memo::new(move |_| {
        desk.parsed.with(|j| match j.as_ref().map(|j| &j.part) {
            Some(PartShape::Frame(frame)) => Some(frame.clone()),
            _ => None,
        })
    });
    let rows = move || {
        let frame = frame.get()?;
        let run = desk.fresh();
        let row = |(i, member): (usize, &mistcoat::part::Member)| {
            let name = member.name.clone();
            let cells = run.as_ref().and_then(|run| figures(desk, run, &name));
            let cells = cells.unwrap_or_else(|| std::array::from_fn(|_| String::new()));
            let spray = {
                let name = name.clone();
                move |e| {
                    let sprayed = event_target_checked(&e);
                    let edited = desk.job.with_untracked(|text| with_member(text, &name, sprayed));
                    desk.take("stroke.members", edited);
                }
            };
            view! {
                <tr class:on=move || desk.member.get() == i>
                    <th scope="row">
                        <label><input type="radio" name="member" prop:checked=move || desk.member.get() == i on:change=move |_| desk.show_member(i) />{name.clone()}</label>
                    </th>
                    <td><input type="checkbox" aria-label=format!("{}: {name}", w.sprayed) prop:checked=member.sprayed on:change=spray /></td>
                    {cells.into_iter().map(|cell| view! { <td>{cell}</td> }).collect_view()}
                </tr>
            }
        };
        Some(frame.members.iter().enumerate().map(row).collect_view())
    };
    move || {
        frame.with(Option::is_some).then(|| view! {
            <section class="members">
                <h2>{w.members}</h2>
                <p class="small">{w.members_how}</p>
                <div class="members-table"><table>
                    <thead><tr>{w.member_heads.iter().map(|head| view! { <th scope="col">{*head}</th> }).collect_view()}</tr></thead>
                    <tbody>{rows}</tbody>
                </table></div>
                <Complaint key="stroke.members" keys=&[] />
                <p class="small">{w.not_modelled}</p>
            </section>
        })
    }
}
