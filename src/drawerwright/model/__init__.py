"""What the trade speaks of: jobs, drawers, slide families, fitted drawers. Frozen, no I/O."""
