"""Tabs and names of the workbook part."""

from collections.abc import Callable

import pytest

from thermowell_index.errors import OutputError
from thermowell_index.ooxml import Package
from thermowell_index.ooxml.draft import Draft
from thermowell_index.ooxml.workbook_edit import NewName, NewTab, add_to_workbook, remove_from_workbook

Plain = Callable[..., Package]
NS = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
RELATIONS = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
WORKBOOK = "xl/workbook.xml"


def workbook(inside: str) -> str:
    return f'<workbook xmlns="{NS}" xmlns:r="{RELATIONS}">{inside}</workbook>'


def three_tabs(names: str = "", views: str = "") -> dict[str, str]:
    """Parts of a workbook with tabs A, B & C and D."""
    tabs = zip(("A", "B &amp; C", "D's"), ("1", "4", "2"), ("", ' state="hidden"', ""), strict=True)
    listed = "".join(f'<sheet name="{n}" sheetId="{i}"{s} r:id="rId{i}"/>' for n, i, s in tabs)
    rels = "".join(
        f'<Relationship Id="rId{i}" Type="{RELATIONS}/worksheet" Target="worksheets/sheet{i}.xml"/>' for i in (1, 4, 2)
    )
    namespace = "http://schemas.openxmlformats.org/package/2006/relationships"
    return {
        WORKBOOK: workbook(f"{views}<sheets>{listed}</sheets>{names}<calcPr/>"),
        "xl/_rels/workbook.xml.rels": f'<Relationships xmlns="{namespace}">{rels}</Relationships>',
        "xl/worksheets/sheet2.xml": f'<worksheet xmlns="{NS}"><sheetData/></worksheet>',
        "xl/worksheets/sheet4.xml": f'<worksheet xmlns="{NS}"><sheetData/></worksheet>',
    }


def added(package: Package, tabs: list[NewTab], names: list[NewName]) -> str:
    draft = Draft(package)
    add_to_workbook(draft, tabs, names)
    return draft.part(WORKBOOK).decode()


def removed(package: Package, sheets: list[str], marks: list[str] | None = None) -> str:
    draft = Draft(package)
    remove_from_workbook(draft, sheets, marks or [])
    return draft.part(WORKBOOK).decode()


def test_tabs_are_appended_with_numbers_of_their_own(plain: Plain) -> None:
    tabs = [NewTab(name="Q & <A>", relation="rId8", state="visible"), NewTab(name="H", relation="rId9", state="hidden")]
    made = added(plain(parts=three_tabs()), tabs, [])
    assert f'<sheet xmlns:r="{RELATIONS}" name="Q &amp; &lt;A&gt;" sheetId="5" r:id="rId8"/>' in made
    assert 'name="H" sheetId="6" state="hidden" r:id="rId9"/></sheets>' in made


@pytest.mark.parametrize("name", ["Index", "INDEX"])
def test_a_tab_name_that_is_taken_is_refused(plain: Plain, name: str) -> None:
    with pytest.raises(OutputError, match=f"has a sheet '{name}' already"):
        added(plain(), [NewTab(name=name, relation="rId8", state="visible")], [])


def test_names_are_put_where_the_schema_wants_them(plain: Plain) -> None:
    names = [
        NewName(name="_ours", reference="'A & B'!$A$1", is_hidden=True),
        NewName(name="_xlnm.Print_Titles", reference="A!$1:$1", tab=2),
    ]
    markup = (
        '<definedName name="_ours" hidden="1">\'A &amp; B\'!$A$1</definedName>'
        '<definedName name="_xlnm.Print_Titles" localSheetId="2">A!$1:$1</definedName>'
    )
    assert f"</sheets><definedNames>{markup}</definedNames><calcPr/>" in added(plain(parts=three_tabs()), [], names)
    held = three_tabs('<definedNames><definedName name="x">1</definedName></definedNames>')
    assert f'<definedName name="x">1</definedName>{markup}</definedNames>' in added(plain(parts=held), [], names)
    assert f"</sheets><definedNames>{markup}</definedNames></workbook>" in added(plain(), [], names)


def test_a_defined_name_that_is_taken_is_refused(plain: Plain) -> None:
    held = three_tabs('<definedNames><definedName name="Mark">1</definedName></definedNames>')
    with pytest.raises(OutputError, match="defines the name 'mark' already"):
        added(plain(parts=held), [], [NewName(name="mark", reference="1")])
    assert 'localSheetId="0"' in added(plain(parts=held), [], [NewName(name="mark", reference="1", tab=0)])


def test_nothing_to_add_changes_nothing(plain: Plain) -> None:
    package = plain()
    assert added(package, [], []) == package.part(WORKBOOK).decode()


def test_a_tab_goes_with_the_names_that_point_to_it(plain: Plain) -> None:
    names = (
        '<definedNames><definedName name="a">A!$A$1</definedName><definedName name="b">\'B &amp; C\'!$A$1</definedName>'
        '<definedName name="t" localSheetId="0">1</definedName><definedName name="t" localSheetId="1">2</definedName>'
        '<definedName name="t" localSheetId="2">3</definedName>'
        '<definedName name="sum">SUM(A!$A$1,BA!$B$1)</definedName></definedNames>'
    )
    made = removed(plain(parts=three_tabs(names)), ["B & C"])
    assert "B &amp; C" not in made
    assert '<definedName name="t" localSheetId="0">1<' in made
    assert '<definedName name="t" localSheetId="1">3<' in made
    assert 'name="a"' in made
    assert 'name="sum"' in made
    assert 'name="b"' not in made


def test_a_sheet_is_not_mistaken_for_one_whose_name_ends_alike(plain: Plain) -> None:
    names = (
        '<definedNames><definedName name="a">BA!$A$1</definedName><definedName name="b">[1]A!$A$1</definedName>'
        "<definedName name=\"c\">'D''s'!$A$1</definedName></definedNames>"
    )
    kept = removed(plain(parts=three_tabs(names)), ["A"])
    assert all(f'name="{name}"' in kept for name in "abc")
    assert 'name="c"' not in removed(plain(parts=three_tabs(names)), ["D's"])


def test_marks_are_taken_out_by_name(plain: Plain) -> None:
    names = (
        '<definedNames><definedName name="_m" hidden="1">A!$A$1</definedName>'
        '<definedName name="_m" localSheetId="0">1</definedName></definedNames>'
    )
    assert removed(plain(parts=three_tabs(names)), [], ["_m"]).count("_m") == 1


def test_an_emptied_list_of_names_is_taken_out_or_closed_again(plain: Plain) -> None:
    for names in ("", "<definedNames/>"):
        package = plain(parts=three_tabs(names))
        draft = Draft(package)
        add_to_workbook(draft, [], [NewName(name="_m", reference="1")])
        copy = Package.from_bytes(draft.to_bytes(), package.path)
        assert removed(copy, [], ["_m"]) == package.part(WORKBOOK).decode()


@pytest.mark.parametrize(
    "view, gone, expected",
    [
        ('activeTab="2"', ["A"], 'activeTab="1"'),
        ('activeTab="2" firstSheet="1"', ["D's"], 'activeTab="0" firstSheet="1"'),
        ('activeTab="1"', ["B & C", "A"], 'activeTab="0"'),
        ('activeTab="0"', ["D's"], 'activeTab="0"'),
        ("", ["A"], ""),
    ],
)
def test_the_workbook_opens_on_a_tab_that_stays(plain: Plain, view: str, gone: list[str], expected: str) -> None:
    views = f"<bookViews><workbookView {view}/></bookViews>"
    assert f"<workbookView {expected}/>" in removed(plain(parts=three_tabs(views=views)), gone)
