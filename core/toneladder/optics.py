"""Light, lightness and density: the published relations between them."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

FloatArray = NDArray[np.float64]

_JOIN = 216.0 / 24389.0
_SLOPE = 24389.0 / 27.0


def linear_from_srgb(code: ArrayLike) -> FloatArray:
    """Linear light (0..1) of an sRGB code value (0..1).

    References
    ----------
    [IEC61966-2-1] sRGB transfer function.
    """
    v = np.asarray(code, dtype=np.float64)
    return np.where(v <= 0.04045, v / 12.92, ((v + 0.055) / 1.055) ** 2.4)


def srgb_from_linear(light: ArrayLike) -> FloatArray:
    """SRGB code value (0..1) of linear light (0..1).

    References
    ----------
    [IEC61966-2-1] sRGB transfer function, inverted.
    """
    v = np.asarray(light, dtype=np.float64)
    return np.where(v <= 0.0031308, v * 12.92, 1.055 * np.maximum(v, 0.0) ** (1 / 2.4) - 0.055)


def lightness(luminance: ArrayLike) -> FloatArray:
    """CIE L* (0..100) of relative luminance (0..1, white is 1).

    References
    ----------
    [CIE15] CIE 1976 lightness.
    """
    y = np.asarray(luminance, dtype=np.float64)
    return np.where(y > _JOIN, 116.0 * np.cbrt(y) - 16.0, _SLOPE * y)


def luminance(lightness: ArrayLike) -> FloatArray:
    """Relative luminance (0..1) of CIE L* (0..100).

    References
    ----------
    [CIE15] CIE 1976 lightness, inverted.
    """
    v = np.asarray(lightness, dtype=np.float64)
    return np.where(v > 8.0, ((v + 16.0) / 116.0) ** 3, v / _SLOPE)


def density(reflectance: ArrayLike) -> FloatArray:
    """Reflection density of reflectance (above 0, to 1).

    References
    ----------
    [ISO5-3] D = -log10 R.
    """
    return -np.log10(np.asarray(reflectance, dtype=np.float64))


def yule_nielsen(area: ArrayLike, solid: ArrayLike, paper: ArrayLike, n: float) -> FloatArray:
    """Reflectance of a surface of which a share is inked, light being scattered in the paper.

    Parameters
    ----------
    area : (...) array, 0..1
        Share of the surface that carries ink.
    solid, paper : (...) array, 0..1
        Reflectance of the inked and of the bare surface.
    n : float, 1..2
        1 without scattering (Murray-Davies), 2 where all light under the surface is mixed.

    Returns
    -------
    (...) array, 0..1.

    References
    ----------
    [YuleNielsen1951].
    """
    share = np.asarray(area, dtype=np.float64)
    inked = np.asarray(solid, dtype=np.float64) ** (1.0 / n)
    bare = np.asarray(paper, dtype=np.float64) ** (1.0 / n)
    return (share * inked + (1.0 - share) * bare) ** n


def murray_davies(area: ArrayLike, solid: ArrayLike, paper: ArrayLike) -> FloatArray:
    """Reflectance of a surface of which a share is inked, without scattering in the paper.

    The same as :func:`yule_nielsen` with ``n`` 1.

    References
    ----------
    [Murray1936].
    """
    return yule_nielsen(area, solid, paper, 1.0)


def inked_area(tint: ArrayLike, solid: ArrayLike, n: float = 1.0) -> FloatArray:
    """Share of the surface that carries ink, from two densities.

    Parameters
    ----------
    tint, solid : (...) array, above 0
        Density of the tone and of full ink, both less the density of the paper.
    n : float, 1..2
        As in :func:`yule_nielsen`.

    Returns
    -------
    (...) array, 0..1.

    References
    ----------
    [Murray1936], [YuleNielsen1951], inverted.
    """
    tone = 1.0 - 10.0 ** (-np.asarray(tint, dtype=np.float64) / n)
    full = 1.0 - 10.0 ** (-np.asarray(solid, dtype=np.float64) / n)
    return np.asarray(tone / full)


def kubelka_munk_thick(absorption: ArrayLike, scattering: ArrayLike) -> FloatArray:
    """Reflectance (0..1) of an ink layer so thick that nothing shows through.

    ``absorption`` and ``scattering`` (above 0) are the layer's K and S, per unit of thickness.

    References
    ----------
    [KubelkaMunk1931].
    """
    k_over_s = np.asarray(absorption, dtype=np.float64) / np.asarray(scattering, dtype=np.float64)
    return 1.0 + k_over_s - np.sqrt(k_over_s**2 + 2.0 * k_over_s)


def kubelka_munk_layer(
    absorption: ArrayLike, scattering: ArrayLike, thickness: ArrayLike, ground: ArrayLike
) -> FloatArray:
    """Reflectance of an ink layer over paper.

    Parameters
    ----------
    absorption, scattering : (...) array, >= 0
        K and S of the layer, per unit of thickness.
    thickness : (...) array, >= 0
        In the same unit.
    ground : (...) array, 0..1
        Reflectance of what lies under the layer.

    Returns
    -------
    (...) array, 0..1.

    References
    ----------
    [Kubelka1948], written with tanh so that thin, clear and merely absorbing layers are no
    special cases.
    """
    k, s, x, under = (
        np.asarray(value, dtype=np.float64) for value in (absorption, scattering, thickness, ground)
    )
    beta = np.sqrt(k * (k + 2.0 * s))
    clear = beta * x < 1e-8
    depth = np.where(clear, x, np.tanh(beta * x) / np.where(clear, 1.0, beta))
    return (s * depth + under * (1.0 - (k + s) * depth)) / (1.0 + (k + s - s * under) * depth)
