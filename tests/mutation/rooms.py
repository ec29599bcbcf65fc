"""Which tests are asked over which room of lint/lintarsia, unless a run names them itself: its own, and few others that
look at it, so that a sample takes minutes. Browser tests and others that are marked slow are asked over none."""

SHARED = ["planning", "rules", "reference", "plansheets", "pattern", "mending", "examples", "engine", "written"]
# Without the command.
DRAWN = [
    "every_drawing",
    "fabric_edges",
    "nested_sizes",
    "parts_in_place",
    "schematic",
    "seen_in_place",
    "yarns_and_lines",
    "looks",
    "texture",
    "chart_drawing",
    "fabric_drawing",
    "routes",
    "shades",
    "shape_marks",
    "directions",
    "sheets",
    "signs",
    "small_drawings",
]
# Without those that look with a browser, start processes of their own, or build sites over and over.
PAGES = [
    "around_the_pages", "asked_by_values", "board", "board_by_values", "cards", "catches_by_values",
    "changes_by_values", "changes_page_by_values", "changes_since", "chart_by_elements", "charts_in_pages",
    "cover_face", "cover_facts", "cutting", "drawn_files", "edge_notes", "exchange", "gathering_by_values",
    "guide_pages", "hosted", "hosted_values", "keeping_by_values", "languages", "late_pages", "layout",
    "lines_in_pages", "lists_gathered", "long_row_list", "marker_by_values", "material_by_values", "names_on_pages",
    "output", "page_parts", "page_pieces_by_values", "pages_by_elements", "pages_in_a_theme", "pattern_cover",
    "patterns_roll_up", "plugin", "public_site", "refusing_by_values", "result_view", "results_to_the_letter",
    "roll_up_any", "row_data", "row_lines_by_values", "row_list", "rows_alike", "said_by_values", "saying",
    "search_index", "served_answers", "sewn_view", "shaping_words", "single_file", "single_values",
    "site_outside_rules", "small_page_parts", "sound_pages", "steps", "swapping_by_values", "swatches",
    "swatches_by_values", "tasks_by_values", "what_is_spared",
]  # fmt: skip
# Without those that try hundreds of damaged files.
READ = [
    "edits_spelt_out", "fault_keys", "fixes_named", "grid_look_up", "panels", "parts_agree", "read_every_key",
    "read_place_by_place", "read_places", "read_shaping", "read_texture", "reader_edges", "row_keys", "schema_faults",
    "schema_without_titles", "small_parts", "splices", "text_stays_text", "unreadable_files", "whole_faults",
    "whole_remedies", "yaml_faults", "yaml_told_whole",
]  # fmt: skip
# Without those that start pools of processes.
ENGINE = [
    "batches",
    "checking",
    "misnamed",
    "naming",
    "running",
    "spool",
    "subjects",
    "timed",
    "unjudged",
    "what_is_new",
]
ENGINE_AT_WORK = [
    "baseline", "baseline_in_settings", "before_commit", "compare_command", "no_regular_file", "release_command",
    "released", "since", "stdin",
]  # fmt: skip
WRITTEN = [
    "counting_lines", "garment_words", "habits", "held_wordings",
    "how_often", "lines_of_garments", "motifs", "pages_spelt_out",
    "pasted_back", "planted_slips", "row_parser", "row_refusals", "shortest_words", "sides_read_back",
    "slips_in_the_file", "smallest_patterned", "smallest_repeats", "smallest_rows", "smallest_shaping",
    "words_of_a_chart", "written_reads_back",
]  # fmt: skip
TESTS_OF = {
    "ground": [
        "ground",
        "settings",
        "project/test_values.py",
        "project/test_installing.py",
        "hardship/test_leftovers.py",
        "cli/test_links_in_charts.py",
        "knits/test_hostile_logs.py",
    ],
    "chart": ["chart", "reading/test_read_shaping.py", "reading/test_panels.py", "plansheets"],
    "telling": ["telling", "plansheets"],
    "result": ["result", "reporting", "cli/test_baseline.py", "cli/test_baseline_in_settings.py"],
    "reading": [f"reading/test_{name}.py" for name in READ] + ["written/test_pasted_back.py"],
    "planning": SHARED,
    "plansheets": ["plansheets", "cli/test_plan_command.py", "planning/test_told_of_plans.py"],
    "written": [f"written/test_{name}.py" for name in WRITTEN] + ["rules/test_edges_of_words.py"],
    "pattern": [
        "pattern",
        "rules/test_edges_of_patterns.py",
        "rules/test_edges_of_seams.py",
        "rules/test_cases.py",
        "cli/test_links_in_charts.py",
        "cli/test_nested_answers.py",
        "cli/test_pattern_pieces.py",
        "cli/test_piece_checked.py",
        "cli/test_release_command.py",
        "comparing/test_plain_pieces.py",
        "door/test_door_patterns.py",
        "drawing/test_nested_sizes.py",
        "garments",
        "knits/test_release_gate.py",
        "publishing/test_pattern_document.py",
    ],
    "bringing": ["bringing", "cli/test_start_command.py"],
    "rules": SHARED,
    "settings": ["settings"],
    "engine": [
        *(f"engine/test_{name}.py" for name in ENGINE),
        *(f"cli/test_{name}.py" for name in ENGINE_AT_WORK),
        "settings",
        "knits",
        "pattern/test_check_patterns.py",
        "drawing/test_stamps.py",
    ],
    "reporting": ["reporting", "reference/test_result_formats.py"],
    "drawing": [f"drawing/test_{name}.py" for name in DRAWN],
    "mending": [
        "mending/test_picking.py",
        "mending/test_unified.py",
        "mending/test_two_names.py",
        "mending/test_safe_fixes.py",
        "mending/test_short_rows.py",
        "mending/test_what_is_better.py",
        "reading/test_splices.py",
        "cli/test_fix_command.py",
        "knits/test_knits_command.py",
        "knits/test_calibration.py",
    ],
    "knits": ["knits"],
    "comparing": ["comparing", "cli/test_compare_command.py"],
    "door": ["door"],
    "publishing": [*(f"site/test_{name}.py" for name in PAGES), "publishing"],
    "cli": [
        "cli",
        "bringing/test_bring_command.py",
        "bringing/test_same_again.py",
        "drawing/test_draw_command.py",
        "drawing/test_stamps.py",
        "engine/test_naming.py",
        "knits/test_hostile_logs.py",
        "knits/test_knits_command.py",
        "knits/test_release_gate.py",
        "knits/test_since_it_was_knitted.py",
        "pattern/test_check_patterns.py",
        "pattern/test_held_by_its_chart.py",
        "plansheets/test_plan_sheets.py",
        "project/test_start_up.py",
        "reporting/test_rooted.py",
        "settings/test_local_rules.py",
        "settings/test_trust.py",
        "site/test_building.py",
        "site/test_roll_up_any.py",
        "site/test_what_is_spared.py",
        "written/test_garment_words.py",
    ],
}


def tests_for(parts: list[str]) -> list[str]:
    """Folders and files below tests/ for the rooms that the parts are of; "result/baseline.py" is of `result`."""
    return list(dict.fromkeys(test for part in parts for test in TESTS_OF[part.partition("/")[0]]))
