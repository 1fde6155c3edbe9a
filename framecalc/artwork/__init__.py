"""The artwork as measured: its true size, how crooked it is, what turning it does."""
