"""A filled-in Field survey read back: its readings enter the table as measured values before anything is judged."""

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from pathlib import Path

from thermowell_index.answers import FIELD_SURVEY, SurveyEntry
from thermowell_index.errors import WorkbookError
from thermowell_index.ooxml import Package
from thermowell_index.reader.cells import Reading, day_or_text, read_length
from thermowell_index.reader.grid import Grid
from thermowell_index.records.tags import take_apart
from thermowell_index.records.words import mounting_of
from thermowell_index.survey import QUESTIONS
from thermowell_index.table import CellState, Frame, IndexTable, word
from thermowell_index.units import format_length, to_mm, unit_of_words

NEEDED = ("tag", "measure", "first reading", "second reading")
COLUMNS: Mapping[str, str] = {
    "tag": "tag",
    "measure": "question",
    "unit": "unit",
    "first reading": "first",
    "second reading": "second",
    "by": "by",
    "on": "on",
    "loop duty": "duty",
    "remark": "remark",
    "taken": "taken",
}
"""Heading of the form in small letters, and what it gives."""


@dataclass(frozen=True, kw_only=True)
class Answer:
    """One line of a filled-in form: what was written, and its readings as numbers."""

    entry: SurveyEntry
    readings: tuple[Reading, Reading]

    @property
    def is_blank(self) -> bool:
        """Whether no reading was written in."""
        return not (self.entry.first or self.entry.second)


def read_survey(package: Package, sheets: Collection[str] = ()) -> list[Answer]:
    """Return the lines of the Field survey forms of a workbook, blank ones too, in the order in which they stand.

    Parameters
    ----------
    package : Package
        The workbook. [-]
    sheets : collection of str
        The sheets to look at; none means all of them. [-]

    Returns
    -------
    list of Answer
        Empty where no sheet has a form on it. [-]

    Raises
    ------
    WorkbookError
        A sheet is damaged.

    """
    wanted = [
        sheet.name for sheet in package.sheets if sheet.kind == "worksheet" and (not sheets or sheet.name in sheets)
    ]
    return [answer for name in wanted for answer in _on_sheet(Grid(package, name))]


def read_survey_file(path: Path) -> list[Answer]:
    """Return the lines of a filled-in Field survey; WorkbookError where the file holds none."""
    with Package.open(path) as package:
        answers = read_survey(package)
    if not answers:
        headings = ", ".join(heading.capitalize() for heading in NEEDED)
        raise WorkbookError(f"{path}: no Field survey in it; looked for a row with the headings {headings}")
    return answers


def _on_sheet(grid: Grid) -> Iterator[Answer]:
    columns: dict[str, int] = {}
    for row in grid.rows():
        texts = {" ".join(text.split()).casefold(): column for column, text in grid.own_texts(row).items()}
        if all(heading in texts for heading in NEEDED):
            columns = {name: texts[heading] for heading, name in COLUMNS.items() if heading in texts}
        elif columns and (answer := _answer(grid, row, columns)):
            yield answer


def _answer(grid: Grid, row: int, columns: Mapping[str, int]) -> Answer | None:
    texts = {name: grid.text(row, columns[name]) if name in columns else "" for name in COLUMNS.values()}
    if "on" in columns:
        texts["on"] = day_or_text(grid.cell(*grid.anchor(row, columns["on"])), grid.package)
    texts["question"] = " ".join(texts["question"].split()).casefold()
    if not texts["tag"] or texts["question"] not in QUESTIONS:
        return None
    cell = grid.cell(row, columns["first"]) or grid.cell(row, columns["tag"])
    place = f"{grid.name} {cell.address}" if cell else grid.name
    first, second = (read_length(grid.cell(row, columns[name]), grid.package) for name in ("first", "second"))
    return Answer(entry=SurveyEntry(place=place, **texts), readings=(first, second))


def admitted(given: Sequence[Answer], kept: Sequence[Answer]) -> tuple[list[Answer], list[SurveyEntry]]:
    """Return the lines to enter, and those that only stay on the form.

    All lines of a form that is given are entered; of an earlier answer's form only those that were taken then. What a
    person wrote into an earlier answer and did not give back is kept as it is.
    """
    entering: dict[tuple[str, str], Answer] = {}
    staying: dict[tuple[str, str], SurveyEntry] = {}
    for answer in (*given, *(answer for answer in kept if answer.entry.taken)):
        if not answer.is_blank:
            entering.setdefault(_key(answer.entry), answer)
    for answer in kept:
        if not answer.is_blank and _key(answer.entry) not in entering:
            staying.setdefault(_key(answer.entry), answer.entry)
    return list(entering.values()), list(staying.values())


