//! A film map as a file: PNG of the map alone, or SVG with its scale, size and key.

use super::film_map::{Picture, Wanted, as_map, key};
use super::svg::{escape, n, rect, text};
use super::{alone, field};
use crate::film::FilmMap;
use crate::report::words::short;
use base64::Engine;
use base64::engine::general_purpose::STANDARD;

/// Pixels of a picture for each CSS pixel: patterns stay fine on a dense screen.
const DENSE: f64 = 2.0;

/// The dry film as a map, its longer side `longest` [px]; none where there is nothing to draw.
#[must_use]
pub fn map_png(film: &FilmMap, wanted: Option<Wanted>, longest: usize) -> Option<Vec<u8>> {
    let (width, height) = size(film);
    let scale = longest as f64 / width.max(height);
    let pixels = |length: f64| ((length * scale).round() as usize).max(1);
    png_of(&as_map(&field(film)?, wanted, (pixels(width), pixels(height)), DENSE)?)
}

/// Width and height of the part's face [m].
fn size(film: &FilmMap) -> (f64, f64) {
    (film.face().nx as f64 * film.face().cell_x, film.face().ny as f64 * film.face().cell_y)
}

fn png_of(picture: &Picture) -> Option<Vec<u8>> {
    let mut bytes = Vec::new();
    let mut encoder = png::Encoder::new(
        &mut bytes,
        u32::try_from(picture.width).ok()?,
        u32::try_from(picture.height).ok()?,
    );
    encoder.set_color(png::ColorType::Rgba);
    encoder.set_depth(png::BitDepth::Eight);
    encoder.write_header().ok()?.write_image_data(&picture.rgba).ok()?;
    Some(bytes)
}

/// The map with its title, size and key, `width` [px] across; none where there is nothing to draw.
#[must_use]
pub fn map_svg(title: &str, film: &FilmMap, wanted: Option<Wanted>, width: f64) -> Option<String> {
    let margin = 24.0;
    let (across, up) = size(film);
    let inner = width - 2.0 * margin;
    let tall = inner * up / across;
    let map = map_png(film, wanted, (DENSE * inner.max(tall)) as usize)?;
    let mut out = text("voice", (margin, 40.0), "start", title);
    out += &image(&map, margin, 58.0, inner, tall);
    out += &rect("frame", margin, 58.0, inner, tall, 0.0);
    let mut foot = 58.0 + tall + 20.0;
    let length = format!("{} mm x {} mm", short(across * 1e3), short(up * 1e3));
    out += &text("axis-figure", (width - margin, foot), "end", &length);
    if let Some(band) = wanted {
        let (x, wide) = (margin, 0.4 * inner);
        let bar = png_of(&key(band, ((DENSE * wide) as usize, (DENSE * 16.0) as usize), DENSE)?)?;
        foot += 14.0;
        out += &image(&bar, x, foot, wide, 16.0);
        out += &rect("frame", x, foot, wide, 16.0, 0.0);
        for (h, anchor) in [(0.0, "start"), (band.low, "middle"), (band.high, "middle"), (band.top(), "end")]
        {
            out += &text("axis-figure", (x + wide * h / band.top(), foot + 32.0), anchor, &short(h * 1e6));
        }
        out += &text(
            "quiet",
            (x + wide + 12.0, foot + 13.0),
            "start",
            "um dry; hatched: too thin, dotted: too thick",
        );
        foot += 32.0;
    }
    Some(alone(title, width, foot + 16.0, &out))
}

fn image(png: &[u8], x: f64, y: f64, w: f64, h: f64) -> String {
    let data = escape(&STANDARD.encode(png));
    format!(
        r#"<image x="{}" y="{}" width="{}" height="{}" href="data:image/png;base64,{data}"/>"#,
        n(x),
        n(y),
        n(w),
        n(h)
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_map_reads_back_and_stands_upright() {
        // Thick at the top: there the ramp is darkest.
        let mut film = FilmMap::bare(60, 40, 5e-3, 5e-3);
        for (cell, h) in film.dry.iter_mut().enumerate() {
            *h = (cell / 60) as f64 * 1e-6;
        }
        let bytes = map_png(&film, None, 300).expect("a picture");
        let mut reader = png::Decoder::new(std::io::Cursor::new(bytes)).read_info().expect("a PNG");
        let mut pixels = vec![0; reader.output_buffer_size().expect("a size")];
        let info = reader.next_frame(&mut pixels).expect("pixels");
        assert_eq!((info.width, info.height), (300, 200));
        assert!(
            pixels[0] < 30 && pixels[pixels.len() - 4] > 240,
            "{} {}",
            pixels[0],
            pixels[pixels.len() - 4]
        );
    }

    #[test]
    fn the_key_names_the_film_wanted() {
        let film = FilmMap::bare(60, 40, 5e-3, 5e-3);
        let svg =
            map_svg("a <top>", &film, Some(Wanted { low: 20e-6, high: 35e-6 }), 600.0).expect("a drawing");
        assert!(svg.contains("a &lt;top&gt;") && svg.contains(">20<") && svg.contains(">35<"), "{svg}");
        assert!(map_svg("none", &FilmMap::bare(0, 0, 1.0, 1.0), None, 600.0).is_none());
    }
}
