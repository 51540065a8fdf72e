"""Reach: which forks and which jobs the questions touch, and the gaps as diagnostics."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from generator.diagnostics import Diagnostic, Location, info
from generator.jobs.derive import answers_shown, phases_shown, written_phase
from generator.quiz.question import Kind, Question
from generator.timeline.timed import PlayTimes

RULE = "question-gap"


@dataclass(frozen=True, slots=True)
class Reach:
    """Counts of what is asked and what there is; `gaps` name what no question touches."""

    forks: int
    forks_asked: int
    answers: int
    answers_asked: int
    jobs: int
    jobs_asked: int
    gaps: tuple[Diagnostic, ...]

    def summary(self) -> dict[str, int]:
        """The counts, with the number of gaps, as values for JSON."""
        return {
            "forks": self.forks, "forks_asked": self.forks_asked, "answers": self.answers,
            "answers_asked": self.answers_asked, "jobs": self.jobs, "jobs_asked": self.jobs_asked, "gaps": len(self.gaps),
        }


def reach(questions: Sequence[Question], all_times: Sequence[PlayTimes]) -> Reach:
    """Compares the questions with every fork, answer and position's job of the plays as written."""
    plain = [t for t in all_times if not t.settled.variant.mirrored and not t.settled.variant.run_for and not t.play.is_lead_in]
    asked_reads = {(q.play, q.read) for q in questions if q.read}
    asked_nodes = {(q.play, q.node) for q in questions if q.read}
    asked_jobs = {(q.play, q.node, q.position) for q in questions if q.kind in (Kind.JOB, Kind.PLACE)}
    read_by = {(q.play, q.read, q.position) for q in questions if q.read and q.position}
    forks, answers, jobs = {}, {}, {}
    for times in plain:
        for branch, index in answers_shown(times):
            fork = branch.forks[index]
            about = f"{times.play.name}: read of {fork.reader}"
            forks.setdefault((times.play.id, fork.read.id), (fork.read.source, about))
            phase_id = branch.phases[fork.phase].id  # a job that a read decides is asked by its questions
            asked_jobs |= {(play, phase_id, n) for play, read, n in read_by if (play, read) == (times.play.id, fork.read.id)}
            answers.setdefault((times.play.id, fork.taken), (fork.answer.source, f"{about}, {fork.answer.key}"))
        for branch, index in phases_shown(times):
            phase = branch.phases[index]
            if phase.round or phase.lead_in:
                continue
            written = written_phase(times.play, phase.id)
            source = written.source if written else times.play.source
            for player in phase.plan:
                jobs[times.play.id, phase.id, player] = (source, f"{times.play.name}, {phase.name}: job of {player}")
    missing = [w for k, w in forks.items() if k not in asked_reads] + [w for k, w in jobs.items() if k not in asked_jobs]
    return Reach(
        len(forks), sum(k in asked_reads for k in forks), len(answers), sum(k in asked_nodes for k in answers),
        len(jobs), sum(k in asked_jobs for k in jobs), tuple(_gap(*m) for m in missing),
    )


def _gap(source: Location, about: str) -> Diagnostic:
    return info(source, RULE, f"no question asks about this: {about}", "the walk-through still shows it")
