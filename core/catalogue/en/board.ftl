### The zone board, its notices, and people.

no-such-state = "{ $state }" is no state; use { $states }
unsigned = unsigned
planned-no-rigger = planned { $at }, rigger not named
planned-rigger = planned { $at }, rigger { $rigger }
paused-at = paused { $at }
decided-not-sealed = decided { $at }, not sealed yet
last-answer = last answer { $at }
until-left = until { $until }, { $left } left
until-left-corrected = until { $until }, { $left } left, { $count } corrected
sealed-found-corrected = sealed { $at }, { $found } found, { $corrected } corrected
ran-out-ago = ran out { $at }, { $ago } ago
sealed-taken-back = sealed { $at }, taken back
no-roster-of = { $authority }: no roster is here; get one
roster-ran-out = { $authority }: the roster ran out { $at }; get a new one
credential-runs-out = the credential of { $holder } runs out { $at }
items-set-aside = { $aside ->
    [one] 1 received item was set aside; see Receive
   *[other] { $aside } received items were set aside; see Receive
}
not-a-day = "{ $date }" is no day; write it as 2026-11-25
by-this-device = by this device, unsigned
moved = { $event } { $at }, { $who }
moved-shown = { $event } { $at }, { $who }, shown { $verdict }
no-credential-known = no credential is known here
credential-is-revoked = revoked
credential-ran-out = ran out { $at }
credential-until = until { $until }
not-named = not named

manifest-title = Manifest of { $day }
manifest-what = The loads of a day in the order in which they are to be lifted. Give a load another place; what nobody placed follows as it was planned.
manifest-as-pdf = On paper (PDF)
manifest-as-table = As a table (CSV)
manifest-place = Place
manifest-put = Put
manifest-put-load = Place of load { $load }
manifest-add = Load to be put on it
manifest-as-planned = Back to the order of planning
manifest-take = A sorted table (CSV) sets the order
manifest-known-at = { $count ->
    [one] One load
   *[other] { $count } loads
}, as known { $at }
manifest-to = { $from } to { $to }
manifest-valid-until = until { $until }
manifest-lifted = lifted { $at }
manifest-lifted-unsigned = lifted { $at }, by an unsigned report
manifest-place-from-one = places begin with 1
manifest-put-form = write --put LOAD=PLACE, as in KM-014=1
manifest-no-table = this is no table with a column "load"; give a manifest as CSV, sorted as you want it
manifest-too-long = a day's order holds { $most } loads
manifest-named-twice = load { $load } is named twice
label-check-by-voice = Check, by voice

## How far an inspection in hand is

line-walking = under way
line-paused = paused
line-decided = decided and not sealed yet
line-sealed = sealed
line-abandoned = stopped
