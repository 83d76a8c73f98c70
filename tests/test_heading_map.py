from thermowell_index.heading_map import MappedHeading, folded


def test_a_heading_is_meant_whatever_its_case_and_blanks() -> None:
    wanted = MappedHeading(headings=("Bore  depth", "column F"))
    assert wanted.is_meant("BORE\ndepth")
    assert wanted.is_meant("Column f")
    assert not wanted.is_meant("Bore")


def test_a_folded_heading_has_capitals_and_single_blanks() -> None:
    assert folded(" bore\n depth ") == "BORE DEPTH"
