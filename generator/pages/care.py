"""The cautions every handbook carries: contact and rules. (Minors and privacy have a page of their own, `handbook/privacy.md`.)"""

from __future__ import annotations

from generator.pages.views import Section, StaffView


def care_view() -> StaffView:
    """The page on care; deferring to licensed medical staff and the officials."""
    return StaffView(
        "Care",
        "People before plays. Read this, and the page on privacy, once with whoever is responsible for the team.",
        (
            Section(
                "contact",
                "Contact",
                items=(
                    "Screens and cuts are contact actions. Walk through first without defenders, then at half speed, then live.",
                    ("A legal screen stands still inside the shoulders' width and leaves the room the rules ask for; see the page "
                    "on checks."),
                    "Look at the floor, the shoes and the fitness of the day before a play is run at speed.",
                    ("A knock on the head ends the session for that player. Follow the local concussion protocol; only licensed "
                    "medical staff let him return."),
                ),
            ),
            Section(
                "rules",
                "Rules",
                items=(
                    "Rule numbers on these pages name their rulebook and edition; leagues and age groups differ.",
                    "The official in charge and the local code decide.",
                    "Seconds are computed from a model of running people, not measured on yours. Trust a stopwatch more.",
                ),
            ),
        ),
    )
