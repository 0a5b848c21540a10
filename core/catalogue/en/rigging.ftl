## Weighing, solving, flight and the sheets of a rigged load.

### What is wrong with a weighing

weigh-nothing = nothing was weighed; write [[weighed]] points, or [[item]] with mass and place
weigh-too-many = there are more than { $most } { $what }; write at most { $most }
weigh-net = the scale at { $point } shows less than its tare; check reads and tare
weigh-tolerance = { $tolerance } is no tolerance of { $of }; write nought or more, and at most 50 %
weigh-no-height = the height of the load is not known; weigh it tilted as well ([tilted]), or write height = "…" under [load]
weigh-two-heights = the height is given and weighed; write height under [load], or [tilted], not both
weigh-angle = a tilt of { $angle } gives no height; tilt the load by 1 to 45 degrees, its tolerance included
weigh-differ = level it weighs { $level }, tilted { $tilted }: more apart than the scales may be; weigh again, or write rest_at where not every point stood on a scale
weigh-not-positive = what is taken off weighs more than what is there; check the items
weighed-and-given = { $key } is given and weighed
weighed-and-given-mend = take { $key } out of [load], or take out [[weighed]] and [[item]]
tilt-how = [tilted] does not say how far the load was tilted
tilt-how-mend = write pitch = "8 deg", or roll = "8 deg", or raised = "20 in" and over = "110 in"
tolerance-unit = { $tolerance } is no tolerance; write a mass or a share, such as "10 lb" or "0.5 %"
no-rigging = the file weighs a load and rigs none; add [[hook]] and [[leg]]
not-weighed = the file gives mass and centre and weighs nothing; write [[weighed]] points or [[item]] in their place

### A weighing, told

weighed-mass = The load weighs { $mass }; within the tolerances { $least } to { $most }.
axis-x = forward
axis-y = left
axis-z = up
weighed-centre = Centre of gravity, { $axis }: { $at }; within the tolerances { $least } to { $most }.
weighed-untold = No tolerance is given for { $names }: what they may be off by is not in these spans.
weighed-hangs = { $state }: as read, it hangs { $attitude }.
weighed-does-not-hang = { $state }, as it is rigged.
weighed-worst = Within the tolerances, at worst: { $worst } ({ $corners } corners of the readings looked at, all of them).
weighed-worst-box = Within the tolerances, at worst: { $worst } ({ $corners } corners of a box about the readings, which is larger than what they may be).
weighed-not-hanging = { $count ->
    [one] At { $count } of them it does not hang.
   *[other] At { $count } of them it does not hang.
}
weighed-tilt = Pitch lies within { $pitch }, roll within { $roll }.
weighed-governs = { $part } governs at worst, at { $percent }.
weighed-leg = Leg { $leg }: { $least } to { $most }; at most { $percent } of its rating.
weighed-leaves-out = Left out: where the points were measured, cargo that shifts, liquids, and scales off by more than their tolerance.
manual-rules = This assists a qualified inspector. The governing manual rules, and ratings are those of the file.

### How a load hangs

state-within-limits = WITHIN LIMITS
state-at-rest-only = AT REST ONLY
state-over-limit = OVER LIMIT
state-infeasible = DOES NOT HANG
level = level
nose-up = { $angle } nose up
nose-down = { $angle } nose down
left-up = { $angle } left side up
left-down = { $angle } left side down
both-ways = { $pitch } and { $roll }

### What is wrong with slings at hand or with what is sought

set-legs = a sling set has one to eight legs
set-legs-mend = write legs = 4
set-no-length = the sling set has neither ropes nor a chain
set-no-length-mend = write ropes = ["12 ft"], or chain = {"{"} links = 110, pitch = "1.09 in", reeved = "loop" {"}"}, or both
rope-length = "{ $text }" is no length of a rope
rope-length-mend = write more than nought and at most 1000 m
ropes-many = there are { $count } ropes
ropes-many-mend = write at most sixteen
solve-angle = { $angle } degrees is no hang to plan; write an angle from -30 to 30
solve-not-between = "{ $text }" holds no leg to links; write LEG=A-B, such as 1=3-40
solve-no-chain = leg "{ $leg }" is not there or has no chain; hold only legs with a chain to links
solve-too-many = under two hooks there are { $ways } ways to seat the links, and { $most } are gone through; hold legs to links with --between LEG=A-B
solve-too-many-ropes = there are { $ways } ways and more to choose ropes, and { $most } are gone through; take ropes out
solve-nothing-to-choose = no leg has a chain, and no ropes and sling sets are listed; add ropes = ["…"] to a leg, or a [[sling_set]]

