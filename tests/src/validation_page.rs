//! The rows that tests print (`table`), gathered into `docs/validation.md`.

use crate::table::MISS;
use std::collections::BTreeMap;
use std::fmt::Write;

/// Opens a part of the page that is written anew; a name follows, for rows the files whose rows stand there, for chosen ones the checks.
const OPEN: &str = "<!-- written: ";
/// Closes it.
const CLOSE: &str = "<!-- end of what is written -->";
const HEAD: &str =
    "| check | model | published | off | asked | source | where |\n|---|---|---|---|---|---|---|\n";

/// Values compared in one file: how many, the largest difference over what is allowed, and that difference.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
struct Count {
    values: u32,
    used: f64,
    off: f64,
    allowed: f64,
}

/// What the tests printed.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Gathered {
    rows: Vec<(String, String)>,
    counts: BTreeMap<String, Count>,
}

impl Gathered {
    /// Reads the rows from the tests' output; a row printed twice counts once.
    #[must_use]
    pub fn read(output: &str) -> Self {
        let mut all = Self::default();
        for line in output.lines() {
            if let Some(rest) = line.strip_prefix("~ ") {
                let cells: Vec<&str> = rest.split(" ~ ").collect();
                if let [file, off, allowed] = cells[..]
                    && let (Ok(off), Ok(allowed)) = (off.parse::<f64>(), allowed.parse::<f64>())
                {
                    let count = all.counts.entry(file.to_owned()).or_default();
                    count.values += 1;
                    let used = off.abs() / allowed;
                    if used >= count.used {
                        (count.used, count.off, count.allowed) = (used, off.abs(), allowed);
                    }
                }
                continue;
            }
            let cells: Vec<&str> = line.split(" | ").collect();
            if let (true, 7, Some(file)) = (line.starts_with("| "), cells.len(), cells.last()) {
                let row = (file.trim_matches(['`', ' ', '|']).to_owned(), line.to_owned());
                if !all.rows.contains(&row) {
                    all.rows.push(row);
                }
            }
        }
        all
    }

    fn table(&self, wanted: impl Fn(&str, bool) -> bool) -> String {
        let rows = self.rows.iter().filter(|(file, row)| wanted(file, row.contains(MISS)));
        rows.fold(HEAD.to_owned(), |mut text, (_, row)| {
            let _ = writeln!(text, "{row}");
            text
        })
    }

    /// Rows by the names of their checks, which stand elsewhere too.
    fn chosen(&self, names: &str) -> Result<String, String> {
        names.split("; ").try_fold(HEAD.to_owned(), |mut text, name| {
            let start = format!("| {name} | ");
            let (_, row) = self
                .rows
                .iter()
                .find(|(_, row)| row.starts_with(&start))
                .ok_or(format!("{name}: no such row"))?;
            let _ = writeln!(text, "{row}");
            Ok(text)
        })
    }

    fn counted(&self) -> String {
        let mut text =
            String::from("| file | values | largest difference | allowed there |\n|---|---|---|---|\n");
        for (file, count) in &self.counts {
            let _ =
                writeln!(text, "| `{file}` | {} | {:.1e} | {:.1e} |", count.values, count.off, count.allowed);
        }
        text
    }

    /// The page with every part that is written put in anew.
    ///
    /// # Errors
    /// A part without its end, one that is not known, or a file whose rows have no place.
    pub fn write_into(&self, page: &str, sensitivity: &str) -> Result<String, String> {
        let mut placed: Vec<&str> = Vec::new();
        let mut out = String::new();
        let mut rest = page;
        while let Some(at) = rest.find(OPEN) {
            let (before, part) = rest.split_at(at);
            let line = part.lines().next().unwrap_or_default();
            let name = line[OPEN.len()..].trim_end_matches("-->").trim();
            let end = part.find(CLOSE).ok_or_else(|| format!("{name}: no end"))?;
            let body = match name.split_once(": ") {
                Some(("rows", files)) => {
                    placed.extend(files.split(' '));
                    self.table(|file, missed| !missed && files.split(' ').any(|f| f == file))
                }
                Some(("chosen", names)) => self.chosen(names)?,
                None if name == "missed rows" => self.table(|_, missed| missed),
                None if name == "counted" => self.counted(),
                None if name == "sensitivity" => format!("{sensitivity}\n"),
                _ => return Err(format!("{name}: not known")),
            };
            let _ = write!(out, "{before}{line}\n{body}{CLOSE}");
            rest = &part[end + CLOSE.len()..];
        }
        out.push_str(rest);
        match self.rows.iter().find(|(file, row)| !row.contains(MISS) && !placed.contains(&file.as_str())) {
            Some((file, _)) => Err(format!("{file}: its rows have no place on the page")),
            None => Ok(out),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::{CLOSE, Gathered, HEAD, MISS};

    const ROW: &str = "| Cd | 1.0000 | 1.0000 | +0.00 % | within 5 % | a book | `drag.rs` |";

    fn page(name: &str) -> String {
        format!("before\n<!-- written: {name} -->\nold\n{CLOSE}\nafter\n")
    }

    #[test]
    fn rows_come_to_their_place() {
        let missed = ROW.replace("within 5 %", MISS);
        let printed =
            format!("test a ... \n{ROW}\n{missed}\nok\n~ drag.rs ~ -2e-3 ~ 1e-2\n~ drag.rs ~ 1e-3 ~ 1e-2\n");
        let all = Gathered::read(&printed);
        let rows = all.write_into(&page("rows: drag.rs"), "").expect("a page");
        assert_eq!(rows, format!("before\n<!-- written: rows: drag.rs -->\n{HEAD}{ROW}\n{CLOSE}\nafter\n"));
        let both = page("rows: drag.rs") + &page("missed rows") + &page("counted");
        let text = all.write_into(&both, "").expect("a page");
        assert!(text.contains(&missed) && text.contains("| `drag.rs` | 2 | 2.0e-3 | 1.0e-2 |"), "{text}");
        let chosen = all.write_into(&(page("rows: drag.rs") + &page("chosen: Cd")), "").expect("a page");
        assert_eq!(chosen.matches(ROW).count(), 2, "{chosen}");
    }

    #[test]
    fn what_has_no_place_is_told() {
        let all = Gathered::read(ROW);
        assert_eq!(
            all.write_into(&page("rows: jet.rs"), ""),
            Err("drag.rs: its rows have no place on the page".into())
        );
        assert_eq!(all.write_into(&page("weather"), ""), Err("weather: not known".into()));
        assert_eq!(all.write_into(&page("chosen: Cl"), ""), Err("Cl: no such row".into()));
        assert_eq!(all.write_into("<!-- written: counted -->\n", ""), Err("counted: no end".into()));
    }
}
