"""Write the golden words anew: python tests/sheet/renew.py; then read the difference."""

from __future__ import annotations

import sys
from pathlib import Path

HERE = Path(__file__).parent
sys.path.insert(0, str(HERE.parent))


def main() -> None:
    """Write each golden file that is there."""
    from sheetmaking import golden_words

    for golden in sorted((HERE / "golden").glob("*.txt")):
        golden.write_text(golden_words(golden.stem), encoding="utf-8")


if __name__ == "__main__":
    main()
