"""What a newcomer begins with: a blank index workbook, the design basis and a heading map, made from the dictionary.

Nothing is said here that dictionary and basis say already; the files change when they do.
"""

import datetime as dt
import io
import json
import re
import zipfile
from collections.abc import Callable, Iterator, Mapping, Sequence
from pathlib import Path
from typing import Final

from openpyxl import Workbook
from openpyxl.formatting.rule import Rule
from openpyxl.styles import Alignment, PatternFill
from openpyxl.styles.differential import DifferentialStyle
from openpyxl.utils import get_column_letter
from openpyxl.worksheet.datavalidation import DataValidation
from openpyxl.worksheet.properties import Outline, PageSetupProperties
from openpyxl.worksheet.worksheet import Worksheet

from thermowell_index.basis import ARRANGEMENTS, BUILT_IN, MOUNTINGS, Assumption, SensorProfile, sections
from thermowell_index.basis_file import PROFILE_KEYS
from thermowell_index.column_map import EVERY_SHEET
from thermowell_index.dictionary import FIELD, FIELDS
from thermowell_index.errors import OutputError
from thermowell_index.table import Field, Kind
from thermowell_index.units import format_length
from thermowell_index.writer.page import (
    A3_PAPER,
    A4_PAPER,
    BOLD_FONT,
    FOOTER_SIZE,
    HEADINGS,
    LEFT_HEADING,
    MUTED_FONT,
    TEXT_FONT,
    TITLE_FONT,
    UNDER_HEADINGS,
    UNDER_LINE,
    WRAPPED,
    height_of,
    lines_of,
)

INDEX, BASIS, COLUMNS = "index.xlsx", "design_basis.toml", "columns.toml"
INDEX_SHEET, HELP_SHEET = "Instrument index", "How to fill in"
GROUPS: Mapping[str, str] = {
    "identity": "Identity",
    "well": "Thermowell",
    "assembly": "Assembly",
    "sensor": "Sensor",
    "order": "Order",
    "process": "Process",
}
# The columns that show at first, in the order in which an index is mostly filled in; the others are folded away.
SHOWN: Final = (
    *("tag", "service", "instrument_type", "well_tag", "line_number", "row_status", "length_unit", "remarks"),
    *("well_connection", "overall_length", "bore_depth", "measured_bore_depth", "tip_thickness", "insertion_length"),
    *("lagging_length", "bore_diameter", "instrument_thread", "dimension_source"),
    *("sensor_mounting", "extension_arrangement", "nipple_length", "installed_length"),
    *("sensor_type", "sheath_diameter", "probe_length", "spring_travel"),
    "quantity_wanted",
)
CHOICES: Mapping[str, tuple[str, ...]] = {
    "sensor_mounting": tuple(MOUNTINGS.split("|")),
    "extension_arrangement": tuple(ARRANGEMENTS.split("|")),
    "length_unit": tuple(choice for choice in BUILT_IN.entries["index.unit"].choices if choice),
    "row_status": tuple(FIELD["row_status"].help.split(", ")),
    "dimension_source": tuple(FIELD["dimension_source"].help.split(", ")),
}
UNIT_NOTES: Mapping[str, str] = {"in": "All lengths in inches", "mm": "All lengths in millimetres"}
UNIT_LABEL: Final = "Unit of lengths"
TITLE_BLOCK: Mapping[str, str] = {
    "Plant": "Plant, unit or project",
    "Document": "Number of this index in the document register",
    "Revision": 'Write it as "Rev 0", "Rev A"',
    "Prepared by": "Name and date",
    "Checked by": "Name and date",
    UNIT_LABEL: "The unit of every length that is written without one. Leave it blank where rows differ, and fill in "
    "the column for the length unit.",
}
HINT: Final = (
    f"Sheet {HELP_SHEET!r} says what each column means. The + above the headings opens the columns used less often. "
    "Leave blank what is not known: nothing is guessed."
)
ADVICE: Final = """\
One row an instrument. A well that has a row and a tag of its own is joined to its sensor by the well tag, else by the \
loop number.
Write a length as it stands on the drawing: 9.25, 9-1/4, 9 1/4 in, 235, 235 mm. Without a unit it has that of its row, \
else the one chosen above the table; with none of these it is not used.
The cells are formatted as text, since a spreadsheet turns 9-1/4 into a date in a cell that is not.
Only the tag is always needed. A bore depth, or an overall length, is what a sensor is sized from.
Do not write a guess as a number: ~230 or 230 est. is read as not known, and a measurement is asked for.
"""
FIRST_COLUMNS_ROW: Final = len(TITLE_BLOCK) + 4
LABEL_ROW, UNIT_ROW = FIRST_COLUMNS_ROW + 1, FIRST_COLUMNS_ROW + 2
FIRST_ROW: Final = UNIT_ROW + 1
LAST_ROW: Final = FIRST_ROW + 1999
INPUT_FILL = PatternFill("solid", fgColor="FFFFF9E5")
WIDE: Final = frozenset({"service", "remarks", "sensor_mounting", "extension_arrangement"})
LONGEST_PROMPT, LONGEST_PROMPT_TITLE = 255, 32  # what a spreadsheet accepts [memory]
EPOCH = dt.datetime(2000, 1, 1, tzinfo=dt.UTC).replace(tzinfo=None)
FIRST_DAY = (1980, 1, 1, 0, 0, 0)


