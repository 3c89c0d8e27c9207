"""Where the program starts: the headless command, or the window."""

import os
import sys
from collections.abc import Sequence
from pathlib import Path

from toneladder.errors import ToneLadderError
from toneladder.wording import asked_for, language_of, say, speak_language

NAMES = ("plan", "sheets", "strip", "curve", "tank", "proof", "handbook")
COMMANDS = (*NAMES, "--help", "-h", "--version")


def main(arguments: Sequence[str] | None = None) -> int:
    """Run Tone Ladder with the command line's words; returns the exit status.

    ``plan …`` works headless. Anything else opens the window, with the plate or picture named.
    """
    words = list(sys.argv[1:] if arguments is None else arguments)
    speak_language(language_of(asked_for(os.environ)))
    try:
        if words and words[0] in COMMANDS:
            from toneladder_desktop.command.running import run

            return run(words)
        return _window(words)
    except ToneLadderError as fault:
        print(fault, file=sys.stderr)
        return 2
    except KeyboardInterrupt:
        print(say("Stopped. Nothing was written."), file=sys.stderr)
        return 130


def _window(words: Sequence[str]) -> int:
    from toneladder_desktop.output.display import require_display

    unknown = [word for word in words if word.startswith("-")]
    if unknown:
        print(
            say(
                "{option} is not known here. “toneladder --help” lists what is.", option=unknown[0]
            ),
            file=sys.stderr,
        )
        return 2
    require_display()
    from toneladder_desktop.window.start import open_window

    return open_window([Path(word) for word in words])


if __name__ == "__main__":
    sys.exit(main())
