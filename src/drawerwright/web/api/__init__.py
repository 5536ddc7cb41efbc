"""The HTTP API, one module a subject: every page has its twin here."""
