"""What tells one plate from every other."""

from hashlib import sha256

from toneladder.plate.values import Plate


def identity_of(plate: Plate) -> str:
    """The plate's own identity; one that was never given any has its picture's and size's."""
    if plate.identity:
        return plate.identity
    size = plate.size
    made_of = f"{plate.picture.sha256} {size.width_mm} {size.height_mm}"
    return sha256(made_of.encode()).hexdigest()[:32]
