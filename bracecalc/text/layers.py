"""Layers of a wall as people write them: a material and its thickness, either way round."""

from __future__ import annotations

import re

from bracecalc.text.lists import split_list
from bracecalc.text.units import QuantityError

WANTED = "layers as 'gypsum board 1/2 in; plywood 3/4 in'"
_FIGURE = "[0-9\u00bc-\u00be\u2150-\u215e]"
_UNIT = r"(?:in\.?|inch(?:es)?|mm|cm|\"|\u2033|\u201d)"
_MATERIAL_FIRST = rf"(?P<material>[^\d:=]+?)[ :=,]*(?P<thickness>{_FIGURE}.*)"
_THICKNESS_FIRST = (
    rf"(?P<thickness>{_FIGURE}(?:[-0-9 /.,]|{_FIGURE})*? *{_UNIT}?) *"
    rf"(?!{_UNIT}$)(?P<material>[^\W\d].*)"
)


def read_layers(text: str) -> list[tuple[str, str]]:
    """Return the material and the thickness of each layer, as they are written.

    Raises:
        QuantityError: if a layer isn't a material and a thickness.

    >>> read_layers("gypsum board 1/2 in; plywood 3/4")
    [('gypsum board', '1/2 in'), ('plywood', '3/4')]
    >>> read_layers('5/8 drywall, tile: 3/8"')
    [('drywall', '5/8'), ('tile', '3/8"')]
    >>> read_layers("gypsum board, 1/2 in")
    [('gypsum board', '1/2 in')]
    """
    return [read_layer(part) for part in _parts(text)]


def read_layer(text: str) -> tuple[str, str]:
    """Return the material and the thickness of one layer, as they are written.

    Raises:
        QuantityError: if it isn't a material and a thickness.

    >>> read_layer("12.5 mm plasterboard"), read_layer("plaster 7/8")
    (('plasterboard', '12.5 mm'), ('plaster', '7/8'))
    """
    text = text.strip()
    found = re.fullmatch(_MATERIAL_FIRST, text) or re.fullmatch(_THICKNESS_FIRST, text)
    if found is None:
        raise QuantityError(WANTED)
    return found["material"].strip(), found["thickness"].strip()


def _parts(text: str) -> list[str]:
    """Return the layers of a text; a material that a comma parts from its thickness stays whole."""
    parts: list[str] = []
    for part in split_list(text):
        if parts and not re.search(_FIGURE, parts[-1]):
            parts[-1] = f"{parts[-1]} {part}"
        else:
            parts.append(part)
    return parts
