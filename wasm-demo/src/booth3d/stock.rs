//! What lies on the graphics processor: programs, and corners to draw with them.

use js_sys::{Float32Array, Uint32Array};
use web_sys::{
    WebGl2RenderingContext as Context, WebGlBuffer, WebGlProgram, WebGlUniformLocation,
    WebGlVertexArrayObject,
};

use super::gl::Trouble;

/// A program and the places of its values.
pub(super) struct Program {
    pub program: WebGlProgram,
}

/// Corners on the graphics processor.
pub(super) struct Stock {
    pub array: WebGlVertexArrayObject,
    corners: WebGlBuffer,
    order: Option<WebGlBuffer>,
    pub count: i32,
}

impl Program {
    pub fn at(&self, gl: &Context, name: &str) -> Option<WebGlUniformLocation> {
        gl.get_uniform_location(&self.program, name)
    }
}

impl Stock {
    /// An empty stock whose corners hold attributes of so many numbers each.
    pub fn new(gl: &Context, widths: &[i32], ordered: bool) -> Result<Self, Trouble> {
        let array = gl.create_vertex_array().ok_or(Trouble::Refused)?;
        let corners = gl.create_buffer().ok_or(Trouble::Refused)?;
        let order = if ordered { Some(gl.create_buffer().ok_or(Trouble::Refused)?) } else { None };
        gl.bind_vertex_array(Some(&array));
        gl.bind_buffer(Context::ARRAY_BUFFER, Some(&corners));
        if let Some(order) = &order {
            gl.bind_buffer(Context::ELEMENT_ARRAY_BUFFER, Some(order));
        }
        let stride = 4 * widths.iter().sum::<i32>();
        let mut offset = 0;
        for (number, &width) in widths.iter().enumerate() {
            gl.enable_vertex_attrib_array(number as u32);
            gl.vertex_attrib_pointer_with_i32(number as u32, width, Context::FLOAT, false, stride, offset);
            offset += 4 * width;
        }
        gl.bind_vertex_array(None);
        Ok(Self { array, corners, order, count: 0 })
    }

    pub fn fill(&mut self, gl: &Context, corners: &[f32], order: Option<&[u32]>) {
        gl.bind_vertex_array(Some(&self.array));
        gl.bind_buffer(Context::ARRAY_BUFFER, Some(&self.corners));
        let corners = Float32Array::from(corners);
        gl.buffer_data_with_array_buffer_view(Context::ARRAY_BUFFER, &corners, Context::STATIC_DRAW);
        if let (Some(buffer), Some(order)) = (&self.order, order) {
            gl.bind_buffer(Context::ELEMENT_ARRAY_BUFFER, Some(buffer));
            self.count = order.len() as i32;
            let order = Uint32Array::from(order);
            gl.buffer_data_with_array_buffer_view(
                Context::ELEMENT_ARRAY_BUFFER,
                &order,
                Context::STATIC_DRAW,
            );
        }
        gl.bind_vertex_array(None);
    }

    pub fn draw(&self, gl: &Context) {
        if self.count > 0 {
            gl.bind_vertex_array(Some(&self.array));
            gl.draw_elements_with_i32(Context::TRIANGLES, self.count, Context::UNSIGNED_INT, 0);
        }
    }
}

/// Compiles a program.
///
/// # Errors
/// When the browser refuses it.
pub(super) fn program(gl: &Context, corners: &str, colours: &str) -> Result<Program, Trouble> {
    let program = gl.create_program().ok_or(Trouble::Refused)?;
    for (kind, text) in [(Context::VERTEX_SHADER, corners), (Context::FRAGMENT_SHADER, colours)] {
        let shader = gl.create_shader(kind).ok_or(Trouble::Refused)?;
        gl.shader_source(&shader, text);
        gl.compile_shader(&shader);
        gl.attach_shader(&program, &shader);
    }
    gl.link_program(&program);
    if gl.get_program_parameter(&program, Context::LINK_STATUS).as_bool() == Some(true) {
        return Ok(Program { program });
    }
    let why = gl.get_program_info_log(&program).unwrap_or_default();
    web_sys::console::warn_1(&format!("WebGL2: {why}").into());
    Err(if gl.is_context_lost() { Trouble::Lost } else { Trouble::Refused })
}
