"""The page as one HTML file: modules, styles and runtime inside, held to their digests."""

from __future__ import annotations

import gzip
import json
import re
from base64 import b64encode
from collections.abc import Mapping
from graphlib import TopologicalSorter
from hashlib import sha256

IMPORTED = re.compile(r"""(?:from|import)\s+["']\./([\w.-]+)["']""")
CARRIED = ("pyodide/", "qr/", "js/", "licences/")
LOADER = "js/loader.js"  # makes modules of what is carried; stands in the page's own text
FIRST = '<script type="module" src="js/engine.js"'  # on a host it starts while the rest is fetched
LEFT_OUT = (
    '<link rel="modulepreload"',
    '<link rel="manifest"',
    '<link rel="icon"',
    '<link rel="apple-touch-icon"',
)


def single_file(files: Mapping[str, bytes]) -> bytes:
    """Return the page of these files as one HTML document."""
    modules = {name: data.decode() for name, data in files.items() if name.startswith("js/")}
    modules["js/start.js"] = modules["js/start.js"].replace("{", '{"carried": true, ', 1)
    loader = modules.pop(LOADER)
    loader = loader.replace('"{{modules}}"', json.dumps(_in_order(modules)))
    style = files["app.css"].decode()
    policy = "; ".join(
        (
            "default-src 'none'",
            f"script-src 'sha256-{_digest(loader)}' blob: 'wasm-unsafe-eval'",
            f"style-src 'sha256-{_digest(style)}'",
            "worker-src blob:",
            "connect-src blob:",
            "img-src blob: data:",
            "media-src blob:",
            "base-uri 'none'",
            "form-action 'none'",
        )
    )
    carried = {
        name: modules[name].encode() if name in modules else data
        for name, data in files.items()
        if name.startswith(CARRIED) and name != LOADER
    }
    blocks = "\n".join(
        f'<script type="text/plain" data-name="{name}">{_packed(data)}</script>'
        for name, data in carried.items()
    )
    lines = []
    for line in files["index.html"].decode().splitlines():
        bare = line.strip()
        if bare.startswith(LEFT_OUT):
            continue
        if bare.startswith('<meta http-equiv="Content-Security-Policy"'):
            line = f'<meta http-equiv="Content-Security-Policy" content="{policy}">'
        elif bare.startswith('<link rel="stylesheet"'):
            line = f"<style>{style}</style>"
        elif bare.startswith(FIRST):
            continue
        elif bare.startswith("<script"):
            line = f"{blocks}\n<script>{loader}</script>"
        lines.append(line)
    return ("\n".join(lines) + "\n").encode()


def _in_order(modules: Mapping[str, str]) -> list[str]:
    """Return the modules so that each comes after those that it imports."""
    graph = {
        name: {f"js/{other}" for other in IMPORTED.findall(text)} for name, text in modules.items()
    }
    return list(TopologicalSorter(graph).static_order())


def _packed(data: bytes) -> str:
    return b64encode(gzip.compress(data, 9, mtime=0)).decode()


def _digest(text: str) -> str:
    return b64encode(sha256(text.encode()).digest()).decode()
