"""Each command has help, and docs/commands.md says what the help says."""

from __future__ import annotations

import click
import pytest
from golden import agrees
from house.make_commands_page import PAGE, WIDTH, command_paths, help_of, page

from bracecalc.cli.main import COMMANDS, group

PATHS = list(command_paths())


def command_of(path: tuple[str, ...]) -> click.Command:
    command: click.Command = group
    for name in path:
        assert isinstance(command, click.Group)
        found = command.get_command(click.Context(command), name)
        assert found is not None
        command = found
    return command


def test_the_page_is_what_the_help_says() -> None:
    agrees(PAGE, page())


@pytest.mark.parametrize("path", PATHS, ids=" ".join)
def test_every_command_says_what_it_does_and_what_each_option_does(path: tuple[str, ...]) -> None:
    command = command_of(path)
    assert command.help
    for parameter in command.params:
        if isinstance(parameter, click.Option):
            assert parameter.help, parameter.opts


@pytest.mark.parametrize("path", PATHS, ids=" ".join)
def test_help_fits_80_columns(path: tuple[str, ...]) -> None:
    assert [line for line in help_of(path).split("\n") if len(line) > WIDTH] == []


@pytest.mark.parametrize("name", COMMANDS)
def test_the_line_in_the_list_fits_too_and_ends_as_a_sentence(name: str) -> None:
    assert COMMANDS[name].endswith(".")
    assert len(COMMANDS[name]) <= WIDTH


@pytest.mark.parametrize("path", PATHS, ids=" ".join)
def test_every_command_has_its_heading_in_the_docs(path: tuple[str, ...]) -> None:
    lines = PAGE.read_text(encoding="utf-8").split("\n")
    assert f"{'#' * (len(path) + 1)} bracecalc {' '.join(path)}" in lines


@pytest.mark.parametrize("path", PATHS, ids=" ".join)
def test_what_writes_a_file_overwrites_only_when_forced(path: tuple[str, ...]) -> None:
    options = {option for parameter in command_of(path).params for option in parameter.opts}
    if "--out" in options:
        assert "--force" in options
