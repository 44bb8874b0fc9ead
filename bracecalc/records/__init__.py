"""Frozen records: what a job says, what the tables hold, what a plan says.

May import: mechanics.
"""
