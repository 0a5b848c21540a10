### La historia de una carga. No lo ha leído todavía ningún eslingador.

tag-made-unsigned = Etiqueta hecha para { $aircraft }, { $gross }, sin firma
tag-made-signed = Etiqueta hecha para { $aircraft }, { $gross }, firmada por { $who }
sealed-fit-until = Sellada apta por { $by }, vale hasta { $until }
sealed-not-fit = Sellada NO APTA por { $by }
taken-back-by = anulada por { $by }: { $cause }
somebody-not-trusted = alguien en quien aquí no se confía
movement-told = { $what }, { $origin }
movement-shown = { $told }, se mostró { $verdict }
movement-reported-later = { $told }, comunicado { $at }
with-words = { $said }: { $note }
with-note = { $said } ({ $note })
card-and-point = tarjeta { $card }, { $point }
finding-numbered = hallazgo { $number }

## Lo ocurrido en una inspección

inspection-began = { $inspector } empezó la inspección: { $title } ({ $procedure } { $version })
on-the-tag = En la etiqueta: { $fault }
clock-jumped = El reloj del dispositivo saltó de { $from } a { $to }
card-good = Tarjeta { $card }: bien
card-good-titled = Tarjeta { $card }, bien: { $title }
cards-good-from-to = Tarjetas { $first } a { $last }: bien
cards-good = { $count ->
    [one] 1 tarjeta bien
   *[other] { $count } tarjetas bien
}
answers-good = { $count ->
    [one] 1 respuesta buena
   *[other] { $count } respuestas buenas
}
answered = { $place }: { $value }
value-good = bien
value-not-applicable = no procede: { $why }
deficient-with-value = Deficiente, { $place }: { $wrong } ({ $value })
deficient = Deficiente, { $place }: { $wrong }
piece-rejected = Pieza { $serial } rechazada
corrected = Corregido: { $what }
corrected-by = Corregido por { $by }: { $what }
reinspected-good = Reinspeccionado, bien: { $what }
reinspected-still-deficient = Reinspeccionado, sigue deficiente: { $what }
answer-taken-back = Respuesta { $answer } deshecha
went-to-card = Pasó a la tarjeta { $card }
rigging-within-limits = Eslingado dentro de límites en reposo: { $summary }
rigging-over-limits = Eslingado FUERA DE LÍMITES: { $summary }
paused = En pausa
went-on = Se reanudó
stopped = Detenida: { $reason }
decided-fit = Decidida apta
decided-not-fit = Decidida no apta
decision-taken-back = Se retiró la decisión

## La palabra sobre un registro

banner-fit = APTA
banner-not-fit = NO APTA
banner-superseded = SUSTITUIDA
banner-void = ANULADA
banner-expired = CADUCADA
banner-refused = RECHAZADA
banner-wait = ESPERE
banner-no-inspection = SIN INSPECCIÓN
photo-of-inspection = inspección de { $by }
