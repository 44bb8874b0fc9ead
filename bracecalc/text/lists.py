"""Several values in one text: one rule for what stands between them."""

from __future__ import annotations

import re

# a comma between two digits is a decimal comma; with a blank after it, it stands between values
_BETWEEN = re.compile(r"\s*(?:;|,(?=\s)|(?<![0-9]),|,(?![0-9]))\s*")


def split_list(text: str) -> list[str]:
    """Return the values of a text, semicolons or commas between them; blanks are left out.

    A comma between two digits is a decimal comma.

    >>> split_list("3 m, 4 m, 4,8 m"), split_list("8 ft;12 ft"), split_list("8 ft,12 ft")
    (['3 m', '4 m', '4,8 m'], ['8 ft', '12 ft'], ['8 ft', '12 ft'])
    """
    return [part for part in _BETWEEN.split(text.strip()) if part]
