//! What the page shows.

use leptos::prelude::*;

/// The whole page.
#[component]
pub fn App() -> impl IntoView {
    view! {
        <main>
            <h1>"mistcoat"</h1>
        </main>
    }
}
