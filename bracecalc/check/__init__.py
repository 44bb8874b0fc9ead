"""As found on site against the plan, and what puts it right.

May import: certainty, mechanics, planning, records, stack, tables, text.
"""
