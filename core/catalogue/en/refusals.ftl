### Why the program does not do what was asked: what is wrong; what to do.

gave-device-no-credential-holds = { $name } gave this device no credential that holds; show its key request to that authority
no-role = "{ $word }" is no role
authority-issued-no-such-credential = this authority issued no such credential
load-when-procedure-no-condition = load { $load }: when: procedure { $id } has no condition "{ $unknown }"; { $mend }
preference-name-bytes-shorten = a preference's name has 1 to { $most } bytes; shorten it
preference-up-bytes-shorten = a preference has up to { $most } bytes; shorten it
record-names-equipment-serial-number = no record here names equipment with the serial number { $serial }
such-tag-plan-load-again = there is no such tag here; plan the load again
page-does-follow-another-begin = this page does not follow another; begin at the first
export-cannot-written-name-another = the export cannot be written: { $error }; name another file
nothing-known-load = nothing is known here of load { $load }
bytes-are-no-text = it is no text
such-record-see-records-list = there is no such record here; see records list
bundle-cannot-read-written-try = the bundle cannot be read or written: { $error }; try another medium
file-bundle-make-one-bundle = this file is no bundle; make one with bundle write
code-can-read-picture-take = no code can be read in the picture; take it again: closer, flat, all four edges in
sheet-run-see-exam-runs = the sheet of this run is not here; see exam runs
deficiencies-picked-drawn-both-give = deficiencies are picked or drawn, not both; give one of the two
examination-key-scan-code-instructor = this is a { $kind } and not an examination key; scan the code that the instructor shows
paper-by-code-or-digits = an { $what } goes by its code, or by 4 digits of it or more
several-fit-give-more-digits = several fit { $digits }; give more digits
no-paper-scan-code = no { $what } "{ $digits }" is known here; scan its code
what-planted-known-device-alone = what is planted is known to { $instructor }'s device alone; bring the run there, or read the result that it signs
credential-revoked-another-instructor-must = the credential of { $holder } is revoked; another instructor must lock a key
tag-load-known-scan = the tag of load { $load } is not known here; scan it
student-has-run-already = { $student } has run under this key already; lock a new one, with other deficiencies, for the retest
such-run-see-exam-runs = there is no such run here; see exam runs
events-run-lost-damaged-journal = the events of this run were lost with a damaged journal; run again under a new key
exam-key-not-here = its key is not here
key-examination-result-known-scan = the key of this examination result is not known here; scan the key's code first
result-key-second-run-after = { $student } has a result under this key; a second run after the debrief does not count: lock a new key
locked-key-holds-credential-one = { $instructor } locked this key and { $holder } holds the credential; the one who locked must sign
only-inspection-load-sealed-one = only the inspection of a load is sealed; sign this one as such: inspect --kept --sign
walk-decided-decide-fit-fit = the inspection is not decided; decide fit or not fit first
walk-sealed-already-show-seal = this inspection is sealed already; show its seal, or inspect the load again
walked-load-holds-credential-one = { $inspector } inspected this load and { $holder } holds the credential; the one who inspected must seal
seal-credential-may-hold-up = a seal under this credential may hold up to { $longest }; ask for less
more-than-a-record-carries = this inspection has { $entries } entries and { $photos } photographs, and a record carries { $most_entries } and { $most_photos }; stop it and inspect the load anew
record-goes-hexadecimal-digits-see = a record goes by 64 hexadecimal digits; see records list
such-record-scan-seal-first = there is no such record here; scan its seal first, or see records list
record-walks-another-tag-than = record { $hex } walks another tag than it holds
record-does-say-which-tag = the record does not say which tag was walked
record-walks-another-tag-procedure = the record walks another tag or procedure than it holds
procedure-inspects-load-begin-load = procedure { $procedure } inspects a load; begin with the load's tag
walk-sealed-already-take-seal = this inspection is sealed already; take the seal back by a void, or inspect the load again
jpeg-png-below-mib-take = this is no JPEG or PNG below 16 MiB; take the photograph again
no-walk-see-loads-in-hand = there is no such inspection; see the loads in hand
procedure-inspects-load-but-make = procedure { $id } inspects no load but { $subject_words }; make a tag with a load's procedure
device-does-know-whose-make = this device does not know whose it is; make its key first (key request)
card-cards-count-from = there is no card 0; cards count from 1
digest-photograph-add-photograph-first = that is no digest of a photograph; add the photograph first
no-count-enter-number = "{ $text }" is no count; enter a whole number
write-a-number-and-unit = { $error }; write a number and its unit
no-procedure-known = no procedure "{ $id }" here; known: { $list }
procedure-walk-add-file = the procedure of this inspection is not here; add its file
credential-issued-authority-list-shows = no credential was issued here to "{ $word }"; authority list shows names and ids
may-several-people-give-id = "{ $word }" may be several people: { $list }; give the id of each that is meant
home-authority-already-use-begin = this home is an authority already; use it, or begin another home
key-request-ask-device-request = this is a { $kind } and not a key request; ask the device for its request
role-use-inspector-planner-hookup = "{ $word }" is no role; use inspector, planner, hookup, leader, instructor
credential-role-name-one-several = the credential has no role; name one or several
expiry-is-past = { $expires } is past; give a later expiry
seal-must-hold-least-give = a seal must hold at least 1 h; give more hours
credential-just-these-terms-issued = a credential of just these terms was issued to { $holder } and revoked; give another expiry
authority-can-sign-further-roster = this authority can sign no further roster; begin a new authority
roster-revoked-keys-credentials-fits = a roster of { $entries } revoked keys, credentials and approved procedures fits no code; let some expire first, or begin a new authority
passphrase-soon-guessed-use-four = the passphrase is soon guessed{ $why }; use four or more words that do not belong together
home-authority-begin-one-authority = this home is no authority; begin one with authority init
authority-roster-home-damaged = this authority has no roster; its home is damaged
key-revoked-have-device-make = the key of { $holder } ({ $fingerprint }) was revoked here; have the device make a new key, and issue on its new request
device-key-already-show-key = this device has a key already; show its key request, or begin a new home
device-key-yet-make-one = this device has no key yet; make one with key request --holder NAME
fingerprint-does-match-card-have = the fingerprint does not match the card of "{ $name }"; have it read to you again from the authority's own device, and do not trust this card if it differs
another-authority-goes-trusted-already = another authority that goes by "{ $name }" is trusted here already ({ $fingerprint }); trust both only if people of both tell you that they are two: authority trust --beside
authority-trusted-key-show-lists = no authority "{ $who }" is trusted here; key show lists those that are
several-authorities-meant-give-fingerprint = several authorities are meant: { $list }; give the fingerprint of one
home-authority-itself-whom-issues = this home is that authority itself; whom it issues to is for it to revoke
authority-card-scan-card = this is a { $kind } and not an authority's card; scan the card
key-make-one-first-key = there is no key here; make one first (key request, or authority init)
nothing-signed-would-count-make = { $line }: nothing signed here would count; make a new key and show its request to the authority
device-credential-show-key-request = this device has no credential; show its key request to an authority
credential-ran-out-ask-authority = the credential of { $holder } ran out at { $expires }; ask the authority for a new one
credentialed-someone-who-must-do = { $holder } is credentialed as { $roles } and not as { $role }; someone who is must do this
frame-moving-code-read-bundle = this is a frame of a moving code; read it with bundle read
another-roster-number-authority-known = another roster number { $sequence } of this authority is known here: its home was copied or put back; have it revoke again whom it revoked, under a higher number
load-tag-seal-scan-code = this is a load tag and not a seal; scan the code on the inspector's screen
seal-load-tag-scan-tag = this is a seal and not a load tag; scan the tag on the load
no-record-scan-seal = there is no such record here; scan its seal first
no-such-cause = "{ $cause }" is no cause; use { $list }
another-cause-needs-note-say = another cause needs a note; say why
nothing-scanned-scan-seal-tag = nothing was scanned; scan the seal or the tag
credential-had-run-out-when = the credential of { $holder } had run out when this void was signed; it does not count
roster-comes-from-authority-device = this roster comes from an authority that this device does not trust; add its card first
load-comes-from-authority-device = load { $load }: this { $kind } comes from an authority that this device does not trust; add its card first
of-load = load { $load }: { $error }
load-nobody-signed = load { $load }: nobody signed this { $kind }
load-tag-scan-tag-load = this is a { $kind } and not a load tag; scan the tag on the load
load-rated-load-weighs-take = load { $load }: { $kind } { $serial } is rated { $rating } and the load weighs { $gross }; take a piece that carries it, or a lighter load
no-load-tag-here = this is no load tag; scan the tag on the load
nothing-given-write-give-tag = nothing was given to write; give a tag, a seal or both
sticker-holds-one-message-kind = a sticker holds one message of a kind; write the other to another sticker
too-many-wrong-pins = too many wrong PINs; wait { $wait } and try again
pin-wrong-in-a-row = { $wrong ->
    [one] the PIN is wrong; wait { $wait } and try again
   *[other] the PIN is wrong, { $wrong } times in a row; wait { $wait } and try again
}
list-of-rejected-damaged = the list of rejected pieces cannot be read: { $error }
record-has-no-bytes = record { $digest } has no bytes; see records verify
subject-of-newer-kind = an inspection is of a kind that this program does not know; use a newer program
list-of-inspections-damaged = the list of inspections cannot be read: { $error }
walk-entry-damaged = an entry of the inspection cannot be read: { $error }

