"""The fin estimate against published cases."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from thermowell_index.validator.conduction import (
    fin_parameter,
    length_for_share,
    tip_error_share,
    two_fin_error_share,
)


def test_a_thermometer_well_in_a_duct_needs_34_mm() -> None:
    """Public problem set: Do 20, Di 18.8 mm, k 17 W/mK, h 300 W/m2K, error 0.5 %: m = 174.1304 1/m, L = 34.4079 mm."""
    fin = fin_parameter(outside_mm=20.0, inside_mm=18.8, film_w_m2k=300.0, conductivity_w_mk=17.0)

    assert fin == pytest.approx(174.13043, abs=1e-4)
    assert length_for_share(share=0.005, fin_per_m=fin) == pytest.approx(34.407876, abs=1e-5)


def test_a_couple_at_500_in_a_wall_of_350_fahrenheit_reads_10_low() -> None:
    """A transport textbook's thermocouple well: N = sqrt(h L2/(k B)) = sqrt(12) with 120, 60 (Btu), 0.2 ft, 0.08 in."""
    reach = (120 * 0.2**2 / (60 * 0.08 / 12)) ** 0.5
    share = tip_error_share(length_mm=1000.0, fin_per_m=reach)
    gas = (500 - 350 * share) / (1 - share)

    assert reach == pytest.approx(3.4641016, abs=1e-6)
    assert share == pytest.approx(0.0625410, abs=1e-6)
    assert gas == pytest.approx(510.0069, abs=1e-3)


@pytest.mark.parametrize("inside,error", [(0.225, -0.759062), (0.425, -0.100781), (0.625, -0.011848)])
def test_a_rod_half_in_a_pipe_loses_heat_to_the_air(inside: float, error: float) -> None:
    """A heat transfer textbook's probe: 200 mm, 12.5 mm, 1100 and 10 W/m2K, 177 W/mK, 80 and 20 C, open ends."""
    fins = [
        fin_parameter(outside_mm=12.5, inside_mm=0.0, film_w_m2k=film, conductivity_w_mk=177.0) for film in (1100, 10)
    ]
    share = two_fin_error_share(
        inside_mm=200 * inside,
        outside_mm=200 * (1 - inside),
        inside_fin_per_m=fins[0],
        outside_fin_per_m=fins[1],
        inside_end=1100 / (fins[0] * 177),
        outside_end=10 / (fins[1] * 177),
    )

    assert fins == pytest.approx([44.594849, 4.251952], abs=1e-6)
    assert share * (20 - 80) == pytest.approx(error, abs=1e-6)


@given(st.floats(1.0, 500.0), st.floats(1.0, 500.0), st.floats(5.0, 60.0))
def test_a_longer_stem_is_off_by_less(shorter: float, longer: float, fin: float) -> None:
    lengths = sorted((shorter, longer))
    first, second = (
        two_fin_error_share(inside_mm=length, outside_mm=50.0, inside_fin_per_m=fin, outside_fin_per_m=5.0)
        for length in lengths
    )

    assert 0 < second <= first < 1


@given(st.floats(0.001, 1.0), st.floats(5.0, 200.0))
def test_the_length_for_a_share_has_that_share(share: float, fin: float) -> None:
    length = length_for_share(share=share, fin_per_m=fin)

    assert tip_error_share(length_mm=length, fin_per_m=fin) == pytest.approx(share, rel=1e-6)
