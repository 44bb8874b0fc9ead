"""Invented demo jobs of the Quillet Yard apartments."""
