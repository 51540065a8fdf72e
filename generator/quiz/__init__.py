"""Quiz: timelines -> fair questions, and the banks a phone loads. Nothing here is typed by a coach."""

from generator.quiz.bank import bank_json, index_json, pictures_wanted, team_bank_json
from generator.quiz.generate import generate_questions
from generator.quiz.question import Kind, Question
from generator.quiz.reach import Reach, reach

__all__ = ["Kind", "Question", "Reach", "bank_json", "generate_questions", "index_json", "pictures_wanted", "reach", "team_bank_json"]
