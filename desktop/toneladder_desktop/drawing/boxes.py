"""Rectangles of the window's geometry, without the window."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle by its top left corner."""

    x: float
    y: float
    width: float
    height: float

    @property
    def right(self) -> float:
        """The right edge."""
        return self.x + self.width

    @property
    def bottom(self) -> float:
        """The lower edge."""
        return self.y + self.height

    @property
    def middle(self) -> float:
        """Height of the middle."""
        return self.y + self.height / 2.0

    @property
    def centre(self) -> float:
        """Place of the middle across."""
        return self.x + self.width / 2.0

    def holds(self, x: float, y: float) -> bool:
        """Whether a point lies in it."""
        return self.x <= x < self.right and self.y <= y < self.bottom

    def meets(self, other: "Box") -> bool:
        """Whether the two have any area in common."""
        return (
            self.x < other.right
            and other.x < self.right
            and self.y < other.bottom
            and other.y < self.bottom
        )
