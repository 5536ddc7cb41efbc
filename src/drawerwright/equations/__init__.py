"""The arithmetic of fit, written once: equations that take numbers or arrays and order themselves."""
