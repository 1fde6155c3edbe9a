"""Who may come in: addresses, devices, rates, the guard, the log."""
