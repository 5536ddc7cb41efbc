"""Steps from one schema of the store to the next; the store takes them by itself when it is opened."""
