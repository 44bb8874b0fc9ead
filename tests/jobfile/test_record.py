"""A record goes after the last line of the job file, and nothing that goes wrong loses a byte."""

from __future__ import annotations

import builtins
import errno
import os
import subprocess
import sys
import tomllib
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from bracecalc.errors import JobError, OutputError
from bracecalc.jobfile.as_found import read_as_found
from bracecalc.jobfile.read import read_job
from bracecalc.jobfile.record import Record, save_record, with_record
from bracecalc.records.job import Units
from bracecalc.records.plan import Verdict
from bracecalc.records.site import Reading

JOB = """\
# Invented for a test: this niche does not exist.
title   =   "Quillet Yard, invented"   # spaced by hand

[niche]
width = '33 1/4 in'   # finished
depth = '23 3/4 in'

[wall]
layers = [{ material = "gypsum board", thickness = '1/2 in' }]
stud_spots = [
    '4 in',   # measured twice
    '16 5/8 in',
    '29 in',
]

[unit]
height = '80 5/8 in'
width = '32 3/4 in'
depth = '23 1/8 in'
leg_travel = '1 3/8 in'
# the last line is a comment
"""
RECORD = Record(
    on=date(2026, 3, 4),
    verdict=Verdict.CLOSE,
    units=Units.INCH,
    fails=(),
    values={
        "studs": "4, 16 5/8 and 16 11/16",
        "floor": {"front_left": "0", "rear_right": ["1/8", "3/16 in"]},
        "layers": [{"material": "gypsum board", "thickness": "5/8 in"}],
        "projection": 4.5,
    },
)


@pytest.fixture
def path(tmp_path: Path) -> Path:
    file = tmp_path / "niche.toml"
    file.write_bytes(JOB.encode())
    return file


def records(text: str) -> list[dict[str, Any]]:
    found = tomllib.loads(text)["as_found_record"]
    assert isinstance(found, list)
    return found


def test_all_that_stood_there_stays_to_the_byte(path: Path) -> None:
    save_record(path, RECORD)
    text = path.read_text(encoding="utf-8")
    assert text.startswith(JOB)
    assert "# the last line is a comment" in text
    (one,) = records(text)
    assert one["date"] == date(2026, 3, 4)
    assert one["verdict"] == "holds if measured closely"
    assert one["studs"] == "4, 16 5/8 and 16 11/16"


def test_earlier_records_stay(path: Path) -> None:
    save_record(path, RECORD)
    first = path.read_bytes()
    later = Record(
        on=date(2026, 5, 6), verdict=Verdict.FAILS, units=Units.INCH,
        fails=("overlap-lost", "overstressed"), values={"depth": "24"},
    )  # fmt: skip
    save_record(path, later)
    assert path.read_bytes().startswith(first)
    one, two = records(path.read_text(encoding="utf-8"))
    assert one["verdict"] == "holds if measured closely"
    assert two["fails"] == ["overlap-lost", "overstressed"]


def test_the_job_reads_as_before_and_a_record_reads_as_what_was_found(path: Path) -> None:
    before = read_job(path)
    save_record(path, RECORD)
    after = read_job(path)
    assert after == before
    kept = records(path.read_text(encoding="utf-8"))[0]
    values = {key: kept[key] for key in kept if key not in ("date", "verdict", "units", "fails")}
    found = read_as_found(values, after)
    assert found.stud_spots[1] == Reading((16.625, 16.6875))
    assert found.floor["rear_right"] == Reading((0.125, 0.1875))
    assert found.projection == (Reading((4.5,)),)


@pytest.mark.parametrize(
    "text",
    [
        JOB.replace("\n", "\r\n"),
        JOB.rstrip("\n"),
        "\ufeff" + JOB,
        JOB + "\n\n\n",
        JOB.replace("Quillet Yard", "H\u00e4rr\u00f6w \U0001f3e0"),
    ],
    ids=["crlf", "no last line end", "byte order mark", "blank lines", "not ascii"],
)
def test_the_layout_of_any_file_is_kept(path: Path, text: str) -> None:
    path.write_bytes(text.encode())
    save_record(path, RECORD)
    after = path.read_bytes()
    assert after.startswith(text.encode())
    if "\r\n" in text:
        assert b"\n" not in after.replace(b"\r\n", b"")
    save_record(path, RECORD)
    assert len(records(path.read_text(encoding="utf-8-sig"))) == 2


