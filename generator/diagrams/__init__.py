"""Pictures of plays: timelines in, scenes (display lists) and their SVG out. Draws; decides nothing about basketball.

`play_view` gives a play its view of the floor; `phase_diagrams`, `answer_diagram`, `read_picture` make scenes of it;
`diagram_svg` and, once a page, `court_symbol` write them. `motion_file` is a play for the motion in the page.
"""

from generator.diagrams.answer_picture import answer_diagram
from generator.diagrams.motion_file import motion_file
from generator.diagrams.opening_picture import opening_picture
from generator.diagrams.phase_picture import phase_diagram, phase_diagrams, play_view
from generator.diagrams.read_picture import moment_picture, read_picture
from generator.diagrams.svg_writer import court_id, court_symbol, diagram_svg, standalone_svg

__all__ = [
    "answer_diagram",
    "court_id",
    "court_symbol",
    "diagram_svg",
    "moment_picture",
    "motion_file",
    "opening_picture",
    "phase_diagram",
    "phase_diagrams",
    "play_view",
    "read_picture",
    "standalone_svg",
]
