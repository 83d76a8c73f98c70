"""What is asked in the field: which measurement decides, how exact it must be, and in what order it is asked."""

from collections.abc import Callable
from typing import Any

import pytest

from thermowell_index.answers import Survey, SurveyEntry, SurveyLine

Check = Callable[..., Any]
SOUND = {"tag": "TE-101", "bore_depth (in)": 9, "sensor_type": "RTD", "sheath_diameter (in)": "1/4"}
NIPPLED = {"extension": "nipple and union", "extension_length (in)": 4, "mounting": "spring-loaded fitting"}

PIPED = {"extension": "nipple", "nipple_length (in)": 4, "mounting": "spring-loaded insert"}


def survey_of(done: Any) -> Survey:
    found: Survey = done.result.report.survey
    return found


def asked(found: Survey) -> list[tuple[str, str]]:
    return [(line.tag, line.question) for line in found.lines]


def only(found: Survey) -> SurveyLine:
    assert len(found.lines) == 1
    return found.lines[0]


def test_a_row_that_is_sized_is_not_asked_for(check: Check) -> None:
    found = survey_of(check(SOUND))
    assert (found.lines, found.questions, found.unsettled_rows) == ((), (), 0)


def test_a_row_that_wants_no_sensor_is_not_asked_for(check: Check) -> None:
    waiting = SOUND | {"bore_depth (in)": None}
    found = survey_of(check(waiting | {"quantity": "no"}, waiting | {"tag": "TE-102", "quantity": 1}))
    assert asked(found) == [("TE-102", "bore depth")]
    assert [(question.releases, question.concerns) for question in found.questions] == [(1, 1)]


@pytest.mark.parametrize(
    "changes,question",
    [
        ({"bore_depth (in)": None}, "bore depth"),
        ({"bore_depth (in)": "~9"}, "bore depth"),
        ({"bore_depth (in)": "9/10"}, "bore depth"),
        ({"bore_depth (in)": 9, "overall_length (in)": 9}, "bore depth"),
        ({"extension": "nipple and union", "mounting": "spring-loaded fitting"}, "installed length"),
        ({"extension": "gooseneck", "mounting": "spring-loaded fitting"}, "installed length"),
        (NIPPLED, "installed length"),
        ({"extension": "nipple", "nipple_length (in)": 4, "mounting": "spring-loaded fitting"}, "installed length"),
        ({"mounting": "spring loaded"}, "sensor mounting"),
        ({"spring_travel (in)": "est. 1"}, "spring travel"),
        (PIPED | {"remarks": "union added"}, "installed length"),
        ({"remarks": "bore measured 8-1/2 in"}, "bore depth"),
        ({"overall_length (in)": 92.5, "bore_depth (in)": 92, "insertion_length (in)": 7}, "bore depth"),
    ],
)
def test_the_measurement_that_a_row_waits_for_is_asked(check: Check, changes: dict[str, Any], question: str) -> None:
    found = survey_of(check(SOUND | changes))
    assert asked(found) == [("TE-101", question)]
    assert found.questions[0].label == question
    assert found.questions[0].is_on_form


def test_a_line_says_where_with_which_rod_how_exact_and_why(check: Check) -> None:
    row = SOUND | {"bore_depth (in)": "~9", "service": "wash water", "well_tag": "TW-101", "line": "W-12"}
    line = only(survey_of(check(row)))
    assert (line.place, line.rod, line.unit) == ("wash water, well TW-101, line W-12, Index row 2", "1/4 in", "in")
    # what the spring leaves is 0.27 in either way; more than 1/4 in is not told
    assert line.within == "± 1/4 in"
    assert line.why.startswith("range for dimension (")
    assert "~9" in line.why


def test_a_short_spring_asks_for_an_exact_reading(check: Check) -> None:
    # (0.625 - 0.078125 - 0.03125 - 0.25) / 2 = 0.1328; less probe 1/16 and turn 1/14 under the root: 0.0929
    line = only(survey_of(check(SOUND | {"bore_depth (in)": "?", "spring_travel (in)": "5/8"})))
    assert line.within == "± 1/16 in"


def test_where_no_reading_is_sure_to_do_the_finest_is_asked_for(check: Check) -> None:
    line = only(survey_of(check(SOUND | {"bore_depth (in)": "?", "spring_travel (in)": "3/8"})))
    assert line.within == "± 1/32 in"


def test_a_metric_row_is_asked_in_millimetres(check: Check) -> None:
    row = {"tag": "TE-1", "bore_depth (mm)": "~230", "sensor_type": "RTD"}
    line = only(survey_of(check(row, {"tag": "TE-2", "bore_depth (mm)": 230, "sensor_type": "RTD"})))
    assert (line.unit, line.within, line.rod) == ("mm", "± 6 mm", "as the sensor")


def test_an_assumed_tip_that_decides_is_asked_for_although_the_row_has_a_length(check: Check) -> None:
    row = {"tag": "TE-101", "overall_length (in)": 9.25, "tip_thickness (in)": None, "spring_travel (in)": 0.75}
    assert asked(survey_of(check(row))) == [("TE-101", "bore depth")]
    assert asked(survey_of(check(row | {"spring_travel (in)": 1}))) == []


