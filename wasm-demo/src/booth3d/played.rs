//! A run watched again: the gun's way, and what landed with each stretch of it.

use mistcoat::film::Face;

use super::way::{Leg, Spot, Way};

/// Numbers of a leg as it is sent.
pub const LEG: usize = 9;
/// Most numbers that are sent for it: a quarter of a second's worth of copying on a phone.
pub const MOST: usize = 1_500_000;

/// The way that goes with as many legs as there are numbers for.
#[must_use]
pub fn way_of(numbers: &[f32], deposits: usize) -> Way {
    let mut start = 0.0;
    let some = |v: f32| (v >= 0.0).then_some(v);
    let leg = |n: &[f32]| {
        let spot = |n: &[f32]| Spot { face: n[0] as usize, x: f64::from(n[1]), y: f64::from(n[2]) };
        let leg = Leg {
            start,
            seconds: f64::from(n[6]),
            ends: [spot(&n[..3]), spot(&n[3..6])],
            deposit: some(n[7]).map(|d| d as usize),
            wait: some(n[8]).map(f64::from),
        };
        start += leg.seconds;
        leg
    };
    Way { legs: numbers.chunks_exact(LEG).map(leg).collect(), deposits }
}

/// Way and film, stretch by stretch.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Played {
    /// The way.
    pub way: Way,
    /// Dry film that each stretch leaves on the faces' cells [m], in order of time.
    pub layers: Vec<Vec<f32>>,
}

impl Played {
    /// As numbers: legs, then layers.
    #[must_use]
    pub fn pack(&self) -> Vec<f32> {
        let mut out = Vec::new();
        for leg in &self.way.legs {
            let [a, b] = leg.ends;
            // A face and a deposit are small whole numbers, which f32 holds; -1 stands for none.
            let deposit = leg.deposit.map_or(-1.0, |d| d as f32);
            let wait = leg.wait.map_or(-1.0, |w| w as f32);
            out.extend([a.face as f32, a.x as f32, a.y as f32, b.face as f32, b.x as f32, b.y as f32]);
            out.extend([leg.seconds as f32, deposit, wait]);
        }
        out.extend(self.layers.iter().flatten());
        out
    }

    /// From numbers; none where they do not fit the counts.
    #[must_use]
    pub fn unpack(legs: usize, layers: usize, cells: usize, numbers: &[f32]) -> Option<Self> {
        let (head, rest) = numbers.split_at_checked(legs.checked_mul(LEG)?)?;
        if layers == 0 || cells == 0 || rest.len() != layers.checked_mul(cells)? {
            return None;
        }
        let layers = rest.chunks_exact(cells).map(<[f32]>::to_vec).collect::<Vec<_>>();
        Some(Self { way: way_of(head, layers.len()), layers })
    }

    /// The film at a moment as played [s]: what has landed, and of the stretch under way what the gun has passed; `reach` is
    /// the spray's size along the way [m].
    #[must_use]
    pub fn film(&self, time: f64, faces: &[Face], reach: f64) -> Vec<f32> {
        let cells = self.layers.first().map_or(0, Vec::len);
        let mut out = vec![0.0_f32; cells];
        let Some(now) = self.way.at(time) else { return out };
        for layer in self.layers.iter().take(now.landed) {
            out.iter_mut().zip(layer).for_each(|(sum, h)| *sum += h);
        }
        let Some(layer) = now.spraying.then(|| self.layers.get(now.landed)).flatten() else { return out };
        let reach = reach.max(1e-3);
        for face in faces {
            for column in 0..face.nx {
                let behind = now.heading * (now.spot.x - face.x(column)) / reach + 0.5;
                let share = if now.heading == 0.0 { now.share } else { behind.clamp(0.0, 1.0) } as f32;
                for row in 0..face.ny {
                    let cell = face.first + row * face.nx + column;
                    if let (Some(sum), Some(h)) = (out.get_mut(cell), layer.get(cell)) {
                        *sum += h * share;
                    }
                }
            }
        }
        out
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use mistcoat::film::FilmMap;
    use mistcoat::job::Job;
    use mistcoat::stroke::Strokes;

    fn played() -> (Played, Vec<Face>) {
        let job = Job::from_toml(crate::state::CHAIR_LEG).unwrap();
        let faces = FilmMap::over(mistcoat::run::faces(&job)).faces().to_vec();
        let way = Way::of(&Strokes::plan(&job.stroke, &job.part, 0.2), &job.stroke, &faces);
        let layers = (0..way.deposits).map(|d| vec![1e-6 * (d + 1) as f32; faces[0].len()]).collect();
        (Played { way, layers }, faces)
    }

    #[test]
    fn what_is_packed_comes_back() {
        let (played, faces) = played();
        let numbers = played.pack();
        let cells = faces[0].len();
        let again = Played::unpack(played.way.legs.len(), 4, cells, &numbers).unwrap();
        assert_eq!(again.layers, played.layers);
        assert_eq!(again.way.legs.len(), played.way.legs.len());
        for (a, b) in again.way.legs.iter().zip(&played.way.legs) {
            assert_eq!(a.deposit, b.deposit);
            assert!((a.start - b.start).abs() < 1e-5 && (a.ends[1].x - b.ends[1].x).abs() < 1e-6);
        }
        assert!(Played::unpack(played.way.legs.len(), 4, cells, &numbers[1..]).is_none());
        assert!(Played::unpack(usize::MAX, 4, cells, &numbers).is_none());
    }

    #[test]
    fn film_grows_behind_the_gun_and_ends_as_all_that_landed() {
        let (played, faces) = played();
        let face = &faces[0];
        let half = 0.5 * (played.way.legs[0].start + played.way.legs[0].seconds);
        let film = played.film(half, &faces, 0.05);
        let moment = played.way.at(half).unwrap();
        let (behind, before) = if moment.heading > 0.0 { (0, face.nx - 1) } else { (face.nx - 1, 0) };
        assert!((film[behind] - 1e-6).abs() < 1e-12 && film[before] == 0.0, "{moment:?}");
        let end = played.film(1e9, &faces, 0.05);
        assert!(end.iter().all(|h| (h - 1e-5).abs() < 1e-10));
    }
}
