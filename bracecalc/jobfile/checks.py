"""A job while it is read, and what must fit together in it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from bracecalc.errors import Mistake
from bracecalc.records.job import CORNERS, StudMaterial

FARTHEST_TOO_WIDE = 3.0  # in: a plan still says by how much a unit is too wide
FARTHEST_OUT_OF_LEVEL = 12.0  # in
_EARTHQUAKE_7_22 = {"h_f": "H_f", "r_mu": "R_mu", "c_ar": "C_AR", "r_po": "R_po"}


class Draft:
    """What has been read so far, by group and field, and every mistake.

    A field that was written but couldn't be read is None: it isn't told again as missing. Nor is
    a key that an unknown one was taken for (``meant``).
    """

    __slots__ = ("meant", "mistakes", "numbered", "raw", "slots", "where")

    def __init__(self, where: str) -> None:
        self.where = where
        self.slots: dict[str, dict[str, Any]] = {}
        self.numbered: dict[str, dict[str, object]] = {}
        self.raw: dict[str, Any] = {}
        self.mistakes: list[Mistake] = []
        self.meant: set[str] = set()

    def take(self, slot: str, field: str, value: object) -> None:
        """File a value."""
        fields = self.slots.get(slot)
        if fields is None:
            fields = self.slots[slot] = {}
        fields[field] = value

    def mistake(self, key: str, read: str, right: str) -> None:
        """Note a mistake."""
        shown = key if key.isprintable() else ascii(key)
        self.mistakes.append(Mistake(self.where, shown, read, right))

    def missing(self, key: str, right: str) -> None:
        """Note that a key must be there, unless another was taken for it."""
        if key not in self.meant:
            self.mistake(key, "nothing", right)

    def fields(self, slot: str) -> dict[str, Any]:
        """Return what was read for a record; empty where nothing was."""
        return self.slots.get(slot, {})

    def number(self, slot: str, field: str) -> float | None:
        """Return a value that was read and is usable, else None."""
        value = self.fields(slot).get(field)
        return None if value is None else float(value)


def _leg_travel(draft: Draft) -> None:
    """Spread ``unit.leg_travel`` over front and rear."""
    unit = draft.fields("unit")
    ends = [name for name in ("leg_travel_front", "leg_travel_rear") if name in unit]
    if "leg_travel" in unit:
        both = unit.pop("leg_travel")
        if ends:
            right = "unit.leg_travel for all legs, or unit.leg_travel_front and _rear"
            draft.mistake("unit.leg_travel", f"unit.{ends[0]} beside it", right)
        unit["leg_travel_front"] = unit["leg_travel_rear"] = both
    elif len(ends) < 2:
        missing = (
            "leg_travel"
            if not ends
            else ({"leg_travel_front", "leg_travel_rear"} - set(ends)).pop()
        )
        right = "how far the legs can be screwed out, from legs in to the end of their thread"
        draft.missing(f"unit.{missing}", f"a length: {right}")


def _floor(draft: Draft) -> None:
    """Turn readings down from a line into heights above the datum, and add what is to be laid."""
    floor = draft.fields("floor")
    heights = {name: floor[name] for name in CORNERS if name in floor}
    if "path_high" in floor:
        heights["path_high"] = floor["path_high"]
    down = draft.slots.get("floor.down_from_line")
    if down is not None:
        mixed = [f"floor.{name}" for name in heights if name in floor]
        if mixed:
            right = "heights above the datum, or all readings in [floor.down_from_line], not both"
            draft.mistake(mixed[0], "a height beside readings from a line", right)
        readings: dict[str, Any] = {
            name: down[name] for name in (*CORNERS, "path_high") if name in down
        }
        if mixed or None in readings.values() or not set(CORNERS) <= set(readings):
            return
        lowest = max(readings[name] for name in CORNERS)
        line = down["line"] if down.get("line") is not None else lowest
        heights = {name: line - reading for name, reading in readings.items()}
        floor.update(down_from_line=True, line=line)
    if None in heights.values():
        return
    to_come = floor.get("finish_to_come")
    if to_come:
        heights = {name: height + to_come for name, height in heights.items()}
    if down is not None or floor:
        floor.update(heights)
        draft.slots["floor"] = floor


def _studs(draft: Draft) -> None:
    """Ask for the studs' places once; no spot twice."""
    wall = draft.fields("wall")
    spots = wall.get("stud_spots")
    both = "stud_spots" in wall and "wall.stud_layout" in draft.slots
    material = draft.fields("wall.stud").get("material", StudMaterial.WOOD)
    if both:
        draft.mistake("wall.stud_spots", "wall.stud_layout beside it", "one of the two")
    elif "stud_spots" not in wall and "wall.stud_layout" not in draft.slots:
        if material is StudMaterial.WOOD:
            right = "the centre of each stud from the left side, or wall.stud_layout"
            draft.missing("wall.stud_spots", right)
    elif spots is not None:
        wall["stud_spots"] = tuple(sorted(spots))
        if len(set(spots)) < len(spots):
            draft.mistake("wall.stud_spots", "the same spot twice", "each stud once")


