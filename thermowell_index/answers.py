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
