"""The validator: the schema for types and single columns, and the rules, one fault one function."""

from thermowell_index.validator import (
    access,
    as_found,
    assembly,
    element,
    family,
    fit,
    metal,
    mistakes,
    neighbours,
    order,
    presence,
    process,
    reading,
    remarks,
    well,
)

BEFORE_SIZING = (
    "reading",
    "presence",
    "neighbours",
    "well",
    "as_found",
    "metal",
    "family",
    "assembly",
    "access",
    "element",
    "process",
    "remarks",
)
AFTER_SIZING = ("fit", "mistakes", "order")
FAMILIES = {
    "reading": reading,
    "presence": presence,
    "neighbours": neighbours,
    "well": well,
    "as_found": as_found,
    "metal": metal,
    "family": family,
    "assembly": assembly,
    "access": access,
    "element": element,
    "process": process,
    "remarks": remarks,
    "fit": fit,
    "mistakes": mistakes,
    "order": order,
}
