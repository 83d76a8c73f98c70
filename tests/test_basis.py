"""The design basis as it is built in, and what a file may change in it."""

from pathlib import Path

import pytest

from thermowell_index.assumptions import Quantity
from thermowell_index.basis import BUILT_IN, PROFILE_WORDS, Basis, sections
from thermowell_index.basis_file import PROFILE_KEYS, PROFILE_LISTS, basis_from, read_basis
from thermowell_index.errors import SettingsError
from thermowell_index.registry import switches
from thermowell_index.standard_inserts import STANDARD_INSERTS


def changed(text: str, folder: Path) -> Basis:
    path = folder / "basis.toml"
    path.write_text(text, encoding="utf-8")
    return read_basis(path, switches())


def complaint(text: str, folder: Path) -> str:
    with pytest.raises(SettingsError) as caught:
        changed(text, folder)
    return str(caught.value)


def test_every_entry_has_a_source_and_a_meaning_and_a_value_of_its_kind() -> None:
    for entry in BUILT_IN:
        assert entry.source, entry.key
        assert entry.meaning, entry.key
        if entry.quantity is Quantity.LENGTH:
            assert entry.value == "" or entry.length_mm > 0, entry.key
        if entry.quantity is Quantity.NUMBER:
            assert BUILT_IN.number(entry.key) >= 0, entry.key
        if entry.choices:
            assert entry.value in entry.choices, entry.key


def test_a_basis_keeps_every_entry_under_its_dotted_name() -> None:
    keys = [entry.key for entry in BUILT_IN]
    assert keys == list(BUILT_IN.entries)
    assert [entry.key for _, entries in sections(BUILT_IN) for entry in entries] == keys


def test_the_lengths_of_the_profiles_can_be_read() -> None:
    for profile in BUILT_IN.profiles.values():
        assert profile.length_mm("increment_inch") == pytest.approx(6.35)
        assert profile.length_mm("increment_metric") == pytest.approx(5)
        assert profile.plane, profile.name


def test_words_in_place_of_a_length_have_no_number() -> None:
    fitting = BUILT_IN.profiles["spring_loaded_fitting"]
    assert fitting.seat_offset in PROFILE_WORDS
    assert fitting.length_mm("seat_offset") != fitting.length_mm("seat_offset")


def test_the_standards_tables_keep_their_own_rule() -> None:
    # insert = total length - bottom + neck + seat + half of the springs' 10 mm = total + 175
    seat, bottom = BUILT_IN.length_mm("standard_insert.seat_offset"), BUILT_IN.length_mm("well.tip_thickness_din")
    for well in STANDARD_INSERTS:
        neck = 0 if well.neck_is_in_total else well.neck_mm
        assert well.insert_mm == well.total_mm - bottom + neck + seat + 5


def test_a_file_changes_what_it_names_and_nothing_else(tmp_path: Path) -> None:
    basis = changed('[well]\ntip_thickness_inch = "3/16 in"\n[tolerance]\nmake_up_turns = 1.5', tmp_path)
    assert basis.length_mm("well.tip_thickness_inch") == pytest.approx(25.4 * 3 / 16)
    assert basis.number("tolerance.make_up_turns") == 1.5
    assert basis.changed == {"well.tip_thickness_inch", "tolerance.make_up_turns"}
    assert basis.entries["well.tip_thickness_inch"].source == "user's design basis"
    same = [key for key in basis.entries if key not in basis.changed]
    assert all(basis.entries[key] == BUILT_IN.entries[key] for key in same)
    assert basis.name == "basis.toml"


def test_a_value_repeated_from_the_built_in_basis_is_no_change(tmp_path: Path) -> None:
    assert changed('[well]\ntip_thickness_inch = "1/4 in"', tmp_path).changed == frozenset()


def test_a_file_written_with_a_byte_order_mark_is_read(tmp_path: Path) -> None:
    assert changed('\ufeff[index]\nunit = "mm"', tmp_path).choice("index.unit") == "mm"


def test_an_empty_length_is_not_known_and_may_stay_so(tmp_path: Path) -> None:
    basis = changed('[extension]\ncoupling_length = ""', tmp_path)
    assert basis.length_mm("extension.coupling_length") != basis.length_mm("extension.coupling_length")


