### The inspection in the terminal.

practice-band = {" "}PRACTICE{" "}
practice-lead = PRACTICE{"  "}
state-not-answered = NOT ANSWERED
state-partly = PARTLY ANSWERED
state-good = GOOD
state-deficient = DEFICIENT
state-awaits = CORRECTED: REINSPECT
point-good = good
point-awaits = REINSPECT
finding-open = OPEN
finding-is-closed = closed
more-lines-shows-them = { $left ->
    [one] … 1 more line: + shows it
   *[other] … { $left } more lines: + shows them
}
good-deficient-reinspect = + good  ! deficient  ? reinspect
partly-not-answered = / partly  . not answered
finding-card = { $shape } { $word }  finding { $number }: { $shown }  (card { $card })
who-corrected = Who corrected it?
who-rigged-load = { $rigger }, who rigged the load
somebody-else-enter-call-sign = Somebody else: enter the call sign
not-named = Not named
inspection-begins = The inspection begins.
stand-at-load = { $student }: stand at the load. The clock starts with this key and nothing stops it.
call-what-you-find = Call what you find; nothing is corrected.
start-clock = Start the clock
leave-nothing-begun = Leave; nothing was begun
examination = Examination
last-answer-taken-back = The last answer is taken back.
no-answer-take-back = There is no answer to take back.
inspection-goes-where-stood = The inspection goes on where it stood.
card-good-takes-back = Card { $number } is good: { $title }.  * takes it back.
press-when-card-good = Press + when the whole card is good.
here-is-card = Here is card { $card }.
not-applicable-takes-back = { $prompt }: not applicable.  * takes it back.
piece-rejected-tag-set-apart = Piece { $text } is rejected. Tag it and set it apart.
deficient-takes-back = DEFICIENT: { $shown }.  * takes it back.
finding-corrected-now-reinspect = Finding { $finding } is corrected. Now reinspect it.
finding-still-deficient-stays-open = Finding { $finding } is still deficient; it stays open.
decided-not-fit = Decided: NOT FIT.
inspection-stopped-stays-record-device = The inspection is stopped; it stays on the record of this device.
not-worked-out-tag-carries = not worked out, the tag carries no rigging
statics-line = Statics: { $shape }{ $words }
finding-in-list = { $shape } { $number } { $shown } (card { $card })
nothing-open = {" "}Nothing open.
open-findings = {" "}Open: { $list }
tag-fault = {"["}!] On the tag: { $fault }
manual-rules-own-eyes = {" "}The governing manual rules; look with your own eyes.
more-open = {" "}{ $cut }  (+{ $count } more: 0, 2)
enter = Enter
back-while-nothing-typed = back, while nothing is typed
next-page = next page
more-leave = more: leave
what-called = what was called
all-cards = all cards
more-end-leave = more: end, leave
more-pause-statics-leave = more: pause, statics, leave
take-back = take back
done-nothing-say = done, or nothing to say
hint-go-there = go there
rest-good = rest is good
one-point = one point
card-good = card is good
end-run = end the run
hint-go-on = go on
more-stop-leave = more: stop, leave
seal-pin = seal with the PIN
more-other-loads-leave = more: other loads, leave
slingseal-inspect = {" "}Slingseal: inspect
manual-rules-program-assists = The governing manual rules. This program assists a qualified inspector.
head-load = {" "}Load { $load }  { $title }
cards-points = { $cards_done } of { $cards } cards, { $points_done } of { $points } points
card-of = {" "}{ $station }  card { $number } of { $of }
head-end = {" "}End
head-decision = {" "}Decision
head-paused = {" "}Paused
head-seal = {" "}Seal
head-stopped = {" "}Stopped
practice-nothing-real = PRACTICE: nothing here is real
every-card-answered-end-run = {"["} ]  EVERY CARD IS ANSWERED: end the run
finding-not-closed = {"        "}1 finding is not closed
findings-not-closed = {"        "}{ $many } findings are not closed
fit-not-sealed-yet = {"["}+]  FIT, not sealed yet
not-fit-not-sealed-yet = {"["}!]  NOT FIT, not sealed yet
something-not-closed-correct-reinspect = {"["}!]  SOMETHING IS NOT CLOSED: correct, reinspect
every-card-answered-decide = {"["} ]  EVERY CARD IS ANSWERED: decide
cannot-fit-decide = {"["}!]  CANNOT BE FIT: decide
serial-number = serial number
answer-in-words = in words
inspection-paused-every-answer-kept = The inspection is paused; every answer is kept.
moved-begin-anew = If the load was moved, opened or rerigged, stop this inspection and begin anew.
inspection-stopped-no-seal-comes = The inspection is stopped; no seal comes of it.
decided-fit-seal-it = Decided: fit to be lifted. The seal puts your name to it.
decided-not-fit-seal-it = Decided: not fit. The seal says so to everyone who scans it: the load stays on the ground.
whole-load-inspected = The whole load was inspected.
found-corrected-reinspected-not-closed = Found { $count }, corrected and reinspected { $closed }, not closed { $open_findings }.
nothing-stands-way-fit = {"["}+] Nothing stands in the way of FIT.
in-way-of-fit = In the way of FIT:
ask-card-number = Go to which card? Type its number, then Enter.  > { $typed }_
good-deficient-reinspect-partly-not = + good   ! deficient   ? reinspect   / partly   . not answered
window-too-small = This window is { $width } x { $height }. The inspection needs { $width } x { $height }: make it larger, or the letters smaller. Nothing is lost; keys wait until then. Ctrl-C leaves.
write-pictures = write pictures
code-facts = code or facts
other-loads-leave = other loads, leave
window-too-small-for-code = To show the code here the window needs { $columns } x { $rows }; it is { $width } x { $height }. Make it larger or the letters smaller, and the code appears by itself; or press + for a picture.
practice-seal-holds-nowhere = {" "}PRACTICE: this seal holds nowhere{" "}
fact-load = Load
fact-what = What
fact-gross = Gross
fact-under = Under
fact-inspector = Inspector
fact-authority = Authority
fact-sealed = Sealed
fact-holds-to = Holds to
fact-procedure = Procedure
fact-record = Record
at-the-hook = At the hook: { $word }. { $first }
take-up-load = Go on: load { $load }, { $state }, since { $dtg }
inspect-load = Inspect load { $load }: { $description }
no-load-in-hand = No load is in hand. Name its tag: slingseal inspect tag.png
practise-invented-load = Practise on an invented load
leave = Leave
which-load = Which load?
no-load-in-hand-so-practise = No load is in hand, so let us practise on an invented one: a webbing bag of rations at Kestrel Meadow.
ask-call-sign = Your call sign? Such as Anvil 3.
welcome = Welcome
ask-practice-pin = { $holder }, your PIN for practice: six digits or more, which you will seal with.
not-your-real-pin = Not your real one. It is not shown.
same-pin-again = The same PIN again.
pins-differ = the two differ; enter the PIN again
ready-practice-nothing-holds-real = Ready. This is practice: nothing here holds on a real zone.
wanted = {" "}Wanted: { $wanted }.
wanted-range = {" "}Wanted: { $range }.
piece-rejected = {" "}Piece { $piece } is rejected.
finding-recorded = Finding { $number } is recorded: { $what }.{ $wanted }{ $piece }
piece-leaves-service = The piece leaves service. Which one is it?
enter-serial-number = Enter its serial number
piece-has-no-serial = It has none: say so in the reason for NOT FIT
can-corrected-where-load-stands = It can be corrected where the load stands.
corrected-now-reinspected = Corrected NOW, and reinspected
later-stays-open-inspection-goes = LATER: it stays open, the inspection goes on
nothing-found-deficient-so-far = Nothing was found deficient so far.
findings = Findings
card-and-prompt = Card { $card }: { $prompt }
answer-seen = Seen: { $value }
note-told = Note: { $note }
found-at = Found { $dtg }
riggers-corrected = The riggers corrected it
cannot-corrected-place-not-fit = It cannot be corrected in place: NOT FIT.{ $fate_words }
piece-is-rejected = Piece { $piece } is rejected.
enter-serial-number-piece = Enter the serial number of the piece
reinspect = Reinspect it
go-card = Go to card { $card }
finding = { $shape } { $word }  finding { $number }: { $shown }
look-with-own-hands = Look at it yourself, with your own hands. Is it right now?
right-now = {"["}+] Right now
still-deficient = {"["}!] Still deficient
what-do-you-see-now = What do you see now?
count-again-enter-what-you = Count again, and enter what you counted.
measure-again-enter-what-you = Measure again, and enter what you read.
enter-what-you-see-now = Enter what you see now.
reinspect-title = Reinspect
finding-closed-reinspected-good = Finding { $number } is closed: reinspected, good.
why-does-not-apply-load = Why does it not apply to this load? A few words.
not-applicable = Not applicable
ask-which-piece = Which piece? Its serial number: it leaves service, and no load that names it is fit.
rejected-piece = Rejected piece
ask-what-is-wrong = Say what is wrong, in a few words.
note-if-more-say-enter = A note, if there is more to say. Enter alone: no note.
note-deficiency = Note to the deficiency
who-corrected-call-sign-enter = Who corrected it? A call sign; Enter alone: not named.
corrected = Corrected
still-deficient-title = Still deficient
finding-closed-now = Finding { $finding } is closed: reinspected, good.
all-keys = All keys
inspection-paused = The inspection is paused.
inspection-ends-without-decision-no = The inspection ends without a decision, and no seal can come of it.
ask-why-stop = Why? A few words; Enter alone goes back.
stop-inspection = Stop the inspection
load-stays-ground = The load stays on the ground.
ask-why-not-fit = Why? A few words. With findings on the record, Enter alone will do.
decide-not-fit = Decide NOT FIT
your-pin-puts-your-name = Your PIN puts your name to it. It is not shown.
seal-title = Seal
sign-title = Sign
sign-pin = sign with the PIN
fit-not-signed-yet = {"["}+]  FIT, not signed yet
not-fit-not-signed-yet = {"["}!]  NOT FIT, not signed yet
decided-fit-now-sign = Decided: FIT. Now sign it.
decided-signature-carries-it = Decided. Your signature carries it: without one nobody else hears of it.
inspection-signed = { $name }: signed by { $inspector }. It travels with the next bundle.
deficiency-which-point = Deficiency: at which point?
something-else-your-words = Something else, in your words
deficiency-what-wrong = Deficiency: what is wrong?
applies-answer = It applies: answer it
not-applicable-load-why = Not applicable to this load, and why
good-takes-back = Good: { $prompt }.  * takes it back.
source = Source: { $source }.
good-point-alone = {"["}+] Good, this point alone
deficient = {"["}!] Deficient
takes-back = { $prompt }: { $shown }.  * takes it back.
which-one-do-you-see = Which one do you see?
count-enter-what-you-counted = Count, and enter what you counted.
measure-enter-what-you-read = Measure, and enter what you read, in { $unit }.
read-serial-number-off-plate = Read the serial number off the plate.
your-words = In your words.
pause-inspection = Pause the inspection
go-inspection = Go on with the inspection
cautions-statics-full = Cautions and statics in full
other-loads = Other loads
leave-program-inspection-stays-where = Leave the program; the inspection stays where it is
more-title = More
manual-stands-above = The governing manual, local rules and your own judgement stand above this program.
tag-carries-no-rigging-so = The tag carries no rigging, so that no statics were worked out.
cautions-statics = Cautions and statics
not-yet = Not yet: { $first }.
you-say-it-is-rigged = You say that load { $load } is rigged as the procedure wants it.
you-looked-at-all = Every one of { $points } points was looked at by you.
decide-fit = Decide FIT?
yes-fit-lifted = {"["}+] Yes, FIT to be lifted
decided-fit-now-seal = Decided: FIT. Now seal it.
sealed-show-code-hookup-team = Sealed. Show this code to the hookup team; they check the facts aloud.
sealed-written-png-svg-txt = Sealed and written: { $shown }.png, .svg and .txt
nobody-who-trusted = nobody who is trusted here
gross-under-allowed = { $gross } under a { $aircraft }, which is allowed { $allowable }
rigged-planned = Rigged by { $rigger }; planned { $dtg } by { $planner }
procedure-titled = Procedure: { $title }
play-load-stands-before-you = Play that the load stands before you. No seal of it holds on a real zone.
load-load = Load { $load }: is this the load?
inspect-this-load = Yes, inspect it
clock-runs-call-what-you = The clock runs. Call what you find; nothing is corrected.
run-goes-clock-never-stopped = The run goes on; its clock never stopped.
call-recorded-when-rest-card = Call { $called } is recorded. + when the rest of the card is good; * takes it back.
every-card-answered = Every card is answered.
card-not-answered-what-planted = 1 card is not answered; what is planted on it counts as missed.
cards-not-answered-what-planted = { $left } cards are not answered; what is planted on them counts as missed.
end-run-clock-stops = End the run: the clock stops
go-on-back = Go on
ask-end-run = End the run?
run-ended-give-device-instructor = The run is ended. Give the device to the instructor, or bring the sheet.
end-run-title = End the run
leave-program = Leave the program
leave-program-clock-runs = Leave the program; the clock runs on
nothing-called-so-far = Nothing is called so far.
called-at-card = {"["}!] { $shown }  (card { $card })
called-so-far-go-card = Called so far: go to its card
over-time = {"  "}[!] over the time
device-clock-jumped = {"  "}[!] the device's clock jumped
called-key = {" "}Called { $calls }.   Key { $key }
clock-line = {" "}Time { $clock }{ $over }{ $jumped }
examination-training-no-inspection-governing = {" "}Examination: training, and no inspection. The governing manual rules.
run-ended = The run is ended: { $clock }.
no-seal-comes-instructor-scores = No seal comes of it. The instructor scores it:
device-slingseal-exam-result = {"  "}on this device    slingseal exam result { $sheet }
another-slingseal-exam-sheet-out = {"  "}on another        slingseal exam sheet { $sheet } --out FILE
ends-run-goes-back-card = + ends the run; . goes back to a card.
run-load-ended-score-slingseal = The run of { $student } on load { $load } is ended: { $clock }. Score it: slingseal exam result { $sheet }
run-load-goes-clock-back = The run of { $student } on load { $load } goes on, and its clock with it. Back to it: slingseal exam run --run { $id }
key-held-down = A key is held down. Let go and look: * takes the last answer back.
sealed-show-again = { $practice }Load { $load } is sealed; show the seal again with: slingseal { $home }records seal { $digest }
stands-at-card = at card { $number } of { $of }
load-was-stopped = { $practice }Load { $load }: the inspection is stopped.
decided-not-sealed = decided and not sealed
stands-at-decision = at the decision
load-stands = { $practice }Load { $load } stands { $at }; every answer is kept. Go on with: slingseal inspect
terminal-cannot-used-try-another = the terminal cannot be used: { $plain }; try another one
someone-not-named = someone not named