### A search, told

solve-wanted = Wanted: { $attitude }.
solve-nothing = Nothing keeps the rule and hangs within { $within } of it, with every leg carrying.
solve-proposal = { $number }. { $state }: hangs { $attitude }, { $off } from what is wanted; { $part } governs, at { $percent }.
solve-set = Sling set { $set }.
solve-leg = Leg { $leg }: { $how }; carries { $tension }, { $percent } of its rating.
leg-link = link { $link } in the grab hook
leg-link-rope = rope of { $rope }, link { $link } in the grab hook
leg-rope = rope of { $rope }
leg-as-is = as it is
solve-slips = If the first one is rigged and something slips:
slip-link = Leg { $leg } at link { $link }: { $attitude }; leg { $most } carries most, { $tension }.
slip-link-over = Leg { $leg } at link { $link }: { $attitude }; leg { $most } carries most, { $tension }: OVER LIMIT.
slip-link-falls = Leg { $leg } at link { $link }: the load would not hang.
slip-without = Leg { $leg } slack or gone: { $attitude }, { $percent } of a rating at most.
slip-without-falls = Leg { $leg } slack or gone: the load would not hang.
slip-moved = Lift point of leg { $leg } off by { $by }: tilts by up to { $tilts }.
slip-moved-falls = Lift point of leg { $leg } off by { $by }: the load might not hang.
own-slings = the slings of the file
set-too-few = { $set }: too few legs.
set-hangs = { $set }: hangs { $off } from what is wanted, { $percent } at most.
set-not = { $set }: nothing that keeps the rule.
set-smallest = The set of the weakest legs that still may carry it: { $set }.
solve-not-whole = The search stopped: nothing within { $within } was left out, what lies further was not looked at. Hold legs to links to look on.
solve-leaves-out = Left out: chain that twists or knots, links counted from the wrong end, a sling that fouls the load. Count again at the load.

### Flight, told

flight-statics = Statics only. No swing, gust, downwash or lift; no turn that builds up; not what the aircraft can do.
no-source = no source given
flight-factor = Load factor { $factor }, the sling at { $angle } from the vertical ({ $source }).
flight-factored = { $state }: { $part } governs, at { $percent }.
flight-hook = The hook is pulled with { $along } along the sling, { $aside } of it aside.
flight-factor-leaves-out = Left out: a load that does not swing as one with its sling, jerks when slack is taken up, and what the factor stands for.
flight-drag = Drag area { $area }, air { $density } ({ $source }).
flight-drag-at-centre = No drag_at is given: the drag takes hold at the centre of gravity, and tilts the load as one with its sling.
flight-at = { $speed }: the sling trails { $trail }; the load hangs { $attitude }; a leg at { $percent } of its rating.
flight-slack = From { $speed }: leg { $leg } is slack.
flight-over = From { $speed }: leg { $leg } is over its rating, without any load factor.
flight-leans = From { $speed }: leans past { $limit } ({ $source }).
flight-turns = From { $speed }: turns away from its heading; faster is not looked at.
flight-no-rest = From { $speed }: comes to no rest.
flight-nothing = Up to { $speed } no leg is slack or over its rating, and no limit that the file names is passed.
flight-drag-leaves-out = Left out: drag that changes with the load's attitude, lift, side force, swing, gusts. A load can become unstable far below these speeds.
flight-failed = Hook { $failed } fails: hook { $holds } carries all, { $carries }.
flight-failed-hangs = { $state }: it would come to rest { $attitude }; { $part } at { $percent }.
flight-failed-falls = { $state }: the legs that are left do not hold it upright.
flight-failed-leaves-out = Left out: the drop and swing before that rest, whose jerk is larger than anything here; the other hook's and the frame's side limits.
flight-manual-rules = Flight tests, the flight manual and the aircrew rule. This assists a qualified inspector; ratings are those of the file.

