### The leader's page.

## The frame of every page

place-zone = Zone
place-plan = Plan
place-receive = Receive
place-deficiencies = Deficiencies
place-people = People
place-equipment = Equipment
place-close = Close
place-procedures = Procedures
place-class = Class
place-export = Export
skip-to-page = Skip to the page
pages = Pages
search = Search
search-example = Load, serial, name …
foot = Slingseal assists a qualified inspector. The governing manual rules. Times are UTC by this device's clock; what has not been carried here is not shown here.
to-zone = To the zone
did-not-work = That did not work
not-here = Not here
opened = Opened

## The zone

loads-touched-since = Loads touched since { $since }, and all that are valid or in the air.
to-look-into = To look into
all-states = All states
stands-for-it = Answers for it
all-of-them = all { $count }
none-of-them = none
before = Before
page-of = page { $page } of { $pages }
next = Next
any = any
look-back = Look back
days = { $count ->
    [one] 1 day
   *[other] { $count } days
}
ever = ever
day = Day
label-from = From
label-to = To
aircraft = Aircraft
show = Show
zones-drawn = The zones, north up, with their loads
here-and-bound = { $here } here, { $bound } bound
schematic = Schematic, north up; from the grid references of the tags.
by-unsigned-reports = By unsigned reports, which move nothing: { $told }.
look = Look:
nothing-counted = nothing counted
share-told = { $percent } per cent, 95 % interval { $low } to { $high }
found-of = { $found } of { $of }

## A load

until-by = until { $until }, by { $by }
ran-out = ran out { $at }
sealed-by = sealed { $at } by { $by }
record-pdf = One-page record (PDF)
sheet-pdf = Load sheet (PDF)
what-happened = What happened
is-at-it = { $inspector } is at it: { $state }, begun { $begun }
leg-link = leg { $leg }: { $link }
gross-weight = Gross weight
allowable = Allowable
rigger = Rigger
not-named = not named
procedure = Procedure
tag-signed-by = Tag signed by
links = Links
table = Table
serial = Serial
equipment = Equipment
rating-and-source = Rating, source
inspect-by = Inspect by
none-given = none given
how-it-hangs = How it hangs: side, front and top. { $summary }
edition-approved = approved
edition-withdrawn = withdrawn before this inspection
edition-not-approved = not approved by the inspector's authority
seal = Seal
seal-as-code = The seal as a code, to be scanned at the hook
sealed = Sealed
inspector = Inspector
holds-until = Holds until
walked-by = Walked by
version-of = { $procedure } version { $version }
that-list = That list
found-corrected = Found, corrected
check-of-seal = Check of the seal
to-compare-by-voice = to compare by voice
record-digest = Record { $digest }
only-seal-here = Only the seal is here, not the full record: receive the inspector's bundle.
deficiencies = Deficiencies
found = Found
card = Card
where = Where
what = What
what-became-of-it = What became of it
open = open
every-inspection = Every inspection

## Planning

field-load = Load number
field-description = What it is
field-allowable = Allowable load, from the aircrew
field-pickup = Pickup zone
field-pickup-grid = Its grid, or latitude and longitude
field-destination = Destination
field-destination-grid = Its grid
field-links = Links, leg:link
field-legs = Serials of the legs, leg:serial
field-weight-source = Weight: weighed, data plate, added up, estimated
field-manual = Rigged to: manual | edition
field-airspeed = Airspeed limit | the row it is from
field-conditions = Conditions, or none
field-equipment = Equipment, one piece a line
example-description = Water drums, pair
example-manual = the governing manual, its page | 2024
example-airspeed = 80 kt | the manual's row
no-tag-made = No tag was made.
one-load = One load
may-be-left-out = (may be left out)
choose = choose
example-equipment = sling set | SS-0417 | 10000 lb | data plate | 2027-03-31
make-tag = Make the tag
load-list = A load list
list-is-csv = CSV with a head line, one load a line:
list-also = also
a-file = A file
the-list = The list
make-tags = Make the tags
pin-of = PIN of { $holder }
empty-unsigned = (empty: unsigned, and the hook is told to wait)
tags-unsigned-here = Tags made here are unsigned: this page has no planner's credential to sign with, or is open to a network. Sign them in the terminal: slingseal tag write.
print-sheets = { $count ->
    [one] Print 1 sheet (PDF)
   *[other] Print { $count } sheets (PDF)
}
tag-of-load-as-code = The tag of load { $load } as a code
tag-facts = { $description }, { $gross }, { $aircraft } ({ $allowable } allowed)
signed-by = Signed by { $who }
as-text = As text

