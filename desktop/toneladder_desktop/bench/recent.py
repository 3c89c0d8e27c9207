"""The plates that were open lately, newest first, kept in the state folder."""

import json
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

from toneladder.errors import OutputError
from toneladder.writing import write_whole

MOST = 10


class Recent:
    """A short list of files; what cannot be read or kept is simply not remembered.

    ``run`` has the disk written to, at once or beside the window.
    """

    def __init__(
        self, file: Path, run: Callable[[Callable[[], None]], object] = lambda act: act()
    ) -> None:
        self._file, self._run = file, run

    def files(self) -> tuple[Path, ...]:
        """The files, newest first; some may be gone."""
        try:
            names = json.loads(self._file.read_text(encoding="utf-8"))
        except (OSError, ValueError, RecursionError):
            return ()
        if not isinstance(names, list):
            return ()
        return tuple(Path(name) for name in names if isinstance(name, str))[:MOST]

    def add(self, path: Path) -> None:
        """``path`` was opened or saved now."""
        path = path.absolute()
        self._run(lambda: self._keep([path, *(known for known in self.files() if known != path)]))

    def clear(self) -> None:
        """Forget all of them."""
        self._run(lambda: self._keep([]))

    def _keep(self, paths: list[Path]) -> None:
        text = json.dumps([str(path) for path in paths[:MOST]], ensure_ascii=False, indent=1)
        with suppress(OSError, OutputError):
            self._file.parent.mkdir(parents=True, exist_ok=True)
            write_whole(self._file, lambda file: file.write(text.encode()))
