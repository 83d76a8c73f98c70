import pytest

from thermowell_index.dictionary import FIELDS
from thermowell_index.reader.headings import HeadingDictionary, Match, normal_words, stacked


@pytest.mark.parametrize(
    "heading,words",
    [
        ("T/W O/A LG. (mm)", ("WELL", "OVERALL", "LENGTH")),
        ("TIP THK.", ("TIP", "THICKNESS")),
        ("Bore Ø [in]", ("BORE", "DIAMETER")),
        ("Bore (ID)", ("BORE", "INSIDE", "DIAMETER")),
        ("Gesamtlänge", ("OVERALL", "LENGTH")),
        ("Bohrungs-Ø", ("BORE", "DIAMETER")),
        ("Profondeur d'alésage", ("DEPTH", "BORE")),
        ("Spessore del fondo", ("THICKNESS", "BOTTOM")),
        ("TEMPERATURE ELEMENT TYPE", ("ELEMENT", "TYPE")),
        ("Tag #", ("TAG", "NUMBER")),
        ("T/C type", ("THERMOCOUPLE", "TYPE")),
        ("", ()),
    ],
)
def test_a_heading_is_brought_to_one_wording(heading: str, words: tuple[str, ...]) -> None:
    assert normal_words(heading) == words


@pytest.mark.parametrize(
    "heading,field",
    [
        ("O.A.L.", "overall_length"),
        ("O.A. LENGTH", "overall_length"),
        ("WELL MAT'L", "well_material"),
        ("RODDED DEPTH", "measured_bore_depth"),
        ("Depth of bore", "bore_depth"),
        ("Messeinsatzlänge", "probe_length"),
        ("Espesor de punta", "tip_thickness"),
        ("Insteeklengte", "insertion_length"),
        ("U", "insertion_length"),
        ("Spring tra-\nvel", "spring_travel"),
        ("BORE-\nDEPTH", "bore_depth"),
        ("DS No.", "data_sheet_number"),
        ("T/W datasheet no", "data_sheet_number"),
        ("Sensor data sheet", "data_sheet_number"),
        ("Bore depth (data sheet)", "bore_depth"),
        ("U (data sheet)", "insertion_length"),
    ],
)
def test_a_heading_names_one_field(headings: HeadingDictionary, heading: str, field: str) -> None:
    found = headings.matches(heading)
    assert (found[0].field, found[0].score) == (field, 1.0)
    assert not [match for match in found[1:] if match.score > 0.95]


@pytest.mark.parametrize("heading", ["Length", "L", "Well length", "Depth", "Bore", "Tip", "Extension", "Stem length"])
def test_a_heading_that_fits_several_fields_names_them_all_alike(headings: HeadingDictionary, heading: str) -> None:
    best, second, *_ = headings.matches(heading)
    assert best.score == second.score


@pytest.mark.parametrize("heading", ["Bore depth tolerance", "Old bore depth", "Vendor", "A", "Price", "x"])
def test_a_heading_of_another_thing_names_no_length(headings: HeadingDictionary, heading: str) -> None:
    assert headings.matches(heading) == ()


OF_OTHER_THINGS = """
    Nozzle ID | Vessel inside diameter | Gauge stem length | Gauge stem diameter | Bimetal stem length |
    Ext. wire length | Extension cable type | TW calc no | Well tag plate | Length overall of skid |
    Orifice bore diameter | Stilling well length | Stilling well ID | Level probe length | GWR probe
    length | Switch insertion length | Vibration probe length | Thermowell material cert | Well heat no
    | Sensor vendor | Sensor tag plate | % insertion | L/D | U/D | Well depth of water
"""


@pytest.mark.parametrize("heading", " ".join(OF_OTHER_THINGS.split()).split(" | "))
def test_what_is_said_of_other_things_is_not_said_of_the_well(headings: HeadingDictionary, heading: str) -> None:
    assert headings.matches(heading) == ()


def test_words_beside_the_wording_make_a_match_less_sure(headings: HeadingDictionary) -> None:
    assert headings.matches("Bore depth calc.")[0] == Match("bore_depth", 0.6, headings.matches("Bore depth")[0].order)


def test_where_a_figure_comes_from_is_passed_over(headings: HeadingDictionary) -> None:
    assert headings.matches("Bore depth (as built)")[0].field == "bore_depth"


def test_a_heading_that_the_user_names_comes_before_all(headings: HeadingDictionary) -> None:
    named = headings.with_names({"DIM. A": "overall_length"})
    assert [match.field for match in named.matches("dim.  a")] == ["overall_length"]
    assert headings.matches("Dim. A") == ()


def test_lengths_are_told_from_other_fields(headings: HeadingDictionary) -> None:
    assert headings.is_length("bore_depth")
    assert not headings.is_length("tag")


def test_the_levels_of_a_heading_are_read_together_and_apart() -> None:
    assert stacked(["WELL", "", "LENGTHS", "LENGTHS", "Bore"]) == ["WELL LENGTHS Bore", "LENGTHS Bore", "Bore"]


