//! What the views are given: plain values, filled from the job and from the model's report, never invented.

pub use self::air::{
    AirState, Figure, WORKSHOP, air_state, gauge_of, on_supply, with_compressor, with_other, with_own,
    with_supply,
};
pub use self::bench::{CARD_MM, CHAIR_LEG, TABLE_TOP, card_job, is_tube, pass_job, steadied, with_hand};
pub use self::exercise::{Exercise, HIDDEN, list, with_hidden};
pub use self::history::History;
pub use self::judgement::{judged_by, judgement};
pub use self::kit::{Place, told, with_box, with_kit};
pub use self::members::{MemberFilm, members};
pub use self::need::{Need, middle_over_ends, need, need_so_far};
pub use self::paint::{
    Thinner, all_cups, band_literal, band_shown, covers, mix_of, span, thinners, to_mix, volume, with_paint,
};
pub use self::part_choice::{PART_WORDS, part_word, tubes_literal, with_member, with_part};
pub use mistcoat::gun::Feed;
pub use mistcoat::report::chart::end_view::DropletEnd;
pub use mistcoat::report::chart::gun::{GunFace, Knob, Stage, face_of};

pub use self::result::{Bar, FilmGrid, Profile, RunView};
pub use self::set::{SetCell, SetGrid};

pub mod advice;
mod air;
mod bench;
pub mod class_hour;
mod exercise;
pub mod hand;
pub mod hand_said;
mod hand_window;
mod history;
mod judgement;
pub mod kept;
mod kit;
mod members;
mod need;
mod paint;
mod part_choice;
mod result;
mod set;
pub mod side;
pub mod sweep;
