"""All screens, in the order in which Home lists them. To add a screen, add its line here."""

from __future__ import annotations

from tutor.screens.board.room import BoardRoom
from tutor.screens.case_book.room import CaseBook
from tutor.screens.free_play.room import FreePlay
from tutor.screens.group.room import GroupRoom
from tutor.screens.home.room import Home
from tutor.screens.learners.room import Learners
from tutor.screens.lesson.room import LessonRoom
from tutor.screens.looking_ahead.room import LookingAheadRoom
from tutor.screens.painting.room import PaintingRoom
from tutor.screens.practice.room import PracticeRoom
from tutor.screens.progress.room import ProgressRoom
from tutor.screens.settings.room import SettingsRoom
from tutor.screens.solve.room import SolveRoom
from tutor.session.house import House

SCREENS = House(
    (
        Home(),
        LessonRoom(),
        FreePlay(),
        PracticeRoom(),
        SolveRoom(),
        PaintingRoom(),
        LookingAheadRoom(),
        ProgressRoom(),
        GroupRoom(),
        CaseBook(),
        BoardRoom(),
        Learners(),
        SettingsRoom(),
    )
)
