"""What the page runs: the engine's modules that it can reach, their tables, and two packages.

Which modules those are is read from the imports themselves, so that a room that moves takes its
place on the page with it, and what only the command line uses stays behind.
"""

from __future__ import annotations

import ast
from collections.abc import Iterator
from importlib import import_module
from importlib.util import find_spec, resolve_name
from pathlib import Path
from pkgutil import iter_modules

from bracecalc.page.runtime import PageError

ENTRIES = ("bracecalc.page.bridge", "bracecalc.page.compiling")
WHOLE = ("bracecalc.text.messages",)  # its modules are imported by a name made at run time
ROOT = "bracecalc"
TABLES = "bracecalc.data"
# What a browser can't run or is never asked for, though a room of the page names it.
NEVER = ("bracecalc.cli", "bracecalc.cutting")
DATA = (".css", ".csv", ".toml")
# tomlkit writes a job file back with its comments kept; segno draws the code of a sheet.
BORROWED = {"tomlkit": (), "segno": ("cli.py", "helpers.py")}


def page_sources() -> dict[str, bytes]:
    """Return each file by its place under the folder that goes on the module path.

    Raises:
        PageError: if a package that goes with the engine isn't installed.
    """
    files: dict[str, bytes] = {}
    for name, path in sorted(_reached().items()):
        folder = name.replace(".", "/")
        if path.name == "__init__.py":
            files[f"{folder}/__init__.py"] = path.read_bytes()
            files |= {f"{folder}/{one.name}": one.read_bytes() for one in _data_beside(path)}
        else:
            files[f"{folder}.py"] = path.read_bytes()
    for package, left_out in BORROWED.items():
        files |= _borrowed(package, left_out)
    return files


def _data_beside(path: Path) -> Iterator[Path]:
    return (one for one in sorted(path.parent.iterdir()) if one.suffix in DATA)


def _reached() -> dict[str, Path]:
    """Return the modules that the page can come to, wherever in a module they are imported."""
    found: dict[str, Path] = {}
    waiting = [*ENTRIES, TABLES, *_modules_of(WHOLE)]
    while waiting:
        name = waiting.pop()
        if name in found or name.startswith(NEVER):
            continue
        spec = find_spec(name)
        if spec is None or spec.origin is None:
            continue  # a name inside a module, not a module
        found[name] = Path(spec.origin)
        if name == ROOT:  # its front door opens every room, but the page calls none through it
            continue
        waiting += [one for one in _imports(found[name], spec.parent or "") if _is_ours(one)]
        waiting += _parents(name)
    return found


def _modules_of(packages: tuple[str, ...]) -> Iterator[str]:
    for package in packages:
        for found in iter_modules(import_module(package).__path__):
            yield f"{package}.{found.name}"


def _is_ours(name: str) -> bool:
    return name == ROOT or name.startswith(f"{ROOT}.")


def _parents(name: str) -> list[str]:
    parts = name.split(".")
    return [".".join(parts[:count]) for count in range(1, len(parts))]


def _imports(path: Path, package: str) -> Iterator[str]:
    """Yield what a module imports; ``from a import b`` may mean the module ``a.b``."""
    for node in _run(ast.parse(path.read_bytes())):
        if isinstance(node, ast.Import):
            yield from (one.name for one in node.names)
        elif isinstance(node, ast.ImportFrom):
            base = resolve_name("." * node.level + (node.module or ""), package)
            yield base
            for one in node.names:
                if _is_ours(base) and _is_package(base):
                    yield f"{base}.{one.name}"


def _run(tree: ast.AST) -> Iterator[ast.AST]:
    """Yield the nodes that are run; what stands under ``if TYPE_CHECKING`` never is."""
    for node in ast.iter_child_nodes(tree):
        if isinstance(node, ast.If) and ast.unparse(node.test).endswith("TYPE_CHECKING"):
            continue
        yield node
        yield from _run(node)


def _is_package(name: str) -> bool:
    spec = find_spec(name)
    return spec is not None and spec.submodule_search_locations is not None


def _borrowed(package: str, left_out: tuple[str, ...]) -> dict[str, bytes]:
    if find_spec(package) is None:
        raise PageError(f"{package} is missing, which the page carries: pip install {package}")
    folder = Path(import_module(package).__path__[0])
    return {
        f"{package}/{path.relative_to(folder).as_posix()}": path.read_bytes()
        for path in sorted(folder.rglob("*.py"))
        if path.name not in left_out and "__pycache__" not in path.parts
    }
