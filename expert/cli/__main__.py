"""`python -m expert.cli`."""

from expert.cli import main

if __name__ == "__main__":
    main(prog_name="expert")