def _unit(draft: Draft) -> None:
    """Compare the measures of the unit with one another."""
    height = draft.number("unit", "height")
    overall = draft.number("unit", "height_overall")
    if height is not None and overall is not None and overall < height:
        right = "at least unit.height: the highest point of the whole appliance"
        draft.mistake("unit.height_overall", "less than unit.height", right)
    gravity = draft.number("unit", "cg_height")
    if height is not None and gravity is not None and gravity >= height:
        draft.mistake("unit.cg_height", "unit.height or more", "a height inside the appliance")
    depth = draft.number("unit", "depth")
    front = draft.number("unit", "front_legs_behind_front")
    rear = draft.number("unit", "rear_legs_behind_front")
    if front is not None and rear is not None and rear <= front:
        right = "more than unit.front_legs_behind_front"
        draft.mistake("unit.rear_legs_behind_front", "rear legs in front of the front legs", right)
    if depth is not None and front is not None and front >= depth:
        draft.mistake("unit.front_legs_behind_front", "unit.depth or more", "less than unit.depth")


def _fits(draft: Draft) -> None:
    """Compare unit and boards with the niche: what is inches off was read wrong."""
    widths = [width for width in draft.fields("niche").get("width") or () if width is not None]
    if not widths:
        return
    narrowest = min(widths)
    unit = draft.number("unit", "width")
    if unit is not None and unit > narrowest + FARTHEST_TOO_WIDE:
        right = f"at most {FARTHEST_TOO_WIDE:g} in more than niche.width: one of the two is misread"
        draft.mistake(
            "unit.width", f"{unit:.10g} in beside a niche {narrowest:.10g} in wide", right
        )
    gap = draft.number("boards", "end_gap")
    if gap is not None and gap > narrowest / 4.0:
        right = "at most a quarter of niche.width: the boards must span the studs"
        draft.mistake(
            "boards.end_gap", f"{gap:.10g} in beside a niche {narrowest:.10g} in wide", right
        )


def _level(draft: Draft) -> None:
    """Compare the floor's heights with one another."""
    floor = draft.fields("floor")
    heights = [floor[name] for name in CORNERS if floor.get(name) is not None]
    if heights and max(heights) - min(heights) > FARTHEST_OUT_OF_LEVEL:
        out = f"leg spots {max(heights) - min(heights):.10g} in apart in height"
        right = f"at most {FARTHEST_OUT_OF_LEVEL:g} in: one of them, or its unit, is misread"
        draft.mistake("floor", out, right)


def _published(draft: Draft) -> None:
    """Compare the measures of a screw with published values with one another."""
    for number, screw in enumerate(draft.fields("screws.published").get("items", ()), start=1):
        path = f"screws.published.{number}"
        if screw.head_diameter < screw.diameter:
            right = "at least its diameter"
            draft.mistake(f"{path}.head_diameter", "less than its diameter", right)
        for name in ("thread_length", "least_embedment"):
            if getattr(screw, name) > screw.length:
                draft.mistake(f"{path}.{name}", "more than its length", "at most its length")


def _soffit(draft: Draft) -> None:
    niche = draft.fields("niche")
    if niche.get("soffit_solid") and "soffit" not in niche:
        draft.missing("niche.soffit", "its height, since niche.soffit_solid is true")


def _loads(draft: Draft) -> None:
    loads = draft.fields("loads")
    if loads.get("pull") and "pull_height" not in loads:
        right = "the height of the pull above the floor, since loads.pull is given"
        draft.missing("loads.pull_height", right)
    earthquake = draft.slots.get("earthquake")
    if earthquake is None:
        return
    if "s_ds" not in earthquake:
        right = "S_DS of the site, or none of the keys of the earthquake case"
        draft.missing("loads.S_DS", right)
    if earthquake.get("edition") == "7-22":
        for field, name in _EARTHQUAKE_7_22.items():
            if field not in earthquake:
                draft.missing(f"loads.{name}", "a number: ASCE 7-22 asks for it")


def _built(draft: Draft) -> None:
    built = draft.fields("built")
    if built.get("boards") and built.get("packers"):
        right = "boards on the wall, or packers under the soffit"
        draft.mistake("built.packers", "built.boards beside it", right)


# what concerns one part of a job alone, by that part; and what compares parts
ALONE: Mapping[str, tuple[Callable[[Draft], None], ...]] = {
    "unit": (_leg_travel, _unit),
    "floor": (_floor, _level),
    "wall": (_studs,),
    "screws": (_published,),
    "niche": (_soffit,),
    "loads": (_loads,),
    "built": (_built,),
}
TOGETHER: tuple[Callable[[Draft], None], ...] = (_fits,)
CROSS_CHECKS = (
    _leg_travel,
    _floor,
    _studs,
    _unit,
    _fits,
    _level,
    _published,
    _soffit,
    _loads,
    _built,
)
