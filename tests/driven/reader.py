"""The program as a screen reader has it: roles, names, states, and what can be done, over D-Bus.

Speaks AT-SPI 2, the interface of assistive technology on Linux, as its own XML descriptions in
at-spi2-core define it.
"""

import time
from collections import deque
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from jeepney import DBusAddress, HeaderFields, MatchRule, MessageType, message_bus, new_method_call
from jeepney.io.blocking import DBusConnection, open_dbus_connection

_ROOT = ("org.a11y.atspi.Registry", "/org/a11y/atspi/accessible/root")
_SPACE = "org.a11y.atspi."
_PROPERTIES = "org.freedesktop.DBus.Properties"
_LONGEST_S = 30.0
_SETTLED_S = 0.03
_LABELLED_BY = 2
_ALWAYS_THERE = {"desktop frame", "application", "menu bar", "menu item", "popup menu"}
"""What need not be shown to be walked through: menus need not be open to be chosen from."""

_STATES = {"checked": 4, "enabled": 8, "focused": 12, "showing": 25, "visible": 30}


class UnreachableError(Exception):
    """What a screen reader asked for is not there, or does not answer."""


@dataclass(frozen=True, slots=True)
class Part:
    """One accessible object of the program."""

    reader: "Reader"
    bus: str
    path: str

    @property
    def name(self) -> str:
        """What a screen reader calls it."""
        return str(self._get("Accessible", "Name"))

    @property
    def description(self) -> str:
        """What a screen reader adds to its name."""
        return str(self._get("Accessible", "Description"))

    @property
    def role(self) -> str:
        """What kind of thing it is, in AT-SPI's words."""
        return str(self._call("Accessible", "GetRoleName")[0])

    @property
    def children(self) -> list["Part"]:
        """What lies in it, in its order."""
        (found,) = self._call("Accessible", "GetChildren")
        return [
            Part(self.reader, bus, path) for bus, path in found if path != "/org/a11y/atspi/null"
        ]

    @property
    def interfaces(self) -> list[str]:
        """What can be asked of it, without the common beginning."""
        return [name.removeprefix(_SPACE) for name in self._call("Accessible", "GetInterfaces")[0]]

    def has(self, state: str) -> bool:
        """Whether it is in a state of AT-SPI's."""
        (words,) = self._call("Accessible", "GetState")
        number = _STATES[state]
        return bool(words[number // 32] >> (number % 32) & 1)

    # acts

    @property
    def actions(self) -> list[str]:
        """What can be done with it."""
        return [str(action[0]) for action in self._call("Action", "GetActions")[0]]

    def do(self, action: str) -> None:
        """Do one of its actions."""
        actions = self.actions
        if action not in actions:
            raise UnreachableError(f"{self.role} “{self.name}” has only {actions}")
        self._call("Action", "DoAction", "i", (actions.index(action),))

    @property
    def value(self) -> float:
        """Where a slider stands."""
        return float(self._get("Value", "CurrentValue"))

    def set_value(self, value: float) -> None:
        """Put a slider elsewhere."""
        self._call_on(_PROPERTIES, "Set", "ssv", (f"{_SPACE}Value", "CurrentValue", ("d", value)))

    @property
    def limits(self) -> tuple[float, float]:
        """How far a slider goes."""
        least, most = (self._get("Value", f"{name}Value") for name in ("Minimum", "Maximum"))
        return float(least), float(most)

    @property
    def text(self) -> str:
        """What is written in it."""
        return str(self._call("Text", "GetText", "ii", (0, -1))[0])

    def write(self, text: str) -> None:
        """Write something else in it."""
        self._call("EditableText", "SetTextContents", "s", (text,))

    def choose(self, number: int) -> None:
        """Choose one of its children."""
        self._call("Selection", "SelectChild", "i", (number,))

    def take_keys(self) -> None:
        """Give it the keys."""
        self._call("Component", "GrabFocus")

    # within

    @property
    def labels(self) -> list[str]:
        """What it is called by labels beside it."""
        relations = self._call("Accessible", "GetRelationSet")[0]
        found = [parts for kind, parts in relations if kind == _LABELLED_BY]
        return [Part(self.reader, *part).name for parts in found for part in parts]

    def walk(self) -> Iterator[tuple["Part", str]]:
        """It and everything in it that is shown, from the top, with its role."""
        try:
            role = self.role
            if role not in _ALWAYS_THERE and not self.has("showing"):
                return
            yield self, role
            children = self.children
        except UnreachableError:  # it has gone meanwhile
            return
        for child in children:
            yield from child.walk()

    def seek(self, role: str, name: str) -> "Part | None":
        """The first thing in it of that role whose name, or label, begins so, if it is shown."""
        for part, its_role in self.walk():
            try:
                if its_role == role and part.is_called(name):
                    return part
            except UnreachableError:
                continue
        return None

    def cell(self, row: int, column: int) -> "Part":
        """A cell of a table."""
        ((bus, path),) = self._call("Table", "GetAccessibleAt", "ii", (row, column))
        return Part(self.reader, bus, path)

    @property
    def rows(self) -> int:
        """How many rows a table has."""
        return int(self._get("Table", "NRows"))

    def find(self, role: str, name: str, longest_s: float = _LONGEST_S) -> "Part":
        """The same, waited for."""
        end = time.monotonic() + longest_s
        while True:
            part = self.seek(role, name)
            if part is not None:
                return part
            if time.monotonic() > end:
                raise UnreachableError(f"no {role} “{name}” in {self.role} “{self.name}”")
            time.sleep(0.1)

    def is_called(self, name: str) -> bool:
        """Whether its name, or that of a label, begins so."""
        return self.name.startswith(name) or any(one.startswith(name) for one in self.labels)

    def _get(self, interface: str, name: str) -> Any:
        (found,) = self._call_on(_PROPERTIES, "Get", "ss", (_SPACE + interface, name))
        return found[1]

    def _call(
        self, interface: str, member: str, kinds: str = "", words: tuple[Any, ...] = ()
    ) -> Any:
        return self._call_on(_SPACE + interface, member, kinds, words)

    def _call_on(self, interface: str, member: str, kinds: str, words: tuple[Any, ...]) -> Any:
        address = DBusAddress(self.path, self.bus, interface)
        return self.reader.ask(new_method_call(address, member, kinds or None, words))


class Reader:
    """A connection to the bus of assistive technology, by way of a session's bus."""

    def __init__(self, session_bus: str) -> None:
        session = open_dbus_connection(session_bus)
        address = DBusAddress("/org/a11y/bus", "org.a11y.Bus", "org.a11y.Bus")
        (where,) = _answer(session, new_method_call(address, "GetAddress"))
        session.close()
        self._bus: DBusConnection = open_dbus_connection(str(where))
        self._told: deque[Any] = deque()
        self._focused: Part | None = None
        self._listen()

    def ask(self, message: Any) -> Any:
        """The answer to a call."""
        return _answer(self._bus, message)

    @property
    def desktop(self) -> Part:
        """Everything that a screen reader sees."""
        return Part(self, *_ROOT)

    def focused(self, wait_s: float = 0.0) -> Part | None:
        """What has the keys, as was told last; something new is waited for a little."""
        while True:
            try:
                told = self._bus.recv_until_filtered(self._told, timeout=wait_s)
            except TimeoutError:
                return self._focused
            kind, on, *_ = told.body
            if kind == "focused" and on:
                fields = told.header.fields
                self._focused = Part(self, fields[HeaderFields.sender], fields[HeaderFields.path])
                wait_s = _SETTLED_S

    def forget(self) -> None:
        """Whatever had the keys, only what is told from now on counts."""
        self.focused()
        self._focused = None

    def close(self) -> None:
        """Let the bus go."""
        self._bus.close()

    def _listen(self) -> None:
        """Be told where the keys go, as whoever reads the screen aloud."""
        rule = MatchRule(type="signal", interface=f"{_SPACE}Event.Object", member="StateChanged")
        self.ask(message_bus.AddMatch(rule))
        self._bus.filter(rule, queue=self._told)
        registry = DBusAddress("/org/a11y/atspi/registry", _ROOT[0], f"{_SPACE}Registry")
        event: tuple[str, list[str], str] = ("object:state-changed:focused", [], "")
        self.ask(new_method_call(registry, "RegisterEvent", "sass", event))


def _answer(bus: DBusConnection, message: Any) -> Any:
    answer = bus.send_and_get_reply(message, timeout=_LONGEST_S)
    if answer.header.message_type is MessageType.error:
        raise UnreachableError(answer.body)
    return answer.body
