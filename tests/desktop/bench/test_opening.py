"""The sample, a new plate from a picture, and names of files."""

from toneladder.bite.values import Conditions
from toneladder.picture.opening import open_picture
from toneladder.plate.limits import faults
from toneladder_desktop.bench.bench import Lying
from toneladder_desktop.bench.opening import (
    file_name,
    new_plate,
    sample_picture,
    sample_plate,
)


def test_the_sample_is_there_and_makes_a_plate_without_faults() -> None:
    path = sample_picture()
    assert path is not None
    plate = sample_plate(open_picture(path, name=path.name).ref)
    assert faults(plate) == ()
    assert plate.title == "Breakwater at dusk"


def test_a_new_plate_has_its_pictures_proportions_and_the_usual_bath(lying: Lying) -> None:
    conditions = Conditions(temperature_c=17.0)
    plate = new_plate(lying.plate.picture, conditions)
    assert (plate.size.width_mm, plate.size.height_mm) == (200.0, 133.3)
    assert plate.conditions == conditions
    assert plate.title == "Hill and sun"
    assert faults(plate) == ()


def test_a_file_is_named_after_the_plate_whatever_it_is_called() -> None:
    assert file_name("Pier: 3/4 view", ".plate") == "Pier 3 4 view.plate"
    assert file_name("../../etc/passwd", ".plate") == "etc passwd.plate"
    assert file_name("…", ".pdf") == "Plate.pdf"
    assert len(file_name("long " * 99, ".plate")) <= 86
