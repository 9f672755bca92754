use super::*;
use crate::task::Task;

fn ready() -> FromWorker {
    FromWorker::Ready { version: "0.1.0".into() }
}

fn done(run: RunId) -> FromWorker {
    FromWorker::Done { run, report: "{}".into(), digest: 7, sheets: "[]".into(), film: Film::default() }
}

fn job(text: &str) -> Work {
    Work::Job(text.into())
}

fn begin(run: RunId, text: &str) -> Vec<Order> {
    started(run, job(text))
}

fn started(run: RunId, work: Work) -> Vec<Order> {
    // A word of progress follows the start and asks for one more.
    let asked = if matches!(work, Work::Job(_)) { 3 } else { 1 };
    let mut orders = vec![Order::Send(ToWorker::Start { run, work })];
    orders.extend((0..asked).map(|_| Order::Send(ToWorker::Continue { run })));
    orders
}

/// A queue whose worker is ready, with job "a" flying as run 1.
fn flying() -> Queue {
    let mut queue = Queue::default();
    queue.heard(ready());
    assert_eq!(queue.add(job("a")), (1, Step { orders: begin(1, "a"), news: vec![] }));
    queue
}

#[test]
fn nothing_is_sent_before_the_worker_listens() {
    let mut queue = Queue::default();
    assert_eq!(queue.add(job("a")).1, Step::default());
    assert_eq!(queue.add(job("b")).1, Step::default());
    assert_eq!(queue.heard(ready()).orders, begin(1, "a"));
    assert_eq!(queue.heard(done(1)).orders, begin(2, "b"));
    assert!(!queue.is_idle());
    assert_eq!(queue.heard(done(2)).orders, []);
    assert!(queue.is_idle());
}

#[test]
fn each_word_of_progress_asks_for_one_chunk() {
    let mut queue = flying();
    let step = queue.heard(FromWorker::Progress { run: 1, done: 5, total: 9 });
    assert_eq!(step.orders, [Order::Send(ToWorker::Continue { run: 1 })]);
    assert_eq!(step.news, [News::Progress { run: 1, done: 5, total: 9 }]);
}

#[test]
fn a_dropped_run_is_not_shown_and_the_next_starts_at_once() {
    let mut queue = flying();
    queue.add(job("b"));
    let mut expected = vec![Order::Send(ToWorker::Cancel { run: 1 })];
    expected.extend(begin(2, "b"));
    assert_eq!(queue.cancel(1).orders, expected);
    assert_eq!(queue.heard(FromWorker::Progress { run: 1, done: 5, total: 9 }), Step::default());
    assert_eq!(queue.heard(done(1)), Step::default());
    assert_eq!(queue.cancel(1), Step::default());
    assert_eq!(queue.clear().orders, [Order::Send(ToWorker::Cancel { run: 2 })]);
    assert!(queue.is_idle());
}

#[test]
fn a_dead_worker_is_replaced_and_its_run_flown_again() {
    let mut queue = flying();
    let step = queue.died("out of memory");
    assert_eq!(step, Step { orders: vec![Order::Replace], news: vec![News::Restarted { run: 1 }] });
    assert_eq!(queue.heard(ready()).orders, begin(1, "a"));
    assert_eq!(queue.heard(done(1)).news.len(), 1);
}

#[test]
fn a_run_that_kills_every_worker_is_given_up() {
    let mut queue = flying();
    queue.add(job("b"));
    for _ in 0..RESTARTS {
        queue.died("x");
        queue.heard(ready());
    }
    let step = queue.died("x");
    assert_eq!(step.orders, [Order::Replace]);
    let [News::GivenUp { run: 1, work, message }] = step.news.as_slice() else { panic!("{step:?}") };
    assert_eq!((work, message.as_str()), (&job("a"), "the worker stopped 3 times, the last time with: x"));
    assert_eq!(queue.heard(ready()).orders, begin(2, "b"));
}

#[test]
fn a_panic_gives_the_run_up_with_its_job() {
    let mut queue = flying();
    let step = queue.heard(FromWorker::Panicked { message: "index 3".into() });
    assert_eq!(step.orders, [Order::Replace]);
    assert_eq!(step.news, [News::GivenUp { run: 1, work: job("a"), message: "index 3".into() }]);
    assert_eq!(queue.heard(ready()), Step::default());
}

