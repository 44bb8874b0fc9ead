"""Invented demo jobs of the Harrow Court apartments."""
