"""Every text a person reads goes through here, so that it can be said in another language.

>>> say("{n} tones, {bites} bites", n=6, bites=5)
'6 tones, 5 bites'
>>> say_number("{n} place", "{n} places", 1)
'1 place'
"""

from gettext import NullTranslations


class _Tongue:
    """The language spoken by the whole program; it is set once, at the start."""

    catalogue = NullTranslations()


def speak(catalogue: NullTranslations) -> None:
    """Say everything from now on in the language of ``catalogue``."""
    _Tongue.catalogue = catalogue


def say(text: str, /, **values: object) -> str:
    """``text`` in the reader's language, its ``{names}`` filled from ``values``."""
    spoken = _Tongue.catalogue.gettext(text)
    return spoken.format(**values) if values else spoken


def say_number(one: str, many: str, n: int, /, **values: object) -> str:
    """The form of the sentence that goes with ``n``; ``{n}`` is the number itself."""
    return _Tongue.catalogue.ngettext(one, many, n).format(n=n, **values)
