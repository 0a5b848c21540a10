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
weighed-planned-height = The height of the centre of gravity was not weighed: it is the plan's, { $height }.
weighed-over-gross = It may weigh { $most }: MORE than the { $gross } that was planned. A new tag is wanted.
weighed-within-gross = It weighs { $most } at most; { $gross } was planned.
weighed-over-allowable = It may weigh { $most }: MORE than the { $allowable } that the aircrew allows.
weighed-beside-plan = Centre of gravity, { $axis }: weighed { $at }, planned { $planned }.
weighed-leaves-out = Left out: where the points were measured, cargo that shifts, liquids, and scales off by more than their tolerance.

### A load weighed in the field, by keys and without a file

corner-front-left = Front left
corner-front-right = Front right
corner-rear-left = Rear left
corner-rear-right = Rear right
field-of-point = { $point }, { $what }: { $why }
field-of = { $what }: { $why }
field-open = still open; measure it and key it in
field-tilted = shows with one end raised
field-nothing = nothing was weighed; put the load on scales and key in what each shows
field-nothing-raised = one end was raised, and no scale says anything for it; key in what each scale showed then, or take the second weighing back
field-no-height = the height of the centre of gravity is not known; weigh again with one end raised, or key the height in
field-two-heights = the height is keyed in and weighed; take one of them back
field-too-many = there are more than { $most } points; take some away
field-net = { $point }: the scale shows less than what stood on it besides the load; look at both again
field-differ = level it weighs { $level }, with one end raised { $tilted }: more apart than the scales may be; weigh again
field-held-where = the points that stood on no scale are not one above the other seen from the side; key in where the raised end was held
field-scales = Scales: { $scales }.
field-scales-unsaid = Nobody says which scales these are, nor where their tolerance is from.
field-centre-planned = Where its centre of gravity is was not weighed: it is the plan's.
field-centre-not-kept = No rigging is planned: the centre of gravity stands here and goes into no tag.
field-taken = For the tag: gross weight { $gross }, the most that it may weigh; source: weighed.
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

### What a report says of it

report-falls = DOES NOT HANG: { $reason }.
report-note = Note:
report-warning = - { $warning }.
report-governs = { $state }: { $part } governs at rest, at { $percent }.
report-to-spare = It carries { $carries } and may carry { $rated }: { $left } to spare.
report-too-much = It carries { $carries } and may carry { $rated }: { $left } too much.
rated-from = { $rated } ({ $source })
report-hangs = The load of { $mass } hangs { $attitude }.
report-hooks = Hook { $one } carries { $carries }, hook { $other } carries { $carries_too }.
report-sharing = "Carries" shares the load by the stretch of the legs; "at worst" is the most that any way of
  sharing it puts on the leg.
report-by-rules = By the handbooks: { $rules }.
report-also-over = Also over: { $part }, at { $percent }. { $margin }
report-one-link = One link more or less in the grab hook:
report-carries = carries
report-of-rating = of its rating
report-of = of
report-at-worst = at worst
report-from-horizontal = from horizontal
report-slack = slack
report-no-bound = no bound
rules-both-books = if three legs carry (chain tables), { $three }; if two carry (naval rule), { $two }
rules-both = if three legs carry, { $three }; if two carry, { $two }
rules-two-books = if two carry (naval rule), { $two }
rules-two = if two carry, { $two }

part-aircraft = aircraft allowable
part-hook = hook { $hook }
part-leg = leg { $leg }
part-of-leg = leg { $leg }, { $part }
legs-named = { $count ->
    [one] leg { $names }
   *[other] legs { $names }
}

### Why a load does not hang

why-too-short = leg "{ $leg }" is { $length } long and does not reach the hook; make it at least { $closes }
why-out-of-step = the load would lean { $lean } degrees, because leg "{ $leg }" is { $length } long; { $closes } would let it hang level
why-hook-below = the hook would stand { $below } below the centre of gravity and the load would roll over; make the legs longer: leg "{ $leg }" is { $length }, and must be well over { $level }
why-one-side = all lift points lie { $side } the centre of gravity, which stands { $outside } outside them; put a leg on the other side
why-turns-over = the load would lean { $lean } degrees before it came to rest; take lift points above the centre of gravity and on both sides of it
why-no-balance = no position in which the load balances was found; check lift points and lengths
side-ahead = ahead of
side-behind = behind
side-left = left of
side-right = right of

### What an inspector should know besides

