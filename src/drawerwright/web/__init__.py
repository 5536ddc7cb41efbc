"""The browser's face: pages that answer, and the same answers as JSON over HTTP."""
