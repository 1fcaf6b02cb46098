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

## Steels
steels-search = Find a steel
steels-search-hint = Grade, number or everyday word
steels-list = Steels
steels-use = Use this steel
steels-chosen = in use
steels-look = The arrow beside a steel shows its figures here.
steels-composition = Composition, weight %
steels-conditions = Conditions
steels-notes = Notes
steels-type-certificate = Type a certificate
steels-edit = Change its figures
steels-delete = Delete this steel
steels-delete-question = Delete it for good? Jobs that use it keep their own copy.
steels-delete-for-good = Delete for good
steels-keep = Keep it
certificate-readout = Carbon equivalents
certificate-grade = Grade that the certificate names
certificate-no-grade = None named
certificate-no-grade-note = What isn’t typed counts as nought.
certificate-clear-grade = Take the grade away
certificate-read-line = Read
certificate-elements = Composition
certificate-percent = weight %
certificate-save-new = Save as a steel of my own
certificate-save-change = Save the change
fillers-search = Find a filler
fillers-search-hint = Class or everyday word
fillers-list = Fillers
fillers-unknown = Filler not known

## Care
care-search = Find a caution
care-search-hint = Find a caution
care-about-to = I am about to …
care-critical-first = critical first
care-nothing-found = Nothing under that word. Try the thing in your hand: acetylene, paint, glove, argon. Then look under what you are about to do.
care-first = Local codes, site rules and licensed practice come first.
care-first-note = These cautions remind. They don’t replace training, a permit, the maker’s instructions or an emergency number.

## Settings
settings-temperature = Temperature
settings-length = Length
settings-units-note = Plans and records keep SI inside; changing the unit never loosens a limit.
settings-look = Look
settings-language = Language
settings-data = Data
settings-sources = Sources
settings-licences = Licences
settings-about = About Strawblue

## About
about-licences = Licences
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
