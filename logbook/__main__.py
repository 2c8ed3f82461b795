"""Lets `python -m logbook` work."""

from logbook.cli.main import run

if __name__ == "__main__":
    run()
