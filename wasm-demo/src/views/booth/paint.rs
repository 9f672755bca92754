//! Keeps the picture true to the desk: draws when something has changed, and only then.

use std::cell::{Cell, RefCell};
use std::rc::Rc;
use std::sync::Arc;

use glam::{DMat4, DVec3};
use leptos::html;
use leptos::prelude::*;
use mistcoat::report::chart::end_view::DropletEnd;
use web_sys::HtmlCanvasElement;

use super::{Band, events, frame, play};
use crate::booth3d::gl::{Booth, Colour, Colours, Drawn, bytes};
use crate::booth3d::growing::gone_over;
use crate::booth3d::mesh::Stuff;
use crate::booth3d::part::standing;
use crate::booth3d::room::room;
use crate::booth3d::scene::{Scene, rising};
use crate::booth3d::way::{gun_frame, spray_frame};
use crate::booth3d::{gun, spray};
use crate::state::{Feed, Stage};
use crate::views::film_canvas::{hiding, wanted};

/// A bare part, the same in light and dark.
const BARE: [u8; 3] = [0xEE, 0xE8, 0xDA];
/// Largest share of device pixels drawn for each CSS pixel.
const SHARPEST: f64 = 2.0;

/// A frame that comes within this time costs nothing to speak of [ms].
const PROMPT: f64 = 25.0;
/// So many times longer than a frame was waited for, the next of a moving gun is put off.
const SELDOM: f64 = 12.0;

/// Milliseconds on the page's clock.
fn now() -> f64 {
    window().performance().map_or(0.0, |p| p.now())
}

/// What the picture is made of; a piece that is the same as before is not sent to the graphics processor again.
#[derive(Clone, PartialEq)]
struct Want {
    scene: Arc<Scene>,
    film: Option<Arc<Vec<f32>>>,
    droplets: Arc<[DropletEnd]>,
    /// Feed, level in 60 steps, fan and the way down in the gun's frame.
    gun: (Feed, u32, DVec3, DVec3),
    drawn: Drawn,
    size: (f64, f64),
}

/// The canvas' side of the band.
#[derive(Default)]
pub(super) struct Easel {
    pub(super) booth: RefCell<Option<Booth>>,
    want: RefCell<Option<Want>>,
    shown: RefCell<Option<Want>>,
    asked: Cell<bool>,
    /// It is off the screen: it is drawn when it comes back.
    pub(super) away: Cell<bool>,
    /// When it was drawn last, and how long that frame was waited for [ms].
    drawn: Cell<(f64, f64)>,
}

/// Film of the faces' cells [m], as last heard of; none where it does not fit the part.
pub fn film(band: Band) -> Option<Arc<Vec<f32>>> {
    let cells: usize = band.scene.with(|s| s.as_ref().map(|s| s.faces.iter().map(|f| f.len()).sum()))?;
    band.desk.members.with(|all| {
        let dry: Vec<f32> = all.iter().flat_map(|m| rising(&m.grid.dry, m.grid.nx)).collect();
        (dry.len() == cells).then(|| Arc::new(dry))
    })
}

/// The film that is shown: as last heard of, or as far as the run that is watched again has come.
fn shown(band: Band) -> Option<Arc<Vec<f32>>> {
    let reach = play::reach(band);
    let faces = band.scene.get()?;
    if let Some(time) = band.clock.get() {
        return band.desk.played.with(|p| Some(Arc::new(p.as_ref()?.film(time, &faces.faces, reach.0))));
    }
    let dry = film(band)?;
    let Some(now) = band.under.get() else { return Some(dry) };
    let share = band
        .desk
        .under
        .with(|way| Some(gone_over(&way.as_ref()?.0, now.time, &faces.faces, reach.0, 0.5 * reach.1)));
    let share = share.filter(|s| s.len() == dry.len());
    Some(share.map_or(dry.clone(), |s| Arc::new(dry.iter().zip(s).map(|(h, s)| h * s).collect())))
}

