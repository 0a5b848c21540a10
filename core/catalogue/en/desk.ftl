### What the verbs of the desk program say and ask.

place-not-written = { $path }: { $plain }; name a place that can be written
name-is-a-link = { $path } is a link; name the file that it leads to
name-is-a-folder = { $path } is a folder; name a file
folder-full-of-name = { $folder } is full of files named { $name }; name another folder
standard-input-not-read = standard input: { $plain }; give it again
file-not-read = { $path }: { $plain }; name a file that can be read
file-too-large = { $path } has { $size } bytes, more than any code or picture; name another file
file-is-no-text = { $path } is no text; name a text file in UTF-8
no-home-known = no home is known; name one with --home DIR
home-not-written = { $home }: { $plain }; choose a home that can be written with --home DIR
home-rights-wrong = { $path }: { $plain }; mend the rights of the home
home-secret-damaged = { $path } is damaged; restore it from where the home was copied
pin = PIN
new-pin = new PIN
passphrase = passphrase
secret-again = { $what } again:{" "}
no-terminal-to-ask = no terminal to ask for the { $what }; set { $variable }
terminal-not-read = the terminal cannot be read: { $plain }; try another one
secrets-differ = the two differ; try again

## What was received

known-already-or-older = {" "}(known already, or older than what is here)
trusted-already = { $name } ({ $fingerprint }) is trusted here already.
card-not-trusted-yet = Card of { $name }: NOT trusted yet. Have its fingerprint read to you from the authority's own device, then: slingseal authority trust CARD
key-request-received = Key request of { $holder }, fingerprint { $fingerprint }. An authority answers it with: slingseal authority issue REQUEST --roles … --expires …
own-credential-until = This device's credential: { $holder } ({ $roles }), until { $until }.
others-credential-until = Another's credential: { $holder } ({ $roles }), until { $until }.
credential-is-revoked = { $credential } REVOKED: nothing signed under it counts.
credential-has-run-out = { $credential } RUN OUT.
roster-received = { $approved ->
    [one] Roster { $sequence } of { $authority }, { $revoked } revoked, 1 procedure approved{ $newness }.
   *[other] Roster { $sequence } of { $authority }, { $revoked } revoked, { $approved } procedures approved{ $newness }.
}
tag-received = Tag of load { $load }: { $description }, { $gross } for { $aircraft }.
seal-received = Seal of { $word }: { $first }.
examination-received = An { $what } ({ $id }) of { $by } on load { $load }: training, no inspection{ $newness }.
piece-fit-until = Inspection of { $name } by { $by }: fit until { $until }{ $newness }.
piece-fit = Inspection of { $name } by { $by }: fit{ $newness }.
piece-not-fit = Inspection of { $name } by { $by }: not fit, withdrawn{ $newness }.
inspection-not-fit = Inspection of { $name } by { $by }: not fit{ $newness }.
inspected-piece = piece of gear { $name }
inspected-aircraft = the hooks of aircraft { $name }
inspected-zone = zone { $name }
inspected-handling = what was done with load { $name }
void-received = { $by } voided the seal of load { $load }: { $cause }{ $newness }.

## A verdict

nobody-trusted = nobody trusted here
load-procedure = {"  "}Load { $load }   { $mass }   procedure { $procedure }
sealed-holds-until = {"  "}Sealed by { $who }{ $authority } { $at }, holds until { $until }
sealed-by = {"  "}Sealed by { $who }{ $authority } { $at }
check-of-seal = {"  "}Check of the seal { $check }
check-of-tag = {"  "}Check of the tag { $check }
tag-allowed = {"  "}Tag: { $description }, for { $aircraft } ({ $allowable } allowed)
shown-together = {"  "}Shown together: load { $load }, { $word }: { $first }
count-records = { $count ->
    [one] 1 record
   *[other] { $count } records
}
count-papers = { $count ->
    [one] 1 paper
   *[other] { $count } papers
}
count-frames = { $count ->
    [one] 1 frame
   *[other] { $count } frames
}

## authority

