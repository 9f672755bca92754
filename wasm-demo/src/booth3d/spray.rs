//! The spray as points: the run's snapshot of droplets where the gun stands.

use mistcoat::report::chart::end_view::DropletEnd;

/// Numbers a droplet: place in the spray's frame [m], how strongly it is drawn, 1 if it lands.
pub const STRIDE: usize = 5;
/// Cover of a droplet at the part and far behind it, at the filter.
const COVER: (f32, f32) = (0.5, 0.05);
/// Way behind the part over which spray fades [m].
const FADES: f32 = 0.9;

/// Droplets that still hang in the air before a part `distance` [m] away; those that have landed are film.
#[must_use]
pub fn points(droplets: &[DropletEnd], distance: f64) -> Vec<f32> {
    let distance = distance as f32;
    let aloft = |d: &&DropletEnd| {
        d.along.is_finite()
            && d.across.is_finite()
            && d.sideways.is_finite()
            && (!d.landed || d.along < 0.98 * distance)
    };
    droplets
        .iter()
        .filter(aloft)
        .flat_map(|d| {
            let past = ((d.along - distance) / FADES).clamp(0.0, 1.0);
            let cover = COVER.0 + (COVER.1 - COVER.0) * past;
            [d.sideways, d.across, d.along, cover, f32::from(u8::from(d.landed))]
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_has_gone_by_or_landed_is_not_drawn_and_the_rest_fades() {
        let near = DropletEnd { along: 0.05, across: 0.01, sideways: 0.0, end_across: 0.02, landed: true };
        let droplets = [
            near,
            DropletEnd { along: f32::INFINITY, ..near },
            DropletEnd { along: 0.15, ..near },
            DropletEnd { along: 0.6, landed: false, ..near },
        ];
        let points = points(&droplets, 0.15);
        assert_eq!(points.len(), 2 * STRIDE);
        assert!(points[3] == COVER.0 && points[4] == 1.0 && points[8] < 0.4 && points[9] == 0.0);
    }
}
