"""The calendar file read back by what any calendar program sees: times of the shop's clock, names whole, alarms."""

from datetime import UTC, datetime, timedelta

from icalendar import Calendar

from webapp.live.papers.calendar import Entry, calendar_file


def test_a_long_name_is_read_back_whole_and_no_line_is_too_long() -> None:
    name, at = "Großes Bild; links, \\ oben " * 6, datetime(2026, 12, 1, 8)
    entry = Entry(key="k", begins=at, ends=at + timedelta(minutes=9), says=name)
    file = calendar_file([entry], name="Hall; stairs", written=datetime(2026, 11, 30, tzinfo=UTC))
    assert all(len(line) <= 75 for line in file.split(b"\r\n"))
    assert b"DTSTART:20261201T080000\r\n" in file, "no time zone: the hour of the shop"
    (event,) = Calendar.from_ical(file).walk("VEVENT")
    assert str(event["summary"]) == name and event["dtend"].dt == entry.ends
    (alarm,) = event.walk("VALARM")
    assert alarm["trigger"].dt == timedelta(0)
