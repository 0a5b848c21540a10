### Procedures as a list shows them, and load tags.

approved-by = approved by: { $authorities }
withdrawn-by = withdrawn by: { $authorities }
approved-by-nobody-a-start = approved by: nobody; a start for your own
approved-by-nobody = approved by: nobody
procedure-not-here = not here: receive it from a device that has it
edition-not-approved = No authority trusted here approves procedure { $id } version { $version }: the hook will say WAIT.
procedure-not-approved = No authority trusted here approves a procedure { $id }: the hook will say WAIT.

## What a tag rests on

weight-weighed = weighed
weight-data-plate = data plate
weight-added-up = added up
weight-estimated = estimated
label-weight-from = Weight from
label-rigged-to = Rigged to
label-airspeed-limit = Airspeed limit
label-leg-serials = Leg serials
label-edition-ordered = Edition ordered
label-conditions = Conditions
manual-edition = { $manual }, edition { $edition }
no-condition = none

## A tag's warnings

over-allowable = Gross weight { $gross } is over the allowable load { $allowable }.
piece-overdue = { $name }: inspection was due { $due }.
piece-rated-below = { $name }: rated { $rating }, less than the load.
piece-withdrawn = { $serial }: withdrawn { $at }: { $why }.
piece-was-fit-until = { $kind } { $serial }: was found fit until { $until }.
tag-unsigned = No planner has signed this tag.
signer-not-trusted = Its signer is not trusted here as a planner.
tag-forged = Its signature does not match: forged or altered.
did-you-mean = did you mean "{ $near }"?
no-conditions-leave-out = it has none: leave when out
conditions-are = it has { $list }
signed-by-somebody = somebody who is not trusted here as a planner
signed-by-nobody-forged = nobody: its signature does not match
signed-by-nobody = nobody
list-on-paper = A list on paper seals nothing. Walk it again on a device before anybody says GO.
two-texts = two texts call themselves procedure { $id } version { $version } ({ $one } and { $other }): have the writer count the version up

## What changed between two editions of a procedure

changed-id = id
changed-version = version
changed-title = title
changed-about = about
changed-subject = subject
changed-motion = motion
changed-prompt = prompt
changed-spoken = spoken
changed-answer = answer
changed-source = source
changed-card = card { $id }
changed-point = point { $id }
changed-rules = ~ { $of }: other rules for its value
changed-order = ~ the cards are walked in another order
changed-nothing = nothing
change-card = { $sign } card { $id }: { $title }
change-point = { $sign } point { $id }: { $prompt } ({ $source })
change-deficiency = { $sign } { $of }: deficiency "{ $name }" ({ $fate })
change-from-to = ~ { $what }: { $old } -> { $new }
change-none = Nothing that is walked has changed.

## What a procedure calls itself, and what it does not say in a language

procedure-of-id = procedure "{ $id }"
procedure-without-id = a procedure without an id
untold-in = { $code }: { $what }
untold-words = words of { $of }
untold-station = title of station { $id }
untold-title = title of { $of }
untold-motion = motion of { $of }
untold-prompt = prompt of { $of }
untold-deficiencies = deficiencies of { $of }
untold-options = options of { $of }
