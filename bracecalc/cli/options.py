"""Options that several commands have, and where what they print goes: each said once."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import click

Option = Callable[[Any], Any]
STANDARD_OUTPUT = "-"


def choice(*names: str, among: str, help: str, default: str | None = None) -> Option:
    """Return an option that takes one of a few words."""
    words = click.Choice(among.split())
    return click.option(*names, type=words, default=default, show_default=True, help=help)


def form(among: str, *, help: str = "How it is written.", default: str | None = "table") -> Option:
    """Return the option of the form that is printed."""
    return choice("--format", "form", among=among, help=help, default=default)


def file(*names: str, help: str, required: bool = False, metavar: str = "FILE") -> Option:
    """Return an option that takes a path."""
    path = click.Path(path_type=Path)
    return click.option(*names, type=path, metavar=metavar, required=required, help=help)


def out(help: str, *, required: bool = False) -> Option:
    """Return the option of the file that is written."""
    return file("--out", "-o", help=help, required=required)


def force(help: str = "Write over a file that exists.") -> Option:
    """Return the option to write over what exists."""
    return click.option("--force", is_flag=True, help=help)


def put_out(made: str | bytes, path: Path | None, *, force: bool, end: str = "") -> None:
    """Print what was made, or write it to a file, whole; a file has no colours."""
    if path is None:
        click.echo(made, nl=bool(end), color=None)
        return
    from bracecalc.writing import write_whole

    write_whole(path, made if isinstance(made, bytes) else click.unstyle(made) + end, force=force)
    click.echo(f"wrote {path}", err=True)
