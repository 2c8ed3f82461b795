"""Stands here so that every test finds lives.py, the short way to tell an engine's life."""
