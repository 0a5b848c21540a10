### Closing a day: what does not add up, what is known of it, and what to do.

title-never-inspected = Planned and never inspected
title-never-lifted = Inspected and never lifted
title-refused-at-hook = Refused at the hook
title-lifted-without-go = Lifted without a known GO
title-lifted-after-expiry = Lifted after its inspection ran out
title-lifted-after-void = Lifted after its seal was voided
title-never-set-down = Lifted and never set down
title-lost = Lost
title-contradiction = Reports that contradict
title-inspected-twice = Inspected twice by one person
title-walked-too-fast = Walked faster than the cards can be touched
title-piece-out = Equipment out and not back
title-journal-ends-early = A device's journal goes on
title-missing = Missing from a chain

todo-never-inspected = Find the load: inspect it, or say why it stayed.
todo-never-lifted = Ask the hookup team; have the lift reported with its time, or say that it stayed.
todo-refused-at-hook = Put right what they found and inspect it anew, or say that it stays.
todo-lifted-without-go = Ask who lifted it and why; look at the load before anyone flies it again.
todo-lifted-after-expiry = Ask why nobody inspected it anew.
todo-lifted-after-void = Ask whether the void had reached the hook.
todo-never-set-down = Ask the destination; have the set-down reported with its time.
todo-lost = Report it as the rules say; mark where it came down.
todo-contradiction = Ask both reporters.
todo-inspected-twice = Ask what the second inspection was for.
todo-walked-too-fast = Ask the inspector; have the load looked at again where it still can be.
todo-piece-out = Ask the destination for it; have its return reported by serial number.
todo-journal-ends-early = Take in a bundle of that device.
todo-missing = Take in a bundle of that device; if it has no such word, find out why.

report-told = { $event } { $at } ({ $by })
subject-load = load { $load }
subject-piece = piece { $serial }
subject-device = device { $device }
known-planned = planned { $at }
known-found-fit = found fit { $at } by { $by }
known-found-not-fit = found NOT fit { $at } by { $by }
known-both = { $one }, and { $other }
known-with-pieces = { $told }, with { $serials }
known-walked = { $count ->
    [one] { $by } walked 1 card in { $took }, { $at }
   *[other] { $by } walked { $count } cards in { $took }, { $at }
}
known-refused = { $told }, { $cause }
known-go-no-inspection = { $told }, shown GO, and no inspection that found it fit is here
known-shown = { $told }, shown { $verdict }: { $reason }
known-no-verdict = { $told }, no verdict is told
known-ran-out = { $told }, the inspection ran out { $at }
known-voided = { $told }, voided { $at }
known-found-fit-twice = { $by } found it fit { $first } and { $second }
known-went-out = { $kind } { $serial } went out with load { $load }, { $at }
known-journal-goes-on = entry { $heard } of its journal was heard of; what came of it ends at { $held }
known-missing = { $digest } is named as the word before another, and is not here
