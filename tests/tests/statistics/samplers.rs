//! Sizes, places along the fan, normals.

use crate::smirnov::check;
use mistcoat::atomizer::RosinRammler;
use mistcoat::bump::Bump;
use mistcoat::emission::Emission;
use mistcoat::flight::{Batch, FlightSettings, Noise, Start, fly_lanes};
use mistcoat::normal;
use mistcoat::spray::{Along, SizeDistribution};
use mistcoat::stream::{Purpose, Stream, start};
use mistcoat_tests::fields::{Eddies, Space};
use rand::Rng;
use rand_distr::{Beta, Distribution, LogNormal, Normal, StandardNormal, Uniform, Weibull};

/// Sum of two uniforms.
#[derive(Clone)]
struct TwoUniforms(Uniform<f64>);

impl Distribution<f64> for TwoUniforms {
    fn sample<R: Rng + ?Sized>(&self, rng: &mut R) -> f64 {
        self.0.sample(rng) + self.0.sample(rng)
    }
}

/// Draws again until the value lies in the cut.
#[derive(Clone)]
struct Cut<D>(D, f64, f64);

impl<D: Distribution<f64>> Distribution<f64> for Cut<D> {
    fn sample<R: Rng + ?Sized>(&self, rng: &mut R) -> f64 {
        loop {
            let x = self.0.sample(rng);
            if (self.1..=self.2).contains(&x) {
                return x;
            }
        }
    }
}

fn uniform(i: u64) -> f64 {
    Stream::new(1, i, Purpose::Emission).open01()
}

/// Diameters of started droplets [m], sigma_g as given.
fn diameters(sigma_g: f64) -> impl Fn(u64) -> f64 {
    let mut spray = crate::spray::usual();
    spray.sizes.sigma_g = sigma_g;
    let emission = Emission::new(&spray, &crate::spray::jet(&spray, true), false);
    move |i| emission.start(9, i, Purpose::Emission, Purpose::Flight).diameter
}

#[test]
fn sizes() {
    let sizes = crate::spray::usual().sizes;
    let log = LogNormal::new(sizes.volume_median.ln(), sizes.sigma_g.ln()).unwrap();
    let reference = Cut(log, sizes.smallest, sizes.largest);
    let g = sizes.sigma_g;
    check("droplet sizes", diameters(g), diameters(1.04 * g), "sigma_g 4 % too large", reference);
}

#[test]
fn size_quantiles() {
    let d = SizeDistribution { volume_median: 30e-6, sigma_g: 1.9, smallest: 10e-6, largest: 60e-6 };
    let log = LogNormal::new(d.volume_median.ln(), d.sigma_g.ln()).unwrap();
    // The cut by clamping instead of between the shares: a fifth of the droplets would sit at the ends.
    let clamped = |i| {
        let z = normal::quantile(uniform(i));
        (d.volume_median * (z * d.sigma_g.ln()).exp()).clamp(d.smallest, d.largest)
    };
    let reference = Cut(log, d.smallest, d.largest);
    check("sizes of a narrow cut", |i| d.quantile(uniform(i)), clamped, "cut by clamping", reference);
}

#[test]
fn rosin_rammler_sizes() {
    let d = RosinRammler { x: 40e-6, q: 2.5 };
    let fat = RosinRammler { q: 2.425, ..d };
    let reference = Weibull::new(d.x, d.q).unwrap();
    check(
        "Rosin-Rammler",
        |i| d.quantile(uniform(i)),
        |i| fat.quantile(uniform(i)),
        "q 3 % too small",
        reference,
    );
}

#[derive(Clone)]
struct Symmetric(Beta<f64>);

impl Distribution<f64> for Symmetric {
    fn sample<R: Rng + ?Sized>(&self, rng: &mut R) -> f64 {
        2.0 * self.0.sample(rng) - 1.0
    }
}

#[test]
fn places_along_the_fan() {
    for n in [0.0, 0.5, 1.5, 4.0] {
        let (bump, wrong) = (Bump::new(n), Bump::new(1.06 * n + 0.06));
        let reference = Symmetric(Beta::new(n + 1.0, n + 1.0).unwrap());
        check(
            &format!("beta n {n}"),
            |i| bump.at(uniform(i)),
            |i| wrong.at(uniform(i)),
            "n + 1 6 % too large",
            reference,
        );
    }
}

#[derive(Clone)]
struct Lobes {
    lobe: Normal<f64>,
}

impl Distribution<f64> for Lobes {
    fn sample<R: Rng + ?Sized>(&self, rng: &mut R) -> f64 {
        let side =
            if Distribution::<f64>::sample(&Uniform::new(0.0, 1.0).unwrap(), rng) < 0.5 { -1.0 } else { 1.0 };
        side * self.lobe.sample(rng)
    }
}

#[test]
fn two_lobes() {
    let slope = |c: f64, g: f64| {
        let mut spray = crate::spray::usual();
        (spray.along, spray.ray_spread, spray.fan_slope) = (Along::Lobes { c, g }, 0.0, 0.4);
        let emission = Emission::new(&spray, &crate::spray::jet(&spray, true), false);
        move |i| {
            let s = emission.start(9, i, Purpose::Emission, Purpose::Flight);
            s.position[1] / s.position[2] / (1.25 * 0.4)
        }
    };
    let reference = Lobes { lobe: Normal::new(0.5, 0.3).unwrap() };
    check("two lobes", slope(0.5, 0.3), slope(0.51, 0.3), "lobes 2 % too far out", reference);
}

