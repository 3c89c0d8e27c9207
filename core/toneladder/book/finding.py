"""Words as a search compares them: without regard to capitals, in any script."""

import unicodedata


def folded(*texts: str) -> str:
    """Texts as one line that can be compared.

    >>> folded("GRÖẞE ", "Étang")
    'grösse étang'
    """
    plain = unicodedata.normalize("NFKC", " ".join(texts)).casefold()
    return " ".join(unicodedata.normalize("NFKC", plain).split())


def sought(words: str) -> tuple[str, ...]:
    """The words of a search, each of which must be found somewhere; no sign in them is special.

    >>> sought("Zinc 100%  zinc")
    ('zinc', '100%')
    """
    return tuple(dict.fromkeys(folded(words).split()))
