"""The standing words of docs/verification.md. What changes with the data is in make_page.py."""

HEAD = """# Verification: printed values against ours

What a plan works out is held against values printed outside this project. This page is written
from the data of the tests (`cd tests && python -m published.make_page`), and a test fails when it
is stale. "Agrees" means that ours rounds to the printed value: the difference is at most half of
its last digit. A value that doesn't agree stays here, with the difference and what we make of it.
No formula was fitted to a value.

How each value was read:

- **seen**: in the document itself, or in a scan or a page that reproduces it;
- **second hand**: only where somebody else quotes it or carries it over.

Only these two count. What was recalled and not read stands in the
[appendix](#appendix-from-memory), where nothing is said to agree; what somebody else's program
worked out stands [by itself](#other-programs).

Of a table that is sold this page reprints a sample and every row that differs; the tests hold more
of it. To use such a table, buy it.

This page shows that the arithmetic follows the sources. It is no approval, and does not replace
the judgement of a licensed engineer or the local code.
"""

FURRING = """## Members that stand apart: furring over foam

The only published table found in which the fastener crosses a gap: wood furring of 3/4 in over
foam, fastened to wood studs, so that the cladding's weight hangs on the fasteners across the foam.
The load of one fastener is the cladding's weight times both spacings. Cells of 4.00 in (the
table's cap) and "design required" give no load and are left out.

The safety factor inside the table was not found, so ours can't be held equal to it. The tests hold
two things. The code never gives a fastener more than ours does. And ours over the code's load is
nearly constant while the gap grows from half an inch to more than three: were the terms of the gap
wrong, the share would drift with it. For nails it does not. For screws, whose root diameter and
steel the table does not state (ours are those of NDS), it stays within the limits shown.

The code is the more careful of the two. Ours are reference values: the cladding's weight is there
for good, and C_D 0.9 for a permanent load explains a part. The rest is a margin of the code's own,
which may be for creep and slip; a plan does not take it.
"""

K_D = """## Which K_D

The reduction term of a screw of D_r over 0.17 and under 1/4 in is K_D = 10 D_r + 0.5 here. Two
public notes say that an erratum of January 2025 to the 2024 NDS makes it 10 D - 0.5 (second hand;
the erratum itself was not found). What was read answers for the edition that we work by: every
cell for a lag screw of 1/4 in (D_r 0.173 in), in two prints. With - 0.5 each would be 1.8 times as
high. The library github.com/xcfem/xc carries NDS 2018 table 12.3.1B over with + 0.5, too. Should
the erratum turn up, read it against these cells.
"""

PENETRATION = """## No further factor for short penetration

The p/10D of the tables' footnotes is for users of the tables. The American Wood Council's answer
to "Does the penetration depth factor, C_d, apply to design values for lag screws, wood screws, or
nails?" (FAQ, May 2006, seen): it was removed in the 2001 NDS, together with the requirement to
check all six yield modes. The six modes with the real penetration are what is checked here.
"""

NOT_FOUND = """## What was looked for and not found

- The values of AWC TR12 example 3.1 **with** its gap. The equations with a gap rest on their
  agreement with NDS at gap 0, on the code table above, and on a test that works out the free body
  of the bent screw over the gap, in every mode, for any joint.
- NDS table 12L in print, but for one cell, and the Wood Handbook's chapter 8 itself.
- A worked example of EN 1995-1-1 for a screw, with its numbers.
- A worked example of ASCE 7 chapter 13 in the standard or its commentary, or of the 2022 edition.
- The erratum of January 2025 to the 2024 NDS.
- The loads of IEC 60335-2-24 clause 20 on doors and shelves, and those of EN 14749.
- Example E2.4 of the AWC solved problems (a wood screw in double shear) is left out on purpose: as
  quoted it takes K_D from the nominal diameter, which reproduces no cell of the NDS tables.
"""

APPENDIX = """## Appendix: from memory

These were recalled, not read. They count for nothing above, and that ours are near them shows only
that memory and equations agree. Look in the document before you rest on one; who has it in hand
can turn a row into a check.
"""