/// Follows the desk with the canvas. Call once for each canvas.
pub fn follow(band: Band, node: NodeRef<html::Canvas>) {
    let easel = Rc::new(Easel::default());
    let theme = RwSignal::new(0_u32);
    let film = Memo::new(move |_| shown(band));
    events::theme(theme);
    let hung = easel.clone();
    let held = StoredValue::new_local(easel.clone());
    on_cleanup(move || {
        held.with_value(|easel| {
            if let Some(booth) = easel.booth.borrow_mut().take() {
                // Later: a view that is shown anew keeps its canvas.
                request_animation_frame(move || booth.give_back());
            }
        });
    });
    Effect::new(move |_| {
        let Some(canvas) = node.get() else { return };
        events::size(&canvas, band);
        events::loss(&canvas, band, &hung);
        events::sight(&canvas, &hung);
        start(&canvas, band, &hung);
    });
    Effect::new(move |_| {
        let Some(canvas) = node.get() else { return };
        theme.track();
        *easel.want.borrow_mut() = want(band, film.get());
        // Where frames are dear a gun that moves along is drawn seldom: counting droplets goes first.
        let moving = band.under.get().is_some();
        let (last, waited) = easel.drawn.get();
        let dear = (waited - PROMPT).max(0.0) * SELDOM;
        if band.trouble.get().is_none() && !(moving && now() - last < dear) {
            ask(&canvas, &easel);
        }
    });
}

/// Makes the booth ready on its canvas, or says why not.
pub(super) fn start(canvas: &HtmlCanvasElement, band: Band, easel: &Rc<Easel>) {
    *easel.shown.borrow_mut() = None;
    match Booth::on(canvas) {
        Ok(booth) => {
            *easel.booth.borrow_mut() = Some(booth);
            band.trouble.set(None);
        }
        Err(why) => {
            *easel.booth.borrow_mut() = None;
            band.trouble.set(Some(why));
        }
    }
}

/// Asks for one picture with the next frame of the screen; a hidden page gets none.
pub(super) fn ask(canvas: &HtmlCanvasElement, easel: &Rc<Easel>) {
    if easel.away.get() || easel.asked.replace(true) {
        return;
    }
    let (canvas, easel, asked) = (canvas.clone(), easel.clone(), now());
    request_animation_frame(move || {
        easel.asked.set(false);
        easel.drawn.set((now(), now() - asked));
        let (mut booth, want) = (easel.booth.borrow_mut(), easel.want.borrow());
        if let (Some(booth), Some(want)) = (booth.as_mut(), want.as_ref()) {
            let mut shown = easel.shown.borrow_mut();
            draw(&canvas, booth, want, shown.as_ref());
            *shown = Some(want.clone());
        }
    });
}

fn draw(canvas: &HtmlCanvasElement, booth: &mut Booth, want: &Want, shown: Option<&Want>) {
    let other = |same: fn(&Want, &Want) -> bool| shown.is_none_or(|s| !same(s, want));
    let new_scene = other(|a, b| Arc::ptr_eq(&a.scene, &b.scene));
    if new_scene {
        let standing = standing(&want.scene.faces, &want.scene.atlas);
        booth.set_scene(&room(&standing), &standing);
    }
    if other(|a, b| a.gun == b.gun) {
        booth.set_gun(&gun::gun(want.gun.0, f64::from(want.gun.1) / 60.0, want.gun.2, want.gun.3));
    }
    if new_scene || other(|a, b| Arc::ptr_eq(&a.droplets, &b.droplets)) {
        booth.set_drops(&spray::points(&want.droplets, want.scene.distance));
    }
    let same_film = |a: &Want, b: &Want| match (&a.film, &b.film) {
        (Some(a), Some(b)) => Arc::ptr_eq(a, b),
        (a, b) => a.is_none() && b.is_none(),
    };
    if new_scene || shown.is_none_or(|s| !same_film(s, want)) {
        let dry = want.film.as_ref().map_or(&[][..], |f| f);
        booth.set_film(want.scene.atlas.size, &want.scene.atlas.fill(&want.scene.faces, dry));
    }
    let size = [want.size.0, want.size.1].map(|v| (v * want.drawn.ratio).round().clamp(1.0, 8192.0) as u32);
    if canvas.width() != size[0] || canvas.height() != size[1] {
        canvas.set_width(size[0]);
        canvas.set_height(size[1]);
    }
    booth.draw((size[0], size[1]), &want.drawn);
    // For those who wait for a picture.
    let _ = canvas.set_attribute("data-drawn", if want.film.is_some() { "film" } else { "bare" });
}

