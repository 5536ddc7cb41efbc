"""Speed, measured: every figure is a ratio or a median of one run. `python -m benchmarks` prints them all."""
