"""The command line: arguments in, exit status out. The only module that prints."""

import argparse
import os
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from thermowell_index import __version__
from thermowell_index.errors import OutputError, ThermowellIndexError

if TYPE_CHECKING:
    from thermowell_index.pipeline import CheckResult, Progress, Settings

WIDTH = 100
FAIL_ON = ("error", "warning", "never")
STAGES = ("open", "read", "check", "write")
CHECK_EPILOG = """\
The input is never written to. The answer stands beside it as INDEX_checked.xlsx: the same workbook with the sensor
lengths and their working in new columns, a Discrepancies sheet, a Check summary, an Order schedule and the Design
basis (of an index that is no .xlsx or .xlsm, a new workbook; .xlsm stays .xlsm). An earlier answer of the same name is
taken as the previous run: what reviewers wrote in it is carried over. A checked workbook can be given as INDEX too.

exit status: 0 nothing at or above the chosen severity, 1 findings at or above it, or a length that no longer fits what
was ordered, 2 the run could not be done
"""
STATUS_EPILOG = """\
Findings are counted as the workbook stands now, with what reviewers wrote in it since the run. A decision counts once
it has a reviewer and a date; until then it is unsigned. A lapsed one was made before an input of its row changed.

exit status: 0 signed off, 1 errors are open, unsigned or lapsed, or a length calculated by hand (QA sample) is not the
one to order, 2 it is no checked workbook
"""
SIZE_EPILOG = """\
examples:
  thermowell-index size --overall "9-1/4 in" --tip "1/4 in"
  thermowell-index size --bore "9 in" --mounting "spring-loaded insert" --extension nipple --nipple "4 in"
  thermowell-index size --bore "235 mm" --mounting "fixed fitting"
"""


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the command; return the exit status."""
    parser = build_parser()
    given = parser.parse_args(arguments)
    if not hasattr(given, "run"):
        parser.print_help()
        return 2
    try:
        return int(given.run(given))
    except ThermowellIndexError as exc:
        print(f"thermowell-index: {exc}", file=sys.stderr)
        return 2
    except BrokenPipeError:  # the reader of a pipe has seen enough
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 0


def build_parser() -> argparse.ArgumentParser:
    """Return the parser of all commands."""
    parser = argparse.ArgumentParser(
        prog="thermowell-index",
        description="Reads an instrument index as it is, finds what is missing or inconsistent in its thermowell data, "
        "and states the sensor length to buy for each tag.",
    )
    parser.add_argument("--version", action="version", version=f"thermowell-index {__version__}")
    commands = parser.add_subparsers(title="commands", metavar="COMMAND")
    _add_check(commands)
    _add_size(commands)
    _add_rules(commands)
    _add_status(commands)
    _add_start(commands)
    return parser


def _command(
    commands: "argparse._SubParsersAction[argparse.ArgumentParser]", name: str, summary: str, epilog: str = ""
) -> argparse.ArgumentParser:
    return commands.add_parser(
        name, help=summary, description=summary, epilog=epilog, formatter_class=argparse.RawDescriptionHelpFormatter
    )


def _add_check(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    check = _command(commands, "check", "check an instrument index and size its sensors", CHECK_EPILOG)
    check.add_argument(
        "index", metavar="INDEX", type=Path, help="the instrument index (.xlsx, .xlsm, .xlsb, .xls, .ods or .csv)"
    )
    check.add_argument("--out", metavar="PATH", type=Path, help="name of the answer, or the folder for it")
    check.add_argument("--json", metavar="FILE", type=Path, help="write rows and findings as JSON too")
    check.add_argument("--basis", metavar="FILE", type=Path, help="design basis (TOML) that changes the built-in one")
    check.add_argument("--columns", metavar="FILE", type=Path, help="heading map (TOML): which heading is which field")
    check.add_argument(
        "--show-columns",
        action="store_true",
        help="only print what would be read as what, and write a heading map to edit (INDEX_columns.toml, or --out)",
    )
    check.add_argument(
        "--sheet", metavar="NAME", action="append", default=[], help="read this sheet only; may be given several times"
    )
    check.add_argument(
        "--previous", metavar="FILE", type=Path, help="checked workbook of the previous run, to compare and carry over"
    )
    check.add_argument("--revision", metavar="TEXT", default="", help="revision of the index, else read from its title")
    check.add_argument("--date", metavar="YYYY-MM-DD", help="date of the run, else today (or SOURCE_DATE_EPOCH)")
    check.add_argument(
        "--survey", metavar="FILE", type=Path, help="workbook with a filled-in Field survey, to enter as measured"
    )
    check.add_argument(
        "--stock", metavar="FILE", type=Path, help="a store's list (.xlsx or .csv): which item fits which tag now"
    )
    check.add_argument(
        "--fail-on",
        choices=FAIL_ON,
        default="error",
        help="lowest severity that makes the exit status 1 (default error)",
    )
    check.set_defaults(run=run_check)


def _add_size(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    size = _command(commands, "size", "size one sensor and print the working", SIZE_EPILOG)
    length = "a length with its unit, as 9-1/4 in or 235 mm"
    for option, field in SIZE_LENGTHS.items():
        size.add_argument(f"--{option}", dest=field, metavar="LENGTH", help=f"{field.replace('_', ' ')}, {length}")
    for option, field in SIZE_WORDS.items():
        size.add_argument(
            f"--{option}", dest=field, metavar="WORDS", help=f"{field.replace('_', ' ')}, as an index writes it"
        )
    size.add_argument(
        "--unit", dest="length_unit", choices=("in", "mm"), help="unit of lengths typed without one, as 9-1/4 or 235"
    )
    size.add_argument("--basis", metavar="FILE", type=Path, help="design basis (TOML) that changes the built-in one")
    size.set_defaults(run=run_size)


SIZE_LENGTHS = {
    "bore": "bore_depth",
    "measured-bore": "measured_bore_depth",
    "overall": "overall_length",
    "tip": "tip_thickness",
    "extension-length": "extension_length",
    "nipple": "nipple_length",
    "second-nipple": "second_nipple_length",
    "installed": "installed_length",
    "travel": "spring_travel",
    "probe": "probe_length",
    "compression-found": "compression_found",
    "insertion": "insertion_length",
    "lagging": "lagging_length",
    "bore-diameter": "bore_diameter",
    "sheath-diameter": "sheath_diameter",
    "insulation": "insulation_thickness",
    "standoff": "standoff",
    "clearance": "withdrawal_clearance",
}
SIZE_WORDS = {
    "mounting": "sensor_mounting",
    "extension": "extension_arrangement",
    "thread": "instrument_thread",
    "extension-thread": "extension_thread",
    "form": "shank_form",
    "source": "dimension_source",
    "touches": "tip_contact",
    "in-kind": "replaced_in_kind",
    "connection": "well_connection",
    "well-material": "well_material",
    "sheath-material": "sheath_material",
    "temperature": "design_temperature",
    "sensor-type": "sensor_type",
    "sensor-thread": "sensor_thread",
    "head": "head_type",
}


def _add_rules(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    rules = _command(commands, "rules", "list the checks, or explain one")
    rules.add_argument("name", nargs="*", metavar="NAME", help="a check's name, as the sheets show it")
    rules.set_defaults(run=run_rules)


def _add_status(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    status = _command(commands, "status", "tell how far the review of a checked workbook has come", STATUS_EPILOG)
    status.add_argument("checked", metavar="CHECKED.xlsx", type=Path, help="a checked workbook, as reviewers left it")
    status.set_defaults(run=run_status)


def _add_start(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    start = _command(commands, "start", "write a blank index workbook, a design basis and a heading map to fill in")
    start.add_argument("folder", metavar="DIR", type=Path, help="folder to write them into; made if it is not there")
    start.set_defaults(run=run_start)


def run_check(given: argparse.Namespace) -> int:
    """Check a workbook, say where the answer is and what it holds."""
    from thermowell_index.pipeline import Settings, check_workbook  # noqa: PLC0415 - a second that --help need not wait for

    settings = Settings(
        out=given.out,
        json=given.json,
        basis=given.basis,
        columns=given.columns,
        previous=given.previous,
        survey=given.survey,
        stock=given.stock,
        sheets=tuple(given.sheet),
        revision=given.revision,
        date=given.date,
    )
    if given.show_columns:
        return _show_columns(given.index, settings)
    with _ProgressBar() as bar:
        result = check_workbook(given.index, settings, progress=bar)
    print(_summary(result, given.json))
    worst = result.worst()
    fails = worst is not None and given.fail_on != "never" and worst.rank <= FAIL_ON.index(given.fail_on)
    return 1 if fails or result.is_changed_after_order else 0


def _show_columns(index: Path, settings: "Settings") -> int:
    """Print what would be read as what; write the heading map unless a file stands there."""
    from thermowell_index.pipeline import columns_as_read  # noqa: PLC0415 - see run_check

    text, heading_map = columns_as_read(index, settings)
    print(text)
    path = settings.out or index.with_name(f"{index.stem}_columns.toml")
    if path.is_dir():
        path = path / f"{index.stem}_columns.toml"
    if path.exists():
        raise OutputError(f"{path}: exists and is not written over; name another with --out")
    try:
        path.write_text(heading_map, encoding="utf-8")
    except OSError as exc:
        raise OutputError(f"{path}: cannot write the heading map: {exc.strerror}") from exc
    print(f"written: {path}")
    return 0


def _summary(result: "CheckResult", json: Path | None) -> str:
    verdicts = result.table["verdict"].value_counts()
    live = [finding.severity for finding in result.report.live_findings]
    parts = [f"{int(verdicts.get(name, 0))} {name}" for name in ("sized", "review", "withheld", "not applicable")]
    lines = [f"{_counted(len(result.table), 'row')}: " + ", ".join(parts)]
    counts = [_counted(live.count(severity), severity) for severity in sorted(set(live), key=lambda one: one.rank)]
    lines.append("findings: " + (", ".join(counts) or "none"))
    if result.is_changed_after_order:
        lines.append(result.report.in_names("a length no longer fits what was ordered: see Discrepancies, first lines"))
    if result.carried_from:
        lines.append(f"carried over from {result.carried_from}")
    lines += result.said
    lines += [f"written: {path}" for path in (result.written, json) if path is not None]
    if result.written is not None:
        lines += _next_steps(result)
    return "\n".join(lines)


def _next_steps(result: "CheckResult") -> list[str]:
    """Return where in the answer to look, for somebody who sees one for the first time."""
    return [result.report.in_names(line) for line in _steps_by_title(result)]


def _steps_by_title(result: "CheckResult") -> list[str]:
    live = [finding.severity.value for finding in result.report.live_findings]
    loud = [_counted(live.count(word), word) for word in ("error", "warning") if word in live]
    lines = ["look first: Check summary (what was read as what, what was assumed)"]
    if loud:
        lines.append(f"to decide: Discrepancies ({' and '.join(loud)}); thermowell-index status tells what is left")
    if result.report.survey.lines:
        lines.append(f"to measure: Field survey ({_counted(len(result.report.survey.lines), 'line')})")
    if result.table["probe_length_order_mm"].notna().any():
        lines.append("to buy: Order schedule; each row's length and working stand right of the index's own columns")
    return lines


def _counted(count: int, word: str) -> str:
    return f"{count} {word}" + ("" if count == 1 else "s")


class _ProgressBar:
    """A bar of the run's stages on a terminal; silent in a pipe."""

    def __init__(self) -> None:
        from tqdm import tqdm  # noqa: PLC0415 - only a run shows it

        self._bar = tqdm(
            total=len(STAGES),
            disable=not sys.stderr.isatty(),
            leave=False,
            bar_format="{desc} {bar} {n}/{total}",
            mininterval=0,  # a handful of stages: each is drawn, however fast it goes by
            miniters=1,
        )

    def __enter__(self) -> "Progress":
        return self._show

    def __exit__(self, *_: object) -> None:
        self._bar.close()

    def _show(self, stage: str) -> None:
        self._bar.set_description(stage)
        self._bar.update(STAGES.index(stage) + 1 - self._bar.n)


