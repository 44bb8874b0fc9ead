"""What people write and read: units, lengths, names of screws, findings.

May import: errors, records.
"""
