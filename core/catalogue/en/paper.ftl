### Paper: the load sheet, a record's page, the closing statement, a blank checklist. A label has a column's width.

## The load sheet

caution-manual-rules = The governing manual rules; no sheet replaces a qualified inspector. Nobody rides on or hangs from the load.
caution-only-on-go = Fly only on GO, checked before the aircraft comes in. Not inspected, moved, opened or rerigged: NO-GO.
caution-static-on-hook = Static on the hook can reach 40,000 V. Ground the hook before anybody touches it.
load-numbered = Load { $load }
many-load-sheets = { $count ->
    [one] 1 load sheet
   *[other] { $count } load sheets
}
cut-or-fold = cut or fold here
sling-load = SLING LOAD
hang-code-outward = hang on the load, code outward
tag-as-code = The tag as a code
same-tag-as-code = The same tag as a code
label-aircraft = aircraft
label-allowable-from-aircrew = allowable, from the aircrew
label-to = to
label-rigger = rigger
label-airspeed-limit = airspeed limit
label-from = from
label-grid = grid
label-procedure = procedure
gross-weight = gross weight
gross-weight-from = gross weight, { $source }
tag-signed-by = Tag signed by { $name }
tag-signed-by-rigged-to = Tag signed by { $name }   ·   rigged to { $manual }
check-word = Check { $check }
unsigned-waits = { $state }: WAIT until the leader confirms it. Check { $check }
copy-for-aircrew = Copy for the aircrew
copy-for-aircrew-head = COPY FOR THE AIRCREW
leg-counted = leg { $leg }: { $count }
link-counts = Link counts
rigged-to = Rigged to
edition-ordered = Edition ordered
verdict-seen-by = VERDICT SEEN BY
at-utc = AT (UTC)
remarks = REMARKS
head-serial = SERIAL
head-equipment = EQUIPMENT
head-rating = RATING
head-rating-source = SOURCE OF THE RATING
head-inspect-by = INSPECT BY
more-in-code = and { $count } more: scan the code

## A record's page

record-of-load = Record of load { $load }
inspection-record = INSPECTION RECORD
seal-as-code = The seal as a code
more-in-export = and { $left_out } more: see the export of this record
deficiencies-none = Deficiencies: none found
deficiencies-all-corrected = Deficiencies: { $all } found, all corrected and reinspected
deficiencies-open = Deficiencies: { $all } found, { $open } open
state-corrected = CORRECTED
state-open = OPEN
how-it-hangs = How it hangs: tensions at rest, of each part's rating
what-happened-utc = What happened (UTC)
digest-of-record = SHA-256 OF THE FULL RECORD
copy-proves-nothing = The code holds the inspector's signature; this page is a copy for people and proves nothing by itself. The governing manual rules; the record does not replace a qualified inspector.
manual-edition = { $manual }, edition { $edition }
signed-by-stranger = SIGNED BY SOMEBODY NOT TRUSTED
forged-tag = FORGED OR ALTERED TAG
unsigned-tag = UNSIGNED TAG
worst-case = Worst case, however the legs share it: leg { $leg } carries { $carries }, { $share } of its rating
rules-three-and-two = By the handbooks' rules: if three legs carry, { $three }; if two carry, { $two } of the rating
rules-two = By the handbooks' rules: if two carry, { $two } of the rating
taken-back = taken back
was-fit = was FIT; { $void }
was-not-fit = was NOT FIT; { $void }
took-its-place = a later inspection took its place
until-for = until { $until } for { $aircraft }
decided-at = decided { $at }
label-inspector = inspector
version-of = { $procedure } version { $version }
label-allowable = allowable
label-sealed = sealed
label-valid-until = valid until
label-tag-signed-by = tag signed by
reinspected = reinspected
answers-good = { $good ->
    [one] 1 answer good
   *[other] { $good } answers good
}

## A blank checklist

not-where = not: { $deficiencies }
page-numbered = Page { $page }
blank-checklist-of = { $id } { $version }, blank checklist
blank-checklist = BLANK CHECKLIST
load-inspector-date = Load ____________  Inspector ____________________  Date and time ____________
list-and-edition-as-code = Which list and edition this is, as a code
digest-and-page = SHA-256 { $digest }   page { $page } of { $of }

## The closing statement

closing-of = Closing of { $name }
closing-statement = CLOSING STATEMENT
counted-loads = loads
counted-inspections = inspections
counted-lifted = lifted
counted-set-down = set down
counted-lost = lost
signed-by-at = Signed by { $by }, { $at }. Check { $check }.
account-rests-on = The account rests on { $count ->
    [one] { $count } word
   *[other] { $count } words
}; its digest is
nothing-was-open = Nothing was open.
one-point-explained = 1 point was open, and is explained:
many-points-explained = { $many } points were open, and are explained:

## A part of an authority's copy

copy-part = Part { $part } of 2: the copy of the authority { $name }
copy-rows = Where no camera reads the code: type these rows, without their numbers. The last two letters of a row check it; 0, 1 and 8 do not occur.
copy-keep-apart = Keep this apart from the other part. Either alone says nothing; both and the passphrase are the authority. When its phone is lost: on another phone take in everything of the team, then Set-up, A part of a copy. The old phone must never sign again.
