"""The sheets of one plan as files: all that were wanted, or none."""

from collections.abc import Callable
from pathlib import Path

from toneladder.plan.planning import Plan
from toneladder.sheets.documents import Document, Wanted, documents
from toneladder_desktop.output.display import draw_without_display
from toneladder_desktop.output.folder import all_or_none, refuse_overwriting, require_folder

_MAPS = ("map-*.pdf", "map-*.svg")


def write_sheets(
    plan: Plan, wanted: Wanted, folder: Path, tell: Callable[[str], object], *, replace: bool
) -> tuple[str, ...]:
    """Write the wanted sheets of ``plan`` into ``folder``, or leave it as it was.

    Maps of steps that the plan no longer has are taken away with the others that are replaced:
    nobody should paint after them.

    Returns
    -------
    tuple of str
        Names of the files.

    Raises
    ------
    OutputError
        Files are there already and are not to be replaced, or the folder cannot be written to.
    """
    require_folder(folder)
    draw_without_display()
    found = list(documents(plan, wanted, tell))
    names = tuple(document.name for document in found)
    older: set[str] = set()
    if "map-1.pdf" in names:
        older = {path.name for kind in _MAPS for path in folder.glob(kind)}
    if not replace:
        refuse_overwriting(folder, sorted({*names, *older}))
    with all_or_none(folder, older - set(names)) as unfinished:
        for document in found:
            _write(document, unfinished)
    return names


def _write(document: Document, folder: Path) -> None:
    from toneladder_desktop.output.pdf import write_pdf

    path = folder / document.name
    if document.sheets:
        write_pdf(document.sheets, path)
    else:
        path.write_text(document.text, encoding="utf-8")
