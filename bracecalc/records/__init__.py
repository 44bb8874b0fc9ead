"""Frozen records: what a job says, what the tables hold, what a plan says.

A key of the job file is declared beside the field that it fills.

May import: mechanics.
"""
