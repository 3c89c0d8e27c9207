"""Offers the plates of a window that ended in a crash."""

from collections.abc import Callable

from toneladder.errors import ToneLadderError
from toneladder.quantities import write_day
from toneladder.wording import say
from toneladder_desktop.bench.bench import Bench, Lying
from toneladder_desktop.bench.recovery import Left, Recovery, take_back, throw_away
from toneladder_desktop.fittings.notice import Notice
from toneladder_desktop.window.filing import Filing


class TakingBack:
    """One offer after the other, above the paper."""

    def __init__(
        self,
        recovery: Recovery,
        bench: Bench,
        filing: Filing,
        notice: Notice,
        say_error: Callable[[str], object],
    ) -> None:
        self._recovery, self._bench, self._filing = recovery, bench, filing
        self._notice, self._say_error = notice, say_error

    def offer(self) -> None:
        """Offer what was kept last, if anything was."""
        left = self._recovery.left()
        if not left:
            return
        self._notice.tell(
            say(
                "“{title}” was open when the program stopped. It was kept on {day} at {time}.",
                title=left[0].title,
                day=write_day(f"{left[0].kept_at:%Y-%m-%d}"),
                time=f"{left[0].kept_at:%H:%M}",
            ),
            (
                (say("Take it back"), lambda: self._take_back(left[0])),
                (say("Throw it away"), lambda: self._throw_away(left[0])),
            ),
            put_away=say("Later"),
            lasting=True,
        )

    def _take_back(self, left: Left) -> None:
        try:
            lying = take_back(left)
        except ToneLadderError as fault:
            self._say_error(str(fault))
            return
        self._filing.unless_unsaved(lambda: self._lay(lying, left))

    def _lay(self, lying: Lying, left: Left) -> None:
        self._bench.lay(lying, unsaved=True)
        self._recovery.take_over(left)

    def _throw_away(self, left: Left) -> None:
        throw_away(left)
        self.offer()
