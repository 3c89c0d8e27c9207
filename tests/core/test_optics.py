"""Light and density against published relations and independent libraries.

C: computed when the check tables were compiled, from the published formula named beside it, and
confirmed there by colour-science or scikit-image.
"""

import warnings

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from toneladder.optics import (
    density,
    inked_area,
    kubelka_munk_layer,
    kubelka_munk_thick,
    lightness,
    linear_from_srgb,
    luminance,
    murray_davies,
    srgb_from_linear,
    yule_nielsen,
)

SHARES = st.floats(0.0, 1.0)

# CIE 15:2004, C with colour.lightness: Y in percent, L*
LIGHTNESS = [
    (0.1, 0.903296),
    (0.8856452, 8.0),
    (1, 8.991442),
    (2, 15.487244),
    (5, 26.734765),
    (10, 37.842430),
    (12.19722535, 41.527876),  # example in the documentation of colour-science
    (18, 49.496108),
    (20, 51.837212),
    (50, 76.069261),
    (80, 91.684861),
    (90, 95.996769),
    (100, 100),
]

# CIE 15:2004 inverted, and D = -log10 Y, C: L*, Y in percent, D
LUMINANCE = [
    (5, 0.553528, 2.256860),
    (8, 0.885645, 2.052740),
    (10, 1.126020, 1.948454),
    (20, 2.989052, 1.524466),
    (25, 4.415477, 1.355022),
    (30, 6.235906, 1.205100),
    (40, 11.250974, 0.948810),
    (50, 18.418652, 0.734742),
    (60, 28.123334, 0.550933),
    (70, 40.749416, 0.389879),
    (80, 56.681291, 0.246560),
    (90, 76.303354, 0.117456),
    (95, 87.618329, 0.057405),
]

# IEC 61966-2-1:1999, C with colour.eotf_sRGB: 8-bit code, linear light, L*
SRGB = [
    (0, 0, 0),
    (1, 0.00030353, 0.27417),
    (10, 0.00303527, 2.74175),
    (11, 0.00334654, 3.02291),
    (32, 0.01444384, 12.25003),
    (64, 0.05126946, 27.09341),
    (96, 0.11697067, 40.73055),
    (119, 0.18447499, 50.03444),
    (128, 0.21586050, 53.58501),
    (160, 0.35153260, 65.86781),
    (192, 0.52711513, 77.70436),
    (255, 1, 100),
]

# IEC 61966-2-1:1999 inverted, C: linear light, encoded
ENCODED = [
    (0.001, 0.01292000),
    (0.0031308, 0.04044994),
    (0.01, 0.09985282),
    (0.1, 0.34919021),
    (0.18, 0.46135613),
    (0.21404114, 0.5),
    (0.25, 0.53709873),
    (0.5, 0.73535698),
    (0.75, 0.88082502),
    (0.9, 0.95468717),
]

# Munsell value and luminous reflectance (percent) of ASTM D1535-08, equal to the polynomial in
# colour-science to 1e-9; L* by CIE 15
MUNSELL = [
    (0.5, 0.567303, 5.124426),
    (1.0, 1.179925, 10.408446),
    (1.5, 1.970759, 15.333040),
    (2.0, 3.048116, 20.235577),
    (2.5, 4.498800, 25.256294),
    (3.0, 6.391178, 30.378670),
    (3.5, 8.778256, 35.553807),
    (4.0, 11.700751, 40.736504),
    (4.5, 15.190162, 45.893560),
    (5.0, 19.271844, 51.003745),
    (5.5, 23.968079, 56.055820),
    (6.0, 29.301153, 61.046496),
    (6.5, 35.296423, 65.978799),
    (7.0, 41.985394, 70.860848),
    (7.5, 49.408790, 75.704940),
    (8.0, 57.619628, 80.526851),
    (8.5, 66.686287, 85.345274),
    (9.0, 76.695586, 90.181318),
    (9.5, 87.755853, 95.058044),
    (10.0, 100.0, 100.0),
]

# CIE e-ILV 17-24-073, D = -log10 R, C
DENSITY = [
    (0.9, 0.045757),
    (0.8, 0.096910),
    (0.5, 0.301030),
    (0.25, 0.602060),
    (0.18, 0.744727),
    (0.1, 1),
    (0.05, 1.301030),
    (0.02, 1.698970),
    (0.01, 2),
]

# Steps of 0.15 D (a published 21-step wedge), L* above a base of reflectance 1, C
WEDGE = [
    *(100, 87.385, 76.142, 66.122, 57.191, 49.232),
    *(42.138, 35.815, 30.180, 25.158, 20.682, 16.693, 13.138),
]