def write_start(folder: Path) -> list[Path]:
    """Write the blank index workbook, the design basis and the heading map into a folder; return their paths.

    Raises
    ------
    OutputError
        One of the files is there already (none is written then), or the folder cannot be written to.

    """
    makers: Mapping[str, Callable[[], bytes]] = {
        INDEX: index_bytes,
        BASIS: lambda: basis_text().encode(),
        COLUMNS: lambda: columns_text().encode(),
    }
    paths = [folder / name for name in makers]
    present = [str(path) for path in paths if path.exists()]
    if present:
        raise OutputError(f"{', '.join(present)}: is there already and is not overwritten")
    try:
        folder.mkdir(parents=True, exist_ok=True)
        for path, make in zip(paths, makers.values(), strict=True):
            with path.open("xb") as stream:
                stream.write(make())
    except OSError as exc:
        raise OutputError(f"{exc.filename or folder}: cannot be written: {exc.strerror}") from exc
    return paths


def index_bytes() -> bytes:
    """Return the blank index workbook."""
    workbook = Workbook()
    sheet = workbook.worksheets[0]
    sheet.title = INDEX_SHEET
    _write_title_block(sheet)
    listed = list(_columns())
    _write_headings(sheet, listed)
    for column, field in enumerate(listed, start=1):
        _prepare_column(sheet, column, field)
    sheet.sheet_properties.outlinePr = Outline(
        summaryRight=False
    )  # the + stands above the last shown column of a group
    sheet.freeze_panes = f"B{FIRST_ROW}"
    sheet.auto_filter.ref = f"A{UNIT_ROW}:{get_column_letter(len(listed))}{LAST_ROW}"
    table = f"A{FIRST_ROW}:{get_column_letter(len(listed))}{LAST_ROW}"
    filled = f'$A{FIRST_ROW}<>""'
    sheet.conditional_formatting.add(
        table, Rule("expression", formula=[filled], dxf=DifferentialStyle(border=UNDER_LINE))
    )
    _set_up_page(sheet, f"{FIRST_COLUMNS_ROW}:{UNIT_ROW}", A3_PAPER)
    _write_help(workbook.create_sheet(HELP_SHEET), listed)
    return workbook_bytes(workbook)


def workbook_bytes(workbook: Workbook) -> bytes:
    """Return a workbook as a file that is the same, byte for byte, whenever it is made."""
    workbook.properties.creator = "thermowell-index"
    workbook.properties.created = EPOCH
    saved = io.BytesIO()
    workbook.save(saved)
    fixed = io.BytesIO()
    with zipfile.ZipFile(saved) as source, zipfile.ZipFile(fixed, "w", zipfile.ZIP_DEFLATED) as target:
        for name in source.namelist():
            part = source.read(name)
            if name == "docProps/core.xml":
                part = re.sub(
                    rb"(<dcterms:modified[^>]*>)[^<]*", rb"\g<1>%b" % f"{EPOCH:%Y-%m-%dT%H:%M:%SZ}".encode(), part
                )
            entry = zipfile.ZipInfo(name, FIRST_DAY)
            entry.compress_type = zipfile.ZIP_DEFLATED
            entry.external_attr = 0o600 << 16
            target.writestr(entry, part)
    return fixed.getvalue()


