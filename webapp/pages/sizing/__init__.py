"""Sizes out of a photograph: the photo with its eight marks, what they tell, the sheet to print."""
