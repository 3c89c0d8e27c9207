"""One number explained: what it means, and what it rests on."""

from dataclasses import dataclass
from enum import StrEnum

from toneladder.wording import say


class Source(StrEnum):
    """What a number rests on, the firmest first."""

    READ = "your own readings"
    PUBLISHED = "published"
    PRACTICE = "common practice, no source"
    MEMORY = "from memory, no source"
    ASSUMED = "an assumption"


@dataclass(frozen=True, slots=True)
class Explained:
    """A sentence about a number, and its source; ``more`` says where to look, or what to do."""

    sentence: str
    source: Source
    more: str = ""

    @property
    def text(self) -> str:
        """All of it, to be shown beside the number."""
        source = say("Source: {source}.", source=say(self.source.value))
        return " ".join(part for part in (self.sentence, source, self.more) if part)
