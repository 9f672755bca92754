//! What is drawn on the stage's canvases: ground, film, plume.

use leptos::prelude::*;
use mistcoat::stroke::Moment;
use wasm_bindgen::{Clamped, JsCast};
use web_sys::{CanvasRenderingContext2d, HtmlCanvasElement, ImageData};

use crate::draw::film::{self, Ground, Picture};
use crate::draw::plume::Sprinkle;
use crate::protocol::Film;
use crate::state::FilmGrid;
use crate::state::hand::Window;

/// The default paint's colour; the job has no key for it yet.
const FILM: [u8; 3] = [0x1D, 0x4F, 0xA0];
/// The old paint under it.
const OLD: [u8; 3] = [0xC6, 0xC2, 0xB8];
/// Film that hides the ground where the job names no film wanted [m].
const USUAL_FILM: f64 = 30e-6;
/// Drops of the plume.
const DROPS: usize = 170;

/// The film's canvas and what lies under it.
pub struct FilmLayer {
    canvas: HtmlCanvasElement,
    context: CanvasRenderingContext2d,
    ground: HtmlCanvasElement,
    /// One pixel a cell.
    cells: HtmlCanvasElement,
    window: Window,
    ratio: f64,
    /// Dry film that hides 63 of 100 of the ground [m].
    hide: f64,
}

fn context(canvas: &HtmlCanvasElement) -> Option<CanvasRenderingContext2d> {
    canvas.get_context("2d").ok().flatten()?.dyn_into().ok()
}

fn offscreen(width: usize, height: usize) -> Option<HtmlCanvasElement> {
    let canvas: HtmlCanvasElement = document().create_element("canvas").ok()?.dyn_into().ok()?;
    canvas.set_width(width as u32);
    canvas.set_height(height as u32);
    Some(canvas)
}

fn put(canvas: &HtmlCanvasElement, width: usize, height: usize, rgba: &[u8]) {
    let data = ImageData::new_with_u8_clamped_array_and_sh(Clamped(rgba), width as u32, height as u32);
    if let (Ok(data), Some(context)) = (data, context(canvas)) {
        // Refused only for a canvas of size 0, where there is nothing to show.
        let _ = context.put_image_data(&data, 0.0, 0.0);
    }
}

impl FilmLayer {
    /// For a canvas on this window; `low` is the lowest film wanted [m].
    pub fn new(canvas: HtmlCanvasElement, window: Window, low: Option<f64>) -> Option<Self> {
        let ratio = leptos::prelude::window().device_pixel_ratio().clamp(1.0, 3.0);
        let [w, h] = window.size.map(|v| (v * window.scale * ratio).round().max(1.0) as usize);
        let hide = low.unwrap_or(USUAL_FILM) / 3.0;
        let bare = FilmGrid {
            nx: 2,
            ny: 2,
            size: (window.size[0], window.size[1]),
            dry: vec![0.0; 4].into(),
            set: None,
        };
        let ground = offscreen(w, h)?;
        if let Some(picture) = film::as_seen(&bare, Ground::Old(OLD), hide, FILM, (w, h)) {
            put(&ground, w, h, &picture.rgba);
        }
        let context = context(&canvas)?;
        let this = Self { canvas, context, ground, cells: offscreen(1, 1)?, window, ratio, hide };
        this.clear();
        Some(this)
    }

    /// The panel's own way round, in device pixels, whichever way it stands on the screen.
    fn lay_out(&self) {
        let [w, h] = self.window.size.map(|v| v * self.window.scale * self.ratio);
        let size = if self.window.turned { [h, w] } else { [w, h] }.map(|v| v.round() as u32);
        if [self.canvas.width(), self.canvas.height()] != size {
            self.canvas.set_width(size[0]);
            self.canvas.set_height(size[1]);
        }
        let turned = self.window.turned;
        // A turn by a quarter, clockwise; refused only for numbers that are none.
        let _ = if turned {
            self.context.set_transform(0.0, 1.0, -1.0, 0.0, f64::from(size[0]), 0.0)
        } else {
            self.context.set_transform(1.0, 0.0, 0.0, 1.0, 0.0, 0.0)
        };
    }

    fn stamp(&self, canvas: &HtmlCanvasElement) {
        let [w, h] = self.window.size.map(|v| v * self.window.scale * self.ratio);
        let _ = self.context.draw_image_with_html_canvas_element_and_dw_and_dh(
            canvas,
            0.0,
            0.0,
            w.round(),
            h.round(),
        );
    }

    /// The bare panel.
    pub fn clear(&self) {
        self.lay_out();
        self.stamp(&self.ground);
    }

    /// The film under way: a pixel a cell, smoothed by the browser; quick.
    pub fn live(&self, film: &Film) {
        let (columns, rows) = (film.columns as usize, film.rows as usize);
        if film.values.len() != columns * rows || film.values.is_empty() {
            return;
        }
        if [self.cells.width(), self.cells.height()] != [film.columns, film.rows] {
            self.cells.set_width(film.columns);
            self.cells.set_height(film.rows);
        }
        let per = 1.0 / self.hide as f32;
        let rgba: Vec<u8> = film
            .values
            .iter()
            .flat_map(|&h| [FILM[0], FILM[1], FILM[2], (255.0 * (1.0 - (-h * per).exp())) as u8])
            .collect();
        put(&self.cells, columns, rows, &rgba);
        self.clear();
        self.stamp(&self.cells);
    }

