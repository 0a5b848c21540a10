### A load's story: what happened to it, on the page, on paper and on the phone. And how a record stands.

tag-made-unsigned = Tag made for { $aircraft }, { $gross }, unsigned
tag-made-signed = Tag made for { $aircraft }, { $gross }, signed by { $who }
sealed-fit-until = Sealed fit by { $by }, holds until { $until }
sealed-not-fit = Sealed NOT FIT by { $by }
taken-back-by = taken back by { $by }: { $cause }
somebody-not-trusted = somebody who is not trusted here
movement-told = { $what }, { $origin }
movement-shown = { $told }, shown { $verdict }
movement-reported-later = { $told }, reported { $at }
with-words = { $said }: { $note }
with-note = { $said } ({ $note })
card-and-point = card { $card }, { $point }
finding-numbered = finding { $number }

## An inspection's events

inspection-began = { $inspector } began the inspection: { $title } ({ $procedure } { $version })
on-the-tag = On the tag: { $fault }
clock-jumped = The device's clock jumped from { $from } to { $to }
card-good = Card { $card } good
card-good-titled = Card { $card } good: { $title }
cards-good-from-to = Cards { $first } to { $last } good
cards-good = { $count ->
    [one] 1 card good
   *[other] { $count } cards good
}
answers-good = { $count ->
    [one] 1 answer good
   *[other] { $count } answers good
}
answered = { $place }: { $value }
value-good = good
value-not-applicable = not applicable: { $why }
deficient-with-value = Deficient, { $place }: { $wrong } ({ $value })
deficient = Deficient, { $place }: { $wrong }
piece-rejected = Piece { $serial } rejected
corrected = Corrected: { $what }
corrected-by = Corrected by { $by }: { $what }
reinspected-good = Reinspected, good: { $what }
reinspected-still-deficient = Reinspected, still deficient: { $what }
answer-taken-back = Answer { $answer } taken back
went-to-card = Went to card { $card }
rigging-within-limits = Rigging within limits at rest: { $summary }
rigging-over-limits = Rigging OVER LIMITS: { $summary }
paused = Paused
went-on = Went on
stopped = Stopped: { $reason }
decided-fit = Decided fit
decided-not-fit = Decided not fit
decision-taken-back = The decision was taken back

## The word over a record

banner-fit = FIT
banner-not-fit = NOT FIT
banner-superseded = SUPERSEDED
banner-void = VOID
banner-expired = EXPIRED
banner-refused = REFUSED
banner-wait = WAIT
banner-no-inspection = NO INSPECTION
photo-of-inspection = inspection by { $by }
