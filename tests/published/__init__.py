"""Values printed outside the project, and what our formulas give for them."""
