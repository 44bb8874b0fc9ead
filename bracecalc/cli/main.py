"""The command line: each command is loaded when it is called, so that help starts in a blink."""

from __future__ import annotations

import gc
import sys
from importlib import import_module

import click

from bracecalc import __version__
from bracecalc.errors import BraceError

COMMANDS = {
    "plan": "The whole plan of each job: restraint, stack, studs, screws, legs, strength.",
    "check": "As found on site against the plan; each miss with its remedy.",
    "takeoff": "Lumber, screws and cost over many niches; cut plan; files out.",
    "sheet": "The printable sheet of a job: PDF, HTML or SVG by the file's ending.",
    "new": "Asks for the measurements one by one and writes a job file.",
    "table": "Shows a reference table with its sources.",
    "page": "Builds the page for a phone that works with no signal.",
}
INPUT_WRONG = 2
MANY = 50_000  # new objects before a look for cycles: starting up makes none, but many objects


class LazyGroup(click.Group):
    """A group whose commands live in modules of their own, loaded when first asked for."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Return the commands in the order in which a job goes."""
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Return a command, loading its module."""
        if cmd_name not in COMMANDS:
            return None
        command = import_module(f"bracecalc.cli.{cmd_name}").command
        if not isinstance(command, click.Command):
            raise TypeError(f"bracecalc.cli.{cmd_name}.command is no command")
        return command

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """Return the command called, or name the nearest one in the error."""
        name = args[0] if args else ""
        if name and not name.startswith("-") and name not in COMMANDS:
            from difflib import get_close_matches

            near = get_close_matches(name, COMMANDS, n=1)
            hint = f"; did you mean {near[0]!r}?" if near else f"; one of {', '.join(COMMANDS)}"
            ctx.fail(f"no command {name!r}{hint}")
        return super().resolve_command(ctx, args)

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """Write the commands with their lines here, without loading any."""
        with formatter.section("Commands"):
            formatter.write_dl(list(COMMANDS.items()))

    def invoke(self, ctx: click.Context) -> object:
        """Run a command; a mistake in the input becomes one line each and exit status 2."""
        try:
            return super().invoke(ctx)
        except BraceError as error:
            click.echo(str(error), err=True)
            ctx.exit(INPUT_WRONG)


@click.group(
    cls=LazyGroup,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 80},
)
@click.version_option(__version__, prog_name="bracecalc")
def group() -> None:
    """Brace a tall, heavy, built-in appliance in its niche so that it cannot tip.

    Exit status: 0 it holds; 1 worked out, and something fails; 2 the input or the call is wrong,
    nothing is written. Local codes, the unit's own instructions and licensed trades come first.
    """


def main() -> None:
    """Run the command line."""
    gc.set_threshold(MANY)
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):  # a pipe or console that can't write a sign shows "?"
            stream.reconfigure(errors="replace")
    group(prog_name="bracecalc")


if __name__ == "__main__":
    main()
