"""Screws in wood by the NDS 2018, a file a subject of the standard.

Imports mechanics.guards alone.
"""
