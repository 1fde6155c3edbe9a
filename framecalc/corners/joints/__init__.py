"""Corner joints: what each needs, what walls it leaves, whether it is sound, and what it clashes with."""
