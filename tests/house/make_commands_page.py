"""Make docs/commands.md from the help of each command.

    python tests/house/make_commands_page.py

The test beside it fails while the page is not what this writes.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import click
from click.testing import CliRunner

from bracecalc.cli.main import COMMANDS, group

PAGE = Path(__file__).parents[2] / "docs" / "commands.md"
WIDTH = 80
INTRODUCTION = """\
# Commands

Made from the help of each command by `tests/house/make_commands_page.py`; don't edit it here.

Exit status of each: 0 it holds; 1 worked out, and something fails; 2 the input or the call is
wrong, or it was stopped, and nothing is written; 3 a fault of bracecalc itself, in one line, with
what to send where. `-` is standard input or output. Nothing that exists is overwritten without
`--force`; a file is written whole or not at all. What is printed in a pipe has no colour.
"""


def command_paths() -> Iterator[tuple[str, ...]]:
    """Return the names of every command, those under another command after it."""
    context = click.Context(group)
    for name in COMMANDS:
        yield (name,)
        command = group.get_command(context, name)
        if isinstance(command, click.Group):
            for under in command.list_commands(click.Context(command)):
                yield name, under


def help_of(path: tuple[str, ...]) -> str:
    """Return the help of a command as a terminal of 80 columns shows it."""
    result = CliRunner().invoke(
        group, [*path, "--help"], prog_name="bracecalc", terminal_width=WIDTH, color=False
    )
    if result.exit_code != 0:
        raise RuntimeError(f"bracecalc {' '.join(path)} --help: {result.output}")
    return result.output


def page() -> str:
    """Return the page."""
    parts = [INTRODUCTION]
    for path in command_paths():
        level = "#" * (len(path) + 1)
        shown = "".join(f"    {line}".rstrip() + "\n" for line in help_of(path).splitlines())
        parts.append(f"{level} bracecalc {' '.join(path)}\n\n{shown}")
    return "\n".join(parts)


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8", newline="\n")
