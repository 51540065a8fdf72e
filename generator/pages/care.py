"""The cautions every handbook carries: minors, privacy, contact, rules."""

from __future__ import annotations

from generator.pages.views import Section, StaffView


def care_view() -> StaffView:
    """The page on care; deferring to school policy, local law, licensed medical staff and the officials."""
    return StaffView(
        "Care",
        "People before plays. Read this once with whoever is responsible for the team.",
        (
            Section(
                "people",
                "Names and minors",
                items=(
                    "Players are often minors. The site shows the first name or the number only; the full name needs the "
                    "switch `full names: yes` in team.yml, and whoever sets it should hold the families' consent.",
                    "School policy and local law decide what may be published about a minor. They come before this page.",
                    "Progress and quiz answers stay on the player's own phone until he sends a result himself.",
                ),
            ),
            Section(
                "host",
                "What a static host can and cannot hide",
                items=(
                    "The published book is locked: without a code nobody reads a play, a name, a title or the search index.",
                    "The host still sees who comes, when and from which address, how many files there are, roughly how large "
                    "they are, and how many change with each publish.",
                    "Whoever can change the files on the host could change the program that asks for the code. Guard that "
                    "account as you guard the book.",
                    "Somebody who may read can copy. Taking a seat away stops the next version, not his memory or his screenshots.",
                    "A lost card or phone: replace the seat the same day.",
                    "The open folder of `secondside build` is not locked. It is for this computer only.",
                ),
            ),
            Section(
                "contact",
                "Contact",
                items=(
                    "Screens and cuts are contact actions. Walk through first without defenders, then at half speed, then live.",
                    "A legal screen stands still inside the shoulders' width and leaves the room the rules ask for; see the page "
                    "on checks.",
                    "Look at the floor, the shoes and the fitness of the day before a play is run at speed.",
                    "A knock on the head ends the session for that player. Follow the local concussion protocol; only licensed "
                    "medical staff let him return.",
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
