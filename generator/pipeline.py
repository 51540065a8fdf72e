"""Runs the stages in order and gathers what they say. The only module that knows the order."""
