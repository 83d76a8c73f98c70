"""The sentences of the working that lead from the seat plane to the order: tolerances, limits, length, what is left."""

from thermowell_index.sizing.assembly import FITTINGS, Mounting
from thermowell_index.sizing.chain import OVERALL_LESS_ASSUMED_TIP
from thermowell_index.sizing.order import NANOMETRES_IN_A_MILLIMETRE
from thermowell_index.sizing.phrases import Phrases, Term

COMPUTED = ("computed", "probe_length_computed_mm")
ORDER = ("order", "probe_length_order_mm")
SHORTEST = ("shortest", "shortest_fit_mm")
LONGEST = ("longest", "longest_fit_mm")
SEAT_PLANE = ("seat plane", "seat_plane_mm")
TRAVEL = ("travel", "travel_mm")
PRELOAD = ("preload", "preload_used_mm")
RESERVE = ("reserve", "reserve_used_mm")
TAKEN_AWAY = ("tolerances that take away", "stack_minus_mm")
ADDED = ("tolerances that add", "stack_plus_mm")
LEFT_OUT = "what the maker's length leaves out"
# What the second tolerance of a bore depth is of, where it is not that of a tip.
OLD_SENSOR = "old sensor in place"
TURN_KEYS = (
    ("well_joints", "well_turn_mm"),
    ("extension_joints", "extension_turn_mm"),
    ("seat_joints", "seat_turn_mm"),
)


def fit_sentences(*, phrases: Phrases) -> list[str]:
    """Sentences from the tolerances to the length to order and the compression that it leaves.

    Parameters
    ----------
    phrases : Phrases
        A row that has a computed length [mm], see `working_text`.

    Returns
    -------
    list of str
        Sentences without their separators, lengths in the row's unit.

    Raises
    ------
    TypeError
        If the row's `show` cannot show a number.

    Notes
    -----
    S- and S+ are written as the amounts under the root, so that they can be added up again.

    Source: geometry.

    Examples
    --------
    >>> row = {"mounting": "fixed fitting", "seat_plane_mm": 216.0, "bottom_gap_mm": 3.0, "least_gap_mm": 2.0,
    ...        "most_gap_mm": 12.0, "stack_minus_mm": 4.0, "stack_plus_mm": 4.0, "shortest_fit_mm": 204.0,
    ...        "longest_fit_mm": 210.0, "probe_length_computed_mm": 213.0, "probe_length_order_mm": 210.0,
    ...        "gap_mm": 6.0, "increment_nm": 5_000_000, "probe_tolerance_mm": 4.0}
    >>> fit_sentences(phrases=Phrases(row=row, show="{:.0f} mm".format))[-2:]
    ['order 210 mm, on the 5 mm increment the greatest length from shortest to longest',
     'gap 6 mm = seat plane 216 mm less order 210 mm']
    """
    is_fixed = phrases.word("mounting") == Mounting.FIXED_FITTING
    if phrases.word("mounting") == Mounting.ADJUSTABLE_FITTING:
        return _adjustable_sentences(phrases)
    limits = _fixed_limit_sentences(phrases) if is_fixed else _limit_sentences(phrases)
    sentences = [*_tolerance_sentences(phrases), *limits, _computed_sentence(phrases, is_fixed=is_fixed)]
    sentences.append(_order_sentence(phrases, is_fixed=is_fixed))
    if phrases.knows(ORDER[1]):
        sentences += [_gap_sentence(phrases)] if is_fixed else _compression_sentences(phrases)
    if phrases.knows("stated_probe_mm"):
        sentences += _stated_sentences(phrases, is_fixed=is_fixed)
    return sentences


def _adjustable_sentences(phrases: Phrases) -> list[str]:
    """Return the sentences of a fitting that clamps any sheath long enough."""
    grid = _grid(phrases)
    order = f"order {phrases.shown(ORDER[1])}, {grid} the least length that is no shorter"
    return [
        _tolerance_sentences(phrases)[0],
        _sum(phrases, SHORTEST, (*SEAT_PLANE, 1), (*TAKEN_AWAY, 1)),
        "no longest: the fitting clamps the sheath wherever it is pushed to the bottom",
        order if phrases.knows(ORDER[1]) else f"no length {grid} is that long",
    ]


def _sum(phrases: Phrases, result: tuple[str, str], *terms: tuple[str, str, int]) -> str:
    name, key = result
    parts = [phrases.term(label, term_key, sign=sign) for label, term_key, sign in terms]
    return phrases.equation(name, phrases.length(key), parts)


