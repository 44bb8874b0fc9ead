"""What is said otherwise in the English of the United Kingdom."""

from __future__ import annotations

TERMS = {
    "blocking": "noggins",
    "centers": "centres",
    "center": "centre",
    "drywall": "plasterboard",
    "spacer": "packer",
    "spacers": "packers",
    "spec_sheet": "data sheet",
    "truck": "van",
    "wrench": "spanner",
}

SENTENCES = {
    "step.fasten": "Fix",
    "cut.blocking": "{count:noggin|noggins} {board} {species}, about {length} long, to fit tight "
    "between the studs.",
    "cut.spacers": "{count:packer|packers} {length} long and {depth} wide, from the soffit down: "
    "{pieces}; {total} in all.",
}
