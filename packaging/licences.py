"""Checks what is installed, without a network: licences, and versions with known holes.

python packaging/licences.py

Licences are those that each package states of itself, with those of all it needs. The list of
holes is short, from memory and no replacement for a database: it only stops somebody from going
back behind a version that is known to have mended one. Of the libraries packed into the wheels it
asks those that decode pictures; Qt's own and the system's are not looked at.
"""

import re
import sys
import tomllib
from collections.abc import Iterator
from importlib.metadata import PackageNotFoundError, distribution
from pathlib import Path

from packaging.requirements import Requirement
from packaging.version import Version

ROOT = Path(__file__).parents[1]

ALLOWED = {
    "0BSD",
    "Apache-2.0",
    "BSD",
    "BSD-2-Clause",
    "BSD-3-Clause",
    "CC0-1.0",
    "MIT",
    "MIT-CMU",
    "PSF-2.0",
    "Zlib",
}
"""Licences that ask for no more than to be named."""

REASONS = {
    "PySide6_Essentials": "LGPL-3.0: linked as libraries that anybody may replace, and unchanged",
    "shiboken6": "LGPL-3.0: as PySide6",
    "hypothesis": "MPL-2.0: only tests use it",
    "pathspec": "MPL-2.0: only mypy and the build use it",
}
"""What is allowed beyond that, and why."""

MENDED = {
    "pillow": ("11.3.0", "CVE-2025-48379, written DDS; before it CVE-2024-28219, CVE-2023-4863"),
    "imagecodecs": ("2023.9.18", "CVE-2023-4863, WebP"),
    "numpy": ("1.22.0", "CVE-2021-41496, array from text"),
    "scipy": ("1.10.0", "CVE-2023-25399, a reference that leaks"),
    "pydantic": ("2.4.0", "CVE-2024-3772, e-mail addresses"),
    "PySide6-Essentials": ("6.9.1", "CVE-2025-5455, data in addresses"),
    "fonttools": ("4.43.0", "CVE-2023-45139, entities of XML; tests only"),
    "pypdf": ("6.0.0", "CVE-2025-55197, streams that swell; tests only"),
}
"""The version that mended the newest hole known of each package, from memory."""

PACKED = {
    "libpng": ("1.6.37", "CVE-2019-7317, freed and used again"),
    "libtiff": ("4.5.0", "CVE-2022-3970, tiles that are too large"),
    "libwebp": ("1.3.2", "CVE-2023-4863, tables of lossless pictures"),
    "zlib": ("1.2.13", "CVE-2022-37434, a long extra field"),
}
"""The same of libraries that decode pictures, packed into Pillow and imagecodecs."""

_PILLOWS = {"libtiff": "libtiff", "libwebp": "webp", "zlib": "zlib"}
"""What Pillow calls them."""

_SPOKEN = {
    "BSD License": "BSD",
    "BSD 2-Clause License": "BSD-2-Clause",
    "Apache 2.0": "Apache-2.0",
    "Apache Software License": "Apache-2.0",
    "MIT License": "MIT",
    "Mozilla Public License 2.0 (MPL 2.0)": "MPL-2.0",
}
_LONGEST = 60
"""Letters of a licence's name; what is longer is its text."""


def main() -> int:
    """Print what is wrong; the exit status is 1 if anything is."""
    wrong = [*unlicensed(), *known_holes(), *packed_holes()]
    for line in wrong:
        print(line)
    print(f"{len(list(needed()))} packages, {len(wrong)} objections")
    return 1 if wrong else 0


def unlicensed() -> Iterator[str]:
    """Every package that is needed under a licence that nobody has allowed."""
    for name in needed():
        own = licence_of(name)
        parts = set(re.split(r"\s+(?:AND|OR)\s+", own))
        either = " OR " in own and parts & ALLOWED
        if not (parts <= ALLOWED or either or name in REASONS):
            yield f"{name}: “{own}” is not among the licences that are allowed"


def known_holes() -> Iterator[str]:
    """Every package that is installed, or may be, in a version with a hole that was mended."""
    least = {one.name.lower(): one for one in asked()}
    for name, (mended, what) in MENDED.items():
        try:
            found = distribution(name).version
        except PackageNotFoundError:
            continue
        if Version(found) < Version(mended):
            yield f"{name} {found}: {mended} mends {what}"
        own = least.get(name.lower())
        floors = [one.version for one in own.specifier if one.operator == ">="] if own else []
        if floors and Version(floors[0]) < Version(mended):
            yield f"{name}: pyproject.toml allows {floors[0]}, and {mended} mends {what}"


def packed_holes() -> Iterator[str]:
    """Every library packed into what opens pictures, in a version with a hole that was mended."""
    import imagecodecs
    from PIL import features

    packed = imagecodecs.version(dict)
    for name, (mended, what) in PACKED.items():
        found = {"imagecodecs": packed.get(name)}
        if name in _PILLOWS:
            found["pillow"] = features.version(_PILLOWS[name])
        for package, version in found.items():
            if version is None or Version(version) < Version(mended):
                yield f"{name} {version} in {package}: {mended} mends {what}"


def licence_of(name: str) -> str:
    """The licence that an installed package states of itself; empty if it states none."""
    about = distribution(name).metadata
    kinds = [
        kind.rpartition(" :: ")[2]
        for kind in about.get_all("Classifier") or []
        if kind.startswith("License")
    ]
    stated = about.get("License-Expression") or about.get("License") or ""
    if (not stated or len(stated) > _LONGEST) and kinds:
        stated = kinds[0]
    return _SPOKEN.get(stated, stated)


def asked() -> list[Requirement]:
    """What pyproject.toml asks for, to run and to test."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    groups = project["dependency-groups"].values()
    lines = [line for group in groups for line in group if isinstance(line, str)]
    return [Requirement(line) for line in (*project["project"]["dependencies"], *lines)]


def needed() -> Iterator[str]:
    """Every package that is asked for, and whatever those need, by the name it gives itself."""
    seen: set[str] = set()
    waiting = [one.name for one in asked()]
    while waiting:
        try:
            found = distribution(waiting.pop())
        except PackageNotFoundError:
            continue
        name = found.metadata["Name"]
        if name in seen:
            continue
        seen.add(name)
        yield name
        further = [Requirement(line) for line in found.requires or []]
        waiting += [one.name for one in further if not one.marker or one.marker.evaluate()]


if __name__ == "__main__":
    sys.exit(main())
