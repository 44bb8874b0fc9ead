"""Pure formulas: floats in inch and lbf in, floats out; standard library only."""
