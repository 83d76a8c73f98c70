"""The files to begin with: they change nothing as written, are read once filled in, and their copies are true."""

import io
import tomllib
from collections.abc import Mapping
from pathlib import Path

import openpyxl
import pytest
from openpyxl.utils import get_column_letter
from openpyxl.worksheet.worksheet import Worksheet

from thermowell_index.basis import BUILT_IN
from thermowell_index.basis_file import read_basis
from thermowell_index.column_map import read_column_map
from thermowell_index.dictionary import FIELDS
from thermowell_index.errors import OutputError
from thermowell_index.pipeline import CheckResult, Settings, check_workbook
from thermowell_index.registry import switches
from thermowell_index.start import (
    CHOICES,
    FIRST_ROW,
    LABEL_ROW,
    SHOWN,
    TITLE_BLOCK,
    UNIT_LABEL,
    UNIT_NOTES,
    basis_text,
    columns_text,
    index_bytes,
    write_start,
)

TEMPLATES = Path(__file__).parents[1] / "templates"
MM_IN_AN_INCH = 25.4
UNIT_CELL = f"B{2 + list(TITLE_BLOCK).index(UNIT_LABEL)}"
Row = Mapping[str, str | float]


def filled(tmp_path: Path, rows: list[Row], note: str) -> CheckResult:
    """Type rows into the blank workbook as a person would, and check it."""
    workbook = openpyxl.load_workbook(io.BytesIO(index_bytes()))
    sheet = workbook.worksheets[0]
    columns = labels(sheet)
    sheet[UNIT_CELL] = note or None
    for number, row in enumerate(rows, start=FIRST_ROW):
        for name, value in row.items():
            sheet.cell(number, columns[name.replace("_", " ").capitalize()]).value = value
    path = tmp_path / "index.xlsx"
    workbook.save(path)
    return check_workbook(path, Settings(), write=False)


def labels(sheet: Worksheet) -> dict[str, int]:
    """Return the column of every label."""
    return {str(cell.value): column for column, cell in enumerate(sheet[LABEL_ROW], start=1)}


ROWS: list[Row] = [
    # 9-1/4 less 1/4 is a bore of 9 in: a fitting of 9 in
    {"tag": "100-TE-001", "overall_length": "9-1/4", "tip_thickness": "1/4",
     "sensor_mounting": "spring-loaded fitting", "extension_arrangement": "none"},
    # 6-1/4 less 1/4 is 6; a nipple of 4 less 1/2 at each end adds 3: an insert of 9 in
    {"tag": "100-TE-002", "overall_length": "6 1/4", "tip_thickness": 0.25,
     "sensor_mounting": "spring-loaded insert", "extension_arrangement": "nipple", "nipple_length": 4},
    # a bore of 235 mm: a fitting of 235 mm, which is on the increment of 5 mm
    {"tag": "100-TE-003", "bore_depth": "235 mm",
     "sensor_mounting": "spring-loaded fitting", "extension_arrangement": "none"},
]  # fmt: skip


def test_rows_typed_into_the_blank_workbook_are_sized(tmp_path: Path) -> None:
    result = filled(tmp_path, ROWS, UNIT_NOTES["in"])
    assert result.table["probe_length_order_mm"].tolist() == pytest.approx(
        [9 * MM_IN_AN_INCH, 9 * MM_IN_AN_INCH, 235.0]
    )
    assert [finding.rule for finding in result.findings if not finding.folded] == []


def test_the_unit_of_a_row_serves_where_the_title_block_names_none(tmp_path: Path) -> None:
    rows: list[Row] = [{**ROWS[0], "length_unit": "in"}, {**ROWS[2], "bore_depth": "235", "length_unit": "mm"}]
    result = filled(tmp_path, rows, "")
    assert result.table["probe_length_order_mm"].tolist() == pytest.approx([9 * MM_IN_AN_INCH, 235.0])


def test_a_blank_unit_is_not_guessed(tmp_path: Path) -> None:
    result = filled(tmp_path, ROWS[:1], "")
    assert result.table["verdict"].tolist() == ["withheld"]
    assert {finding.rule for finding in result.findings if finding.withholds} == {"unit_not_known"}


def test_every_column_is_read_as_its_own_field(tmp_path: Path) -> None:
    values: Row = {entry.name: "1" for entry in FIELDS} | {"tag": "100-TE-001", "length_unit": "in"}
    result = filled(tmp_path, [values], "")
    (table,) = result.report.table.tables.values()
    assert {name: read.heading.split(" / ")[-1].lower() for name, read in table.columns.items()} == {
        entry.name: entry.label for entry in FIELDS
    }
    assert (table.undecided, table.unread, table.second_columns) == ([], [], [])


