"""The trade: pure calculation of a picture frame, and its drawings.

Imports point down: drawing, plan, project, topics, base. The base is the few modules that lie here; a topic is a
package named after its part of the trade. Lengths inside are millimetres, and a name says its unit.
"""