# Murray 1936 (n 1), Yule and Nielsen 1951 (n 1.7, 2); paper 1, solid density 1.6, C:
# area, then D and L* for each n
DOTS = [
    (0.10, (0.04455, 96.101), (0.06845, 94.063), (0.07635, 93.397)),
    (0.25, (0.12132, 89.686), (0.18474, 84.665), (0.20516, 83.099)),
    (0.50, (0.29026, 76.834), (0.43171, 67.283), (0.47428, 64.606)),
    (0.75, (0.57051, 58.867), (0.80549, 46.512), (0.86626, 43.663)),
    (0.90, (0.91148, 41.627), (1.17706, 31.001), (1.23007, 29.127)),
]

# The same inverted, C: tint density, solid density, percent for n 1, 1.7, 2
DOT_AREAS = [
    (0.30, 1.40, 51.949, 39.290, 36.485),
    (0.70, 1.40, 83.366, 72.074, 69.124),
    (0.50, 1.50, 70.610, 56.622, 53.232),
]

# Kubelka and Munk 1931, C: K/S, reflectance of an endless layer
THICK = [
    (11.52, 0.04),
    (9.025, 0.05),
    (4.05, 0.10),
    (2, 0.17157288),
    (1.125, 0.25),
    (1, 0.26794919),
    (0.5, 0.38196601),
    (0.25, 0.50),
    (10, 0.04554885),
]

# Kubelka 1948, C, confirmed there by integrating the differential equation: K, S, X, Rg, R
LAYERS = [
    (1, 1, 1, 0.80, 0.28751385),
    (1, 1, 0.5, 0.80, 0.37570200),
    (0.5, 0.5, 2, 0.90, 0.29198054),
    (2, 1, 1, 0.85, 0.17426465),
    (10, 0.5, 0.1, 0.90, 0.13337968),
    (10, 0.5, 0.2, 0.90, 0.03730183),
    (10, 0.5, 0.4, 0.90, 0.02402619),
    (1, 1, 1, 0.0, 0.26014672),
    (10, 0.5, 0.2, 0.0, 0.02346429),
    (2, 0, 0.5, 0.9, 0.12180175),
]


@pytest.mark.parametrize(("percent", "expected"), LIGHTNESS)
def test_lightness_is_that_of_the_published_table(percent: float, expected: float) -> None:
    assert lightness(percent / 100.0) == pytest.approx(expected, abs=6e-7)


@pytest.mark.parametrize(("light", "percent", "expected_density"), LUMINANCE)
def test_luminance_is_that_of_the_published_table(
    light: float, percent: float, expected_density: float
) -> None:
    assert luminance(light) * 100.0 == pytest.approx(percent, abs=6e-7)
    assert density(luminance(light)) == pytest.approx(expected_density, abs=6e-7)


def test_lightness_agrees_with_an_independent_library_on_a_16_bit_ramp() -> None:
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # it warns on import that it will not plot
        import colour
    ramp = np.arange(65536) / 65535.0
    theirs = colour.lightness(colour.models.eotf_sRGB(ramp) * 100.0, method="CIE 1976")
    assert np.abs(lightness(linear_from_srgb(ramp)) - theirs).max() < 1e-4


@pytest.mark.parametrize(("code", "linear", "expected"), SRGB)
def test_srgb_codes_are_those_of_the_published_table(
    code: int, linear: float, expected: float
) -> None:
    assert linear_from_srgb(code / 255.0) == pytest.approx(linear, abs=6e-9)
    assert lightness(linear_from_srgb(code / 255.0)) == pytest.approx(expected, abs=6e-6)


@pytest.mark.parametrize(("linear", "code"), ENCODED)
def test_linear_light_is_encoded_as_in_the_published_table(linear: float, code: float) -> None:
    assert srgb_from_linear(linear) == pytest.approx(code, abs=6e-9)


@pytest.mark.parametrize(("value", "percent", "expected"), MUNSELL)
def test_lightness_follows_the_munsell_greys(value: float, percent: float, expected: float) -> None:
    assert lightness(percent / 100.0) == pytest.approx(expected, abs=1e-5)
    if value == int(value):
        assert abs(lightness(percent / 100.0) - 10.0 * value) <= 1.05  # 1.0465 at value 6, C


@pytest.mark.parametrize(("reflectance", "expected"), DENSITY)
def test_density_is_that_of_the_published_definition(reflectance: float, expected: float) -> None:
    assert density(reflectance) == pytest.approx(expected, abs=6e-7)


