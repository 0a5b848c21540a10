# Closing an account: what does not add up, what is known of it, what to do.

point-never-inspected = Planned and never inspected
point-never-lifted = Inspected and never lifted
point-refused-at-hook = Refused at the hook
point-lifted-without-go = Lifted without a known GO
point-lifted-after-expiry = Lifted after its inspection ran out
point-lifted-after-void = Lifted after its seal was voided
point-never-set-down = Lifted and never set down
point-lost = Lost
point-contradiction = Reports that contradict
point-inspected-twice = Inspected twice by one person
point-walked-too-fast = Walked faster than the cards can be touched
point-piece-out = Equipment out and not back
point-journal-ends-early = A device's journal goes on
point-missing = Missing from a chain

to-do-never-inspected = Find the load: inspect it, or say why it stayed.
to-do-never-lifted = Ask the hookup team; have the lift reported with its time, or say that it stayed.
to-do-refused-at-hook = Correct what they found and inspect it anew, or say that it stays.
to-do-lifted-without-go = Ask who lifted it and why; look at the load before anyone flies it again.
to-do-lifted-after-expiry = Ask why nobody inspected it anew.
to-do-lifted-after-void = Ask whether the void had reached the hook.
to-do-never-set-down = Ask the destination; have the set-down reported with its time.
to-do-lost = Report it as the rules say; mark where it came down.
to-do-contradiction = Ask both reporters.
to-do-inspected-twice = Ask what the second inspection was for.
to-do-walked-too-fast = Ask the inspector; have the load looked at again where it still can be.
to-do-piece-out = Ask the destination for it; have its return reported by serial number.
to-do-journal-ends-early = Take in a bundle of that device.
to-do-missing = Take in a bundle of that device; if it has no such word, find out why.

point-of-load = load { $load }
point-of-piece = piece { $serial }
point-of-device = device { $device }

known-report = { $event } { $at } ({ $by })
known-planned = planned { $at }
known-found-fit = found fit { $at } by { $by }
known-found-not-fit = found NOT fit { $at } by { $by }
known-shown-go-alone = { $report }, shown GO, and no inspection that found it fit is here
known-shown = { $report }, shown { $verdict }: { $reason }
known-no-verdict = { $report }, no verdict is told
known-ran-out = { $report }, the inspection ran out { $at }
known-voided = { $report }, voided { $at }
known-both = { $one }, and { $other }
known-with = { $report }, with { $serials }
known-too-fast = { $by } walked { $cards ->
    [one] one card
   *[other] { $cards } cards
    } in { $took }, { $at }
known-found-twice = { $by } found it fit { $first } and { $second }
known-went-out = { $kind } { $serial } went out with load { $load }, { $at }
known-goes-on = entry { $heard } of its journal was heard of; what came of it ends at { $held }
known-missing = { $digest } is named as the word before another, and is not here

no-such-point = "{ $point }" is no point of an account; see account close
least-seconds-bounds = give 1 to 3600 seconds a card, or none
nothing-of-these-loads = nothing is known here of these loads or of that day
nothing-of-load = nothing is known here of load { $load }
points-not-explained = { $bare } of { $all } open points are not explained; say something of each, or correct it
too-many-points = { $points } points are open and a statement holds { $most }; close the day in parts, by loads

kind-of-leg = sling leg { $leg }
walk-took = { $took }, { $cards ->
    [one] one card
   *[other] { $cards } cards
    }
walk-too-fast = faster than the cards can be touched
walk-too-fast-told = walked in { $took }, { $cards ->
    [one] one card
   *[other] { $cards } cards
    }: faster than the cards can be touched
label-walked-in = Walked in

no-such-piece-state = "{ $state }" is no state of a piece; use { $known }
piece-out = out
piece-lost = lost
piece-damaged = damaged
piece-withdrawn = withdrawn
piece-overdue = inspection due
piece-on-load = on a load
piece-back = back
piece-known = at rest
piece-moment-lifted = lifted with load { $load }, { $mass }
piece-moment-lost = lost with load { $load }
piece-moment-back = back from load { $load } ({ $by })
piece-moment-damaged = damaged, load { $load } ({ $by })
piece-moment-back-damaged = back from load { $load }, damaged ({ $by })
piece-moment-found-fit = found fit by { $by }; { $found } found, { $corrected } corrected
piece-moment-fit-until = found fit until { $until } by { $by }; { $found } found, { $corrected } corrected
piece-moment-withdrawn = withdrawn by { $by }: { $why }

## The leader's page

pieces-all = All
pieces-open = To look into
pieces-table = As a table (CSV)
pieces-find = Serial, kind, load or place
piece-serial = Serial
piece-kind = What it is
piece-state = State
piece-where = Where
piece-since = Since
piece-due = Inspect by
piece-lifts = Lifts
piece-carried = Carried
piece-carried-is = { $kg } kg ({ $lb } lb)
piece-rests-on-unsigned = by an unsigned report
piece-stands-withdrawn = Withdrawn { $at } by { $by }: { $why }
piece-story = What was found, corrected and reported
piece-withdraw = Withdraw it
piece-withdraw-means = From then on every tag that names it is NO-GO wherever that is known, until an inspector finds it fit. It travels with bundles; scan or hand on its code to be quicker.
piece-withdraw-why = Why
page-of-pages = page { $page } of { $pages }
page-before = Before
page-next = Next

close-what = What does not add up, each with what is known and what to do. Correct it or explain it; once all is explained, a leader signs.
close-name = Called
close-loads = Loads, with spaces between
close-statements = Signed statements
close-explain = Explain { $subject }
close-keep = Keep
close-sign = Sign the closing
close-explain-first = Each point is corrected or explained before it can be signed.
close-no-leader = A leader signs it, on this machine: nobody with that role and a credential in force holds this desk.
close-check = check { $check }

## At the terminal

piece-line = { $kind }: { $state }{ $more }; { $lifts ->
    [one] { $lifts } lift
   *[other] { $lifts } lifts
} with { $carried }, { $inspections ->
    [one] { $inspections } inspection
   *[other] { $inspections } inspections
}
piece-line-load = , load { $load }
piece-line-since = {" "}since { $since }
piece-line-due = , inspect by { $due }
piece-line-withdrawn = , withdrawn by { $by }: { $why }
close-explained = Explained: { $note }
close-adds-up = Everything adds up. Sign it with --sign.
close-all-explained = All is explained. Sign it with --sign.
close-open = { $open ->
    [one] One point does not add up.
   *[other] { $open } points do not add up.
    } Correct them, or explain each: --explain POINT=NOTE.
close-explain-form = write --explain POINT=NOTE, with the point's id as account close shows it
close-signed = Closed: { $name }, signed by { $by } { $at }. Check { $check }.
least-seconds-set = A walk of less than { $seconds } s a card is marked. It is a sign, not a proof.
least-seconds-none = No least time a card is set.

whole-account = everything
load-and-more = load { $first } and { $more } more
