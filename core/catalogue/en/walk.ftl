### The inspection: refusals, what stands in the way of fit, what a look said. Each refusal says what is wrong; what to do.

refusal-not-begun = the inspection has not begun; begin it
refusal-begun-already = the inspection has begun already; go on where it stands
refusal-paused = the inspection is paused; resume it first
refusal-not-paused = the inspection is not paused; go on
refusal-not-decided = nothing is decided; go on
refusal-ended = this inspection is ended ({ $how }); inspect the load again in a new one
refusal-inspector-is-rigger = { $inspector } is the rigger named on the tag; another inspector must inspect this load
refusal-other-procedure = the tag asks for procedure { $tag } and this one is { $procedure }; take { $tag }
refusal-not-the-inspector = { $by } is not the inspector of this inspection; { $inspector } must do this, or stop it and begin anew
refusal-not-this-card = that answer was for card { $pressed } and the inspection is at { $current }; read the screen and press again
refusal-no-such-card = there is no card { $card }; go to 1 to { $last }
refusal-not-on-this-card = { $point } is not on card { $card }; name a point of the card
refusal-no-such-deficiency = "{ $name }" is not a deficiency of { $point }; use one of its names, or "other" with a note
refusal-note-needed = a deficiency called "other" needs a note; say what is wrong
refusal-too-many-photos = { $photos } photos are too many for one entry; keep the best { $most }
refusal-open-already = that deficiency is open already as number { $finding }; have it corrected
refusal-value-needed = { $point } needs its own answer first; enter its { $wanted }
refusal-applies = { $point } applies to every load of this procedure; answer it, or name what is wrong
refusal-rejects-nothing = finding { $finding } rejects no piece; name the serial of a piece that is rejected
refusal-wrong-kind = { $point } is not answered like that; enter its { $wanted }
refusal-wrong-unit = { $point } is not measured in that unit; use { $units }
refusal-no-such-option = { $point } has no option "{ $name }"; choose one of its options
refusal-open-here = finding { $finding } is open at this point; correct it and reinspect, or undo
refusal-no-such-finding = there is no finding { $finding }; see the list of findings
refusal-not-in-place = "{ $name }" cannot be corrected in place; decide not fit, then { $after }
refusal-put-right-already = finding { $finding } is corrected already; the inspector must reinspect it
refusal-not-put-right = finding { $finding } has not been corrected; have it corrected, then reinspect
refusal-closed-already = finding { $finding } is closed; nothing more to do
refusal-still-deficient = that value is still deficient; answer still deficient, or enter it again
refusal-nothing-to-undo = there is nothing to undo; go on
refusal-not-the-last-answer = answer { $pressed } is not the last one; read the screen and press again
refusal-not-fit = the load cannot be decided fit: { $first }; clear it, or decide not fit
refusal-not-fit-many = the load cannot be decided fit: { $first }, and { $more } more; clear them, or decide not fit
refusal-reason-needed = nothing on the record says why the load is not fit; give a reason

ended-fit = decided fit { $at }
ended-not-fit = decided not fit { $at }
ended-stopped = stopped { $at }

at-card = card { $card }
at-decision = the decision

## What an answer needs

wanted-mark = mark
wanted-count = count
wanted-choice = choice
wanted-measure = measure
wanted-serial = serial number
wanted-text = text

## What is done after "not fit"

after-in-place = correct and reinspect it
after-rerig = rerig the load and inspect it anew
after-new-tag = make a new tag and inspect the load under it
after-reject = take the piece out of service, rerig the load with another, inspect it anew

## What becomes of a deficiency

fate-in-place = correct here, reinspect
fate-rerig = rerig, inspect anew
fate-new-tag = new tag, inspect anew
fate-reject = reject the piece by its serial

## What stands in the way of fit

block-unanswered = { $cards ->
    [one] card { $first } has no answer
   *[other] { $cards } cards have no answer, the first is card { $first }
}
block-open = finding { $finding } on card { $card } is open: { $name }
block-awaits-second-look = finding { $finding } on card { $card } awaits the second look: { $name }
block-rigging = rigging: { $summary }

## What the tag itself shows to be wrong

tag-inspection-past = { $kind } { $serial }: its next inspection was due { $due }
tag-over-allowable = gross weight { $gross } is over the allowable load { $allowable }
tag-over-rating = gross weight { $gross } is over the rating { $rating } of { $kind } { $serial }
tag-rejected = piece { $serial } was rejected { $at }: { $why }
tag-no-link-count = the tag has no link count for leg { $leg }
tag-not-a-mass = { $what } on the tag is { $value }, which is no mass

## What became of a finding, each with its time

look-corrected = { $at } corrected
look-corrected-by = { $at } corrected by { $who }
look-good = { $at } reinspected: good
look-still-deficient = { $at } reinspected: still deficient
look-with-note = { $look }: { $note }

## Cautions

caution-no-rigger = The tag names no rigger: make sure that you did not rig this load.
caution-no-allowable = The tag has no allowable load.
caution-no-rigging = The tag carries no rigging: the statics were not worked out.
caution-clock-jumped = This device's clock jumped during the inspection.

## Links that were counted and are not those of the plan

link-sits-elsewhere = Leg { $leg }: link { $link } sits in the grab hook, the plan wants { $planned }.
planned-and-now = With this link: { $now }. Planned: { $planned }.

## How a point is answered, as `procedure show` and a blank checklist say it

answer-look = look
answer-count-expected = count, expected { $number }
answer-count-of-tag = count, expected what the tag says for leg { $leg }
answer-count-of-manual = count, held against the manual
answer-choice = choice of { $options }; right: { $right }
answer-measure-between = measure, { $least } to { $most }
answer-measure-at-least = measure, at least { $least }
answer-measure-at-most = measure, at most { $most }
answer-measure-of-manual = measure in { $unit }, held against the manual
answer-measure = measure
answer-serial-of = serial number of the { $equipment }
answer-serial = serial number
answer-text = text
may-be-left-out = { $answer }, may be left out
procedure-line = { $id } version { $version }, { $cards ->
    [one] { $cards } card
   *[other] { $cards } cards
}, { $points ->
    [one] { $points } point
   *[other] { $points } points
}
only-where-tag-says = only where the tag says { $when }
may-be-not-applicable = may be not applicable, with a reason
whole-card-again = after a correction the whole card is inspected again
mark-published = published { $name }
mark-common-practice = common practice
mark-own = user's own
mark-own-words = user's own: { $said }
noun-gross-mass = gross mass
noun-allowable = allowable load
noun-rating-of = rating of { $piece }
governing-manual = The governing manual for this load rules over this list; where they differ, stop and follow the manual.
