"""The plan: everything computed from one project, each topic on first use.

The only package that knows both the project and the topics: `inputs` hands plain numbers in, `frame` and `whole`
collect records, findings and figures, `advice` and `figures` put them into words. Same project, same plan.
"""

from framecalc.plan.frame import FramePlan
from framecalc.plan.whole import Plan, plan_with

__all__ = ["FramePlan", "Plan", "plan_with"]
