"""The wall sheet: drawn to scale, laid out on pages, and written as SVG, PDF or HTML.

May import: errors, records, render, text.
"""
