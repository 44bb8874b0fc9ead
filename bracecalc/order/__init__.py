"""Many niches to one order: added up, cut, priced.

May import: cutting, errors, jobfile, planning, records, tables, text.
"""
