"""What to do when: tasks, the class and the calendar, the timetable until set day, its odds and repair."""
