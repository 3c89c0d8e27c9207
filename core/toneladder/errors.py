"""Everything that can go wrong and a person can act on.

The sentence of an error says what happened, what was kept and what to do next.
"""


class ToneLadderError(Exception):
    """Something a person can act on; ``str()`` of it is the sentence to show."""


class PictureError(ToneLadderError, ValueError):
    """A file that cannot be used as a picture."""


class QuantityError(ToneLadderError, ValueError):
    """A length, time, temperature or strength that cannot be read."""


class RefusedPairError(ToneLadderError, ValueError):
    """A metal and a mordant that must not meet, or that have no starting points."""


class PlanError(ToneLadderError, ValueError):
    """Decisions from which no plan can be made."""


class PlateFileError(ToneLadderError, ValueError):
    """A plate's file that cannot be read."""


class StripError(ToneLadderError, ValueError):
    """A test strip, or readings of one, from which no curve can be drawn."""


class BookError(ToneLadderError, OSError):
    """A studio book that cannot be opened, or cannot keep or find what was asked."""


class DamagedBookError(BookError):
    """A studio book that is damaged: it can be set aside, and a fresh one begun."""


class OutputError(ToneLadderError, OSError):
    """A place that cannot be written to."""


class TankError(ToneLadderError, ValueError):
    """What happened at the tank, written down so that it cannot be read or cannot have been."""


class ProofError(ToneLadderError, ValueError):
    """A scan that is no proof of this plate, or one that cannot be read."""


class HandbookError(ToneLadderError, LookupError):
    """A chapter that the handbook does not have."""
