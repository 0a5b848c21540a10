### The verdict, its reasons, and where a load stands. Each reason says what is wrong and what to do.

## Reasons

reason-unreadable = The code cannot be read: { $why }
reason-no-inspection-known = No inspection of this load is known here. Scan the inspector's seal.
reason-bad-signature = The seal is forged or altered. Keep the load down and call the leader.
reason-unknown-authority = The seal comes from an authority that this device does not trust.
reason-not-an-inspector = { $who } signed and is not an inspector.
reason-credential-expired = The credential of { $inspector } had run out ({ $expired }).
reason-revoked = The authority has revoked the credential of { $who }.
reason-not-fit = The inspector found this load NOT fit.
reason-open-deficiency = { $count ->
    [one] The seal leaves 1 deficiency found and not corrected. Inspect again.
   *[other] The seal leaves { $count } deficiencies found and not corrected. Inspect again.
}
reason-expired = The seal ran out at { $at }. Inspect again.
reason-valid-too-long = The seal claims to hold longer than the { $most } allowed.
reason-other-load = The seal is for load { $sealed }; this is load { $tag }.
reason-tag-changed = The tag on the load is not the one that was inspected. Inspect again.
reason-procedure-not-ordered = The tag orders procedure { $ordered }; { $walked } was walked. Inspect again by what it orders.
reason-tag-forged = The tag on the load is forged or altered.
reason-own-work = { $who } rigged this load and may not inspect it.
reason-newer-fit = A newer inspection exists ({ $at }). Scan that seal.
reason-newer-not-fit = A newer inspection found this load NOT fit ({ $at }).
reason-voided = { $by } voided the seal at { $at }: { $cause }.
reason-voided-said = { $by } voided the seal at { $at }: { $note }
reason-roster-too-old = The roster of { $authority } is out of date since { $since }. Get a new one.
reason-no-roster = No roster of { $authority } here. Get one: someone may be revoked.
reason-from-the-future = The seal is dated { $ahead } ahead of this device. Check both clocks.
reason-clock-behind-itself = This clock is behind: this device was at { $time } already. Set it.
reason-clock-behind = This clock is behind: { $by } signed at { $time }. Set it.
reason-copy-out-of-date = This page held until { $until }. Get a new file from the leader.
reason-memory-put-back = An older copy of this device's memory was put back ({ $since }). Receive a newer roster of every authority trusted here.
reason-procedure-not-approved = { $authority } has not approved procedure { $procedure } version { $version }. Get a newer roster, or inspect by an approved list.
reason-nothing-approved = { $authority } has approved no procedure; { $procedure } version { $version } was walked. Get a newer roster of it.
reason-procedure-withdrawn = { $authority } withdrew procedure { $procedure } version { $version } ({ $since }). Inspect by an approved list.
reason-tag-unsigned = No planner has signed the tag. Check weight and aircraft with the leader.
reason-tag-planner-unknown = The tag's planner is not known here. Check weight and aircraft.
reason-planner-expired = The credential of { $planner }, who planned, ran out ({ $expired }). Have the tag signed anew.
reason-equipment-rated-below = { $kind } { $serial } is rated { $rating } and the load weighs { $gross }. Rig it anew.
reason-equipment-overdue = { $kind } { $serial }: its inspection was due { $since }. Have it inspected or change it.
reason-equipment-withdrawn = { $kind } { $serial } was withdrawn { $at }: { $why }. Take another piece; rerig and inspect anew.
reason-equipment-list-not-approved = { $kind } { $serial } was found fit by procedure { $procedure } version { $version }, which { $authority } does not approve. Have it inspected by an approved list.
reason-rigger-not-known = Who rigged the load is not known here. Make sure that another person inspected it.
reason-examination-key = This is an examination key: training, and no inspection. Deficiencies are planted on that load.
reason-examination-result = This is an examination result: training, and no inspection. It says nothing of a load.
reason-tag-not-seen = Tag not scanned. The seal is for load { $load } alone: compare.
reason-mass-over-allowable = The load weighs { $mass }; the aircraft is allowed { $allowable }.
reason-corrected = { $count ->
    [one] 1 deficiency was found and corrected.
   *[other] { $count } deficiencies were found and corrected.
}
reason-expires-soon = The seal runs out in { $left }.

## Why a seal was voided

void-rigging-disturbed = the rigging was disturbed
void-load-moved = the load was moved
void-hookup-aborted = a hookup was broken off
void-equipment-withdrawn = equipment on it was withdrawn
void-other = another reason, see the note

## The verdict, spoken

spoken-go = Go. { $first }
spoken-wait = Wait. Do not hook up yet. { $first }
spoken-no-go = Do not lift. { $first }
verdict-inspected-by = Load { $load } inspected by { $who }, { $at }.

## What hurts people under a hovering aircraft. The voltage is from TM 1-1520-240-10, 4-3-9; the rest is common practice.

caution-static = Ground the hook before you touch it: static up to 40,000 V.
caution-obstacle = Never stand between the load and an obstacle. Know your way out.
caution-manual = This supports the hookup team; the governing manual and the aircrew rule.
caution-persons = Nobody rides on this load or hangs from it: there is no procedure for persons here.

## Where a load stands

state-planned = Planned
state-walking = Being inspected
state-fit = Fit
state-waits = Wait
state-not-fit = Not fit
state-refused = Refused
state-expired = Expired
state-voided = Voided
state-lifted = Lifted
state-set-down = Set down
state-lost = Lost

## Nothing to judge

nothing-scanned-scan-seal-tag = nothing was scanned; scan the seal or the tag

## Roles of a credential

role-inspector = inspector
role-planner = planner
role-hookup = hookup
role-leader = leader
role-instructor = instructor
