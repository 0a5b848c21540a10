### La inspección. No lo ha leído todavía ningún eslingador.

refusal-not-begun = la inspección no ha empezado; empiécela
refusal-begun-already = la inspección ya empezó; siga donde está
refusal-paused = la inspección está en pausa; reanúdela primero
refusal-not-paused = la inspección no está en pausa; siga
refusal-not-decided = no hay nada decidido; siga
refusal-ended = esta inspección ha terminado ({ $how }); inspeccione la carga de nuevo en otra
refusal-inspector-is-rigger = { $inspector } es el eslingador según la etiqueta; debe inspeccionar otra persona
refusal-other-procedure = la etiqueta pide el procedimiento { $tag } y este es { $procedure }; tome { $tag }
refusal-not-the-inspector = { $by } no es quien inspecciona; debe hacerlo { $inspector }, o detenga la inspección y empiece otra
refusal-not-this-card = esa respuesta era de la tarjeta { $pressed } y la inspección está en { $current }; lea la pantalla y pulse otra vez
refusal-no-such-card = no hay tarjeta { $card }; vaya de la 1 a la { $last }
refusal-not-on-this-card = { $point } no está en la tarjeta { $card }; nombre un punto de ella
refusal-no-such-deficiency = "{ $name }" no es deficiencia de { $point }; use uno de sus nombres, u "other" con una nota
refusal-note-needed = una deficiencia "other" necesita una nota; diga qué está mal
refusal-too-many-photos = { $photos } fotos son demasiadas para una anotación; quédese con las { $most } mejores
refusal-open-already = esa deficiencia ya está abierta con el número { $finding }; haga que se corrija
refusal-value-needed = { $point } necesita antes su propia respuesta; ponga: { $wanted }
refusal-applies = { $point } vale para toda carga de este procedimiento; respóndalo o diga qué está mal
refusal-rejects-nothing = el hallazgo { $finding } no rechaza ninguna pieza; dé el número de serie de una rechazada
refusal-wrong-kind = { $point } no se responde así; ponga: { $wanted }
refusal-wrong-unit = { $point } no se mide en esa unidad; use { $units }
refusal-no-such-option = { $point } no tiene la opción "{ $name }"; elija una de las suyas
refusal-open-here = el hallazgo { $finding } está abierto en este punto; corríjalo y reinspeccione, o deshaga
refusal-no-such-finding = no hay hallazgo { $finding }; vea la lista de hallazgos
refusal-not-in-place = "{ $name }" no se corrige en el sitio; decida no apta y { $after }
refusal-put-right-already = el hallazgo { $finding } ya está corregido; el inspector debe reinspeccionarlo
refusal-not-put-right = el hallazgo { $finding } no está corregido; haga que se corrija y reinspeccione
refusal-closed-already = el hallazgo { $finding } está cerrado; no falta nada
refusal-still-deficient = ese valor sigue siendo deficiente; responda que sigue mal o póngalo otra vez
refusal-nothing-to-undo = no hay nada que deshacer; siga
refusal-not-the-last-answer = la respuesta { $pressed } no es la última; lea la pantalla y pulse otra vez
refusal-not-fit = la carga no puede decidirse apta: { $first }; resuélvalo o decida no apta
refusal-not-fit-many = la carga no puede decidirse apta: { $first }, y { $more } más; resuélvalo todo o decida no apta
refusal-reason-needed = nada consta de por qué la carga no es apta; dé un motivo

ended-fit = decidida apta { $at }
ended-not-fit = decidida no apta { $at }
ended-stopped = detenida { $at }

at-card = la tarjeta { $card }
at-decision = la decisión

## Lo que pide una respuesta

wanted-mark = la marca
wanted-count = la cuenta
wanted-choice = la elección
wanted-measure = la medida
wanted-serial = el número de serie
wanted-text = el texto

## Lo que se hace después de «no apta»

