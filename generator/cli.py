"""The command line: gathers the verbs of `generator/commands`. Exit status 0 clean or warnings, 1 errors, 2 usage."""

from __future__ import annotations

import errno
import importlib
import pkgutil

import click

from generator import commands


class _Verbs(click.Group):
    """Loads a verb's module only when it is asked for, so `check` never imports a browser or a cipher."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return sorted(m.name for m in pkgutil.iter_modules(commands.__path__) if not m.name.startswith("_"))

    def get_command(self, ctx: click.Context, name: str) -> click.Command | None:
        if name not in self.list_commands(ctx):
            return None
        return importlib.import_module(f"generator.commands.{name}").command

    def invoke(self, ctx: click.Context) -> object:
        """A disk, a folder or a permission that refuses is no mistake of ours: one sentence, no traceback."""
        try:
            return super().invoke(ctx)
        except OSError as problem:
            if problem.errno == errno.EPIPE:  # whoever read our output has enough of it
                raise
            raise _Refused(told(problem)) from None


class _Refused(click.ClickException):
    """What the computer did not allow."""

    exit_code = 2


def told(problem: OSError) -> str:
    """What the computer refused, and for which file."""
    where = f" ({problem.filename})" if problem.filename else ""
    return f"The computer refused this: {problem.strerror or problem}{where}."


@click.group(cls=_Verbs, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="second-side")
def main() -> None:
    """Second Side: plays as text, computed, published for the team's phones."""