@pytest.mark.parametrize(
    "text,wrong",
    [
        ('[well]\ntip = "1/4 in"', "well.tip: no such entry"),
        ('[weld]\ntip = "1/4 in"', "weld.tip: no such entry"),
        ('index = "mm"', "index: is not a section"),
        ("[well]\ntip_thickness_inch = 0.25", "well.tip_thickness_inch: 0.25 is not text in quotes"),
        ('[well]\ntip_thickness_inch = "0.25"', "'0.25' has no unit"),
        ('[well]\ntip_thickness_inch = "thin"', "'thin' is not a length"),
        ('[well]\ntip_thickness_inch = ""', "well.tip_thickness_inch: "),
        ('[well]\ntip_thickness_inch = "-1/4 in"', "is less than nothing"),
        ('[tolerance]\nmake_up_turns = "one"', "'one' is not a number of zero or more"),
        ("[tolerance]\nmake_up_turns = -1", "-1 is not a number of zero or more"),
        ("[tolerance]\nmake_up_turns = true", "True is not a number of zero or more"),
        ('[tolerance]\nstack = "sum"', "'sum' is none of 'root-sum-square', 'worst case'"),
        ('[profile]\ncollar_fitting = "2 mm"', "profile.collar_fitting: is not a section"),
        ('[profile.mine]\ntravel = "1 in"', "profile.mine: no such profile; say which it is like"),
        ('[profile.collar_fitting]\nseat = "2 mm"', "profile.collar_fitting.seat: no such entry"),
        ("[profile.collar_fitting]\nseat_offset = 2", "2 is not text in quotes"),
        ('[profile.collar_fitting]\ntravel = "-1 in"', "is less than nothing"),
        ('[profile.collar_fitting]\nthread = "left"', "'left' is none of 'taper', 'parallel', 'any'"),
        ("[profile.collar_fitting]\nstandard_lengths_mm = 200", "is not a list of lengths in mm"),
        ("[profile.collar_fitting]\nstandard_lengths_mm = [200, -1]", "is not a list of lengths in mm"),
        ("[profile.collar_fitting]\nwords = [1]", "is not a list of words in quotes"),
        ('[profile.collar_fitting]\nheads = "form B"', "is not a list of words in quotes"),
        ('[profile.collar_fitting]\ntravel_least = "1 in"', "a range has both ends"),
        ('[profile.collar_fitting]\ntravel_least = "1 in"\ntravel_most = "1/2 in"', "is more than travel_most"),
        (
            '[profile.collar_fitting]\ntravel_least = "1/2 in"\ntravel_most = "1 in"\nspring_state = "solid"',
            "needs the travel itself",
        ),
        ('[profile.collar_fitting]\nspring_state = "loose"', "is none of 'relaxed', 'solid'"),
        ('[profile.collar_fitting]\ncontains_extension = "maybe"', "is none of 'yes', 'no'"),
        ('[profile.collar_fitting]\nprobe_tolerances = [["300 mm"]]', "is not a list of steps"),
        ('[profile.collar_fitting]\nprobe_tolerances = [["300", "1 mm"]]', "'300' has no unit"),
        ('[rules.bore_too_blue]\noff = "no"', "rules.bore_too_blue: there is no such check"),
        ('[rules]\ntag_twice = "off"', "rules.tag_twice: is not a section"),
        ('[rules."tag twice"]\nloud = "yes"', "loud: no such entry"),
        ('[rules."tag twice"]\nseverity = "fatal"', "'fatal' is none of error, warning, note"),
        ('[rules."tip too thin"]\noff = " "', "off: needs the reason as text"),
        ('[rules."bore depth unknown"]\noff = "tired of it"', "cannot be switched off"),
    ],
)
def test_what_is_wrong_in_a_file_is_named(tmp_path: Path, text: str, wrong: str) -> None:
    assert wrong in complaint(text, tmp_path)


def test_all_that_is_wrong_stands_in_one_line(tmp_path: Path) -> None:
    text = '[well]\ntip = "1/4 in"\nbottom = "1 in"\n[index]\nunit = "feet"\n[profile.other]\n[rules.nothing]'
    line = complaint(text, tmp_path)
    assert "\n" not in line
    assert str(tmp_path / "basis.toml") in line
    assert all(
        name in line for name in ("well.tip:", "well.bottom:", "index.unit:", "profile.other:", "rules.nothing:")
    )


@pytest.mark.parametrize("content", [b"[well", b"\xff\xfe[well]"])
def test_a_file_that_is_no_toml_is_an_error_that_names_it(tmp_path: Path, content: bytes) -> None:
    path = tmp_path / "basis.toml"
    path.write_bytes(content)
    with pytest.raises(SettingsError, match=r"basis\.toml: cannot read the design basis"):
        read_basis(path, {})


def test_a_file_that_is_not_there_is_an_error_that_names_it(tmp_path: Path) -> None:
    with pytest.raises(SettingsError, match=r"nowhere\.toml: cannot read the design basis"):
        read_basis(tmp_path / "nowhere.toml", {})


