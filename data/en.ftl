### Strawblue, English. One message a line where it fits; sections in the order of the app.

## Places
place-plan = Plan
place-tint = Tint
place-bench = Bench
place-log = Log
place-care = Care
place-settings = Settings

## Units
decimal-mark = .

## Typed values
typed-empty = Nothing is typed yet. { $accepts }
typed-not-understood = “{ $typed }” is not understood. { $accepts }
typed-unknown-unit = “{ $typed }” has “{ $unit }”, which is not a unit for this. { $accepts }
typed-out-of-range = “{ $typed }” is out of range: { $name } goes from { $low } to { $high } here.
typed-ambiguous = “{ $typed }” can mean more than one thing. Write { $choices }.
typed-choice = “{ $write }” for { $means }
typed-means-decimal = a decimal comma
typed-means-thousands = thousands
typed-means-inch-fraction = a fraction of an inch
typed-means-mm-fraction = a fraction of a millimetre
typed-means-hrc = Rockwell C
typed-means-hb = Brinell
typed-means-hv = Vickers
typed-gauge = “{ $typed }” is a gauge number, and the same number is a different thickness for sheet, stainless sheet and wire. Measure it and write the thickness: 3.4 mm, .134 in.
typed-arc-in-net = “{ $typed }” says arc energy, and this is the net heat input. Write arc energy in its own field; the net heat input is that times the efficiency of the process.
typed-net-in-arc = “{ $typed }” says net, and this is arc energy (volts × amps ÷ travel). Write the net heat input in its own field.
hydrogen-means-figure = the figure itself, in ml/100 g
hydrogen-means-d11-h1 = the extra-low class of the D1.1 annex, up to 5 ml/100 g
hydrogen-means-d11-h2 = the low class of the D1.1 annex, up to 10 ml/100 g
hydrogen-means-d11-h3 = the worst class of the D1.1 annex, not controlled, taken as 30 ml/100 g
hydrogen-means-aws-h2 = the filler designator, up to 2 ml/100 g
hydrogen-means-en-a = scale A of EN 1011-2, the worst, above 15 ml/100 g
hydrogen-means-en-b = scale B of EN 1011-2, up to 15 ml/100 g
hydrogen-means-en-c = scale C of EN 1011-2, up to 10 ml/100 g
hydrogen-means-en-d = scale D of EN 1011-2, up to 5 ml/100 g
hydrogen-means-en-e = scale E of EN 1011-2, the lowest, up to 3 ml/100 g
hydrogen-means-other-letter = the figure from the filler's data sheet, if the letter is not from EN 1011-2
accepts-length = Write a length: 38, 38.5 mm, 1-1/2 in, .75 in, Ø90.
    .name = a length
accepts-temperature = Write a temperature: 260, 260 °C, 500 °F.
    .name = a temperature
accepts-difference = Write a temperature difference: 30 K, 54 °F.
    .name = a temperature difference
accepts-heat = Write the net heat input: 1.5 kJ/mm, 38 kJ/in, 1500 J/mm.
    .name = net heat input
accepts-arc-energy = Write the arc energy: 1.5 kJ/mm, 38 kJ/in, 1500 J/mm.
    .name = arc energy
accepts-hydrogen = Write a figure (5 ml/100 g) or a class with its scheme: H4, H8, H16, H5, H10, H15, AWS H2, D1.1 H2, EN D.
    .name = diffusible hydrogen
accepts-voltage = Write the arc voltage: 24 V.
    .name = arc voltage
accepts-current = Write the current: 140 A.
    .name = current
accepts-travel = Write the travel speed: 150 mm/min, 2.5 mm/s, 6 in/min.
    .name = travel speed
accepts-strength = Write a strength: 690 MPa, 100 ksi.
    .name = strength
accepts-mass = Write a mass: 12 kg, 26 lb.
    .name = mass
accepts-hardness = Write a hardness with its scale: 30 HRC, 285 HB, 300 HV.
    .name = hardness on that scale
accepts-duration = Write a time: 90 s, 20 min, 1 h 20 min, 1:20 (hours and minutes).
    .name = time
accepts-number = Write a plain number: 4, 0.5, 0,5.
    .name = this number
accepts-count = Write a whole number: 1, 4.
    .name = this count
accepts-share = Write a share: 0.8 or 80 %.
    .name = a share
accepts-units = Write c-mm, f-in, f-mm or c-in.
    .name = units