def test_a_row_that_no_length_fits_is_asked_for_what_takes_up_its_window(check: Check) -> None:
    row = SOUND | {"bore_depth (in)": "9 1/8", "spring_travel (in)": "3/8", "mounting": "spring-loaded insert"}
    parts = {"extension": "nipple-union-nipple", "nipple_length (in)": 4}
    basis = '[extension]\nunion_length_means = "bought"\n'
    # four turns of 1/14 in take up more than bore and probe of 1/16 in
    assert asked(survey_of(check(row | parts, basis=basis))) == [("TE-101", "installed length")]


def test_a_row_that_no_measurement_makes_fit_waits_for_a_correction(check: Check) -> None:
    row = SOUND | {"bore_depth (in)": "9 1/8", "spring_travel (in)": "3/8"}
    found = survey_of(check(row))
    assert (found.lines, found.unsettled_rows) == ((), 1)


def test_the_question_that_releases_most_rows_stands_first(check: Check) -> None:
    bore = [
        SOUND | NIPPLED | {"tag": f"TE-{n}", "bore_depth (in)": "?", "extension": "none", "extension_length (in)": None}
        for n in (1, 2, 3)
    ]
    both = SOUND | NIPPLED | {"tag": "TE-4", "bore_depth (in)": "?"}
    union = SOUND | NIPPLED | {"tag": "TE-5"}
    found = survey_of(check(both, union, *bore))
    assert [
        (question.label, question.releases, question.concerns, question.is_on_form) for question in found.questions
    ] == [
        ("bore depth", 3, 4, True),
        ("installed length", 1, 2, True),
        ("meaning of a length beside a union", 1, 2, False),
    ]
    assert asked(found) == [
        ("TE-1", "bore depth"),
        ("TE-2", "bore depth"),
        ("TE-3", "bore depth"),
        ("TE-4", "bore depth"),
        ("TE-5", "installed length"),
        ("TE-4", "installed length"),
    ]
    assert [line.also for line in found.lines if line.tag == "TE-4"] == ["installed length", "bore depth"]


def test_what_a_document_settles_is_a_question_and_no_line_of_the_form(check: Check) -> None:
    found = survey_of(check({"tag": "TE-1", "bore_depth": 9, "sensor_type": "RTD", "service": "wash water"}))
    assert [(question.label, question.is_on_form) for question in found.questions] == [("unit of the lengths", False)]
    assert found.lines == ()


def test_the_height_of_a_compression_fitting_is_no_question_for_the_field(check: Check) -> None:
    found = survey_of(check(SOUND | {"mounting": "compression fitting"}))
    assert found.lines == ()
    assert [(question.label, question.is_on_form) for question in found.questions] == [
        ("height of the compression fitting", False)
    ]


def test_a_thread_that_is_not_stated_is_asked_for_where_its_credible_engagement_decides(check: Check) -> None:
    row = {"tag": "TE-101", "bore_depth (in)": 9, "spring_travel (in)": 1}
    basis = '[tolerance]\nengagement_unstated = "3/8 in"\n'

    found = survey_of(check(row, basis=basis))

    assert [(question.label, question.releases) for question in found.questions] == [("thread at the well", 1)]
    assert survey_of(check(row | {"instrument_thread": "1/2 NPT"}, basis=basis)).questions == ()


def test_a_row_without_a_tag_has_no_line_and_waits_for_a_correction(check: Check) -> None:
    found = survey_of(check(SOUND, SOUND | {"tag": None, "bore_depth (in)": "?"}))
    assert (found.lines, found.unsettled_rows) == ((), 1)


def test_the_words_to_choose_from_stand_where_nothing_is_measured(check: Check) -> None:
    line = only(survey_of(check(SOUND | {"mounting": "spring loaded"})))
    assert "flanged insert" in line.choices
    assert (line.unit, line.rod, line.within) == ("", "", "")


def test_plain_sums_ask_for_a_more_exact_reading(check: Check) -> None:
    # (1 - 1/8 - 1/20 - 1/4 - 2 x (1/16 + 1/14)) / 2 = 0.154
    done = check(SOUND | {"bore_depth (in)": "?"}, basis='[tolerance]\nstack = "worst case"\n')
    assert only(survey_of(done)).within == "± 1/8 in"


def _entry(**changes: Any) -> SurveyEntry:
    values: dict[str, Any] = {
        "tag": "TE-101",
        "question": "bore depth",
        "unit": "in",
        "first": "9",
        "second": "9 1/4",
        "by": "",
        "on": "",
        "duty": "",
        "remark": "",
        "taken": "",
        "place": "Field survey H9",
        **changes,
    }
    return SurveyEntry(**values)


def test_what_was_written_in_stays_on_a_line_that_is_still_asked(check: Check) -> None:
    from thermowell_index.basis import BUILT_IN  # noqa: PLC0415
    from thermowell_index.survey import survey  # noqa: PLC0415

    done = check(SOUND | {"bore_depth (in)": "?"})
    gone = _entry(tag="TE-999")
    found = survey(
        done.table, done.findings, BUILT_IN, [_entry(), gone, _entry(tag="te 101", question="spring travel")]
    )
    assert only(found).entry == _entry()
    assert [(line.tag, line.place) for line in found.left_over] == [
        ("TE-999", ""),
        ("te 101", "Index row 2"),
    ]
    assert found.taken == ()
