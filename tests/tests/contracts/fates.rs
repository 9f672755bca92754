//! Every droplet has one fate; none is lost; the counts are whole numbers that add up.

use mistcoat::run::Run;
use mistcoat::tally::{Fate, GROUPS};
use mistcoat_tests::scenes::example;

const FATES: [Fate; 6] = [Fate::Landed, Fate::Missed, Fate::Bounced, Fate::Drifted, Fate::Dried, Fate::Lost];

#[test]
fn counts_add_up_to_the_droplets() {
    for name in ["table-top", "chair-leg-near-round", "chair-leg-wide-fan"] {
        let mut job = example(name);
        job.run.droplets = 50_001;
        let mut run = Run::new(job).expect("a job");
        run.finish();
        for fates in [&run.card().fates, &run.part().fates] {
            let sum: u64 = FATES.iter().map(|&f| fates.of(f)).sum();
            assert_eq!(sum, fates.total(), "{name}");
            assert_eq!(fates.of(Fate::Lost), 0, "{name}");
            let groups: u64 = (0..GROUPS).map(|g| fates.group_total(g)).sum();
            assert_eq!(groups, fates.total(), "{name}");
        }
        let part = run.part();
        assert_eq!(part.fates.total(), 50_001, "{name}");
        // Where it landed, by place and by size: the same count.
        assert_eq!(part.footprint.landed(), part.fates.of(Fate::Landed), "{name}");
        assert_eq!(part.landed.counts().iter().sum::<u64>(), part.fates.of(Fate::Landed), "{name}");
        assert_eq!(part.sprayed.counts().iter().sum::<u64>(), 50_001, "{name}");
        let card = run.card();
        assert_eq!(card.landed.counts().iter().sum::<u64>(), card.fates.of(Fate::Landed), "{name}");
        let over: u64 = card.overspray(false, None).counts().iter().sum();
        assert_eq!(over + card.fates.of(Fate::Landed), card.fates.total(), "{name}");
        let f = run.report().expect("a report").fates;
        let sum = f.landed + f.missed + f.bounced + f.drifted + f.dried + f.lost;
        assert!((sum - 1.0).abs() < 1e-12 && f.lost == 0.0, "{name}: {f:?}");
    }
}

#[test]
fn solids_on_the_film_are_those_that_landed() {
    // A panel that the whole footprint lies on: film times area is the landed share of what was sprayed.
    let mut job = example("table-top");
    job.stroke.burst = Some(1.0);
    job.part = mistcoat::job::PartShape::Panel { width: 1.0, height: 1.0 };
    job.run.droplets = 50_000;
    let mut run = Run::new(job).expect("a job");
    run.finish();
    let (film, part) = (run.film(), run.part());
    let on_film = film.mean_dry().0 * film.area();
    let spray = &run.prepared().spray;
    let landed = spray.volume_flow * 1.0 * spray.volume_solids * part.fates.share(Fate::Landed);
    // What landed past the footprint's half metre is not on it.
    let grid: u64 =
        (0..GROUPS).map(|g| part.footprint.group(g).iter().map(|&n| u64::from(n)).sum::<u64>()).sum();
    let inside = grid as f64 / part.fates.of(Fate::Landed) as f64;
    assert!((on_film / (landed * inside) - 1.0).abs() < 1e-12, "{on_film} {landed} {inside}");
}
