"""How far the tip of a stem falls short of the stream's temperature: a fin between stream and pipe wall.

Pure functions of one stem. An estimate with stated assumptions, to say when an insertion is short; not a correction.
"""

import math


def fin_parameter(*, outside_mm: float, inside_mm: float, film_w_m2k: float, conductivity_w_mk: float) -> float:
    """Fin parameter of a hollow stem in a stream.

    Parameters
    ----------
    outside_mm : float
        Outside diameter of the stem. [mm]
    inside_mm : float
        Diameter of its bore, 0 for a solid stem. [mm]
    film_w_m2k : float
        Heat transfer from the stream to the stem. [W/(m2 K)]
    conductivity_w_mk : float
        Thermal conductivity of the stem's metal. [W/(m K)]

    Returns
    -------
    float
        The parameter m. [1/m]

    Raises
    ------
    ZeroDivisionError
        The stem has no metal, or a metal that conducts nothing.

    Notes
    -----
    m2 = h P/(k A) = 4 h Do/(k (Do2 - Di2)).

    Source: fin theory as in public heat transfer texts (problem set, thermometer well in a duct).

    Examples
    --------
    A well of 20 mm with a bore of 18.8 mm:

    >>> round(fin_parameter(outside_mm=20.0, inside_mm=18.8, film_w_m2k=300.0, conductivity_w_mk=17.0), 4)
    174.1304
    """
    outside, inside = outside_mm / 1000, inside_mm / 1000
    return math.sqrt(4 * film_w_m2k * outside / (conductivity_w_mk * (outside**2 - inside**2)))


def tip_error_share(*, length_mm: float, fin_per_m: float) -> float:
    """Share of the difference between stream and pipe wall by which the tip is off, tip end insulated.

    Parameters
    ----------
    length_mm : float
        Length of the stem in the stream. [mm]
    fin_per_m : float
        Fin parameter. [1/m]

    Returns
    -------
    float
        The share, 1 for a stem of no length. [-]

    Raises
    ------
    OverflowError
        The product of the two is beyond 700.

    Notes
    -----
    (T tip - T stream)/(T wall - T stream) = 1/cosh(m L).

    Source: fin theory as in public heat transfer texts.

    Examples
    --------
    A wall of 0.08 in and 0.2 ft length in a gas, N = sqrt(12):

    >>> round(tip_error_share(length_mm=1000.0, fin_per_m=12**0.5), 7)
    0.062541
    """
    return 1 / math.cosh(fin_per_m * length_mm / 1000)


def length_for_share(*, share: float, fin_per_m: float) -> float:
    """Length in the stream at which the tip is off by no more than a share.

    Parameters
    ----------
    share : float
        Share of the difference between stream and pipe wall, above 0 and at most 1. [-]
    fin_per_m : float
        Fin parameter. [1/m]

    Returns
    -------
    float
        The length. [mm]

    Raises
    ------
    ValueError
        The share is above 1 or not above 0.
    ZeroDivisionError
        The share or the fin parameter is 0.

    Notes
    -----
    L = arcosh(1/share)/m.

    Source: fin theory as in public heat transfer texts.

    Examples
    --------
    Half a percent of error in the well above:

    >>> round(length_for_share(share=0.005, fin_per_m=174.1304), 3)
    34.408
    """
    return math.acosh(1 / share) / fin_per_m * 1000


def two_fin_error_share(
    *,
    inside_mm: float,
    outside_mm: float,
    inside_fin_per_m: float,
    outside_fin_per_m: float,
    inside_end: float = 0.0,
    outside_end: float = 0.0,
) -> float:
    """Share by which the tip is off when the stem goes on outside the pipe and loses heat to the air.

    Parameters
    ----------
    inside_mm : float
        Length in the stream. [mm]
    outside_mm : float
        Length in the air. [mm]
    inside_fin_per_m, outside_fin_per_m : float
        Fin parameters of the two parts. [1/m]
    inside_end, outside_end : float
        h/(m k) of an end that gives heat to what is around it, 0 for an insulated end. [-]

    Returns
    -------
    float
        Share of the difference between stream and air. [-]

    Raises
    ------
    ZeroDivisionError
        Neither part carries any heat.

    Notes
    -----
    At the pipe wall both parts carry the same heat: with f = (tanh mL + e)/(1 + e tanh mL) the wall is off by
    m2 f2/(m1 f1 + m2 f2), and the tip by that over cosh m1L1 + e1 sinh m1L1.

    Source: fin theory as in public heat transfer texts.

    Examples
    --------
    A rod of 12.5 mm, 45 mm of it in the stream and 155 mm in the air, which reads 0.76 K low of 60 K:

    >>> share = two_fin_error_share(inside_mm=45.0, outside_mm=155.0, inside_fin_per_m=44.594849,
    ...     outside_fin_per_m=4.251952, inside_end=1100 / (44.594849 * 177), outside_end=10 / (4.251952 * 177))
    >>> round(share * 60, 4)
    0.7591
    """
    inside = inside_fin_per_m * _carried(inside_fin_per_m * inside_mm / 1000, inside_end)
    outside = outside_fin_per_m * _carried(outside_fin_per_m * outside_mm / 1000, outside_end)
    reach = inside_fin_per_m * inside_mm / 1000
    return outside / (inside + outside) / (math.cosh(reach) + inside_end * math.sinh(reach))


def _carried(reach: float, end: float) -> float:
    return (math.tanh(reach) + end) / (1 + end * math.tanh(reach))
