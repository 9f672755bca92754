//! The flight alone: the task's free jet, a panel and a tube. Elements are droplets.

use criterion::{Criterion, Throughput, criterion_group, criterion_main};
use fearless_simd::Level;
use mistcoat::flight::{Batch, Noise, fly};
use mistcoat_benches::kernel::Task;
use mistcoat_benches::scalar::{Draw, STEP, run};
use mistcoat_benches::scene::{Target, rated};

fn flight(criterion: &mut Criterion) {
    let level = Level::new();
    let mut group = criterion.benchmark_group("flight");
    for (name, target) in [("panel", Target::Panel), ("tube", Target::Tube)] {
        let Ok(booked) = rated(target) else { panic!("the catalogue holds the kit and the paint") };
        let (scene, set) = (booked.scene.narrow(), booked.set.cast());
        let mut batch = Batch::default();
        booked.fill(4096, &mut batch);
        group.throughput(Throughput::Elements(4096));
        group.bench_function(name, |b| b.iter(|| fly(level, &scene, &set, Noise::Sum2, &mut batch)));
    }
    let task = Task::default();
    group.bench_function("task", |b| b.iter(|| task.run(level, Noise::Sum2, 1, 0, 4096)));
    group.throughput(Throughput::Elements(64));
    group.bench_function("task, scalar peer", |b| b.iter(|| run::<f32>(1, 64, STEP, Draw::Number)));
    group.finish();
}

criterion_group!(benches, flight);
criterion_main!(benches);
