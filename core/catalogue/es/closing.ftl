### El cierre de un día. No lo ha leído todavía ningún eslingador.

title-never-inspected = Planificada y nunca inspeccionada
title-never-lifted = Inspeccionada y nunca levantada
title-refused-at-hook = Rechazada en el gancho
title-lifted-without-go = Levantada sin un GO conocido
title-lifted-after-expiry = Levantada con la inspección caducada
title-lifted-after-void = Levantada con el sello anulado
title-never-set-down = Levantada y nunca depositada
title-lost = Perdida
title-contradiction = Partes que se contradicen
title-inspected-twice = Inspeccionada dos veces por la misma persona
title-walked-too-fast = Inspeccionada más deprisa de lo que se tocan las tarjetas
title-piece-out = Material fuera y sin volver
title-journal-ends-early = El diario de un dispositivo sigue
title-missing = Falta en una cadena

todo-never-inspected = Busque la carga: inspecciónela, o diga por qué se quedó.
todo-never-lifted = Pregunte al equipo de enganche; haga que se comunique la elevación con su hora, o diga que se quedó.
todo-refused-at-hook = Corrija lo que hallaron e inspecciónela de nuevo, o diga que se queda.
todo-lifted-without-go = Pregunte quién la levantó y por qué; mire la carga antes de que nadie la vuele otra vez.
todo-lifted-after-expiry = Pregunte por qué nadie la inspeccionó de nuevo.
todo-lifted-after-void = Pregunte si la anulación había llegado al gancho.
todo-never-set-down = Pregunte en el destino; haga que se comunique el depósito con su hora.
todo-lost = Comuníquelo como dicen las normas; señale dónde cayó.
todo-contradiction = Pregunte a los dos que lo comunicaron.
todo-inspected-twice = Pregunte para qué fue la segunda inspección.
todo-walked-too-fast = Pregunte al inspector; haga mirar otra vez la carga donde aún se pueda.
todo-piece-out = Pregunte por ello en el destino; haga que se comunique su devolución por número de serie.
todo-journal-ends-early = Reciba un lote de ese dispositivo.
todo-missing = Reciba un lote de ese dispositivo; si no tiene tal documento, averigüe por qué.

report-told = { $event } { $at } ({ $by })
subject-load = carga { $load }
subject-piece = pieza { $serial }
subject-device = dispositivo { $device }
known-planned = planificada { $at }
known-found-fit = hallada apta { $at } por { $by }
known-found-not-fit = hallada NO apta { $at } por { $by }
known-both = { $one }, y { $other }
known-with-pieces = { $told }, con { $serials }
known-walked = { $count ->
    [one] { $by } inspeccionó 1 tarjeta en { $took }, { $at }
   *[other] { $by } inspeccionó { $count } tarjetas en { $took }, { $at }
}
known-refused = { $told }, { $cause }
known-go-no-inspection = { $told }, se mostró GO, y aquí no hay ninguna inspección que la hallara apta
known-shown = { $told }, se mostró { $verdict }: { $reason }
known-no-verdict = { $told }, no consta ningún veredicto
known-ran-out = { $told }, la inspección caducó { $at }
known-voided = { $told }, anulada { $at }
known-found-fit-twice = { $by } la halló apta { $first } y { $second }
known-went-out = { $kind } { $serial } salió con la carga { $load }, { $at }
known-journal-goes-on = se supo del asiento { $heard } de su diario; lo que llegó de él acaba en el { $held }
known-missing = { $digest } se nombra como documento anterior a otro, y no está aquí
