"""The length chain from the bottom of the bore to the plane a probe is measured from.

The axis has its zero at the bottom of the bore and is positive outward. Every
function adds or subtracts lengths; none of them judges whether a result is credible.
"""

import numpy as np
from numpy.typing import NDArray

from thermowell_index.sizing.assembly import Arrangement, Lengths, Words, is_one_of

MEASURED = "measured"
STATED = "stated"
OVERALL_LESS_TIP = "overall less tip"
OVERALL_LESS_ASSUMED_TIP = "overall less assumed tip"
UNKNOWN = ""


def bore_depth(
    *,
    measured_mm: Lengths,
    stated_mm: Lengths,
    overall_mm: Lengths,
    tip_mm: Lengths,
    assumed_tip_mm: Lengths,
) -> tuple[Lengths, NDArray[np.object_]]:
    """Bore depth from the best of its four sources, and which source that was.

    Parameters
    ----------
    measured_mm : array of float, shape (n,)
        Bore depth measured at the well; NaN where nobody measured it [mm].
    stated_mm : array of float, shape (n,)
        Bore depth stated in the index; NaN where it is not known [mm].
    overall_mm : array of float, shape (n,)
        Overall length of the well; NaN where it is not known [mm].
    tip_mm : array of float, shape (n,)
        Tip thickness stated in the index; NaN where it is not known [mm].
    assumed_tip_mm : array of float, shape (n,)
        Tip thickness taken where none is stated; NaN where none may be assumed [mm].

    Returns
    -------
    depth_mm : array of float, shape (n,)
        Bore depth; NaN where no source answers [mm].
    basis : array of str, shape (n,)
        `measured`, `stated`, `overall less tip`, `overall less assumed tip`, or an empty text [-].

    Raises
    ------
    ValueError
        If the arrays do not have one shape.

    Notes
    -----
    B = measured > stated > overall - tip > overall - assumed tip.

    Source: geometry; the rank of the sources is common practice, no source.

    Examples
    --------
    An overall length of 9-1/4 in less a tip of 1/4 in leaves 9 in:

    >>> unknown = np.array([np.nan])
    >>> depth_mm, basis = bore_depth(measured_mm=unknown, stated_mm=unknown, overall_mm=np.array([234.95]),
    ...                              tip_mm=np.array([6.35]), assumed_tip_mm=np.array([6.35]))
    >>> round(float(depth_mm[0]), 6), str(basis[0])
    (228.6, 'overall less tip')
    """
    candidates = [
        (MEASURED, measured_mm),
        (STATED, stated_mm),
        (OVERALL_LESS_TIP, overall_mm - tip_mm),
        (OVERALL_LESS_ASSUMED_TIP, overall_mm - assumed_tip_mm),
    ]
    present = [~np.isnan(depth_mm) for _, depth_mm in candidates]
    depth_mm = np.select(present, [depth_mm for _, depth_mm in candidates], default=np.nan)
    basis = np.select(present, [np.full(depth_mm.shape, name, dtype=object) for name, _ in candidates], default=UNKNOWN)
    return depth_mm, basis


