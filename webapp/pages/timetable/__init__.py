"""The glue-up timetable of a job: the order, its picture, what is begun, alarms, and a file for the calendar."""

from webapp.live.addresses import TIMETABLE
from webapp.live.page import Page

PAGE = Page(
    folder=__name__,
    title="Glue-up timetable",
    path=TIMETABLE,
    in_menu=False,
    under="bench",
    elsewhere=(TIMETABLE + ".ics",),
)
