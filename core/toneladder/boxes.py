"""Upright rectangles: on paper in millimetres, on the window in pixels."""

from dataclasses import dataclass

Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle by its top left corner, ``y`` growing downward."""

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

    @property
    def corners(self) -> tuple[Point, Point, Point, Point]:
        """The corners, clockwise from the top left."""
        return (
            (self.x, self.y),
            (self.right, self.y),
            (self.right, self.bottom),
            (self.x, self.bottom),
        )

    def holds(self, x: float, y: float) -> bool:
        """Whether a point lies in it."""
        return self.x <= x < self.right and self.y <= y < self.bottom

    def covers(self, other: "Box") -> bool:
        """Whether all of the other lies in it."""
        return (
            self.x <= other.x
            and self.y <= other.y
            and other.right <= self.right
            and other.bottom <= self.bottom
        )

    def meets(self, other: "Box") -> bool:
        """Whether the two have any area in common."""
        return (
            self.x < other.right
            and other.x < self.right
            and self.y < other.bottom
            and other.y < self.bottom
        )

    def moved(self, x: float, y: float) -> "Box":
        """The rectangle ``x`` to the right and ``y`` down from this one."""
        return Box(self.x + x, self.y + y, self.width, self.height)

    def inset(self, by: float) -> "Box":
        """The rectangle that lies ``by`` inside this one (outside it, if negative)."""
        return Box(self.x + by, self.y + by, self.width - 2 * by, self.height - 2 * by)
