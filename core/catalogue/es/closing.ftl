### Cierre de una cuenta: lo que no cuadra, lo que se sabe, qué hacer. No lo ha leído todavía ningún eslingador.

point-never-inspected = Planificada y nunca inspeccionada
point-never-lifted = Inspeccionada y nunca levantada
point-refused-at-hook = Rechazada en el gancho
point-lifted-without-go = Levantada sin un GO conocido
point-lifted-after-expiry = Levantada con la inspección caducada
point-lifted-after-void = Levantada con el sello anulado
point-never-set-down = Levantada y nunca depositada
point-lost = Perdida
point-contradiction = Partes que se contradicen
point-inspected-twice = Inspeccionada dos veces por la misma persona
point-walked-too-fast = Inspeccionada más deprisa de lo que se tocan las tarjetas
point-piece-out = Material fuera y sin volver
point-journal-ends-early = El diario de un dispositivo sigue
point-missing = Falta en una cadena

to-do-never-inspected = Busque la carga: inspecciónela, o diga por qué se quedó.
to-do-never-lifted = Pregunte al equipo de enganche; haga que se comunique la elevación con su hora, o diga que se quedó.
to-do-refused-at-hook = Corrija lo que hallaron e inspecciónela de nuevo, o diga que se queda.
to-do-lifted-without-go = Pregunte quién la levantó y por qué; mire la carga antes de que nadie la vuele otra vez.
to-do-lifted-after-expiry = Pregunte por qué nadie la inspeccionó de nuevo.
to-do-lifted-after-void = Pregunte si la anulación había llegado al gancho.
to-do-never-set-down = Pregunte en el destino; haga que se comunique el depósito con su hora.
to-do-lost = Comuníquelo como dicen las normas; señale dónde cayó.
to-do-contradiction = Pregunte a los dos que lo comunicaron.
to-do-inspected-twice = Pregunte para qué fue la segunda inspección.
to-do-walked-too-fast = Pregunte al inspector; haga mirar otra vez la carga donde aún se pueda.
to-do-piece-out = Pregunte por ella en el destino; haga que se comunique su devolución por número de serie.
to-do-journal-ends-early = Reciba un lote de ese dispositivo.
to-do-missing = Reciba un lote de ese dispositivo; si no tiene tal documento, averigüe por qué.

point-of-load = carga { $load }
point-of-piece = pieza { $serial }
point-of-device = dispositivo { $device }

known-report = { $event } { $at } ({ $by })
known-planned = planificada { $at }
known-found-fit = apta { $at } según { $by }
known-found-not-fit = NO apta { $at } según { $by }
known-shown-go-alone = { $report }, se mostró GO, y aquí no hay ninguna inspección que la hallara apta
known-shown = { $report }, se mostró { $verdict }: { $reason }
known-no-verdict = { $report }, no se dice ningún veredicto
known-ran-out = { $report }, la inspección venció { $at }
known-voided = { $report }, anulada { $at }
known-both = { $one }, y { $other }
known-with = { $report }, con { $serials }
known-too-fast = { $by } inspeccionó { $cards ->
    [one] una tarjeta
   *[other] { $cards } tarjetas
    } en { $took }, { $at }
known-found-twice = { $by } la halló apta { $first } y { $second }
known-went-out = { $kind } { $serial } salió con la carga { $load }, { $at }
known-goes-on = se supo de la entrada { $heard } de su diario; lo que llegó de él acaba en la { $held }
known-missing = { $digest } se nombra como el documento anterior a otro, y no está aquí

no-such-point = "{ $point }" no es ningún punto de una cuenta; véase account close
least-seconds-bounds = dé de 1 a 3600 segundos por tarjeta, o ninguno
nothing-of-these-loads = aquí no se sabe nada de estas cargas ni de ese día
nothing-of-load = aquí no se sabe nada de la carga { $load }
points-not-explained = { $bare } de { $all } puntos abiertos no están explicados; diga algo de cada uno o corríjalo
too-many-points = hay { $points } puntos abiertos y una declaración lleva { $most }; cierre el día por partes, por cargas

kind-of-leg = ramal de eslinga { $leg }
walk-took = { $took }, { $cards ->
    [one] una tarjeta
   *[other] { $cards } tarjetas
    }
walk-too-fast = más deprisa de lo que se tocan las tarjetas
walk-too-fast-told = inspeccionada en { $took }, { $cards ->
    [one] una tarjeta
   *[other] { $cards } tarjetas
    }: más deprisa de lo que se tocan las tarjetas
