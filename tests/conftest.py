"""How the property tests run: at random by hand, the same every time where changes are judged."""

from __future__ import annotations

import os

from hypothesis import settings

# no deadline: a shared machine stalls now and then, and speed is measured in tests/benchmarks
settings.register_profile("by hand", deadline=None)
settings.register_profile("judged", deadline=None, derandomize=True)
# the browser's Python is slow and asks for a profile of its own, tests/page/engine_in_node.py
usual = "judged" if os.environ.get("CI") else "by hand"
settings.load_profile(os.environ.get("BRACECALC_PROFILE", usual))
