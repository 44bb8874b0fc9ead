"""The code: job -> words -> job, by published examples and by an independent reader."""

from __future__ import annotations

import builtins
import hashlib
import io
import shutil
import subprocess
import zlib
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sheetmaking import DEMO, demo_job

from bracecalc.drawing import code
from bracecalc.drawing.code import PREFIX, NoSymbol, Symbol, pack, symbol, unpack
from bracecalc.jobfile.read import parse_job
from bracecalc.jobfile.write import job_to_toml

# RFC 9285 (The Base45 Data Encoding, 2022), section 4.3 and 4.4: AB, Hello!!, base-45, ietf!
PUBLISHED = [
    ("AB", "BB8"),
    ("Hello!!", "%69 VD92EX0"),
    ("base-45", "UJCLQE7W581"),
    ("ietf!", "QED8WEX0"),
]


@pytest.mark.parametrize(("plain", "words"), PUBLISHED)
def test_base45_is_that_of_its_standard(plain: str, words: str) -> None:
    assert code._base45(plain.encode()) == words
    assert code._base45_bytes(words).decode() == plain


@pytest.mark.parametrize("words", ["GGW", ":::", "A", "ab", "AB=", "ZZZ1"])
def test_what_is_not_base45_is_refused(words: str) -> None:
    # GGW is 65536, one more than two bytes hold; RFC 9285 section 6
    with pytest.raises(ValueError, match="Base45"):
        code._base45_bytes(words)


@given(st.text(st.characters(codec="utf-8"), max_size=400))
def test_any_text_comes_back(text: str) -> None:
    assert unpack(pack(text)) == text


@pytest.mark.parametrize("name", DEMO)
def test_demo_jobs_come_back_whole(name: str) -> None:
    job = demo_job(name)
    back = parse_job(unpack(pack(job_to_toml(job, comments=False))), where="code")
    assert back == job


def test_a_damaged_code_is_refused() -> None:
    words = pack('title = "Quillet Yard 3B"\n')
    for bad in ("hello", words[:-3], words + "000", PREFIX, words.lower()):
        with pytest.raises(ValueError, match=r"code|Base45"):
            unpack(bad)


def test_a_code_that_would_unpack_to_too_much_is_refused() -> None:
    press = zlib.compressobj(9, zlib.DEFLATED, -15, 9, zlib.Z_DEFAULT_STRATEGY, code.dictionary())
    bomb = press.compress(b"a" * 20_000_000) + press.flush()
    with pytest.raises(ValueError, match="damaged"):
        unpack(PREFIX + code._base45(bomb))


def test_the_dictionary_of_the_prefix_never_changes() -> None:
    # codes that hang on walls are read with it: a new dictionary needs a new prefix
    found = hashlib.sha256(code.dictionary()).hexdigest()
    assert found == "5869cff54186ab1f9c0a4b8fb5cbc18618c6d20d30a68aa959812de8e3434e0a"


@pytest.mark.skipif(shutil.which("zbarimg") is None, reason="zbar-tools is not installed")
@pytest.mark.parametrize("name", ["3b-kitchen.toml", "6a-metric.toml"])
def test_the_symbol_is_read_by_another_program(name: str, tmp_path: Path) -> None:
    text = job_to_toml(demo_job(name), comments=False)
    made = symbol(text)
    assert isinstance(made, Symbol)
    side = len(made.rows) + 8
    white = [255] * side
    rows = [[255] * 4 + [0 if cell else 255 for cell in row] + [255] * 4 for row in made.rows]
    grey = [*[white] * 4, *rows, *[white] * 4]
    picture = tmp_path / "code.pgm"  # a plain format, written without any library
    wide = [[value for value in row for _ in range(4)] for row in grey for _ in range(4)]
    body = "\n".join(" ".join(map(str, row)) for row in wide)
    picture.write_text(f"P2\n{4 * side} {4 * side}\n255\n{body}\n")
    called = ["zbarimg", "--quiet", "--raw", str(picture)]
    read = subprocess.run(called, capture_output=True, text=True, check=False)
    assert unpack(read.stdout.rstrip("\n")) == text


def test_the_symbol_is_that_of_the_words() -> None:
    segno = pytest.importorskip("segno")
    text = 'title = "Quillet Yard 3B"\n'
    made = symbol(text)
    assert isinstance(made, Symbol)
    out = io.StringIO()
    made_by_hand = segno.make_qr(pack(text), error="m", boost_error=False, mask=3)
    made_by_hand.save(out, kind="txt", border=0)
    rows = ["".join("1" if cell else "0" for cell in row) for row in made.rows]
    assert out.getvalue().split() == rows


def test_a_job_too_long_for_a_code_says_so() -> None:
    text = "".join(hashlib.sha256(bytes([n])).hexdigest() for n in range(200))
    made = symbol(text)
    assert isinstance(made, NoSymbol)
    assert "too long" in made.why


def test_without_segno_it_says_so(monkeypatch: pytest.MonkeyPatch) -> None:
    real = builtins.__import__

    def missing(name: str, *rest: Any) -> Any:
        if name == "segno":
            raise ImportError(name)
        return real(name, *rest)

    monkeypatch.setattr(builtins, "__import__", missing)
    made = symbol("title = 1")
    assert isinstance(made, NoSymbol)
    assert "bracecalc[sheet]" in made.why
