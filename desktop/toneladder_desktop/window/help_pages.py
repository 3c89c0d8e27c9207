"""What Help and Bath have to read: keys, sources, cautions, about."""

from html import escape
from importlib.resources import files
from typing import TYPE_CHECKING

from toneladder.wording import say
from toneladder_desktop.fittings.reading import ReadingWindow, as_list, as_paragraphs, as_table
from toneladder_desktop.output.built_from import built_from

if TYPE_CHECKING:
    from toneladder_desktop.window.bench_window import BenchWindow


def show_keys(window: "BenchWindow", keys: list[tuple[str, str]]) -> None:
    """Every key, those of the menus and those of paper and ladder."""
    paper = [
        (say("Push the paper"), say("arrows")),
        (say("Nearer, further"), "+  −"),
        (say("Fit the plate"), say("Home")),
        (say("Move the loupe a little, a lot"), say("arrows; with Shift")),
        (say("Put the loupe away"), say("Esc")),
    ]
    ladder = [
        (say("Parting or bite of a tone"), say("left, right")),
        (say("Another tone"), say("Page up, Page down")),
        (say("Move the peg a little, a lot"), say("up, down; with Shift")),
        (say("Type a value"), say("Enter")),
        (say("Let it go"), say("Delete")),
        (say("One tone more, one less"), "+  −"),
        (say("Choose no tone"), say("Esc")),
    ]
    html = "".join(
        f"<h3>{escape(title)}</h3>{as_table(rows)}"
        for title, rows in (
            (say("Anywhere"), keys),
            (say("On the paper"), paper),
            (say("On the ladder"), ladder),
        )
    )
    ReadingWindow(say("Keys"), html, window).show()


def show_sources(window: "BenchWindow") -> None:
    """The list of sources that the numbers cite."""
    text = files("toneladder").joinpath("sources.md").read_text(encoding="utf-8")
    sources = [line.removeprefix("- ") for line in text.splitlines() if line.startswith("- ")]
    html = as_paragraphs(sources)
    ReadingWindow(say("Where the numbers come from"), html, window).show()


def show_cautions(window: "BenchWindow") -> None:
    """Everything that was said of this plate, the metal and the bath."""
    plan = window.workings.plan
    if plan is None:
        window.say_error(say("The plan is still being worked out; look again in a moment."))
        return
    html = as_list(say("Beware"), list(plan.order.cautions))
    html += as_list(say("Of this plate"), list(plan.order.warnings))
    html += as_list(say("Before the first bite"), list(plan.order.before))
    html += as_list(say("After the last bite"), list(plan.order.after))
    ReadingWindow(say("Cautions and warnings"), html, window).show()


def show_about(window: "BenchWindow") -> None:
    """What this is."""
    lines = (
        say("Tone Ladder plans the tones, bites and stop-outs of an aquatint plate."),
        say("Version: {version}.", version=built_from()),
        say("Free software under the MIT licence; its letters under the Open Font License."),
        say("It draws with Qt, used under the GNU Lesser General Public License, version 3."),
    )
    ReadingWindow(say("About Tone Ladder"), as_paragraphs(list(lines)), window).show()
