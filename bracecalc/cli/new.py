"""``bracecalc new``: asks for the measurements one by one and writes a job file."""

from __future__ import annotations

import shlex
from pathlib import Path
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from bracecalc.cli.interview import Interview

STANDARD_OUTPUT = "-"
LEG_SPOTS = ("front_left", "front_right", "rear_left", "rear_right")


@click.command(name="new")
@click.argument("file", default="niche.toml", metavar="[FILE]")
@click.option(
    "--units",
    type=click.Choice(["inch", "mm"]),
    default="inch",
    show_default=True,
    help="The system of numbers that are typed without a unit.",
)
@click.option("--force", is_flag=True, help="Write over a file that exists.")
def command(file: str, units: str, force: bool) -> None:
    """Ask for the measurements of one niche and write them to FILE, a job file.

    FILE is niche.toml if left out; - is standard output. Have a tape, a level or a laser, a stud
    finder and the unit's own sheet at hand. Each answer is checked as it comes; ? says what can be
    typed, Ctrl-C stops and nothing is written.
    """
    from bracecalc.cli.interview import Interview
    from bracecalc.jobfile.answers import answers_to_toml
    from bracecalc.records.job import Units
    from bracecalc.writing import check_target, write_whole

    to_stdout = file == STANDARD_OUTPUT
    if not to_stdout:
        check_target(file, force=force)
    interview = Interview(Units(units), err=to_stdout)
    _everything(interview, file)
    text = answers_to_toml(interview.values)
    if to_stdout:
        click.echo(text, nl=False)
        return
    write_whole(file, text, force=force)
    click.echo(f"Wrote {file}. Next: bracecalc plan {shlex.quote(file)}")


def _everything(interview: Interview, file: str) -> None:
    """Ask for the whole job, and again for what doesn't fit together."""
    interview.say(
        "One niche, one job file. A length is typed as 33 1/4, 33 1/4 in, 7 ft 0.25 in or 845 mm. "
        "Enter takes what stands in [ ]; ? says what can be typed; Ctrl-C stops, and nothing is "
        "written."
    )
    _niche(interview, file)
    _floor(interview)
    _wall(interview)
    _unit(interview)
    _means(interview)
    _rest(interview)
    _look_over(interview, file)


def _niche(interview: Interview, file: str) -> None:
    interview.head("Niche", "the framed recess, finished, with a tape")
    interview.ask("title", skip=True)
    if "title" not in interview.values:
        stem = Path(file).stem if file != STANDARD_OUTPUT else ""
        interview.values["title"] = stem if stem else "Untitled"
    interview.ask("niche.width")
    interview.ask("niche.depth")
    if interview.ask("niche.soffit", skip=True):
        interview.ask("niche.soffit_solid")
        interview.ask("niche.soffit_depth", skip=True)
        what = "The soffit's build-up below its framing, from the room inward."
        interview.ask_layers("niche.soffit_layers", what, skip=True)


def _floor(interview: Interview) -> None:
    interview.head("Floor", "at the four spots where the legs will stand")
    way = interview.choose(
        "How was the floor read?",
        {
            "h": "heights above the datum, the level line or plane of this site",
            "d": "down from a laser's line: a bigger reading is a lower floor",
            "n": "not read yet: it is taken as level",
        },
    )
    if way == "n":
        return
    table = "floor" if way == "h" else "floor.down_from_line"
    for spot in LEG_SPOTS:
        interview.ask(f"{table}.{spot}")
    interview.ask(f"{table}.path_high", skip=True)
    if way == "d":
        interview.ask("floor.down_from_line.line", skip=True)
    interview.ask("floor.finish_to_come", skip=True)


def _wall(interview: Interview) -> None:
    interview.head("Wall", "the rear wall, from its face to the studs")
    what = "What lies on the studs, from the room inward; none: bare studs."
    interview.ask_layers("wall.layers", what, skip=False)
    interview.ask("wall.finish_to_come", skip=True)
    interview.ask("wall.stud.material", default=True)
    wood = interview.values["wall.stud.material"] == "wood"
    if wood:
        interview.ask("wall.stud.species", default=True)
    interview.ask("wall.stud.width", default=True)
    interview.ask("wall.stud.depth", default=True)
    interview.say(
        "Where the studs are: measured spots, or Enter for a regular spacing.", indent="  "
    )
    if not interview.ask("wall.stud_spots", skip=True, enter="a regular spacing") and (
        wood or interview.yes("Is the spacing of the framing known?")
    ):
        interview.ask("wall.stud_layout.spacing")
        interview.ask("wall.stud_layout.first", skip=True)
    interview.ask("wall.corner_studs")


