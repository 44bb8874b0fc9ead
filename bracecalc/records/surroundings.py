"""The rest of the job: opening, way in, floor load, clearances, services. All optional.

Nothing here has a default that stands for a measurement: what is not given is not checked.
"""

from __future__ import annotations

from dataclasses import dataclass

Range = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Opening:
    """The finished opening as read, and what the unit's sheet asks for."""

    width_range: Range | None = None
    height_range: Range | None = None
    depth_range: Range | None = None
    height: tuple[float, ...] = ()  # readings; width and depth are those of the niche
    diagonals: Range | None = None
    out_of_plumb: tuple[float, ...] = ()  # each side, over its height
    square_tolerance: float | None = None  # greatest difference of the diagonals
    plumb_tolerance: float | None = None
    level_tolerance: float | None = None  # greatest difference of the floor at the leg spots


@dataclass(frozen=True, slots=True, kw_only=True)
class Doorway:
    """A door or corridor on the way in. No height: nothing overhead."""

    name: str
    width: float
    height: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Route:
    """The way in, and the size of the load as it travels (packaging, dolly, handles)."""

    ceiling: float | None = None
    moving_height: float | None = None
    moving_width: float | None = None
    moving_depth: float | None = None
    trim_off_height: float | None = None
    trim_off_depth: float | None = None
    doorways: tuple[Doorway, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class FloorLoad:
    """Design live load of the floor, lbf per square foot."""

    design_psf: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Clearance:
    """One clearance that the unit's sheet requires, beside what was measured."""

    name: str
    required: float
    measured: float


@dataclass(frozen=True, slots=True, kw_only=True)
class DoorSwing:
    """The unit's door against the wall beside it and what stands opposite.

    ``hinge_offset`` is how far the hinge axis lies behind the door's front face, ``hinge_side``
    its distance from the door's hinge-side edge, ``handle`` how far the handle stands out of that
    face and ``handle_from_edge`` its place from the door's free edge.
    """

    width: float
    thickness: float
    hinge_offset: float
    handle: float
    wanted_angle: float
    hinge_side: float = 0.0
    handle_from_edge: float = 0.0
    side_wall: float | None = None  # from the door's hinge-side edge to the wall beside it
    wall_ahead: float | None = None  # how far that wall runs on in front of the closed door's face
    opposite: float | None = None  # from the closed door's face to what stands opposite


@dataclass(frozen=True, slots=True, kw_only=True)
class Service:
    """An outlet, a stub or a shut-off; x from the left side of the niche, z above the datum."""

    name: str
    x: float
    z: float
    x_range: Range
    z_range: Range


@dataclass(frozen=True, slots=True, kw_only=True)
class SupplyLine:
    """A loose line from the stub to the unit's connection."""

    name: str
    length: float
    path: float  # along the way the line will lie, stub to connection
    slack: float  # that the unit's sheet asks for


@dataclass(frozen=True, slots=True, kw_only=True)
class Surroundings:
    """Everything of the job that is not bracing."""

    opening: Opening | None = None
    route: Route | None = None
    floor_load: FloorLoad | None = None
    clearances: tuple[Clearance, ...] = ()
    door_swing: DoorSwing | None = None
    services: tuple[Service, ...] = ()
    supply_lines: tuple[SupplyLine, ...] = ()
