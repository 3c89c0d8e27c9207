"""The core works without any window."""

import subprocess
import sys

IMPORT_ALL = """
import pkgutil, sys
import toneladder

for module in pkgutil.walk_packages(toneladder.__path__, "toneladder."):
    __import__(module.name)
print(*(name for name in sys.modules if name.startswith(("toneladder", "PySide", "shiboken"))))
"""


def test_importing_all_of_the_core_imports_no_qt() -> None:
    done = subprocess.run(
        [sys.executable, "-c", IMPORT_ALL], stdout=subprocess.PIPE, text=True, check=True
    )
    names = done.stdout.split()
    assert "toneladder.lettering.measures" in names
    assert {name.split(".")[0] for name in names} == {"toneladder"}
