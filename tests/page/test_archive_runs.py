"""Everything that the page asks for runs from its archive alone, and loads nothing heavy."""

from __future__ import annotations

import io
import json
import subprocess
import sys
import tarfile
from pathlib import Path

from bracecalc.page.archive import engine_archive

DEMOS = Path(__file__).parents[2] / "data/demo"
ASKING = """
import base64, json, sys
from pathlib import Path
from bracecalc.page.bridge import METHODS, call, warm
import bracecalc.page.compiled
warm()
asked = set()
def ask(method, **params):
    asked.add(method)
    reply = json.loads(call(json.dumps({"method": method, "params": params})))
    return reply["result"]
for path in sorted(Path(sys.argv[1]).glob("*.toml")):
    text = ask("open", bytes=base64.b64encode(path.read_bytes()).decode(), name=path.name)["text"]
    for entries in ({}, {"as_found.floor.rear_right": "7/8 in", "as_found.screws": "10 x 3 in"}):
        given = {"text": text, "entries": entries}
        for method in ("look", "check", "work", "write", "plan data", "check data"):
            ask(method, **given)
        for form in ("svg", "html"):
            ask("sheet", **given, form=form, paper="a4", date="2026-11-25")
        assert ask("decode", code=ask("code", **given)["code"])["text"]
ask("rewrite", value="33 in", unit="mm")
assert asked == set(METHODS), set(METHODS) - asked
from bracecalc.page import bridge
assert "/engine/" in bridge.__file__.replace("\\\\", "/"), bridge.__file__
heavy = {"click", "highspy", "numpy", "openpyxl", "pint", "typst", "tabulate"}
print(json.dumps(sorted(heavy & set(sys.modules))))
"""


def test_every_request_is_answered_from_the_archive(tmp_path: Path) -> None:
    engine = tmp_path / "engine"
    with tarfile.open(fileobj=io.BytesIO(engine_archive()), mode="r:xz") as archive:
        archive.extractall(engine, filter="data")
    # -S: no installed package, so that what the archive lacks is missed
    script = f"import sys; sys.path.insert(0, {str(engine)!r})\n{ASKING}"
    run = subprocess.run(
        [sys.executable, "-S", "-I", "-c", script, str(DEMOS)],
        capture_output=True,
        text=True,
        check=False,
        cwd=tmp_path,
    )
    assert run.returncode == 0, run.stderr[-3000:]
    assert json.loads(run.stdout) == []