def test_a_profile_of_the_users_own_is_like_one_that_is_there(tmp_path: Path) -> None:
    text = '[profile.short_spring]\nlike = "spring_loaded_fitting"\ntravel = "1/2 in"\nwords = ["SSF"]'
    own = changed(text, tmp_path).profiles["short_spring"]
    usual = BUILT_IN.profiles["spring_loaded_fitting"]
    assert (own.travel, own.words, own.stated) == ("1/2 in", ("SSF",), frozenset({"travel", "words"}))
    assert (own.mounting, own.seat_offset, own.plane) == (usual.mounting, usual.seat_offset, usual.plane)


def test_a_profiles_list_of_standard_lengths_and_negative_seat_are_read(tmp_path: Path) -> None:
    text = '[profile.spring_loaded_insert]\nseat_offset = "-10 mm"\nstandard_lengths_mm = [315, 345.5]'
    profile = changed(text, tmp_path).profiles["spring_loaded_insert"]
    assert profile.length_mm("seat_offset") == pytest.approx(-10)
    assert profile.standard_lengths_mm == (315, 345.5)


def test_a_check_is_made_quieter_or_switched_off_with_its_reason() -> None:
    data = {"rules": {"tip too thin": {"severity": "note"}, "tip-too-thick": {"off": "all wells are cast"}}}
    basis = basis_from(data, name="", where="", switches=switches())
    assert basis.rules["tip_too_thin"].severity == "note"
    assert basis.rules["tip_too_thick"].off == "all wells are cast"


def test_a_tolerance_by_length_is_read_in_steps_shortest_first(tmp_path: Path) -> None:
    text = '[profile.collar_fitting]\nprobe_tolerances = [["300 mm", "1.5 mm"], ["1000 mm", "3 mm"]]'
    basis = changed(text, tmp_path)
    assert basis.profiles["collar_fitting"].tolerance_steps_mm() == [(300.0, 1.5), (1000.0, 3.0)]


SPRUNG, FIXED = '[profile.mine]\nlike = "spring_loaded_fitting"\n', '[profile.mine]\nlike = "fixed_fitting"\n'


@pytest.mark.parametrize(
    "text,wrong",
    [
        (SPRUNG + 'travel = "1/2 in"\npreload = "3/4 in"', "preload: leaves nothing of the travel"),
        (SPRUNG + 'travel = "1/2 in"\npreload = "1/2 in"', "preload: leaves nothing of the travel"),
        (SPRUNG + 'travel = "1/2 in"\npreload = "1/4 in"\nreserve = "1/4 in"', "reserve: with the preload"),
        (SPRUNG + 'travel_least = "1/2 in"\ntravel_most = "1 in"\nreserve = "1/2 in"', "reserve: with the preload"),
        (SPRUNG + 'travel = "0 in"', "travel: a sprung sensor has more than none"),
        (SPRUNG + 'travel = ""', "travel: a sprung sensor has one, stated as"),
        (SPRUNG + 'travel = "middle"', "travel: 'middle' is not a length"),
        (SPRUNG + 'travel = "1/2 in"\ntarget_compression = "3/4 in"', "target_compression: is more than the travel"),
        (SPRUNG + 'increment_inch = "0 in"', "increment_inch: is not more than nothing"),
        (SPRUNG + 'increment_metric = ""', "increment_metric: is not more than nothing"),
        (
            SPRUNG + 'travel = "1 in"\ntravel_least = "1/4 in"\ntravel_most = "1/2 in"',
            "travel: lies outside travel_least to travel_most",
        ),
        (FIXED + 'travel = "1/2 in"', "travel: there is no spring in a sensor of mounting 'fixed fitting'"),
        (
            FIXED + 'target_compression = "1/2 in"',
            "target_compression: there is no spring in a sensor of mounting 'fixed fitting'",
        ),
        (FIXED + 'preload = "1/8 in"', "preload: there is no spring in a sensor of mounting 'fixed fitting'"),
        (FIXED + 'spring_state = "solid"', "spring_state: there is no spring in a sensor of mounting 'fixed fitting'"),
        (
            '[profile.adjustable_fitting]\nreserve = "1/8 in"',
            "reserve: there is no spring in a sensor of mounting 'adjustable fitting'",
        ),
        (FIXED + 'mounting = "spring-loaded fitting"', "travel: a sprung sensor has one, stated as"),
        (
            SPRUNG + 'probe_tolerances = [["1000 mm", "3 mm"], ["300 mm", "1.5 mm"]]',
            "probe_tolerances: the steps do not rise by length",
        ),
        (
            SPRUNG + 'probe_tolerances = [["300 mm", "3 mm"], ["1000 mm", "1.5 mm"]]',
            "probe_tolerances: a longer probe has a smaller tolerance",
        ),
        (
            SPRUNG + 'words = ["Ówn"]\n[profile.yours]\nlike = "fixed_fitting"\nwords = ["x", "OWN "]',
            "profile.yours.words: 'OWN' is a word of profile.mine too",
        ),
        ('[well]\ntip_credible_least = "1/2 in"', "well.tip_credible_least: is more than well.tip_credible_most"),
        (
            '[extension]\nneck_credible_least = "6 in"\nneck_credible_most = "2 in"',
            "extension.neck_credible_least: is more than extension.neck_credible_most",
        ),
        ('[limit]\nbore_depth_least = "130 in"', "limit.bore_depth_least: is more than limit.bore_depth_most"),
    ],
)
def test_what_cannot_work_is_refused_in_one_line(tmp_path: Path, text: str, wrong: str) -> None:
    line = complaint(text, tmp_path)
    assert wrong in line
    assert "; " not in line  # the one fault alone


