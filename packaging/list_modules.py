"""Lists every module with its own first sentence, for the architecture in DEVELOPERS.md.

python packaging/list_modules.py           print the list
python packaging/list_modules.py --write   put it into DEVELOPERS.md
"""

import ast
import sys
import tomllib
from pathlib import Path

ROOT = Path(__file__).parents[1]
PAGE = ROOT / "DEVELOPERS.md"
START, END = "<!-- modules -->\n", "<!-- end of modules -->\n"


def main(arguments: list[str]) -> None:
    """Print the list, or write it between its two marks in the page."""
    rows = "\n".join(line(path) for path in sorted(modules(), key=place)) + "\n"
    if arguments == ["--write"]:
        page = PAGE.read_text(encoding="utf-8")
        before, after = page.split(START)[0], page.split(END)[1]
        PAGE.write_text(before + START + rows + END + after, encoding="utf-8")
    else:
        sys.stdout.write(rows)


def modules() -> list[Path]:
    """Every module of the core and of the window, by its path from here."""
    found = [*ROOT.glob("core/**/*.py"), *ROOT.glob("desktop/**/*.py")]
    return [path.relative_to(ROOT) for path in found]


def place(path: Path) -> tuple[str, int, bool, Path]:
    """The core's rooms from the top down, as their contract has them; a room before its parts."""
    contracts = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    layers = contracts["tool"]["importlinter"]["contracts"][0]["layers"]
    rooms = [room.strip() for layer in layers for room in layer.replace(":", "|").split("|")]
    room = path.with_suffix("").parts[2]
    height = rooms.index(room) if path.parts[0] == "core" and room in rooms else -1
    return path.parts[0], height, path.name != "__init__.py", path


def line(path: Path) -> str:
    """One row: a room's own sentence stands under the name of its folder."""
    said = ast.get_docstring(ast.parse((ROOT / path).read_text(encoding="utf-8"))) or ""
    name = f"{path.parent}/" if path.name == "__init__.py" else str(path)
    return f"- `{name}`: {said.splitlines()[0] if said else '…'}"


if __name__ == "__main__":
    main(sys.argv[1:])
