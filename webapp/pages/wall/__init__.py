"""The wall: hangers of a frame, nails, the group of a job, hanging strips."""
