"""Files written whole or not at all, and nothing overwritten unasked."""

from __future__ import annotations

import os
import stat
import threading
from pathlib import Path

import pytest

from bracecalc.errors import OutputError
from bracecalc.writing import write_whole


def leftovers(folder: Path) -> list[str]:
    return [path.name for path in folder.iterdir() if path.name.startswith(".")]


def test_text_and_bytes_are_written_as_they_are(tmp_path: Path) -> None:
    write_whole(tmp_path / "a.toml", "width = '33¼ in'\r\n", force=False)
    write_whole(str(tmp_path / "b.pdf"), b"%PDF\x00\xff\n", force=False)
    assert (tmp_path / "a.toml").read_bytes() == "width = '33¼ in'\r\n".encode()
    assert (tmp_path / "b.pdf").read_bytes() == b"%PDF\x00\xff\n"
    assert leftovers(tmp_path) == []


def test_a_file_that_exists_is_left_alone(tmp_path: Path) -> None:
    path = tmp_path / "a.toml"
    path.write_text("mine")
    with pytest.raises(OutputError, match=r"a.toml: already exists; .*--force"):
        write_whole(path, "yours", force=False)
    assert path.read_text() == "mine"
    assert leftovers(tmp_path) == []


def test_force_overwrites_and_keeps_the_permissions(tmp_path: Path) -> None:
    path = tmp_path / "a.toml"
    path.write_text("mine")
    path.chmod(0o640)
    write_whole(path, "yours", force=True)
    assert path.read_text() == "yours"
    assert stat.S_IMODE(path.stat().st_mode) == 0o640


def test_a_new_file_has_the_permissions_of_any_new_file(tmp_path: Path) -> None:
    (tmp_path / "plain").write_text("")
    write_whole(tmp_path / "ours", "", force=False)
    assert (tmp_path / "ours").stat().st_mode == (tmp_path / "plain").stat().st_mode


def test_a_link_stays_a_link(tmp_path: Path) -> None:
    (tmp_path / "real").write_text("mine")
    (tmp_path / "link").symlink_to("real")
    with pytest.raises(OutputError, match="already exists"):
        write_whole(tmp_path / "link", "yours", force=False)
    write_whole(tmp_path / "link", "yours", force=True)
    assert (tmp_path / "link").is_symlink()
    assert (tmp_path / "real").read_text() == "yours"


@pytest.mark.parametrize("force", [False, True])
def test_what_can_not_be_written_is_one_line(tmp_path: Path, force: bool) -> None:
    (tmp_path / "file").write_text("mine")
    for path, reason in (
        (tmp_path, "read a folder; expected the name of a file"),
        (tmp_path / "none" / "a", "folder not found"),
        (tmp_path / "file" / "a", "can't be written"),
        (tmp_path / ("x" * 300), "can't be written"),
        (Path("a\0b"), "can't be written"),
        (Path(os.devnull), "read a device; expected the name of a file"),
    ):
        with pytest.raises(OutputError) as caught:
            write_whole(path, "yours", force=force)
        assert reason in str(caught.value)
        assert len(str(caught.value).splitlines()) == 1
    assert leftovers(tmp_path) == []
    assert (tmp_path / "file").read_text() == "mine"


def test_text_that_is_no_text_is_refused(tmp_path: Path) -> None:
    with pytest.raises(OutputError, match="can't be written"):
        write_whole(tmp_path / "a", "\ud800", force=False)
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("error", [OSError(28, "No space left on device"), KeyboardInterrupt()])
def test_a_write_that_breaks_off_leaves_the_old_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, error: BaseException
) -> None:
    path = tmp_path / "a.toml"
    path.write_text("mine")

    def fail(_: int) -> None:
        raise error

    monkeypatch.setattr(os, "fsync", fail)
    expected = OutputError if isinstance(error, OSError) else KeyboardInterrupt
    with pytest.raises(expected):
        write_whole(path, "yours", force=True)
    assert path.read_text() == "mine"
    assert leftovers(tmp_path) == []


def test_no_permission_is_one_line(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "a.toml"
    path.write_text("mine")
    monkeypatch.setattr(os, "access", lambda *_: False)  # root may write anything
    with pytest.raises(OutputError, match="no permission to write it"):
        write_whole(path, "yours", force=True)
    assert path.read_text() == "mine"


def test_a_file_that_comes_about_meanwhile_is_left_alone(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "a.toml"
    real = os.fsync

    def someone_is_faster(handle: int) -> None:
        if not path.exists():
            path.write_text("theirs")
        real(handle)

    monkeypatch.setattr(os, "fsync", someone_is_faster)
    with pytest.raises(OutputError, match="already exists"):
        write_whole(path, "ours", force=False)
    assert path.read_text() == "theirs"
    assert leftovers(tmp_path) == []


def test_without_hard_links_too(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def no_links(*_: object) -> None:
        raise OSError(95, "Operation not supported")

    monkeypatch.setattr(os, "link", no_links)
    write_whole(tmp_path / "a", "ours", force=False)
    assert (tmp_path / "a").read_text() == "ours"
    assert leftovers(tmp_path) == []


def test_many_writers_give_one_whole_file(tmp_path: Path) -> None:
    path = tmp_path / "a"
    texts = [str(number) * 100_000 for number in range(8)]
    refused: list[str] = []

    def write(text: str) -> None:
        try:
            write_whole(path, text, force=False)
        except OutputError as error:
            refused.append(str(error))

    threads = [threading.Thread(target=write, args=(text,)) for text in texts]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert path.read_text() in texts
    assert len(refused) == len(texts) - 1
