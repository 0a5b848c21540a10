### Examinations: keys, runs, results, the class.

## Keys

what-can-be-planted = What can be planted; give one a card with --plant:
to-rig-on-load = To rig on load { $load }, { $title }; nothing is kept:
then-lock-same = Then lock the same with --seed { $seed }
no-pick = "{ $text }" is no pick; write POINT=NAME, such as apex.fitting.cotter="cotter pin is missing"
say-standard = say your unit's standard: --find N deficiencies, --within TIME such as 4:30, --false-calls N that are let pass; none is assumed
how-many-to-find = How many must a student find, by your unit's standard?
within-what-time = Within what time? Seconds, or minutes:seconds.
how-many-false-calls = How many calls where nothing is wrong does your unit's standard let pass? 0 for none.
no-number-of-false-calls = "{ $text }" is no number of false calls
no-number-of-deficiencies = "{ $text }" is no number of deficiencies
no-time = "{ $text }" is no time; write seconds, or minutes:seconds such as 4:30
card-numbered = card { $card }
key-line = Key { $key }: load { $load }, procedure { $procedure }, { $standard }
key-locked = locked { $at } by { $by }
planted-for-instructor = planted, in the order of the load; for the instructor alone:
planted-known-here = what is planted is known to this device: exam keys { $key } --reveal
planted-known-to-instructor = what is planted is known to the instructor's device alone
runs-and-results = runs { $runs }, results { $results }

## Runs

name-key-and-student = name the key and --student NAME, or go on with --run ID
several-runs-fit = several runs fit { $digits }; give more digits
no-open-run-fits = no run that goes on fits { $digits }; see exam result
sheet-frames = { $count ->
    [one] { $count } frame
   *[other] { $count } frames
}, of which { $enough } are enough, in { $folder }
several-runs-of = several runs fit { $which }; give more digits
go-on-with-run = go on: exam run --run { $id }
score-run = score it: exam result { $id }
bring-to-instructor = bring it to the instructor: exam sheet { $id } --out FILE
events-were-lost = its events were lost
load-and-key = load { $load } key { $key }
result-figures = found { $found } of { $of }, false calls { $calls }, { $time }, attempt { $attempt }
run-open = open
run-ended = ended
run-scored = scored
run-lost = lost
result-passed = passed
result-failed = failed
result-unclear = unclear
result-line = { $outcome }: { $student } on load { $load }, attempt { $attempt }; key { $key }; by { $instructor } ({ $authority })
standard-line = standard: { $standard }
in-order-of-load = In the order of the load:
false-call-line = {"["}?] Card { $card }, { $title }: called "{ $called }" at { $at }, where nothing was wrong
time-by-card = Time by card:
result-digest = Result { $digest }

## The class

class-is-empty = There is no result to count: score a run that has ended (exam result), or take in what brings results (bundle read).
students = Students
column-runs = runs
column-passed = passed
column-first = first
column-retests = retests
column-unclear = unclear
column-found = found
column-false = false
missed-most = Missed most (first attempts, { $count } of them; in brackets the range that 95 of 100 such counts keep to)
missed-line = { $missed } of { $of } { $share } % ({ $low } to { $high })  { $procedure }: { $deficiency }
items-head = Items (p: share that found it; D: upper less lower 27 %; r: with the rest of the score)
item-line = p { $p }  D { $d }  r { $r }  { $students } students  { $procedure } card { $card } { $point }: { $deficiency }; { $said }
time-by-card-head = Time by card (middle, longest)
card-time-line = { $middle } { $longest }  { $runs } runs  { $procedure } card { $card }  { $title }

## What core says of examinations

run-in-doubt = { $student } on load { $load }: { $doubt }
run-sheet-missing = { $student } on load { $load }: the run's sheet is not here; ask for its bundle
weaker-find-it = the weaker students find it oftener: look at how it was planted
most-miss-it = most miss it: teach it
nearly-all-find-it = nearly all find it: plant another
tells-but-little = tells good from weak students but little
tells-good-from-weak = tells good from weak students
too-few-students = too few students to tell
standard-words = { $calls ->
    [one] { $least } of { $of } within { $time }, at most 1 false call
   *[other] { $least } of { $of } within { $time }, at most { $calls } false calls
}
key-fault = examination key { $paper } (load { $load }): { $error }
sheet-fault = examination sheet { $paper } (load { $load }): { $error }
result-fault = examination result { $paper } (load { $load }): { $error }
result-does-not-count = result { $result } of { $student } on load { $load } does not count: { $error }
instructor-revoked = the credential of { $holder } is revoked by now
clock-jumped-in-run = { $count ->
    [one] the clock jumped once during the run; the time is what is certain, not what it took
   *[other] the clock jumped { $count } times during the run; the time is what is certain, not what it took
}
no-debrief-without-sheet = the run's sheet is not here, so that no debrief can be shown
result-is-training = Examination result: training. It is no inspection, and no load is fit by it.
reason-found = Found { $found } of { $of }; { $least } wanted.
reason-time = Time { $time }; { $given } given.
reason-false-calls = False calls { $calls }; { $most } let pass.
reason-unclear = The device's clock jumped, so that nobody knows the time: run again.
found-at = found at { $at }
found-at-called = found at { $at }, called "{ $called }"
missed-not-reached = missed: not reached
missed-passed-as-good = missed: passed as good, { $stood } at the card
debrief-words = Card { $card }, { $title }: { $shown }: { $what }
run-is-ended = this run is ended; its clock has stopped
not-paused = an examination is not paused; the clock runs until its end
nothing-corrected = in an examination nothing is corrected; call what you find and go on
not-decided = an examination is not decided; end the run
no-place-in-examination = this has no place in an examination; go on
standard-of-planted = the standard must be of 1 to 12 planted deficiencies
standard-asks-wrong = the standard asks for none, or for more than is planted; ask for 1 to that many
standard-time-wrong = the time must be from 1 second to 4 hours; give another
nothing-to-plant = say what is planted: --draw 4 draws four, --plant POINT=NAME picks one; --preview lists all that can be planted
run-that-ended = ended run
