"""What people read: text, markdown, rows and workbooks.

May import: check, cutting, order, planning, records, strength, text.
"""
