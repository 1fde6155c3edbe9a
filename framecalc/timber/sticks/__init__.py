"""The cutting plan: which sticks, each with its pieces in order, and the proof that no plan does better."""
