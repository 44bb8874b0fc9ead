"""The reference tables: rows checked one by one, and the records made of them.

May import: errors, records, text.
"""
