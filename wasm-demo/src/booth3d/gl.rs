//! The booth on the graphics processor, by WebGL2. All that is known of it elsewhere is [`Drawn`]: what to show.

use glam::DMat4;
use js_sys::Float32Array;
use mistcoat::report::chart::film_map::{DOT, INK, RAMP, SHEET, Wanted};
use wasm_bindgen::JsCast;
use web_sys::{
    HtmlCanvasElement, WebGl2RenderingContext as Context, WebGlContextAttributes, WebGlTexture,
    WebglLoseContext,
};

use super::mesh::{self, Mesh};
use super::part::Standing;
use super::room::Lines;
use super::stock::{Program, Stock, program};
use super::{shaders, spray};

/// Red, green, blue, 0..=1.
pub type Colour = [f32; 3];

/// Colours of one theme.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Colours {
    /// By the number of `mesh::Stuff`.
    pub stuff: [Colour; 9],
    /// Outlines of part and gun, and of stands.
    pub ink: Colour,
    /// Lines by the number of `room::Ink`.
    pub lines: [Colour; 2],
    /// Droplets that pass by, and that land.
    pub drops: [Colour; 2],
}

/// One picture.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Drawn {
    /// Booth to clip space.
    pub view: DMat4,
    /// Booth to right, up and towards the eye.
    pub turned: DMat4,
    /// Where the gun and its spray are; none shows no gun.
    pub gun: Option<(DMat4, DMat4)>,
    /// It sprays.
    pub spraying: bool,
    /// Colours.
    pub colours: Colours,
    /// Film that hides 63 of 100 of the ground [m].
    pub hide: f64,
    /// The film as map, with the film wanted and the thickest film [m].
    pub map: Option<(Option<Wanted>, f64)>,
    /// Device pixels for each CSS pixel.
    pub ratio: f64,
}

/// Why there is no picture.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Trouble {
    /// The browser has no WebGL2.
    Missing,
    /// It has, but refuses a program or a buffer.
    Refused,
    /// The picture was taken away; it may come back.
    Lost,
}

/// The booth of one canvas.
pub struct Booth {
    gl: Context,
    solid: Program,
    line: Program,
    drop: Program,
    room: Stock,
    stand: Stock,
    shadow: Stock,
    part: Stock,
    gun: Stock,
    lines: Stock,
    drops: Stock,
    film: WebGlTexture,
}

impl Booth {
    /// Prepares a canvas.
    ///
    /// # Errors
    /// Without WebGL2, or when the browser refuses what it needs.
    pub fn on(canvas: &HtmlCanvasElement) -> Result<Self, Trouble> {
        let wishes = WebGlContextAttributes::new();
        wishes.set_antialias(true);
        wishes.set_alpha(false);
        // Kept, so that the picture can be saved or printed at any time.
        wishes.set_preserve_drawing_buffer(true);
        let found =
            canvas.get_context_with_context_options("webgl2", &wishes).map_err(|_| Trouble::Missing)?;
        let gl: Context = found.and_then(|c| c.dyn_into().ok()).ok_or(Trouble::Missing)?;
        if gl.is_context_lost() {
            return Err(Trouble::Lost);
        }
        let solid = program(&gl, shaders::SOLID_CORNERS, shaders::SOLID_COLOURS)?;
        let line = program(&gl, shaders::LINE_CORNERS, shaders::LINE_COLOURS)?;
        let drop = program(&gl, shaders::DROP_CORNERS, shaders::DROP_COLOURS)?;
        let body = || Stock::new(&gl, &[3, 3, 3, 2, 2, 1], true);
        let film = gl.create_texture().ok_or(Trouble::Refused)?;
        gl.bind_texture(Context::TEXTURE_2D, Some(&film));
        for (name, value) in [
            (Context::TEXTURE_MIN_FILTER, Context::LINEAR),
            (Context::TEXTURE_MAG_FILTER, Context::LINEAR),
            (Context::TEXTURE_WRAP_S, Context::CLAMP_TO_EDGE),
            (Context::TEXTURE_WRAP_T, Context::CLAMP_TO_EDGE),
        ] {
            gl.tex_parameteri(Context::TEXTURE_2D, name, value as i32);
        }
        let (room, stand, shadow, part, gun) = (body()?, body()?, body()?, body()?, body()?);
        let lines = Stock::new(&gl, &[3, 3, 3], true)?;
        let drops = Stock::new(&gl, &[3, 2], false)?;
        Ok(Self { solid, line, drop, room, stand, shadow, part, gun, lines, drops, film, gl })
    }