def _columns() -> Iterator[Field]:
    """Yield the fields as columns: group by group, those that show first."""
    order = {name: place for place, name in enumerate(SHOWN)}
    for group in GROUPS:
        members = [entry for entry in FIELDS if entry.group == group]
        yield from sorted(members, key=lambda entry: order.get(entry.name, len(order)))


def _write_title_block(sheet: Worksheet) -> None:
    sheet["A1"], sheet["A1"].font = "Instrument index", TITLE_FONT
    for row, (label, prompt) in enumerate(TITLE_BLOCK.items(), start=2):
        sheet.cell(row, 1, label).font = BOLD_FONT
        sheet.merge_cells(start_row=row, start_column=2, end_row=row, end_column=3)
        for column in (2, 3):
            cell = sheet.cell(row, column)
            cell.font, cell.fill, cell.border, cell.number_format = TEXT_FONT, INPUT_FILL, UNDER_LINE, "@"
        choices = tuple(UNIT_NOTES.values()) if label == UNIT_LABEL else ()
        sheet.add_data_validation(_validation(f"B{row}", label, prompt, choices, strict=True))
    sheet.cell(len(TITLE_BLOCK) + 2, 1, HINT).font = MUTED_FONT


def _write_headings(sheet: Worksheet, listed: Sequence[Field]) -> None:
    unit_cell = f"$B${2 + list(TITLE_BLOCK).index(UNIT_LABEL)}"
    unit = '""'
    for name, note in UNIT_NOTES.items():
        unit = f'IF({unit_cell}="{note}","{name}",{unit})'
    first = 1
    for column, field in enumerate(listed, start=1):
        values = ("", field.label.capitalize(), f"={unit}" if field.kind is Kind.LENGTH else "")
        for row, value in enumerate(values, start=FIRST_COLUMNS_ROW):
            cell = sheet.cell(row, column, value or None)
            cell.font, cell.fill, cell.border, cell.alignment = BOLD_FONT, HEADINGS, UNDER_HEADINGS, LEFT_HEADING
        sheet.cell(UNIT_ROW, column).font = MUTED_FONT
        if column == len(listed) or listed[column].group != field.group:
            sheet.cell(FIRST_COLUMNS_ROW, first, GROUPS[field.group])
            sheet.merge_cells(
                start_row=FIRST_COLUMNS_ROW, start_column=first, end_row=FIRST_COLUMNS_ROW, end_column=column
            )
            first = column + 1
    sheet.row_dimensions[LABEL_ROW].height = height_of(3)


def _prepare_column(sheet: Worksheet, column: int, field: Field) -> None:
    """Give a column its width, format, prompt and choices, and fold it away if it is used less often."""
    letters = get_column_letter(column)
    dimension = sheet.column_dimensions[letters]
    dimension.width = _width(field)
    # Text, so that 9-1/4 is not turned into a date and a tag not into a number.
    dimension.number_format = "0" if field.kind is Kind.NUMBER else "@"
    dimension.alignment = Alignment(vertical="top", wrap_text=field.name in WIDE)
    dimension.font = TEXT_FONT
    if field.name not in SHOWN:
        dimension.outlineLevel, dimension.hidden = 1, True
    cells = f"{letters}{FIRST_ROW}:{letters}{LAST_ROW}"
    prompt = f"{field.help[:1].upper()}{field.help[1:]}. {_how_to_write(field)}"
    sheet.add_data_validation(_validation(cells, field.label.capitalize(), prompt, CHOICES.get(field.name, ())))


def _width(field: Field) -> float:
    if field.name in WIDE:
        return 23.0
    if field.name == "tag":
        return 15.0
    return 12.5 if field.kind is Kind.TEXT else 9.5


