"""The glue-up timetable of a job: the order, its picture, what is begun, alarms, and a file for the calendar."""