def test_only_the_index_sheet_is_read(tmp_path: Path) -> None:
    result = filled(tmp_path, ROWS, UNIT_NOTES["in"])
    assert [sheet.is_read for sheet in result.report.table.sheets] == [True, False]


def test_every_choice_of_a_drop_down_is_understood(tmp_path: Path) -> None:
    sensors: list[Row] = [
        {**ROWS[2], "tag": f"100-TE-{number}", "sensor_mounting": choice}
        for number, choice in enumerate(CHOICES["sensor_mounting"], start=101)
    ]
    extensions: list[Row] = [
        {**ROWS[2], "tag": f"100-TE-{number}", "extension_arrangement": choice}
        for number, choice in enumerate(CHOICES["extension_arrangement"], start=201)
    ]
    table = filled(tmp_path, sensors + extensions, "").table
    assert table["mounting"].tolist()[: len(sensors)] == list(CHOICES["sensor_mounting"])
    assert table["arrangement"].tolist()[len(sensors) :] == list(CHOICES["extension_arrangement"])


def test_every_status_of_the_drop_down_is_understood(tmp_path: Path) -> None:
    rows: list[Row] = [
        {**ROWS[2], "tag": f"100-TE-{number}", "row_status": choice}
        for number, choice in enumerate(CHOICES["row_status"], start=101)
    ]
    result = filled(tmp_path, rows, "")
    verdicts = dict(zip(CHOICES["row_status"], result.table["verdict"], strict=True))
    assert verdicts == {"live": "sized", "deleted": "not applicable", "spare": "not applicable", "hold": "sized"}
    assert "status_word_not_known" not in {finding.rule for finding in result.findings}


def test_the_dimension_source_measured_is_understood(tmp_path: Path) -> None:
    rows: list[Row] = [
        {**ROWS[2], "tag": f"100-TE-{number}", "dimension_source": choice}
        for number, choice in enumerate(CHOICES["dimension_source"], start=101)
    ]
    table = filled(tmp_path, rows, "").table
    assert dict(zip(CHOICES["dimension_source"], table["bore_depth_basis"], strict=True)) == {
        "measured": "measured",
        "as built": "stated",
        "data sheet": "stated",
    }


def test_a_dimension_typed_with_a_dash_stays_text() -> None:
    sheet = openpyxl.load_workbook(io.BytesIO(index_bytes())).worksheets[0]
    letters = {label: get_column_letter(column) for label, column in labels(sheet).items()}
    assert sheet.column_dimensions[letters["Bore depth"]].number_format == "@"
    assert sheet.column_dimensions[letters["Quantity wanted"]].number_format == "0"


def test_fields_used_less_often_are_folded_away() -> None:
    sheet = openpyxl.load_workbook(io.BytesIO(index_bytes())).worksheets[0]
    shown = {label.replace(" ", "_").lower() for label, hidden in folds(sheet).items() if not hidden}
    assert shown == set(SHOWN)


def folds(sheet: Worksheet) -> dict[str, bool]:
    """Return which columns are hidden; neighbours that look alike are kept as one range."""
    ranges = [(one.min or 0, one.max or 0, one.hidden) for one in sheet.column_dimensions.values()]
    return {
        label: any(hidden and first <= column <= last for first, last, hidden in ranges)
        for label, column in labels(sheet).items()
    }


def test_every_prompt_is_short_enough_for_a_spreadsheet_and_whole() -> None:
    sheet = openpyxl.load_workbook(io.BytesIO(index_bytes())).worksheets[0]
    prompts = [validation.prompt or "" for validation in sheet.data_validations.dataValidation]
    assert len(prompts) == len(FIELDS) + len(TITLE_BLOCK)
    assert all(0 < len(prompt) <= 255 and prompt.rstrip().endswith((".", '"', "register", "project", "date"))
               for prompt in prompts)  # fmt: skip


def test_the_design_basis_as_written_is_the_built_in_one(tmp_path: Path) -> None:
    path = tmp_path / "design_basis.toml"
    path.write_text(basis_text(), encoding="utf-8")
    read = read_basis(path, switches())
    assert (read.entries, read.profiles, read.changed) == (BUILT_IN.entries, BUILT_IN.profiles, frozenset())


def switched_on(text: str) -> str:
    """Take away the # before every setting; a # with a blank behind it opens a comment."""
    lines = text.splitlines()
    return "\n".join(line[1:] if line.startswith("#") and not line.startswith("# ") else line for line in lines)