@pytest.mark.parametrize(
    "heading,field",
    [
        ("TW O/A length as found (in)", "overall_length"),
        ("Overall length (site measured)", "overall_length"),
        ("Bore depth verified at site 2019", "measured_bore_depth"),
        ("Bohrungstiefe vor Ort gemessen", "measured_bore_depth"),
        ("Extension length measured (in)", "installed_length"),
        ("Date measured", "measured_on"),
        ("Longueur hors tout", "overall_length"),
        ("Auslegungstemperatur (°C)", "design_temperature"),
        ("Linha", "line_number"),
        ("Ext. inst. length / mm", "installed_length"),
        ("FLG FACE TO TIP", "insertion_length"),
        ("TW STEM BORE DP.", "bore_depth"),
        ("1ST NIPPLE LG.", "nipple_length"),
        ("Existing stem length", "probe_length"),
        ("STATUS_CODE", "row_status"),
        ("Comprimento instalado da extensão (mm)", "installed_length"),
        ("Nipple installed length", "installed_length"),
        ("Longueur sonde en place (mm)", "probe_length"),
        ("Extensión de aislamiento T (pulg)", "lagging_length"),
        ("Nipple F/F", "installed_length"),
        ("Ext. Lg (F-F)", "installed_length"),
        ("Extension in place", "installed_length"),
        ("Extension fitted length", "installed_length"),
        ("Ext. overall as assembled", "installed_length"),
        ("Extn. Assy. Length After Make-up", "installed_length"),
        ("Longueur extension montée", "installed_length"),
        ("Ingebouwde lengte verlengstuk", "installed_length"),
        ("Extension type fitted", "extension_arrangement"),
        ("Nipple length as purchased [mm]", "nipple_length"),
        ("Nipple lg. as ordered", "nipple_length"),
        ("Nipple 2 Length (bought)", "second_nipple_length"),
        ("EQ_STATUS", "row_status"),
        ("Rec. status", "row_status"),
        ("EQUIP_ID", "tag"),
        ("EQUIP_DESC", "service"),
        ("Messgerät", "instrument_type"),
        ("Rod depth", "measured_bore_depth"),
        ("Base thickness", "tip_thickness"),
        ("Épaisseur de pointe", "tip_thickness"),
        ("In kind", "replaced_in_kind"),
        ("Old probe length", "probe_length"),
        ("Length of old sensor", "probe_length"),
        ("N-U-N length", "extension_length"),
        ("Extension ass'y length installed", "installed_length"),
        ("Sensor type (RTD/TC)", "sensor_type"),
        ("Messf\u00fchler", "sensor_type"),
        ("Probe L installed (mm)", "probe_length"),
        ("Lungh. termocoppia attuale (mm)", "probe_length"),
        ("Lunghezza ordinata", "ordered_length"),
        ("Tube prolongateur / Longueur", "extension_length"),
        ("Client note", "remarks"),
        ("Status / remarks", "remarks"),
        ("How sensor is held", "sensor_mounting"),
        ("UoM", "length_unit"),
        ("Bore depth as measured by vendor", "measured_bore_depth"),
        ("Qty / to buy", "quantity_wanted"),
        ("No. off", "quantity_wanted"),
        ("Order no.", "order_number"),
        ("Thermowell (Y/N)", "has_well"),
        ("Sensor length, reqd", "probe_length"),
        ("Proposed sensor length", "probe_length"),
        ("Quantity required", "quantity_wanted"),
        ("Btm thk", "tip_thickness"),
        ("Esp. do fundo", "tip_thickness"),
        ("Extension Lgth As Fitted (face to face)", "installed_length"),
        ("Verlenging gemonteerd", "installed_length"),
        ("Compr. niple", "nipple_length"),
        ("Lower nipple lg as bought", "nipple_length"),
        ("Schutzrohr GL", "overall_length"),
        ("LOA", "overall_length"),
        ("End-to-end length", "overall_length"),
        ("SNSR_LGTH_IN", "probe_length"),
        ("Lengte meetelement", "probe_length"),
        ("EQ_TYPE_CD", "instrument_type"),
    ],
)
def test_a_length_that_was_measured_is_read_as_that_length(heading: str, field: str) -> None:
    assert HeadingDictionary(FIELDS).matches(heading)[0].field == field


@pytest.mark.parametrize(
    "heading",
    [
        "Nipple length as found",
        "Weight as found",
        "Sensor overall length",
        "Net extension length",
        "O/A length well + nipple",
        "Overall length of well and extension",
        "Bore depth from thread",
        "Kind",
        "Total length of thermometer",
        "Overall length of T/E",
        "Gesamtlänge Temperaturfühler",
        "Longueur totale thermomètre",
        "Well & nipple lg",
        "Schutzrohr + Nippel Länge",
        "Wetted bore depth",
        "Bore depth (U)",
        "Bore depth from weld",
        "Profondità foro da filetto",
        "Bohrtiefe ab Flansch",
        "Bore depth reqd",
        "Proposed bore depth",
        "Bohrtiefe Soll",
        "Profondeur souhaitée perçage",
        "Ordered overall length",
        "Bore depth, measured, replaced well",
        "Proposed extension length",
        "Proposed tag",
        "Bore depth to be measured",
        "Cable notes",
        "K length",
        "Length H",
    ],
)
def test_a_heading_that_names_no_length_for_certain_names_none(heading: str) -> None:
    assert HeadingDictionary(FIELDS).matches(heading) == ()


def test_an_extension_as_found_is_its_kind_or_what_it_adds() -> None:
    found = HeadingDictionary(FIELDS).matches("Extension as found")
    assert {match.field for match in found} == {"extension_arrangement", "installed_length"}
