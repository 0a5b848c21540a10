### What the verbs of the desk program say and ask.

name-place-can-written = { $path }: { $plain }; name a place that can be written
link-name-file-leads = { $path } is a link; name the file that it leads to
folder-name-file = { $path } is a folder; name a file
full-files-named-name-another = { $folder } is full of files named { $name }; name another folder
standard-input-give-again = standard input: { $plain }; give it again
name-file-can-read = { $path }: { $plain }; name a file that can be read
bytes-more-than-any-code = { $path } has { $size } bytes, more than any code or picture; name another file
no-text-name-text-file = { $path } is no text; name a text file in UTF-8
no-home-known-name-one = no home is known; name one with --home DIR
choose-home-can-written-home = { $home }: { $plain }; choose a home that can be written with --home DIR
mend-rights-home = { $path }: { $plain }; mend the rights of the home
damaged-restore-from-where-home = { $path } is damaged; restore it from where the home was copied
pin = PIN
new-pin = new PIN
passphrase = passphrase
secret-again = { $what } again:{" "}
no-terminal-ask-set = no terminal to ask for the { $what }; set { $variable }
terminal-cannot-read-try-another = the terminal cannot be read: { $plain }; try another one
two-differ-try-again = the two differ; try again

## What was received

known-already-older-than-what = {" "}(known already, or older than what is here)
trusted-already = { $name } ({ $fingerprint }) is trusted here already.
card-not-trusted-yet-have = Card of { $name }: NOT trusted yet. Have its fingerprint read to you from the authority's own device, then: slingseal authority trust CARD
key-request-fingerprint-authority-answers-b = Key request of { $holder }, fingerprint { $fingerprint }. An authority answers it with: slingseal authority issue REQUEST --roles … --expires …
own-credential-until = This device's credential: { $holder } ({ $roles }), until { $until }.
others-credential-until = Another's credential: { $holder } ({ $roles }), until { $until }.
credential-is-revoked = { $credential } REVOKED: nothing signed under it counts.
credential-has-run-out = { $credential } RUN OUT.
roster-revoked = { $approved ->
    [one] Roster { $sequence } of { $authority }, { $revoked } revoked, 1 procedure approved{ $newness }.
   *[other] Roster { $sequence } of { $authority }, { $revoked } revoked, { $approved } procedures approved{ $newness }.
}
tag-load = Tag of load { $load }: { $description }, { $gross } for { $aircraft }.
seal = Seal of { $word }: { $first }.
load-training-no-inspection = An { $what } ({ $id }) of { $by } on load { $load }: training, no inspection{ $newness }.
piece-fit-until = Inspection of { $name } by { $by }: fit until { $until }{ $newness }.
piece-fit = Inspection of { $name } by { $by }: fit{ $newness }.
piece-not-fit = Inspection of { $name } by { $by }: not fit; a piece of gear is withdrawn{ $newness }.
voided-seal-load = { $by } voided the seal of load { $load }: { $cause }{ $newness }.

## A verdict

nobody-trusted = nobody trusted here
load-procedure = {"  "}Load { $load }   { $mass }   procedure { $procedure }
sealed-holds-until = {"  "}Sealed by { $who }{ $authority } { $at }, holds until { $until }
sealed-by = {"  "}Sealed by { $who }{ $authority } { $at }
check-of-seal = {"  "}Check of the seal { $check }
check-of-tag = {"  "}Check of the tag { $check }
tag-allowed = {"  "}Tag: { $description }, for { $aircraft } ({ $allowable } allowed)
shown-together-load = {"  "}Shown together: load { $load }, { $word }: { $first }
piece-is-withdrawn = Piece { $name } is withdrawn by { $by } { $at }: hand this code to every device on the zone.
