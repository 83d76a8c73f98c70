"""Wells of DIN 43772 whose neck, form B head and plate insert belong together: the well's length gives the insert's."""

from collections.abc import Iterator
from dataclasses import dataclass

FORM_4_SOURCE = (
    "DIN 43772:2000-03 form 4 table as reprinted by the trade; its misprints corrected by insert = total + 175 mm"
)
TUBE_SOURCE = "DIN 43772 forms 2G, 2F, 3F: insert = total with the neck + 10 mm [memory, to be confirmed]"


@dataclass(frozen=True, kw_only=True)
class StandardInsert:
    """One well of the standard with the insert that goes with its neck and a form B head [mm].

    `total_mm` is the well's whole length; a tube in one piece has its neck in it. `is_remembered`: no published text
    was found, so the length is to be confirmed before it is ordered.
    """

    form: str
    total_mm: float
    neck_mm: float
    neck_is_in_total: bool
    insert_mm: float
    source: str
    is_remembered: bool


def _form_4() -> Iterator[StandardInsert]:
    for total, insert in ((110, 285), (140, 315), (170, 345), (200, 375), (260, 435), (410, 585)):
        yield StandardInsert(
            form="4",
            total_mm=float(total),
            neck_mm=165.0,
            neck_is_in_total=False,
            insert_mm=float(insert),
            source=FORM_4_SOURCE,
            is_remembered=False,
        )


def _tubes() -> Iterator[StandardInsert]:
    necks = {"2G": (145, (160, 250, 400)), "2F": (80, (225, 315, 465)), "3F": (80, (225, 315, 465))}
    for form, (neck, insertions) in necks.items():
        for insertion, insert in zip(insertions, (315, 405, 555), strict=True):
            yield StandardInsert(
                form=form,
                total_mm=float(insertion + neck),
                neck_mm=float(neck),
                neck_is_in_total=True,
                insert_mm=float(insert),
                source=TUBE_SOURCE,
                is_remembered=True,
            )


STANDARD_INSERTS: tuple[StandardInsert, ...] = (*_form_4(), *_tubes())


def inserts_of(form: str) -> tuple[StandardInsert, ...]:
    """Return the standard's wells of one form, shortest first."""
    return tuple(one for one in STANDARD_INSERTS if one.form == form)


def insert_lengths_mm(*forms: str) -> tuple[float, ...]:
    """Return the insert lengths [mm] of the forms named, of all forms where none is, shortest first."""
    return tuple(sorted({one.insert_mm for one in STANDARD_INSERTS if one.form in forms or not forms}))
