"""Searches beside the pages: cutting plans and sheet layouts, kept under the hash of their problem.

A job runs until what follows it has started, so a page that looks again misses nothing. It tells its best plan and its
bound through the watch while it searches. Ticks are kept in the project under the hash of their plan.
"""
