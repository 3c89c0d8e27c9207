"""Lines on the paper: in the preview, never in the flat tones."""

from io import BytesIO

import numpy as np
from PIL import Image

from toneladder.lines.values import Lines
from toneladder.picture.opening import open_picture
from toneladder.picture.values import PlateSize
from toneladder.plan.planning import plan
from toneladder.plate.values import Plate
from toneladder_desktop.bench.look import View
from toneladder_desktop.bench.seeing import seen


def test_lines_are_seen_in_the_preview_and_not_among_the_tones() -> None:
    grey = np.full((160, 240), 235, np.uint8)
    grey[:, 120:] = 120
    grey[20:140, 60:64] = 10
    file = BytesIO()
    Image.fromarray(grey).save(file, "PNG")
    picture = open_picture(file.getvalue(), name="line.png")
    plate = Plate("Line", picture.ref, PlateSize(30.0, 20.0), lines=Lines())
    made = plan(picture, plate)
    for step in (0, 1, None):
        preview, tones = (seen(made, view, step, 8.0) for view in (View.PREVIEW, View.TONES))
        assert preview[80, 61].max() < 60
        assert tones[80, 61].min() > 180
