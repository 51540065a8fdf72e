"""Where a read stands: its reader, what he looks at, its read point, its place in the written order.

In: a Read, the run of its phase; out: Site, from which a Fork of a branch is made (language.md 7.4, 7.5).
"""

from __future__ import annotations

from dataclasses import dataclass, field

from generator.model.play import Answer, Read, WatchKind
from generator.model.sentence import AreaDefender, DefenderBody, DefenderOf, Player, Role
from generator.model.settled import Fork, HandOff, Instant, LooseBall, Mark, Move, Pass, Screen, Shot
from generator.settling.events import find_event
from generator.settling.moments import best_move, goes_on_from
from generator.settling.moves import edge_of_drive
from generator.settling.problems import Mistake, mistake
from generator.settling.runs import Carry, Run
from generator.settling.state import Item, Setting, State
from generator.settling.who import find_defender, find_player, guard_of

EARLY = -0.4  # seconds: ice and top-lock are read sooner (language.md 7.4)
_EARLY_COVERAGES = frozenset({"ice", "top-lock"})
_CATCH_COVERAGES = frozenset({"close out", "hard close-out", "late"})  # shown to one who has caught, never on a screen
_ALL_TAKEN = (WatchKind.OWN_CHOICE, WatchKind.BENCH)


@dataclass(slots=True)
class Site:
    """A read in one run. `cut`: its place in the written order (lines from `cut` on lie below it)."""

    read: Read
    reader: int
    run: Run
    point: Mark
    cut: int
    depth: int
    phase: int
    screen: str | None = None
    user: str | None = None
    watched: tuple[int, ...] = ()
    own: dict[str, tuple[Mark, int]] = field(default_factory=dict)  # answer id -> its own point and place
    item: Item | None = None
    skips: str = ""  # answer id that leaves out the whole phase (optional)
    areas: frozenset[int] = frozenset()  # X bodies that hold an area of a zone

    @property
    def default(self) -> Answer:
        """The answer of the main line: `otherwise`, else the first."""
        answers = self.read.answers
        if self.read.watch.kind in _ALL_TAKEN:
            return answers[0]
        return next((a for a in answers if a.is_otherwise), answers[0])

    def place_of(self, answer: Answer) -> tuple[Mark, int]:
        """Read point and place of one answer."""
        mark, cut = self.own.get(answer.id, (self.point, self.cut))
        if any(s.coverage in _EARLY_COVERAGES for group in answer.sights for s in group) and self.user == mark.action:
            mark = Mark(mark.action, mark.instant, EARLY)
        return mark, cut

    def fork(self, answer: Answer) -> Fork:
        """The fork of a branch that takes `answer`."""
        mark, cut = self.place_of(answer)
        above = [k for k, n in self.run.made.items() if n < cut]
        return Fork(self.read, self.phase, self.reader, mark, above[-1] if above else None, self.screen, self.user,
                    self.watched, answer.id, self.depth, self.areas)


def locate(read: Read, run: Run, setting: Setting, depth: int = 0, last: int | None = None, opens: bool = False) -> Site:
    """Finds a read in the run of its phase. `last`: the number of the line it must stand below (a look); `opens`: it
    is a rule's, and opens with the phase unless it says when."""
    state = run.final
    item = Item(_NO_LINE, "")
    where = read.who_source or read.source
    reader = find_player(read.who, run.before[min(run.first, len(run.before) - 1)], setting, item, where)
    site = Site(read, reader, run, Mark(None, phase=state.phase), 0, depth, state.phase)
    site.item = Item(_NO_LINE, "", bound=(("he", reader),))
    site.areas = frozenset(setting.areas.values())
    site.watched = _watched(read, site, run, setting)
    if read.watch.kind is WatchKind.DEFENDERS:
        site.screen, site.user = _watched_screen(read, site, run, setting)
    _must_matter(read, site, run, setting)
    if opens and read.when is None:
        site.point = Mark(None, phase=state.phase)
        return site
    site.point, site.cut = _point(read, site, run, setting)
    if last is not None:
        site.cut = max(site.cut, last + 1)
    if read.watch.kind is WatchKind.PLAYERS:
        _own_points(read, site, run, last)
    return site


class _NoLine:
    text, who, parts, timings = "", (), (), ()


_NO_LINE = _NoLine()


# -- what he looks at ------------------------------------------------------------------------------------


def _watched(read: Read, site: Site, run: Run, setting: Setting) -> tuple[int, ...]:
    state, where = run.before[run.first], read.watch.source
    if read.watch.kind is WatchKind.PLAYERS:
        return tuple(find_player(one, run.final, setting, site.item, where) for one in read.watch.ones)
    if read.watch.kind is not WatchKind.DEFENDERS:
        return ()
    found = []
    for one in read.watch.ones:
        his = isinstance(one, DefenderOf) and one.of is None or isinstance(one, AreaDefender) and one.area == "nearest"
        man = site.reader if his else None
        about = one != DefenderBody(site.reader)  # his own number: he means whoever guards him
        found.append(find_defender(one, state, setting, site.item, where, man, about_body=about))
    return tuple(dict.fromkeys(found))


