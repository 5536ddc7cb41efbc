"""Slides of a job that were taken with other families than those of now: which, and what to do."""
