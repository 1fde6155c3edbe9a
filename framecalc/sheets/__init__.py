"""Sheet layouts: parts on sheets and off-cuts, cut edge to edge, and the proof that no layout does better."""
