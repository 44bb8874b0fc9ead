"""Results to what people see."""
