"""What pages share: how a page is stated, shown and answered, its lists, its light, the way through a job.

`typed/` is from a form to its document, `papers/` what is taken away, `work/` what a shop does and keeps beside a
project.
"""