after-in-place = corríjalo y reinspeccione
after-rerig = haga eslingar la carga de nuevo e inspeccione otra vez
after-new-tag = haga una etiqueta nueva e inspeccione con ella
after-reject = retire la pieza del servicio, eslinge con otra e inspeccione otra vez

## Lo que se hace con una deficiencia

fate-in-place = se corrige aquí y se reinspecciona
fate-rerig = se eslinga de nuevo y se inspecciona otra vez
fate-new-tag = etiqueta nueva e inspección nueva
fate-reject = se retira la pieza por su serie

## Lo que impide que sea apta

block-unanswered = { $cards ->
    [one] la tarjeta { $first } no tiene respuesta
   *[other] { $cards } tarjetas sin respuesta, la primera es la { $first }
}
block-open = el hallazgo { $finding } de la tarjeta { $card } está abierto: { $name }
block-awaits-second-look = el hallazgo { $finding } de la tarjeta { $card } espera la reinspección: { $name }
block-rigging = eslingado: { $summary }

## Lo que la propia etiqueta muestra mal

tag-inspection-past = { $kind } { $serial }: su próxima inspección vencía { $due }
tag-over-allowable = el peso bruto { $gross } supera la carga admisible { $allowable }
tag-over-rating = el peso bruto { $gross } supera la capacidad { $rating } de { $kind } { $serial }
tag-rejected = la pieza { $serial } fue rechazada { $at }: { $why }
tag-no-link-count = la etiqueta no trae cuenta de eslabones para el ramal { $leg }
tag-not-a-mass = { $what } en la etiqueta es { $value }, que no es una masa

## Lo que fue de un hallazgo, cada cosa con su hora

look-corrected = { $at } corregido
look-corrected-by = { $at } corregido por { $who }
look-good = { $at } reinspeccionado: bien
look-still-deficient = { $at } reinspeccionado: sigue mal
look-with-note = { $look }: { $note }

## Advertencias

caution-no-rigger = La etiqueta no nombra eslingador: asegúrese de no haber eslingado usted la carga.
caution-no-allowable = La etiqueta no trae carga admisible.
caution-no-rigging = La etiqueta no trae el eslingado: no se calculó la estática.
caution-clock-jumped = El reloj de este dispositivo saltó durante la inspección.

## Eslabones contados que no son los del plan

link-sits-elsewhere = Ramal { $leg }: en el gancho acortador está el eslabón { $link } y el plan pide el { $planned }.
planned-and-now = Con este eslabón: { $now }. Plan: { $planned }.

## Cómo se responde un punto

answer-look = mirar
answer-count-expected = contar; se esperan { $number }
answer-count-of-tag = contar; se espera lo que dice la etiqueta del ramal { $leg }
answer-count-of-manual = contar y comparar con el manual
answer-choice = elegir entre { $options }; correcto: { $right }
answer-measure-between = medir, de { $least } a { $most }
answer-measure-at-least = medir, al menos { $least }
answer-measure-at-most = medir, a lo sumo { $most }
answer-measure-of-manual = medir en { $unit } y comparar con el manual
answer-measure = medir
answer-serial-of = número de serie: { $equipment }
answer-serial = número de serie
answer-text = texto
may-be-left-out = { $answer }; puede omitirse
procedure-line = { $id } versión { $version }, { $cards ->
    [one] { $cards } tarjeta
   *[other] { $cards } tarjetas
}, { $points ->
    [one] { $points } punto
   *[other] { $points } puntos
}
only-where-tag-says = solo donde la etiqueta dice { $when }
may-be-not-applicable = puede no proceder, con un motivo
whole-card-again = tras una corrección se inspecciona otra vez toda la tarjeta
mark-published = publicado: { $name }
mark-common-practice = práctica común
mark-own = propio del usuario
mark-own-words = propio del usuario: { $said }
noun-gross-mass = peso bruto
noun-allowable = carga admisible
noun-rating-of = capacidad de { $piece }
governing-manual = El manual que rige esta carga manda sobre esta lista; si difieren, deténgase y siga el manual.
