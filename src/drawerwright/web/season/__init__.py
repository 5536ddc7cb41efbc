"""The seasons of a job's solid fronts, on pages."""
