"""The bench: what is set at each machine, from the rough board to four glued corners, and what really came out.

A *card* is what stands at one machine: its *settings* one after another, its cautions once, and the numbers to enter
back. A setting serves every frame of the job that wants it. *As cut* is what was measured after machining: it stands
beside the plan and never overwrites it; what is still to be done is worked out again from it.
"""