def _key(entry: SurveyEntry) -> tuple[str, str]:
    return take_apart(entry.tag).key, entry.question


def enter(table: IndexTable, answers: Sequence[Answer], *, agree_mm: float, date: str) -> list[SurveyEntry]:
    """Enter readings into the table as measured values; return all lines, with what became of each.

    Parameters
    ----------
    table : IndexTable
        As read, before records are built; it is changed in place. [-]
    answers : sequence of Answer
        Lines with readings. [-]
    agree_mm : float
        By how much two readings of one length may differ. [mm]
    date : str
        Day of the run, written beside what is taken for the first time. [-]

    Returns
    -------
    list of SurveyEntry
        Those that were taken say since when; of the others `taken` is empty and `remark` says why not. [-]

    """
    rows: dict[str, list[int]] = {}
    for row_id, tag in zip(table.frame.index, table.frame["tag"], strict=True):
        rows.setdefault(take_apart(str(tag)).key, []).append(int(row_id))
    entries = []
    for answer in answers:
        found = rows.get(take_apart(answer.entry.tag).key, [])
        problem = _problem(answer, len(found), agree_mm)
        if problem:
            entries.append(replace(answer.entry, taken="", remark=_with(answer.entry.remark, problem)))
        else:
            _enter(table.frame, found[0], answer)
            entries.append(replace(answer.entry, taken=answer.entry.taken or date))
    return entries


def _with(remark: str, problem: str) -> str:
    said = f"not taken: {problem}"
    return remark if said in remark else "; ".join(part for part in (remark, said) if part)


def _problem(answer: Answer, rows: int, agree_mm: float) -> str:
    """Return why a line cannot be taken, empty where it can."""
    if rows != 1:
        return "no row of the index has this tag" if not rows else f"{rows} rows of the index have this tag"
    if QUESTIONS[answer.entry.question].choices:
        return "" if mounting_of(answer.entry.first) else f"{answer.entry.first!r} is none of the four words"
    lengths = [_length_mm(reading, answer.entry.unit) for reading in answer.readings]
    if any(isinstance(length, str) for length in lengths):
        return "; ".join(dict.fromkeys(length for length in lengths if isinstance(length, str)))
    first, second = (float(length) for length in lengths)
    if abs(first - second) > agree_mm + 1e-6:
        return "the two readings differ, measure again"
    return ""


def _length_mm(reading: Reading, unit: str) -> float | str:
    """Return a reading [mm], or what is wrong with it."""
    if reading.state is CellState.MISSING:
        return "a second reading is wanted"
    named = reading.unit or unit_of_words(unit)
    if reading.state is not CellState.VALUE or not reading.number or reading.number < 0:
        return f"{reading.text!r} is no length"
    return to_mm(reading.number, named) if named else f"{reading.text!r} has no unit"


def _mean_mm(answer: Answer) -> float:
    """Return the mean of two readings [mm], exact where they have one unit."""
    numbers = [
        Fraction(repr(to_mm(reading.number or Fraction(0), reading.unit or str(unit_of_words(answer.entry.unit)))))
        for reading in answer.readings
    ]
    return float(sum(numbers) / len(numbers))


def _said(how: str, text: str) -> str:
    return f"{how} {text}" if text else ""


def _enter(frame: Frame, row_id: int, answer: Answer) -> None:
    question, entry = QUESTIONS[answer.entry.question], answer.entry
    if question.choices:
        frame.at[row_id, question.field] = mounting_of(entry.first)
        frame.at[row_id, f"{question.field}_at"] = None
        return
    mean_mm = _mean_mm(answer)
    unit = answer.readings[0].unit or str(unit_of_words(entry.unit))
    shown = "in" if unit in {"in", "ft"} else "mm"
    values: dict[str, str | float | None] = {
        "mm": mean_mm,
        "state": CellState.VALUE,
        "text": format_length(mean_mm, shown, fractions=shown == "in"),
        "unit": shown,
        "unit_from": FIELD_SURVEY,
        "note": ", ".join(filter(None, (FIELD_SURVEY, entry.place, _said("by", entry.by), _said("on", entry.on)))),
        "row_id": row_id,
        "typed": " and ".join(reading.text for reading in answer.readings),
        "at": None,
    }
    for part, value in values.items():
        frame.at[row_id, f"{question.field}_{part}"] = value
    if not word(frame, row_id, "unit"):
        frame.at[row_id, "unit"] = shown
    for name, text in (("measured_by", entry.by), ("measured_on", entry.on)):
        if text:
            frame.at[row_id, name] = text
            frame.at[row_id, f"{name}_at"] = None
