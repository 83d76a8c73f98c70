import pytest

from thermowell_index.records.words import (
    arrangement_of,
    folded,
    mounting_of,
    remark_deletes,
    says,
    says_no_extension,
    service_says_gone,
    speak_of_extensions,
    speak_of_mountings,
    state_of,
    tag_says_gone,
)


def test_a_text_is_compared_without_accents_case_and_blanks() -> None:
    assert folded("  gelöscht,\n Straße ") == "GELOSCHT, STRASSE"


def test_a_blank_says_nothing() -> None:
    assert not says("RTD", "")
    assert says("RTD", "3-wire rtd")


@pytest.mark.parametrize(
    "text,mounting",
    [
        ("Spring-loaded fitting", "spring-loaded fitting"),
        ("S/L 1/2 NPT fitting", "spring-loaded fitting"),
        ("SPRING LOADED 1/2NPT", "spring-loaded fitting"),
        ("gefederte Verschraubung", "spring-loaded fitting"),
        ("raccord à ressort", "spring-loaded fitting"),
        ("racor con muelle", "spring-loaded fitting"),
        ("raccordo a molla", "spring-loaded fitting"),
        ("conexão com mola", "spring-loaded fitting"),
        ("Spring-loaded insert", "spring-loaded insert"),
        ("gefederter Einsatz", "spring-loaded insert"),
        ("Messeinsatz DIN 43735", "flanged insert"),
        ("Fixed fitting", "fixed fitting"),
        ("starre Verschraubung", "fixed fitting"),
        ("Compression fitting", ""),
        ("spring loaded 1/4 tube fitting", ""),
        ("Compr. ftg", ""),
        ("Spring loaded in connection head", ""),
        ("Spring loaded fitting - TBC", ""),
        ("Spring loaded fitting (to be confirmed)", ""),
        ("Spring loaded fitting (confirmed)", "spring-loaded fitting"),
        ("Spring loaded fitting, spring removed", ""),
        ("Insert, not sprung", ""),
        ("was fixed, now spring-loaded fitting", ""),
        ("spring-loaded fitting (was fixed fitting)", ""),
        ("fixed fitting -> spring-loaded fitting", ""),
        ("spring-loaded fitting instead of fixed fitting", ""),
        ("not a fixed fitting", ""),
        ("spring-loaded fitting / insert", ""),
        ("Fixed fitting, no spring", "fixed fitting"),
        ("Fixed / spring loaded", ""),
        ("gefederter Messeinsatz, lose", "spring-loaded insert"),
        ("loser Messeinsatz mit Feder", "spring-loaded insert"),
        ("gefederter Messeinsatz", "flanged insert"),
        ("loose insert", "spring-loaded insert"),
        ("insert, loose", "spring-loaded insert"),
        ("collar fitting, parallel thread", "spring-loaded fitting"),
        ("spring loaded G1/2 collar", "spring-loaded fitting"),
        ("spring loaded insert with collar", "spring-loaded insert"),
        ("fixed collar fitting", "fixed fitting"),
        ("collar fitting", ""),
        ("Spring loaded insert in connection head", "spring-loaded insert"),
        ("veerbelast meetelement", "spring-loaded insert"),
        ("Spring loaded", ""),
        ("Spring-loaded fitting or insert", ""),
        ("Spring-loaded fitting / fixed fitting", ""),
        ("whatever", ""),
        ("", ""),
    ],
)
def test_a_mounting_is_named_for_certain_or_not_at_all(text: str, mounting: str) -> None:
    assert mounting_of(text) == mounting


@pytest.mark.parametrize(
    "text,arrangement",
    [
        ("None", "none"),
        ("-", "none"),
        ("N/A", "none"),
        ("ohne", "none"),
        ("sans", "none"),
        ("geen", "none"),
        ("Nipple", "nipple"),
        ("N/U/N", "nipple-union-nipple"),
        ("Nipple and union", "nipple and union"),
        ("Nipplo e giunto", "nipple and union"),
        ("nipplo e manicotto", "nipple and coupling"),
        ("Nippel + Muffe", "nipple and coupling"),
        ("Halsrohr", "neck tube"),
        ("Union", "union"),
        ("TBD", ""),
        ("?", ""),
        ("coupling", ""),
        ("bracket", ""),
        ("nipple or union", ""),
        ("fitting screwed in, nipple above", "none"),
    ],
)
def test_an_arrangement_is_named_for_certain_or_not_at_all(text: str, arrangement: str) -> None:
    assert arrangement_of(text) == arrangement