warn-just-slack = leg "{ $leg }" is just slack at { $length }; a little shorter and it begins to carry
warn-slack = leg "{ $leg }" is slack at { $length }; it begins to carry at { $closes }
warn-worst-case = shared otherwise, { $legs } would carry up to { $percent } of the rating; see that all legs bear evenly
warn-rule-two = by the rule that two legs carry, a leg is at { $percent } of its rating; the governing manual says which rule counts
warn-rule-three = by the rule that three legs carry, a leg is at { $percent } of its rating; the governing manual says which rule counts
warn-no-worst-case = a leg pulls the load down, so legs can pull against each other and no tension is the largest
warn-flat = leg "{ $leg }" stands at { $angle } degrees from the horizontal; rigging tables end at { $end }
warn-leans = the load leans { $lean } degrees; see that nothing can shift
warn-neutral = nothing holds the load from turning about the line of its lift points; a touch could turn it
warn-unknown-stretch = the stretch of { $legs } is not given and is taken as 0.5 % at rated load; the tensions depend on it
warn-no-source = no source is given for the rating of { $parts }; name the manual or data plate
warn-factor = every force is multiplied by { $factor } before it is held against its rating: such a factor belongs to limit loads, a working load limit already has one

### The picture

picture-title = Rigged load: { $state }
picture-hangs = { $mass } hangs { $attitude }
picture-governs = { $part } governs: { $percent } of { $rated }
picture-governs-at-rest = at rest { $part } governs: { $percent } of { $rated }
picture-foot = Assists a qualified inspector; the governing manual rules. Ratings are those of the file; the outline of the load is drawn by its lift points.
picture-parts = Part at rest, by share of its rating
picture-carries-times = carries × { $factor }
picture-shared = Shared otherwise, leg { $leg } carries { $force } at worst, { $percent } of its rating; { $rules }.
picture-not-shown = Not shown: other parts of the legs, at a smaller share ({ $count }).
view-side = Side, nose to the right
view-front = Front
view-top = Top, nose to the right

### What is wrong with a rigging file

rule-wrong = "{ $text }" is no rule; write rule = "rest", "three legs", "two legs" or "worst case"
reeved-wrong = "{ $text }" is no way to reeve a chain; write reeved = "loop" or "single"
rope-alone = a rope without a chain is the whole leg
rope-alone-mend = write length = "…" instead
length-and-rope = the leg has both a length and a rope or chain
length-and-rope-mend = write length alone, or rope and chain
links-out = { $key } is { $number }
links-out-mend = write a whole number from 1 to 2000
key-missing = { $key } is missing
key-missing-mend = add { $key } = { $example }
the-aircraft = the aircraft
the-load = the load
named-hook = hook "{ $name }"
named-leg = leg "{ $name }"
named-part = part "{ $name }"
reach-missing-mend = add length = "12 ft", or rope = "…" and chain = {"{"} … {"}"}
mend-it = mend it

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
solve-too-many = under two hooks there are { $ways } ways to seat the links, and { $most } are gone through; hold every chain to { $each } links at most, with --between LEG=A-B for each leg
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

### In the walk

link-beside-plan = Leg { $leg }: link { $planned } planned, link { $counted } counted.
link-not-counted = Leg { $leg }: link { $planned } planned, not counted yet.
expected-picture = As it is planned to hang, from its side, the nose to the right:
two-hooks-left-out = load { $load }: its rigging hangs on two hooks, and its conditions leave { $condition } out; add it to when

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
editor-text = Its text; slings at hand and flight stay with the file
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
editor-weighing = Weighing
editor-weighing-intro = What each scale shows with the load level, and where its push goes through; for the height a second weighing with the load tilted, or the height itself. What is weighed is taken over as mass and centre of gravity.
editor-weigh = Weigh
editor-add-scale = Another scale
editor-add-item = Another item
editor-scale = Scale { $number }
editor-scale-tilted = Scale { $number }, load tilted
editor-item = Item { $number }
editor-reads = shows
editor-tare = of which not the load
editor-tolerance = may be wrong by
editor-height = height of the centre of gravity
editor-tilt = Second weighing, the load tilted
editor-nose-up = nose up by
editor-left-up = left side up by
editor-raised = front raised by
editor-over = over a length of
editor-rest = rest of the weight held at: { $axis }
editor-mass = mass
editor-place-tolerance = place may be wrong by
editor-item-out = put on, or taken off
editor-put-on = put on
editor-taken-off = taken off after the weighing
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
