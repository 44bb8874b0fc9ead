"""One job to one plan: heights, restraint, what it holds, told in working order.

May import: jobfile, mechanics, records, stack, strength, surroundings, tables, text.
"""
