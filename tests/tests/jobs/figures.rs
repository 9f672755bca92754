//! The pictures and the report in the docs are what the model gives today.

use mistcoat::job::Job;
use mistcoat::run::Run;
use std::sync::OnceLock;

#[path = "../../../core/examples/draw_figures/figures.rs"]
mod drawn;

#[test]
fn pictures_are_not_stale() {
    for (name, svg) in drawn::all().unwrap_or_else(|error| panic!("{error}")) {
        let committed = crate::text_of(&format!("docs/figures/{name}"));
        let differs = committed.lines().zip(svg.lines()).find(|(a, b)| a != b);
        let short = |line: &str| line.chars().take(300).collect::<String>();
        assert!(
            committed == svg,
            "docs/figures/{name} is stale: run the example draw_figures.\n{:?}",
            differs.map(|(a, b)| (short(a), short(b)))
        );
    }
}

fn table_top() -> &'static str {
    static REPORT: OnceLock<String> = OnceLock::new();
    REPORT.get_or_init(|| {
        let job = Job::from_toml(&crate::text_of("core/examples/jobs/table-top.toml")).expect("a good job");
        let mut run = Run::new(job).expect("it can be sprayed");
        run.finish();
        run.report().expect("finite figures").to_json()
    })
}

#[test]
fn docs_show_the_report_as_it_is() {
    let (docs, report) = (crate::text_of("docs/job-file.md"), table_top());
    assert!(
        docs.contains(&format!("```json\n{report}\n```")),
        "docs/job-file.md shows an old report; now it is\n{report}"
    );
}

/// Every key of the report has its row.
#[test]
fn docs_list_every_key_of_the_report() {
    fn walk(value: &serde_json::Value, path: &str, docs: &str) {
        match value.as_object().filter(|_| path != "standard_errors") {
            Some(table) => table.iter().for_each(|(key, v)| {
                walk(v, &if path.is_empty() { key.clone() } else { format!("{path}.{key}") }, docs);
            }),
            None => {
                assert!(docs.contains(&format!("\n| `{path}` |")), "docs/job-file.md has no row for {path}")
            }
        }
    }
    walk(&serde_json::from_str(table_top()).unwrap(), "", &crate::text_of("docs/job-file.md"));
}
