"""What pages share: forms, fields with their slots, answers to what was typed, conflicts, rendering."""
