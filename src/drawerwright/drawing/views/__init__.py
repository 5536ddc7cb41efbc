"""Views of a fitted drawer: one module a view, from the fitted drawer to a scene at true size."""
