"""Shows a built page on this machine alone, as a web host would serve it."""

from __future__ import annotations

from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

from bracecalc.page.runtime import PageError

POLICY = "; ".join(
    (
        "default-src 'none'",
        "script-src 'self' 'wasm-unsafe-eval'",
        "worker-src 'self'",
        "connect-src 'self'",
        "img-src 'self' blob: data:",
        "media-src blob:",
        "style-src 'self'",
        "manifest-src 'self'",
        "base-uri 'none'",
        "form-action 'none'",
    )
)


class PageHandler(SimpleHTTPRequestHandler):
    """Serves the folder with the headers that docs/page.md asks of a host."""

    protocol_version = "HTTP/1.1"
    extensions_map = {  # noqa: RUF012 (the base class's own name and shape)
        **SimpleHTTPRequestHandler.extensions_map,
        ".js": "text/javascript",
        ".mjs": "text/javascript",
        ".wasm": "application/wasm",
        ".webmanifest": "application/manifest+json",
    }

    def end_headers(self) -> None:
        """Add the policy, and keep no copy outside the page's own store."""
        self.send_header("Content-Security-Policy", f"{POLICY}; frame-ancestors 'none'")
        self.send_header("X-Content-Type-Options", "nosniff")
        self.send_header("Referrer-Policy", "no-referrer")
        self.send_header("Cache-Control", "no-cache")
        super().end_headers()

    def log_message(self, format: str, *args: object) -> None:
        """Say nothing: the terminal shows the address alone."""


def preview_server(folder: Path, *, port: int = 0) -> ThreadingHTTPServer:
    """Return a server of the folder on the loopback address, ready for ``serve_forever``.

    Args:
        folder: as written by ``build_page``.
        port: 0 takes a free one.

    Raises:
        PageError: if no page was built there, or the port is taken.
    """
    if not (folder / "index.html").is_file():
        raise PageError(f"{folder}: no page there; build one with: bracecalc page build {folder}")
    handler = partial(PageHandler, directory=str(folder))
    try:
        return ThreadingHTTPServer(("127.0.0.1", port), handler)
    except OSError as error:
        raise PageError(f"port {port}: {error.strerror or error}") from None
