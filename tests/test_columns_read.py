from collections.abc import Callable

from thermowell_index.columns_read import column_lines
from thermowell_index.table import IndexTable


def test_each_column_has_a_line_with_unit_reason_and_samples(read_rows: Callable[..., IndexTable]) -> None:
    rows = [
        {"Tag": f"TE-{number}", "Bore_depth_(in)": 9 + number, "Bore_depth": "230 mm", "Dim_K_(in)": 8.5, "Vendor": "x"}
        for number in range(4)
    ]
    table = read_rows(*rows)
    lines = [
        (line.column, line.meaning, line.unit, line.why, line.samples)
        for line in column_lines(table.tables[0], table.frame)
    ]
    assert lines == [
        (1, "tag", "", "heading", ("TE-0", "TE-1", "TE-2")),
        (2, "bore depth", "in (heading)", "heading", ("9", "10", "11")),
        (3, "bore depth, second", "in (heading)", "a second column for the same field", ("230 mm",)),
        (4, "not read", "", "looks like a length", ("8.5",)),
        (5, "not read", "", "", ("x",)),
    ]


def test_a_unit_that_no_value_was_read_in_is_the_declared_one(read_rows: Callable[..., IndexTable]) -> None:
    table = read_rows({"Tag": "TE-1", "Overall_length_(in)": 9.25, "Tip_thickness_(mm)": None})
    units = {line.meaning: line.unit for line in column_lines(table.tables[0], table.frame)}
    assert units["tip thickness"] == "mm (heading)"
