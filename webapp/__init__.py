"""The web side of Rabbetry: it keeps projects on disk, serves pages, and writes drawings from the command line."""
