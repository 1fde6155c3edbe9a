"""The plan: everything computed from one project, each topic on first use.

The only package that knows both the project and the topics: `inputs` hands plain numbers in, `frame` and `whole`
collect records, findings and figures, `advice` and `figures` put them into words. Same project, same plan.

What follows for the whole job from its frames together is a `job.JobPlan`. It is the same one while only prices, notes
and confirmations are typed, so these lay out, measure and count nothing anew: only the price is worked out again.
"""

from framecalc.plan.frame import FramePlan
from framecalc.plan.whole import Plan, plan_with

__all__ = ["FramePlan", "Plan", "plan_with"]
