"""Scenes to SVG text. The only module that knows svgwrite.

A page carries one court symbol per view (`court_symbol`); its diagrams refer to it and hold only what is theirs. The
tint of the lane is a glaze over everything, so that the light round a number is no lighter there than the floor is.
Looks stand in `site_theme/assets/css/court.css`; the classes are the words of `_LAYERS`.
"""

from __future__ import annotations

from svgwrite.base import BaseElement
from svgwrite.container import SVG, Group, Style, Symbol, Use
from svgwrite.path import Path as PathElement
from svgwrite.shapes import Circle, Rect
from svgwrite.text import Text

from generator.diagrams.court_scene import court_shapes
from generator.diagrams.notation import SHOT_RING, arrowhead, bar_ends, diamond, shaft, shot_stem, wave
from generator.diagrams.path import Path
from generator.diagrams.pen import Pen, number
from generator.diagrams.scene import (
    BALL_RADIUS,
    READER_RADIUS,
    Bar,
    DefenderMark,
    EndGhost,
    HandOffMark,
    Label,
    Line,
    OrderMark,
    PassLine,
    Scene,
    ShotMark,
    Tail,
    Token,
    View,
    Wave,
)

# What is drawn over what, from the floor up. Each layer is one path for all its items.
_LAYERS = ("tail", "tail-x", "pass", "cut", "dribble", "screen", "shot", "hand-off", "head", "pass-head")


def diagram_svg(scene: Scene, id: str) -> str:
    """The picture as an inline SVG element with title and description; `id` becomes its id when not empty."""
    svg = _frame(scene.view, _look(scene), id)
    svg["role"] = "img"
    svg.set_desc(title=scene.title, desc=scene.words or None)
    for element in (_use(court_id(scene.view)), *_strokes(scene), *_figures(scene), _use(lane_id(scene.view))):
        svg.add(element)
    return svg.tostring()


def _use(id: str) -> Use:
    use = Use("", **_QUICK)
    use.attribs = {"href": "#" + id}
    return use


def lane_id(view: View) -> str:
    """The id of the glaze that lies over a view's diagrams: the lane's tint."""
    return court_id(view).replace("floor", "lane", 1)


def court_id(view: View) -> str:
    """The id of the symbol a view's diagrams refer to."""
    shown = "full" if view.full else "half"
    return f"floor-{view.rule_set.value.replace(' ', '-')}-{shown}-{view.basket}"


def court_symbol(view: View) -> str:
    """A hidden SVG element that holds the floor of a view and its glaze; once a page for each different `court_id`."""
    sheet = SVG(size=(0, 0), **_QUICK)
    sheet.elements.clear()
    sheet["class"] = "floors"
    sheet["aria-hidden"] = "true"
    for id, group in ((court_id(view), _floor(view)), (lane_id(view), _glaze(view))):
        symbol = Symbol(id=id, overflow="visible", **_QUICK)
        symbol.add(group)
        sheet.add(symbol)
    return sheet.tostring()


def standalone_svg(scene: Scene, css: str) -> str:
    """The picture as a file of its own: floor, looks and picture in one. `css` holds plain values, no variables."""
    svg = _frame(scene.view, _look(scene), "")
    left, top, width, height = scene.view.box
    svg["xmlns"] = "http://www.w3.org/2000/svg"
    svg["role"] = "img"
    svg["width"], svg["height"] = number(width * 4), number(height * 4)
    svg.set_desc(title=scene.title, desc=scene.words or None)
    svg.add(Style(css, **_QUICK))
    svg.add(Rect((number(left), number(top)), (number(width), number(height)), class_="floor", **_QUICK))
    svg.add(_floor(scene.view))
    for element in (*_strokes(scene), *_figures(scene), _glaze(scene.view)):
        svg.add(element)
    return svg.tostring()


_QUICK = {"debug": False}
_LONG = 1.2  # height to width: pictures of more than a half court, which pages and papers give more room


def _look(scene: Scene) -> str:
    """A picture for one position lets the others' lines step back."""
    return "diagram for-one" if any(getattr(item, "own", False) for item in scene.items) else "diagram"


def _frame(view: View, css_class: str, id: str) -> SVG:
    svg = SVG(**_QUICK)
    svg.elements.clear()
    if id:
        svg["id"] = id
    _, _, width, height = view.box
    svg["class"] = css_class + (" long" if height > _LONG * width else "")
    svg["viewBox"] = " ".join(map(number, view.box))
    return svg


def _floor(view: View) -> Group:
    shapes = court_shapes(view)
    group = _turned(view)
    group.add(_path(_painted(shapes.lines), "line"))
    if shapes.broken:
        group.add(_path(_painted(shapes.broken), "line broken"))
    for box in shapes.marks:
        group.add(_box(box, "block"))
    return group


