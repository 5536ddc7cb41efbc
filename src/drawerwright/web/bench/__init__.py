"""The bench: drawers in their order, the steps of each, gaps read at its front."""
