### Strawblue, English. One message a line where it fits; sections in the order of the app.

## Places
place-plan = Plan
place-tint = Tint
place-bench = Bench
place-log = Log
place-care = Care
place-settings = Settings

## Screen
app-name = Strawblue
shell-places = Places
shell-back = Back
shell-units = Units
basis-title = Basis
basis-close = Close
basis-formula = Formula
basis-steps = With this job’s numbers
basis-ranges = Range of validity
caution-why = Why
caution-do = Do
form-assumed = assumed
plan-job = The job
plan-evidence = Evidence side by side
plan-evidence-of = Evidence for
plan-governs = governs
plan-legend-inside = may govern
plan-legend-at-limit = at its limit
plan-legend-outside = beyond its range
plan-legend-shown = shown only
plan-levers = Levers
plan-then = Then
plan-cautions = Cautions of this job
plan-footer = Local codes, the drawing, the qualified procedure and licensed practice come first.
plan-minimum-short = Minimum
plan-maximum-short = Maximum
plan-ceiling-short = Ceiling
plan-back-to-answer = Back to the answer
