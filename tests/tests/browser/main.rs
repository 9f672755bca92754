//! The page in a real browser. Build it first: `cargo checks --only page`.

mod abuse;
mod advice;
mod air;
mod booth;
mod face;
mod faults;
mod flight;
mod gun;
mod hand;
mod judged;
mod kept;
mod loading;
mod matching;
mod paint;
mod screens;
mod sheet;
mod side;
mod sweep;

use std::process::ExitCode;

use mistcoat_page::host::serve::Server;
use mistcoat_tests::browser::{Test, run, site};

const TESTS: &[Test<Server>] = &[
    ("abuse::links_that_cannot_be_read_are_told", abuse::links_that_cannot_be_read_are_told),
    ("abuse::a_script_in_a_name_is_text", abuse::a_script_in_a_name_is_text),
    ("abuse::the_page_works_on_without_its_server", abuse::the_page_works_on_without_its_server),
    (
        "abuse::storage_that_refuses_costs_nothing_but_memory",
        abuse::storage_that_refuses_costs_nothing_but_memory,
    ),
    ("advice::an_advice_is_tried_and_taken_back", advice::an_advice_is_tried_and_taken_back),
    ("air::will_my_air_do", air::will_my_air_do),
    ("air::the_air_test_plays", air::the_air_test_plays),
    ("booth::the_booth_is_drawn_and_turned", booth::the_booth_is_drawn_and_turned),
    ("booth::the_booth_says_what_stands_there", booth::the_booth_says_what_stands_there),
    ("booth::film_as_map_and_dark_are_other_pictures", booth::film_as_map_and_dark_are_other_pictures),
    ("booth::a_lost_picture_falls_back_and_comes_back", booth::a_lost_picture_falls_back_and_comes_back),
    ("booth::a_booth_that_is_left_gives_its_memory_back", booth::a_booth_that_is_left_gives_its_memory_back),
    ("booth::without_webgl_it_is_drawn_flat", booth::without_webgl_it_is_drawn_flat),
    ("booth::the_booth_fits_phones_and_sharp_screens", booth::the_booth_fits_phones_and_sharp_screens),
    ("face::the_keys_turn_a_knob", face::the_keys_turn_a_knob),
    ("face::a_refused_value_is_told_beside_its_field", face::a_refused_value_is_told_beside_its_field),
    ("face::the_address_reopens_the_job", face::the_address_reopens_the_job),
    ("face::undo_takes_a_turned_knob_back_in_one_step", face::undo_takes_a_turned_knob_back_in_one_step),
    (
        "faults::a_blocked_horn_hole_bends_the_fan_and_turns_with_the_cap",
        faults::a_blocked_horn_hole_bends_the_fan_and_turns_with_the_cap,
    ),
    ("faults::the_flood_test_is_read", faults::the_flood_test_is_read),
    ("faults::a_hidden_fault_is_answered", faults::a_hidden_fault_is_answered),
    ("flight::the_first_minute_by_keyboard_alone", flight::the_first_minute_by_keyboard_alone),
    (
        "flight::a_dead_worker_is_replaced_and_gives_the_same_digest",
        flight::a_dead_worker_is_replaced_and_gives_the_same_digest,
    ),
    ("gun::every_feed_is_drawn_and_set", gun::every_feed_is_drawn_and_set),
    ("gun::the_air_knob_is_a_throttle_behind_the_gauge", gun::the_air_knob_is_a_throttle_behind_the_gauge),
    ("gun::a_gun_from_its_box_is_taken_or_refused", gun::a_gun_from_its_box_is_taken_or_refused),
    ("judged::another_method_judges_the_same_film", judged::another_method_judges_the_same_film),
    ("judged::a_cold_part_is_told", judged::a_cold_part_is_told),
    (
        "hand::a_stroke_gives_a_report_card_and_a_reload_keeps_it",
        hand::a_stroke_gives_a_report_card_and_a_reload_keeps_it,
    ),
    ("hand::a_finger_and_a_held_turn_are_passes_too", hand::a_finger_and_a_held_turn_are_passes_too),
    ("hand::the_keyboard_alone_sprays", hand::the_keyboard_alone_sprays),
    ("hand::a_hidden_page_lets_go_of_the_trigger", hand::a_hidden_page_lets_go_of_the_trigger),
    ("hand::true_size_and_the_wall_strip", hand::true_size_and_the_wall_strip),
    (
        "hand::an_exercise_is_marked_and_its_link_is_a_row_of_the_class_table",
        hand::an_exercise_is_marked_and_its_link_is_a_row_of_the_class_table,
    ),
    (
        "kept::a_kept_run_stands_beside_this_one_and_says_why",
        kept::a_kept_run_stands_beside_this_one_and_says_why,
    ),
    ("loading::the_page_loads_and_stays_on_this_machine", loading::the_page_loads_and_stays_on_this_machine),
    ("loading::an_error_on_the_console_is_seen", loading::an_error_on_the_console_is_seen),
    ("loading::a_request_that_leaves_is_seen", loading::a_request_that_leaves_is_seen),
    ("matching::a_card_becomes_ones_own_gun", matching::a_card_becomes_ones_own_gun),
    (
        "matching::readings_that_cannot_be_are_told_beside_their_field",
        matching::readings_that_cannot_be_are_told_beside_their_field,
    ),
    ("paint::how_much_to_mix_follows_the_parts", paint::how_much_to_mix_follows_the_parts),
    ("paint::a_data_sheet_is_copied", paint::a_data_sheet_is_copied),
    ("paint::cup_seconds_turn_into_another_cups", paint::cup_seconds_turn_into_another_cups),
    ("paint::the_paint_view_fits_every_screen", paint::the_paint_view_fits_every_screen),
    (
        "sheet::a_job_is_opened_from_a_file_and_its_sheet_drawn",
        sheet::a_job_is_opened_from_a_file_and_its_sheet_drawn,
    ),
    ("side::guns_stand_side_by_side", side::guns_stand_side_by_side),
    (
        "sweep::a_map_comes_cell_by_cell_and_a_point_is_loaded",
        sweep::a_map_comes_cell_by_cell_and_a_point_is_loaded,
    ),
    (
        "sweep::ones_own_knob_gives_curves_and_says_what_is_impossible",
        sweep::ones_own_knob_gives_curves_and_says_what_is_impossible,
    ),
    ("screens::every_view_fits_and_hinders_nobody", screens::every_view_fits_and_hinders_nobody),
    ("screens::less_motion_is_no_motion", screens::less_motion_is_no_motion),
    ("screens::the_single_file_opens_from_disk", screens::the_single_file_opens_from_disk),
];

fn main() -> ExitCode {
    run(TESTS, || Server::start_anywhere(&site()))
}
