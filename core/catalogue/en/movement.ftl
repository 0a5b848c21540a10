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
