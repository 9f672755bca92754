//! The set-up sheet's words. What stands on the sheet itself is the library's.

/// Words of the view.
#[derive(Debug, Clone, Copy)]
pub struct SheetWords {
    /// Its name.
    pub view: &'static str,
    /// Prints it.
    pub print: &'static str,
    /// The picture as a file.
    pub svg: &'static str,
    /// Name of that file.
    pub svg_name: &'static str,
    /// The job as a file.
    pub save: &'static str,
    /// Name of that file.
    pub job_name: &'static str,
    /// Opens a job file.
    pub open: &'static str,
    /// A file is longer than any job.
    pub too_long: &'static str,
    /// A file is no text.
    pub unreadable: &'static str,
    /// While the run is under way.
    pub flying: &'static str,
    /// The run was stopped.
    pub stopped: &'static str,
    /// The list's heading.
    pub list: &'static str,
    /// The picture says the same.
    pub same_as_list: &'static str,
    /// Heading of the knobs.
    pub knobs: &'static str,
}

/// English.
pub const ENGLISH: SheetWords = SheetWords {
    view: "Set-up sheet",
    print: "Print the sheet",
    svg: "Save the sheet (SVG)",
    svg_name: "set-up-sheet.svg",
    save: "Save the job",
    job_name: "job.toml",
    open: "Open a job",
    too_long: "too long to be a job: at most 2 MiB",
    unreadable: "this is no text file",
    flying: "Spraying, {} of 100: the sheet shown is of the job before.",
    stopped: "Stopped: the sheet shown is of the job before.",
    list: "The same as a list",
    same_as_list: "The list says the same.",
    knobs: "Knobs, in this order",
};
