"""The rest of the job: opening, way in, floor, door, services.

May import: errors, mechanics, records, text.
"""
