//! What the model promises whatever the job: same bits, every droplet one fate, honest noise.

mod balance;
mod bits;
mod compare;
mod deposits;
mod diagnose;
mod digest;
mod direct;
mod ends;
mod even;
mod fates;
mod film_time;
mod finish;
mod frames;
mod golden;
mod hand;
mod hand_on_frame;
mod judgement;
mod kits;
mod patterns;
mod practice;
mod random_jobs;
mod relay;
mod replay;
mod step;
mod sweep;
mod track;
