//! The drawn gun as control panel, in the size of its view.

use leptos::prelude::*;

use super::cup::CupHit;
use super::desk::desk;
use super::gun_labels::{SideLabels, Trigger};
use super::knob::{KnobHit, KnobLabel};
use crate::draw::gun::{self, geometry::Pose, hit};
use crate::draw::svg::{circle, line, n};
use crate::draw::{chalk, plume};
use crate::state::{Feed, Knob, Stage};
use crate::words::words;

/// How the gun stands in its panel.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stand {
    /// Class of the panel.
    pub class: &'static str,
    /// Panel [px].
    pub size: (f64, f64),
    /// Tip of the gun [px].
    pub tip: (f64, f64),
    /// px for each drawing unit.
    pub scale: f64,
    /// Hatch pitch in drawing units.
    pub pitch: f64,
    /// Ends of the knobs' leaders [px]: fan, air, fluid.
    pub leaders: Option<[(f64, f64); 3]>,
    /// Other leaders [px], from the label to the drawing: for a gravity cup, a suction cup, a pot.
    pub others: [Leaders; 3],
    /// Cap from the front: middle [px], scale.
    pub cap: ((f64, f64), f64),
    /// Every piece is named, and cap and tip are shown closer.
    pub full: bool,
}

/// Leaders [px]: both ends of each.
type Leaders = &'static [[(f64, f64); 2]];

/// On the bench of the Part view.
pub const BENCH: Stand = Stand {
    class: "stand stand-bench",
    size: (784.0, 500.0),
    tip: (292.0, 132.0),
    scale: 0.55,
    pitch: 8.4,
    leaders: Some([(594.0, 112.0), (594.0, 318.0), (594.0, 214.0)]),
    others: [
        &[[(140.0, 15.0), (307.0, 15.0)], [(128.0, 236.0), (414.0, 236.0)], [(206.0, 410.0), (470.0, 410.0)]],
        &[[(170.0, 274.0), (290.0, 274.0)], [(206.0, 410.0), (470.0, 410.0)]],
        &[[(170.0, 274.0), (339.0, 274.0)], [(206.0, 410.0), (470.0, 410.0)]],
    ],
    cap: ((176.0, 132.0), 0.56),
    full: false,
};

/// Beside the cards.
pub const SIDE: Stand = Stand {
    class: "stand stand-side",
    size: (300.0, 470.0),
    tip: (34.0, 158.0),
    scale: 0.4,
    pitch: 10.5,
    leaders: None,
    others: [&[]; 3],
    cap: ((58.0, 354.0), 0.62),
    full: false,
};

/// Piece by piece, at full size.
pub const FULL: Stand = Stand {
    class: "stand stand-full",
    size: (1216.0, 1076.0),
    tip: (450.0, 410.0),
    scale: 1.0,
    pitch: 8.0,
    leaders: Some([(942.0, 216.0), (942.0, 690.0), (942.0, 394.0)]),
    others: [
        &[
            [(812.0, 62.0), (572.0, 80.0)],
            [(812.0, 126.0), (640.0, 176.0)],
            [(100.0, 236.0), (330.0, 236.0)],
            [(330.0, 236.0), (568.0, 372.0)],
            [(90.0, 352.0), (418.0, 352.0)],
            [(130.0, 466.0), (452.0, 418.0)],
            [(942.0, 552.0), (786.0, 552.0)],
            [(524.0, 884.0), (778.0, 896.0)],
        ],
        &[
            [(408.0, 640.0), (440.0, 640.0)],
            [(100.0, 236.0), (330.0, 236.0)],
            [(330.0, 236.0), (560.0, 403.0)],
            [(90.0, 352.0), (418.0, 352.0)],
            [(130.0, 466.0), (452.0, 418.0)],
            [(942.0, 552.0), (786.0, 552.0)],
            [(524.0, 884.0), (778.0, 896.0)],
        ],
        &[
            [(408.0, 640.0), (532.0, 640.0)],
            [(100.0, 236.0), (330.0, 236.0)],
            [(330.0, 236.0), (560.0, 403.0)],
            [(90.0, 352.0), (418.0, 352.0)],
            [(130.0, 466.0), (452.0, 418.0)],
            [(942.0, 552.0), (786.0, 552.0)],
            [(524.0, 884.0), (778.0, 896.0)],
        ],
    ],
    cap: ((96.0, 600.0), 1.0),
    full: true,
};

/// The circle that shows cap and tip closer: middle [px], times larger, radius [px].
const CLOSER: ((f64, f64), f64, f64) = ((118.0, 930.0), 2.3, 116.0);

