"""A slide family on pages: its data sheet, its form, its checks and what it was before."""
