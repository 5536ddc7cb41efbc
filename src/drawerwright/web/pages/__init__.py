"""The pages, one module a page: each works without script."""
