"""``toneladder tank``: what would be said at the tank, from a table of what happened."""

import argparse
from pathlib import Path

from toneladder.errors import TankError
from toneladder.order.values import Order
from toneladder.picture.opening import open_picture
from toneladder.plan.planning import Plan, plan
from toneladder.plate.file import read_plate
from toneladder.quantities import write_bite, write_tone
from toneladder.refusals import reason_of
from toneladder.tank.begun import Begun
from toneladder.tank.facts import begun_of
from toneladder.tank.naming import bite_name, made_names
from toneladder.tank.rehearsal import Line, rehearse, words
from toneladder.tank.script import LONGEST_SCRIPT, are_times_of_day, read_script
from toneladder.tank.staged import stages_of
from toneladder.tank.values import Stage, Standing
from toneladder.tank.working_out import AS_PLANNED_S
from toneladder.wording import begins, say
from toneladder_desktop.command.words import one_of

_STAGES = {"lines": Stage.LINES, "tones": Stage.TONES, "second": Stage.SECOND}


def add_tank_words(commands: argparse.ArgumentParser) -> None:
    """The words of ``tank``."""
    commands.set_defaults(run=run)
    commands.add_argument("plate", metavar="PLAN.plate")
    commands.add_argument(
        "--stage",
        default="tones",
        **one_of(
            {"lines": say("lines"), "tones": say("tones"), "second": say("second grain")},
            "tones",
            say("what is bitten"),
        ),
    )
    commands.add_argument(
        "--simulate",
        required=True,
        metavar="EVENTS.csv",
        help=say("rows of time,event,value; events: {events}", events=", ".join(words())),
    )


def run(chosen: argparse.Namespace) -> int:
    """Print what would have been said, and the order that remains; returns the exit status.

    Raises
    ------
    ToneLadderError
        A plate or a table that cannot be read, or a row that cannot have happened.
    """
    rows = read_script(_text_of(Path(chosen.simulate)), tuple(words()))
    content = read_plate(Path(chosen.plate))
    picture = open_picture(content.picture, name=content.plate.picture.name)
    planned = plan(picture, content.plate, content.curve)
    day_s = 0.0 if are_times_of_day(rows) else _start_s(planned)
    begun = begun_of(planned, _stage(planned, chosen.stage))
    lines, standing, _ = rehearse(begun.order, begun.facts, rows, day_s=day_s)
    for line in lines:
        print(_written(line))
    print()
    tones = begun.facts.stage is Stage.TONES
    left = what_remains(begun.order, standing) if tones else bites_that_remain(begun, standing)
    for text in left:
        print(text)
    return 0


def what_remains(planned: Order, standing: Standing) -> list[str]:
    """Every step as it was or as it is to be now, and what its tone prints."""
    order = standing.order or planned
    first = {s.step: s.bite_s for s in planned.steps}
    bitten = {s.step: 0.0 for s in planned.steps}
    for dip in standing.dips:
        bitten[dip.step] += dip.bitten_s
    done = {s.step for s in order.steps if bitten[s.step] >= s.bite_s - 0.5 > 0.0}
    texts = []
    for step in planned.steps:
        now = next((s for s in order.steps if s.step == step.step), None)
        prints = write_tone(order.tones[step.step].lightness)
        if now is None:
            texts.append(
                say("Step {n}: no bite; tone {n} prints {dark}.", n=step.step, dark=prints)
            )
            continue
        values = {
            "n": step.step,
            "bite": write_bite(now.bite_s),
            "planned": write_bite(first[step.step]),
            "dark": prints,
        }
        if step.step in done:
            texts.append(
                say("Step {n}: bitten {bite}, planned {planned}; tone {n} prints {dark}.", **values)
            )
        elif bitten[step.step] > 0.0:
            had = write_bite(bitten[step.step])
            texts.append(say("Step {n}: {had} of {bite} bitten so far.", had=had, **values))
        else:
            texts.append(
                say("Step {n}: bite {bite}, planned {planned}; tone {n} prints {dark}.", **values)
            )
    return texts


def bites_that_remain(begun: Begun, standing: Standing) -> list[str]:
    """Every bite of lines, or of a second grain, as it was or as it is to be now."""
    planned, facts = begun.order, begun.facts
    now = {s.step: s for s in (standing.order or planned).steps}
    had = {s.step: sum(d.bitten_s for d in standing.dips if d.step == s.step) for s in now.values()}
    texts = []
    for step in planned.steps:
        name = begins(bite_name(facts, planned, step.step))
        kept = now.get(step.step)
        values = {"bite_name": name, "planned": write_bite(step.bite_s)}
        if kept is None:
            texts.append(say("{bite_name}: no bite, planned {planned}.", **values))
            continue
        done = had[step.step] >= kept.bite_s - AS_PLANNED_S
        values |= {
            "made": made_names(facts, planned, (step.step,)),
            "bite": write_bite(kept.bite_s),
            "total": write_bite(kept.total_bite_s),
        }
        if done:
            text = say(
                "{bite_name}: bitten {bite}, planned {planned}; {made}: {total} in all.", **values
            )
        else:
            text = say(
                "{bite_name}: bite {bite}, planned {planned}; {made}: {total} in all.", **values
            )
        texts.append(text)
    return texts


def _stage(planned: Plan, word: str) -> Stage:
    """The stage of that word.

    Raises
    ------
    TankError
        The plate has none.
    """
    stage = _STAGES[word]
    if stage not in stages_of(planned.order):
        raise TankError(
            say(
                "This plate has no {stage} to bite. Nothing was worked out. Plan the plate with"
                " it, or rehearse the tones.",
                stage=say(stage.value),
            )
        )
    return stage


def _written(line: Line) -> str:
    seconds = round(line.at_s)
    time = f"{seconds // 3600 % 24}:{seconds // 60 % 60:02}:{seconds % 60:02}"
    return f"{time}  ({line.text})" if line.heard else f"{time}  {line.text}"


def _start_s(planned: Plan) -> float:
    start = planned.plate.start
    if start is None:
        return 0.0
    hours, minutes = start.split(":")
    return 3600.0 * int(hours) + 60.0 * int(minutes)


def _text_of(path: Path) -> str:
    try:
        with path.open("rb") as file:
            data = file.read(4 * LONGEST_SCRIPT + 1)
        if len(data) > 4 * LONGEST_SCRIPT:
            raise TankError(say("{name} is far too large for a table of events.", name=path.name))
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as fault:
        raise TankError(
            say(
                "{name} is not a text file. Nothing was worked out. Save the table as CSV, UTF-8.",
                name=path.name,
            )
        ) from fault
    except OSError as fault:
        raise TankError(
            say(
                "{name} cannot be read ({reason}). Nothing was worked out. Check its name.",
                name=path.name,
                reason=reason_of(fault),
            )
        ) from fault
