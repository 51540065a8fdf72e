"""Play + Book + Variant -> SettledPlay: who does what from where to where, branch by branch, by the text alone."""

from generator.settling.settle import settle

__all__ = ["settle"]
