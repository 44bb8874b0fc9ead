"""The pocket page: the same engine in a phone's browser, with no signal.

May import: check, drawing, errors, jobfile, planning, records, render, tables, text.
"""
