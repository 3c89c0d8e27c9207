"""Why the system refused, in plain words of the reader's language."""

import errno

from toneladder.wording import say


def reason_of(fault: BaseException) -> str:
    """What stood in the way, as it goes into the brackets of a sentence.

    What is met seldom is said in the system's own words.

    >>> reason_of(FileNotFoundError(errno.ENOENT, "No such file or directory"))
    'there is nothing of that name'
    """
    number = getattr(fault, "errno", None)
    said = getattr(fault, "strerror", None)
    return _reasons().get(number, said or str(fault) or type(fault).__name__)


def _reasons() -> dict[int | None, str]:
    folder, room = say("it is a folder"), say("no room is left on the disk")
    barred = say("you have no permission")
    return {
        errno.ENOENT: say("there is nothing of that name"),
        errno.EACCES: barred,
        errno.EPERM: barred,
        errno.EISDIR: folder,
        errno.ENOTDIR: say("a part of its path is no folder"),
        errno.EROFS: say("the disk can only be read"),
        errno.ENOSPC: room,
        errno.EDQUOT: room,
        errno.EFBIG: say("it is too large for the disk"),
        errno.ENAMETOOLONG: say("its name is too long"),
        errno.ELOOP: say("its links lead in a circle"),
        errno.EBUSY: say("another program has it"),
        errno.EIO: say("the disk does not answer as it should"),
    }