## Beside the keys: each at most fifteen letters

hint-back = back
hint-done = done
hint-erase = erase
hint-leave = leave
hint-pick = pick
hint-called = called
hint-findings = findings
hint-not-fit = NOT FIT
hint-fit = FIT
hint-later = later
hint-number = number
hint-deficiency = deficiency
hint-reinspect = reinspect

## The seal's facts

found-label = Found
count-corrected = { $found }, corrected { $corrected }
fit-sealed = {"["}+]  FIT, SEALED
not-fit-sealed = {"["}!]  NOT FIT, SEALED

all-keys-text =
    On a card
    +  the whole card is good (also g); asks first for what must be counted or read
    -  a deficiency: the point by its number, then what is wrong (also d)
    1 to 9  one point alone: good, deficient, or its count, choice or measure
    {"*"}  take the last answer back (also u, Backspace)
    /  findings: correct, reinspect (also f)
    {"."}  all cards; type a number and Enter to go there (also c)
    0  more: pause, statics, abandon, leave (also m, ?, Esc)

    In a list
    1 to 9  pick    +  next page    -  back (also Esc)

    Where something is typed
    Enter  done    *  erase (also Backspace)    -  back while nothing is typed (also Esc)

    The code on the screen
    +  write PNG, SVG and text    .  code or facts    0  other loads

    Anywhere
    Ctrl-C  leave. Every answer is on disk before the screen shows it, so that nothing is lost.
fact-check = Check

## What becomes of a load, or of a piece, behind the name of a deficiency

fate-rerig = {"   "}(rerig, inspect anew)
fate-new-tag = {"   "}(new tag, inspect anew)
fate-reject = {"   "}(reject the piece)

## Bands, keys and heads

from-to = { $from } to { $to }
examination-band = {" "}EXAM{" "}
run-is-ended = {"["}x]  THE RUN IS ENDED
inspection-is-paused = {"["}=]  PAUSED
inspection-is-stopped = {"["}x]  STOPPED
point-count = count
point-choose = choose
point-measure = measure: { $unit }
deficient-what = {"["}!] DEFICIENT  { $what }
reinspect-what = {"["}?] REINSPECT  { $what }
stands-paused = paused
a-pin = A PIN
manual-rules-alone = {" "}The governing manual rules.
own-eyes = {" "}Look with your own eyes.
examination-no-inspection = {" "}Examination: training, no inspection.
