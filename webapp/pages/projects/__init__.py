"""The list of projects: start, import, copy and delete one."""
