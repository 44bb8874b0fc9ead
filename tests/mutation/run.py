"""Change formulas one at a time and see whether the tests notice.

    python tests/mutation/run.py                       a sample of 600, seed 1
    python tests/mutation/run.py --all strength/nds.py every mutant of a module
    python tests/mutation/run.py --base REV            of the modules changed since REV, at most 60

Each mutant runs in a fork of a process that has everything loaded, on the suites of its room and
then on those above it, until the first failure. Those that survive are listed; ``equivalent.txt``
beside this file says of which it was shown that no test could tell, and why.
"""

from __future__ import annotations

import argparse
import contextlib
import importlib
import io
import os
import random
import signal
import subprocess
import sys
import time
import types
from pathlib import Path
from typing import Any, NamedTuple

ROOT = Path(__file__).parents[2]
sys.path[:0] = [str(ROOT / "tests"), str(ROOT)]

from mutation.mutants import Mutant, mutants_of  # noqa: E402 - the path comes first

ROOMS = {  # what is changed, and the suites that answer for it: the nearest first
    "mechanics": ("mechanics", "published", "properties/test_statics.py", "strength", "stack"),
    "strength": ("strength", "stack", "planning", "properties"),
    "stack": ("stack", "planning", "strength", "properties"),
    "planning": ("planning", "stack", "properties", "check"),
    "certainty": ("certainty",),
}
MODULES = (
    "mechanics/",
    "strength/",
    "stack/",
    "planning/reach.py",
    "planning/at_height.py",
    "planning/no_restraint.py",
    "planning/options.py",
    "planning/restraint.py",
    "planning/as_built.py",
    "planning/bearing.py",
    "certainty/monte_carlo.py",
)
NO_FORMULAS = {"__init__.py", "guards.py", "advice.py", "workings.py", "formula.py"}
EQUIVALENT = Path(__file__).with_name("equivalent.txt")
LONGEST = 120  # seconds for the tests of one mutant: a loop without end is noticed too


class Case(NamedTuple):
    """One mutant of a module."""

    module: str
    line: str  # as it stands in the source
    mutant: Mutant

    @property
    def name(self) -> str:
        """What it is called in lists: no line number, so that lines above may move."""
        return f"{self.module}: {self.line} | {self.mutant.before} -> {self.mutant.after}"


def modules() -> list[str]:
    """Return the modules that are changed, as paths in the package."""
    package = ROOT / "bracecalc"
    names = (str(path.relative_to(package)) for path in sorted(package.rglob("*.py")))
    return [
        name
        for name in names
        if name.startswith(MODULES) and name.rpartition("/")[2] not in NO_FORMULAS
    ]


def cases_of(module: str) -> list[Case]:
    """Return every mutant of a module."""
    source = (ROOT / "bracecalc" / module).read_text(encoding="utf-8")
    lines = source.splitlines()
    return [Case(module, lines[one.line - 1].strip(), one) for one in mutants_of(source)]


def put_in(case: Case) -> None:
    """Put a mutant in place of its module, in this process: whoever holds a function has it too."""
    name = "bracecalc." + case.module.removesuffix(".py").replace("/", ".")
    module = importlib.import_module(name)
    before = dict(vars(module))
    fresh = types.ModuleType(name)
    fresh.__dict__.update(
        __name__=name, __package__=name.rpartition(".")[0], __file__=module.__file__
    )
    exec(compile(case.mutant.source, str(module.__file__), "exec"), fresh.__dict__)
    for key, old in before.items():
        new = fresh.__dict__.get(key)
        if _own(old, name):
            _take_over(old, new)
        elif isinstance(old, int | float | tuple | dict) and old != new:
            for other in [m for n, m in sys.modules.items() if n.startswith("bracecalc")]:
                if other.__dict__.get(key) == old:
                    other.__dict__[key] = new
    for loaded in list(sys.modules.values()):
        if getattr(loaded, "__name__", "").startswith("bracecalc"):
            for held in list(vars(loaded).values()):
                if hasattr(held, "cache_clear"):
                    held.cache_clear()


def _own(thing: Any, name: str) -> bool:
    return getattr(thing, "__module__", None) == name