fn want(band: Band, film: Option<Arc<Vec<f32>>>) -> Option<Want> {
    let desk = band.desk;
    let (scene, camera, spot) = (band.scene.get()?, band.camera.get()?, band.spot.get()?);
    let size = band.size.get();
    let frame = frame(size);
    let face = scene.face(spot.face);
    let at = (gun_frame(face, &spot, scene.distance), spray_frame(face, &spot, scene.distance, scene.axis));
    let [right, up, back] = camera.axes();
    let turned =
        DMat4::from_cols(right.extend(0.0), up.extend(0.0), back.extend(0.0), glam::DVec4::W).transpose();
    let (feed, level) = {
        let face = desk.face();
        (face.feed, face.cup_level)
    };
    let inside = at.0.inverse();
    let in_gun = inside.transform_vector3(at.1.y_axis.truncate());
    // To a thousandth, so that a gun that only moves along keeps its shape.
    let down = (inside.transform_vector3(DVec3::NEG_Y) * 1e3).round() * 1e-3;
    let thickest = film.as_ref().map_or(0.0, |f| f.iter().copied().fold(0.0_f32, f32::max));
    let wanted = wanted();
    let drawn = Drawn {
        view: camera.matrix(&frame),
        turned,
        gun: Some(at),
        spraying: play::moment(band).map_or(desk.stage.get() == Stage::Paint, |m| m.spraying),
        colours: colours()?,
        hide: hiding(wanted),
        map: desk.booth_map.get().then_some((wanted, f64::from(thickest))),
        ratio: window().device_pixel_ratio().clamp(1.0, SHARPEST),
    };
    let droplets = match desk.fresh() {
        Some(run) => run.droplets.clone(),
        None => desk.aloft.get(),
    };
    (size.0 > 0.0).then(|| Want {
        scene,
        film,
        droplets,
        gun: (feed, (60.0 * level).round() as u32, in_gun, down),
        drawn,
        size,
    })
}

/// The tokens' colours as they are now.
fn colours() -> Option<Colours> {
    let style = window().get_computed_style(&document().document_element()?).ok()??;
    let token = |name: &str| -> Colour {
        let text = style.get_property_value(name).unwrap_or_default();
        let hex = u32::from_str_radix(text.trim().trim_start_matches('#'), 16).unwrap_or(0x80_80_80);
        bytes([(hex >> 16) as u8, (hex >> 8) as u8, hex as u8])
    };
    let mut stuff = [[0.0; 3]; 9];
    for (what, colour) in [
        (Stuff::Bare, bytes(BARE)),
        (Stuff::Gun, token("--metal")),
        (Stuff::Paint, token("--paint")),
        (Stuff::Wood, token("--hair")),
        (Stuff::Wall, token("--booth")),
        (Stuff::Floor, token("--booth2")),
        (Stuff::Film, token("--film")),
        (Stuff::Hose, token("--hose")),
    ] {
        stuff[what as usize] = colour;
    }
    Some(Colours {
        stuff,
        ink: token("--ink"),
        lines: [token("--hair"), token("--line")],
        drops: [token("--mist"), token("--paint")],
    })
}
