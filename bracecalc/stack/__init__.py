"""The boards on the rear wall: made, fixed to the studs and checked.

May import: mechanics, records, strength, text.
"""