## Tables

load = Load
says = Says
standing = Standing
place-and-aircraft = Place, aircraft
corrected = Corrected
record = Record
found-count = Found
fit = fit
not-fit = NOT FIT
in-force = in force
of-the-last = Of the last
all = all
inspections = { $count ->
    [one] 1 inspection.
   *[other] { $count } inspections.
}
inspections-since = { $count ->
    [one] 1 inspection since { $since }.
   *[other] { $count } inspections since { $since }.
}
thin-line = The thin line tells how far chance alone may have moved a share: with few inspections it is long, and no verdict on anybody.
by-point = By point
nothing-found = nothing was found
point = Point
what-was-wrong = What was wrong
inspections-head = Inspections
more-in-table = and { $count } more: export the table of deficiencies
by-procedure = By procedure
by-rigger = By rigger
how-share-counted = How a share's line is counted
interval-wilson = The interval in which 95 % of such counts lie (Wilson 1927).
with-a-finding = Inspections with a finding
people-of-roles = Inspectors, planners, hookup, leaders
name = Name
credential = Credential
roles = Roles
authority = Authority
fit-count = Fit
last-seal = Last seal
authorities = Authorities
fingerprint = Fingerprint
roster = Roster
revoked = Revoked
issued-by = Issued by { $name }
roster-good-until = Roster { $number }, good until { $until }.
nothing-yet = nothing yet
until = Until
state = State
key = Key
revoked-since = revoked { $since }
loads = Loads
last = Last
next-page = Next page
not-told = not told
fit-until = Fit until { $until }
inspected-at = inspected { $at }
found-fit-at = Found fit { $at }
rating = Rating
as-newest-tag = As the newest tag tells it.
where-used = Where it was used
no-record-with = No record with { $asked }. The beginnings of words will do: a load, a serial number, a name, a place, what was found.

## The class

training-counted = Training, and no inspections. What is missed, the items and the cards count first attempts whose sheet is here: { $count }. The thin line tells how far chance alone may have moved a share.
no-result-yet = No result is here yet. An instructor signs one on the device that locked the key; receive that device's bundle.
missed-most = Missed most: teach this next
students = Students
attempts = Attempts
items = Items
time-by-card = Time by card
for-spreadsheet = For a spreadsheet
results = Results
cards = Cards
nothing-missed = Nothing was missed.
deficiency = Deficiency
missed = Missed
student = Student
loads-passed = Loads passed
runs = Runs
passed-at-once = Passed at once
retests = Retests
unclear = Unclear
false-calls = False calls
attempt = Attempt
outcome = Outcome
time = Time
began = Began
instructor = Instructor
result = Result
how-items-counted = How these are counted
items-explained = Found: share of students that found it. Good less weak: share among the best 27 % of students less that among the weakest 27 % (Kelley 1939). With the rest: correlation with the rest of the score (Henrysson 1963). With few students none of them says much.
planted = Planted
card-and-point = Card, point
good-less-weak = Good less weak
with-the-rest = With the rest
what-to-make-of-it = What to make of it
card-numbered = card { $card }
more-items = and { $count } more: see the table of items
station = Station
title = Title
middle = Middle
longest = Longest
load-and-attempt = { $load }, attempt { $attempt }
standard = Standard
what-was-planted = What was planted
result-digest = Result { $digest }
to-class = To the class
in-order-of-load = In the order of the load
false-call-at = Card { $card }, { $title }: called "{ $called }" at { $at }, where nothing was wrong
false-call = Card { $card }, { $title }: called "{ $called }", where nothing was wrong
passed = passed
failed = FAILED
outcome-unclear = unclear

## Export