def _glaze(view: View) -> Group:
    group = _turned(view)
    for box in court_shapes(view).lane:
        group.add(_box(box, "lane"))
    return group


def _turned(view: View) -> Group:
    group = Group(class_="floor-lines", **_QUICK)
    if view.basket != "up":
        group["transform"] = "rotate(180)"
    return group


def _painted(paths: tuple[Path, ...]) -> str:
    """Path data of the floor, to the millimetre: it is written once a page and everything is judged against it."""
    return "".join(Pen(places=2).chain(p).data() for p in paths)


def _box(box: tuple[float, float, float, float], css_class: str) -> Rect:
    x, y, width, height = (number(v, 2) for v in box)
    return Rect((x, y), (width, height), class_=css_class, **_QUICK)


def _path(data: str, css_class: str) -> PathElement:
    return PathElement(d=data, class_=css_class, **_QUICK)


def _strokes(scene: Scene) -> list[PathElement]:
    """One path a layer; what belongs to the picture's own position lies in a second one, over all others."""
    pens: dict[tuple[bool, str], Pen] = {}

    def pen(layer: str, own: bool) -> Pen:
        return pens.setdefault((own, layer), Pen())

    for item in scene.items:
        _draw(item, pen)
    ordered = sorted(pens, key=lambda k: (k[0], _LAYERS.index(k[1])))
    return [_path(pens[k].data(), f"{k[1]} own" if k[0] else k[1]) for k in ordered]


def _draw(item, pen) -> None:
    match item:
        case Line(path, _, head, own):
            pen("cut", own).chain(shaft(path, head))
            _head(pen("head", own), path) if head else None
        case Wave(path, _, head, own):
            crests, end, stop = wave(path, head)
            pen("dribble", own).move(path.first).wave(crests, end).line(stop)
            _head(pen("head", own), path) if head else None
        case PassLine(path, _, _, own):
            pen("pass", own).chain(shaft(path, True))
            _head(pen("pass-head", own), path)
        case Bar(at, along, _, own):
            a, b = bar_ends(at, along)
            pen("screen", own).move(a).line(b)
        case HandOffMark(at, own):
            pen("hand-off", own).outline(diamond(at))
        case ShotMark(at, toward, own):
            stem, ring = shot_stem(at, toward)
            pen("shot", own).chain(Path((stem,))).ring(ring, SHOT_RING)
        case Tail(path, defence):
            pen("tail-x" if defence else "tail", False).chain(path)


def _head(pen: Pen, path: Path) -> None:
    pen.outline(arrowhead(path))


def _figures(scene: Scene) -> list[BaseElement]:
    """Discs and texts. Numbers of one kind share one text element, each with a place of its own."""
    out: list[BaseElement] = []
    for token in scene.of(Token):
        if token.with_ball:
            out.append(_circle(token, "ball", BALL_RADIUS))
        if token.reader:
            out.append(_circle(token, "reader", READER_RADIUS))
    out += _digits([(g.player, g.at) for g in scene.of(EndGhost) if not g.own], "end")
    out += _digits([(g.player, g.at) for g in scene.of(EndGhost) if g.own], "end own")
    tokens = scene.of(Token)
    out += _digits([(t.player, t.at) for t in tokens if not t.with_ball and not t.own], "player")
    out += _digits([(t.player, t.at) for t in tokens if not t.with_ball and t.own], "player own")
    out += _digits([(t.player, t.at) for t in tokens if t.with_ball], "holder")
    out += _digits([(m.letter, m.at) for m in scene.of(OrderMark)], "order")
    out += [_word(f"X{d.body}", d.at, "defender watched" if d.watched else "defender") for d in scene.of(DefenderMark)]
    out += [_word(label.text, label.at, "word") for label in scene.of(Label)]
    return out


def _circle(token: Token, css_class: str, radius: float) -> Circle:
    return Circle((number(token.at[0]), number(token.at[1])), number(radius), class_=css_class, **_QUICK)


def _digits(marks: list, css_class: str) -> list[Text]:
    if not marks:
        return []
    text = Text("".join(str(m) for m, _ in marks), class_=css_class, **_QUICK)
    text["x"] = " ".join(number(at[0]) for _, at in marks)
    text["y"] = " ".join(number(at[1]) for _, at in marks)
    return [text]


def _word(word: str, at, css_class: str) -> Text:
    text = Text(word, class_=css_class, **_QUICK)
    text["x"], text["y"] = number(at[0]), number(at[1])
    return text
