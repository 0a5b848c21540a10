### One answer a line: what is refused before the inspection is asked.

standard-input-not-text = standard input: { $plain }; give lines of UTF-8
no-load-in-hand = no load is in hand; name a tag
several-loads-in-hand = several loads are in hand: { $loads }; name one with --walk
only-an-examination-ends = only an examination is ended; decide with fit or notfit
value-missing = no value; write value POINT VALUE
reason-missing = no reason; write na POINT REASON
nothing-to-undo = there is nothing to undo; go on
again-good-or-bad = write again N good, or again N bad
examination-gives-no-seal = no seal comes of an examination; end it
not-an-answer = "{ $other }" is no answer; see slingseal inspect --help
at-no-card = the inspection stands at no card; see next=
card-has-no-such-point = card { $card } has no point "{ $which }"; name 1 to { $last } or an id
no-pin-to-seal-with = no PIN to seal with; set SLINGSEAL_PIN or write a line pin PIN
not-a-deficiency-of = "{ $text }" is not a deficiency of { $point }; use its number, other with a note, or: { $names }
not-a-number = "{ $text }" is no number; write { $form }
standard-output-failed = standard output: { $plain }; the inspection stays as it is
rigger-may-not-practise = { $rigger } rigged the practice load, and nobody inspects a load that they built; take another call sign
