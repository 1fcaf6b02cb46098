### Strawblue, English. One message a line where it fits; sections in the order of the app.

## Places
place-plan = Plan
place-tint = Tint
place-bench = Bench
place-log = Log
place-care = Care
place-settings = Settings

## Tint

tint-stage-bright = bright, no tint
tint-stage-faint-yellow = faint yellow
tint-stage-light-straw = light straw
tint-stage-dark-straw = dark straw
tint-stage-bronze = bronze, brown
tint-stage-reddish-purple = reddish purple
tint-stage-bluish-purple = purple-blue
tint-stage-blue = blue
tint-stage-light-blue = light blue, grey-blue
tint-stage-greenish-blue = greenish blue, blue-grey
tint-stage-later = later colours, not to be judged

tint-spot-bright = ground bright, clean and dry
tint-spot-mill-scale = under mill scale
tint-spot-rough = rusted, blasted or matt
tint-spot-coated = painted, galvanised, plated, nitrided or blued
tint-spot-dirty = oil, fingerprints, soap or flux on it

tint-note-peak-not-now = The colour tells the hottest that this skin was, not how hot it is now.
tint-note-this-skin-only = It speaks of this skin only: not of the core, and not of the far side.
tint-note-look-straight = Look straight at it in diffuse daylight. Bright steel shows what it mirrors, and a slanting look makes the film seem thinner.
tint-note-shorter-than-fitted = The skin spends less time at this heat than the time law was fitted to (1.2 minutes): take it with care.
tint-note-long-time = More than ten minutes near the peak: an indication only.
tint-note-second-heating = A second heating adds to the film. The sum is an upper estimate, since growth starts again slowly.
tint-note-chromium-unknown = The chromium of this steel is not known. More than 3 % of it shifts every colour to a higher temperature.
tint-note-only-below = No tint yet: the skin was no hotter than this. How much colder, the colour does not say.
tint-note-beyond-curve = This lies above the end of the heat-up curve, which is carried on as steeply as it last rose.
tint-no-independent-row = The handbook tables state no time, and 12 K of the band were taken from them. No independent figure tests the time law: every time that is known went into the fit.

error-tint-stainless = Stainless steel shows the same colours 100 to 250 °C higher, and lists for it differ by more than 100 °C. Use its own list as a hint only, and measure with a probe or a crayon.
error-tint-high-chromium = Between 3 % and 10.5 % chromium no figures exist, and the colours come later. Measure with a probe or a crayon.
error-tint-past-first-order = Past greenish blue the colours repeat, so a thick film can look like a thin one. Measure with a thermocouple, a probe or a crayon.
error-tint-mill-scale = Mill scale hides the film. Grind a bright spot before heating, or measure with a probe, a crayon or an IR gun.
error-tint-rough = A rusted, blasted or matt surface shows no film colours. Grind a bright spot before heating, or measure with a probe or a crayon.
error-tint-coated = A coating has a colour of its own, and some give off toxic fume when heated. Remove it well back from the weld and measure with a probe.
error-tint-dirty = Oil, fingerprints, soap and flux change the colour or block it. Clean a spot before heating, or measure with a probe or a crayon.
error-tint-shielded-from-air = Under a reducing flame, soot, inert gas or steam another film grows. Measure with a probe or a crayon.
error-tint-there-before = The skin carried this colour, or a later one, before it was heated. Grind a fresh spot, or measure with a probe or a crayon.
error-heat-curve = A heat-up curve needs two points or more, minutes that rise and a temperature that does not fall.
error-span-swapped = The lower end is above the upper one.

question-tint-flame-on = Colour while the flame is on
    .asks = Which colour appears at this temperature while I am still heating?
question-tint-afterwards = Colour afterwards
    .asks = Which colour is left when the skin has been this hot?
question-peak-from-tint = Peak from a colour
    .asks = How hot was the skin, if it shows this colour?
question-ir-true-temperature = What the IR gun means
    .asks = Which temperature can the steel have when the gun shows this?
question-ir-expected-reading = What the IR gun will show
    .asks = What does the gun show when the steel is at this temperature?
question-crayon-pair = Crayons about a window
    .asks = Which crayon must melt, and which must not?
question-red-heat = Red heat
    .asks = Which temperature do lists give this glow, in this light?
question-measuring-place = Where and when to measure
    .asks = How far from the groove, on which face, and how long after the flame?

answer-tint-flame-on = Film at this temperature, flame on
answer-tint-afterwards = Film left by this peak
answer-peak-from-tint = Peak of the skin
answer-ir-true-temperature = Temperature of the steel
answer-ir-expected-reading = Reading to expect
answer-crayon-pair = Proven range
answer-red-heat = Range of the lists
answer-measuring-distance = Distance from the groove edge
answer-measuring-zone = Preheated zone, at least
answer-measuring-wait = Wait after the flame

