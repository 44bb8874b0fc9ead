"""What isn't settled yet in a plan: not measured, not checked, not as asked, still to build."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class OpenKind(StrEnum):
    """Of what sort an open point is. While one was not measured, a verdict is provisional."""

    NOT_MEASURED = "not measured"
    NOT_CHECKED = "not checked"
    NOT_MET = "not as asked"
    TO_BUILD = "still to build"


class OpenCode(StrEnum):
    """What is open: stable words."""

    FLOOR = "floor"
    STUD_SPOTS = "stud-spots"
    SOFFIT_DEPTH = "soffit-depth"
    FLOOR_FINISH = "floor-finish"
    WALL_FINISH = "wall-finish"
    TIPPING = "tipping"
    SOFFIT_FRAMING = "soffit-framing"
    SOFFIT_BUILD_UP = "soffit-build-up"
    BEARING_ZONE = "bearing-zone"
    HIGHEST_POINT = "highest-point"
    OUTSIDE_ZONE = "outside-zone"
    OTHER_HEIGHT = "other-height"
    SURROUNDINGS = "surroundings"
    SERVICES = "services"
    BLOCKING = "blocking"

    @property
    def kind(self) -> OpenKind:
        """Of what sort it is."""
        return KINDS.get(self, OpenKind.NOT_CHECKED)


KINDS = {
    OpenCode.FLOOR: OpenKind.NOT_MEASURED,
    OpenCode.STUD_SPOTS: OpenKind.NOT_MEASURED,
    OpenCode.SOFFIT_DEPTH: OpenKind.NOT_MEASURED,
    OpenCode.FLOOR_FINISH: OpenKind.NOT_MEASURED,
    OpenCode.WALL_FINISH: OpenKind.NOT_MEASURED,
    OpenCode.OUTSIDE_ZONE: OpenKind.NOT_MET,
    OpenCode.OTHER_HEIGHT: OpenKind.NOT_MET,
    OpenCode.SURROUNDINGS: OpenKind.NOT_MET,
    OpenCode.BLOCKING: OpenKind.TO_BUILD,
}


@dataclass(frozen=True, slots=True)
class Open:
    """One open point: of what, where there are several, and how much, in or lbf."""

    TOLD = ("kind=code.kind", "code", "of", "amount")

    code: OpenCode
    of: tuple[str, ...] = ()
    amount: float | None = None
