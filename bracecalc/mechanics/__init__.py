"""Pure formulas: floats in inch and lbf in, floats out; the standard library alone.

Imports nothing of bracecalc.
"""