def test_a_step_wedge_has_the_lightness_of_its_densities() -> None:
    steps = lightness(10.0 ** (-0.15 * np.arange(13)))
    assert steps == pytest.approx(np.array(WEDGE), abs=6e-4)


@pytest.mark.parametrize(("area", "plain", "scattering", "ideal"), DOTS)
def test_dots_of_ink_print_as_published(
    area: float,
    plain: tuple[float, float],
    scattering: tuple[float, float],
    ideal: tuple[float, float],
) -> None:
    solid = 10.0**-1.6
    for n, (expected_density, expected) in ((1.0, plain), (1.7, scattering), (2.0, ideal)):
        printed = yule_nielsen(area, solid, 1.0, n)
        assert density(printed) == pytest.approx(expected_density, abs=6e-6)
        assert lightness(printed) == pytest.approx(expected, abs=6e-4)
    assert density(murray_davies(area, solid, 1.0)) == pytest.approx(plain[0], abs=6e-6)


@pytest.mark.parametrize(("tint", "solid", "plain", "scattering", "ideal"), DOT_AREAS)
def test_inked_area_comes_back_from_two_densities(
    tint: float, solid: float, plain: float, scattering: float, ideal: float
) -> None:
    assert inked_area(tint, solid) * 100.0 == pytest.approx(plain, abs=6e-4)
    assert inked_area(tint, solid, 1.7) * 100.0 == pytest.approx(scattering, abs=6e-4)
    assert inked_area(tint, solid, 2.0) * 100.0 == pytest.approx(ideal, abs=6e-4)


@pytest.mark.parametrize(("left_white", "deepest"), [(0.05, 1.301), (0.10, 1.0), (0.25, 0.602)])
def test_land_left_white_bounds_the_black(left_white: float, deepest: float) -> None:
    # -log10 of the share left white, C
    assert density(murray_davies(1.0 - left_white, 0.0, 1.0)) == pytest.approx(deepest, abs=5e-4)


@given(SHARES, SHARES, st.floats(1.0, 2.0), st.floats(1.0, 2.0))
def test_more_ink_and_more_scattering_are_never_lighter(
    area: float, other: float, n: float, more: float
) -> None:
    (less_ink, more_ink), (low, high) = sorted((area, other)), sorted((n, more))
    assert yule_nielsen(more_ink, 0.02, 0.8, n) <= yule_nielsen(less_ink, 0.02, 0.8, n) + 1e-12
    assert yule_nielsen(area, 0.02, 0.8, high) <= yule_nielsen(area, 0.02, 0.8, low) + 1e-12
    assert yule_nielsen(0.0, 0.02, 0.8, n) == pytest.approx(0.8)
    assert yule_nielsen(1.0, 0.02, 0.8, n) == pytest.approx(0.02)


@pytest.mark.parametrize(("k_over_s", "expected"), THICK)
def test_a_thick_layer_reflects_as_published(k_over_s: float, expected: float) -> None:
    assert kubelka_munk_thick(k_over_s, 1.0) == pytest.approx(expected, abs=6e-9)


@pytest.mark.parametrize(("k", "s", "x", "ground", "expected"), LAYERS)
def test_an_ink_layer_over_paper_reflects_as_published(
    k: float, s: float, x: float, ground: float, expected: float
) -> None:
    assert kubelka_munk_layer(k, s, x, ground) == pytest.approx(expected, abs=6e-9)


def test_the_layer_solves_its_differential_equation() -> None:
    # dR/dX = S - 2 (K + S) R + S R^2 [Kubelka and Munk 1931], integrated by scipy
    k, s, x, ground = 3.0, 0.7, 0.4, 0.85
    solved = solve_ivp(
        lambda _, r: s - 2.0 * (k + s) * r + s * r**2, (0.0, x), [ground], rtol=1e-11, atol=1e-13
    )
    assert kubelka_munk_layer(k, s, x, ground) == pytest.approx(solved.y[0, -1], abs=1e-9)


def test_layers_without_thickness_or_without_end_are_no_special_cases() -> None:
    assert kubelka_munk_layer(3.0, 0.7, 0.0, 0.85) == pytest.approx(0.85, abs=1e-12)
    assert kubelka_munk_layer(3.0, 0.7, np.inf, 0.85) == pytest.approx(
        kubelka_munk_thick(3.0, 0.7), abs=1e-12
    )
    # without absorption over black: S X / (1 + S X) [Kubelka 1948]
    assert kubelka_munk_layer(0.0, 2.0, 0.5, 0.0) == pytest.approx(0.5, abs=1e-12)