@pytest.mark.parametrize(
    "text",
    [
        SPRUNG + 'travel = "1/2 in"\npreload = "1/4 in"\nreserve = "1/8 in"\ntarget_compression = "1/2 in"',
        SPRUNG + 'preload = "1-1/4 in"',  # the index may state a longer spring than the one built in
        SPRUNG + 'travel = ""\ntravel_least = "1/2 in"\ntravel_most = "1 in"',
        SPRUNG + 'travel = "1/2 in"\ntravel_least = "1/2 in"\ntravel_most = "1 in"',
        SPRUNG + 'travel_least = "1-1/4 in"\ntravel_most = "1-1/2 in"',  # the travel built in is not the user's
        SPRUNG + 'mounting = "fixed fitting"',
        FIXED + 'travel = ""\ntarget_compression = ""',
        FIXED + 'mounting = "spring-loaded fitting"\ntravel = "1 in"',
        SPRUNG + 'probe_tolerances = [["300 mm", "3 mm"], ["1000 mm", "3 mm"]]',
        SPRUNG + 'words = ["own", "OWN"]\n[profile.yours]\nlike = "fixed_fitting"\nwords = ["own heavy"]',
        '[well]\ntip_credible_least = "3/8 in"',
        '[extension]\nnipple_credible_least = "6 in"',
    ],
)
def test_what_can_work_is_accepted(tmp_path: Path, text: str) -> None:
    assert changed(text, tmp_path).changed


@pytest.mark.parametrize("name", BUILT_IN.profiles)
def test_a_built_in_profile_written_out_in_full_is_accepted(name: str) -> None:
    one = BUILT_IN.profiles[name]
    keys = [key for key in PROFILE_KEYS if key not in PROFILE_LISTS]
    basis = basis_from(
        {"profile": {name: {key: getattr(one, key) for key in keys}}}, name="", where="", switches=switches()
    )
    assert basis.profiles[name].plane == one.plane


SOLID = SPRUNG + 'spring_state = "solid"\n'
END = "from end of mounting thread to tip"


@pytest.mark.parametrize(
    "text,plane",
    [
        (SOLID, f"{END}, spring solid"),
        (SOLID + f'plane = "{END}, spring solid"', f"{END}, spring solid"),
        (SOLID + '[profile.yours]\nlike = "mine"\nspring_state = "relaxed"', f"{END}, spring solid"),
        (SPRUNG + 'mounting = "fixed fitting"', END),
        (SPRUNG + 'mounting = "adjustable fitting"', END),
        (
            '[profile.mine]\nlike = "flanged_insert"\nspring_state = "solid"',
            "from underside of the plate to tip, springs solid, extension and head included",
        ),
        (
            '[profile.mine]\nlike = "spring_loaded_insert"\nmounting = "fixed fitting"',
            "from underside of the terminal block to tip, extension included",
        ),
    ],
)
def test_an_inherited_plane_follows_the_spring(tmp_path: Path, text: str, plane: str) -> None:
    profiles = changed(text, tmp_path).profiles
    assert profiles["mine"].plane == plane
    assert "yours" not in profiles or profiles["yours"].plane == f"{END}, spring relaxed"


@pytest.mark.parametrize(
    "text,wrong",
    [
        (SPRUNG + f'plane = "{END}, spring solid"', "plane: says 'spring solid', and spring_state is 'relaxed'"),
        (SOLID + f'plane = "{END}, Springs relaxed"', "plane: says 'Springs relaxed', and spring_state is 'solid'"),
        (FIXED + f'plane = "{END}, spring relaxed"', "plane: says 'spring relaxed', and there is no spring"),
        (SPRUNG + f'plane = "{END}, extension not included"', "contains_extension is 'yes'"),
        (SPRUNG + f'plane = "{END}, extension included"\ncontains_extension = "no"', "contains_extension is 'no'"),
    ],
)
def test_a_stated_plane_that_says_otherwise_than_its_profile_is_refused(tmp_path: Path, text: str, wrong: str) -> None:
    assert wrong in complaint(text, tmp_path)
