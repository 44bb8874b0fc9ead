"""Packs the files that run Python in a browser as the optional wheel of the extra ``page``.

    npm ci --prefix bracecalc/page/npm
    python .ci/page_runtime_wheel.py dist/

The files are those of ``bracecalc/page/runtime.json``, held to their digests, unchanged. Their
licences go with them.
"""

from __future__ import annotations

import sys
import zipfile
from base64 import urlsafe_b64encode
from hashlib import sha256
from pathlib import Path

from bracecalc.page.runtime import CARRIER, HERE, find_runtime

NAME = "bracecalc-page-runtime"
SUMMARY = "Pyodide and a reader of square codes, unchanged, for: bracecalc page build"
STAMP = (1980, 1, 1, 0, 0, 0)
LICENCES = ("MPL-2.0.txt", "NOTICE.txt", "QR-MIT.txt")


def wheel(folder: Path) -> Path:
    """Write the wheel into a folder and return its path."""
    runtime = find_runtime(HERE / "npm" / "node_modules")
    info = f"{CARRIER}-{runtime.version}.dist-info"
    members = {f"{CARRIER}/__init__.py": f'"""{SUMMARY}."""\n'.encode()}
    members |= {f"{CARRIER}/files/{name}": data for name, data in runtime.files.items()}
    for name in LICENCES:
        text = (HERE / "site" / "licences" / name).read_bytes()
        members[f"{info}/licenses/{name}"] = text
    members[f"{info}/METADATA"] = (
        "Metadata-Version: 2.4\n"
        f"Name: {NAME}\nVersion: {runtime.version}\nSummary: {SUMMARY}\n"
        "License-Expression: MPL-2.0 AND MIT AND Python-2.0\n"
        + "".join(f"License-File: {name}\n" for name in LICENCES)
    ).encode()
    members[f"{info}/WHEEL"] = (
        b"Wheel-Version: 1.0\nGenerator: bracecalc\nRoot-Is-Purelib: true\nTag: py3-none-any\n"
    )
    record = "".join(f"{name},{_digest(data)},{len(data)}\n" for name, data in members.items())
    members[f"{info}/RECORD"] = f"{record}{info}/RECORD,,\n".encode()
    folder.mkdir(parents=True, exist_ok=True)
    path = folder / f"{CARRIER}-{runtime.version}-py3-none-any.whl"
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED, compresslevel=9) as archive:
        for name, data in members.items():
            member = zipfile.ZipInfo(name, STAMP)
            member.compress_type = zipfile.ZIP_DEFLATED
            member.external_attr = 0o644 << 16
            archive.writestr(member, data)
    return path


def _digest(data: bytes) -> str:
    return "sha256=" + urlsafe_b64encode(sha256(data).digest()).rstrip(b"=").decode()


if __name__ == "__main__":
    print(wheel(Path(sys.argv[1])))