def installed_length(  # noqa: PLR0913 - one argument for every part an extension can be made of
    *,
    arrangement: Words,
    nipple_mm: Lengths,
    second_nipple_mm: Lengths,
    engagement_well_mm: Lengths,
    engagement_top_mm: Lengths,
    engagement_union_mm: Lengths,
    coupling_mm: Lengths,
    union_mm: Lengths,
    neck_mm: Lengths,
    given_mm: Lengths,
) -> Lengths:
    """Length that the whole extension adds, face to face, once it is made up.

    Parameters
    ----------
    arrangement : array of str, shape (n,)
        `none`, `nipple`, `nipple and coupling`, `nipple and union`, `nipple-union-nipple`,
        `neck tube`; anything else is unknown [-].
    nipple_mm : array of float, shape (n,)
        Length of the nipple as bought; NaN where it is not known [mm].
    second_nipple_mm : array of float, shape (n,)
        Length of the upper nipple of a nipple-union-nipple as bought; NaN where it is not known [mm].
    engagement_well_mm : array of float, shape (n,)
        Engagement of the nipple in the well; NaN where it is not known [mm].
    engagement_top_mm : array of float, shape (n,)
        Engagement of the top nipple in the connection head; NaN where it is not known [mm].
    engagement_union_mm : array of float, shape (n,)
        Engagement of one nipple end in the union or in the coupling; NaN where it is not known [mm].
    coupling_mm : array of float, shape (n,)
        Length of the coupling, face to face; NaN where it is not known [mm].
    union_mm : array of float, shape (n,)
        Length of the closed union, face to face; NaN where it is not known [mm].
    neck_mm : array of float, shape (n,)
        Length of the neck tube; NaN where it is not known [mm].
    given_mm : array of float, shape (n,)
        Installed length that was given or measured, which overrides all parts; NaN where there is none [mm].

    Returns
    -------
    array of float, shape (n,)
        Installed length; NaN where a part that it needs is not known. Zero or less means
        that the parts meet inside the threads [mm].

    Raises
    ------
    ValueError
        If the arrays do not have one shape.

    Notes
    -----
    X is 0 without an extension; N - e_well - e_top for a nipple; N - e_well - e_coupling + C
    for a nipple and coupling; N - e_well - e_union + Lu for a nipple and union;
    N1 + N2 - e_well - 2 e_union - e_top + Lu for a nipple-union-nipple; and the tube's own
    length for a neck tube.

    Source: geometry; engagements per ASME B1.20.1 and a union length of about 2 in are the caller's values
    (common practice, no source).

    Examples
    --------
    A 4 in nipple of 1/2 NPT gives up 1/2 in at each end and adds 3 in:

    >>> inch, unknown = np.array([25.4]), np.array([np.nan])
    >>> installed_length(arrangement=["nipple"], nipple_mm=4 * inch, second_nipple_mm=unknown,
    ...                  engagement_well_mm=inch / 2, engagement_top_mm=inch / 2, engagement_union_mm=unknown,
    ...                  coupling_mm=unknown, union_mm=unknown, neck_mm=unknown, given_mm=unknown) / 25.4
    array([3.])
    """
    in_the_well_mm = nipple_mm - engagement_well_mm
    in_the_union_mm = in_the_well_mm - engagement_union_mm + union_mm
    lengths_mm = {
        Arrangement.NONE: np.zeros_like(nipple_mm),
        Arrangement.NIPPLE: in_the_well_mm - engagement_top_mm,
        Arrangement.NIPPLE_AND_COUPLING: in_the_well_mm - engagement_union_mm + coupling_mm,
        Arrangement.NIPPLE_AND_UNION: in_the_union_mm,
        Arrangement.NIPPLE_UNION_NIPPLE: in_the_union_mm + second_nipple_mm - engagement_union_mm - engagement_top_mm,
        Arrangement.NECK_TUBE: neck_mm,
    }
    conditions = [~np.isnan(given_mm), *(is_one_of(words=arrangement, known=[code]) for code in lengths_mm)]
    return np.select(conditions, [given_mm, *lengths_mm.values()], default=np.nan)


def seat_plane(*, bore_depth_mm: Lengths, installed_mm: Lengths, seat_offset_mm: Lengths) -> Lengths:
    """Height of the plane that probe length is measured from above the bottom of the bore.

    Parameters
    ----------
    bore_depth_mm : array of float, shape (n,)
        Bore depth; NaN where it is not known [mm].
    installed_mm : array of float, shape (n,)
        Installed length of the extension, 0 without one; NaN where it is not known [mm].
    seat_offset_mm : array of float, shape (n,)
        From the face the sensor mounts on to its seat plane, outward positive; NaN where it is not known [mm].

    Returns
    -------
    array of float, shape (n,)
        Seat plane; NaN where one of the three is not known [mm].

    Raises
    ------
    ValueError
        If the arrays do not have one shape.

    Notes
    -----
    Zs = B + X + s.

    Source: geometry.

    Examples
    --------
    A bore of 195 mm under a neck tube of 165 mm and a seat 10 mm up in the head:

    >>> seat_plane(bore_depth_mm=np.array([195.0]), installed_mm=np.array([165.0]), seat_offset_mm=np.array([10.0]))
    array([370.])
    """
    return bore_depth_mm + installed_mm + seat_offset_mm


def first_touch(*, probe_mm: Lengths, bore_depth_mm: Lengths, installed_mm: Lengths) -> Lengths:
    """How far the end of a fitting's thread stands off the face when the tip first touches.

    Parameters
    ----------
    probe_mm : array of float, shape (n,)
        Probe length from the end of the mounting thread to the tip, spring relaxed; NaN where it is not known [mm].
    bore_depth_mm : array of float, shape (n,)
        Bore depth; NaN where it is not known [mm].
    installed_mm : array of float, shape (n,)
        Installed length of the extension, 0 without one; NaN where it is not known [mm].

    Returns
    -------
    array of float, shape (n,)
        Stand-off at first touch; less than 0 means that the thread is already inside. NaN where an
        argument is not known [mm].

    Raises
    ------
    ValueError
        If the arrays do not have one shape.

    Notes
    -----
    d = P - (B + X): what the fitter can check by hand at the well.

    Source: geometry.

    Examples
    --------
    A probe of 250 mm in a bore of 235 mm stands 15 mm off:

    >>> first_touch(probe_mm=np.array([250.0]), bore_depth_mm=np.array([235.0]), installed_mm=np.array([0.0]))
    array([15.])
    """
    return probe_mm - (bore_depth_mm + installed_mm)
