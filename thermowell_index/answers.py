"""What a run answers beside its rows and findings, as plain data that one stage makes and another writes down."""

from dataclasses import dataclass
from typing import NamedTuple

FIELD_SURVEY = "Field survey"
"""Where a value came from that was entered from a filled-in form; also the sheet's title."""
NO_THREAD = "none"
"""The thread of a sensor that is bought without one."""


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


NO_SURVEY = Survey()


@dataclass(frozen=True, kw_only=True)
class TouchCard:
    """What a fitter can check by hand while one sensor goes in.

    `expected_mm` is what stands off when the tip first touches, and `least_mm` to `most_mm` what is good; of a fitting
    without a spring all three speak of the gap left under the tip. `turns` is NaN where no thread is turned.
    """

    tag: str
    place: str
    mounting: str
    stands_off: str
    length_mm: float
    plane: str
    unit: str
    in_fractions: bool
    expected_mm: float
    least_mm: float
    most_mm: float
    turns: float


@dataclass(frozen=True, kw_only=True)
class StockItem:
    """One line of a store's list; NaN, empty texts, no elements, a quantity of None: it does not say."""

    item: str
    sheet: str
    row: int
    length_mm: float
    unit: str
    diameter_mm: float
    diameter: str
    mounting: str
    kind: str
    thread: str
    quantity: int | None
    element_count: int = 0
    sheath_material: str = ""
    has_described_length: bool = False


class PassedOver(NamedTuple):
    """A line of a store's list that is not used: where it stands, its item as written, and why."""

    line: str
    item: str
    reason: str


@dataclass(frozen=True, kw_only=True)
class StoreList:
    """What a store has: its usable lines, those that were passed over with why, and what holds for a whole sheet."""

    name: str
    items: tuple[StockItem, ...]
    passed_over: tuple[PassedOver, ...] = ()
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True)
class StockFit:
    """An item of the store that fits a well, what is left on the tighter side, and what nobody has stated yet."""

    item: StockItem
    margin_mm: float
    confirm: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class TagSubstitutes:
    """What fits one row now, least to confirm first, and which items are set aside for it."""

    tag: str
    sheet: str
    row: int
    unit: str
    order_mm: float
    shortest_mm: float
    longest_mm: float
    fits: tuple[StockFit, ...]
    set_aside: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class ItemUse:
    """Which tags one item serves, no more than there are pieces of it, and which it would fit besides."""

    item: StockItem
    serves: tuple[str, ...]
    also_fits: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class Substitutes:
    """What a store's list answers."""

    store: StoreList
    tags: tuple[TagSubstitutes, ...]
    items: tuple[ItemUse, ...]


@dataclass(frozen=True, kw_only=True)
class ResidualGroup:
    """Sensors of one mounting and area: how far their stated lengths lie from the computed ones, by step."""

    label: str
    rows: int
    fits: int
    most_often: str
    most_often_rows: int
    counts: tuple[int, ...]


@dataclass(frozen=True, kw_only=True)
class Residuals:
    """Stated less computed probe lengths: the steps in words, lowest first, and how often each group has them."""

    steps: tuple[str, ...]
    groups: tuple[ResidualGroup, ...]
