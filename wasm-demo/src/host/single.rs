//! The whole page in one file that opens from disk.
//!
//! The scripts stand in the page and are allowed by their hashes; the wasm is gzipped text beside them; the worker is
//! made from the same script through a `blob:` address, since a page from disk may load no second file.

use std::fs;
use std::path::Path;

use anyhow::{Context, Result, bail, ensure};
use base64::{Engine as _, engine::general_purpose::STANDARD as BASE64};
use sha2::{Digest, Sha256};

use super::build::{self, NAME, Script};
use super::size::gzip;

/// Starts the page from the texts that stand beside it.
const BOOT: &str = include_str!("single.js");

/// Builds the page and writes it to `path`.
///
/// # Errors
/// When the page does not compile or the file cannot be written.
pub fn write(path: &Path) -> Result<()> {
    let wasm = build::compile()?;
    let folder = build::target_folder().join("single");
    build::bind(&wasm, &folder, Script::Plain)?;
    let script = fs::read_to_string(folder.join(NAME).with_extension("js"))?;
    let wasm = fs::read(folder.join(format!("{NAME}_bg.wasm")))?;
    let html = fs::read_to_string(build::static_folder().join("index.html"))?;
    let page = join(&html, &script, &wasm, |name| {
        let path = build::static_folder().join(name);
        fs::read_to_string(&path).with_context(|| format!("{}: cannot be read", path.display()))
    })?;
    fs::write(path, page).with_context(|| format!("{}: cannot be written", path.display()))
}

/// Joins the page's parts; `style` gives the text of a style sheet by its name.
fn join(html: &str, script: &str, wasm: &[u8], style: impl Fn(&str) -> Result<String>) -> Result<String> {
    let html = html.replace("\r\n", "\n");
    let script = script.replace("\r\n", "\n");
    let boot = BOOT.replace("\r\n", "\n");
    for text in [script.as_str(), boot.as_str()] {
        ensure!(
            !text.to_ascii_lowercase().contains("</script"),
            "a script of the page holds its own end tag"
        );
    }
    let mut style_hashes = String::new();
    let mut page = String::new();
    for line in html.lines() {
        if let Some(name) = between(line, "<link rel=\"stylesheet\" href=\"", "\"") {
            let text = style(name)?.replace("\r\n", "\n");
            ensure!(!text.to_ascii_lowercase().contains("</style"), "{name} holds its own end tag");
            style_hashes.push_str(&format!(" {}", source_hash(&text)));
            page.push_str(&format!("<style>{text}</style>\n"));
        } else if line.contains("<script") {
            ensure!(
                line.contains("src=\"boot.js\""),
                "index.html holds a script that the single file does not know"
            );
        } else {
            page.push_str(line);
            page.push('\n');
        }
    }
    let policy = format!(
        "default-src 'none'; script-src 'wasm-unsafe-eval' {} {}; worker-src blob:; style-src{style_hashes}; \
         img-src data: blob:; base-uri 'none'; form-action 'none'",
        source_hash(&script),
        source_hash(&boot),
    );
    let Some((head, rest)) = page.split_once("<meta charset=\"utf-8\">\n") else {
        bail!("index.html has no <meta charset=\"utf-8\"> line");
    };
    let Some((body, end)) = rest.split_once("</body>") else {
        bail!("index.html has no </body>");
    };
    let wasm = BASE64.encode(gzip(wasm)?);
    Ok(format!(
        "{head}<meta charset=\"utf-8\">\n<meta http-equiv=\"Content-Security-Policy\" content=\"{policy}\">\n{body}\
         <script id=\"page-wasm\" type=\"text/plain\">{wasm}</script>\n\
         <script id=\"page-script\">{script}</script>\n\
         <script>{boot}</script>\n</body>{end}"
    ))
}

fn source_hash(text: &str) -> String {
    format!("'sha256-{}'", BASE64.encode(Sha256::digest(text)))
}

fn between<'a>(line: &'a str, start: &str, end: &str) -> Option<&'a str> {
    line.split_once(start)?.1.split_once(end).map(|(found, _)| found)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_page_asks_for_no_other_file() {
        let html = fs::read_to_string(build::static_folder().join("index.html")).expect("reads");
        let page =
            join(&html, "let wasm_bindgen;", b"\0asm", |_| Ok("p { margin: 0 }".into())).expect("joins");
        assert!(!page.contains("src=\"") && !page.contains("stylesheet"), "{page}");
        assert!(page.contains("<style>p { margin: 0 }</style>"));
        assert!(page.contains(&format!("style-src {}", source_hash("p { margin: 0 }"))));
        assert!(page.contains(&source_hash("let wasm_bindgen;")));
    }

    #[test]
    fn the_hash_is_the_one_browsers_compute() {
        // Computed with `openssl dgst -sha256 -binary | base64`.
        assert_eq!(source_hash("alert(1)"), "'sha256-bhHHL3z2vDgxUt0W3dWQOrprscmda2Y5pLsLg4GF+pI='");
    }

    #[test]
    fn an_end_tag_inside_a_script_is_refused() {
        assert!(join("<html>", "'</SCRIPT>'", b"", |_| Ok(String::new())).is_err());
    }
}
