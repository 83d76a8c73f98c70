"""The arithmetic of one row in words and numbers, to be redone by hand with a pocket calculator."""

from collections.abc import Callable, Mapping

from thermowell_index.sizing.assembly import FITTINGS, Arrangement, Mounting
from thermowell_index.sizing.chain import OVERALL_LESS_ASSUMED_TIP, OVERALL_LESS_TIP
from thermowell_index.sizing.phrases import Phrases, Term
from thermowell_index.sizing.working_fit import fit_sentences

# label, key, place, sign
Part = tuple[str, str, str, int]
NIPPLE: Part = ("nipple", "nipple_length_mm", "", 1)
SECOND_NIPPLE: Part = ("second nipple", "second_nipple_length_mm", "", 1)
COUPLING: Part = ("coupling", "coupling_length_mm", "", 1)
UNION: Part = ("union", "union_length_mm", "", 1)
NECK_TUBE: Part = ("neck tube", "neck_length_mm", "", 1)
IN_THE_WELL: Part = ("engagement", "engagement_well_mm", " at the well", -1)
IN_THE_HEAD: Part = ("engagement", "engagement_top_mm", " at the head", -1)
IN_THE_UNION: Part = ("engagement", "engagement_union_mm", " at the union", -1)
IN_THE_COUPLING: Part = ("engagement", "engagement_union_mm", " at the coupling", -1)

EXTENSION_PARTS: dict[str, tuple[Part, ...]] = {
    Arrangement.NIPPLE: (NIPPLE, IN_THE_WELL, IN_THE_HEAD),
    Arrangement.NIPPLE_AND_COUPLING: (NIPPLE, IN_THE_WELL, IN_THE_COUPLING, COUPLING),
    Arrangement.NIPPLE_AND_UNION: (NIPPLE, IN_THE_WELL, IN_THE_UNION, UNION),
    Arrangement.NIPPLE_UNION_NIPPLE: (
        NIPPLE,
        IN_THE_WELL,
        IN_THE_UNION,
        UNION,
        SECOND_NIPPLE,
        IN_THE_UNION,
        IN_THE_HEAD,
    ),
    Arrangement.NECK_TUBE: (NECK_TUBE,),
}
TIP_LABELS = {OVERALL_LESS_TIP: "tip", OVERALL_LESS_ASSUMED_TIP: "assumed tip"}

MOUNTINGS = frozenset(Mounting)
ARRANGEMENTS = frozenset(Arrangement)
ALWAYS_NEEDED = (
    ("bore depth", "bore_depth_mm"),
    ("installed length", "installed_mm"),
    ("seat offset", "seat_offset_mm"),
    ("bore tolerance", "bore_deeper_mm"),
    ("bore tolerance", "bore_shallower_mm"),
    ("probe tolerance", "probe_tolerance_mm"),
    ("extension tolerance", "extension_tolerance_mm"),
)
RIGID = (Mounting.FIXED_FITTING, Mounting.ADJUSTABLE_FITTING)
NEEDED_BY_A_SPRING = (("spring travel", "travel_mm"),)
NEEDED_BY_A_FIXED_FITTING = (
    ("least gap", "least_gap_mm"),
    ("most gap", "most_gap_mm"),
    ("bottom gap", "bottom_gap_mm"),
)


def working_text(row: Mapping[str, object], show: Callable[[float], str]) -> str:
    """Arithmetic of one row, plane by plane and joint by joint, as short sentences on one line.

    Parameters
    ----------
    row : mapping of column name to value
        The inputs and outputs of `size_table` for one row, and for the parts of the chain, each NaN, None
        or missing where it is not known or not there [mm]:

        - overall_length_mm, tip_thickness_mm : the well; the tip as stated, or else as assumed
        - nipple_length_mm, second_nipple_length_mm, coupling_length_mm, union_length_mm, neck_length_mm
        - engagement_well_mm, engagement_top_mm, engagement_union_mm : as in `installed_length`
        - withheld_for : text, the checks that keep the length back [-]
        - bore_depth_note, extension_note : text, where the length comes from; put behind it [-]
        - carried_minus_mm, carried_plus_mm, maker_shorter_mm : as in `size_table`, 0 where they are missing
        - is_in_kind : bool, the stated length is bought again as it is [-]
        - probe_length_plane : text, how the maker measures, where the profile says so: `from ... to tip` [-]

    show : callable
        A length [mm] as text in the row's unit, as `9-1/4 in`.

    Returns
    -------
    str
        Sentences joined by `; `. Every number that stands before an equals sign can be redone from those
        behind it, to the digits that `show` prints. A row without a computed length gets its bore depth,
        its extension and what is missing.

    Raises
    ------
    KeyError
        Never for a missing column: it counts as not known.

    Notes
    -----
    The order of the sentences is that of the chain: B, X, Zs, S- and S+, limits, P, order, c.

    Source: geometry.

    Examples
    --------
    >>> working_text({"bore_depth_mm": 228.6, "bore_depth_basis": "overall less tip", "overall_length_mm": 234.95,
    ...               "tip_thickness_mm": 6.35, "arrangement": "none", "installed_mm": 0.0, "mounting": ""},
    ...              lambda length_mm: f"{length_mm / 25.4:.2f} in")
    'bore depth 9.00 in = overall length 9.25 in less tip 0.25 in; no extension; no length: mounting not known'
    """
    phrases = Phrases(row=row, show=show)
    sentences = [_bore_sentence(phrases), _extension_sentence(phrases)]
    if phrases.row.get("is_in_kind") and phrases.knows("probe_length_order_mm"):
        return "; ".join([*sentences, *_in_kind_sentences(phrases)])
    if phrases.knows("probe_length_computed_mm"):
        sentences += [_plane_sentence(phrases), _seat_sentence(phrases), *fit_sentences(phrases=phrases)]
    else:
        sentences.append(_reason(phrases))
    return "; ".join(sentences)