def _watched_screen(read: Read, site: Site, run: Run, setting: Setting) -> tuple[str | None, str | None]:
    """The screen the read is about and the move that uses it."""
    state = run.final
    screens = [a for a in state.of_phase() if isinstance(a, Screen)]
    if read.watch.on_screen_of is not None:
        screener = find_player(read.watch.on_screen_of, state, setting, site.item, read.watch.source)
        screens = [a for a in screens if a.player == screener] or [
            a for a in state.actions if isinstance(a, Screen) and a.player == screener and state.screens.get(screener) == a.key]
        if not screens:
            raise mistake(read.watch.source, "read-without-screen", f"{screener} sets no screen in this phase",
                          f"add `{screener} screens for ...`, or watch the defender alone")
    elif _on_the_catch(read):
        return None, None
    else:
        screens = [a for a in screens if _seen_on(a, site, state, setting)] or [a for a in screens if _of_two(a, site, state, setting)]
    for screen in screens:
        user = _user(screen, site, state)
        if user is not None:
            return screen.key, user
    if read.watch.on_screen_of is not None:
        return screens[0].key, None
    return None, None


def _on_the_catch(read: Read) -> bool:
    """Every key is something that a defender shows to one who has just caught."""
    shown = {s.coverage for answer in read.answers for group in answer.sights for s in group}
    return bool(shown) and shown <= _CATCH_COVERAGES


def _user(screen: Screen, site: Site, state: State) -> str | None:
    users = [state.get(k) for k in screen.users if k in state.index]
    his = [u for u in users if u.player == site.reader] or users
    return his[0].key if his else None


def _seen_on(screen: Screen, site: Site, state: State, setting: Setting) -> bool:
    """Without `on 5's screen`: the reader uses it and watches his own or the screener's defender."""
    users = [state.get(k) for k in screen.users if k in state.index]
    if not any(u.player == site.reader for u in users):
        return False
    pair = {guard_of(site.reader, state, setting), guard_of(screen.player, state, setting)}
    return bool(site.watched) and set(site.watched) <= pair


def _of_two(screen: Screen, site: Site, state: State, setting: Setting) -> bool:
    """Both men of the screener and the freed player are watched, by one who does not use it himself: the passer."""
    pair = {guard_of(screen.player, state, setting), *(guard_of(p, state, setting) for p in screen.freed)}
    return len(set(site.watched)) > 1 and set(site.watched) <= pair


def _must_matter(read: Read, site: Site, run: Run, setting: Setting) -> None:
    """A reader who neither does nor gets anything here, nor in his answers, reads for nobody."""
    state, reader = run.final, site.reader
    if read.when is not None or state.holder == reader or run.before[run.first].holder == reader:
        return
    if any(reader in (a.player, getattr(a, "receiver", None)) for a in state.of_phase()):
        return
    if any(_names(answer, reader) for answer in read.answers):
        return
    where = read.who_source or read.source
    raise mistake(where, "idle-reader", f"{reader} reads, but does nothing in this phase or in his answers",
                  f"let the player read who acts on it, or give {reader} a line")


def _names(answer: Answer, player: int) -> bool:
    named = {o.number for line in answer.lines for o in (*line.who, *(x for p in line.parts for x in p.objects)) if isinstance(o, Player)}
    loose = any(isinstance(o, Role) for line in answer.lines for o in line.who)
    return player in named or loose or any(r.who == Player(player) or any(_names(a, player) for a in r.answers) for r in answer.reads)


# -- the read point --------------------------------------------------------------------------------------


def _point(read: Read, site: Site, run: Run, setting: Setting) -> tuple[Mark, int]:
    state = run.final
    if read.when is not None:
        return _by_event(read, site, run, setting)
    if site.user is not None:
        return Mark(site.user, Instant.USE), run.made.get(site.user, -1) + 1
    if site.screen is not None:
        return Mark(site.screen, Instant.SET), run.made.get(site.screen, -1) + 1
    if read.watch.kind is WatchKind.BALL:
        shot = next((a for a in reversed(state.of_phase()) if isinstance(a, Shot)), None)
        if shot is not None:
            return Mark(shot.key, Instant.END), run.made[shot.key] + 1
        tip = next((a for a in reversed(state.of_phase()) if isinstance(a, LooseBall) and a.verb == "tip"), None)
        if tip is not None:
            return Mark(tip.key, Instant.CATCH), run.made[tip.key] + 1
    return _by_reader(site, run, setting)