    /// The booth, and the part as it stands in it.
    pub fn set_scene(&mut self, room: &(Mesh, Lines), standing: &Standing) {
        let Standing { stand, part, shadow, .. } = standing;
        self.shadow.fill(&self.gl, &shadow.vertices, Some(&shadow.triangles));
        self.room.fill(&self.gl, &room.0.vertices, Some(&room.0.triangles));
        self.stand.fill(&self.gl, &stand.vertices, Some(&stand.triangles));
        self.part.fill(&self.gl, &part.vertices, Some(&part.triangles));
        let mut corners: Vec<f32> = Vec::with_capacity(room.1.len() * 36);
        let mut order: Vec<u32> = Vec::with_capacity(room.1.len() * 6);
        for (number, (a, b, ink)) in room.1.iter().enumerate() {
            for (end, side) in [(0.0, -1.0), (1.0, -1.0), (1.0, 1.0), (0.0, 1.0)] {
                for p in [a, b] {
                    corners.extend([p.x as f32, p.y as f32, p.z as f32]);
                }
                corners.extend([end, side, f32::from(*ink as u8)]);
            }
            order.extend([0, 1, 2, 0, 2, 3].map(|k| 4 * number as u32 + k));
        }
        self.lines.fill(&self.gl, &corners, Some(&order));
    }

    /// The gun.
    pub fn set_gun(&mut self, gun: &Mesh) {
        self.gun.fill(&self.gl, &gun.vertices, Some(&gun.triangles));
    }

    /// The droplets, as `spray::points` gives them.
    pub fn set_drops(&mut self, points: &[f32]) {
        self.drops.fill(&self.gl, points, None);
        self.drops.count = (points.len() / spray::STRIDE) as i32;
    }

    /// The film texture, as `atlas::Atlas::fill` gives it.
    pub fn set_film(&self, size: (usize, usize), film: &[f32]) {
        let gl = &self.gl;
        gl.bind_texture(Context::TEXTURE_2D, Some(&self.film));
        // An error here means a lost context, which is told by its event.
        let _ = gl.tex_image_2d_with_i32_and_i32_and_i32_and_format_and_type_and_opt_array_buffer_view(
            Context::TEXTURE_2D,
            0,
            Context::RG16F as i32,
            size.0 as i32,
            size.1 as i32,
            0,
            Context::RG,
            Context::FLOAT,
            Some(&Float32Array::from(film)),
        );
    }

    /// Draws, `size` in device pixels.
    pub fn draw(&self, size: (u32, u32), d: &Drawn) {
        let gl = &self.gl;
        let screen = [size.0 as f32, size.1 as f32];
        gl.viewport(0, 0, size.0 as i32, size.1 as i32);
        let [r, g, b] = d.colours.stuff[mesh::Stuff::Wall as usize];
        gl.clear_color(r, g, b, 1.0);
        gl.clear(Context::COLOR_BUFFER_BIT | Context::DEPTH_BUFFER_BIT);
        for what in [Context::DEPTH_TEST, Context::CULL_FACE, Context::BLEND] {
            gl.enable(what);
        }
        gl.blend_func(Context::SRC_ALPHA, Context::ONE_MINUS_SRC_ALPHA);
        gl.depth_mask(true);
        self.begin_solids(screen, d);
        let whole = DMat4::IDENTITY;
        self.solids(&self.room, whole, 0.0, d);
        self.begin(&self.line, screen, d);
        gl.uniform3fv_with_f32_array(self.line.at(gl, "inks").as_ref(), d.colours.lines.as_flattened());
        gl.disable(Context::CULL_FACE);
        self.lines.draw(gl);
        gl.enable(Context::CULL_FACE);
        self.begin_solids(screen, d);
        // Shadows lie in one plane: none may hide another.
        gl.depth_mask(false);
        self.solids(&self.shadow, whole, 0.0, d);
        gl.depth_mask(true);
        self.solids(&self.stand, whole, 0.8, d);
        self.solids(&self.part, whole, 1.1, d);
        if let Some((gun, spray)) = d.gun {
            self.solids(&self.gun, gun, 1.1, d);
            if d.spraying && self.drops.count > 0 {
                self.begin(&self.drop, screen, d);
                self.matrix(&self.drop, "model", spray);
                let [mist, paint] = d.colours.drops;
                self.colour(&self.drop, "mist", mist);
                self.colour(&self.drop, "paint", paint);
                gl.depth_mask(false);
                gl.bind_vertex_array(Some(&self.drops.array));
                gl.draw_arrays(Context::POINTS, 0, self.drops.count);
                gl.depth_mask(true);
            }
        }
        gl.bind_vertex_array(None);
    }

