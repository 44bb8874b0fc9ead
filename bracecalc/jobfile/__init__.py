"""Job files, tables of niches and site readings to checked records, and back to text.

May import: errors, records, tables, text, writing.
"""
