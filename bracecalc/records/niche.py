"""The niche as it is framed: its opening, its floor, its rear wall."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import field, replace
from enum import StrEnum

from bracecalc.records.keys import (
    Key,
    Kind,
    Readings,
    Within,
    choice_key,
    flag_key,
    length_key,
    lengths_key,
    name_key,
    record,
    spots_key,
    table,
)

CORNERS = ("front_left", "front_right", "rear_left", "rear_right")
_ABOVE_DATUM = Within(12, 240)
_FLOOR = Within(-120, 120)
_FROM_LINE = Within(-240, 240)
_DOWN_FROM_LINE = (
    *(
        Key(
            Kind.LENGTH,
            f"from the line down to the floor at the {corner.replace('_', ' ')} leg spot",
            name=corner,
            field=corner,
            within=_FROM_LINE,
        )
        for corner in CORNERS
    ),
    Key(
        Kind.LENGTH,
        "from the line down to the highest floor on the way in",
        name="path_high",
        field="path_high",
        default=None,
        within=_FROM_LINE,
        otherwise="the highest leg spot",
    ),
    Key(
        Kind.LENGTH,
        "height of the line above the datum",
        name="line",
        field="line",
        default=None,
        within=_FROM_LINE,
        otherwise="the lowest leg spot is the datum",
    ),
)
_FINISH_TO_COME = Within(0, 6, usual=(0, 2))


class StudMaterial(StrEnum):
    """What stands behind the wall finish."""

    WOOD = "wood"
    STEEL = "steel"
    MASONRY = "masonry"
    UNKNOWN = "unknown"


@record
class Layer:
    """One layer between the face of the finished wall (or soffit) and its framing."""

    material: str = name_key("what the layer is made of", table="layers")
    thickness: float = length_key("its thickness", within=Within(above=0, most=6, usual=(0, 2)))
    fixed_to_stud: bool = flag_key(
        "it is wood or panel, touches the framing and is fixed to it",
        default=False,
    )


@record
class Niche:
    """The framed recess. Layers run from the room to the framing."""

    width: Readings = lengths_key(
        "finished opening, side to side; read at bottom, middle and top",
        within=Within(8, 120, usual=(18, 84)),
    )
    depth: Readings = lengths_key(
        "from the niche's front plane to the finished rear wall, at the boards' height",
        within=Within(8, 60, usual=(14, 40)),
    )
    soffit: Readings = lengths_key(
        "underside of the soffit above the datum; leave out where there is none",
        default=(),
        otherwise="there is none",
        within=_ABOVE_DATUM,
    )
    soffit_solid: bool = flag_key(
        "the soffit is framed over the rear of the appliance and can be pushed against",
        default=False,
    )
    soffit_depth: float | None = length_key(
        "how far the soffit reaches out from the rear wall",
        default=None,
        within=Within(above=0, most=60),
        otherwise="all the way to the front",
    )
    soffit_layers: tuple[Layer, ...] | None = table(
        Layer,
        "what lies between the soffit's face and its framing, from the room inward",
        default=None,
        many=True,
    )

    @property
    def narrowest(self) -> float:
        """Least reading of the width."""
        return min(self.width)

    @property
    def deepest(self) -> float:
        """Greatest reading of the depth: it sets the overlap."""
        return max(self.depth)

    @property
    def lowest_soffit(self) -> float:
        """Least reading of the soffit over the datum; infinite where there is none."""
        return min(self.soffit, default=math.inf)


@record
class Floor:
    """Heights of the finished floor above the datum at the four leg spots."""

    front_left: float | None = length_key(
        "height of the floor at the front left leg spot, above the datum",
        default=None,
        told=True,
        within=_FLOOR,
    )
    front_right: float | None = length_key(
        "height of the floor at the front right leg spot, above the datum",
        default=None,
        told=True,
        within=_FLOOR,
    )
    rear_left: float | None = length_key(
        "height of the floor at the rear left leg spot, above the datum",
        default=None,
        told=True,
        within=_FLOOR,
    )
    rear_right: float | None = length_key(
        "height of the floor at the rear right leg spot, above the datum",
        default=None,
        told=True,
        within=_FLOOR,
    )
    path_high: float | None = length_key(
        "highest floor on the way in (threshold, edge of the flooring), above the datum",
        default=None,
        otherwise="the highest leg spot",
        within=_FLOOR,
    )
    finish_to_come: float = length_key(  # already added to the heights above
        "thickness of the flooring still to be laid; it is added to the heights",
        default=0.0,
        within=_FINISH_TO_COME,
    )
    uncertainty: float | None = length_key(
        "how far a floor reading may be off",
        default=None,
        within=Within(0, 2, usual=(0, 0.5)),
        otherwise="rules.height_uncertainty",
    )
    down_from_line: bool = table(  # how the readings were taken; the heights above are converted
        None,
        "the floor as a laser is read, down from its line: a bigger reading is a lower floor",
        default=False,
        keys=_DOWN_FROM_LINE,
    )

    # height of the laser's line above the datum, where the floor was read down from it
    line: float | None = field(default=None, compare=False)

    @property
    def spots(self) -> tuple[float, float, float, float]:
        """Heights at the legs in the order of CORNERS; what was not measured lies on the datum."""
        front = self._height(self.front_left), self._height(self.front_right)
        return *front, self._height(self.rear_left), self._height(self.rear_right)

    @property
    def unread(self) -> tuple[str, ...]:
        """The corners whose height was not measured."""
        return tuple(corner for corner in CORNERS if getattr(self, corner) is None)

    def at(self, heights: Mapping[str, float]) -> Floor:
        """Return the floor with leg spots read at these heights, by corner."""
        return replace(
            self,
            front_left=heights.get("front_left", self.front_left),
            front_right=heights.get("front_right", self.front_right),
            rear_left=heights.get("rear_left", self.rear_left),
            rear_right=heights.get("rear_right", self.rear_right),
        )

    def _height(self, read: float | None) -> float:
        return self.finish_to_come if read is None else read


@record
class Stud:
    """The framing member behind the wall."""

    material: StudMaterial = choice_key(
        "what the framing is",
        default=StudMaterial.WOOD,
        choices=tuple(StudMaterial),
        told=True,
    )
    species: str = name_key(
        "species group of wood studs", default="SPF", table="species", told=True
    )
    width: float = length_key(
        "width of the stud's face behind the finish",
        default=1.5,
        within=Within(0.5, 12, usual=(1.125, 6)),
        told=True,
    )
    depth: float = length_key(
        "depth of the stud, into the wall",
        default=3.5,
        within=Within(0.75, 12, usual=(1.25, 9.5)),
        told=True,
    )


@record
class StudLayout:
    """Studs at a regular spacing; ``first`` is the first centre from the left side of the niche."""

    spacing: float = length_key("centre to centre", within=Within(3, 60, usual=(11, 33)))
    first: float | None = length_key(
        "first centre from the left side of the niche, if known",
        default=None,
        within=Within(-24, 60),
        otherwise="spacing alone: studs are counted, not placed",
    )


@record
class Wall:
    """The rear wall: layers from the room to the studs, and where the studs are."""

    stud_spots: Readings | None = spots_key(
        "centre of each stud from the left side of the niche; this or wall.stud_layout",
        default=None,
        within=Within(-24, 144),
        otherwise="wall.stud_layout must be given",
    )
    corner_studs: bool = flag_key("a stud stands at each side of the niche too", default=False)
    blocking: bool = flag_key(
        "solid blocking stands between the studs, behind all of the boards",
        default=False,
    )
    finish_to_come: float = length_key(
        "a layer still missing when the depth was read",
        default=0.0,
        within=_FINISH_TO_COME,
    )
    layers: tuple[Layer, ...] = table(
        Layer,
        "what lies between the face of the wall and the studs, from the room inward",
        many=True,
    )
    stud: Stud = table(Stud, "the framing behind the wall", default_factory=Stud)
    stud_layout: StudLayout | None = table(
        StudLayout, "studs at a regular spacing, where their spots aren't measured", default=None
    )