def run_size(given: argparse.Namespace) -> int:
    """Size one sensor; status 1 when its length is withheld."""
    from thermowell_index.basis import BUILT_IN  # noqa: PLC0415 - see run_check
    from thermowell_index.basis_file import read_basis  # noqa: PLC0415 - see run_check
    from thermowell_index.one_well import size_probe  # noqa: PLC0415 - see run_check
    from thermowell_index.registry import switches  # noqa: PLC0415 - see run_check

    values = {name: getattr(given, name) for name in (*SIZE_LENGTHS.values(), *SIZE_WORDS.values(), "length_unit")}
    basis = read_basis(given.basis, switches()) if given.basis else BUILT_IN
    sized = size_probe(basis=basis, **{name: value for name, value in values.items() if value is not None})
    print(sized.as_text(WIDTH))
    return 0 if sized.order_mm is not None else 1


def run_rules(given: argparse.Namespace) -> int:
    """List the checks, or explain the one that is named."""
    from thermowell_index.rule_list import explain, listing  # noqa: PLC0415 - see run_check

    print(explain(" ".join(given.name), WIDTH) if given.name else listing(WIDTH))
    return 0


def run_status(given: argparse.Namespace) -> int:
    """Tell how far the review has come; status 1 while errors are open or a length by hand differs."""
    from thermowell_index.review_status import review_status  # noqa: PLC0415 - see run_check

    status = review_status(given.checked)
    print(status.as_text())
    return 0 if status.is_signed_off else 1


def run_start(given: argparse.Namespace) -> int:
    """Write the files to begin with."""
    from thermowell_index.start import write_start  # noqa: PLC0415 - see run_check

    for path in write_start(given.folder):
        print(f"written: {path}")
    return 0
