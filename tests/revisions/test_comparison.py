"""A comparison as text and back."""

import pytest

from thermowell_index.revisions.comparison import Block, Comparison, comparison_from_text

COMPARISON = Comparison(
    sentences=["Compared with A."],
    blocks=[Block(title="Cells", headings=("Tag", "Row"), lines=[("TE-1", 5), ("TE-2", None)], is_loud=True)],
)


def test_a_comparison_is_read_back_as_it_was() -> None:
    assert comparison_from_text(COMPARISON.as_text()) == COMPARISON


@pytest.mark.parametrize("text", ["{", "{}", '{"blocks": [1], "sentences": []}', "[]"])
def test_a_damaged_one_is_a_value_error(text: str) -> None:
    with pytest.raises(ValueError, match=r"\w"):
        comparison_from_text(text)
