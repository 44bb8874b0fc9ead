"""How the pages of this folder become a small site: python -m sphinx -W docs build/docs."""

from __future__ import annotations

from bracecalc import __version__

project = "bracecalc"
release = version = __version__
extensions = ["myst_parser"]
exclude_patterns = ["figures/*.py"]
html_theme = "furo"
html_title = f"bracecalc {release}"
html_copy_source = False
html_show_sourcelink = False
html_show_copyright = False
myst_heading_anchors = 3
nitpicky = True
