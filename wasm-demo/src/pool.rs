//! Points of a sweep dealt out to several workers: the page's side, without a browser.
//!
//! A hand of points is what shares one flight; where there are fewer flights than workers, a long one is cut, and its droplets are
//! flown once in each worker. Which worker does what changes no digit: a point's streams are told by the seed and the droplet.

use std::collections::{BTreeMap, VecDeque};

use mistcoat::sweep::{Answer, Plan, Point};

/// Points of one flight that are worth flying it a second time.
const WORTH: usize = 6;

/// Who does what.
#[derive(Debug, Default)]
pub struct Pool {
    waiting: VecDeque<Vec<usize>>,
    /// What each worker has in hand.
    given: Vec<Option<Vec<usize>>>,
    done: BTreeMap<usize, Point>,
    wanted: usize,
}

impl Pool {
    /// Deals the points of a plan for so many workers.
    #[must_use]
    pub fn new(plan: &Plan, workers: usize) -> Self {
        let workers = workers.max(1);
        let mut hands = plan.flights(0..plan.len());
        while hands.len() < workers {
            let Some(longest) = hands.iter_mut().max_by_key(|hand| hand.len()) else { break };
            if longest.len() < 2 * WORTH {
                break;
            }
            let rest = longest.split_off(longest.len() / 2);
            hands.push(rest);
        }
        // Far apart first, so that a curve shows its shape early.
        let bits = usize::BITS - hands.len().leading_zeros();
        let mut order: Vec<usize> = (0..hands.len()).collect();
        order.sort_by_key(|i| if bits == 0 { 0 } else { i.reverse_bits() >> (usize::BITS - bits) });
        let mut hands: Vec<Option<Vec<usize>>> = hands.into_iter().map(Some).collect();
        let waiting = order.into_iter().filter_map(|i| hands[i].take()).collect();
        Self { waiting, given: vec![None; workers], done: BTreeMap::new(), wanted: plan.len() }
    }

    /// What this worker does next; none where nothing is left, or it is not done with what it has.
    pub fn next(&mut self, worker: usize) -> Option<Vec<usize>> {
        let place = self.given.get_mut(worker)?;
        if place.is_some() {
            return None;
        }
        *place = self.waiting.pop_front();
        place.clone()
    }

    /// Takes points that a worker tells.
    pub fn hear(&mut self, points: Vec<Point>) {
        self.done.extend(points.into_iter().map(|point| (point.number, point)));
    }

    /// A worker is done with what it had.
    pub fn over(&mut self, worker: usize) {
        if let Some(place) = self.given.get_mut(worker) {
            *place = None;
        }
    }

    /// Points done and wanted.
    #[must_use]
    pub fn progress(&self) -> (usize, usize) {
        (self.done.len(), self.wanted)
    }

    /// Nothing is left and no worker has anything in hand.
    #[must_use]
    pub fn is_over(&self) -> bool {
        self.waiting.is_empty() && self.given.iter().all(Option::is_none)
    }

    /// What is known by now.
    #[must_use]
    pub fn answer(&self, plan: &Plan) -> Answer {
        Answer {
            name: plan.name().into(),
            axes: plan.axes().to_vec(),
            columns: plan.columns().iter().map(|c| c.path.to_string()).collect(),
            points: self.done.values().cloned().collect(),
            complete: self.done.len() == self.wanted,
        }
    }
}

#[cfg(test)]
mod tests {
    use mistcoat::job::Job;
    use mistcoat::sweep::Axis;

    use super::*;
    use crate::task::sweeping::Sweeping;

    fn swept(workers: usize, axes: &[&str]) -> Answer {
        let text = crate::state::CHAIR_LEG.replace("600 mm", "100 mm") + "droplets = 1000\n";
        let axes: Vec<Axis> = axes.iter().map(|text| Axis::read(text).unwrap()).collect();
        let columns = ["transfer_efficiency.value", "film.cv_percent.value"];
        let plan = Plan::new(&Job::from_toml(&text).unwrap(), axes.clone(), &columns).unwrap();
        let columns = columns.map(String::from);
        let mut pool = Pool::new(&plan, workers);
        let mut working: Vec<Option<Sweeping>> = (0..workers).map(|_| None).collect();
        let mut turns = 0;
        while !pool.is_over() {
            turns += 1;
            for (worker, working) in working.iter_mut().enumerate() {
                if let Some(points) = pool.next(worker) {
                    let sweeping = Sweeping::start(&text, &axes, &columns, &points);
                    *working = Some(sweeping.unwrap_or_else(|e| panic!("{}", e.message)));
                }
                let Some(sweeping) = working.as_mut() else { continue };
                let mut looks = 0;
                // Each at its own pace.
                let over = sweeping.advance(&mut || {
                    looks += 1;
                    looks < worker + turns % 3
                });
                let told = if over { Some(sweeping.answer()) } else { sweeping.partial() };
                if let Some(json) = told {
                    pool.hear(serde_json::from_str(&json).unwrap());
                }
                if over {
                    *working = None;
                    pool.over(worker);
                }
            }
        }
        let (done, wanted) = pool.progress();
        assert_eq!(done, wanted);
        pool.answer(&plan)
    }

    #[test]
    fn one_worker_or_four_give_the_same_digits() {
        for axes in [&["gun.fan=0..1:3", "stroke.sides=1,2"][..], &["stroke.speed=300..900 mm/s:13"]] {
            let one = swept(1, axes);
            assert!(one.complete && one.points.iter().all(|p| p.figures[0].number().is_some()));
            assert_eq!(one, swept(4, axes), "{axes:?}");
        }
    }

    #[test]
    fn a_long_flight_is_shared_and_a_short_one_is_not() {
        let job = Job::from_toml(crate::state::CHAIR_LEG).unwrap();
        let plan = |axis| Plan::new(&job, vec![Axis::read(axis).unwrap()], &[]).unwrap();
        let long = Pool::new(&plan("stroke.speed=300..900 mm/s:25"), 4);
        assert_eq!(long.waiting.len(), 4);
        assert_eq!(Pool::new(&plan("stroke.speed=300..900 mm/s:5"), 4).waiting.len(), 1);
        let points = Pool::new(&plan("gun.fan=0..1:9"), 4);
        assert_eq!((points.waiting.len(), points.waiting[1][0]), (9, 8), "the far end comes second");
    }
}
