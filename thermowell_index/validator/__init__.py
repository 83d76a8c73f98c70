"""The validator: the schema for types and single columns, and the rules, one fault one function."""

from thermowell_index.validator import assembly, element, fit, presence, reading, well

BEFORE_SIZING = ("reading", "presence", "well", "assembly", "element")
AFTER_SIZING = ("fit",)
FAMILIES = {
    "reading": reading,
    "presence": presence,
    "well": well,
    "assembly": assembly,
    "element": element,
    "fit": fit,
}
