### Faults of files that people write: plans, load lists, procedures. Each says what is wrong; another, how to mend it.

## Any file in TOML

file-too-large = the file has { $size } bytes
write-below-one-mib = write one below 1 MiB
see-toml = see the TOML specification, toml.io
wanted-text = a text
wanted-texts = a list of texts
wanted-number = a whole number
wanted-sensible-number = a whole number of a sensible size
wanted-flag = true or false
wanted-quantities = a list of { $count } quantities
wanted-table = a table
wanted-tables = a list of tables
part-has-no = { $part } has no { $key }
add-text = add { $key } = "…"
not-only-texts = { $key } has something else than a text in it
not-only-tables = { $key } has something else than a table in it
write-this = write { $example }
number-without-unit = { $key } has a number without a unit
part-has-no-section = { $part } has no [{ $key }]
add-section = add a section [{ $key }]
did-you-mean = did you mean "{ $known }"?
known-here = known here: { $known }
key-not-known = "{ $key }" is not known in { $part }
mend-the-value = mend the value
either-units = { $one }, or { $other }
use-units = use { $units }
write-the-unit = write the unit: { $units }
at-most-three-decimals = write at most three decimals, or a smaller unit
write-number-and-unit = write a number and a unit: { $units }
wrong-kind-of-unit = { $key } = "{ $text }" has the wrong kind of unit
key-is-wrong = { $key }: { $error }
key-is-not = { $key } is not { $wanted }
write-key = write { $key } = { $example }

## A load list

list-too-large = the list has { $size } bytes
split-it = split it
head-line-unreadable = the head line cannot be read: { $error }
write-column-names = write the names of the columns, comma between
no-column = there is no column "{ $column }"
add-to-head-line = add it to the head line
use-columns = use { $needed } or { $other }, or take it out
column-not-known = no column "{ $column }" is known
column-twice = the column "{ $column }" is there twice
take-one-out = take one out
line-unreadable = the line cannot be read
close-quotes = close its quotes; write UTF-8
more-loads-than = there are more than { $most } loads
split-the-list = split the list
fields-and-columns = there are { $fields } fields and { $columns } columns
quote-the-comma = put a field with a comma in it into quotes
load-stands-already = load { $load } stands on line { $line } already
own-number-each = give each load a number of its own
list-has-no-load = the list has no load
one-line-a-load = write one line a load under the head line
field-is-wrong = { $field }: { $what }
write-it-anew = write it anew
field-is-empty = the field is empty
fill-it-in = fill it in
mass-is-wrong = { $error }; write a number with kg, lb or t, such as 5000 lb
mass-not-above-zero = it is not above nought; write the mass
leg-twice-one-serial = a leg stands there twice; give each leg one serial
rigging-file-beside = { $name }: { $error }; name a rigging file beside the list
file-is-wrong = { $name }: { $error }
no-place-write-degrees = { $text } is no place; write degrees
more-than-fit-keep = { $count } are more than fit on a tag; keep { $most } at most
piece-no-kind-and-serial = "{ $text }" has no kind and serial number; write kind | serial | rating | source of the rating | next inspection
piece-more-than-five = "{ $text }" has more than five parts; write kind | serial | rating | source of the rating | next inspection
piece-rating-no-source = the rating of { $serial } has no source; write kind | serial | rating | source of the rating | next inspection
no-rating = "{ $value }" is no rating; write a number with lb, kg, t, kN or lbf
no-leg-with-serial = "{ $text }" is no leg with its serial; write 1:SL-0091; 2:SL-0092 and so on
no-manual-with-edition = "{ $text }" is no manual with its edition; write title | edition
airspeed-no-source = "{ $text }" has no source; write limit | source, such as 80 kt | the manual's row
airspeed-is-wrong = { $error }; write limit | source, such as 80 kt | the manual's row
airspeed-not-above-zero = the limit is not above nought; write limit | source, such as 80 kt | the manual's row
no-leg-with-link = "{ $text }" is no leg with its link; write 1:3; 2:3 and so on

## A load's plan

mend-that-file = mend that file, or leave the line out
leg-twice = a leg stands there twice
one-leg-with-serial = give each leg one [[leg]] with its serial
more-conditions-than-fit = { $count } conditions are more than fit on a tag
keep-at-most = keep { $most } at most
rigging-other-mass = the rigging is for { $rigging } and the plan for { $plan }
same-mass-in-both = write the same gross mass in both
rigging-names-rule = the rigging file names the rule "{ $rule }", and a tag carries none
assess-at-desk = assess that file at the desk, and leave the rule out of the one for the tag
rigging-other-allowable = the rigging allows { $rigging } and the plan { $plan }
same-allowable-in-both = write the same allowable load in both
rigging-other-link = the plan wants link { $link } on leg { $leg } and the rigging another
same-link-in-both = write the same link in both
key-is-that = { $key } is { $value }
write-speed-above-zero = write a speed above nought
write-mass-above-zero = write a mass above nought
more-tables-than-fit = { $count } [[{ $key }]] are more than fit on a tag
rating-no-source = the rating has no source
add-source = add source = "…": the manual or data plate it is read from
leg-no-link-number = the leg has no link number between 1 and 2000
add-link = add link = 3

