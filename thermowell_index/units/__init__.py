"""Text of a dimension cell into an exact number and its unit; lengths to millimetres and back.

The only importer of pint, and only inside `conversion`, when the first length is converted.
"""

from thermowell_index.units.cell_formats import dimension_of_number, shown_number, shown_text
from thermowell_index.units.conversion import format_length, to_mm
from thermowell_index.units.dimension import Dimension, parse_dimension
from thermowell_index.units.eaten_dates import date_as_typed
from thermowell_index.units.headings import unit_of_words
from thermowell_index.units.quantities import METRIC, DimensionState
from thermowell_index.units.remarks import is_placeholder

__all__ = [
    "METRIC",
    "Dimension",
    "DimensionState",
    "date_as_typed",
    "dimension_of_number",
    "format_length",
    "is_placeholder",
    "parse_dimension",
    "shown_number",
    "shown_text",
    "to_mm",
    "unit_of_words",
]
