### Whom this device trusts, and how papers stand.

credential-good = good
credential-runs-out-soon = runs out soon
credential-expired = expired
credential-revoked = revoked
own-credential-runs-out = the credential of { $holder } runs out at { $at }; show the key request to the authority for the next one: key request
own-credential-ran-out = the credential of { $holder } ran out at { $at }; show the key request to the authority for the next one: key request
this-authority = this authority
no-procedure-approved = no procedure is approved: every seal here says WAIT until authority approve names the lists that count
issued-credential-runs-out = the credential of { $holder } ({ $roles }) runs out at { $at }; issue a new one
roster-ran-out = the roster of { $whose } ran out at { $at }; get it signed anew
roster-runs-out = the roster of { $whose } runs out at { $at }; get it signed anew

## The steps to a device that may seal

own-credential-revoked = the credential of { $holder } was revoked by roster { $roster } of { $authority }
not-trusted-here = not trusted here
ready = Ready.
ready-seals-nothing = Ready as { $roles }. It seals no load: an inspector must.
step-scan-card = Scan an authority's card and compare its fingerprint by voice.
step-make-key = To inspect: make a key under a PIN. To confirm seals: ready.
step-revoked = The authority revoked this device's credential: it seals nothing. Make a new key and show its request.
step-run-out = The credential has run out. Show the key request to the authority, then scan the new one.
step-show-request = Show the key request to the authority, then scan the credential.
step-get-roster = Get a new roster from the authority.

## An authority's key in two parts

copy-no-part = this is no part of an authority's copy, or a letter of it is wrong; scan or type it again
copy-row = row { $row } is not as it was written; compare each of its letters
copy-part-twice = this is the same part twice; the other part is wanted
copy-other-pair = these are parts of two copies; find the one that was made with this
copy-damaged = the two parts make no copy; scan or type both again
copy-wrong-passphrase = the passphrase is wrong; type the one that the authority was begun with
copy-needs-card = scan the authority's card first and compare its fingerprint: this copy is of an authority that is not trusted here
copy-needs-roster = the newest roster here is number { $here }, and number { $made } was signed when the copy was made; gather from every phone of the team first