surface-bright = bright, ground or tinted
surface-cold-rolled = cold-rolled, freshly rolled
surface-rolled-sheet = rolled sheet
surface-mill-scale = mill scale, hot rolled
surface-rusted = rusted
surface-oxidised = evenly oxidised, grey
surface-black-spot = dull black spot, soot or paint

ir-no-use = No use on this surface: the gun could mean too many temperatures. A tint does not help, blue steel is still a mirror to the gun.
ir-black-spot = Make a dull black spot: before heating, put matt black high-temperature paint or soot on a patch larger than the gun's spot, beside the joint and not in it; let paint dry. Read square to it from close by, and remove it before welding.
ir-verdict-kept = Kept, whatever the surface is within its range
ir-verdict-ask-another = Kept only by a correction of more than 30 °C: confirm with a crayon or a probe, or on a dull black spot
ir-verdict-not-shown = This reading can't tell
ir-verdict-missed = Not kept, whatever the surface is within its range
error-ir-no-solution = No steel temperature gives this reading on this surface. Check the setting, the surface and what it reflects.
error-ir-below-surroundings = The steel would be colder than its surroundings. Check the setting, the surface and what it reflects.

instrument-crayon = Temperature crayon
    .can = A mark that melts says: at least this hot, here. Two crayons make a window.
    .cannot = It gives no figure in between, and a flame on the mark melts it too early. Keep it out of the joint.
instrument-contact-probe = Contact probe
    .can = It gives the temperature of a clean, flat, bright spot once it stands still.
    .cannot = On a rough or scaled spot, or held askew, it reads some percent low.
instrument-thermocouple = Fixed thermocouple
    .can = It follows the temperature through heating, welding and cooling, also where nobody can reach.
    .cannot = It knows its own point only, and a loose bead reads low.
instrument-infrared = IR gun
    .can = On a dull black, evenly oxidised or painted spot it is quick and good.
    .cannot = On bright or tinted steel it reads far too low, which flatters a maximum.
instrument-tint = Temper colour
    .can = It shows where the heat went, and a peak within about 40 °C to either side.
    .cannot = It says nothing about now, about the core, or about steel that was not bright.

error-crayon-window = The maximum is below the minimum.
error-crayon-no-pair = No two crayon steps fit this window once their rating is counted. Use a probe or a thermocouple.

measuring-far-face = Measure on the face opposite the flame.
measuring-heated-face-after-wait = Take the flame away, wait, then measure on the heated face.
measuring-coldest-point = For a minimum, measure at the coldest point.
measuring-hottest-point = For a maximum, measure at the hottest point, where the next run begins.
measuring-thick-member = Measure on the thick member: it lags behind the thin one.
measuring-just-before = Preheat counts just before the arc, interpass just before the next run.
measuring-whole-zone = The temperature must exist over the whole zone, in all directions and through the thickness.

red-heat-just-visible = just visible
red-heat-dark-red = dark red
red-heat-dull-cherry = dull cherry
red-heat-cherry = cherry
red-heat-bright-cherry = bright cherry
red-heat-orange = orange
red-heat-light-orange = light orange
red-heat-yellow = yellow
red-heat-white = white
red-heat-bright-white = bright white
light-dark = in the dark
light-twilight = in twilight
light-daylight = in daylight
light-sunlight = in sunlight
error-red-heat-not-listed = No list names this glow in this light.
error-red-heat-too-cold = Below 500 °C a glow must not be used. Measure.

photo-how-to = Take the photo straight on in daylight without flash or filters, with a still-bright part of the same steel beside the tint in the same reflection.
photo-confidence-good = like this film and no other far from it; still no closer than one stage to either side
photo-confidence-fair = in doubt: look again, or measure
error-photo-region = Choose a spot inside the photo, at least six pixels wide and high.
error-photo-clipped = Part of the chosen spots is over- or underexposed. Take the photo again with less glare or more light.
error-photo-too-dark = The bright steel or card is too dark in this photo. Take it again with more light.
error-photo-coloured-light = The light is too coloured to be taken out. Take the photo again in daylight.
error-photo-uneven = The chosen spot is uneven: glare, texture, scale or several colours. Choose a smaller, even spot.
error-photo-brighter = The tinted spot is brighter than the bright steel. Choose both in the same reflection.
error-photo-no-film = No film on low-alloy steel looks like this. It may be scale, paint, another metal, or a filtered photo.
error-photo-ambiguous = Two films far apart look alike here. Look at the steel itself, or measure.
error-photo-too-thick = The film looks too thick to be told from a photo. Measure.
error-photo-stopped = Stopped.