## A procedure's file

subject-not-known = the subject is not known; write load, piece, aircraft, zone or handling
second-round = a second round is called "{ $name }"
give-another-name = give it another name
second-point = a second point is called "{ $id }"
rename-one = rename one
no-station = the file has no station
add-station = add [[station]] with cards
round-not-used = no station, card or point has each = this round
use-or-take-out = use it, or take it out
point-not-used = no card uses the point "{ $id }"
name-in-use = name it in a card's use = ["…"], or take it out
no-version = the file has no version
add-version = add version = 1 and count up with each edition
out-of-range = { $key } = { $value } is out of range
write-least-to-most = write { $least } to { $most }
round-has-values = the round has { $count } values
write-values = write values = ["1", "2"], 1 to { $most }
values-not-short = the values stand in ids and are not short names, each its own
write-each-once = write each once, at most { $most } small letters, digits and hyphens
second-column = a second column is called "{ $name }"
column-no-words = the column has no words
add-words = add words = ["…"], one for each value
words-and-values = words has { $texts } texts and values has { $values }
one-for-each-value = write one for each value, in the same order
station-no-card = the station has no card
add-card = add [[station.card]]
card-no-point = the card has no point
add-point = add use = ["…"] or [[station.card.point]]
add-point-of-id = add a [[point]] of this id
known-are = known: { $known }
no-point-has-id = no [[point]] has the id "{ $id }"
add-round-named = add [[round]] with name = "{ $name }"
no-round-called = no [[round]] is called "{ $name }"
round-open-already = the round "{ $name }" is open already around this
take-each-out = take each out here, or use another round
walk-too-large = the walk has { $cards } cards and { $points } points
keep-walk-to = keep it to { $cards } cards and { $points } points
two-have-id = two { $what } have the id { $id }
point-no-deficiency = the point names no deficiency
add-in-place = add in_place = ["…"] for what can be corrected on the spot, rerig = ["…"] for what cannot
two-deficiencies-one-name = two deficiencies of the point have one name
name-them-apart = name them apart
other-is-kept = "other" is kept for what has no name
take-out-always-offered = take it out: it is always offered
again-is-not-card = again is not "card"
write-again-card = write again = "card", or take it out
write-condition-name = write a short name, small letters, digits and hyphens, as the plan's conditions have it
when-not-short = when is not a short name
write-measure-of-time = write kind = "measure" and most = "366 d", or unit = "d"
fit-for-no-time = fit_for stands on no measure of time
count-needs-expected = a count needs one expected value
add-expect = add expect = 3, or links_of_leg = "1" for the link count on the tag, or of_manual = true where the manual has it
choice-has-options = a choice has 2 to 9 options
write-options = write options = ["…", "…"]
two-options-one-name = two options have one name
right-names-none = right does not name one or more of the options
write-right = write right = ["…"], each exactly as in options
least-most-differ = least and most measure different things
use-one-unit = use one kind of unit
most-below-least = most is below least
swap-them = swap them
measure-needs-range = a measure needs a range
add-range = add least = "2 in" or most = "3 in", or both; or unit = "psi" where the manual has the range
unit-not-known = the unit is not known; write psi
kind-not-known = kind = "{ $other }" is not known
use-kinds = use look, count, choice, measure, serial or text
there-in-language-only = { $key } is there in { $code } only
add-in-english = add { $key } = "…" in English
texts-and-english = { $code }.{ $key } has { $texts } texts and { $key } has { $english }
one-for-each-in-english = write one in { $code } for each in English, in the same order
not-a-short-name = { $key } = "{ $text }" is not a short name; use small letters, digits and hyphens, at most { $most }
empty-text = { $key } has an empty text
write-few-words = write a few words
control-character = { $key } has a control character in it
write-on-one-line = write it on one line
brace-not-closed = { $key } has a {"{"} that no {"}"} closes
close-or-take-out = close it, or take it out
stands-for-nothing = { $key }: { $slot } stands for nothing here
too-long-filled = { $key } has { $longest } characters once it is filled
keep-it-to = keep it to { $most }
no-round-open = no round is open here: add each = "…", or write the words

## Words of a plan

no-weight-source = "{ $text }" is no source of a weight; write weighed, data plate, added up or estimated
no-condition-name = "{ $text }" is no name of a condition; write letters, digits and hyphens, at most { $most }
source-is-no-mark = the source is not one of the three marks; write "published NAME", "common practice" or "user's own"
units-mass = kg, lb or t
units-length = m, cm, mm, ft or in
units-force = N, kN or lbf
units-pressure = psi, kPa or bar
units-speed = kt, km/h or m/s
units-duration = min, h or d

## What a system says of a file

system-not-found = no such file or directory
system-not-allowed = permission denied
system-is-folder = is a directory
system-is-no-folder = not a directory
system-disk-full = no space left on device
system-read-only = read-only file system