def _take_over(old: Any, new: Any) -> None:
    """Give an old function, or every function of an old class, the code of the new one."""
    old, new = getattr(old, "__wrapped__", old), getattr(new, "__wrapped__", new)
    if isinstance(old, types.FunctionType):
        old.__code__, old.__kwdefaults__ = new.__code__, new.__kwdefaults__
    elif isinstance(old, type):
        for key, part in vars(old).items():
            inner = part.fget if isinstance(part, property) else part
            fresh = vars(new).get(key)
            fresh = fresh.fget if isinstance(fresh, property) else fresh
            if isinstance(inner, types.FunctionType) and isinstance(fresh, types.FunctionType):
                with contextlib.suppress(ValueError):  # a closure of another size
                    inner.__code__ = fresh.__code__


def noticed(case: Case) -> bool:
    """Return whether the tests notice a mutant; each runs in a child of its own."""
    child = os.fork()
    if not child:
        signal.alarm(LONGEST)
        os._exit(_judge(case))
    return os.waitpid(child, 0)[1] != 0


def _judge(case: Case) -> int:
    """Return 0 where every test passes in spite of the mutant."""
    import pytest

    with open(os.devnull, "w", encoding="utf-8") as nothing:
        os.dup2(nothing.fileno(), 1)
        os.dup2(nothing.fileno(), 2)
    try:
        put_in(case)
    except BaseException:
        return 1  # it doesn't even load
    suites = [str(ROOT / "tests" / suite) for suite in ROOMS[case.module.partition("/")[0]]]
    doctests = str(ROOT / "bracecalc" / case.module)
    with contextlib.redirect_stdout(io.StringIO()):
        return int(pytest.main(["-q", "-x", "-p", "no:cacheprovider", doctests, *suites]))


def load_everything() -> None:
    """Import package and tests once, so that each child starts from there."""
    os.environ["CI"] = "true"  # the property tests draw the same each time
    os.chdir(ROOT)
    import pytest

    suites = sorted({str(ROOT / "tests" / s) for room in ROOMS.values() for s in room})
    with contextlib.redirect_stdout(io.StringIO()):
        status = pytest.main(["-q", "--collect-only", "-p", "no:cacheprovider", *suites])
    if status:
        raise SystemExit("the suites can't be collected")


def known_equivalent() -> set[str]:
    """Return the names of the mutants of which it was shown that no test could tell."""
    lines = EQUIVALENT.read_text(encoding="utf-8").splitlines() if EQUIVALENT.exists() else []
    return {line.strip() for line in lines if line.strip() and not line.startswith("#")}


def changed_since(base: str) -> list[str]:
    """Return the modules that differ from a revision."""
    listed = subprocess.run(
        ["git", "diff", "--name-only", base, "--", "bracecalc"],
        cwd=ROOT, capture_output=True, text=True, check=True,
    )  # fmt: skip
    changed = {line.removeprefix("bracecalc/") for line in listed.stdout.splitlines()}
    return [module for module in modules() if module in changed]


def chosen(arguments: argparse.Namespace) -> list[Case]:
    """Return the mutants to try."""
    if arguments.base:
        names = changed_since(arguments.base)
    else:
        names = [m for m in modules() if not arguments.modules or m in arguments.modules]
    cases = [case for name in names for case in cases_of(name)]
    if arguments.all or len(cases) <= arguments.most:
        return cases
    return random.Random(arguments.seed).sample(cases, arguments.most)


def main() -> int:
    """Try the mutants; return 1 where more than two in a hundred survive."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("modules", nargs="*", help="as strength/nds.py; all without")
    parser.add_argument("--all", action="store_true", help="every mutant, no sample")
    parser.add_argument("--base", help="only modules changed since this revision")
    parser.add_argument("--most", type=int, default=600)
    parser.add_argument("--seed", type=int, default=1)
    arguments = parser.parse_args()
    cases, began, equivalent = chosen(arguments), time.monotonic(), known_equivalent()
    cases = [case for case in cases if case.name not in equivalent]
    load_everything()
    survived = []
    for number, case in enumerate(cases, start=1):
        if not noticed(case):
            survived.append(case)
            print(f"survived, line {case.mutant.line}: {case.name}", flush=True)
        if number % 50 == 0:
            print(f"{number} of {len(cases)}, {len(survived)} survived", flush=True)
    seconds = time.monotonic() - began
    print(f"{len(cases)} mutants, {len(survived)} survived, {seconds:.0f} s")
    return int(len(survived) > 0.02 * len(cases))


if __name__ == "__main__":
    sys.exit(main())
