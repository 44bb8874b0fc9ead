"""Lengths: reach of the legs, room to pass, tolerances, studs and stack.

Imports mechanics.guards alone.
"""
