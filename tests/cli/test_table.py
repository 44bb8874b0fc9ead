"""``bracecalc table``: what people see, and that it can be given back."""

import csv
import io
import json
from dataclasses import asdict
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from bracecalc.cli.main import group
from bracecalc.cli.table import CONTENTS
from bracecalc.tables.load import NAMES, load_tables
from bracecalc.tables.rows import COLUMNS, facts


def run(*arguments: str) -> Result:
    result = CliRunner().invoke(group, ["table", *arguments])
    if result.exception is not None and not isinstance(result.exception, SystemExit):
        raise result.exception
    return result


def test_without_a_name_the_tables_are_listed() -> None:
    result = run()
    assert result.exit_code == 0
    assert all(name in result.output for name in NAMES)
    assert tuple(CONTENTS) == NAMES


@pytest.mark.parametrize("name", [None, *NAMES])
def test_80_columns(name: str | None) -> None:
    result = run(*([] if name is None else [name]))
    assert result.exit_code == 0
    assert [line for line in result.output.split("\n") if len(line) > 80] == []


@pytest.mark.parametrize("form", ["table", "markdown"])
@pytest.mark.parametrize("name", NAMES)
def test_every_name_and_source_is_shown(name: str, form: str) -> None:
    output = " ".join(run(name, "--format", form).output.split())
    for fact in facts(name):
        assert fact.source in output
        assert fact.read in output
        assert fact.name in output or " " in fact.name


def test_a_value_stands_beside_its_name() -> None:
    lines = run("screws").output.split("\n")
    row = next(line for line in lines if line.startswith("10 "))
    assert "wood screw" in row
    assert "0.190" in row
    assert "0.152" in row


def test_json_is_the_facts() -> None:
    rows = json.loads(run("packers", "--format", "json").output)
    found = {row["name"]: row["value"] for row in rows if row["property"] == "thickness_in"}
    assert found == {name: row.thickness for name, row in load_tables().packers.items()}
    assert all(row["source"] and row["read"] for row in rows)


@pytest.mark.parametrize("name", NAMES)
def test_csv_can_be_given_back_and_changes_nothing(name: str, tmp_path: Path) -> None:
    output = run(name, "--format", "csv").output
    assert next(csv.reader(io.StringIO(output))) == list(COLUMNS)
    path = tmp_path / "own.csv"
    path.write_text(output, encoding="utf-8")
    field = name.replace("-", "_")
    own = getattr(load_tables(overrides={name: path}), field)
    ours = getattr(load_tables(), field)
    assert {key: asdict(row) for key, row in own.items()} == {
        key: asdict(row) for key, row in ours.items()
    }


def test_own_file_is_laid_over(tmp_path: Path) -> None:
    path = tmp_path / "own.csv"
    path.write_text(f"{','.join(COLUMNS)}\nSPF,bending_psi,800,mill certificate 7,print\n")
    output = run("species", "--own", str(path)).output
    row = next(line for line in output.split("\n") if line.startswith("Spruce-Pine-Fir "))
    assert "800" in row
    assert "875" not in row
    assert "mill certificate 7 (print)" in output


def test_own_file_with_a_mistake(tmp_path: Path) -> None:
    path = tmp_path / "own.csv"
    path.write_text(f"{','.join(COLUMNS)}\nSPF,bending_psi,800,,print\n")
    result = run("species", "--own", str(path))
    assert result.exit_code == 2
    assert "row 2" in result.output


def test_unknown_name() -> None:
    result = run("scerws")
    assert result.exit_code == 2
    assert "no table 'scerws'; expected 'screws'" in result.output


def test_own_without_a_name() -> None:
    result = run("--own", "own.csv")
    assert result.exit_code == 2
    assert "--own FILE needs the NAME" in result.output


@pytest.mark.parametrize("name", ["timber_classes", "Timber-Classes"])
def test_name_as_people_write_it(name: str) -> None:
    assert run(name).output == run("timber-classes").output


def test_lengths_on_a_ruler_are_fractions() -> None:
    output = run("screws").output
    line = next(line for line in output.split("\n") if line.startswith("  10 "))
    assert line.split(maxsplit=1)[1].startswith("3/4, 1, 1 1/4, 1 1/2,")
    assert "15/32" in run("packers").output
