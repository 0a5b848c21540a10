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