### What is wrong with a flight

sling-angle = no sling trails so far
sling-angle-mend = write an angle from 0 to 60 deg from the vertical
lean-limit = no limit of lean is such
lean-limit-mend = write an angle from 0.1 to 45 deg
speed-to = no load is flown at such a speed
speed-to-mend = write a speed from 1 to 250 kt
drag-whole = a drag wants its area, the air's density and the source of both
drag-whole-mend = write drag_area = "…", density = "…" and drag_source = "…"; nothing is assumed
measure-wrong = "{ $text }" cannot be read; write a number above nought and one of { $units }
no-flight = the file tells nothing of a flight; add [flight] with a load factor or a drag, and where it is from

### Sheets

sheet-title = Rigging sheet, { $load }
aircrew-title = Aircrew data sheet, { $load }
sheet-head = RIGGING SHEET
aircrew-head = AIRCREW DATA SHEET: STATICS
link-of = { $link } of { $of }
column-leg = Leg
column-link = Link
column-rope = Rope
column-hook = Hook
column-point = Lift point
column-carries = Carries
column-part = Part
column-rated = May carry
column-share = Share
column-source = Where that is from
count-from-free = Links are counted from the chain's free end; the one in the grab hook is counted too. Lift points: forward, left and up from the datum on the load.
hooks-carry = Hooks carry
more-in-the-file = more: slingseal rigging flight
fact-mass = gross weight
fact-centre = centre of gravity: forward, left, up
picture-says = How it hangs: side, front and top. { $summary }
sheet-caution = The governing manual rules; no sheet replaces a qualified inspector. Ratings are those that the plan was given. Count again at the load.
sheet-leaves-out = Statics at rest. Swing, gusts, downwash and jerks are not in it; flight tests and the flight manual rule.

### The editor

editor-title = Rigging
editor-intro = Change a field, drag a point or move it with the arrow keys (with shift ten steps), change a link by plus and minus. The desk works out how it hangs.
editor-example = An example to be written over. Its ratings are no real equipment's: enter yours from the manual or the data plate, with the source.
editor-look = Look
editor-level = Find the links that hang it level
editor-add-leg = Add a leg
editor-save = Save as a file
editor-open = Open a file
editor-file = A rigging file
editor-text = Its text; a weighing is taken as mass and centre, slings at hand and flight stay with the file
editor-faults = It cannot be worked out.
editor-report = The report
editor-load = Load
editor-allowable = allowable, from the aircrew
editor-rule = rule of the manual
editor-parts = Parts that all passes through: name | may carry | source
editor-leg-parts = Parts of the leg: name | may carry | source
editor-name = name
editor-links = links of the chain
editor-seated = link in the grab hook
editor-pitch = from link to link
editor-reeved = reeved
editor-stretch = stretch at its rating
editor-less = one link less
editor-more = one link more
editor-top = From above, nose to the right
editor-side = From the side, nose to the right
editor-point = Lift point of leg { $leg }: { $place }. Arrow keys move it.
editor-centre = CG, centre of gravity: { $place }. Arrow keys move it.

## What a load is over by though not at rest; { $whose } may be the next message

beyond-at-rest = NOT at rest{ $whose }: { $share }.
beyond-three-legs = NOT if three legs carry{ $whose }: { $share }.
beyond-two-legs = NOT if two legs carry{ $whose }: { $share }.
beyond-worst-case = NOT in the worst case{ $whose }: { $share }.
beyond-chosen-rule = , the rule that this file names
beyond-share = { $leg } is at { $percent } of its rating
beyond-no-largest = no tension of { $leg } is the largest
beyond-leg = leg { $leg }
beyond-a-leg = a leg

## What governs, in one line

summary-does-not-hang = The load does not hang as rigged.
summary-does-not-hang-because = The load does not hang as rigged: { $reason }
summary-lean = pitch { $pitch }, roll { $roll }
summary-pulls-most = { $lean }; leg { $leg } pulls most, { $force }
summary-governs = { $part } at { $percent } of { $rated }; { $lean }
