"""One record of one engine: what is in it at any reading, what that makes it, and how sure each figure is."""

__version__ = "0.1.0"
