use std::cell::Cell;

use super::*;
use crate::task::Task;

/// A run whose digest depends on every droplet and on their order: each is one step of FNV-1a.
struct Count {
    done: u64,
    total: u64,
    digest: u64,
}

impl Flight for Count {
    fn start(job: &str) -> Result<Self, Refusal> {
        let total = job
            .parse()
            .map_err(|_| Refusal { key: Some("run.droplets".into()), message: "not a number".into() })?;
        Ok(Self { done: 0, total, digest: 0xcbf2_9ce4_8422_2325 })
    }

    fn advance(&mut self, most: u64) -> bool {
        for _ in 0..most.min(self.total - self.done) {
            self.digest = (self.digest ^ self.done).wrapping_mul(0x0100_0000_01b3);
            self.done += 1;
        }
        self.done == self.total
    }

    fn progress(&self) -> (u64, u64) {
        (self.done, self.total)
    }

    fn film(&self) -> Film {
        Film { columns: 1, rows: 1, values: vec![self.done as f32], ..Film::default() }
    }

    fn report(&self) -> Result<String, Refusal> {
        Ok(format!("{{\"droplets\":{}}}", self.done))
    }

    fn sheets(&self) -> String {
        "[]".into()
    }

    fn digest(&self) -> u64 {
        self.digest
    }
}

/// A task that counts in pieces of ten; each piece takes the time that the test's clock gives it.
struct Tally {
    done: u64,
    to: u64,
    told: u64,
    rests: bool,
}

impl LongTask for Tally {
    fn start(task: &Task) -> Result<Self, Refusal> {
        let Task::Count { to } = *task else { unreachable!("only counts are given") };
        let told = Refusal { key: Some("to".into()), message: "nothing to count".into() };
        if to > 0 { Ok(Self { done: 0, to, told: 0, rests: false }) } else { Err(told) }
    }

    fn advance(&mut self, time_left: &mut dyn FnMut() -> bool) -> bool {
        loop {
            self.done = self.to.min(self.done + 10);
            if self.done == self.to || !time_left() {
                return self.done == self.to;
            }
        }
    }

    fn progress(&self) -> (u64, u64) {
        (self.done, self.to)
    }

    fn partial(&mut self) -> Option<String> {
        let hundreds = self.done / 1000;
        (hundreds > self.told).then(|| {
            self.told = hundreds;
            format!("{hundreds}")
        })
    }

    fn answer(&mut self) -> Result<String, Refusal> {
        Ok(format!("{}", self.done))
    }

    /// A number below 0 lets it rest, any other wakes it.
    fn hear(&mut self, numbers: &[f64]) {
        self.rests = numbers.iter().any(|&n| n < 0.0);
    }

    fn rests(&self) -> bool {
        self.rests
    }

    fn film(&mut self) -> Option<Film> {
        Some(Film { columns: 1, rows: 1, values: vec![self.done as f32], ..Film::default() })
    }
}

/// Flies to the end at a speed in droplets per millisecond; the answers, and the longest time between two of them.
fn fly(job: &str, speed: f64) -> (Vec<FromWorker>, f64) {
    let mut desk = Desk::<Count, Tally>::default();
    let now = Cell::new(0.0);
    let mut answers = Vec::new();
    desk.take(
        ToWorker::Start { run: 1, work: Work::Job(job.into()) },
        || now.get(),
        |answer| answers.push(answer),
    );
    let mut longest = 0.0_f64;
    while matches!(answers.last(), Some(FromWorker::Progress { .. })) {
        let calls = Cell::new(0);
        let droplets = desk.pace.droplets() as f64;
        let clock = || {
            // The second look at the clock comes after the chunk.
            calls.set(calls.get() + 1);
            now.get() + if calls.get() > 1 { droplets / speed } else { 0.0 }
        };
        desk.take(ToWorker::Continue { run: 1 }, clock, |answer| answers.push(answer));
        now.set(now.get() + droplets / speed);
        longest = longest.max(droplets / speed);
    }
    (answers, longest)
}

#[test]
fn a_chunk_keeps_its_bound_on_slow_and_fast_machines() {
    for speed in [10.0, 300.0, 5_000.0, 100_000.0] {
        let (answers, longest) = fly("2000000", speed);
        assert!(longest <= LONGEST_CHUNK, "{longest} ms at {speed} droplets/ms");
        assert!(matches!(answers.last(), Some(FromWorker::Done { .. })));
    }
}

#[test]
fn the_digest_does_not_depend_on_the_cuts() {
    let digest = |speed| match fly("300000", speed).0.pop() {
        Some(FromWorker::Done { digest, report, .. }) => (digest, report),
        other => panic!("{other:?}"),
    };
    assert_eq!(digest(10.0), digest(5_000.0));
    assert_eq!(digest(10.0).1, "{\"droplets\":300000}");
}

#[test]
fn pictures_come_on_the_way() {
    let (answers, _) = fly("100000", 100.0);
    let pictures = answers.iter().filter(|a| matches!(a, FromWorker::Picture { .. })).count();
    // A second of work, a picture every 120 ms rounded up to whole chunks.
    assert!((5..=8).contains(&pictures), "{pictures}");
}

