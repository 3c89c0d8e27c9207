"""Lets a coverage-guided fuzzer, if one is installed, loose on one of the parsers.

The fuzzer is atheris, which the program does not depend on: install it somewhere, and
``python -m tests.hostile.harness_strip CORPUS -max_total_time=600``.
"""

import sys
from importlib import import_module

OURS = ("toneladder.", "csv", "json", "zipfile")


def fuzz(parser: str, *seeds: bytes) -> None:
    """Feed ``tests.hostile.parsers.<parser>`` until it fails or the time is over."""
    atheris = import_module("atheris")
    with atheris.instrument_imports(include=list(OURS), enable_loader_override=False):
        consume = getattr(import_module("tests.hostile.parsers"), parser)
    for seed in seeds:
        consume(seed)
    atheris.Setup(sys.argv, consume)
    atheris.Fuzz()
