"""``bracecalc new``: asks for the measurements one by one and writes a job file."""

from __future__ import annotations

import shlex
from pathlib import Path
from typing import TYPE_CHECKING

import click

from bracecalc.cli import options
from bracecalc.cli.options import STANDARD_OUTPUT

if TYPE_CHECKING:
    from bracecalc.cli.interview import Interview

EVERY = "every"  # before a spacing
LEG_SPOTS = ("front_left", "front_right", "rear_left", "rear_right")


@click.command(name="new")
@click.argument("file", default="niche.toml", metavar="[FILE]")
@options.choice(
    "--units",
    among="inch mm",
    default="inch",
    help="The system of numbers that are typed without a unit.",
)
@options.force()
def command(file: str, units: str, force: bool) -> None:
    """Ask for the measurements of one niche and write them to FILE, a job file.

    FILE is niche.toml if left out; - is standard output. Have a tape, a level or a laser, a stud
    finder and the appliance's spec sheet at hand. Each answer is checked as it comes; ? says
    what can be typed, Ctrl-C stops and nothing is written. A plain niche takes sixteen answers;
    what a spec sheet says can be given once for a building, in a file that unit.height may name.
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
    from_sheet = _unit(interview, file)
    if interview.yes("More about the niche, the floor or the wall?"):
        _more_of_the_niche(interview)
    if not from_sheet and interview.yes("More from the appliance's spec sheet?"):
        _more_of_the_unit(interview)
    if interview.yes("Other boards, screws on the truck, or loads of your code?"):
        _means(interview, from_sheet=from_sheet)
    if interview.yes("Other site checks: opening, way in, floor load, clearances?"):
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
    interview.ask("niche.soffit", skip=True)


def _floor(interview: Interview) -> None:
    interview.head("Floor", "at the four spots where the legs will stand")
    interview.ask_line(
        "floor",
        "Front left; front right; rear left; rear right: heights above the datum, as 0; 1/8; 0; "
        "1/4. Down from a laser's line: d first, as d 41 3/4; 41 1/2; 41 3/4; 41 1/2",
        _floor_spots,
        enter="not read yet, taken as level",
    )


def _floor_spots(text: str) -> dict[str, object]:
    from bracecalc.text.lengths import QuantityError
    from bracecalc.text.lists import split_list

    down = text[:2].casefold() == "d "
    spots = split_list(text[2:] if down else text)
    if len(spots) != len(LEG_SPOTS):
        raise QuantityError("four readings with ; between them, as 0; 1/8; 0; 1/4")
    table = "floor.down_from_line" if down else "floor"
    return {f"{table}.{name}": spot for name, spot in zip(LEG_SPOTS, spots, strict=True)}


def _wall(interview: Interview) -> None:
    interview.head("Wall", "the rear wall, from its face to the studs")
    what = "What lies on the studs, from the room inward; none: bare studs."
    interview.ask_layers("wall.layers", what, skip=False)
    interview.ask_line(
        "studs",
        "Stud centres from the left side of the niche, as 6 3/8; 22 1/4. Not found yet: every and "
        "the spacing, as every 16; with the first one, every 16 from 6",
        _studs,
        enter="every 16 in",
    )
    if not any(path.startswith("wall.stud_") for path in interview.values):
        interview.values["wall.stud_layout.spacing"] = "16 in"


def _studs(text: str) -> dict[str, object]:
    word, _, rest = text.partition(" ")
    if word.casefold() != EVERY:
        return {"wall.stud_spots": text}
    spacing, _, first = rest.partition(" from ")
    found: dict[str, object] = {"wall.stud_layout.spacing": spacing}
    if first.strip():
        found["wall.stud_layout.first"] = first.strip()
    return found


def _unit(interview: Interview, file: str) -> bool:
    """Ask for the appliance, or for the file of its sheet; return whether it was a file."""
    interview.head("Appliance", "from its spec sheet")
    if interview.height_or_sheet(_folder(file)):
        return True
    for name in ("width", "depth", "leg_travel"):
        interview.ask(f"unit.{name}")
    return False


def _folder(file: str) -> Path:
    return Path() if file == STANDARD_OUTPUT else Path(file).parent


def _more_of_the_niche(interview: Interview) -> None:
    if "niche.soffit" in interview.values:
        interview.ask("niche.soffit_solid")
        interview.ask("niche.soffit_depth", skip=True)
        what = "The soffit's build-up below its framing, from the room inward."
        interview.ask_layers("niche.soffit_layers", what, skip=True)
    down = any(path.startswith("floor.down_from_line.") for path in interview.values)
    table = "floor.down_from_line" if down else "floor"
    interview.ask(f"{table}.path_high", skip=True)
    if down:
        interview.ask("floor.down_from_line.line", skip=True)
    interview.ask("floor.finish_to_come", skip=True)
    interview.ask("wall.finish_to_come", skip=True)
    interview.ask("wall.stud.material", default=True)
    if interview.values["wall.stud.material"] == "wood":
        interview.ask("wall.stud.species", default=True)
    interview.ask("wall.stud.width", default=True)
    interview.ask("wall.stud.depth", default=True)
    interview.ask("wall.corner_studs")


def _more_of_the_unit(interview: Interview) -> None:
    interview.say(
        "As far as its sheet has them: nobody can measure a centre of gravity on site. Without "
        "weight and balance the plan says what the bracing holds, not whether it tips.",
        indent="  ",
    )
    interview.ask("unit.height_overall", skip=True)
    interview.ask("unit.proud", default=True)
    if not interview.yes("Do front and rear legs have the same travel?", default=True):
        interview.values.pop("unit.leg_travel", None)
        interview.ask("unit.leg_travel_front")
        interview.ask("unit.leg_travel_rear")
    for name in ("leg_pitch", "restraint_height", "bearing_zone"):
        interview.ask(f"unit.{name}", skip=True)
    if not interview.ask("unit.weight", skip=True):
        return
    for name in ("contents", "cg_height", "cg_behind_front_legs", "front_legs_behind_front"):
        interview.ask(f"unit.{name}", skip=True)
    interview.ask("unit.rear_legs_behind_front", skip=True)
    interview.ask_items("unit.doors", "door or drawer")


def _means(interview: Interview, *, from_sheet: bool) -> None:
    interview.head("Boards and screws", "what will be built with")
    interview.ask("boards.size", skip=True)
    interview.ask("boards.species", default=True)
    if interview.yes("Only the screws on the van? (no: the stock table is searched)"):
        interview.ask_items("screws.carried", "size of screw on the van")
    if from_sheet:  # the building's figures stand there too
        return
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
    interview.head("Other site checks", "each part can be left out")
    if interview.yes("Check the opening against the spec sheet?"):
        interview.ask_group("opening")
    if interview.yes("Check the way in and the room to stand the appliance up?"):
        interview.ask_group("route")
        interview.ask_items("route.doorways", "doorway or corridor on the way in")
    if interview.yes("Check the floor's load?"):
        interview.ask_group("floor_load")
    if interview.yes("Check clearances, door swing, outlets or supply lines?"):
        interview.ask_items("clearances", "clearance that the sheet asks for")
        if interview.yes("Check the swing of the appliance's door?"):
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
            build_job(interview.values, where=where, folder=_folder(file))
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