    /// The finished film, with the light on it.
    pub fn seen(&self, film: &Film) {
        let [w, h] = self.window.size.map(|v| (v * self.window.scale * self.ratio).round() as usize);
        let size = (self.window.size[0], self.window.size[1]);
        let grid = FilmGrid {
            nx: film.columns as usize,
            ny: film.rows as usize,
            size,
            dry: film.values.clone().into(),
            set: None,
        };
        if let Some(picture) = film::as_seen(&grid, Ground::Old(OLD), self.hide, FILM, (w, h))
            && let Some(canvas) = offscreen(w, h)
        {
            put(&canvas, w, h, &picture.rgba);
            self.lay_out();
            self.stamp(&canvas);
        }
    }
}

/// The finished film as a map.
pub fn map(
    film: &Film,
    size: [f64; 2],
    band: Option<[f64; 2]>,
    pixels: (usize, usize),
    ratio: f64,
) -> Option<Picture> {
    let grid = FilmGrid {
        nx: film.columns as usize,
        ny: film.rows as usize,
        size: (size[0], size[1]),
        dry: film.values.clone().into(),
        set: None,
    };
    let wanted = band.map(|[low, high]| film::Wanted { low, high });
    film::as_map(&grid, wanted, pixels, ratio)
}

/// Puts a picture on a canvas of its size.
pub fn show(canvas: &HtmlCanvasElement, picture: &Picture) {
    put(canvas, picture.width, picture.height, &picture.rgba);
}

/// The plume at the gun: a ring where it is aimed, drops where they land. `fan` is the fan's height at the job's distance [m].
pub struct Plume {
    context: CanvasRenderingContext2d,
    size: [f64; 2],
    ratio: f64,
    dice: Sprinkle,
    still: bool,
}

impl Plume {
    /// For a canvas over a stage of this size [px].
    pub fn new(canvas: &HtmlCanvasElement, size: [f64; 2], still: bool) -> Option<Self> {
        let ratio = leptos::prelude::window().device_pixel_ratio().clamp(1.0, 2.0);
        canvas.set_width((size[0] * ratio) as u32);
        canvas.set_height((size[1] * ratio) as u32);
        Some(Self { context: context(canvas)?, size, ratio, dice: Sprinkle::new(3), still })
    }

    /// Draws the gun at a moment.
    pub fn draw(&mut self, window: &Window, moment: &Moment, air: bool, fan: [f64; 2], job_distance: f64) {
        let c = &self.context;
        let _ = c.set_transform(self.ratio, 0.0, 0.0, self.ratio, 0.0, 0.0);
        c.clear_rect(0.0, 0.0, self.size[0], self.size[1]);
        let aim =
            [moment.x + moment.distance * moment.swing.tan(), moment.y + moment.distance * moment.heel.tan()];
        let [x, y] = window.pixel(aim);
        let grown = moment.distance / job_distance.max(0.01);
        if self.still {
            self.dice = Sprinkle::new(3);
        }
        if air || moment.trigger > 0.0 {
            c.set_fill_style_str(if moment.trigger > 0.0 {
                "rgba(40,92,182,.75)"
            } else {
                "rgba(120,120,120,.45)"
            });
            let drops = if moment.trigger > 0.0 {
                (DROPS as f64 * (0.3 + 0.7 * moment.trigger)) as usize
            } else {
                40
            };
            for _ in 0..drops {
                let across = 0.5 * fan[0] * grown * self.dice.bell();
                let along = 0.5 * fan[1] * grown * self.dice.bell();
                let [px, py] = window.pixel([aim[0] + along, aim[1] + across]);
                c.fill_rect(px, py, 1.4, 1.4);
            }
        }
        // The ring of the gun's cap: wider the farther it is.
        let radius = 5.0 + 6.0 * grown;
        for (style, width) in [("rgba(252,249,242,.9)", 3.5), ("#211D18", 1.4)] {
            c.set_stroke_style_str(style);
            c.set_line_width(width);
            c.begin_path();
            let _ = c.arc(x, y, radius, 0.0, std::f64::consts::TAU);
            c.stroke();
        }
        if moment.swing.abs() + moment.heel.abs() > 0.01 {
            let [tx, ty] = window.pixel([moment.x, moment.y]);
            c.begin_path();
            c.move_to(tx, ty);
            c.line_to(x, y);
            c.stroke();
        }
    }

    /// Nothing.
    pub fn clear(&self) {
        let _ = self.context.set_transform(self.ratio, 0.0, 0.0, self.ratio, 0.0, 0.0);
        self.context.clear_rect(0.0, 0.0, self.size[0], self.size[1]);
    }
}