#[test]
fn a_silent_worker_counts_as_dead_only_while_something_flies() {
    let mut queue = flying();
    for _ in 1..SILENT_TICKS {
        assert_eq!(queue.tick(), Step::default());
    }
    queue.heard(FromWorker::Progress { run: 1, done: 1, total: 9 });
    for _ in 1..SILENT_TICKS {
        assert_eq!(queue.tick(), Step::default());
    }
    assert_eq!(queue.tick().orders, [Order::Replace]);
    queue.heard(ready());
    queue.heard(done(1));
    for _ in 0..3 * SILENT_TICKS {
        assert_eq!(queue.tick(), Step::default());
    }
}

#[test]
fn a_worker_that_never_starts_ends_in_words() {
    let mut queue = Queue::default();
    queue.add(job("a"));
    let news: Vec<News> = (0..SILENT_TICKS * (RESTARTS + 1)).flat_map(|_| queue.tick().news).collect();
    assert_eq!(news.len() as u32, RESTARTS + 1);
    assert!(matches!(news.last(), Some(News::GivenUp { run: 1, .. })), "{news:?}");
}

#[test]
fn a_worker_that_dies_idle_is_replaced_when_there_is_work() {
    let mut queue = Queue::default();
    queue.heard(ready());
    assert_eq!(queue.died("x"), Step::default());
    assert_eq!(queue.died("x"), Step::default());
    assert_eq!(queue.add(job("a")).1.orders, [Order::Replace]);
    assert_eq!(queue.heard(ready()).orders, begin(1, "a"));
}

#[test]
fn a_sleeping_worker_is_started_by_the_first_task_and_starts_it_again_after_it_died() {
    let task = || Work::Task(Task::Count { to: 9 });
    let mut queue = Queue::asleep();
    assert_eq!(queue.tick(), Step::default());
    assert_eq!(queue.add(task()), (1, Step { orders: vec![Order::Replace], news: vec![] }));
    assert_eq!(queue.heard(ready()).orders, started(1, task()));
    let partial = || FromWorker::Partial { run: 1, answer: "3".into() };
    assert_eq!(queue.heard(partial()).news, [News::Partial { run: 1, answer: "3".into() }]);
    assert_eq!(queue.died("x").news, [News::Restarted { run: 1 }]);
    assert_eq!(queue.heard(ready()).orders, started(1, task()));
    let answered = FromWorker::Answered { run: 1, answer: "9".into() };
    assert_eq!(queue.heard(answered).news, [News::Answered { run: 1, answer: "9".into() }]);
    assert!(queue.is_idle());
    // Its worker is kept for the next.
    assert_eq!(queue.add(task()).1.orders, started(2, task()));
    assert_eq!(queue.cancel(2).orders, [Order::Send(ToWorker::Cancel { run: 2 })]);
    assert_eq!(queue.heard(partial()), Step::default());
}

#[test]
fn a_task_is_told_more_and_may_rest_in_silence() {
    let mut queue = Queue::asleep();
    assert_eq!(queue.tell(1, vec![1.0]), Step::default());
    let task = Work::Task(Task::Count { to: 9 });
    assert_eq!(queue.add(task.clone()).0, 1);
    assert_eq!(queue.tell(1, vec![1.0]), Step::default(), "its worker does not listen yet");
    assert_eq!(queue.heard(ready()).orders, started(1, task));
    let told = || Order::Send(ToWorker::Tell { run: 1, numbers: vec![2.0] });
    assert_eq!(queue.tell(1, vec![2.0]).orders, [told()]);
    assert_eq!(queue.tell(2, vec![2.0]), Step::default());
    let rests = || FromWorker::Rests { run: 1 };
    assert_eq!(queue.heard(rests()), Step { orders: vec![], news: vec![News::Rests { run: 1 }] });
    for _ in 0..3 * SILENT_TICKS {
        assert_eq!(queue.tick(), Step::default());
    }
    // Told more it must answer.
    assert_eq!(queue.tell(1, vec![2.0]).orders, [told()]);
    for _ in 1..SILENT_TICKS {
        assert_eq!(queue.tick(), Step::default());
    }
    assert_eq!(queue.tick().orders, [Order::Replace]);
}
