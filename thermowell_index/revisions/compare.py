"""What changed between the previous run and this one, said line by line."""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from thermowell_index.findings import Finding
from thermowell_index.revisions.carry import ThisRun
from thermowell_index.revisions.comparison import Block, Comparison
from thermowell_index.revisions.lapse import input_changes
from thermowell_index.revisions.memory import RowMemory
from thermowell_index.revisions.previous import PreviousRun
from thermowell_index.units import format_length

LEAST_MOVE_MM = 1e-4
NO_MEMORY = (
    "The previous workbook no longer holds what its run remembered of the index (a hidden sheet), so cells cannot be "
    "compared; findings are matched by their names."
)
Line = tuple[str | int | None, ...]


@dataclass(frozen=True, kw_only=True)
class Differences:
    """What a comparison needs beside the rows: `cell_of` gives the address of a row's field, `label_of` its label."""

    previous: PreviousRun
    now: ThisRun
    cell_of: Callable[[int, str], str]
    label_of: Callable[[str], str]
    rule_name: Callable[[str], str]
    basis_entries: Mapping[str, str] = field(default_factory=dict)
    basis_changed: bool = False
    version_changed: bool = False
    lapsed: Sequence[Finding] = ()
    after_order: Sequence[Finding] = ()


def compare(what: Differences) -> Comparison:
    """Return what changed since the previous run."""
    moved = list(_lengths_moved(what))
    cells = list(_cells(what)) if what.previous.rows else []
    basis = list(_basis(what))
    blocks = [
        Block(
            title="Changed after it was ordered",
            headings=("Tag", "Sheet", "Row", "Found", "Expected", "What to do"),
            lines=[
                (entry.tag, entry.sheet, entry.row, entry.found, entry.expected, entry.action)
                for entry in what.after_order
            ],
            is_loud=True,
        ),
        Block(
            title="Lengths that moved",
            headings=("Tag", "Sheet", "Row", "To order: was", "To order: is", "Computed: was", "Computed: is", "Why"),
            lines=moved,
        ),
        Block(
            title="Sign-offs that lapsed",
            headings=("Finding", "Severity", "Tag", "Rule", "Former decision, and why it lapsed"),
            lines=[
                (
                    entry.id,
                    entry.severity.value,
                    entry.tag or entry.sheet,
                    what.rule_name(entry.rule),
                    entry.former_decision.rpartition("\n")[2],
                )
                for entry in what.lapsed
            ],
        ),
        Block(title="Design basis", headings=("Entry", "Was", "Is"), lines=basis),
        Block(
            title="Cells that changed",
            headings=("Tag", "Sheet", "Row", "Cell", "Field", "Was", "Is", "Effect on the length"),
            lines=cells,
        ),
        Block(
            title="Tags that may have been renamed, split or merged (proposed, not assumed)",
            headings=("Kind", "Was", "May be now", "Why"),
            lines=list(_proposals(what)),
        ),
        Block(
            title="Rows added",
            headings=("Tag", "Well tag", "Sheet", "Row", "Verdict", "To order"),
            lines=[_added(what.now.rows[place]) for place in what.now.match.added] if what.previous.rows else [],
        ),
        Block(
            title="Rows deleted",
            headings=("Tag", "Well tag", "Sheet", "Row", "Verdict", "To order"),
            lines=[_added(what.previous.rows[place]) for place in what.now.match.gone],
        ),
        Block(
            title="Rows that stand elsewhere",
            headings=("Tag", "Sheet: was", "Row: was", "Sheet: is", "Row: is"),
            lines=list(_reordered(what)),
        ),
    ]
    kept = [block for block in blocks if block.lines]
    return Comparison(sentences=list(_sentences(what, {block.title: block for block in blocks})), blocks=kept)


def _sentences(what: Differences, blocks: Mapping[str, Block]) -> Iterator[str]:
    last = what.previous.runs[-1].date if what.previous.runs else ""
    yield f"Compared with {what.previous.issue}" + (f", checked {last}." if last else ".")
    if not what.previous.rows:
        yield NO_MEMORY
    else:
        counts = [
            (len(blocks["Cells that changed"].lines), "cell changed", "cells changed"),
            (len(what.now.match.added), "row added", "rows added"),
            (len(what.now.match.gone), "row deleted", "rows deleted"),
            (len(what.now.match.moved), "row moved", "rows moved"),
            (len(blocks["Lengths that moved"].lines), "length moved", "lengths moved"),
            (len(what.lapsed), "sign-off lapsed", "sign-offs lapsed"),
        ]
        yield ", ".join(f"{count} {one if count == 1 else many}" for count, one, many in counts) + "."
    for new, old in sorted(what.now.match.sheets.items()):
        if new != old:
            yield f"Sheet {new} is taken as the former sheet {old}: its rows stand there now."
    if what.basis_changed:
        yield _what_the_basis_changed(what)
    if what.version_changed:
        yield "The previous run was made with another version of the program."
    yield from what.previous.said


