"""A job's schedule: its columns and cells, what is pasted, edited, saved and settled."""
