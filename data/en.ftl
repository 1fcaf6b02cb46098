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
