"""The price of a job: what is counted, what is paid, what is asked."""