def test_every_entry_of_the_design_basis_stands_in_its_file_with_its_value() -> None:
    data = tomllib.loads(switched_on(basis_text()))
    profiles = data.pop("profile")
    assert {f"{section}.{name}": value for section, content in data.items() for name, value in content.items()} == {
        entry.key: entry.value for entry in BUILT_IN
    }
    for name, profile in BUILT_IN.profiles.items():
        shown = {key: list(value) if isinstance(value := getattr(profile, key), tuple) else value
                 for key in profiles[name]}  # fmt: skip
        assert profiles[name] == shown
    assert set(profiles) == set(BUILT_IN.profiles)


def test_a_switched_on_design_basis_is_accepted(tmp_path: Path) -> None:
    path = tmp_path / "design_basis.toml"
    path.write_text(switched_on(basis_text()), encoding="utf-8")
    assert read_basis(path, switches()).entries == BUILT_IN.entries


def test_every_entry_is_explained_with_its_source() -> None:
    text = basis_text()
    assert [entry.key for entry in BUILT_IN if f"# {entry.meaning}\n# source: {entry.source}\n" not in text] == []


def test_the_heading_map_as_written_maps_nothing(tmp_path: Path) -> None:
    path = tmp_path / "columns.toml"
    path.write_text(columns_text(), encoding="utf-8")
    assert read_column_map(path) == {"*": {}}


def test_the_heading_map_has_an_example_for_every_field(tmp_path: Path) -> None:
    path = tmp_path / "columns.toml"
    path.write_text(switched_on(columns_text()), encoding="utf-8")
    assert list(read_column_map(path)["*"]) == [entry.name for entry in FIELDS]


def test_a_file_that_is_there_is_not_overwritten_and_none_is_written(tmp_path: Path) -> None:
    (tmp_path / "columns.toml").write_text("mine", encoding="utf-8")
    with pytest.raises(OutputError, match=r"columns\.toml"):
        write_start(tmp_path)
    assert [path.name for path in tmp_path.iterdir()] == ["columns.toml"]
    assert (tmp_path / "columns.toml").read_text(encoding="utf-8") == "mine"


def test_a_folder_that_is_a_file_is_an_output_error(tmp_path: Path) -> None:
    (tmp_path / "folder").write_text("", encoding="utf-8")
    with pytest.raises(OutputError, match="folder"):
        write_start(tmp_path / "folder")


def test_the_folder_is_made(tmp_path: Path) -> None:
    paths = write_start(tmp_path / "new" / "folder")
    assert [path.name for path in paths] == ["index.xlsx", "design_basis.toml", "columns.toml"]
    assert all(path.is_file() for path in paths)


def test_the_same_bytes_are_written_every_time() -> None:
    assert index_bytes() == index_bytes()


def test_the_templates_are_what_start_writes() -> None:
    """After a change: remove the files of templates/ and run `thermowell-index start templates`."""
    assert sorted(path.name for path in TEMPLATES.iterdir()) == ["columns.toml", "design_basis.toml", "index.xlsx"]
    assert (TEMPLATES / "design_basis.toml").read_text(encoding="utf-8") == basis_text()
    assert (TEMPLATES / "columns.toml").read_text(encoding="utf-8") == columns_text()
    assert contents(TEMPLATES.joinpath("index.xlsx").read_bytes()) == contents(index_bytes())


def contents(workbook: bytes) -> list[object]:
    """Return what stands in a workbook and how it looks, whichever version of the library wrote it."""
    found: list[object] = []
    for sheet in openpyxl.load_workbook(io.BytesIO(workbook)):
        found += [(cell.coordinate, cell.value, cell.number_format, cell.font.b, cell.fill.fgColor.rgb)
                  for row in sheet.iter_rows() for cell in row]  # fmt: skip
        found += [str(merged) for merged in sheet.merged_cells.ranges]
        found += [(letters, one.width, one.hidden, one.outlineLevel, one.number_format)
                  for letters, one in sheet.column_dimensions.items()]  # fmt: skip
        found += [(str(one.sqref), one.type, one.formula1, one.promptTitle, one.prompt)
                  for one in sheet.data_validations.dataValidation]  # fmt: skip
        found += [sheet.title, sheet.freeze_panes, sheet.auto_filter.ref, sheet.print_title_rows]
        found += [sheet.page_setup.orientation, sheet.page_setup.paperSize, sheet.page_setup.fitToHeight]
    return found