def _tip_range(phrases: Phrases, key: str) -> float:
    """Part of an assumed tip's range that moves a limit as a whole, 0 where it stands under the root."""
    is_assumed = phrases.word("bore_depth_basis") == OVERALL_LESS_ASSUMED_TIP
    return phrases.length(key) if is_assumed and not phrases.row.get("assumed_tip_decides") else 0.0


def _tolerance_sentences(phrases: Phrases) -> list[str]:
    return [
        _tolerance_sentence(phrases, TAKEN_AWAY, bore_key="bore_deeper_mm", tip="thinner", growth_sign=1),
        _tolerance_sentence(phrases, ADDED, bore_key="bore_shallower_mm", tip="thicker", growth_sign=-1),
    ]


def _tolerance_sentence(phrases: Phrases, result: tuple[str, str], *, bore_key: str, tip: str, growth_sign: int) -> str:
    tip_key = f"tip_{tip}_mm"
    outside_mm = _tip_range(phrases, tip_key)
    by_old_sensor = OLD_SENSOR in {phrases.word("bore_depth_basis"), phrases.word("extension_range")}
    carried_mm = phrases.length("carried_minus_mm" if growth_sign > 0 else "carried_plus_mm")
    amounts = [
        phrases.term("probe and threads of the old sensor" if by_old_sensor else "bore depth", bore_key),
        phrases.term("compression found" if by_old_sensor else "tip", "bore_second_mm"),
        Term("assumed tip", phrases.length(tip_key) if phrases.row.get("assumed_tip_decides") else 0.0),
        phrases.term("probe length", "probe_tolerance_mm"),
        phrases.term("extension", "extension_tolerance_mm"),
        *_turns(phrases),
        Term("hot growth", max(growth_sign * phrases.length("growth_mm"), 0.0)),
    ]
    listed = ", ".join(f"{label} {phrases.show(abs(mm))}" for label, mm, _ in amounts if abs(mm) > 0.0)
    rule = "sum" if phrases.row.get("worst_case") else "root-sum-square"
    outside = f"{tip} tip {phrases.show(outside_mm)}" if outside_mm else ""
    carried = f"credible range {phrases.show(carried_mm)}" if carried_mm > 0 else ""
    under = f"{rule} of {listed}" if listed else ""
    text = " plus ".join(part for part in (outside, carried, under) if part) or "none"
    return f"{result[0]} {phrases.shown(result[1])} = {text}"


def _turns(phrases: Phrases) -> list[Term]:
    """Count the turns of the threads, those of one pitch together."""
    counts: dict[float, int] = {}
    for count_key, turn_key in TURN_KEYS:
        if phrases.knows(count_key) and phrases.length(count_key) > 0:
            turn_mm = phrases.length(turn_key)
            counts[turn_mm] = counts.get(turn_mm, 0) + int(phrases.length(count_key))
    return [Term(f"{count} thread turn{'s' if count > 1 else ''} of", turn_mm) for turn_mm, count in counts.items()]


def _limit_sentences(phrases: Phrases) -> list[str]:
    travel = "least travel" if phrases.row.get("travel_is_carried") else TRAVEL[0]
    return [
        _sum(phrases, SHORTEST, (*SEAT_PLANE, 1), (*PRELOAD, 1), (*TAKEN_AWAY, 1)),
        _sum(phrases, LONGEST, (*SEAT_PLANE, 1), (travel, TRAVEL[1], 1), (*RESERVE, -1), (*ADDED, -1)),
    ]


def _fixed_limit_sentences(phrases: Phrases) -> list[str]:
    shortest = phrases.equation(
        SHORTEST[0],
        phrases.length(SHORTEST[1]),
        [
            phrases.term(*SEAT_PLANE),
            Term("thinner tip", _tip_range(phrases, "tip_thinner_mm")),
            Term("credible range", phrases.length("carried_minus_mm") if phrases.knows("carried_minus_mm") else 0.0),
            phrases.term("most gap", "most_gap_mm", sign=-1),
        ],
    )
    return [shortest, _sum(phrases, LONGEST, (*SEAT_PLANE, 1), ("least gap", "least_gap_mm", -1), (*ADDED, -1))]


