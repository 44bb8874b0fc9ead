"""The command line: each command is loaded when it is called, so that help starts in a blink."""

from __future__ import annotations

import errno
import gc
import io
import os
import sys
from collections.abc import Callable, Sequence
from functools import partial
from importlib import import_module
from typing import Any

import click

from bracecalc import __version__
from bracecalc.errors import BraceError

COMMANDS = {
    "plan": "The whole plan of each job: restraint, stack, studs, screws, legs, strength.",
    "check": "As found on site against the plan; each problem with its remedy.",
    "takeoff": "Lumber, screws and cost over many niches; cut plan; files out.",
    "sheet": "The printable sheet of a job: PDF, HTML or SVG by the file's ending.",
    "new": "Asks for the measurements one by one and writes a job file.",
    "table": "Shows a reference table with its sources.",
    "page": "Builds the page for a phone that works with no signal.",
}
INPUT_WRONG = 2  # or stopped before it was done
OUR_FAULT = 3
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

    def main(self, args: Sequence[str] | None = None, *rest: Any, **extra: Any) -> Any:
        """Run the command line; whatever goes wrong is told in one line, with its exit status."""
        alone = extra.pop("standalone_mode", True)
        call: Callable[..., object] = super().main
        run = partial(call, args, *rest, standalone_mode=False, **extra)
        debug = "--debug" in (sys.argv if args is None else args)
        return sys.exit(_status(run, debug=debug)) if alone else run()


@click.group(
    cls=LazyGroup,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 80},
)
@click.version_option(__version__, prog_name="bracecalc")
@click.option("--debug", is_flag=True, help="Where bracecalc itself is at fault, show where.")
def group(debug: bool) -> None:
    """Brace a tall, heavy, built-in appliance in its niche so that it cannot tip.

    Exit status: 0 it holds; 1 worked out, and something fails; 2 the input or the call is wrong
    or was stopped, nothing is written; 3 a fault of bracecalc itself. Local codes, the appliance's
    own instructions and licensed trades come first.
    """


class ClosedOutput(io.TextIOBase):
    """Stands for a standard output that was closed before the program began."""

    def write(self, _text: str) -> int:
        """Refuse, as the system would."""
        raise OSError(errno.EBADF, "it is closed")


def main() -> None:
    """Run the command line, and end with its exit status."""
    gc.set_threshold(MANY)
    if sys.stdin is None:  # closed: it has nothing to read, as an empty one
        sys.stdin = open(os.devnull, encoding="utf-8")  # noqa: SIM115
    if sys.stdout is None:
        sys.stdout = ClosedOutput()
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):  # a pipe or console that can't write a sign shows "?"
            stream.reconfigure(errors="replace")
    group(prog_name="bracecalc")


def _status(call: Callable[[], object], *, debug: bool) -> int:
    """Return the exit status of a call; what goes wrong in it is told in one line."""
    try:
        status = call()
        sys.stdout.flush()
    except click.ClickException as error:
        error.show()
        return INPUT_WRONG
    except BraceError as error:
        return _stopped(str(error))
    except (click.Abort, KeyboardInterrupt, EOFError):
        return _stopped("stopped; nothing was written")
    except SystemExit:  # click's answer to a pipe whose reader has seen enough
        return INPUT_WRONG
    except OSError as error:
        if debug:
            raise
        _let_go()
        reason = error.strerror if error.strerror else str(error)
        where = "standard output" if error.filename is None else str(error.filename)
        return _stopped(f"{where}: can't be read or written ({reason})")
    except Exception as error:
        if debug:
            raise
        return _our_fault(error)
    return status if isinstance(status, int) else 0


def _stopped(line: str) -> int:
    click.echo(line, err=True)
    return INPUT_WRONG


def _our_fault(error: Exception) -> int:
    """Tell a fault of ours in one line: what happened, where, and what helps to mend it."""
    trace, place = error.__traceback__, "unknown"
    while trace is not None:
        place = f"{os.path.basename(trace.tb_frame.f_code.co_filename)}:{trace.tb_lineno}"
        trace = trace.tb_next
    what = " ".join(f"{type(error).__name__}: {error}".split())[:200]
    click.echo(
        f"bracecalc is at fault ({what}; {place}; version {__version__}): nothing was written. "
        "Please send this line and the job to where you got bracecalc from (SECURITY.md); "
        "bracecalc --debug shows more.",
        err=True,
    )
    return OUR_FAULT


def _let_go() -> None:
    """Let go what standard output can't take, or the interpreter tries it again at its end."""
    try:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    except (OSError, ValueError):
        sys.stdout = ClosedOutput()


if __name__ == "__main__":
    main()
