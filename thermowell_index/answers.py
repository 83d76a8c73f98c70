"""What a run answers beside its rows and findings, as plain data that one stage makes and another writes down."""

from dataclasses import dataclass


@dataclass(frozen=True, kw_only=True)
class SpareLength:
    """One length to keep in stock: the tags it is best for, and those that nothing in the plan serves without it."""

    length_mm: float
    tags: tuple[str, ...]
    lost_tags: tuple[str, ...]
    least_margin_mm: float
    tightest_tag: str


@dataclass(frozen=True, kw_only=True)
class SparesKind:
    """One kind of sensor, the same in all a buyer states but its length, with the lengths to keep."""

    mounting: str
    plane: str
    sheath_diameter: str
    sensor_type: str
    element_count: str
    sheath_material: str
    thread: str
    increment_unit: str
    lengths: tuple[SpareLength, ...]
    wells: int
    ordered_lengths: int


@dataclass(frozen=True, kw_only=True)
class SurveyQuestion:
    """What is asked of several rows: `releases` rows wait for nothing else, `concerns` also those that do."""

    label: str
    how: str
    is_on_form: bool
    releases: int
    concerns: int


@dataclass(frozen=True, kw_only=True)
class SurveyEntry:
    """What somebody wrote into one line of the form, and what became of it.

    `first` and `second` are as written; `place` is where they stand. `taken` is empty, or says of an entry that went
    into the sizing when it first did.
    """

    tag: str
    question: str
    unit: str
    first: str
    second: str
    by: str
    on: str
    duty: str
    remark: str
    taken: str
    place: str


@dataclass(frozen=True, kw_only=True)
class SurveyLine:
    """One line of the form: one measurement of one row.

    `within` is the exactness that decides and `rod` the rod's diameter, both as text; `also` names what the row waits
    for besides; `choices` are the words to choose from where nothing is measured.
    """

    tag: str
    place: str
    question: str
    rod: str
    within: str
    unit: str
    why: str
    also: str
    choices: tuple[str, ...]
    entry: SurveyEntry | None


@dataclass(frozen=True, kw_only=True)
class Survey:
    """The Field survey: questions ranked by rows released, the form, and what became of a filled-in one.

    `taken` went into the sizing; `left_over` was written in, was not taken, and is not asked any more.
    """

    questions: tuple[SurveyQuestion, ...] = ()
    lines: tuple[SurveyLine, ...] = ()
    taken: tuple[SurveyLine, ...] = ()
    left_over: tuple[SurveyLine, ...] = ()
    unsettled_rows: int = 0