    /// Gives its memory back at once, where its canvas has left the page: a browser keeps that of a canvas which nobody sees any more until it
    /// clears up, and it has few such pictures to give.
    pub fn give_back(self) {
        let canvas = self.gl.canvas().and_then(|canvas| canvas.dyn_into::<HtmlCanvasElement>().ok());
        if canvas.is_none_or(|canvas| canvas.is_connected()) || self.gl.is_context_lost() {
            return;
        }
        if let Ok(Some(lose)) = self.gl.get_extension("WEBGL_lose_context") {
            lose.unchecked_into::<WebglLoseContext>().lose_context();
        }
    }

    fn begin(&self, program: &Program, screen: [f32; 2], d: &Drawn) {
        let gl = &self.gl;
        gl.use_program(Some(&program.program));
        self.matrix(program, "view", d.view);
        gl.uniform2f(program.at(gl, "screen").as_ref(), screen[0], screen[1]);
        gl.uniform1f(program.at(gl, "ratio").as_ref(), d.ratio as f32);
    }

    fn begin_solids(&self, screen: [f32; 2], d: &Drawn) {
        let (gl, p) = (&self.gl, &self.solid);
        self.begin(p, screen, d);
        self.matrix(p, "turned", d.turned);
        gl.uniform3fv_with_f32_array(p.at(gl, "palette").as_ref(), d.colours.stuff.as_flattened());
        gl.uniform3fv_with_f32_array(p.at(gl, "ramp").as_ref(), RAMP.map(bytes).as_flattened());
        for (name, colour) in [("ink", INK), ("sheet", SHEET), ("dots", DOT)] {
            self.colour(p, name, bytes(colour));
        }
        let um = |m: f64| (1e6 * m) as f32;
        gl.uniform1f(p.at(gl, "hide").as_ref(), um(d.hide).max(1e-3));
        let (wanted, thickest) = d.map.unwrap_or_default();
        let (low, high) = wanted.map_or((0.0, 0.0), |w| (w.low, w.high));
        let top = wanted.map_or(thickest, |w| w.top()).max(1e-12);
        gl.uniform4f(p.at(gl, "band").as_ref(), um(low), um(high), um(top).max(1e-6), 0.0);
        gl.uniform1i(p.at(gl, "as_map").as_ref(), i32::from(d.map.is_some()));
        gl.bind_texture(Context::TEXTURE_2D, Some(&self.film));
    }

    /// Solids with an outline of `edge` CSS px: their back faces, grown, stand out round them.
    fn solids(&self, stock: &Stock, model: DMat4, edge: f64, d: &Drawn) {
        let (gl, p) = (&self.gl, &self.solid);
        self.matrix(p, "model", model);
        if edge > 0.0 {
            let colour = if edge < 1.0 { d.colours.lines[1] } else { d.colours.ink };
            self.colour(p, "edge_colour", colour);
            gl.uniform1f(p.at(gl, "grow").as_ref(), (edge * d.ratio) as f32);
            gl.cull_face(Context::FRONT);
            stock.draw(gl);
            gl.cull_face(Context::BACK);
        }
        gl.uniform1f(p.at(gl, "grow").as_ref(), 0.0);
        stock.draw(gl);
    }

    fn matrix(&self, program: &Program, name: &str, m: DMat4) {
        let at = program.at(&self.gl, name);
        self.gl.uniform_matrix4fv_with_f32_array(at.as_ref(), false, &m.to_cols_array().map(|v| v as f32));
    }

    fn colour(&self, program: &Program, name: &str, [r, g, b]: Colour) {
        self.gl.uniform3f(program.at(&self.gl, name).as_ref(), r, g, b);
    }
}

/// A colour of bytes.
#[must_use]
pub fn bytes(rgb: [u8; 3]) -> Colour {
    rgb.map(|c| f32::from(c) / 255.0)
}
