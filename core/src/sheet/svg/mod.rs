//! The sheet as one page of SVG: A4 for metric units, US Letter for US ones. Lengths are mm on paper.

mod code;
mod gun;
mod scene;

use self::code::{CODE, square_code};
use super::{Block, SetUpSheet};
use crate::report::chart::svg::{escape, group, line, n};

/// Margin of the page [mm].
const MARGIN: f64 = 12.0;
/// Left third: the gun, what the hand holds, the data sheet [mm].
const LEFT: f64 = 64.0;
/// Space between the columns [mm].
const GUTTER: f64 = 6.0;
/// Width of a letter over the size of its type [-], of the work typeface: a little more than its mean, so that lines fit.
const LETTER: f64 = 0.48;
/// Fractions of a turn as one sign each.
const FRACTIONS: [(&str, char); 7] =
    [("1/8", '⅛'), ("1/4", '¼'), ("3/8", '⅜'), ("1/2", '½'), ("5/8", '⅝'), ("3/4", '¾'), ("7/8", '⅞')];
/// Steps of the type's size that are tried, largest first; the last is taken in any case.
const SIZES: [f64; 8] = [1.0, 0.95, 0.9, 0.85, 0.8, 0.75, 0.7, 0.65];

const STYLE: &str = include_str!("sheet.css");

/// A page under way: pieces, and how far down it is used.
struct Page {
    out: String,
}

/// Mean width of a letter over its size [-].
fn letter(class: &str) -> f64 {
    match class {
        "voice" => 0.45,
        "strong" => 0.53,
        _ => LETTER,
    }
}

/// Words of which a figure and its unit are one; fractions as one sign.
fn words(said: &str) -> Vec<String> {
    let mut out: Vec<String> = Vec::new();
    for word in said.split_whitespace() {
        let after_figure = out.last().is_some_and(|last| last.ends_with(|c: char| c.is_ascii_digit()));
        let word = &match word.trim_end_matches([',', ';', '.', ':']) {
            "um" => word.replacen("um", "µm", 1),
            "C" | "F" if after_figure => format!("°{word}"),
            _ => word.to_string(),
        };
        let fraction = FRACTIONS.iter().find(|f| f.0 == word).map(|f| f.1);
        match (out.last_mut(), fraction) {
            (Some(last), Some(sign)) if after_figure => last.push(sign),
            (_, Some(sign)) => out.push(sign.into()),
            (Some(last), None)
                if after_figure
                    && word.len() <= 6
                    && word.starts_with(|c: char| c.is_alphabetic() || c == '°') =>
            {
                last.push('\u{a0}');
                last.push_str(word);
            }
            _ => out.push(word.into()),
        }
    }
    out
}

/// Words broken into lines of at most `width` [mm] at a type size [mm].
fn wrap(said: &str, class: &str, size: f64, width: f64) -> Vec<String> {
    let most = ((width / (size * letter(class))) as usize).max(8);
    let mut lines: Vec<String> = Vec::new();
    for word in words(said) {
        match lines.last_mut() {
            Some(last) if last.chars().count() + 1 + word.chars().count() <= most => {
                last.push(' ');
                last.push_str(&word);
            }
            _ => lines.push(word),
        }
    }
    lines
}

impl Page {
    fn say(&mut self, class: &str, (x, y): (f64, f64), size: f64, words: &str) {
        self.out += &format!(
            r#"<text class="{class}" x="{}" y="{}" font-size="{}">{}</text>"#,
            n(x),
            n(y),
            n(size),
            escape(words)
        );
    }

    /// Wrapped words from `y` down; where the next line goes.
    fn paragraph(&mut self, class: &str, (x, y): (f64, f64), size: f64, width: f64, words: &str) -> f64 {
        let mut at = y;
        for said in wrap(words, class, size, width) {
            self.say(class, (x, at), size, &said);
            at += 1.25 * size;
        }
        at
    }

