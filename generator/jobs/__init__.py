"""Jobs: timelines -> plain sentences for every position. `derive_jobs` is the door."""

from generator.jobs.derive import derive_jobs
from generator.jobs.job import Job

__all__ = ["Job", "derive_jobs"]