tables-csv = Tables (CSV)
for-spreadsheets = For spreadsheets and statistics. Times in UTC and as date-time groups, masses in kg and lb, places in MGRS.
records = Records
class-tables = A class's tables
everything-json = Everything (JSON)
one-document = One document, schema { $schema }. The same records give the same bytes on every desk.
the-account = The account
another-desk = Another desk
bundle-carries = A bundle carries records, tags, voids, credentials, rosters and photographs.
bundle-file = Bundle (file)
or-moving-code = Or show it as a moving code to another desk's camera (no photographs).
other-desks-have-code = The other desk's have code, if it gave one
show-moving-code = Show the moving code
hook-check-for-phones = Hook check for any phone
hook-check-explained = One file that opens in a browser without a network and says GO, WAIT or NO-GO. It trusts whom this desk trusts, knows what this desk knows now, and says WAIT after its day.
built-without-page = This program was built without the page. See README: check-page.
leader-signs-here = A leader signs it, on this machine: nobody with that role and a credential in force holds this desk.
hours-relied-on = Hours that it may be relied on
make-file = Make the file
part-of = Part { $part } of { $parts }.
together-too-much = Together they were too much for one code. The other desk takes each by itself, in any order.
part-numbered = Part { $part }
hold-camera = or a few more. Hold the other desk's camera so that the whole code is in its picture; it says when it has everything.
frame-of-moving-code = A frame of the moving code
frames-a-second = Frames a second
hand-file-on = Hand the file on by cable, stick or share, and say these five groups to whoever opens it. The first screen shows the same.
signed-by-label = Signed by
rely-until = Rely on it until
trusts = Trusts
words-inside = Seals, voids and tags inside
the-file-hook = The file: hook.html

## Closing

nothing-of-that-day = Nothing is told of that day.
account-counts = { $loads ->
    [one] 1 load
   *[other] { $loads } loads
    }, { $inspections ->
    [one] 1 inspection
   *[other] { $inspections } inspections
    }, { $lifted } lifted, { $set_down } set down, { $lost } lost.
reports-unsigned = { $count ->
    [one] 1 report is unsigned: it is what was said, and proves nothing.
   *[other] { $count } reports are unsigned: they are what was said, and prove nothing.
}
everything-adds-up = Everything adds up.
of-what = Of
known = Known
to-do-or-explained = To do, or explained
account-digest = { $count ->
    [one] Account { $digest } of 1 word
   *[other] Account { $digest } of { $count } words
}

## The lists

only-approved-counts = Only what is walked by a list that the inspector's authority approves can be GO. Those that come with the program are a start for your own, and no manual.
the-lists = The lists
version = Version
points = Points
approval = Approval
here = Here
what-loads-walked-by = What loads were walked by
when-walked = When it was walked
inspectors = Inspectors
list-missing = missing: receive it from a device that has it
list-in-use = walked by
list-kept-apart = kept apart
blank-checklist = Blank checklist

## Receiving

files = Files
bundles-pictures-texts = Bundles, pictures of codes, texts.
drop-files = Drop files here, or choose
scanner = Scanner
scanner-that-types = A scanner that types: click the field and scan.
what-scanner-types = What the scanner types
take-in = Take in
text = Text
codes-as-text = Codes as text, one a line
one-code-a-line = SL1:… one code a line
camera = Camera
hold-code-still = A code, or a moving code: hold it still in the middle.
no-camera = No camera may be used. Allow it in the browser, or send a picture as a file.
looking = Looking …
desk-gone = The desk does not answer. Is slingseal still running?
frames-seen = { $taken } of about { $enough } frames
start-camera = Start the camera
camera-own-page-only = Browsers give a camera to this machine's own page only: open the link there, or take a picture and send the file.
received-since-start = Received since the start
taken-in = Taken in:
taken-in-part = Taken in part:
refused = Refused:
set-aside = Set aside
kept-not-believed = Kept, not believed. What comes again in good order is taken in and leaves this list.
came = Came
why = Why
bytes = Bytes
digest = Digest

## What was asked of the page and cannot be done

more-than-mebibytes = that is more than { $most } MiB; send less at a time
upload-broke-off = the upload broke off ({ $what }); send it again
end-is-missing = its end is missing
other-address = This address is not the one that was opened. Use the link that slingseal printed.
from-other-page = This request came from another page. Use the page itself.
browser-not-known = This browser is not known here. Use the link that slingseal printed when it started.
opens-every-network = 0.0.0.0 opens every network of this machine; name the one address that is meant
address-not-free = { $wanted }: { $plain }; choose another with --port, or an address of this machine
page-until-ctrl-c = The leader's page, until Ctrl-C:
open-to-network = this address is open to the network. Whoever has the link can read everything here and add to it, and whoever listens on the network can read along: nothing is encrypted. Start it with --tls, or use a cable or a network of your own. Nothing is signed and cameras do not work over it.
no-signal-caught = no signal can be caught: { $plain }

