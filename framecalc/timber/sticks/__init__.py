"""The cutting plan: which sticks, each with its pieces in order, and the proof that no plan does better.

A plan is searched purchase by purchase, the cheapest first: mostly only a few purchases lie between the bound and the
plan in hand. For each the linear programme decides whether these sticks can hold all parts; if they cannot, its prices
are shares that rule out this purchase and most others. Shares that together rule out every cheaper purchase are a
proof. Stock has an id, and names given twice are numbered, so that every chalked label is one stick. Among sticks that
cost nothing a plan takes the fewest, which are the long ones; whoever wants off-cuts first puts in the off-cuts alone.
"""
