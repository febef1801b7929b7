"""Lets `python -m cutpaths` run the command line."""

from cutpaths.cli import main

if __name__ == "__main__":
    main()