    /// A block from `y` down, at a share of the full type size; where the next goes.
    fn block(&mut self, block: &Block, (x, y): (f64, f64), width: f64, s: f64, narrow: bool) -> f64 {
        let (body, small) = (if narrow { 3.3 } else { 4.1 } * s, 3.0 * s);
        let heading = 4.8 * s;
        let mut at = y + heading;
        self.say("voice", (x, at), heading, &block.heading);
        self.out += &line("rule", (x, at + 1.2 * s), (x + width, at + 1.2 * s));
        at += 1.2 * s + 1.3 * body;
        // What every line would say stands once, under the heading.
        let same = block.lines.first().map(|one| one.note.as_str()).unwrap_or_default();
        let same =
            if block.lines.len() > 1 && block.lines.iter().all(|one| one.note == same) { same } else { "" };
        if !same.is_empty() {
            at = self.paragraph("quiet", (x, at), small, width, same) + 0.4 * small;
        }
        let indent = if narrow { 0.0 } else { 33.0 * s };
        for one in &block.lines {
            if narrow {
                self.say("quiet", (x, at), small, &one.what);
                at += 1.15 * body;
            } else {
                self.say("quiet", (x, at), 3.5 * s, &one.what);
            }
            let room = width - indent;
            let mut said = wrap(&one.value, "strong", body, room);
            let last = said.pop().unwrap_or_default();
            for piece in &said {
                self.say("strong", (x + indent, at), body, piece);
                at += 1.2 * body;
            }
            self.say("strong", (x + indent, at), body, &last);
            let used = last.chars().count() as f64 * body * letter("strong") + 2.0 * s;
            if !one.note.is_empty() && one.note != same {
                let beside = one.note.chars().count() as f64 * small * LETTER;
                if used + beside <= room {
                    self.say("quiet", (x + indent + used, at), small, &words(&one.note).join(" "));
                } else {
                    at = self.paragraph("quiet", (x + indent, at + 1.2 * small), small, room, &one.note)
                        - 1.25 * small;
                }
            }
            at += 1.3 * body;
        }
        at
    }
}

/// The sheet as an SVG file of one page; the job file and its link lie in its metadata, and where the
/// `address` is given under which the job opens, it stands on the page as a square code.
#[must_use]
pub fn svg(sheet: &SetUpSheet, address: Option<&str>) -> String {
    let (wide, high) = if sheet.us { (215.9, 279.4) } else { (210.0, 297.0) };
    let width = wide - 2.0 * MARGIN;
    // The foot is laid first: what is left is the columns'.
    let mut foot = Page { out: String::new() };
    let mut notes: Vec<(&str, String)> =
        sheet.notes.iter().map(|s| ("strong", format!("Note: {s}."))).collect();
    notes.extend(sheet.cautions.iter().map(|s| ("quiet", s.clone())));
    let lines: usize = notes.iter().map(|(class, s)| wrap(s, class, 2.9, width).len()).sum();
    let top_of_foot = high - MARGIN - 1.25 * 2.9 * lines as f64 - 0.5 * notes.len() as f64;
    let mut at = top_of_foot + 2.9;
    for (class, said) in &notes {
        at = foot.paragraph(class, (MARGIN, at), 2.9, width, said) + 0.5;
    }
    let mut head = Page { out: String::new() };
    let title = wrap(&sheet.title, "voice", 8.0, width).into_iter().next().unwrap_or_default();
    head.say("voice", (MARGIN, MARGIN + 7.0), 8.0, &title);
    let mut at = head.paragraph("quiet", (MARGIN, MARGIN + 13.0), 3.6, width, &sheet.about) + 1.0;
    head.out += &line("rule", (MARGIN, at - 3.0), (wide - MARGIN, at - 3.0));
    let code = address.and_then(square_code);
    let beside = if code.is_some() { width - CODE - 4.0 } else { width };
    let below = code.map_or(0.0, |code| {
        head.out += &group(&format!("translate({} {})", n(wide - MARGIN - CODE), n(at - 1.0)), &code);
        at + CODE
    });
    at = head.paragraph("voice", (MARGIN, at + 2.5), 4.8, beside, &sheet.sentence).max(below);
    let (right, across) = (MARGIN + LEFT + GUTTER, width - LEFT - GUTTER);
    let mut body = Page { out: String::new() };
    for size in SIZES {
        body.out.clear();
        let mut left = gun::drawn(&mut body, sheet, (MARGIN, at), size);
        let (picture, below) = scene::drawn(sheet, (MARGIN, left + 3.0));
        body.out += &picture;
        left = below;
        let mut down = at - 2.0;
        for (i, block) in sheet.blocks.iter().enumerate() {
            if i + 1 == sheet.blocks.len() {
                left = body.block(block, (MARGIN, left + 1.0), LEFT, size, true);
            } else {
                down = body.block(block, (right, down + 2.5 * size), across, size, false);
            }
        }
        if left.max(down) <= top_of_foot + 2.0 {
            break;
        }
    }
    let link = sheet.link.as_deref().unwrap_or_default();
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{w}mm\" height=\"{h}mm\" viewBox=\"0 0 {w} {h}\" role=\"img\" \
         aria-label=\"{label}\">\n<title>{label}</title>\n<metadata>\n<job xmlns=\"\">{job}</job>\n<link xmlns=\"\">#job={link}</link>\n\
         </metadata>\n<style>\n{STYLE}</style>\n<rect width=\"{w}\" height=\"{h}\" fill=\"#FFFFFF\"/>\n{}\n{}\n{}\n{}\n</svg>\n",
        head.out,
        body.out,
        line("hair", (MARGIN, top_of_foot - 1.5), (wide - MARGIN, top_of_foot - 1.5)),
        foot.out,
        w = n(wide),
        h = n(high),
        label = escape(&format!("Set-up sheet: {}", sheet.title)),
        job = escape(&sheet.job),
    )
}
