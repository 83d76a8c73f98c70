"""What the order schedule needs to be told; whoever has these attributes will do."""

from collections.abc import Sequence
from typing import Protocol


class SensorLine(Protocol):
    """Identical sensors on one line of the order schedule."""

    @property
    def mounting(self) -> str:
        """How the sensor is held."""

    @property
    def plane(self) -> str:
        """The plane its length is measured from."""

    @property
    def order_length_mm(self) -> float:
        """Length to order [mm]."""

    @property
    def increment_unit(self) -> str:
        """Unit that the length is exact in."""

    @property
    def sheath_diameter(self) -> str:
        """Sheath diameter as the index writes it."""

    @property
    def sensor_type(self) -> str:
        """Sensor type."""

    @property
    def element_count(self) -> str:
        """Number of elements."""

    @property
    def sheath_material(self) -> str:
        """Material of the sheath."""

    @property
    def thread(self) -> str:
        """Mounting thread."""

    @property
    def is_special(self) -> bool:
        """Whether the length is not on the list of the sensor's standard lengths."""

    @property
    def quantity(self) -> int:
        """How many to order."""

    @property
    def tags(self) -> tuple[str, ...]:
        """Tags they are for."""

    @property
    def review_tags(self) -> tuple[str, ...]:
        """Those of the tags to look at first."""


class PartsLine(Protocol):
    """Identical extension parts on one line of the order schedule."""

    @property
    def part(self) -> str:
        """What the part is."""

    @property
    def quantity(self) -> int:
        """How many to order."""

    @property
    def tags(self) -> tuple[str, ...]:
        """Tags they are for."""


class HeldRow(Protocol):
    """A row for which nothing is ordered."""

    @property
    def tag(self) -> str:
        """Tag of the row."""

    @property
    def sheet(self) -> str:
        """Sheet it stands on."""

    @property
    def row(self) -> int:
        """Row number on the sheet."""

    @property
    def service(self) -> str:
        """What the point measures."""

    @property
    def reason(self) -> str:
        """Why nothing is ordered."""


class RowTotals(Protocol):
    """Where the rows went."""

    @property
    def ordered(self) -> int:
        """Rows whose sensors are ordered."""

    @property
    def withheld(self) -> int:
        """Rows without a length."""

    @property
    def not_wanted(self) -> int:
        """Rows that want none."""

    @property
    def not_applicable(self) -> int:
        """Rows without a sensor in a well."""

    @property
    def rows(self) -> int:
        """Rows read."""

    @property
    def sensors(self) -> int:
        """Sensors ordered."""


class OrderSchedule(Protocol):
    """The order schedule as data."""

    @property
    def sensors(self) -> Sequence[SensorLine]:
        """Sensors to order."""

    @property
    def parts(self) -> Sequence[PartsLine]:
        """Extension parts to order."""

    @property
    def held(self) -> Sequence[HeldRow]:
        """Rows held back."""

    @property
    def totals(self) -> RowTotals:
        """Totals that reconcile with the rows read."""
