"""The icons of every size are those of the drawing as it stands."""

from importlib.util import module_from_spec, spec_from_file_location
from itertools import pairwise
from pathlib import Path
from types import ModuleType

import numpy as np
import pytest
from PIL import Image
from PySide6.QtGui import QImage

SCRIPT = Path(__file__).parents[2] / "packaging" / "make_icons.py"


@pytest.fixture
def making() -> ModuleType:
    spec = spec_from_file_location("make_icons", SCRIPT)
    assert spec is not None
    assert spec.loader is not None
    module = module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_run_make_icons_again_after_changing_the_drawing(making: ModuleType) -> None:
    icons = making.icons()
    assert len(icons) == len(making.SIZES) + 1
    for path, size in icons:
        kept, drawn = QImage(str(path)), making.drawn(size)
        assert kept.convertToFormat(drawn.format()) == drawn, path.name


def test_the_smallest_icon_still_shows_five_tones_in_their_order(making: ModuleType) -> None:
    (smallest,) = [path for path, size in making.icons() if size == 16]
    with Image.open(smallest) as icon:
        grey = np.asarray(icon.convert("L"), dtype=float)
    tones = [grey[y, 10] for y in (1, 4, 7, 10, 13)]  # one row in the middle of every rung
    assert all(light - dark > 20 for light, dark in pairwise(tones))
