"""What a remark says of the extension."""

import pytest

from thermowell_index.records.extension_remarks import ExtensionRemark, extension_remark


@pytest.mark.parametrize(
    "remark,said",
    [
        ("extension removed", {"gone": "extension", "was_there": True}),
        ("no nipple fitted", {"gone": "nipple"}),
        ("Halsrohr entfernt", {"gone": "neck tube", "was_there": True}),
        ("mamelon supprim\u00e9", {"gone": "nipple", "was_there": True}),
        ("union has been removed", {"gone": "union", "was_there": True}),
        ("nipple and union (to be removed)", {"gone": "union", "was_there": True}),
        ("union no longer fitted", {"gone": "union", "was_there": True}),
        ("Verl\u00e4ngerung entf\u00e4llt", {"gone": "extension", "was_there": True}),
        ("head now directly on well", {"gone": "extension"}),
        ("without union", {"gone": "union"}),
        ("bore depth incl. nipple", {"in_bore": "BORE DEPTH INCL. NIPPLE"}),
        ("bore depth measured through union", {"in_bore": "BORE DEPTH MEASURED THROUGH UNION"}),
        ("bore with extension wire", {}),
        ("ext. now 150 mm", {"length_mm": 150.0}),
        ("union added", {"came": "union"}),
        ("elbow fitted", {"came": "elbow"}),
        ("nipple now 50", {"length_mm": 50.0}),
        ("nipple measured 4-1/2 in", {"length_mm": 114.3}),
        ("extension installed length 100 mm", {"length_mm": 100.0, "came": "extension"}),
        ("nipple replaced with 150 mm", {"length_mm": 150.0, "changed": "NIPPLE REPLACED"}),
        ("nipple replaced", {"changed": "NIPPLE REPLACED"}),
        ("nipple replaced like for like", {}),
        ("extension wire replaced", {}),
        ("lagging extension removed", {}),
        ("nipple 1/2 NPT sch 80", {}),
        ("nipple measured 9999", {}),
        ("feed to column", {}),
    ],
)
def test_what_is_said_of_the_extension(remark: str, said: dict[str, object]) -> None:
    assert {name: value for name, value in vars(extension_remark(remark, "mm")).items() if value} == said


def test_a_length_without_any_unit_is_none() -> None:
    assert extension_remark("nipple now 50", "") == ExtensionRemark()