/// The gun, its controls and labels.
#[component]
pub fn GunPanel(stand: Stand, #[prop(optional)] chalk_arrow: bool) -> impl IntoView {
    let desk = desk();
    let w = words();
    let ids = match (stand.full, stand.leaders.is_some()) {
        (true, _) => "gf",
        (false, true) => "gb",
        (false, false) => "gs",
    };
    let face = Memo::new(move |_| desk.face());
    let pose = Memo::new(move |_| Pose::of(&face.get()));
    let feed = Memo::new(move |_| face.get().feed);
    let at = format!("translate({} {}) scale({})", n(stand.tip.0), n(stand.tip.1), n(stand.scale));
    let whole = move || {
        if desk.mirror.get() {
            format!("translate({} 0) scale(-1 1)", n(stand.size.0))
        } else {
            String::new()
        }
    };
    let on_panel = move |p: (f64, f64)| (stand.tip.0 + stand.scale * p.0, stand.tip.1 + stand.scale * p.1);
    let leaders = move || {
        let mut out = String::new();
        if let Some(ends) = stand.leaders {
            for (knob, end) in Knob::ALL.into_iter().zip(ends) {
                let from = on_panel(hit::leader_start(knob, &pose.get()));
                out += &line(if face.get().in_hand == Some(knob) { "lead now" } else { "lead" }, from, end);
            }
        }
        for [a, b] in stand.others[super::cup::nth(feed.get())] {
            out += &(line("lead", *a, *b) + &circle("lead-dot", *b, 2.2));
        }
        out
    };
    let spray = move || {
        let run = desk.fresh()?;
        (face.get().stage == Stage::Paint).then_some(())?;
        let distance = desk.parsed.with(|j| j.as_ref().map(|j| j.stroke.distance))?;
        let slope = 0.5 * run.number("pattern.length_mm")? * 1e-3 / distance;
        // Horns left and right: the fan stands in the plane of the drawing; else its thickness does.
        let thin = 0.5 * run.number("pattern.width_mm")? * 1e-3 / distance;
        let shown = if face.get().cap_eighths % 4 == 0 { slope } else { thin };
        Some(plume::plume(120.0, shown, 900, 3))
    };
    let arc = move || {
        if !stand.full {
            return String::new();
        }
        gun::trigger::arc(&pose.get(), Some(w.stages)) + &gun::closer::where_it_is(CLOSER.1, CLOSER.2)
    };
    let closer = move || {
        if stand.full { gun::closer::closer(&face.get(), "gc", CLOSER.1, CLOSER.2) } else { String::new() }
    };
    // Not turned over for the left hand, only moved to the other side.
    let beside = move |at: (f64, f64), scale: f64| {
        let x = if desk.mirror.get() { stand.size.0 - at.0 } else { at.0 };
        format!("translate({} {}) scale({})", n(x), n(at.1), n(scale))
    };
    let front = move || gun::cap::front(face.get().cap_eighths);
    // The one next step: only where a narrower fan is the lesson.
    let pointing = move || {
        let narrow =
            desk.parsed.with(|j| j.as_ref().is_some_and(|j| crate::state::is_tube(j) && j.gun.fan > 0.5));
        chalk_arrow && narrow && !desk.touched.get() && !desk.mirror.get()
    };
    let chalk = move || {
        if !pointing() {
            return String::new();
        }
        chalk::arrow((604.0, 34.0), on_panel(hit::leader_start(Knob::Fan, &pose.get())), -30.0)
    };
    view! {
        <div class=stand.class class:suction=move || feed.get() == Feed::Suction class:pot=move || feed.get() == Feed::Pressure class:mirror=move || desk.mirror.get() class:low=move || desk.in_hand.get() == Some(Knob::Air)>
            <div class="gun-frame">
            <svg class="gun" viewBox=format!("0 0 {} {}", stand.size.0, stand.size.1) aria-label=w.gun role="group">
                <g transform=whole>
                    <g transform=at.clone()>
                        <g inner_html=move || gun::still_back(ids, stand.pitch, feed.get())></g>
                        <g inner_html=move || spray().unwrap_or_default()></g>
                        <g inner_html=move || gun::fluid::moving(&pose.get(), &face.get(), ids)></g>
                        <g inner_html=move || gun::cup::level(&face.get())></g>
                        <g inner_html=move || gun::fan::moving(&pose.get(), &face.get(), ids)></g>
                        <g inner_html=move || gun::air::moving(&pose.get(), &face.get())></g>
                        <g inner_html=move || gun::gauge::moving(&face.get())></g>
                        <g inner_html=move || gun::trigger::moving(&pose.get())></g>
                        <g inner_html=arc></g>
                        <CupHit px=stand.scale />
                        <Trigger />
                        {Knob::ALL.map(|knob| view! { <KnobHit knob=knob /> }).collect_view()}
                    </g>
                    <g class="leaders" inner_html=leaders></g>
                    <g inner_html=chalk></g>
                </g>
                <g class="cap-front" transform=move || beside(stand.cap.0, stand.cap.1) inner_html=front></g>
                <g transform=move || beside(CLOSER.0, 1.0) inner_html=closer></g>
            </svg>
            </div>
            {chalk_arrow.then(|| view! {
                <p class="chalk-words turn-this" hidden=move || !pointing()>{w.turn_this}</p>
            })}
            <div class="labels">
                <div class="knob-tabs" role="group" aria-label=w.gun>
                    {Knob::ALL.map(|knob| view! {
                        <button type="button" aria-pressed=move || (desk.in_hand.get() == Some(knob)).to_string()
                            on:click=move |_| desk.in_hand.set(Some(knob))>
                            <span class="disc">{knob.number()}</span>{super::knob::name(knob)}
                        </button>
                    }).collect_view()}
                </div>
                {Knob::ALL.map(|knob| view! { <KnobLabel knob=knob /> }).collect_view()}
                <SideLabels full=stand.full />
            </div>
        </div>
    }
}

/// The whole gun with every piece named, opened in place.
#[component]
pub fn PieceByPiece() -> impl IntoView {
    let open = RwSignal::new(false);
    view! {
        <section class="pieces">
            <button type="button" class="link pieces-open" aria-expanded=move || open.get().to_string()
                on:click=move |_| open.update(|o| *o = !*o)>{words().gun_closer}</button>
            {move || open.get().then(|| view! { <GunPanel stand=FULL /> })}
        </section>
    }
}
