"""Files written whole or not at all, and nothing that exists overwritten unasked.

May import: errors.
"""

from __future__ import annotations

import os
import stat
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from bracecalc.errors import OutputError


def write_whole(path: str | Path, data: bytes | str, *, force: bool) -> None:
    """Write a file whole or not at all.

    The data goes to a temporary file in the same folder, which then takes the name in one step:
    a reader sees the old file or the new one, never half of one.

    Args:
        path: where to write. A link is followed, so that it stays a link.
        data: text is written in UTF-8, its line ends as they are.
        force: overwrite a file that exists.

    Raises:
        OutputError: if it exists and ``force`` is false, or it can't be written; nothing was.
    """
    shown = str(path)
    with _one_line(shown):
        target = Path(os.path.realpath(path))
        content = data.encode("utf-8") if isinstance(data, str) else data
        mode = _checked_mode(target, shown, force=force)
        _write(target, content, mode, force=force)


def check_target(path: str | Path, *, force: bool) -> None:
    """Raise what ``write_whole`` would raise before it writes: asked before long questions.

    Raises:
        OutputError: if the file exists and ``force`` is false, or its folder isn't there.
    """
    shown = str(path)
    with _one_line(shown):
        target = Path(os.path.realpath(path))
        _checked_mode(target, shown, force=force)
        if not target.parent.is_dir():
            raise FileNotFoundError(shown)
        if not os.access(target.parent, os.W_OK):
            raise PermissionError(shown)


LONGEST_WAIT = 20.0  # seconds, for somebody else who writes in the same folder
_LOOK_AGAIN = 0.02


@contextmanager
def locked(path: str | Path) -> Iterator[None]:
    """Keep every other bracecalc from changing a file between its reading and its writing.

    The lock is the system's own and on the file's folder, so that it holds while the file itself
    is replaced, leaves nothing behind, and ends with the process that holds it.

    Args:
        path: the file that is read and then written within.

    Raises:
        OutputError: if its folder isn't there, or somebody else holds the lock for too long.
    """
    shown = str(path)
    folder = Path(os.path.realpath(path)).parent
    with _one_line(shown):
        handle = _lock_handle(folder)
    try:
        until = time.monotonic() + LONGEST_WAIT
        while not _take_lock(handle):
            if time.monotonic() > until:
                raise OutputError(f"{shown}: somebody else is writing it; try again")
            time.sleep(_LOOK_AGAIN)
        yield
    finally:
        os.close(handle)


if sys.platform == "win32":  # a folder can't be locked there: a file of the temporary folder can
    import hashlib
    import msvcrt
    import tempfile

    def _lock_handle(folder: Path) -> int:
        name = hashlib.sha256(str(folder).encode()).hexdigest()[:32]
        file = Path(tempfile.gettempdir()) / f"bracecalc-{name}.lock"
        return os.open(file, os.O_RDWR | os.O_CREAT)

    def _take_lock(handle: int) -> bool:
        try:
            msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)
        except OSError:
            return False
        return True

else:

    def _lock_handle(folder: Path) -> int:
        return os.open(folder, os.O_RDONLY)

    def _take_lock(handle: int) -> bool:
        import fcntl

        try:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            return False
        return True


@contextmanager
def _one_line(shown: str) -> Iterator[None]:
    """Turn what the system says into one line."""
    try:
        yield
    except FileExistsError:
        raise OutputError(_exists(shown)) from None
    except FileNotFoundError:
        raise OutputError(f"{shown}: folder not found") from None
    except PermissionError:
        raise OutputError(f"{shown}: no permission to write it; nothing was written") from None
    except OSError as error:
        reason = error.strerror if error.strerror else str(error)
        raise OutputError(f"{shown}: can't be written ({reason}); nothing was written") from None
    except ValueError as error:  # a NUL in the path, half of a surrogate pair in the text
        raise OutputError(f"{shown!r}: can't be written ({error}); nothing was written") from None


def _exists(shown: str) -> str:
    return f"{shown}: already exists; give a new name, or use --force"


def _checked_mode(target: Path, shown: str, *, force: bool) -> int | None:
    """Return the permissions that a file to be overwritten has, None where there is none."""
    try:
        found = target.stat()
    except FileNotFoundError:
        return None
    if stat.S_ISDIR(found.st_mode):
        raise OutputError(f"{shown}: read a folder; expected the name of a file")
    if not stat.S_ISREG(found.st_mode):
        raise OutputError(f"{shown}: read a device; expected the name of a file")
    if not force:
        raise OutputError(_exists(shown))
    if not os.access(target, os.W_OK):  # replacing it would only ask for the folder's permission
        raise OutputError(f"{shown}: no permission to write it; nothing was written")
    return stat.S_IMODE(found.st_mode)


def _write(target: Path, content: bytes, mode: int | None, *, force: bool) -> None:
    name = target.parent / f".bracecalc-{os.urandom(8).hex()}.tmp"
    try:
        with open(name, "xb") as file:  # a new name, with the permissions of any new file
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        if mode is not None:
            os.chmod(name, mode)
        if force:
            os.replace(name, target)
        else:
            _place_new(name, target)
    except BaseException:
        name.unlink(missing_ok=True)
        raise
    _sync_folder(target.parent)


def _place_new(name: Path, target: Path) -> None:
    """Give the file its name without overwriting one that came about since it was looked for."""
    try:
        os.link(name, target)
    except FileExistsError:
        raise
    except (OSError, AttributeError, NotImplementedError):  # a file system without hard links
        if target.exists():
            raise FileExistsError(str(target)) from None
        os.replace(name, target)
    else:
        name.unlink()


def _sync_folder(folder: Path) -> None:
    """Have the new name on the disk too; not every system lets a folder be opened."""
    try:
        handle = os.open(folder, os.O_RDONLY)
    except OSError:
        return
    try:
        os.fsync(handle)
    except OSError:
        return
    finally:
        os.close(handle)
