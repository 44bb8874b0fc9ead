"""Reference tables and demo jobs, shipped with the program."""
