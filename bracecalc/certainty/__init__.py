"""How sure a plan is: readings moved one by one, together and at random.

May import: planning, records, tables, text.
"""