def _computed_sentence(phrases: Phrases, *, is_fixed: bool) -> str:
    if is_fixed:
        return _sum(phrases, COMPUTED, (*SEAT_PLANE, 1), ("bottom gap", "bottom_gap_mm", -1))
    if phrases.knows("target_compression_mm"):
        return _sum(phrases, COMPUTED, (*SEAT_PLANE, 1), ("target compression", "target_compression_mm", 1))
    middle = f"middle of shortest {phrases.shown(SHORTEST[1])} and longest {phrases.shown(LONGEST[1])}"
    return f"{COMPUTED[0]} {phrases.shown(COMPUTED[1])} = {middle}"


def _order_sentence(phrases: Phrases, *, is_fixed: bool) -> str:
    grid = _grid(phrases)
    if not phrases.knows(ORDER[1]):
        widest = phrases.word("widest_contributor")
        return f"no length {grid} lies from shortest to longest" + (f", widest contributor: {widest}" if widest else "")
    choice = "greatest length" if is_fixed else "length nearest to computed"
    decides = (
        ", for the assumed tip only: no length serves its whole range" if phrases.row.get("assumed_tip_decides") else ""
    )
    return f"order {phrases.shown(ORDER[1])}, {grid} the {choice} from shortest to longest{decides}"


def _grid(phrases: Phrases) -> str:
    """Return the lengths that there are."""
    standard = phrases.row.get("standard_lengths")
    if isinstance(standard, tuple):
        return f"of the standard lengths {', '.join(phrases.show(length_mm) for length_mm in standard)}"
    return f"on the {phrases.show(phrases.length('increment_nm') / NANOMETRES_IN_A_MILLIMETRE)} increment"


def _gap_sentence(phrases: Phrases) -> str:
    return _sum(phrases, ("gap", "gap_mm"), (*SEAT_PLANE, 1), (*ORDER, -1))


def _compression_sentences(phrases: Phrases) -> list[str]:
    nominal = ("compression", "compression_nominal_mm")
    least, most = ("least compression", "compression_min_mm"), ("most compression", "compression_max_mm")
    left_of_preload = Term("", phrases.length(least[1]) - phrases.length(PRELOAD[1]))
    left_of_travel = Term("", phrases.length(TRAVEL[1]) - phrases.length(RESERVE[1]) - phrases.length(most[1]))
    return [
        _sum(phrases, nominal, (*ORDER, 1), (*SEAT_PLANE, -1)),
        _sum(phrases, least, (*nominal, 1), (*TAKEN_AWAY, -1)),
        _sum(phrases, most, (*nominal, 1), (*ADDED, 1)),
        phrases.equation(
            "left over preload",
            left_of_preload.length_mm,
            [phrases.term(*least), phrases.term(*PRELOAD, sign=-1)],
        ),
        phrases.equation(
            "left under reserve",
            left_of_travel.length_mm,
            [phrases.term(*TRAVEL), phrases.term(*RESERVE, sign=-1), phrases.term(*most, sign=-1)],
        ),
        f"margin {phrases.shown('margin_mm')}, the lesser of the two",
        _touch_sentence(phrases),
    ]


def _touch_sentence(phrases: Phrases) -> str:
    touch = ("first touch", "first_touch_mm")
    if phrases.word("mounting") in FITTINGS:
        left_out = ((LEFT_OUT, "maker_shorter_mm", 1),) if phrases.knows("maker_shorter_mm") else ()
        terms = ((*ORDER, 1), *left_out, ("bore depth", "bore_depth_mm", -1), ("extension", "installed_mm", -1))
        is_collar = phrases.row.get("seat_is_shoulder") or phrases.word("profile") == "collar_fitting"
        end = "collar" if is_collar else "thread end"
        return _sum(phrases, touch, *terms) + f", {end} off the face"
    return _sum(phrases, touch, (*ORDER, 1), (*SEAT_PLANE, -1)) + ", under the plate or head"


def _stated_sentences(phrases: Phrases, *, is_fixed: bool) -> list[str]:
    stated = ("stated probe length", "stated_probe_mm")
    if is_fixed:
        gap = _sum(phrases, ("gap of the stated length", "stated_gap_nominal_mm"), (*SEAT_PLANE, 1), (*stated, -1))
        return [f"{gap}, from {phrases.shown('stated_gap_min_mm')} to {phrases.shown('stated_gap_max_mm')}"]
    name = ("compression of the stated length", "stated_compression_nominal_mm")
    least, most = phrases.shown("stated_compression_min_mm"), phrases.shown("stated_compression_max_mm")
    return [f"{_sum(phrases, name, (*stated, 1), (*SEAT_PLANE, -1))}, from {least} to {most}"]
