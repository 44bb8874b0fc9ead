"""The command line as a whole: help, unknown commands, mistakes in one line and exit status 2."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import click
import pytest
from click.testing import CliRunner, Result

from bracecalc import __version__
from bracecalc.cli.main import COMMANDS, group

ROOT = Path(__file__).parents[2]


def run(*arguments: str) -> Result:
    result = CliRunner().invoke(group, list(arguments))
    if result.exception is not None and not isinstance(result.exception, SystemExit):
        raise result.exception
    return result


def program(
    *arguments: str, text: str = "", folder: Path | None = None
) -> subprocess.CompletedProcess[str]:
    """Run the program as people do, in a process of its own, its output in a pipe."""
    return subprocess.run(
        [sys.executable, "-m", "bracecalc", *arguments],
        input=text,
        capture_output=True,
        text=True,
        encoding="utf-8",
        cwd=ROOT if folder is None else folder,
        env={**os.environ, "PYTHONIOENCODING": "utf-8", "PYTHONPATH": str(ROOT)},
        timeout=60,
        check=False,
    )


def test_help_lists_every_command_with_its_line() -> None:
    result = run("--help")
    assert result.exit_code == 0
    folded = " ".join(result.output.split())
    for name, line in COMMANDS.items():
        assert f"{name} {line}" in folded
    assert "Exit status: 0 it holds; 1 worked out, and something fails; 2" in folded
    assert max(map(len, result.output.split("\n"))) <= 80


def test_short_help_is_the_same() -> None:
    assert run("-h").output == run("--help").output


def test_version() -> None:
    result = run("--version")
    assert (result.exit_code, result.output) == (0, f"bracecalc, version {__version__}\n")


def test_no_command_shows_help_and_is_a_wrong_call() -> None:
    result = run()
    assert result.exit_code == 2
    assert "Commands:" in result.output


@pytest.mark.parametrize(
    ("typed", "near"),
    [("plann", "plan"), ("pln", "plan"), ("chek", "check"), ("take-off", "takeoff"),
     ("sheets", "sheet"), ("tables", "table")],
)  # fmt: skip
def test_an_unknown_command_names_the_nearest(typed: str, near: str) -> None:
    result = run(typed, "niche.toml")
    assert result.exit_code == 2
    assert f"no command {typed!r}; did you mean {near!r}?" in result.output


def test_a_command_like_none_lists_all() -> None:
    result = run("xyzzy")
    assert result.exit_code == 2
    assert f"no command 'xyzzy'; one of {', '.join(COMMANDS)}" in result.output


def test_an_unknown_option_is_a_wrong_call() -> None:
    result = run("plan", "x.toml", "--explian")
    assert result.exit_code == 2
    assert "--explain" in result.output


def test_a_mistake_is_one_line_and_exit_status_2() -> None:
    result = run("plan", "no-such-niche.toml")
    assert result.exit_code == 2
    assert result.output.strip().split("\n") == [
        "no-such-niche.toml: read no such file; expected a job file; bracecalc new writes one"
    ]


KITCHEN = str(ROOT / "data" / "demo" / "3b-kitchen.toml")


def break_plan(monkeypatch: pytest.MonkeyPatch) -> None:
    import bracecalc.planning.plan

    def broken(*_: object, **__: object) -> None:
        raise ValueError("our\nbug")

    monkeypatch.setattr(bracecalc.planning.plan, "make_plan", broken)


def test_a_fault_of_ours_is_one_line_and_exit_status_3(monkeypatch: pytest.MonkeyPatch) -> None:
    break_plan(monkeypatch)
    result = CliRunner().invoke(group, ["plan", KITCHEN])
    assert result.exit_code == 3
    assert result.stdout == ""
    assert len(result.stderr.splitlines()) == 1
    assert "ValueError: our bug; test_main.py:" in result.stderr
    assert "SECURITY.md" in result.stderr


def test_a_fault_of_ours_shows_itself_when_asked(monkeypatch: pytest.MonkeyPatch) -> None:
    break_plan(monkeypatch)
    result = CliRunner().invoke(group, ["--debug", "plan", KITCHEN])
    assert isinstance(result.exception, ValueError)


def test_a_module_that_is_no_command_is_our_fault(monkeypatch: pytest.MonkeyPatch) -> None:
    import bracecalc.cli.plan

    monkeypatch.setattr(bracecalc.cli.plan, "command", "no command")
    result = CliRunner().invoke(group, ["plan"])
    assert result.exit_code == 3
    assert "is no command" in result.stderr


SPEAKERS = [
    ["plan", KITCHEN],
    ["plan", KITCHEN, "--format", "json"],
    ["check", KITCHEN],
    ["takeoff", KITCHEN],
    ["table", "lumber"],
    ["--help"],
]


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="needs a device that is always full")
@pytest.mark.parametrize("arguments", SPEAKERS, ids=" ".join)
def test_a_full_output_is_one_line_and_exit_status_2(arguments: list[str]) -> None:
    with open("/dev/full", "w", encoding="utf-8") as full:
        done = subprocess.run(
            [sys.executable, "-m", "bracecalc", *arguments],
            stdout=full,
            stderr=subprocess.PIPE,
            text=True,
            check=False,
        )
    assert done.returncode == 2
    assert done.stderr.splitlines() == [
        "standard output: can't be read or written (No space left on device)"
    ]


@pytest.mark.skipif(sys.platform == "win32", reason="closes the output as a POSIX shell does")
@pytest.mark.parametrize("arguments", SPEAKERS, ids=" ".join)
def test_a_closed_output_is_one_line_and_exit_status_2(arguments: list[str]) -> None:
    done = subprocess.run(
        ["sh", "-c", '"$@" >&-', "sh", sys.executable, "-m", "bracecalc", *arguments],
        stderr=subprocess.PIPE,
        text=True,
        check=False,
    )
    assert (done.returncode, len(done.stderr.splitlines())) == (2, 1)
    assert done.stderr.startswith("standard output: ")


@pytest.mark.skipif(os.name == "nt", reason="a stream is closed by the shell")
@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        ("new a.toml", "stopped before the last answer; nothing was written"),
        ("plan -", "-: read an empty file; expected a job"),
        ("check {demo} --ask", "stopped"),
        ("takeoff -", "expected a heading with the keys of a job file"),
    ],
)
def test_a_closed_input_is_an_empty_one(tmp_path: Path, arguments: str, said: str) -> None:
    demo = ROOT / "data" / "demo" / "3b-kitchen.toml"
    command = f"exec '{sys.executable}' -m bracecalc {arguments.format(demo=demo)} <&-"
    done = subprocess.run(
        ["/bin/sh", "-c", command],
        capture_output=True,
        text=True,
        cwd=tmp_path,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        timeout=60,
        check=False,
    )
    assert done.returncode == 2
    assert said in done.stderr
    assert "fault" not in done.stderr
    assert list(tmp_path.iterdir()) == []


def test_commands_are_found_by_name_only() -> None:
    context = click.Context(group)
    assert group.get_command(context, "nothing") is None
    assert group.list_commands(context) == list(COMMANDS)


def test_mistakes_go_to_standard_error_and_nothing_to_standard_output() -> None:
    done = program("plan", "no-such-niche.toml")
    assert done.returncode == 2
    assert done.stdout == ""
    assert done.stderr.startswith("no-such-niche.toml: ")
    assert "Traceback" not in done.stderr


def test_in_a_pipe_there_are_no_codes_of_colour() -> None:
    done = program("plan", "data/demo/3b-kitchen.toml", "--explain")
    assert done.returncode == 0
    assert "\x1b" not in done.stdout
    assert done.stdout.startswith("QUILLET YARD 3B")
    assert max(map(len, done.stdout.split("\n"))) <= 80


def test_a_pipe_that_closes_early_leaves_no_traceback() -> None:
    with subprocess.Popen(
        [sys.executable, "-m", "bracecalc", "plan", "data/demo", "--explain"],
        cwd=ROOT,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
    ) as process:
        assert process.stdout is not None
        assert process.stderr is not None
        process.stdout.read(10)
        process.stdout.close()
        said = process.stderr.read().decode()
        process.wait(timeout=60)
    assert "Traceback" not in said


def test_a_console_that_can_not_write_a_sign_still_gets_the_plan(tmp_path: Path) -> None:
    text = (ROOT / "data" / "demo" / "3b-kitchen.toml").read_text(encoding="utf-8")
    (tmp_path / "job.toml").write_text(text.replace("3B", "3B \u05e9 84\u00bc\u2033"), "utf-8")
    done = subprocess.run(
        [sys.executable, "-m", "bracecalc", "plan", str(tmp_path / "job.toml")],
        capture_output=True,
        env={**os.environ, "PYTHONIOENCODING": "latin-1"},
        cwd=ROOT,
        timeout=60,
        check=False,
    )
    assert done.returncode == 0
    assert b"3B ? 84\xbc?" in done.stdout