def _bore_sentence(phrases: Phrases) -> str:
    basis = phrases.word("bore_depth_basis")
    depth_mm = phrases.length("bore_depth_mm")
    if not phrases.knows("bore_depth_mm"):
        return "bore depth not known"
    if basis in TIP_LABELS and phrases.knows("overall_length_mm", "tip_thickness_mm"):
        overall = phrases.term("overall length", "overall_length_mm")
        tip = phrases.term(TIP_LABELS[basis], "tip_thickness_mm", sign=-1)
        return phrases.equation("bore depth", depth_mm, [overall, tip]) + _note(phrases, "bore_depth_note")
    return f"bore depth {phrases.show(depth_mm)}, {basis}" + _note(phrases, "bore_depth_note")


def _extension_sentence(phrases: Phrases) -> str:
    arrangement = phrases.word("arrangement")
    installed_mm = phrases.length("installed_mm")
    if not phrases.knows("installed_mm"):
        return "installed length of the extension not known"
    note = _note(phrases, "extension_note")
    if phrases.row.get("installed_is_given"):
        return f"extension {phrases.show(installed_mm)}, given as installed" + note
    if arrangement == Arrangement.NONE:
        return "no extension" + note
    parts = EXTENSION_PARTS.get(arrangement, ())
    terms = [phrases.term(label, key, place=place, sign=sign) for label, key, place, sign in parts]
    if terms and phrases.knows(*(key for _, key, _, _ in parts)):
        return phrases.equation("extension", installed_mm, terms) + note
    return f"extension {phrases.show(installed_mm)}, {arrangement}" + note


def _note(phrases: Phrases, key: str) -> str:
    text = phrases.word(key)
    return f", {text}" if text else ""


def _plane_sentence(phrases: Phrases) -> str:
    mounting = phrases.word("mounting")
    if plane := phrases.word("probe_length_plane"):
        return f"probe lengths are {plane}"
    plane = _usual_plane(phrases, mounting)
    state = "" if mounting in RIGID else ", spring relaxed"
    return f"probe lengths are from {plane} to tip{state}"


def _usual_plane(phrases: Phrases, mounting: str) -> str:
    if mounting == Mounting.FLANGED_INSERT:
        return "underside of the insert's plate"
    if mounting == Mounting.SPRING_LOADED_INSERT:
        return "the insert's own seat"
    return "end of mounting thread" if phrases.length("seat_offset_mm") < 0 else "sealing face of the mounting thread"


def _seat_sentence(phrases: Phrases) -> str:
    offset_mm = phrases.length("seat_offset_mm")
    is_engagement = phrases.word("mounting") in FITTINGS and offset_mm < 0
    return phrases.equation(
        "seat plane",
        phrases.length("seat_plane_mm"),
        [
            phrases.term("bore depth", "bore_depth_mm"),
            phrases.term("extension", "installed_mm"),
            Term("engagement of the fitting" if is_engagement else "seat offset", offset_mm),
            *_left_out(phrases),
        ],
    )


def _left_out(phrases: Phrases) -> list[Term]:
    """Return what the maker's length leaves out of the chain."""
    solid_mm = phrases.length("travel_mm") if phrases.row.get("length_is_solid") else 0.0
    extension_mm = phrases.length("maker_shorter_mm") - solid_mm if phrases.knows("maker_shorter_mm") else 0.0
    return [
        Term("extension, which the maker's length leaves out", -extension_mm),
        Term("travel, since the length is measured with the spring solid", -solid_mm),
    ]


def _in_kind_sentences(phrases: Phrases) -> list[str]:
    order = f"order {phrases.shown('probe_length_order_mm')}, in kind: the length in place, proven in service"
    return [_plane_sentence(phrases), f"{order}; not computed, so nothing is known of its compression"]


def _reason(phrases: Phrases) -> str:
    """Say why there is no length, or only that there is none where all that sizing needs is there."""
    if withheld_for := phrases.word("withheld_for"):
        return f"no length: {withheld_for}"
    mounting, arrangement = phrases.word("mounting"), phrases.word("arrangement")
    if mounting not in MOUNTINGS:
        return "no length: mounting not known"
    if phrases.knows("installed_mm") and not phrases.knows("seat_joints"):
        if arrangement not in ARRANGEMENTS:
            return "no length: arrangement not known"
        return f"no length: a {mounting} cannot be screwed onto a {arrangement}"
    own = {Mounting.FIXED_FITTING: NEEDED_BY_A_FIXED_FITTING, Mounting.ADJUSTABLE_FITTING: ()}.get(
        Mounting(mounting), NEEDED_BY_A_SPRING
    )
    missing = [label for label, key in (*ALWAYS_NEEDED, *own) if not phrases.knows(key)]
    if missing:
        return f"no length: {', '.join(dict.fromkeys(missing))} not known"
    return "no length is given"
