"""`python -m generator` is `secondside`."""

from generator.cli import main

main()
