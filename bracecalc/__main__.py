"""Runs the command line with ``python -m bracecalc``."""

from bracecalc.cli.main import main

if __name__ == "__main__":
    main()
