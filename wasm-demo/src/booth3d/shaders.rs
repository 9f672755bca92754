//! The programs of the graphics processor.

/// Corners of solids; grown outwards for the outline.
pub const SOLID_CORNERS: &str = "#version 300 es
layout(location=0) in vec3 at;
layout(location=1) in vec3 normal;
layout(location=2) in vec3 away;
layout(location=3) in vec2 film_at;
layout(location=4) in vec2 ground_at;
layout(location=5) in float made_of;
uniform mat4 view, model, turned;
uniform vec2 screen;
uniform float grow;
out vec3 facing;
out vec2 uv, ground;
out vec3 soft;
flat out int stuff;
void main() {
  vec4 p = view * (model * vec4(at, 1.0));
  if (grow > 0.0) {
    vec4 q = view * (model * vec4(away, 0.0));
    vec2 d = (q.xy * p.w - p.xy * q.w) * screen;
    float l = length(d);
    if (l > 0.0) p.xy += d / l * grow * 2.0 / screen * p.w;
  }
  gl_Position = p;
  facing = (turned * (model * vec4(normal, 0.0))).xyz;
  uv = film_at;
  ground = ground_at;
  soft = away;
  stuff = int(made_of + 0.5);
}";

/// Colours of solids. Film as seen and as map follow `draw::film` and the library's film map, constant by constant.
pub const SOLID_COLOURS: &str = "#version 300 es
precision highp float;
in vec3 facing;
in vec2 uv, ground;
in vec3 soft;
flat in int stuff;
uniform vec3 palette[9], ramp[6], edge_colour, ink, sheet, dots;
uniform float grow, ratio, hide, chosen;
uniform vec4 band;
uniform bool as_map;
uniform sampler2D film;
out vec4 colour;
vec3 ramped(float share) {
  float at = clamp(share, 0.0, 1.0) * 5.0;
  int i = min(int(at), 4);
  return mix(ramp[i], ramp[i + 1], at - float(i));
}
float covers(float inside) { return clamp(0.5 + inside * ratio, 0.0, 1.0); }
vec3 mapped(vec2 t2) {
  float t = mix(t2.r, t2.g, 0.6), w = fwidth(t);
  vec3 c = ramped(t / band.z);
  if (band.y <= 0.0) return c;
  float crossed = min(abs(t - band.x), abs(t - band.y));
  if (w > 0.0 && crossed < 0.7 * w) return ink;
  if (t < 0.02 * band.x) return sheet;
  vec2 s = vec2(gl_FragCoord.x, -gl_FragCoord.y) / ratio;
  if (t < band.x) {
    float across = mod(s.x + s.y, 9.0 * 1.41421356) / 1.41421356;
    return mix(c, ink, covers(0.55 - abs(across - 4.5)));
  }
  if (t > band.y) {
    float row = floor(s.y / 8.0);
    vec2 d = vec2(mod(s.x + (mod(row, 2.0) < 1.0 ? 0.0 : 4.0), 8.0) - 4.0, s.y - 8.0 * row - 4.0);
    return mix(c, dots, covers(1.7 - length(d)));
  }
  return c;
}
void main() {
  if (grow > 0.0) { colour = vec4(edge_colour, 1.0); return; }
  if (stuff == 6) {
    float d = length(max(abs(uv) - ground, 0.0)) / soft.x;
    colour = vec4(0.0, 0.0, 0.0, soft.y * (1.0 - smoothstep(0.0, 1.0, d)));
    return;
  }
  vec3 c = palette[stuff];
  if (stuff == 4 || stuff == 5) { colour = vec4(c, 1.0); return; }
  vec3 n = normalize(facing);
  float lit = smoothstep(-0.35, 0.9, dot(n, vec3(-0.40, 0.52, 0.75)));
  bool round = ground.x > 500.0;
  float shine = round ? smoothstep(0.86, 0.93, dot(n, vec3(-0.42, 0.34, 0.84))) : 0.0;
  if (stuff == 7) {
    vec2 t = texture(film, uv).rg;
    if (as_map) { colour = vec4(mapped(t), 1.0); return; }
    vec3 bare = palette[0];
    if (ground.x < 0.04) bare = mod(ground.y / 0.01, 2.0) < 1.0 ? vec3(0.969, 0.965, 0.945) : vec3(0.086, 0.082, 0.075);
    bare = bare * mix(0.80, 1.03, lit);
    bare = mix(bare, vec3(1.0), 0.55 * shine);
    float slope = 4.0 * ratio * (dFdx(t.g) - dFdy(t.g)) / hide;
    float light = clamp(0.3 * slope, -0.07, 0.07) + 0.24 * shine;
    vec3 wet = c * mix(0.86, 1.05, lit);
    wet = light > 0.0 ? mix(wet, vec3(1.0), light) : mix(wet, vec3(0.0), -light);
    colour = vec4(mix(bare, wet, 1.0 - exp(-t.r / hide)), 1.0);
    return;
  }
  float depth = stuff == 1 ? 0.88 : 0.80;
  c *= mix(depth, 1.03, lit);
  if (stuff == 0) c = mix(c, vec3(1.0), 0.55 * shine);
  colour = vec4(c, 1.0);
}";