@pytest.mark.parametrize(
    "text", ["as_found_record = 3\n" + JOB, "as_found_record = [{ date = 1 }]\n" + JOB]
)
def test_something_else_under_the_records_name_is_refused(path: Path, text: str) -> None:
    path.write_bytes(text.encode())
    with pytest.raises(JobError, match="as_found_record"):
        save_record(path, RECORD)
    assert path.read_bytes() == text.encode()


@pytest.mark.parametrize("content", [b"title = \n", b"\xff\xfe", b"[niche\n"])
def test_a_file_that_is_no_job_is_refused(path: Path, content: bytes) -> None:
    path.write_bytes(content)
    with pytest.raises(JobError, match=r"niche\.toml"):
        save_record(path, RECORD)
    assert path.read_bytes() == content


def test_a_file_that_is_not_there_is_told(tmp_path: Path) -> None:
    with pytest.raises(OutputError, match="can't be read"):
        save_record(tmp_path / "none.toml", RECORD)
    assert list(tmp_path.iterdir()) == []


def test_a_file_written_meanwhile_is_not_written_over(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def slow(text: str, record: Record, *, where: str = "") -> str:
        path.write_text("# somebody else's\n", encoding="utf-8")
        return with_record(text, record, where=where)

    monkeypatch.setattr("bracecalc.jobfile.record.with_record", slow)
    with pytest.raises(OutputError, match="somebody else"):
        save_record(path, RECORD)
    assert path.read_text(encoding="utf-8") == "# somebody else's\n"


@pytest.mark.skipif(os.name != "posix", reason="permissions and links of POSIX")
def test_permissions_and_a_link_stay(path: Path) -> None:
    path.chmod(0o640)
    link = path.with_name("link.toml")
    link.symlink_to(path)
    save_record(link, RECORD)
    assert link.is_symlink()
    assert path.stat().st_mode & 0o777 == 0o640
    assert len(records(path.read_text(encoding="utf-8"))) == 1


class FullDisk:
    """A file on a disk that is full after some bytes."""

    def __init__(self, file: Any, step: str) -> None:
        self.file = file
        self.step = step

    def __enter__(self) -> FullDisk:
        return self

    def __exit__(self, *told: object) -> None:
        self.file.close()

    def fileno(self) -> int:
        return int(self.file.fileno())

    def write(self, data: bytes) -> int:
        if self.step == "write":
            self.file.write(data[: len(data) // 2])
            raise OSError(errno.ENOSPC, "No space left on device")
        return int(self.file.write(data))

    def flush(self) -> None:
        if self.step == "flush":
            raise OSError(errno.ENOSPC, "No space left on device")
        self.file.flush()


def fail(error: BaseException) -> Callable[..., Any]:
    def failing(*args: object, **options: object) -> Any:
        raise error

    return failing


FAULTS = [OSError(errno.ENOSPC, "No space left on device"), KeyboardInterrupt(), MemoryError()]


@pytest.mark.parametrize("fault", FAULTS, ids=lambda fault: type(fault).__name__)
@pytest.mark.parametrize("step", ["open", "fsync", "chmod", "replace"])
def test_a_fault_at_a_step_of_the_write_loses_nothing(
    path: Path, monkeypatch: pytest.MonkeyPatch, step: str, fault: BaseException
) -> None:
    original = builtins.open

    def opened(name: Any, mode: str = "r", *rest: Any, **options: Any) -> Any:
        if "x" in mode:
            raise fault
        return original(name, mode, *rest, **options)

    with monkeypatch.context() as patch:
        if step == "open":
            patch.setattr(builtins, "open", opened)
        else:
            patch.setattr(os, step, fail(fault))
        expected = OutputError if isinstance(fault, OSError) else type(fault)
        with pytest.raises(expected):
            save_record(path, RECORD)
    assert path.read_bytes() == JOB.encode()
    assert [file.name for file in path.parent.iterdir()] == ["niche.toml"]
    save_record(path, RECORD)
    assert len(records(path.read_text(encoding="utf-8"))) == 1


@pytest.mark.parametrize("step", ["write", "flush"])
def test_a_disk_that_fills_up_while_writing_loses_nothing(
    path: Path, monkeypatch: pytest.MonkeyPatch, step: str
) -> None:
    original = builtins.open

    def opened(name: Any, mode: str = "r", *rest: Any, **options: Any) -> Any:
        file = original(name, mode, *rest, **options)
        return FullDisk(file, step) if "x" in mode else file

    with monkeypatch.context() as patch:
        patch.setattr(builtins, "open", opened)
        with pytest.raises(OutputError, match="No space left"):
            save_record(path, RECORD)
    assert path.read_bytes() == JOB.encode()
    assert [file.name for file in path.parent.iterdir()] == ["niche.toml"]


CRASH = """
import os, sys
from datetime import date
from pathlib import Path
import bracecalc.writing
from bracecalc.jobfile.record import Record, save_record
from bracecalc.records.job import Units
from bracecalc.records.plan import Verdict

path, step, after = Path(sys.argv[1]), sys.argv[2], sys.argv[3] == "after"
original = getattr(os, step)

def crash(*args, **options):
    if after:
        original(*args, **options)
    os._exit(9)  # as a power cut: nothing is cleaned up

setattr(os, step, crash)
save_record(path, Record(on=date(2026, 3, 4), verdict=Verdict.HOLDS, units=Units.INCH,
                         fails=(), values={"depth": "24"}))
"""


@pytest.mark.parametrize("when", ["before", "after"])
@pytest.mark.parametrize("step", ["fsync", "chmod", "replace"])
def test_a_crash_at_a_step_of_the_write_leaves_the_old_file_or_the_new_one(
    path: Path, step: str, when: str
) -> None:
    done = subprocess.run([sys.executable, "-c", CRASH, str(path), step, when], check=False)
    assert done.returncode == 9
    text = path.read_text(encoding="utf-8")
    if (step, when) == ("replace", "after"):
        assert text.startswith(JOB)
        assert len(records(text)) == 1
    else:
        assert text == JOB
    read_job(path)
    save_record(path, RECORD)  # what a crash leaves beside the file is in nobody's way
    assert records(path.read_text(encoding="utf-8"))[-1]["projection"] == 4.5


SAVER = """
import sys
from datetime import date
from pathlib import Path
from bracecalc.jobfile.record import Record, save_record
from bracecalc.records.job import Units
from bracecalc.records.plan import Verdict

path, who = Path(sys.argv[1]), sys.argv[2]
sys.stdin.readline()
for turn in range(3):
    values = {"width": f"{who}-{turn}"}
    save_record(path, Record(on=date(2026, 3, 2), verdict=Verdict.HOLDS, units=Units.INCH,
                             fails=(), values=values))
"""


def test_no_record_is_lost_where_many_save_at_once(tmp_path: Path) -> None:
    path = tmp_path / "niche.toml"
    path.write_text('title = "x"\n', encoding="utf-8")
    savers = [
        subprocess.Popen(
            [sys.executable, "-c", SAVER, str(path), str(who)], stdin=subprocess.PIPE, text=True
        )
        for who in range(8)
    ]
    for saver in savers:  # all are loaded and wait: now they save at once
        assert saver.stdin is not None
        saver.stdin.write("\n")
        saver.stdin.flush()
    for saver in savers:
        saver.communicate(timeout=60)
    assert [saver.returncode for saver in savers] == [0] * 8
    kept = tomllib.loads(path.read_text(encoding="utf-8"))["as_found_record"]
    assert sorted(record["width"] for record in kept) == sorted(
        f"{who}-{turn}" for who in range(8) for turn in range(3)
    )
    assert [file.name for file in tmp_path.iterdir()] == ["niche.toml"]