def _validation(
    cells: str, title: str, prompt: str, choices: Sequence[str] = (), *, strict: bool = False
) -> DataValidation:
    """Return an input prompt with a drop-down; other words are questioned, or refused where `strict`."""
    validation = DataValidation(
        type="list" if choices else None,
        formula1='"' + ",".join(choices) + '"' if choices else None,
        allow_blank=True,
        showInputMessage=True,
        showErrorMessage=bool(choices),
        errorStyle="stop" if strict else "warning",
        errorTitle="Not on the list" if choices else None,
        error="The list has the words that are understood for certain." if choices else None,
        promptTitle=title[:LONGEST_PROMPT_TITLE],
        prompt=prompt[:LONGEST_PROMPT],
    )
    validation.add(cells)
    return validation


def _how_to_write(field: Field) -> str:
    """Return how the cell of a field is filled in."""
    if field.name in CHOICES:
        return "One of: " + ", ".join(CHOICES[field.name]) + "."
    if field.fits is not None:
        low, high = field.fits
        inches = f"{format_length(low, 'in', fractions=True)} to {format_length(high, 'in', fractions=True)}"
        return f"A length, plausible from {inches} ({low:.4g} to {high:.5g} mm)."
    return {
        Kind.SIZE: "A nominal size, in inches or DN whatever the unit of lengths.",
        Kind.NUMBER: "A whole number.",
    }.get(field.kind, "")


def _set_up_page(sheet: Worksheet, repeated_rows: str, paper: int) -> None:
    sheet.page_setup.orientation, sheet.page_setup.paperSize = "landscape", paper
    sheet.page_setup.fitToWidth, sheet.page_setup.fitToHeight = 1, 0
    sheet.sheet_properties.pageSetUpPr = PageSetupProperties(fitToPage=True)
    sheet.page_margins.left = sheet.page_margins.right = 0.4
    sheet.page_margins.top, sheet.page_margins.bottom = 0.5, 0.7
    sheet.print_title_rows = repeated_rows
    footer = sheet.oddFooter
    # A sheet that openpyxl makes always has its footer parts; only the stubs think it might not.
    footer.left.text, footer.right.text = "&A", "page &P of &N"  # type: ignore[union-attr]
    footer.left.size = footer.right.size = FOOTER_SIZE  # type: ignore[union-attr]


def _write_help(sheet: Worksheet, listed: Sequence[Field]) -> None:
    widths = (24.0, 14.0, 52.0, 62.0)
    for column, width in enumerate(widths, start=1):
        sheet.column_dimensions[get_column_letter(column)].width = width
    sheet["A1"], sheet["A1"].font = HELP_SHEET, TITLE_FONT
    for row, line in enumerate(ADVICE.splitlines(), start=2):
        sheet.cell(row, 1, line).font = TEXT_FONT
        sheet.cell(row, 1).alignment = WRAPPED
        sheet.merge_cells(start_row=row, start_column=1, end_row=row, end_column=len(widths))
        sheet.row_dimensions[row].height = height_of(lines_of(line, sum(widths)))
    heading = len(ADVICE.splitlines()) + 3
    table = [("Column", "Group", "What it is", "How to write it")]
    table += [(entry.label.capitalize(), GROUPS[entry.group], entry.help, _how_to_write(entry)) for entry in listed]
    for row, texts in enumerate(table, start=heading):
        for column, text in enumerate(texts, start=1):
            cell = sheet.cell(row, column, text)
            cell.alignment, cell.font, cell.border = WRAPPED, TEXT_FONT, UNDER_LINE
            if row == heading:
                cell.font, cell.fill, cell.border = BOLD_FONT, HEADINGS, UNDER_HEADINGS
        sheet.row_dimensions[row].height = height_of(
            max(lines_of(text, width) for text, width in zip(texts, widths, strict=True))
        )
    sheet.freeze_panes = f"A{heading + 1}"
    _set_up_page(sheet, f"{heading}:{heading}", A4_PAPER)


