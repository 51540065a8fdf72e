"""A closed terminal ends a command without a chance to take open pages away; here it gets one."""

from __future__ import annotations

import signal
import threading
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def ended_tidily() -> Iterator[None]:
    """While it lasts, being asked to end leaves by the ordinary way out."""

    def end(number: int, _: object) -> None:
        raise SystemExit(128 + number)

    names = [getattr(signal, name) for name in ("SIGTERM", "SIGHUP") if hasattr(signal, name)]
    if threading.current_thread() is not threading.main_thread():
        names = []
    before = {name: signal.signal(name, end) for name in names}
    try:
        yield
    finally:
        for name, how in before.items():
            signal.signal(name, how)
