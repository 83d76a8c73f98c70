"""Sensor lengths for existing thermowells, found in a plant's instrument index as it is."""

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from thermowell_index.one_well import SizedProbe, size_probe
    from thermowell_index.pipeline import CheckResult, Settings, check_workbook

__version__ = "0.1.0"
__all__ = ["CheckResult", "Settings", "SizedProbe", "check_workbook", "size_probe"]

_HOMES = {
    "CheckResult": "pipeline",
    "Settings": "pipeline",
    "check_workbook": "pipeline",
    "SizedProbe": "one_well",
    "size_probe": "one_well",
}


def __getattr__(name: str) -> Any:  # noqa: ANN401 - each name has its own type, known to the checker above
    """Import the public names when they are asked for: a table library takes most of a second to load."""
    if name not in _HOMES:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    from importlib import import_module  # noqa: PLC0415 - see above

    return getattr(import_module(f"{__name__}.{_HOMES[name]}"), name)