## What came in, and what became of it

moving-code = moving code
no-code-in-file = { $name }: no code can be read in it; take the picture again: closer, flat
more-codes-than-taken = { $name }: { $count } codes are more than are taken at once, { $most }; nothing was taken, divide it or send a bundle
new-records = { $count ->
    [one] 1 new record
   *[other] { $count } new records
}
records-completed = { $count ->
    [one] 1 record completed
   *[other] { $count } records completed
}
records-known = { $count ->
    [one] 1 record known already
   *[other] { $count } records known already
}
new-papers = { $count ->
    [one] 1 new tag, void, credential or roster
   *[other] { $count } new tags, voids, credentials and rosters
}
new-photographs = { $count ->
    [one] 1 new photograph
   *[other] { $count } new photographs
}
nothing-new = nothing new
set-aside-line = set aside, { $place } ({ $kind }): { $reason }
and-more = and { $count } more
trusted-here = It is trusted here.
have-fingerprint-read = Have its fingerprint read to you from the authority's own device.
trust-in-terminal = Then trust it in the terminal: slingseal authority trust CARD
card-of-authority = the card of the authority { $name }
issue-in-terminal = Issue on it in the terminal: slingseal authority issue REQUEST
key-request-of = a key request of { $holder }, fingerprint { $fingerprint }
credential-revoked = the credential of { $holder }, revoked: nothing signed under it counts
credential-until = the credential of { $holder }, until { $until }
is-new = new
no-newer = no newer than what was here
roster-taken = { $approved ->
    [one] roster { $number } of { $authority }, { $revoked } revoked, 1 procedure approved, { $new }
   *[other] roster { $number } of { $authority }, { $revoked } revoked, { $approved } procedures approved, { $new }
}
tag-taken = the tag of load { $load }: { $description }
load-taken-back = load { $load } taken back by { $by }: { $cause }
movement-taken = load { $load }: { $event }, { $at } ({ $origin })
closing-taken = the closing of { $name } by { $by }
piece-fit-until = fit until { $until }
piece-fit = fit
inspection-not-fit = not fit
piece-withdrawn = not fit; a piece of gear is withdrawn
inspection-taken = Inspection of { $name } by { $by }: { $found }
examination-taken = an { $what } of { $by } on load { $load }
training-says-nothing = Training, and no inspection: it says nothing of a load.
seal-of-load = a seal of load { $load }: { $word }, { $first }
seal-taken = a seal: { $word }, { $first }
shown-together = load { $load }: { $word }, { $first }
known-already = { $what }, known already

## Titles of pages

not-asked-so = Nothing here is asked in this way.
link-of-other-start = This link is of another start. Use the one that slingseal printed last.
list-of-other-start = This list was made under another start. Make it again, or open each load by its number.
home-without-name = a home without a name
the-zone = The zone
closing = Closing
load-numbered = Load { $load }
tag-without-rigging = this load's tag carries no rigging
equipment-of = Equipment { $serial }
the-class = The class
examination-of = Examination of { $student }
the-tags = { $count ->
    [one] The tag
   *[other] The tags
}
hook-check = Hook check
moving-code-title = Moving code
no-such-frame = there is no such frame; show the moving code again
no-such-page = there is no such page here
every-record = Every record
search-for = Search: { $asked }
no-tag-named = no tag was named; print from the page of the load
no-such-class-table = there is no such table of the class
export-not-written = the export cannot be written: { $plain }; free some room
no-such-export = there is no such export
plan-and-print = Plan and print
frames-taken = { $taken ->
    [one] { $taken } frame
   *[other] { $taken } frames
} of a moving code; about { $enough } are wanted
a-file-named = a file
more-than-page-takes = that is more than the page takes in; use slingseal bundle read
upload-not-kept = the upload cannot be kept: { $plain }; free some room, and send it again
upload-cut = the upload broke off; send it again
photographs = Photographs
photograph-of = Photograph: { $of }, { $at }
photograph-away = Not here; receive a bundle that carries photographs.

## Encrypted, or not