def _unit(interview: Interview) -> None:
    interview.head("Unit", "the appliance, from its sheet")
    for name in ("height", "width", "depth"):
        interview.ask(f"unit.{name}")
    interview.ask("unit.height_overall", skip=True)
    interview.ask("unit.proud", default=True)
    if interview.yes("Do front and rear legs have the same travel?", default=True):
        interview.ask("unit.leg_travel")
    else:
        interview.ask("unit.leg_travel_front")
        interview.ask("unit.leg_travel_rear")
    for name in ("leg_pitch", "restraint_height", "bearing_zone"):
        interview.ask(f"unit.{name}", skip=True)
    interview.say(
        "Weight and balance come next. Without them the plan says what the bracing holds, not what "
        "tips the unit.",
        indent="  ",
    )
    if not interview.ask("unit.weight", skip=True):
        return
    for name in ("contents", "cg_height", "cg_behind_front_legs", "front_legs_behind_front"):
        interview.ask(f"unit.{name}", skip=True)
    interview.ask("unit.rear_legs_behind_front", skip=True)
    interview.ask_items("unit.doors", "door or drawer")


def _means(interview: Interview) -> None:
    interview.head("Boards and screws", "what will be built with")
    interview.ask("boards.size", default=True)
    interview.ask("boards.species", default=True)
    if interview.yes("Only the screws on the van? (no: the stock table is searched)"):
        interview.ask_items("screws.carried", "size of screw on the van")
    interview.head("Loads", "what your code asks for beyond the usual cases")
    if interview.ask("loads.S_DS", skip=True):
        interview.ask("loads.edition", default=True)
        if interview.values["loads.edition"] == "7-22":
            for name in ("H_f", "R_mu", "C_AR", "R_po"):
                interview.ask(f"loads.{name}")
        else:
            interview.ask("loads.z_over_h", skip=True)
        interview.ask("loads.horizontal_stop")


def _rest(interview: Interview) -> None:
    interview.head("The rest of the job", "each part can be left out")
    if interview.yes("Check the opening against the unit's sheet?"):
        interview.ask_group("opening")
    if interview.yes("Check the way in and the room to stand the unit up?"):
        interview.ask_group("route")
        interview.ask_items("route.doorways", "doorway or corridor on the way in")
    if interview.yes("Check the floor's load?"):
        interview.ask_group("floor_load")
    if interview.yes("Check clearances, door swing, outlets or supply lines?"):
        interview.ask_items("clearances", "clearance that the sheet asks for")
        if interview.yes("Check the swing of the unit's door?"):
            interview.ask_group("door_swing")
        interview.ask_items("services", "outlet, stub or shut-off")
        interview.ask_items("supply_lines", "supply line")


def _look_over(interview: Interview, file: str) -> None:
    """Show what was typed; ask again for what doesn't fit, and for what the user wants changed."""
    from bracecalc.errors import JobError
    from bracecalc.jobfile.build import build_job

    where = "" if file == STANDARD_OUTPUT else file
    interview.head("Look it over", "what will be written")
    for path, value in interview.values.items():
        interview.say(f"{path} = {_shown(value)}", indent="  ")
    while True:
        try:
            build_job(interview.values, where=where)
        except JobError as error:
            for mistake in error.mistakes:
                interview.say(str(mistake))
            while not interview.change():
                interview.say("It can't be written like this; name a key, or press Ctrl-C.")
        else:
            if not interview.change():
                return


def _shown(value: object) -> str:
    if isinstance(value, list):
        return "; ".join(" ".join(str(part) for part in item.values()) for item in value)
    if isinstance(value, bool):
        return "yes" if value else "no"
    return str(value)
