"""The command line: one module a command, what they share in `options`, `answers` and `tables`."""
