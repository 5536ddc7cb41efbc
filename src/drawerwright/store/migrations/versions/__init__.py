"""One module a step, named by what it brings."""
