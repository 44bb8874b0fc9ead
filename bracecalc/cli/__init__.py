"""The command line: one file a command.

May import: certainty, check, cutting, drawing, errors, jobfile, order, page, planning, records,
render, tables, text, writing.
"""
