"""Every key of a job file, once: the reader, the questions, the page and the messages use it.

May import: records.
"""

from __future__ import annotations

from bracecalc.schema.holding import HOLDING
from bracecalc.schema.model import ANY_TABLE, Group, Key, Kind, default_of, is_required
from bracecalc.schema.site import SITE
from bracecalc.schema.surroundings import SURROUNDINGS

GROUPS: tuple[Group, ...] = (*SITE, *HOLDING, *SURROUNDINGS)

__all__ = ["ANY_TABLE", "GROUPS", "Group", "Key", "Kind", "default_of", "find_key", "is_required"]


def find_key(path: str) -> tuple[Group, Key]:
    """Return the group and the key that a path as ``niche.width`` names.

    Raises:
        ValueError: if the schema has no such key.

    >>> find_key("niche.width")[1].kind
    <Kind.LENGTHS: 'a length, or several readings in a list'>
    """
    for group in GROUPS:
        for key in group.keys:
            if path == group.path_of(key):
                return group, key
    raise ValueError(f"the schema has no key {path!r}")
