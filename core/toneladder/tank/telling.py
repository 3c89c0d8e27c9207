"""What is said in each state: one sentence, what comes next, and the words on the acts."""

from collections.abc import Callable, Mapping

from toneladder.tank import telling_in_bath, telling_out
from toneladder.tank.values import State
from toneladder.tank.view import Told, View


def tell(state: State, view: View) -> Told:
    """Everything that is said in ``state``."""
    return _TELLERS[state](view)


_TELLERS: Mapping[State, Callable[[View], Told]] = {
    State.CHECK: telling_out.check,
    State.READY: telling_out.ready,
    State.SKIP: telling_out.skip,
    State.COUNT_IN: telling_in_bath.count_in,
    State.BITING: telling_in_bath.biting,
    State.ASKED: telling_in_bath.asked,
    State.LAST_TEN: telling_in_bath.last_ten,
    State.LIFT: telling_in_bath.lift,
    State.WHEN: telling_in_bath.when,
    State.OUT_EARLY: telling_out.out_early,
    State.OUT: telling_out.out,
    State.WORKED_OUT: telling_out.worked_out,
    State.LOST_TONE: telling_out.lost_tone,
    State.STOP_OUT: telling_out.stop_out,
    State.DRYING: telling_out.drying,
    State.BACK: telling_in_bath.back,
    State.CLOCKS: telling_in_bath.clocks,
    State.NO_SOUND: telling_out.no_sound,
    State.END: telling_out.end,
    State.CLOSED: telling_out.closed,
}