/// Lines of even width on the screen.
pub const LINE_CORNERS: &str = "#version 300 es
layout(location=0) in vec3 from;
layout(location=1) in vec3 to;
layout(location=2) in vec3 corner;
uniform mat4 view;
uniform vec2 screen;
uniform float ratio;
out float off;
flat out int kind;
void main() {
  vec4 a = view * vec4(from, 1.0), b = view * vec4(to, 1.0);
  const float NEAR = 0.02;
  if (a.w < NEAR && b.w < NEAR) { gl_Position = vec4(2.0, 2.0, 2.0, 1.0); return; }
  if (a.w < NEAR) a = mix(b, a, (b.w - NEAR) / (b.w - a.w));
  if (b.w < NEAR) b = mix(a, b, (a.w - NEAR) / (a.w - b.w));
  vec2 way = normalize((b.xy / b.w - a.xy / a.w) * screen + vec2(1e-9, 0.0));
  vec4 p = corner.x < 0.5 ? a : b;
  off = corner.y * (0.5 * ratio + 1.0);
  p.xy += vec2(-way.y, way.x) * off * 2.0 / screen * p.w;
  gl_Position = p;
  kind = int(corner.z + 0.5);
}";

/// Their colours.
pub const LINE_COLOURS: &str = "#version 300 es
precision highp float;
in float off;
flat in int kind;
uniform vec3 inks[2];
uniform float ratio;
out vec4 colour;
void main() {
  colour = vec4(inks[kind], clamp(0.5 * ratio + 0.5 - abs(off), 0.0, 1.0) * (kind == 0 ? 0.75 : 0.9));
}";

/// Droplets.
pub const DROP_CORNERS: &str = "#version 300 es
layout(location=0) in vec3 at;
layout(location=1) in vec2 drawn;
uniform mat4 view, model;
uniform float ratio;
out float cover;
flat out float lands;
void main() {
  gl_Position = view * (model * vec4(at, 1.0));
  lands = drawn.y;
  cover = drawn.x * (lands > 0.5 ? 1.6 : 1.0);
  gl_PointSize = ratio * (lands > 0.5 ? 1.9 : 1.5);
}";

/// Their colours.
pub const DROP_COLOURS: &str = "#version 300 es
precision highp float;
in float cover;
flat in float lands;
uniform vec3 mist, paint;
out vec4 colour;
void main() {
  float edge = 1.0 - smoothstep(0.3, 0.55, length(gl_PointCoord - 0.5));
  colour = vec4(lands > 0.5 ? paint : mist, clamp(cover * edge, 0.0, 1.0));
}";