#[test]
fn normals_of_the_start() {
    let ours = |i| normal::quantile(uniform(i));
    check("normal quantile", ours, |i| 1.03 * ours(i), "3 % too wide", StandardNormal);
    let spray = crate::spray::usual();
    let emission = Emission::new(&spray, &crate::spray::jet(&spray, true), false);
    let omega = |i| emission.start(4, i, Purpose::Emission, Purpose::Flight).omega[1];
    check("first omega", omega, |i| omega(i) + 0.02, "0.02 off centre", StandardNormal);
}

/// What one step moves droplets that start without omega, over its standard deviation: the step's own number.
fn step_noise(noise: Noise, axis: usize) -> Vec<f64> {
    let mut set = FlightSettings::plain(1e-12, 1.81e-5, 1e-6);
    (set.step, set.aloft) = (1.0, 0.5);
    let mut batch = Batch::<f64>::default();
    for i in 0..crate::smirnov::OURS {
        batch.push(&Start {
            position: [0.0; 3],
            velocity: [0.0; 3],
            omega: [0.0; 3],
            diameter: 1e-5,
            stream: start(2, i, Purpose::Flight),
        });
    }
    // h = T: the way is T (sqrt 2 - sqrt(1 - e^-2)) times the number.
    let flow = Eddies { sigma: 1.0, time: 1.0 };
    fly_lanes(0.0f64, &flow, &Space { rate: 1.0 }, &set, noise, &mut batch);
    let unit = 2f64.sqrt() - (1.0 - (-2f64).exp()).sqrt();
    batch.end_position[axis].iter().map(|x| x / unit).collect()
}

#[test]
fn normals_of_a_step() {
    for axis in 0..3 {
        let drawn = step_noise(Noise::Normal, axis);
        let at = |i: u64| drawn[i as usize];
        check(
            &format!("normals of a step, axis {axis}"),
            at,
            |i| 1.03 * at(i),
            "3 % too wide",
            StandardNormal,
        );
    }
}

#[test]
fn sums_of_a_step() {
    let drawn = step_noise(Noise::Sum2, 0);
    // Variance 1 for the sum of two.
    let edge = 1.5f64.sqrt();
    let at = |i: u64| drawn[i as usize];
    check(
        "sums of a step",
        at,
        |i| 1.03 * at(i),
        "3 % too wide",
        TwoUniforms(Uniform::new(-edge, edge).unwrap()),
    );
    for axis in 0..3 {
        let of = step_noise(Noise::Sum2, axis);
        let n = of.len() as f64;
        let variance = of.iter().map(|x| x * x).sum::<f64>() / n;
        // Var(x^2) = 7/5: the fourth moment of the sum is 2.4.
        assert!((variance - 1.0).abs() < 5.0 * (1.4 / n).sqrt(), "axis {axis}: {variance}");
    }
}

/// Mean and its standard error.
fn mean(values: impl Iterator<Item = f64>) -> (f64, f64) {
    let (mut n, mut sum, mut square) = (0.0, 0.0, 0.0);
    for v in values {
        n += 1.0;
        sum += v;
        square += v * v;
    }
    (sum / n, ((square / n - (sum / n) * (sum / n)) / n).sqrt())
}

#[test]
fn sampled_sauter_means_and_medians() {
    // 1/SMD is the mean of 1/d over equal volumes. Half of the volume lies below the median. 4 standard errors.
    let n = 200_000u64;
    let within = |name: &str, draw: &dyn Fn(f64) -> f64, sauter: f64, median: f64| {
        let (inverse, error) = mean((0..n).map(|i| 1.0 / draw(uniform(i))));
        let (below, share_error) = mean((0..n).map(|i| f64::from(u8::from(draw(uniform(i)) < median))));
        println!("{name}: SMD {:.3} um, wanted {:.3}, {:.1e}", 1e6 / inverse, sauter * 1e6, error / inverse);
        assert!((inverse - 1.0 / sauter).abs() < 4.0 * error, "{name}");
        assert!((below - 0.5).abs() < 4.0 * share_error, "{name}: {below}");
        // A Sauter mean 1.5 % off is seen.
        assert!((inverse - 1.0 / (1.015 * sauter)).abs() > 4.0 * error, "{name}: fault passes");
    };
    // The mean of 1/d has no variance for q <= 2.
    for q in [2.5, 3.5] {
        let d = RosinRammler { x: 40e-6, q };
        within(&format!("Rosin-Rammler q {q}"), &|u| d.quantile(u), d.sauter(), d.volume_median());
    }
    for sigma_g in [1.5, 1.9, 2.2] {
        let d = SizeDistribution { volume_median: 30e-6, sigma_g, smallest: 1e-9, largest: 1e-2 };
        within(&format!("log-normal {sigma_g}"), &|u| d.quantile(u), d.sauter_uncut(), d.volume_median);
    }
}
