"""Forces: tipping, sharing among studs, the board as a beam, earthquake.

Imports mechanics.guards alone.
"""
