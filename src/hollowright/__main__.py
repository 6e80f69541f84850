"""``python -m hollowright`` does what the command ``hollowright`` does."""

from hollowright.cli import main

if __name__ == "__main__":
    main()
