### El tablero de la zona, sus avisos y las personas. No lo ha leído todavía ningún eslingador.

no-such-state = «{ $state }» no es un estado; use { $states }
unsigned = sin firma
planned-no-rigger = planificada { $at }, eslingador sin nombrar
planned-rigger = planificada { $at }, eslingador { $rigger }
paused-at = en pausa { $at }
decided-not-sealed = decidida { $at }, aún sin sellar
last-answer = última respuesta { $at }
until-left = hasta { $until }, quedan { $left }
until-left-corrected = hasta { $until }, quedan { $left }, { $count } corregidas
sealed-found-corrected = sellada { $at }, { $found } halladas, { $corrected } corregidas
ran-out-ago = caducó { $at }, hace { $ago }
sealed-taken-back = sellada { $at }, anulada
no-roster-of = { $authority }: aquí no hay lista; consiga una
roster-ran-out = { $authority }: la lista caducó { $at }; consiga una nueva
credential-runs-out = la credencial de { $holder } caduca { $at }
items-set-aside = { $aside ->
    [one] 1 elemento recibido quedó apartado; vea Recibir
   *[other] { $aside } elementos recibidos quedaron apartados; vea Recibir
}
not-a-day = «{ $date }» no es un día; escríbalo como 2026-11-25
by-this-device = por este dispositivo, sin firma
moved = { $event } { $at }, { $who }
moved-shown = { $event } { $at }, { $who }, se mostró { $verdict }
no-credential-known = aquí no consta ninguna credencial
credential-is-revoked = revocada
credential-ran-out = caducó { $at }
credential-until = hasta { $until }
not-named = sin nombrar
