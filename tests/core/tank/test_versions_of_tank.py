"""A session that an older version logged goes on: the same order, and the same bites behind it."""

import json
from dataclasses import asdict
from pathlib import Path

from toneladder.tank.begun import begun_from, begun_text
from toneladder.tank.record import EventRow, event_from, event_row
from toneladder.tank.session import session
from toneladder.tank.values import Moment

PATH = Path(__file__).parents[2] / "data" / "versions" / "tank_1.json"


def test_a_session_of_an_older_version_stands_where_it_stood() -> None:
    kept = json.loads(PATH.read_text(encoding="utf-8"))
    begun = begun_from(json.dumps(kept["begun"]))
    assert json.loads(begun_text(begun)) == kept["begun"]
    assert begun.bath == "Große Wanne"
    rows = [EventRow(number, *row) for number, row in enumerate(kept["rows"])]
    events = [event_from(row) for row in rows]
    assert [event_row(event) for event in events] == rows
    standing = session(begun.order, begun.facts, events, Moment(*kept["now"]))
    assert [asdict(dip) for dip in standing.dips] == kept["dips"]