## What a procedure inspects, where it is no load

subject-load = a load
subject-piece = a piece of gear
subject-aircraft = an aircraft's hooks
subject-zone = a zone
subject-handling = what is done with an inspected load

## Roles

role-inspector = inspector
role-planner = planner
role-hookup = hookup
role-leader = leader
role-instructor = instructor

inspection-not-here = there is no such inspection here; see inspect --kept
inspection-of-load = this is the inspection of a load; seal it
inspection-not-decided = the inspection is not decided; decide fit or not fit first
inspection-signed-already = this inspection is signed already; see inspect --kept
inspection-other-holder = { $inspector } inspected and { $holder } holds the credential; the one who inspected must sign
inspection-by-no-inspector = inspection of { $name }: { $holder } is no inspector, or the credential had run out when it was signed; it does not count
inspection-refused = inspection of { $name }: { $error }
inspection-of-unknown-authority = inspection of { $name }: it comes from an authority that this device does not trust; add its card first
inspection-disagrees = inspection of { $name }: it and its record disagree about the { $about }; ask the inspector's device for it again
piece-withdrawn-at-planning = load { $load }: piece { $serial } was withdrawn { $at }: { $why }; take another piece
edition-approved-with-another-text = version { $version } of procedure { $procedure } was approved with another text ({ $print }); give this one a higher version
no-procedure-approved-here = no procedure "{ $word }" is approved here; authority list shows those that are
approved-text-not-here = { $authority } approves procedure { $procedure } version { $version }, and its text is not here; receive it from a device that has it
ordered-text-not-here = the tag orders procedure { $procedure } version { $version } ({ $print }), and its text is not here; receive it from the planner's desk
lists-language-unknown = "{ $code }" is no language that a list could have; write its two letters, such as fr or pt
no-such-report = there is no such report here; scan its code, or take in the bundle that holds it
withdrawal-needs-reason = say why piece { $serial } is withdrawn: whoever holds it must know what to look for

## A backup and what becomes of it

home-is-there = there is a home in that folder; name another one with --home DIR
no-backup = that is no backup of a home; name a file that slingseal backup wrote
backup-broken = the backup is cut off or was altered; take another copy of it
backup-not-written = the backup cannot be written ({ $why }); make room and do it again
backup-not-read = the backup cannot be read or taken over ({ $why }); check the disk and do it again
restored-is-new-device = This is a new device: it keeps the old one's journal as history and goes on under a name of its own. Use one of the two alone: both hold the same keys.
restored-needs-rosters = What came after the backup is not in it. Verdicts say WAIT until a newer roster of every authority trusted here has come; take in a bundle of another device.
restored-walk-again = Inspections under way were given up; inspect these loads again: { $loads }.
