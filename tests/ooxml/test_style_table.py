"""What a style index stands for."""

from thermowell_index.ooxml.style_table import StyleTable, read_style_table

NS = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"


STYLES = (
    f'<styleSheet xmlns="{NS}"><numFmts count="2"><numFmt numFmtId="164" formatCode="0.0&quot; mm&quot;"/>'
    '<numFmt numFmtId="165" formatCode="yyyy\\-mm"/></numFmts>'
    '<fonts><font/><font><strike/></font><font><strike val="0"/></font></fonts>'
    '<fills><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill>'
    '<fill><patternFill patternType="solid"><fgColor theme="4"/></patternFill></fill>'
    '<fill><patternFill patternType="solid"><fgColor rgb="ffc7ce"/></patternFill></fill>'
    '<fill><patternFill patternType="solid"><fgColor rgb="FF00FF00"/></patternFill></fill>'
    '<fill><patternFill patternType="solid"/></fill><fill><gradientFill/></fill></fills>'
    '<cellXfs><xf/><xf numFmtId="164" fontId="1" fillId="3"/><xf numFmtId="165" fontId="2" fillId="4"/>'
    '<xf numFmtId="14" fillId="2"/><xf numFmtId="999" fillId="5"/><xf numFmtId="12" fillId="6"/><xf fillId="99"/>'
    "</cellXfs></styleSheet>"
)


def table() -> StyleTable:
    return read_style_table(STYLES.encode(), "part")


def test_number_formats_are_resolved() -> None:
    formats = [table().number_format(style) for style in range(7)]
    assert formats == ["General", '0.0" mm"', "yyyy\\-mm", "mm-dd-yy", "General", "# ?/?", "General"]
    assert table().number_format(99) == "General"
    assert table().number_format(-1) == "General"


def test_dates_and_struck_fonts_are_known() -> None:
    assert table().dates == {2, 3}
    assert table().struck == {1}


def test_only_a_solid_fill_of_its_own_colour_counts() -> None:
    assert table().fills == {1: "FFFFC7CE", 2: "FF00FF00"}


def test_an_empty_style_part_means_general() -> None:
    assert read_style_table(f'<styleSheet xmlns="{NS}"/>'.encode(), "part").number_format(0) == "General"
