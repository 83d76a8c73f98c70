"""What a run says in whole sentences: cautions, what was assumed, the design basis as rows."""

from collections.abc import Mapping, Sequence

from thermowell_index.basis import Basis, SensorProfile
from thermowell_index.findings import Finding
from thermowell_index.registry import Folds, Rule
from thermowell_index.standard_inserts import STANDARD_INSERTS
from thermowell_index.table import Frame
from thermowell_index.writer import BasisRow

CAUTIONS = tuple(
    " ".join(caution.split())
    for caution in """
    The program sizes sensors. It does not judge whether a well is fit for its process: that is a stress and
    wake-frequency calculation to the governing code, by a competent engineer.

    A length holds for the stated sensor profile only; beside every length stands the plane it is measured from.

    A well is a pressure boundary: never loosen or remove one on a line that is not isolated, drained and released.
    Measure the bore with the sensor withdrawn and the well left in place, with a rod of the sensor's diameter.

    A spring-loaded sensor is no pressure seal: pressure, hiss or wet at the first turn means a leaking well. Stop,
    retighten, report.

    Withdrawing a sensor can trip the plant. Surfaces are hot.

    Follow the site's permit, lock-out and hazardous-area rules; unions and nipples can be part of a flameproof
    enclosure.

    Local codes and licensed practice prevail.
    """.split("\n\n")  # noqa: SIM905 - prose reads best as prose
)


def assumed_sentences(frame: Frame, findings: Sequence[Finding], rules: Mapping[str, Rule]) -> list[str]:
    """Return one sentence for each assumption that the run's findings of whole sheets speak of."""
    sentences = []
    for finding in findings:
        of_a_sheet = rules[finding.rule].folds in {Folds.ALWAYS, Folds.NOTES}
        if finding.folded and of_a_sheet and finding.change != "cleared":
            title = rules[finding.rule].title.rstrip(".")
            sentences.append(f"{finding.sheet}: {title} ({finding.found}).")
    unstated = int((frame["is_point"] & frame["thread_is_assumed"]).sum())
    if unstated:
        rows = "row" if unstated == 1 else "rows"
        sentences.append(f"The thread of {unstated} {rows} is not stated; the design basis' thread is taken.")
    return sentences


def basis_rows(basis: Basis) -> list[BasisRow]:
    """Return the assumptions as rows of the Design basis sheet."""
    return [
        BasisRow(
            section=entry.section,
            entry=entry.name,
            value=str(entry.value) if entry.value != "" else "not stated",
            meaning=entry.meaning,
            source=entry.source,
            is_changed=entry.key in basis.changed,
        )
        for entry in basis
    ]


def _travel_text(profile: SensorProfile) -> str:
    if profile.travel_least:
        return f"not known, from {profile.travel_least} to {profile.travel_most}"
    return profile.travel or "none"


def _spring_text(profile: SensorProfile) -> str:
    if not profile.travel:
        return "none"
    return f"{profile.preload or 'travel/8'}, {profile.reserve or 'travel/20'}"


def profile_rows(basis: Basis) -> list[Mapping[str, str]]:
    """Return the sensor profiles as rows: column -> text."""
    return [
        {
            "Profile": profile.name.replace("_", " "),
            "Mounting": profile.mounting,
            "Named in the index by": ", ".join(profile.words) or "its mounting",
            "Thread": profile.thread,
            "Length is measured": profile.plane,
            "Seat offset": profile.seat_offset or "not stated",
            "Target compression": profile.target_compression or "none",
            "Spring travel": _travel_text(profile),
            "Preload and reserve": _spring_text(profile),
            "Spring where the length is measured": profile.spring_state if profile.travel else "none",
            "Length contains the extension": profile.contains_extension,
            "Tolerance by length": "; ".join(f"to {length}: {by}" for length, by in profile.probe_tolerances)
            or "as the design basis",
            "Goes with heads": ", ".join(profile.heads) or "any",
            "Increment, inch rows": profile.increment_inch,
            "Increment, metric rows": profile.increment_metric,
            "Standard lengths (mm)": ", ".join(f"{length:g}" for length in profile.standard_lengths_mm) or "any",
            "Source": profile.source,
        }
        for profile in basis.profiles.values()
    ]


def standard_rows() -> list[tuple[str, float, float, str, str]]:
    """Return the standard's wells with their inserts [mm] as rows: form, total length, insert, neck, source."""
    return [
        (
            f"form {one.form}",
            one.total_mm,
            one.insert_mm,
            f"{one.neck_mm:g} mm, {'in the total length' if one.neck_is_in_total else 'on top of the total length'}",
            one.source,
        )
        for one in STANDARD_INSERTS
    ]
