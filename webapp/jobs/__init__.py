"""Searches beside the pages: cutting plans and sheet layouts, kept under the hash of their problem."""
