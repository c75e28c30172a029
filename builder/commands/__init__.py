"""One verb a file: `add_options(parser)` says what it takes, `run(options)` does it and gives the exit code."""
