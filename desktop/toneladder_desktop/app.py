"""Where the program starts: the headless command, or the window."""

import os
import sys
from collections.abc import Sequence
from io import TextIOWrapper
from pathlib import Path

from toneladder.errors import ToneLadderError
from toneladder.refusals import reason_of
from toneladder.wording import asked_for, language_of, say, speak_language

NAMES = ("plan", "sheets", "strip", "curve", "tank", "proof", "handbook")
ONE_THREAD = ("OPENBLAS_NUM_THREADS", "1")
"""Before numpy loads: products of matrices this small cost more when they are shared out."""

COMMANDS = (*NAMES, "--help", "-h", "--version")


def main(arguments: Sequence[str] | None = None) -> int:
    """Run Tone Ladder with the command line's words; returns the exit status.

    ``plan …`` works headless. Anything else opens the window, with the plate or picture named.
    """
    words = list(sys.argv[1:] if arguments is None else arguments)
    os.environ.setdefault(*ONE_THREAD)
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):  # what a terminal cannot show is no reason to stop
            stream.reconfigure(errors="backslashreplace")
    speak_language(language_of(asked_for(os.environ)))
    try:
        if words and words[0] in COMMANDS:
            return _command(words)
        return _window(words)
    except KeyboardInterrupt:
        print(say("Stopped. Nothing was written."), file=sys.stderr)
        return 130
    except BrokenPipeError:  # whoever listened has heard enough
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 1
    except (ToneLadderError, OSError, MemoryError, ImportError) as fault:
        print(_sentence(fault), file=sys.stderr)
        return 2


def _command(words: Sequence[str]) -> int:
    from toneladder.quantities import write_as
    from toneladder_desktop.bench.folders import PREFERENCES_FILE, config_folder
    from toneladder_desktop.bench.manners import kept_manner
    from toneladder_desktop.command.running import run

    write_as(kept_manner(config_folder() / PREFERENCES_FILE))
    return run(words)


def _sentence(fault: Exception) -> str:
    """What a person is told of a fault, also where nothing nearer to it had a sentence."""
    if isinstance(fault, ToneLadderError):
        return str(fault)
    if isinstance(fault, MemoryError):
        return say(
            "There is not enough memory here for this. Files that were there before are as they "
            "were. Close other programs, or take a smaller plate or picture, and try again."
        )
    if isinstance(fault, ImportError):
        return say(
            "Something that the program needs is missing here ({reason}). Nothing was changed. "
            "Install it, or install Tone Ladder anew, and start again.",
            reason=fault,
        )
    return say(
        "The system refused ({reason}). Files that were there before are as they were. Make room, "
        "or look after the place that was named, and try again.",
        reason=reason_of(fault),
    )


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
    if len(words) == 1 and words[0].isalpha() and not Path(words[0]).exists():
        print(
            say(
                "{word} is no command and no file here. “toneladder --help” lists the commands.",
                word=words[0],
            ),
            file=sys.stderr,
        )
        return 2
    require_display()
    from toneladder_desktop.window.start import open_window

    return open_window([Path(word) for word in words])


if __name__ == "__main__":
    sys.exit(main())
