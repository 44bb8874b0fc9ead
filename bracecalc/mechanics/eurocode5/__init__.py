"""Screws and timber by EN 1995-1-1, in newtons and millimetres.

Imports mechanics.guards alone.
"""
