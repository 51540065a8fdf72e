"""A branch that only ever holds one commit: with a history, a code that was taken away would still open the past."""

from __future__ import annotations

import os
import subprocess
from collections.abc import Mapping
from pathlib import Path

from generator.publish.targets import BOOT, Progress


class GitFailed(Exception):
    """git refused; the message is what it said."""


class GitTarget:
    """A branch of the repository that `where` lies in. The branch moves last, in one step."""

    def __init__(self, where: Path, branch: str) -> None:
        self.where = where
        self.ref = f"refs/heads/{branch}"
        if branch.startswith("-") or self._git("check-ref-format", "--normalize", self.ref, check=False) == b"":
            raise GitFailed(f"{branch!r} is no name for a branch: letters, digits and dashes inside")
        if self._git("symbolic-ref", "-q", "HEAD", check=False).strip() == self.ref.encode():
            raise GitFailed(f"{branch} is the branch you are working on: name another one for the site")
        self.commit_id = self._git("rev-parse", "-q", "--verify", self.ref, check=False).decode().strip()

    def names(self) -> frozenset[str]:
        """Every file of the branch."""
        if not self.commit_id:
            return frozenset()
        listed = self._git("ls-tree", "-r", "-z", "--name-only", "--full-tree", self.commit_id)
        return frozenset(name for name in listed.decode().split("\0") if name)

    def read(self, path: str) -> bytes | None:
        """A file's bytes."""
        if not self.commit_id or path not in self.names():
            return None
        return self._git("cat-file", "blob", f"{self.commit_id}:{path}")

    def commit(self, files: Mapping[str, bytes], boot: bytes | None, gone: frozenset[str], progress: Progress) -> None:
        """One commit without a parent, under a neutral name and date; then the branch is moved to it."""
        tree = self._entries()
        new = {**files, **({BOOT: boot} if boot is not None else {})}
        for done, (path, content) in enumerate(new.items(), 1):
            tree[path] = self._git("hash-object", "-w", "--stdin", given=content).decode().strip()
            progress("writing", done, len(new))
        kept = {path: blob for path, blob in tree.items() if path not in gone}
        if kept == self._entries():
            return
        root = self._written(kept)
        neutral = {"GIT_AUTHOR_NAME": "site", "GIT_AUTHOR_EMAIL": "site@localhost", "GIT_AUTHOR_DATE": "946684800 +0000"}
        neutral |= {key.replace("AUTHOR", "COMMITTER"): value for key, value in neutral.items()}
        made = self._git("commit-tree", root, "-m", "site", env=neutral).decode().strip()
        self._git("-c", "core.logAllRefUpdates=false", "update-ref", self.ref, made, self.commit_id or "0" * len(made))
        self._git("reflog", "expire", "--expire=now", "--expire-unreachable=now", self.ref, check=False)
        self.commit_id = made

    def _entries(self) -> dict[str, str]:
        if not self.commit_id:
            return {}
        listed = self._git("ls-tree", "-r", "-z", "--full-tree", self.commit_id).decode()
        rows = (line.split("\t", 1) for line in listed.split("\0") if line)
        return {path: meta.split()[2] for meta, path in rows}

    def _written(self, tree: Mapping[str, str], below: str = "") -> str:
        """The id of the tree object of one folder, its folders written first."""
        rows, folders = [], set()
        for path, blob in tree.items():
            if not path.startswith(below):
                continue
            head, slash, _ = path[len(below) :].partition("/")
            if slash:
                folders.add(head)
            else:
                rows.append(f"100644 blob {blob}\t{head}")
        rows += [f"040000 tree {self._written(tree, f'{below}{name}/')}\t{name}" for name in sorted(folders)]
        return self._git("mktree", "-z", given="".join(f"{row}\0" for row in rows).encode()).decode().strip()

    def _git(self, *words: str, given: bytes | None = None, check: bool = True, env: Mapping[str, str] | None = None) -> bytes:
        try:
            done = subprocess.run(
                ["git", *words], cwd=self.where, input=given, capture_output=True, env={**os.environ, **(env or {})}, check=False
            )
        except FileNotFoundError:
            raise GitFailed("git is not installed here: publish with --to or --zip") from None
        if check and done.returncode:
            raise GitFailed(done.stderr.decode(errors="replace").strip() or f"git {words[0]} failed")
        return done.stdout
