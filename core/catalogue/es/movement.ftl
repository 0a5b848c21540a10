# Lo que ocurre con una carga después de su veredicto.

movement-lifted = levantada
movement-refused = rechazada en el gancho: { $cause }
movement-refused-plain = rechazada en el gancho
movement-lost = perdida o soltada
movement-set-down = depositada
movement-derigged = desaparejada
movement-returned = material devuelto

refusal-verdict = el veredicto no fue GO
refusal-rigging = el aparejo no está bien
refusal-damage = la carga se movió o está dañada
refusal-wrong-load = es otra carga
refusal-too-heavy = pesa demasiado
refusal-unstable = colgó u osciló mal
refusal-aircrew = la tripulación abortó
refusal-zone = la zona no era segura
refusal-other = otro motivo, véase la nota

reason-lifted-before = Ya se levantó a las { $at } ({ $by }). Si ha vuelto a estar en tierra, inspeccione otra vez.
reason-lifted-before-here = Ya se levantó a las { $at } (este dispositivo). Si ha vuelto a estar en tierra, inspeccione otra vez.
reason-moved = Después de la inspección: { $event } a las { $at } ({ $by }). Inspeccione otra vez.
reason-moved-here = Después de la inspección: { $event } a las { $at } (este dispositivo). Inspeccione otra vez.
reason-movement-unsigned = Un parte sin firmar dice: { $event } a las { $at }. Pregunte antes de levantar.

reported-unsigned = informado sin firma: { $event } { $at }
report-of-this-device = este dispositivo, sin firmar
report-of-other-device = dispositivo { $device }, sin firmar
report-of-lapsed = { $by }, con credencial caducada
report-of-stranger = alguien que aquí no se conoce
report-too-large = el parte tiene { $bytes } octetos y el mayor código admite { $most }; nombre menos fotos o piezas, o escriba menos
report-given-later = comunicado { $written }
report-shown = el veredicto mostrado fue { $verdict }
report-aircraft = aeronave { $name }
report-place = en { $place }
report-piece-back = la pieza { $serial } vuelve
report-piece-damaged = la pieza { $serial } está dañada
report-piece-back-damaged = la pieza { $serial } vuelve dañada
report-note = nota: { $note }

only-refusal-has-cause = solo un rechazo tiene causa; omítala
only-own-unsigned = aquí solo se firma un parte que escribió este dispositivo y nadie firmó
signed-already = ya está firmado
other-cause-needs-note = otro motivo necesita una nota; diga por qué
name-each-piece-back = nombre cada pieza devuelta por su número de serie
piece-named-twice = la pieza { $serial } se nombra dos veces; nombre cada una una vez
say-back-or-damaged = diga de la pieza { $serial } si está devuelta, dañada o ambas cosas
no-load-is-meant = no se entiende qué carga: escanee antes su etiqueta o su sello, o nombre la carga
time-is-ahead = { $at } está por delante del reloj de este dispositivo, { $now }; dé la hora en que ocurrió
no-photo-digest = "{ $text }" no es el resumen de una fotografía
kind-scan-tag = esto es: { $kind }; escanee la etiqueta de la carga, o dé su número
no-such-event = "{ $text }" no es un suceso; use { $events }
no-such-cause = "{ $text }" no es causa de un rechazo; use { $causes }
refusal-needs-cause = un rechazo necesita su causa; use { $causes }
nothing-known-scan-tag = aquí no consta nada de la carga { $load }; escanee la etiqueta que cuelga de ella

## El cierre de un día

closing-of-no-leader = { $who } firmó esta declaración de cierre y no es jefe
closing-credential-ran-out = la credencial de { $who } había caducado cuando se firmó esta declaración de cierre