#[test]
fn pictures_that_take_long_come_less_often() {
    let mut pictures = Pictures::default();
    pictures.start(1000.0);
    assert_eq!(pictures.due, 1000.0 + FIRST_PICTURE);
    pictures.made(1100.0, 1110.0);
    assert_eq!(pictures.due, 1110.0 + PICTURE_EVERY);
    pictures.made(2000.0, 2060.0);
    assert_eq!(pictures.due, 2360.0);
}

#[test]
fn a_bad_job_is_refused_by_its_key() {
    let (answers, _) = fly("many", 100.0);
    let expected =
        FromWorker::Refused { run: 1, key: Some("run.droplets".into()), message: "not a number".into() };
    assert_eq!(answers, [expected]);
}

#[test]
fn a_dropped_run_says_no_more() {
    let mut desk = Desk::<Count, Tally>::default();
    let mut answers = Vec::new();
    for message in [
        ToWorker::Start { run: 1, work: Work::Job("1000000".into()) },
        ToWorker::Cancel { run: 1 },
        ToWorker::Continue { run: 1 },
        ToWorker::Start { run: 2, work: Work::Job("1000000".into()) },
        ToWorker::Cancel { run: 1 },
        ToWorker::Continue { run: 1 },
        ToWorker::Continue { run: 2 },
    ] {
        desk.take(message, || 0.0, |answer| answers.push(answer));
    }
    let progress = |run, done| FromWorker::Progress { run, done, total: 1_000_000 };
    assert_eq!(answers, [progress(1, 0), progress(2, 0), progress(2, FIRST_CHUNK)]);
}

#[test]
fn a_task_is_done_in_short_chunks_and_tells_what_it_knows() {
    let mut desk = Desk::<Count, Tally>::default();
    // A look at the clock for each piece of ten: 4 ms.
    let now = Cell::new(0.0);
    let clock = || {
        now.set(now.get() + 4.0);
        now.get()
    };
    let mut answers = Vec::new();
    let work = Work::Task(Task::Count { to: 4505 });
    desk.take(ToWorker::Start { run: 1, work }, clock, |answer| answers.push(answer));
    let (mut longest, mut chunks) = (0.0_f64, 0);
    while !matches!(answers.last(), Some(FromWorker::Answered { .. })) {
        let before = now.get();
        desk.take(ToWorker::Continue { run: 1 }, clock, |answer| answers.push(answer));
        (longest, chunks) = (longest.max(now.get() - before), chunks + 1);
    }
    assert!(longest <= LONGEST_CHUNK, "{longest} ms");
    assert!(chunks > 50, "{chunks}");
    assert_eq!(answers.last(), Some(&FromWorker::Answered { run: 1, answer: "4505".into() }));
    let told: Vec<_> = answers
        .iter()
        .filter_map(|a| if let FromWorker::Partial { answer, .. } = a { Some(answer.as_str()) } else { None })
        .collect();
    assert_eq!(told, ["1", "2", "3", "4"]);
}

#[test]
fn a_task_is_refused_or_dropped_like_a_run() {
    let mut desk = Desk::<Count, Tally>::default();
    let mut answers = Vec::new();
    let count = |run, to| ToWorker::Start { run, work: Work::Task(Task::Count { to }) };
    for message in [
        count(1, 0),
        count(2, 50),
        ToWorker::Cancel { run: 2 },
        ToWorker::Continue { run: 2 },
        count(3, 50),
        ToWorker::Start { run: 4, work: Work::Job("1000000".into()) },
        ToWorker::Continue { run: 3 },
    ] {
        desk.take(message, || 0.0, |answer| answers.push(answer));
    }
    let progress = |run, total| FromWorker::Progress { run, done: 0, total };
    let why = FromWorker::Refused { run: 1, key: Some("to".into()), message: "nothing to count".into() };
    assert_eq!(answers, [why, progress(2, 50), progress(3, 50), progress(4, 1_000_000)]);
}

#[test]
fn a_task_is_heard_between_its_chunks_and_rests() {
    let mut desk = Desk::<Count, Tally>::default();
    let mut take = |message| {
        let mut answers = Vec::new();
        desk.take(message, || 0.0, |answer| answers.push(answer));
        answers
    };
    let tell = |run, number| ToWorker::Tell { run, numbers: vec![number] };
    assert_eq!(take(tell(1, 0.0)), []);
    take(ToWorker::Start { run: 1, work: Work::Task(Task::Count { to: 100 }) });
    assert_eq!(take(tell(2, 0.0)), [], "another run's");
    // A word of progress is under way already.
    assert!(matches!(take(tell(1, 0.0))[..], [FromWorker::Picture { run: 1, .. }]));
    let rests = FromWorker::Rests { run: 1 };
    assert_eq!(take(tell(1, -1.0)).last(), Some(&rests));
    assert_eq!(take(tell(1, -1.0)).last(), Some(&rests));
    assert!(matches!(take(tell(1, 1.0)).last(), Some(FromWorker::Progress { run: 1, .. })));
}
