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
        ("elbow fitted", {"came": "elbow", "stands": True}),
        ("nipple now 50", {"length_mm": 50.0}),
        ("nipple measured 4-1/2 in", {"length_mm": 114.3}),
        ("extension installed length 100 mm", {"length_mm": 100.0, "came": "extension", "stands": True}),
        ("nipple replaced with 150 mm", {"length_mm": 150.0, "changed": "NIPPLE REPLACED"}),
        ("nipple replaced", {"changed": "NIPPLE REPLACED"}),
        ("nipple replaced like for like", {}),
        ("union replaced, same type", {}),
        ("fitted with 100 mm extension", {"stands": True}),
        ("nipple present", {"stands": True}),
        ("nipple 150 mm", {"stands": True, "length_mm": 150.0}),
        ("additional nipple fitted 2020", {"came": "another", "stands": True}),
        ("replaced by 6 in nipple and union", {"stands": True, "length_mm": 152.4}),
        ("installed length 100 mm measured", {"length_mm": 100.0}),
        ("bore depth = well bore + extension", {"in_bore": "BORE DEPTH = WELL BORE + EXTENSION"}),
        ("conduit union replaced", {}),
        ("coupling of pump realigned", {}),
        ("giunto del cavo sostituito", {}),
        ("nipple greased", {}),
        ("lagging extension fitted 75 mm", {}),
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
