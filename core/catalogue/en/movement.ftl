# What becomes of a load after its verdict.

movement-lifted = lifted
movement-refused = refused at the hook: { $cause }
movement-refused-plain = refused at the hook
movement-lost = lost or jettisoned
movement-set-down = set down
movement-derigged = derigged
movement-returned = equipment returned

refusal-verdict = the verdict was not GO
refusal-rigging = the rigging is not right
refusal-damage = the load shifted or is damaged
refusal-wrong-load = it is the wrong load
refusal-too-heavy = it is too heavy
refusal-unstable = it hung or swung badly
refusal-aircrew = the aircrew broke off
refusal-zone = the zone was not safe
refusal-other = another reason, see the note

reason-lifted-before = It was lifted already at { $at } ({ $by }). If it has stood on the ground since, inspect it again.
reason-lifted-before-here = It was lifted already at { $at } (this device). If it has stood on the ground since, inspect it again.
reason-moved = Since its inspection: { $event } at { $at } ({ $by }). Inspect again.
reason-moved-here = Since its inspection: { $event } at { $at } (this device). Inspect again.
reason-movement-unsigned = An unsigned report says: { $event } at { $at }. Ask before you lift.

reported-unsigned = reported, unsigned: { $event } { $at }
report-of-this-device = this device, unsigned
report-of-other-device = device { $device }, unsigned
report-of-lapsed = { $by }, whose credential had run out
report-of-stranger = somebody who is not known here
report-too-large = the report has { $bytes } bytes and the largest code holds { $most }; name fewer photographs or pieces, or write less
report-given-later = reported { $written }
report-shown = the verdict shown was { $verdict }
report-aircraft = aircraft { $name }
report-place = at { $place }
report-piece-back = piece { $serial } goes back
report-piece-damaged = piece { $serial } is damaged
report-piece-back-damaged = piece { $serial } goes back damaged
report-note = note: { $note }

only-refusal-has-cause = only a refusal has a cause; leave it out
only-own-unsigned = only a report that this device wrote and nobody signed is signed here
signed-already = it is signed already
other-cause-needs-note = another cause needs a note; say why
name-each-piece-back = name each piece that is back by its serial number
piece-named-twice = piece { $serial } is named twice; name each once
say-back-or-damaged = say of piece { $serial } whether it is back, damaged, or both
no-load-is-meant = no load is meant: scan its tag or its seal first, or name the load
time-is-ahead = { $at } is ahead of this device's clock, { $now }; give the time at which it happened
no-photo-digest = "{ $text }" is no digest of a photograph
kind-scan-tag = this is a { $kind }; scan the tag on the load, or give the load number
no-such-event = "{ $text }" is no event; use { $events }
no-such-cause = "{ $text }" is no cause of a refusal; use { $causes }
refusal-needs-cause = a refusal needs its cause; use { $causes }
nothing-known-scan-tag = nothing is known here of load { $load }; scan the tag that hangs on it

## Closing a day

closing-of-no-leader = { $who } signed this closing statement and is no leader
closing-credential-ran-out = the credential of { $who } had run out when this closing statement was signed
