"""What a plate is printed with."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class InkAndPaper:
    """What the plate is printed with: ink and paper as sRGB, the paper's margin in mm."""

    ink: str = "#1d1b1a"
    paper: str = "#f4efe3"
    margin_mm: float = 50.0
