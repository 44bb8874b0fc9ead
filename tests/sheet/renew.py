"""Write the golden words anew: python tests/sheet/renew.py; then read the difference."""

from __future__ import annotations

import sys
from pathlib import Path

HERE = Path(__file__).parent
sys.path.insert(0, str(HERE.parent))


def main() -> None:
    """Write each golden file that is there."""
    from sheetmaking import demo_job, subject, wishes

    from bracecalc.render.sheet.layout import sheet_page
    from bracecalc.render.sheet.showing import Paper

    for golden in sorted((HERE / "golden").glob("*.txt")):
        page = sheet_page(subject(demo_job(f"{golden.stem}.toml")), wishes(), Paper.LETTER)
        words = "".join(f"{text.words}\n" for text in page.texts())
        golden.write_text(words, encoding="utf-8")


if __name__ == "__main__":
    main()