label-walked-in = Inspeccionada en

no-such-piece-state = "{ $state }" no es ningún estado de una pieza; use { $known }
piece-out = fuera
piece-lost = perdida
piece-damaged = dañada
piece-withdrawn = retirada
piece-overdue = inspección pendiente
piece-on-load = en una carga
piece-back = devuelta
piece-known = en reposo
piece-moment-lifted = levantada con la carga { $load }, { $mass }
piece-moment-lost = perdida con la carga { $load }
piece-moment-back = devuelta de la carga { $load } ({ $by })
piece-moment-damaged = dañada, carga { $load } ({ $by })
piece-moment-back-damaged = devuelta de la carga { $load }, dañada ({ $by })
piece-moment-found-fit = hallada apta por { $by }; { $found ->
    [one] { $found } deficiencia
   *[other] { $found } deficiencias
}, { $corrected ->
    [one] { $corrected } corregida
   *[other] { $corrected } corregidas
}
piece-moment-fit-until = hallada apta hasta { $until } por { $by }; { $found ->
    [one] { $found } deficiencia
   *[other] { $found } deficiencias
}, { $corrected ->
    [one] { $corrected } corregida
   *[other] { $corrected } corregidas
}
piece-moment-withdrawn = retirada por { $by }: { $why }

## La página del jefe

pieces-all = Todas
pieces-open = Por mirar
pieces-table = Como tabla (CSV)
pieces-find = Serie, clase, carga o lugar
piece-serial = Serie
piece-kind = Qué es
piece-state = Estado
piece-where = Dónde
piece-since = Desde
piece-due = Inspeccionar antes de
piece-lifts = Elevaciones
piece-carried = Llevado
piece-carried-is = { $kg } kg ({ $lb } lb)
piece-rests-on-unsigned = según un informe sin firma
piece-stands-withdrawn = Retirada { $at } por { $by }: { $why }
piece-story = Lo hallado, corregido e informado
piece-withdraw = Retirarla
piece-withdraw-means = Desde entonces toda etiqueta que la nombre es NO-GO donde se sepa, hasta que un inspector la halle apta. Viaja con los lotes; escanee o pase su código para ir más deprisa.
piece-withdraw-why = Por qué
page-of-pages = página { $page } de { $pages }
page-before = Anterior
page-next = Siguiente

close-what = Lo que no cuadra, cada cosa con lo que se sabe y qué hacer. Corríjalo o explíquelo; cuando todo esté explicado, firma un jefe.
close-name = Se llama
close-loads = Cargas, separadas por espacios
close-statements = Declaraciones firmadas
close-explain = Explicar { $subject }
close-keep = Guardar
close-sign = Firmar el cierre
close-explain-first = Cada punto se corrige o se explica antes de poder firmar.
close-no-leader = Lo firma un jefe, en esta máquina: nadie con esa función y una credencial vigente tiene este escritorio.
close-check = comprobación { $check }

## En la terminal

piece-line = { $kind }: { $state }{ $more }; { $lifts ->
    [one] { $lifts } elevación
   *[other] { $lifts } elevaciones
} con { $carried }, { $inspections ->
    [one] { $inspections } inspección
   *[other] { $inspections } inspecciones
}
piece-line-load = , carga { $load }
piece-line-since = {" "}desde { $since }
piece-line-due = , inspeccionar antes de { $due }
piece-line-withdrawn = , retirada por { $by }: { $why }
close-explained = Explicado: { $note }
close-adds-up = Todo cuadra. Fírmelo con --sign.
close-all-explained = Todo está explicado. Fírmelo con --sign.
close-open = { $open ->
    [one] Un punto no cuadra.
   *[other] { $open } puntos no cuadran.
    } Corríjalos o explique cada uno: --explain PUNTO=NOTA.
close-explain-form = escriba --explain PUNTO=NOTA, con el identificador del punto como lo muestra account close
close-signed = Cerrado: { $name }, firmado por { $by } { $at }. Comprobación { $check }.
least-seconds-set = Se marca una inspección de menos de { $seconds } s por tarjeta. Es un indicio, no una prueba.
least-seconds-none = No hay tiempo mínimo por tarjeta.

whole-account = todo lo que hay aquí
load-and-more = carga { $first } y { $more } más