def test_only_words_say_that_there_is_no_extension() -> None:
    assert says_no_extension("none.")
    assert not says_no_extension("")
    assert not says_no_extension("nipple")


def test_a_column_speaks_of_mountings_when_most_of_its_cells_do() -> None:
    assert speak_of_mountings(["Spring-loaded fitting", "TBD", "Fixed fitting"])
    assert not speak_of_mountings(["Spring-loaded fitting", "stainless steel"])
    assert not speak_of_mountings(["TBD", ""])


def test_a_column_of_nothing_but_none_does_not_speak_of_extensions() -> None:
    assert speak_of_extensions(["none", "nipple", "nipple and union", "-"])
    assert not speak_of_extensions(["none", "no", "-"])
    assert not speak_of_extensions(["nipple", "carbon steel"])


@pytest.mark.parametrize(
    "text,state",
    [
        ("", "live"),
        ("TBD", "live"),
        ("Live", "live"),
        ("not deleted", "live"),
        ("HOLD", "live"),
        ("B", "live"),
        ("in Betrieb", "live"),
        ("I/S", "live"),
        ("Rückgebaut", "deleted"),
        ("never installed", "deleted"),
        ("Mothballed", "unknown"),
        ("Inactive", "not there"),
        ("Not in service", "not there"),
        ("hors service", "not there"),
        ("Fuera de servicio", "not there"),
        ("ausser Betrieb", "not there"),
        ("Blanked off", "not there"),
        ("Redundant pair", "unknown"),
        ("Deleted", "deleted"),
        ("entfällt", "deleted"),
        ("supprimé", "deleted"),
        ("Démonté", "deleted"),
        ("Desmontado", "deleted"),
        ("Suprimido", "deleted"),
        ("anulado", "deleted"),
        ("annullato", "deleted"),
        ("cancelado", "deleted"),
        ("vervallen", "deleted"),
        ("Spare", "not there"),
        ("future", "not there"),
        ("not in scope", "not there"),
        ("purple", "unknown"),
        ("soppresso", "deleted"),
        ("esistente", "live"),
    ],
)
def test_a_status_word_is_known_or_said_to_be_unknown(text: str, state: str) -> None:
    assert state_of(text) == state


@pytest.mark.parametrize(
    "remark,is_out",
    [
        ("Deleted", True),
        ("DELETED - MOC-1234", True),
        ("Deleted rev 3", True),
        ("Tag TE-101 deleted", True),
        ("TE-101: is deleted", True),
        ("TE-105 deleted", False),
        ("Future", True),
        ("SPARE point.", True),
        ("not in scope", True),
        ("spare element fitted", False),
        ("SPARE - not wired", True),
        ("Future: install in 2027", True),
        ("Spare: 1 off in store", False),
        ("Spare (see TE-110)", False),
        ("Future flare tie-in by others", False),
        ("future use as interlock", False),
        ("deleted TE-101", True),
        ("deleted TE-105", False),
        ("to be deleted", True),
        ("insulation deleted", False),
        ("", False),
    ],
)
def test_a_remark_deletes_its_own_row_only(remark: str, is_out: bool) -> None:  # noqa: FBT001 - a column of the table
    assert remark_deletes(remark, "TE-101") == is_out


@pytest.mark.parametrize(
    "tag,is_gone",
    [
        ("TE-101 (DELETED)", True),
        ("TE-101 spare", True),
        ("TE-101A - VOID", True),
        ("TE-101", False),
        ("TE-101 DUPLEX", False),
        ("SPARE-101", False),
    ],
)
def test_a_tag_may_say_that_it_is_gone(tag: str, is_gone: bool) -> None:  # noqa: FBT001 - a column of the table
    assert tag_says_gone(tag) == is_gone


@pytest.mark.parametrize(
    "service,is_gone",
    [
        ("DELETED", True),
        ("Deleted - was reflux", True),
        ("Not used", True),
        ("Removed solids tank", False),
        ("Reflux", False),
        ("", False),
    ],
)
def test_a_service_may_say_that_there_is_none(service: str, is_gone: bool) -> None:  # noqa: FBT001 - a column of the table
    assert service_says_gone(service) is is_gone
