"""Keeping what was found with the job: a dated record at the end of the same job file.

A record is added after the last line, so that every comment and the layout of what stands there
stay to the byte. The file is written whole beside the old one and then put in its place: whatever
goes wrong on the way, the old file is still there.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any

from bracecalc.errors import JobError, Mistake, OutputError
from bracecalc.records.job import Units
from bracecalc.records.plan import Verdict
from bracecalc.writing import locked, write_whole

RECORDS = "as_found_record"
MARK = "\ufeff"  # that some editors put at the start of UTF-8


@dataclass(frozen=True, slots=True, kw_only=True)
class Record:
    """One check on site, as it is kept. ``values`` go by the keys of ``[as_found]``, as written."""

    on: date
    verdict: Verdict
    units: Units  # of bare numbers in ``values``
    fails: tuple[str, ...]  # codes of what fails
    lost: tuple[str, ...] = ()  # what stands and does not hold, in words
    values: Mapping[str, Any]


def save_record(path: Path, record: Record) -> None:
    """Add a record to a job file; all that stands in it stays, earlier records among it.

    Args:
        path: the job file, TOML.
        record: what to keep.

    Raises:
        JobError: if the file isn't TOML, or has something else under the record's name.
        OutputError: if it can't be read or written, or somebody else wrote it meanwhile. The file
            is then as it was.
    """
    with locked(path):
        before = _read(path)
        text = with_record(_text(path, before), record, where=str(path))
        if _read(path) != before:  # by an editor, which knows of no lock
            raise OutputError(f"{path}: somebody else wrote it meanwhile; nothing saved, try again")
        write_whole(path, text.encode("utf-8"), force=True)


def _read(path: Path) -> bytes:
    try:
        return path.read_bytes()
    except OSError as error:
        raise OutputError(f"{path}: can't be read: {error.strerror}") from error


def _text(path: Path, content: bytes) -> str:
    try:
        return content.decode("utf-8")
    except UnicodeDecodeError as error:
        read = f"byte {error.start} that is no UTF-8"
        mistake = Mistake(str(path), "", read, "a TOML file, UTF-8")
        raise JobError(mistake) from error


def with_record(text: str, record: Record, *, where: str = "") -> str:
    """Return the text of a job file with a record after its last line.

    Raises:
        JobError: if the text isn't TOML, or has something else under the record's name.
    """
    import tomlkit
    from tomlkit.exceptions import TOMLKitError

    try:
        before = tomlkit.parse(text.removeprefix(MARK)).unwrap()
    except TOMLKitError as error:
        raise JobError(Mistake(where, "", str(error), "a TOML file")) from error
    kept = before.get(RECORDS, [])
    if not isinstance(kept, list) or (kept and f"[[{RECORDS}]]" not in text):
        mistake = Mistake(where, RECORDS, "another kind of value", f"[[{RECORDS}]] tables alone")
        raise JobError(mistake)
    added = _record_text(record)
    newline = "\r\n" if "\r\n" in text else "\n"
    gap = newline if not text or text.endswith("\n") else 2 * newline
    after = text + gap + added.replace("\n", newline)
    _make_sure(before, after)
    return after


def _record_text(record: Record) -> str:
    import tomlkit

    table = tomlkit.table()
    table.add("date", record.on)
    table.add("verdict", record.verdict.value)
    table.add("units", record.units.value)
    table.add("fails", list(record.fails))
    if record.lost:
        table.add("lost", list(record.lost))
    for key, value in record.values.items():
        table.add(key, _item(value))
    tables = tomlkit.aot()
    tables.append(table)
    document = tomlkit.document()
    document.add(RECORDS, tables)
    return tomlkit.dumps(document)


def _item(value: Any) -> Any:
    """Return a value as it stands on one line of a record."""
    import tomlkit

    if isinstance(value, Mapping):
        inline = tomlkit.inline_table()
        for key, inside in value.items():
            inline.append(key, _item(inside))
        return inline
    if isinstance(value, list | tuple):
        array = tomlkit.array()
        for inside in value:
            array.append(_item(inside))
        return array
    return value


def _make_sure(before: Mapping[str, Any], after: str) -> None:
    """Read the new text back: it must say what the old one said, and one record more."""
    import tomlkit

    read = tomlkit.parse(after.removeprefix(MARK)).unwrap()
    records = read.pop(RECORDS)
    kept = dict(before)
    earlier = kept.pop(RECORDS, [])
    if read != kept or records[:-1] != earlier:
        raise ValueError("a record must not change what stands in the file")
