"""The plan of hanging: the hangers of each frame, and the wall of the job."""
