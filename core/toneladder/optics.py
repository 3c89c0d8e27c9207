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