issued-with-key = issued: { $line }   key { $key }
not-an-authority-card = this is not an authority's card; ask the authority for its card
now-trusted = { $name } is trusted here. Next: { $next }
trusted-no-longer = Trusted no longer; nothing that it signed counts here. Next: { $next }
no-procedure-approved = no procedure is approved, so that every seal will say WAIT; approve those that count with authority approve
these-come-with-program = Only what is walked by an approved procedure can be GO. These come with the program:
a-start-and-no-manual = They are a start and no manual: approve one only where nothing better is at hand, and write your own.
which-of-them-count = Which of them count? Type ids, all, or nothing:
edition-withdrawn-since = WITHDRAWN since { $since }
edition-approved-since = approved since { $since }
comes-with-program = (comes with the program: a start, no manual)
text-not-here = its text is not here
like-named-trusted = An authority that goes by "{ $name }" is trusted here already: { $fingerprint }.
really-another = Is "{ $name }" on this card really another one? Type yes to trust both:
have-fingerprint-read = have the fingerprint of "{ $name }" read to you from the authority's own device (authority show), then give it with --fingerprint
type-what-you-hear = Have the fingerprint of "{ $name }" read to you from the authority's own device, and type what you hear:
authority-line = { $name }   fingerprint { $fingerprint }   roster { $roster }, holds until { $until }
nothing-issued = Nothing was issued here yet.
credential-line = { $holder }   { $roles }   until { $until }   { $state }   { $id }
revoked-line = revoked: { $line }

## bundle

what-home-has = what this home has, for the other side to leave out: bundle write --have
since-wrong = --since: { $error }
count-photographs = { $count ->
    [one] 1 photograph
   *[other] { $count } photographs
}
frames-enough = { $frames ->
    [one] 1 frame, { $enough } of which are enough, in any order
   *[other] { $frames } frames, { $enough } of which are enough, in any order
}
part-of-several = Part { $part } of { $of }: { $said }
held-in-folder = { $records }, { $papers }, in { $folder }
frames-of-another = { $folder } holds the frames of another moving code; name another folder, or empty it
name-one-bundle = name one bundle, or the pictures of a moving code, or their folder
frames-too-few = { $taken ->
    [one] { $taken } frame was read
   *[other] { $taken } frames were read
} and { $enough } are enough; take more pictures
no-frame-read = no frame of a moving code can be read in these pictures; take them closer and flat
folder-not-read = { $folder }: { $plain }; name a folder that can be read
bundle-taken = { $records } new, { $completed } completed, { $known } known; { $papers } and { $photos } new
procedure-taken = procedure { $id } version { $version }: { $approval }
procedure-kept-apart = procedure { $id } version { $version }: { $approval }, kept apart
set-aside = SET ASIDE { $place } ({ $kind }): { $reason }

## key

device-has-key = this device is { $known }'s and has a key already; for somebody else begin another home
say-whose-device = say whose device it is: --holder NAME
key-request-made = key request of { $holder }, fingerprint { $key }; an authority answers it: authority issue
key-under-new-pin = The key of { $holder } is under the new PIN.
device-key-under-new-pin = The key of this device is under the new PIN.
row-holder = Holder
row-key = Key
row-credential = Credential
row-revoked = REVOKED
row-trusts = Trusts
row-next = Next
held-credential = { $holder } ({ $roles }) by { $authority }, until { $until }
held-credential-run-out = { $holder } ({ $roles }) by { $authority }, until { $until }, RUN OUT
trusts-with-roster = { $name } ({ $fingerprint }), roster { $roster }, holds until { $until }
trusts-without-roster = { $name } ({ $fingerprint }), no roster
or = or
signs-as = signs as { $holder } of { $authority }; --as would choose { $others }
no-terminal-for-code = no terminal to show the code in; write pictures with bundle write --frames
no-signal-caught = no signal can be caught: { $plain }
part-and-frame = Part { $part } of { $parts }, frame { $frame } of about { $frames }
ctrl-c-ends-it = Ctrl-C ends it.

## procedure

not-said-in = not said in { $line }
file-holds = { $file } holds: { $cards ->
    [one] { $cards } card
   *[other] { $cards } cards
}, { $points ->
    [one] { $points } point
   *[other] { $points } points
}
list-added = Added:
file-is-there = { $file } is there already; name another file with --out FILE
lists-told-in = Lists are told in { $code } where they have it, else in English.
lists-told-in-readers = Lists are told in the reader's language.
count-procedures = { $count ->
    [one] 1 procedure
   *[other] { $count } procedures
}
count-rosters = { $count ->
    [one] 1 roster
   *[other] { $count } rosters
}
cards-and-points = { $cards } cards { $points } points
kept-apart = (kept apart)

## What was received, more

movement-received = Load { $load }: { $event }, { $at } ({ $origin }){ $newness }.
closing-received = Closing of { $name }, signed by { $by } { $at }{ $newness }.

## records

