from collections import Counter

import pytest

from thermowell_index.dictionary import FIELD, FIELDS, LENGTH_FIELDS, SENSOR_FIELDS, WELL_FIELDS
from thermowell_index.reader.headings import HeadingDictionary, normal_words
from thermowell_index.table import Field, Kind

# Wordings that fit several lengths on purpose: the values decide, or nobody does.
SHARED = {
    "LENGTH", "L", "LENGTH L", "WELL LENGTH", "WELL LENGTH L", "DEPTH", "WELL DEPTH", "STEM LENGTH", "BORE",
    "WELL BORE", "BD",
    "TIP", "WELL TIP", "MEASURED", "AS FOUND", "FIELD MEASURED", "SITE MEASURED", "EXTENSION", "HEAD EXTENSION", "NECK",
    "NECK TUBE", "HALSROHR", "HALS", "NIPPLE", "NIPPLE SIZE", "SHEATH", "INSTALLED", "SENSOR INSERTION LENGTH",
}  # fmt: skip


@pytest.mark.parametrize("entry", FIELDS, ids=lambda entry: entry.name)
def test_an_entry_is_known_by_its_name_and_says_what_it_means(entry: Field) -> None:
    assert FIELD[entry.name] is entry
    assert entry.label == entry.name.replace("_", " ")
    assert entry.help
    assert entry.group in {"identity", "well", "assembly", "sensor", "order", "process"}


@pytest.mark.parametrize("entry", FIELDS, ids=lambda entry: entry.name)
def test_lengths_and_only_lengths_have_a_plausible_range(entry: Field) -> None:
    assert (entry.fits is not None) == (entry.kind is Kind.LENGTH)
    if entry.fits is not None:
        assert 0 <= entry.fits[0] < entry.fits[1]


@pytest.mark.parametrize("name", LENGTH_FIELDS)
def test_the_label_of_a_length_names_it_alone(name: str) -> None:
    best, *others = HeadingDictionary(FIELDS).matches(FIELD[name].label)
    assert (best.field, best.score) == (name, 1.0)
    assert all(match.score < 1.0 for match in others)


def test_no_wording_is_empty_or_given_twice() -> None:
    for entry in FIELDS:
        assert all(normal_words(wording) for wording in entry.headings), entry.name


def test_a_wording_that_fits_several_lengths_is_meant_to() -> None:
    bearers: dict[frozenset[str], set[str]] = {}
    for entry in FIELDS:
        if entry.kind is Kind.LENGTH:
            for wording in entry.headings:
                bearers.setdefault(frozenset(normal_words(wording)), set()).add(entry.name)
    shared = {words for words, names in bearers.items() if len(names) > 1}
    assert shared <= {frozenset(normal_words(wording)) for wording in SHARED}


def test_no_field_is_named_twice() -> None:
    assert max(Counter(entry.name for entry in FIELDS).values()) == 1


def test_fields_are_grouped_for_the_records() -> None:
    assert {"bore_depth", "overall_length", "well_connection"} <= set(WELL_FIELDS)
    assert {"sensor_mounting", "probe_length", "nipple_length"} <= set(SENSOR_FIELDS)
    assert not set(WELL_FIELDS) & set(SENSOR_FIELDS)