def _what_the_basis_changed(what: Differences) -> str:
    """Return what another design basis did to the rows of which no cell changed."""
    pairs = [
        (what.previous.rows[old], what.now.rows[new])
        for new, old in what.now.match.pairs.items()
        if not any(input_changes(what.previous.rows, what.now.rows, old, new))
    ]
    lengths = sum(1 for was, row in pairs if _has_moved(was.order_mm, row.order_mm))
    limits = sum(1 for was, row in pairs if _limits_have_moved(was, row))
    verdicts = sum(1 for was, row in pairs if was.verdict != row.verdict)
    return (
        f"The design basis is another one. Of {len(pairs)} rows whose cells are as they were it moved {lengths} "
        f"lengths to order and {limits} ranges that fit, and changed {verdicts} verdicts."
    )


def _limits_have_moved(was: RowMemory, row: RowMemory) -> bool:
    return _has_moved(was.shortest_mm, row.shortest_mm) or _has_moved(was.longest_mm, row.longest_mm)


def _basis(what: Differences) -> Iterator[Line]:
    before, now = what.previous.basis_entries, what.basis_entries
    if before:
        for name in dict.fromkeys((*before, *now)):
            if before.get(name) != now.get(name):
                yield name.replace("_", " "), before.get(name, "not there"), now.get(name, "not there")


def _lengths_moved(what: Differences) -> Iterator[Line]:
    before, now = what.previous.rows, what.now.rows
    for new, old in sorted(what.now.match.pairs.items()):
        was, row = before[old], now[new]
        if not (was.is_point or row.is_point):
            continue
        if _has_moved(was.order_mm, row.order_mm) or _has_moved(was.computed_mm, row.computed_mm):
            yield (
                row.tag,
                row.sheet,
                row.row,
                length_text(was.order_mm, was),
                length_text(row.order_mm, row),
                length_text(was.computed_mm, was),
                length_text(row.computed_mm, row),
                _why_moved(what, old, new),
            )


def _has_moved(was: float | None, now: float | None) -> bool:
    if was is None or now is None:
        return was is not now
    return abs(was - now) > LEAST_MOVE_MM


def _why_moved(what: Differences, old: int, new: int) -> str:
    causes = list(input_changes(what.previous.rows, what.now.rows, old, new))
    if causes:
        return "; ".join(causes) + ("; the design basis changed too" if what.basis_changed else "")
    if what.basis_changed:
        return "the design basis changed"
    if what.version_changed:
        return "another version of the program"
    return "another row of the index changed"


def length_text(length_mm: float | None, row: RowMemory) -> str:
    """Return a length in the unit and manner of its row, or the row's verdict where there is none."""
    if length_mm is None:
        return row.verdict or "none"
    return format_length(length_mm, row.unit, fractions=row.in_fractions)


def _cells(what: Differences) -> Iterator[Line]:
    before, now = what.previous.rows, what.now.rows
    users: dict[int, list[int]] = {}
    for place, row in enumerate(now):
        if row.is_point and row.well_row >= 0:
            users.setdefault(row.well_row, []).append(place)
    for new, old in sorted(what.now.match.pairs.items()):
        names = [
            name
            for name in dict.fromkeys((*before[old].cells, *now[new].cells))
            if before[old].cells.get(name) != now[new].cells.get(name)
        ]
        if not names:
            continue
        effect = "; ".join(_effects(what, [new, *users.get(new, [])], new)) or "none: no length stands on this row"
        for name in names:
            row = now[new]
            yield (
                row.tag,
                row.sheet,
                row.row,
                what.cell_of(new, name),
                what.label_of(name),
                before[old].cells.get(name, "blank"),
                row.cells.get(name, "blank"),
                effect,
            )


def _effects(what: Differences, places: Iterable[int], own: int) -> Iterator[str]:
    """Yield what became of each length that a row has a part in."""
    for place in places:
        row, old = what.now.rows[place], what.now.match.pairs.get(place)
        if old is None or not (row.is_point or what.previous.rows[old].is_point):
            continue
        was = what.previous.rows[old]
        name = "" if place == own else f"{row.tag}: "
        if _has_moved(was.order_mm, row.order_mm):
            yield f"{name}to order {length_text(was.order_mm, was)} -> {length_text(row.order_mm, row)}"
        elif _limits_have_moved(was, row):
            yield f"{name}still {length_text(row.order_mm, row)}; what fits is now {_range(row)}, was {_range(was)}"
        else:
            yield f"{name}none: still {length_text(row.order_mm, row)}"


def _range(row: RowMemory) -> str:
    if row.shortest_mm is None or row.longest_mm is None:
        return "nothing"
    limits = (format_length(length, row.unit, fractions=False) for length in (row.shortest_mm, row.longest_mm))
    return " to ".join(limits)


def _added(row: RowMemory) -> Line:
    return row.tag or "no tag", row.well_tag, row.sheet, row.row, row.verdict, _order(row)


def _order(row: RowMemory) -> str:
    return "" if row.order_mm is None else length_text(row.order_mm, row)


def _proposals(what: Differences) -> Iterator[Line]:
    for proposal in what.now.proposals:
        was = ", ".join(what.previous.rows[place].tag for place in proposal.before)
        may_be = ", ".join(what.now.rows[place].tag for place in proposal.now)
        yield proposal.kind, was, may_be, proposal.why


def _reordered(what: Differences) -> Iterator[Line]:
    for place in what.now.match.moved:
        was, row = what.previous.rows[what.now.match.pairs[place]], what.now.rows[place]
        yield row.tag or "no tag", was.sheet, was.row, row.sheet, row.row
