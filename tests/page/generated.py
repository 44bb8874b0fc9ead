"""Seeded jobs for comparing the page with the command line: any restraint, any verdict."""

from __future__ import annotations

import random

SEED = 20261125
WALLS = (
    "gypsum board",
    "gypsum board",
    "plywood",
    "tile",
    "plaster",
    "plaster",
    "rigid foam",
    "plywood",
)


def sixteenths(draw: random.Random, low: float, high: float) -> str:
    """Return a length on the tape's grid, written in one of the ways that people write it."""
    count = draw.randint(round(low * 16), round(high * 16))
    whole, part = divmod(count, 16)
    if draw.random() < 0.2:
        return f"'{count * 25.4 / 16:.4f} mm'"
    if draw.random() < 0.2 and whole >= 12:
        return f"'{whole // 12} ft {whole % 12 + part / 16} in'"
    return f"'{whole} {part}/16 in'" if part else f"'{whole} in'"


def job_text(number: int) -> str:
    """Return the text of one job; the same number gives the same job."""
    draw = random.Random(f"{SEED} {number}")
    floor = [sixteenths(draw, 0.0, draw.choice((0.25, 0.25, 0.75))) for _ in range(4)]
    first = draw.randint(3, 12)
    studs = [first, first + 16][: draw.choice((1, 2, 2, 2, 2))]
    wall = f'material = "{draw.choice(WALLS)}", thickness = {sixteenths(draw, 0.5, 0.75)}'
    weights = f"own_weight = '{draw.randint(10, 40)} lb', contents = '{draw.randint(0, 40)} lb'"
    lines = [
        f'title = "Quillet Yard {number}, generated"',
        "[niche]",
        f"width = {sixteenths(draw, 33.0, 37.0)}",
        f"depth = {sixteenths(draw, 23.5, draw.choice((23.75, 24.25, 27.0)))}",
        "[floor]",
        *(f"{name} = {value}" for name, value in zip(
            ("front_left", "front_right", "rear_left", "rear_right"), floor, strict=True
        )),
        "[wall]",
        f"layers = [{{ {wall} }}]",
        f"stud_spots = {[f'{spot} {draw.randint(1, 15)}/16 in' for spot in studs]}",
        f"corner_studs = {draw.choice(['true', 'false'])}",
        "[unit]",
        "height = '80 5/8 in'",
        "width = '32 3/4 in'",
        f"depth = {sixteenths(draw, draw.choice((22.0, 23.0)), 23.5)}",
        f"leg_travel = {sixteenths(draw, 1.0, 2.0)}",
        "leg_pitch = '1/16 in'",
    ]  # fmt: skip
    if draw.random() < 0.7:
        lines += [
            f"weight = '{draw.randint(300, 700)} lb'",
            f"cg_height = {sixteenths(draw, 38.0, 46.0)}",
            f"cg_behind_front_legs = {sixteenths(draw, 7.0, 12.0)}",
            "front_legs_behind_front = '2 3/4 in'",
            f"doors = [{{ {weights}, reach = '14 in', closed_reach = '1 in', edge = '31 in' }}]",
        ]
    lines += ["[boards]", f'size = "{draw.choice(["2x4", "2x6", "2x8", "2x8", "1x4"])}"']
    if draw.random() < 0.45:
        high = sixteenths(draw, 81.0, draw.choice((82.25, 85.0)))
        at = lines.index("[floor]")
        lines[at:at] = [
            f"soffit = {high}",
            f"soffit_solid = {draw.choice(['true', 'true', 'false'])}",
        ]
    if draw.random() < 0.15:
        lines += ["[loads]", f"S_DS = {draw.choice([0.2, 0.6, 1.2])}", "horizontal_stop = true"]
    if number % 2:
        lines += [
            "[as_found]",
            f"floor = {{ rear_right = {sixteenths(draw, 0.0, 1.0)} }}",
            f"studs = [{sixteenths(draw, 4.0, 10.0)}, {sixteenths(draw, 18.0, 26.0)}]",
        ]
    return "\n".join(lines) + "\n"
