### El tablero de la zona, sus avisos y las personas. No lo ha leído todavía ningún eslingador.

no-such-state = «{ $state }» no es un estado; use { $states }
unsigned = sin firma
planned-no-rigger = planificada { $at }, eslingador sin nombrar
planned-rigger = planificada { $at }, eslingador { $rigger }
paused-at = en pausa { $at }
decided-not-sealed = decidida { $at }, aún sin sellar
last-answer = última respuesta { $at }
until-left = hasta { $until }, quedan { $left }
until-left-corrected = hasta { $until }, quedan { $left }, { $count ->
    [one] { $count } corregida
   *[other] { $count } corregidas
}
sealed-found-corrected = sellada { $at }, { $found ->
    [one] { $found } hallada
   *[other] { $found } halladas
}, { $corrected ->
    [one] { $corrected } corregida
   *[other] { $corrected } corregidas
}
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

manifest-title = Manifiesto del { $day }
manifest-what = Las cargas de un día en el orden en que se levantarán. Dé otro lugar a una carga; lo que nadie colocó sigue como se planificó.
manifest-as-pdf = En papel (PDF)
manifest-as-table = Como tabla (CSV)
manifest-place = Lugar
manifest-put = Poner
manifest-put-load = Lugar de la carga { $load }
manifest-add = Carga que se añade
manifest-as-planned = Volver al orden de planificación
manifest-take = Una tabla ordenada (CSV) fija el orden
manifest-known-at = { $count ->
    [one] Una carga
   *[other] { $count } cargas
}, según se sabe { $at }
manifest-to = de { $from } a { $to }
manifest-valid-until = hasta { $until }
manifest-lifted = levantada { $at }
manifest-lifted-unsigned = levantada { $at }, según un informe sin firma
manifest-place-from-one = los lugares empiezan por 1
manifest-put-form = escriba --put LOAD=PLACE, como KM-014=1
manifest-no-table = esto no es una tabla con una columna "load"; dé un manifiesto en CSV, ordenado como lo quiere
manifest-too-long = el orden de un día lleva { $most } cargas
manifest-named-twice = la carga { $load } se nombra dos veces
label-check-by-voice = Comprobación, de viva voz

## Hasta dónde ha llegado una inspección en curso

line-walking = en curso
line-paused = en pausa
line-decided = decidida y sin sellar todavía
line-sealed = sellada
line-abandoned = detenida