file-with-rows = { $rows ->
    [one] { $file } (1 row)
   *[other] { $file } ({ $rows } rows)
}
audit-looked-at = { $records }, { $entries } and { $papers } looked at
count-entries = { $count ->
    [one] 1 journal entry
   *[other] { $count } journal entries
}
audit-fault = FAULT { $fault }
audit-note = note: { $note }
everything-holds = every chain and every signature holds
csv-or-json = { $file }: CSV, JSON or SQL? end the name in .csv, .json or .sql
built-without-parquet = this program was built without Parquet; build it with --features parquet, or export to a .csv, .json or .sql file
several-records-start = several records start with { $digits }; give more digits
no-such-record = no load "{ $digits }" and no record that starts so among the newest { $newest }; see records list
fit = fit
not-fit = NOT FIT
standing-current = current
standing-superseded = superseded
standing-voided = voided
standing-refused = refused
standing-waiting = waiting
standing-no-inspection = no inspection
and-expired = , expired
found-corrected = found { $found } corrected { $corrected }
tag-in-a-line = { $description }, { $gross } for { $aircraft } ({ $allowable } allowed), { $from } to { $to }
void-line = VOID { $void }

## A tag

load-head = Load { $load }   { $description }
row-check = Check
row-gross = Gross weight
row-pickup = Pickup
row-destination = Destination
row-procedure = Procedure
row-rigger = Rigger
row-planned = Planned
row-rigging = Rigging
gross-allowed = { $gross } ({ $allowable } allowed, { $aircraft })
not-named = not named
planned-by = { $at } by { $by }
no-rating = no rating
inspection-due = , inspection due { $due }
leg-and-link = Leg { $leg } link { $link }
no-seal-readable = this is no seal that can be read; give a seal, a load's number or a record's digest
seal-void-made = load { $load }, sealed by { $by }: { $void }; nobody may lift on that seal: hand this code to every device on the zone

## inspect

kept-fit-until = , fit until { $until }
kept-signed = , signed
kept-not-signed = , not signed: inspect --kept --sign { $id }
at-by = { $at }  by { $by }
kept-fit = FIT
kept-not-fit = NOT FIT
several-inspections-of-id = several inspections fit { $which }; give more digits of the id
no-unsigned-inspection = no unsigned inspection fits { $which }; see inspect --kept
signed-fit-until = fit until { $until }
signed-fit = fit
signed-withdrawn = withdrawn
signed-not-fit = not fit
inspection-signed = { $name }: { $found }, signed by { $by }. It travels with the next bundle.
several-inspections-fit = several inspections fit { $digits }; give more digits
no-inspection-in-hand = no inspection in hand fits { $digits }; see inspect without --walk
say-five-groups = Say these five groups to whoever opens the file; its first screen shows the same:
check-page-made = Signed by { $leader }, to be relied on until { $until }; { $held }; trusts { $authorities }
count-words = { $count ->
    [one] 1 word
   *[other] { $count } words
}

piece-is-withdrawn = Piece { $name } is withdrawn by { $by } { $at }: hand this code to every device on the zone.

## account


## report, arrival

name-one-load = name one load by its number, or give the codes of its seal and tag
hand-code-to-leader = Hand this code to the leader, or let it go with the next bundle (check { $check }):
nothing-of-piece = "{ $text }" says nothing of a piece; write { $serial }=back, { $serial }=damaged or { $serial }=back,damaged
report-line = Load { $load }: { $event }, { $at } ({ $origin })
reported-later = reported { $at }
report-shown = shown: { $verdict }
report-aircraft = aircraft { $aircraft }
report-place = at { $place }
report-note = note { $note }
piece-back-damaged = piece { $serial } back, damaged
piece-back = piece { $serial } back
piece-damaged = piece { $serial } damaged
load-alone = Load { $load }
is-back-damaged = back, damaged
is-back = back
is-not-back-damaged = not back, damaged
is-not-back = not back
row-state = State

## backup, restore

backup-made = { $records }, { $entries }, of device { $device }; check { $digest }
backup-keep-safe = It holds the device secret: whoever has the file needs only the PIN. Keep it closed away.
home-restored = { $home }: device { $device }, begun from device { $before } ({ $entries }); check { $digest }

## Equipment
no-kind-of-picture = { $path } is no kind of picture; end its name in .svg or .png
output-not-written = standard output: { $plain }; make room and ask again
too-many-unfinished = too many unfinished files lie beside { $path }; take them away and ask again
window-too-small-for-code = this window has { $columns } columns and { $rows } rows, and the code needs { $wide } and { $high }: make it larger or its letters smaller, or write pictures with bundle write --frames
