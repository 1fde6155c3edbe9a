"""What was typed: from a form as it was sent to the document, its answer, and what meets a change made elsewhere.

A *field* is a path of the document that is on a page; its *text* is what stands in it. An *answer* is the project, its
plan, and a sentence for every field at fault. A field that cannot be read keeps its last good value in the file and its
typed text on the page. Invisible characters become spaces when a text arrives, so later code only has to escape. A
number typed in another unit (°F, pounds) is kept with it; in a file a bare one is °C or N. The form for a new item
already carries its id, so a button pressed twice, or in two tabs, adds it once.
"""