certificate-told = The browser does not know this desk's certificate and warns. Go on only where it shows this SHA-256 fingerprint:
open-encrypted = this address is open to the network, encrypted. Whoever has the link can read everything here and add to it; tell it to nobody else.
pin-not-in-the-clear = nothing is encrypted on this network, so no PIN or passphrase is taken; start slingseal serve with --tls, or act on this machine
certificate-not-made = the certificate was not made: { $plain }
form-was-sent = This form was sent already, or is too old. Look whether it was done; if not, begin anew.

## Acts

act-void = Take this seal back
act-void-title = Take a seal back
act-approve-title = Approve a procedure
act-withdraw-title = Withdraw an approval
act-issue-title = Issue a credential
act-revoke-title = Revoke a credential
act-revoke = Revoke
act-distrust-title = Trust an authority no longer
act-distrust = Trust no longer
act-go-on = Go on
act-nothing-done = Nothing is done yet. Read it, then sign.
act-nothing-done-unsigned = Nothing is done yet. Read it first.
act-leave = Leave it; nothing is done
act-not-done = This was not done
act-done = Done
field-record = Record
field-cause = Why
field-note = Note
field-request = Key request, as text
field-holder = Another name than the request asks for
field-validity = A seal holds at most, in hours
field-expires = Until
field-edition = Edition
field-edition-text = Or its text, from a file
field-roster-days = The roster holds, in days
field-whose = Whose
passphrase-of = Passphrase of { $holder }
usual-hours = { $hours } unless told
usual-days = { $days } unless told
void-was-made = The seal of load { $load } is taken back. Whoever has it must have this code.
was-issued = Issued to { $holder }, { $roles }, until { $until }. Hand this code back to the device that asked.
roster-was-signed = Roster { $number } of { $name } is signed. Hand it to every device.
trusted-no-longer = { $name } is trusted no longer. { $next }
code-as-picture = The code
distrust-needs-no-pin = Nothing is signed: this concerns this home alone.

## A rigging file in a plan

field-rigging = Rigging file (TOML)
look-at-rigging = Show how it hangs
rigging-shown = How it hangs
rigging-of-list = Rigging files of the list
files-together = All of them at once, by their names
file-not-named = The list names no { $name }.
look-at-listed = Show how its loads hang
listed-not-given = not given yet: choose the file, or paste its text
give-listed = The list names rigging files. Give each of them beside the list, then look at it.
too-many-listed = the list names more than { $most } rigging files, and a page draws no more at once; split the list, or use slingseal tag write
look-then-make = Nothing is made yet. Look at each picture, then make the tags.
list-names-no-rigging = Nothing is made yet. The list is well, and names no rigging file.

## What changes while it is looked at

live-on = Kept up to date
live-off = Not kept up to date; load the page again
live-many = So many look on already that this page is not kept up to date
keys = Keys
keys-told = Arrow keys go from load to load and from row to row, once one has the focus. With the access keys of your browser: S searches, 1 to 9 open the pages.

## Stretches of time, and order

from-day = From
until-day = To
weeks-title = By week
week = Week
weeks-told = Inspections in which something was found, week by week; the thin line is the 95 % interval (Wilson).
sorted-by = Sort by { $column }
up = rising
down = falling

## Long work

work = Work
work-export = Export { $name }
work-bundle = Taking in { $name }
work-audit = Audit
work-goes-on = Under way
work-stopped = Stopped
work-failed = Failed
work-done-in = Done
work-bytes = { $done } kB of { $of } kB
work-bytes-so-far = { $done } kB
work-items = { $done } of { $of }
work-begun = Begun
stop = Stop
stop-named = Stop: { $what }
take-file = Take the file
audit-door = Audit
audit-explained = This home looked through: its journal, every record's chain and signature, every paper.
audit-begin = Begin the audit
audit-holds = Everything holds: { $records } records, { $entries } entries, { $papers } papers.
audit-faults = { $count ->
    [one] One thing does not hold.
   *[other] { $count } things do not hold.
}
stopped-partly = Stopped. What was taken in before stays; the rest is taken in when it is sent again.
no-such-work = That work is no longer known here.
too-much-work = As much long work as fits is under way; wait for some of it, or stop it.
sending = Sending { $name } …
not-sent = { $name } was not sent. Is slingseal still running?
work-by-itself = This page looks again by itself.
not-a-whole-number = "{ $value }" is no whole number
