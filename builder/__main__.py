"""python -m passageproof, and python -m builder in a checkout: both run the package under its installed name.

Under two names it would be two programs, and MkDocs would hand the values of one to the plugin of the other.
"""

import sys

if __name__ == "__main__":
    try:
        from passageproof.commands.verbs import run
    except ModuleNotFoundError as missing:
        if missing.name != "passageproof":
            raise
        sys.exit("this checkout is not set up: type make site, then use .venv/bin/python")
    run(f"python -m {__package__}")
