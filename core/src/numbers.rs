//! Dimensionless numbers, each with its definition. All arguments SI.

/// Reynolds number rho U d / mu.
#[must_use]
pub fn reynolds(density: f64, speed: f64, length: f64, viscosity: f64) -> f64 {
    density * speed * length / viscosity
}

/// Weber number rho U^2 d / sigma (gas density for break-up, liquid density for impact).
#[must_use]
pub fn weber(density: f64, speed: f64, length: f64, surface_tension: f64) -> f64 {
    density * speed * speed * length / surface_tension
}

/// Ohnesorge number mu / sqrt(rho sigma d), of the liquid.
#[must_use]
pub fn ohnesorge(viscosity: f64, density: f64, surface_tension: f64, length: f64) -> f64 {
    viscosity / (density * surface_tension * length).sqrt()
}

/// Stokes relaxation time of a sphere rho_p d^2 / (18 mu) [s].
#[must_use]
pub fn relaxation_time(droplet_density: f64, diameter: f64, air_viscosity: f64) -> f64 {
    droplet_density * diameter * diameter / (18.0 * air_viscosity)
}

/// Impaction parameter of a cylinder or sphere of radius R: K = tau U / R.
#[must_use]
pub fn impaction(relaxation_time: f64, speed: f64, radius: f64) -> f64 {
    relaxation_time * speed / radius
}

/// Stokes number of a jet of width W against a plate: rho_p d^2 U / (9 mu W) = 2 tau U / W.
#[must_use]
pub fn stokes_of_jet(relaxation_time: f64, speed: f64, width: f64) -> f64 {
    2.0 * relaxation_time * speed / width
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn impaction_of_a_30_um_drop_on_a_25_mm_tube() {
        // 30 um, 1000 kg/m3, 20 m/s, R 12.5 mm, mu 1.81e-5: 4.420 (computed).
        let tau = relaxation_time(1000.0, 30e-6, 1.81e-5);
        assert!((impaction(tau, 20.0, 12.5e-3) - 4.420).abs() < 5e-4);
        // Stk50 0.24, W 80 mm, 20 m/s gives d 12.5 um (computed).
        let small = relaxation_time(1000.0, 12.5e-6, 1.81e-5);
        assert!((stokes_of_jet(small, 20.0, 80e-3) - 0.24).abs() < 1e-3);
    }
}
