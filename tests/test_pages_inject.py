"""Pictures into pages: every mark found however the page was tidied, and a lost picture stops the build."""

import pytest

from generator.pages.inject import LostDiagram, inject_diagrams

PICTURES = {"d1": "PICTURE-ONE", "d2": "PICTURE-TWO"}


@pytest.mark.parametrize(
    "html",
    [
        '<figure><i data-diagram="d1"></i></figure><i data-diagram="d2"></i>',
        "<i data-diagram=d1></i><i data-diagram=d2></i>",
        "<i  data-diagram='d1' ></i>\n<i\ndata-diagram='d2'> </i>",
    ],
)
def test_every_way_to_write_a_mark_is_found(html):
    done = inject_diagrams(html, PICTURES, "p")
    assert "PICTURE-ONE" in done and "PICTURE-TWO" in done and "data-diagram" not in done


@pytest.mark.parametrize(
    "html",
    [
        '<i data-diagram="d1"></i>',  # one picture has no mark
        '<i data-diagram="d1"></i><i data-diagram="d2"></i><i data-diagram="d3"></i>',  # one mark has no picture
        '<i data-diagram="d1"></i><i data-diagram="d1"></i><i data-diagram="d2"></i>',  # one picture twice
        '<b data-diagram="d1"></b><i data-diagram="d2"></i>',
    ],
)
def test_a_lost_picture_stops_the_build(html):
    with pytest.raises(LostDiagram, match="2 pictures"):
        inject_diagrams(html, PICTURES, "p")


def test_a_picture_may_hold_what_looks_like_a_group_reference():
    assert inject_diagrams('<i data-diagram="d1"></i>', {"d1": r"\1 \g<0>"}, "p") == r"\1 \g<0>"
