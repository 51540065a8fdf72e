"""Second Side: a coach's plays as text, computed and published as a private site.

text -> located tree -> model -> settled branches -> timeline -> {checks, look-alikes, clock, diagrams, jobs, quiz}
     -> pages -> built site -> vault -> published

One way; values are frozen; every stage returns `(result, diagnostics)`.
"""
