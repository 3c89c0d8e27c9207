"""The last answer of every stage, kept with the request it answers."""

from collections.abc import Callable, Hashable
from typing import Any, TypeVar, cast

Answer = TypeVar("Answer")
Tell = Callable[[str], object]


def quietly(_doing: str) -> None:
    """Tell nobody."""


class Memory:
    """Remembers one answer a stage; a request that differs in anything makes a new one.

    >>> memory = Memory()
    >>> memory.recall("sum", (1, 2), lambda: 3)
    3
    >>> memory.recall("sum", (1, 2), lambda: 99)
    3
    """

    def __init__(self) -> None:
        self._answers: dict[str, tuple[Hashable, Any]] = {}

    def knows(self, stage: str, request: Hashable) -> bool:
        """Whether :meth:`recall` would have the answer at once."""
        known = self._answers.get(stage)
        return known is not None and known[0] == request

    def recall(self, stage: str, request: Hashable, make: Callable[[], Answer]) -> Answer:
        """The answer of ``stage`` to ``request``, made now only if it is not the last one."""
        known = self._answers.get(stage)
        if known is not None and known[0] == request:
            return cast("Answer", known[1])
        answer = make()
        self._answers[stage] = (request, answer)
        return answer
