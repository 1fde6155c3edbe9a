"""Doctests are looked for in modules, not in the folders' conftest files, which all carry one name."""

collect_ignore_glob = ["conftest.py", "*/conftest.py"]
