"""``bracecalc page``: the pocket page for the phone."""

from __future__ import annotations

from pathlib import Path

import click

from bracecalc.cli import options


@click.group(name="page")
def command() -> None:
    """Build or preview the page that runs bracecalc in a phone, with no signal."""


@command.command()
@click.argument("out", type=click.Path(path_type=Path))
@click.option("--single-file", "single", is_flag=True, help="One HTML file that needs no host.")
@options.file(
    "--pyodide",
    "folder",
    metavar="FOLDER",
    help="Where npm unpacked Pyodide (a node_modules folder); looked for if left out.",
)
@options.force("Overwrite what is there.")
def build(out: Path, single: bool, folder: Path | None, force: bool) -> None:
    """Write the page to OUT: a folder to put on any https host, or one file (--single-file)."""
    from bracecalc.page.build import build_page

    size = build_page(out, folder=folder, single=single, force=force)
    click.echo(f"wrote {out} ({size / 1e6:.1f} MB)")


@command.command()
@click.argument("out", type=click.Path(path_type=Path))
@click.option(
    "--port",
    type=click.IntRange(0, 65535),
    default=8765,
    show_default=True,
    help="Port to serve it on; 0 takes any that is free.",
)
def preview(out: Path, port: int) -> None:
    """Serve the folder OUT on this machine alone, until Ctrl-C."""
    from bracecalc.page.preview import preview_server

    with preview_server(out, port=port) as server:
        address = f"http://127.0.0.1:{server.server_address[1]}/"
        click.echo(f"the page is at {address} on this machine alone; Ctrl-C ends it")
        try:
            server.serve_forever()
        except KeyboardInterrupt:
            click.echo("")