BASIS_HEAD = """\
# Design basis: what a run assumes where the index is silent, and the limits of its checks.
# Every line shows the built-in value and is switched off by the # before it: as it stands this file changes nothing.
# To change a value take the # away and write your own. A length has its unit in the text: "1/4 in", "6 mm".
# An empty text "" means not known: what needs it is withheld, not guessed.
# Use it with: thermowell-index check INDEX.xlsx --basis design_basis.toml
"""
PROFILE_HEAD = """\
# Sensor profiles: what a sensor's length is measured from, what its spring does, in which lengths it comes.
# A profile is changed by taking the # from its [heading] and from the lines that differ.
# seat_offset: from the face the sensor mounts on to the plane its length is measured from, outward positive;
# "engagement" stands for minus the make-up of the mounting thread; target_compression "middle" is of what fits.
# travel_least and travel_most: the range of a travel that is not known, carried through; preload and reserve: empty is
# travel/8 and travel/20. contains_extension "no": the maker's length leaves the extension out. spring_state "solid": it
# is measured with the spring pressed solid. probe_tolerances: up to which length which tolerance, as
# [["300 mm", "1.5 mm"], ["1000 mm", "3 mm"]]; the last one holds beyond it too. heads: words of the heads it goes with.
# An adjustable (compression) fitting is sized once its seat_offset states its height above the face, to the shortest
# length that reaches the bottom and stands in the fitting.
# A profile of your own is a section [profile.NAME] with like = "spring_loaded_fitting" (or another one below), the
# lines that differ, and words = ["..."]: a row takes it where these words stand in its mounting cell.
"""
RULES_HEAD = """\
# Checks: one is made louder or quieter, or switched off with the reason, by a section with its name, as
#     [rules.column_absent]
#     severity = "warning"
# or, for the reason,
#     off = "this plant keeps these lengths elsewhere"
# The names are listed by: thermowell-index rules
"""
COLUMNS_HEAD = f"""\
# Heading map: which heading of your index is which field, where the program reads a heading wrongly or not at all.
# Every line below is an example, switched off by the # before it. Take the # away and write your own heading, as it
# stands in the index (line breaks as blanks; of headings in several rows the lowest, or all joined by blanks), or the
# column's letters as "column K".
# Lines under [{json.dumps(EVERY_SHEET)}] hold for all sheets. For one sheet add a section with its name: ["Unit 100"].
# Use it with: thermowell-index check INDEX.xlsx --columns columns.toml
"""


def basis_text() -> str:
    """Return the design basis file: every built-in value, switched off, with its meaning and source."""
    parts = [BASIS_HEAD]
    for section, entries in sections(BUILT_IN):
        parts.append(f"[{section}]\n" + "\n".join(_entry_text(entry) for entry in entries))
    parts.append(PROFILE_HEAD)
    parts += [*map(_profile_text, BUILT_IN.profiles.values()), RULES_HEAD]
    return "\n".join(parts)


def _entry_text(entry: Assumption) -> str:
    choices = f"# one of: {', '.join(map(json.dumps, entry.choices))}\n" if entry.choices else ""
    return f"# {entry.meaning}\n# source: {entry.source}\n{choices}#{entry.name} = {_toml(entry.value)}\n"


def _profile_text(profile: SensorProfile) -> str:
    head = f"# {profile.mounting}, {profile.thread} thread; source: {profile.source}\n#[profile.{profile.name}]\n"
    names = [name for name in PROFILE_KEYS if name != "source"]
    return head + "".join(f"#{name} = {_toml(getattr(profile, name))}\n" for name in names)


def _toml(value: object) -> str:
    """Return a text, number or list as TOML writes it, which is JSON's manner for these."""
    return json.dumps(list(value) if isinstance(value, tuple) else value, ensure_ascii=False)


def columns_text() -> str:
    """Return the heading map file: one example a field, switched off, with what the field is."""
    lines = [f"# {entry.label}: {entry.help}\n#{entry.name} = {_toml(_example(entry))}\n" for entry in FIELDS]
    return f"{COLUMNS_HEAD}\n[{json.dumps(EVERY_SHEET)}]\n" + "\n".join(lines)


def _example(field: Field) -> str:
    """Return another wording of a field's heading."""
    return next((wording for wording in field.headings if wording != field.label.upper()), field.label).capitalize()