def _by_event(read: Read, site: Site, run: Run, setting: Setting) -> tuple[Mark, int]:
    state, where = run.final, read.source
    player = None
    if read.when.one is not None:
        player = find_player(read.when.one, state, setting, site.item, where)
    if read.when.kind == "clock":
        if setting.play.clock is None:
            raise mistake(where, "no-clock", "this read needs a clock", "write `clock: 12 s` in the play")
        return _as_moves_end(run, state.of_phase()), len(run.items)
    mark = find_event(read.when, state, setting, site.item, where, len(state.actions), player, _carried(run))
    number = run.made.get(mark.action, -1)
    return mark, number + (0 if read.when_relation == "before" and number >= 0 else 1)


def _carried(run: Run) -> frozenset[str]:
    return frozenset(i.action.key for i in run.items if isinstance(i, Carry))


def _in_the_lane(drive: Move, setting: Setting) -> Mark:
    """Where the help meets a driver: as he enters the lane."""
    if drive.verb != "drive" or drive.place.spot != "rim":
        return Mark(drive.key, Instant.END)
    return Mark(drive.key, Instant.END, at=edge_of_drive(drive, setting.court))


def _by_reader(site: Site, run: Run, setting: Setting) -> tuple[Mark, int]:
    """As he catches; else just before he first gives up the ball or uses a screen (with the ball: as that drive ends, since
    the men of its own screen are not what he watches); else as the phase's moves end."""
    reader, stopped = site.reader, _carried(run)
    mine = [a for a in run.final.of_phase() if run.made.get(a.key, -1) >= run.first and a.key not in stopped]
    for action in mine:
        if isinstance(action, (Pass, HandOff)) and action.receiver == reader and not getattr(action, "fake", False):
            return Mark(action.key, Instant.CATCH), run.made[action.key] + 1
    for action in mine:
        gives = isinstance(action, (Pass, HandOff)) and action.player == reader
        uses = isinstance(action, Move) and action.player == reader and action.uses
        if uses and action.with_ball and site.read.watch.kind is WatchKind.DEFENDERS:
            return _in_the_lane(action, setting), run.made[action.key] + 1  # he watches the help: off the screen, not before it
        if gives or uses:
            return Mark(action.key, Instant.START), run.made[action.key]
    if mine and mine[-1].player == reader and isinstance(mine[-1], Move) and mine[-1].with_ball and site.read.watch.kind is WatchKind.DEFENDERS:
        return _in_the_lane(mine[-1], setting), len(run.items)
    return _as_moves_end(run, mine), len(run.items)


def _as_moves_end(run: Run, mine: list) -> Mark:
    """The end of the move written last; without any move the opening of the phase."""
    walks = [a for a in mine if isinstance(a, (Move, Screen))] or mine
    return Mark(walks[-1].key, Instant.END) if walks else Mark(None, phase=run.final.phase)


def _own_points(read: Read, site: Site, run: Run, last: int | None) -> None:
    """Per answer the arrival of the player it finds open, once the reader has the ball; `otherwise`: the last of all."""
    state = run.final
    floor = site.cut if site.point.instant is Instant.CATCH else _holds_from(site, run)
    floor = max(floor, run.first, 0 if last is None else last + 1)
    lowest, mark_lowest = floor, site.point
    for answer in read.answers:
        target = next((s.one for group in answer.sights for s in group if isinstance(s.one, Player)), None) or _passed_to(answer)
        if target is None:
            continue
        move = best_move(run, target.number)
        if move is None:
            site.own[answer.id] = (site.point if site.point.action else Mark(None, Instant.START, phase=state.phase), floor)
            continue
        mark = Mark(move.key, Instant.ARRIVE)
        leaves_again = bool(goes_on_from(run, move.key))
        cut = max(max(_holds_from(site, run), run.first) if leaves_again else floor, run.made[move.key] + 1)
        site.own[answer.id] = (mark, cut)
        if cut >= lowest or leaves_again and lowest == floor:
            lowest, mark_lowest = max(lowest, cut), mark
    if read.when is None:
        site.cut, site.point = lowest, mark_lowest


def _passed_to(answer: Answer) -> Player | None:
    """Whom `otherwise` passes to at once."""
    part = answer.lines[0].parts[0] if answer.is_otherwise and answer.lines else None
    one = part.objects[0] if part is not None and part.verb in ("pass", "inbound") and part.objects else None
    return one if isinstance(one, Player) else None


def _holds_from(site: Site, run: Run) -> int:
    """From which place on the reader has the ball."""
    return next((n for n, state in enumerate(run.before) if n >= run.first and state.holder == site.reader), run.first)


def try_locate(read: Read, run: Run, setting: Setting, depth: int = 0, last: int | None = None, opens: bool = False) -> Site | None:
    """As `locate`; a mistake is noted and gives None."""
    try:
        return locate(read, run, setting, depth, last, opens)
    except Mistake as found:
        setting.problems.add(found.diagnostic)
        return None


