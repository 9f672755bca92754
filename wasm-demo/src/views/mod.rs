//! What the page shows.

use leptos::prelude::*;

mod advice;
mod air;
mod booth;
mod card;
mod card_clipboard;
mod clipboard;
mod counted;
mod cup;
mod cup_seconds;
pub mod desk;
mod end_strip;
pub mod errand;
mod exercise;
mod faults;
mod fields;
mod film_canvas;
mod film_section;
mod flood;
mod gun_choice;
mod gun_labels;
mod gun_panel;
pub mod hand;
mod header;
mod how_sprayed;
mod judged;
mod kept;
mod knob;
mod knob_figure;
mod link;
mod match_gun;
mod match_result;
mod members;
mod mix;
mod paint;
mod part;
mod part_fields;
mod part_said;
mod pilot;
mod search;
mod sheet;
mod sheet_fields;
mod side;
mod side_box;
mod side_row;
mod side_set;
mod side_table;
mod sweep;
mod thinner;
mod told;
mod tubes;
mod why;

use desk::{Desk, View};

/// The whole page.
#[component]
pub fn App() -> impl IntoView {
    let desk = Desk::default();
    provide_context(desk);
    provide_context(side::SideDesk::default());
    provide_context(advice::AdviceDesk::default());
    provide_context(kept::Shelf::default());
    provide_context(sweep::SweepDesk::default());
    provide_context(search::SearchDesk::default());
    provide_context(why::WhyDesk::default());
    match link::of_address() {
        Some(Ok(text)) => desk.job.set(text),
        Some(Err(message)) => desk.refused.set(Some(desk::Refused { key: "link".into(), message })),
        None => {}
    }
    provide_context(match_gun::MatchDesk::new(&desk.job.get_untracked()));
    provide_context(flood::FloodDesk::default());
    provide_context(how_sprayed::CostDesk::default());
    provide_context(hand::HandDesk::default());
    provide_context(exercise::ClassDesk::default());
    hand::open_where_asked(desk);
    link::follow(desk);
    pilot::follow(desk);
    view! {
        <header::Header />
        <header::Questions />
        <main id="view" tabindex="-1">
            <div class="link-problem"><fields::Complaint key="link" keys=&[] /></div>
            <h2 class="unseen">{move || header::view_name(desk.view.get())}</h2>
            <exercise::ExerciseBar />
            {move || match desk.view.get() {
                View::Card => view! { <card::CardView /> }.into_any(),
                View::Part => view! { <part::PartView /> }.into_any(),
                View::Paint => view! { <paint::PaintView /> }.into_any(),
                View::Air => view! { <air::AirView /> }.into_any(),
                View::Side => view! { <side::SideView /> }.into_any(),
                View::Hand => view! { <hand::HandView /> }.into_any(),
                View::Sheet => view! { <sheet::SheetView /> }.into_any(),
                View::Sweep => view! { <sweep::SweepView /> }.into_any(),
            }}
        </main>
    }
}
