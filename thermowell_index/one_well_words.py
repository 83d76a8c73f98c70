"""How the checks speak of one well typed on the command line, where there is no sheet, column, row or cell."""

from dataclasses import dataclass

from thermowell_index.findings import Finding
from thermowell_index.registry import RULES


@dataclass(frozen=True, kw_only=True)
class Words:
    """What a check says in place of its own words; empty where those will do."""

    title: str = ""
    expected: str = ""
    action: str = ""


# Said of a sheet, and of nothing where one well is typed.
NOT_FOR_ONE = frozenset({"column_absent"})
# Of no use without the index that it speaks of.
CORRECT_THE_INDEX = ", and correct the index"
WORDS: dict[str, Words] = {
    "unit_not_known": Words(
        expected="a unit with the number", action="type the unit with the number, as 9-1/4 in or 235 mm, or give --unit"
    ),
    "mounting_from_basis": Words(
        title="It is not said how the sensor is held; the design basis' mounting is taken.",
        expected="how the sensor is held",
        action="confirm the design basis' value, or give --mounting",
    ),
    "extension_from_basis": Words(
        title="It is not said what stands between well and sensor; the design basis' value is taken.",
        expected="what stands between well and sensor",
        action="confirm the design basis' value, or give --extension",
    ),
    "mounting_not_stated": Words(
        action='look at the sensor and say which of the four it is ("spring loaded" alone may be a fitting or an '
        "insert); a compression fitting needs profile.adjustable_fitting.seat_offset in the design basis"
    ),
    "no_extension_but_a_length": Words(
        title="There is said to be no extension, and the length of one is given.",
        action="find out whether anything stands between the well and the sensor, and correct what is wrong",
    ),
    "union_basis_not_stated": Words(expected="bought or installed, said by the design basis"),
    "insertion_copied_as_bore": Words(title="The insertion length is given as the bore depth."),
    "insertion_longer_than_well": Words(
        action="check whether two lengths are swapped, and correct the one that is wrong"
    ),
    "fitting_onto_bare_nipple": Words(
        action="find out what stands on the well; a union or coupling may be left out, or the sensor is an insert"
    ),
    "threads_do_not_mate": Words(
        action="check both threads at the well; an adapter is part of the extension and has a length"
    ),
    "shoulder_thread_as_taper": Words(
        action="set profile.collar_fitting.seat_offset in the design basis, gasket included, and give the parallel "
        "thread"
    ),
    "length_taken_in_kind": Words(
        action="see that the length given is that of the sensor in place, on the sensor itself, before it is bought "
        "again"
    ),
    "old_sensor_denies_bore_depth": Words(
        action="measure the bore with a rod of the sensor's diameter, the sensor withdrawn and the well left in place; "
        "see whether the sensor in place is the one that is stated"
    ),
    "nominal_bore_diameter": Words(action="none, if the bore is named by the size of the sheath that it takes"),
    "length_not_computed": Words(action="look at the working: it ends at what is not known"),
    "unreadable_dimension": Words(
        title="A length cannot be read as one.",
        action="give the length with its unit, as 9-1/4 in or 235 mm; measure it at the well where no document has it",
    ),
    "range_for_dimension": Words(title="A length is undecided: two numbers, or one that is doubted."),
    "foot_mark_for_inch": Words(expected="a length in proportion to the others, or inches beside the feet"),
    "remark_gives_another_depth": Words(
        title="The remark gives another bore depth.", action="find out which of the two is right, by measuring the bore"
    ),
    "remark_denies_extension": Words(title="The remark says another thing of the extension."),
    "unit_slip": Words(
        title="A length seems to be in another unit.",
        action="correct the unit or the number, after a look at the drawing",
    ),
}


def finding_text(finding: Finding) -> str:
    """Return a finding as one paragraph in the words of one well."""
    rule, words = RULES[finding.rule], WORDS.get(finding.rule, Words())
    title = words.title or rule.title
    if finding.folded:
        return f"{finding.severity}: {title}"
    action = words.action or finding.action.replace(CORRECT_THE_INDEX, "")
    parts = (
        title,
        f"Found: {finding.found}.",
        f"Expected: {words.expected or finding.expected}.",
        f"To do: {action}.",
    )
    return f"{finding.severity}: {' '.join(parts)}"
