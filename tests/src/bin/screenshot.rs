//! Takes a picture of a page: `cargo screenshot URL OUT.png WIDTH [--height N] [--dark] [--full] [--wait SELECTOR]
//! [--do SCRIPT]`. A URL that starts with "/" is looked up in the built page.

use anyhow::{Context, Result, bail};
use mistcoat_page::host::serve::Server;
use mistcoat_tests::browser::{Browser, Screen, site};

fn main() -> Result<()> {
    let mut plain = Vec::new();
    let mut screen = Screen { width: 1280, height: 800, scale: 1.0, dark: false };
    let (mut full, mut wait, mut script) = (false, None, None);
    let mut arguments = std::env::args().skip(1);
    while let Some(argument) = arguments.next() {
        let mut value = || arguments.next().with_context(|| format!("{argument}: needs a value after it"));
        match argument.as_str() {
            "--dark" => screen.dark = true,
            "--full" => full = true,
            "--height" => screen.height = value()?.parse().context("--height: pixels")?,
            "--scale" => screen.scale = value()?.parse().context("--scale: device pixels per pixel")?,
            "--wait" => wait = Some(value()?),
            "--do" => script = Some(value()?),
            _ if argument.starts_with("--") => bail!("{argument}: not an option"),
            _ => plain.push(argument),
        }
    }
    let [url, out, width] = plain.as_slice() else {
        bail!(
            "usage: cargo screenshot URL OUT.png WIDTH [--height N] [--scale N] [--dark] [--full] [--wait SELECTOR] \
             [--do SCRIPT]"
        );
    };
    screen.width = width.parse().context("WIDTH: pixels")?;
    let server = if url.starts_with('/') { Some(Server::start_anywhere(&site())?) } else { None };
    let address = match &server {
        Some(server) => format!("{}{}", server.address(), url.trim_start_matches('/')),
        None => url.clone(),
    };
    let browser = Browser::start()?;
    let page = browser.tab()?;
    page.show_on(screen)?;
    page.go(&address)?;
    page.wait_for("main, .page-failed")?;
    if let Some(script) = script {
        page.value(&script)?;
    }
    if let Some(selector) = wait {
        page.wait_for(&selector)?;
    }
    std::fs::write(out, page.picture(full)?).with_context(|| format!("{out}: cannot be written"))?;
    for complaint in page.complaints() {
        eprintln!("console: {complaint}");
    }
    Ok(())
}
