### La inspección en el terminal. No lo ha leído todavía ningún eslingador.

practice-band = {" "}PRÁCTICA{" "}
practice-lead = PRÁCTICA{"  "}
state-not-answered = SIN RESPUESTA
state-partly = EN PARTE
state-good = BIEN
state-deficient = DEFICIENTE
state-awaits = CORREGIDO: REINSPECCIONE
point-good = bien
point-awaits = REINSPECCIONE
finding-open = ABIERTO
finding-is-closed = cerrado
more-lines-shows-them = { $left ->
    [one] … 1 línea más: + la muestra
   *[other] … { $left } líneas más: + las muestra
}
good-deficient-reinspect = + bien  ! deficiente  ? reinspeccionar
partly-not-answered = / en parte  . sin respuesta
finding-card = { $shape } { $word }  hallazgo { $number }: { $shown }  (tarjeta { $card })
who-corrected = ¿Quién lo corrigió?
who-rigged-load = { $rigger }, que eslingó la carga
somebody-else-enter-call-sign = Otra persona: poner su distintivo
not-named = Sin nombre
inspection-begins = Empieza la inspección.
stand-at-load = { $student }: póngase ante la carga. El reloj empieza con esta tecla y nada lo para.
call-what-you-find = Cante lo que halle; nada se corrige.
start-clock = Empezar el reloj
leave-nothing-begun = Salir; no se empezó nada
examination = Examen
last-answer-taken-back = La última respuesta queda deshecha.
no-answer-take-back = No hay respuesta que deshacer.
inspection-goes-where-stood = La inspección sigue donde estaba.
card-good-takes-back = Tarjeta { $number } bien: { $title }.  * lo deshace.
press-when-card-good = Pulse + cuando toda la tarjeta esté bien.
here-is-card = Esta es la tarjeta { $card }.
not-applicable-takes-back = { $prompt }: no procede.  * lo deshace.
piece-rejected-tag-set-apart = La pieza { $text } queda rechazada. Márquela y apártela.
deficient-takes-back = DEFICIENTE: { $shown }.  * lo deshace.
finding-corrected-now-reinspect = El hallazgo { $finding } está corregido. Ahora reinspecciónelo.
finding-still-deficient-stays-open = El hallazgo { $finding } sigue mal; queda abierto.
decided-not-fit = Decidido: NO APTA.
inspection-stopped-stays-record-device = La inspección queda detenida; consta en este dispositivo.
not-worked-out-tag-carries = sin calcular, la etiqueta no trae el eslingado
statics-line = Estática: { $shape }{ $words }
finding-in-list = { $shape } { $number } { $shown } (tarjeta { $card })
nothing-open = {" "}Nada abierto.
open-findings = {" "}Abierto: { $list }
tag-fault = {"["}!] En la etiqueta: { $fault }
manual-rules-own-eyes = {" "}Manda el manual vigente; mire con sus propios ojos.
more-open = {" "}{ $cut }  (+{ $count } más: 0, 2)
enter = Intro
back-while-nothing-typed = volver, si no hay nada tecleado
next-page = otra página
more-leave = más: salir
what-called = lo cantado
all-cards = tarjetas
more-end-leave = más: terminar, salir
more-pause-statics-leave = más: pausa, estática, salir
take-back = deshacer
done-nothing-say = listo, o nada que decir
hint-go-there = ir a ella
rest-good = el resto bien
one-point = un punto
card-good = tarjeta bien
end-run = terminar
hint-go-on = seguir
more-stop-leave = más: detener, salir
seal-pin = sellar con el PIN
more-other-loads-leave = más: otras cargas, salir
slingseal-inspect = {" "}{ -program }: inspección
manual-rules-program-assists = Manda el manual vigente. Este programa ayuda a un inspector cualificado.
head-load = {" "}Carga { $load }  { $title }
cards-points = { $cards_done } de { $cards } tarjetas, { $points_done } de { $points } puntos
card-of = {" "}{ $station }  tarjeta { $number } de { $of }
head-end = {" "}Fin
head-decision = {" "}Decisión
head-paused = {" "}En pausa
head-seal = {" "}Sello
head-stopped = {" "}Detenida
practice-nothing-real = PRÁCTICA: aquí nada es real
every-card-answered-end-run = {"["} ]  TODO TIENE RESPUESTA: termine
finding-not-closed = {"        "}1 hallazgo sin cerrar
findings-not-closed = {"        "}{ $many } hallazgos sin cerrar
fit-not-sealed-yet = {"["}+]  APTA, sin sellar todavía
not-fit-not-sealed-yet = {"["}!]  NO APTA, sin sellar todavía
something-not-closed-correct-reinspect = {"["}!]  HAY ALGO SIN CERRAR: corrija, reinspeccione
every-card-answered-decide = {"["} ]  TODO TIENE RESPUESTA: decida
cannot-fit-decide = {"["}!]  NO PUEDE SER APTA: decida
serial-number = número de serie
answer-in-words = con palabras
inspection-paused-every-answer-kept = La inspección está en pausa; se guardan todas las respuestas.
moved-begin-anew = Si la carga se movió, se abrió o se eslingó de nuevo, detenga esta inspección y empiece otra.
inspection-stopped-no-seal-comes = La inspección está detenida; de ella no sale sello.
decided-fit-seal-it = Decidido: apta para el izado. El sello lleva su nombre.
decided-not-fit-seal-it = Decidido: no apta. El sello lo dice a quien lo escanee: la carga queda en tierra.
whole-load-inspected = Se inspeccionó toda la carga.
found-corrected-reinspected-not-closed = Hallados { $count }, corregidos y reinspeccionados { $closed }, sin cerrar { $open_findings }.
nothing-stands-way-fit = {"["}+] Nada impide que sea APTA.
in-way-of-fit = Impide que sea APTA:
ask-card-number = ¿A qué tarjeta? Teclee su número e Intro.  > { $typed }_
good-deficient-reinspect-partly-not = + bien   ! deficiente   ? reinspeccionar   / en parte   . sin respuesta
window-too-small = Esta ventana es de { $width } x { $height }. La inspección necesita { $width } x { $height }: agrándela o achique las letras. Nada se pierde; las teclas esperan. Ctrl-C sale.
write-pictures = guardar imagen
code-facts = código o datos
other-loads-leave = otras cargas, salir
window-too-small-for-code = Para mostrar aquí el código la ventana necesita { $columns } x { $rows }; es de { $width } x { $height }. Agrándela o achique las letras y el código sale solo; o pulse + para una imagen.
practice-seal-holds-nowhere = {" "}PRÁCTICA: este sello no vale en ningún sitio{" "}
fact-load = Carga
fact-what = Qué es
fact-gross = Bruto
fact-under = Bajo
fact-inspector = Inspector
fact-authority = Autoridad
fact-sealed = Sellado
fact-holds-to = Vale hasta
fact-procedure = Procedim.
fact-record = Acta
at-the-hook = En el gancho: { $word }. { $first }
take-up-load = Seguir: carga { $load }, { $state }, desde { $dtg }
inspect-load = Inspeccionar la carga { $load }: { $description }
no-load-in-hand = No hay carga en curso. Nombre su etiqueta: slingseal inspect tag.png
practise-invented-load = Practicar con una carga inventada
leave = Salir
which-load = ¿Qué carga?
no-load-in-hand-so-practise = No hay carga en curso, así que practiquemos con una inventada: una bolsa de raciones en Kestrel Meadow.
ask-call-sign = ¿Su distintivo? Por ejemplo, Anvil 3.
welcome = Bienvenida
ask-practice-pin = { $holder }, su PIN de práctica: seis cifras o más, con el que sellará.
not-your-real-pin = No ponga el de verdad. No se muestra.
same-pin-again = El mismo PIN otra vez.
pins-differ = los dos difieren; ponga el PIN otra vez
ready-practice-nothing-holds-real = Listo. Esto es práctica: nada de aquí vale en una zona de verdad.
wanted = {" "}Se pedía: { $wanted }.
wanted-range = {" "}Se pedía: { $range }.
piece-rejected = {" "}La pieza { $piece } queda rechazada.
finding-recorded = Hallazgo { $number } anotado: { $what }.{ $wanted }{ $piece }
piece-leaves-service = La pieza sale del servicio. ¿Cuál es?
enter-serial-number = Poner su número de serie
piece-has-no-serial = No tiene: dígalo en el motivo de NO APTA
can-corrected-where-load-stands = Se puede corregir donde está la carga.
corrected-now-reinspected = Corregido YA, y reinspeccionado
later-stays-open-inspection-goes = DESPUÉS: queda abierto y la inspección sigue
nothing-found-deficient-so-far = Hasta ahora no se halló nada deficiente.
findings = Hallazgos
card-and-prompt = Tarjeta { $card }: { $prompt }
answer-seen = Visto: { $value }
note-told = Nota: { $note }
found-at = Hallado { $dtg }
riggers-corrected = Los eslingadores lo corrigieron
cannot-corrected-place-not-fit = No se corrige en el sitio: NO APTA.{ $fate_words }
piece-is-rejected = La pieza { $piece } queda rechazada.
enter-serial-number-piece = Poner el número de serie de la pieza
reinspect = Reinspeccionarlo
go-card = Ir a la tarjeta { $card }
finding = { $shape } { $word }  hallazgo { $number }: { $shown }
look-with-own-hands = Mírelo usted, con sus propias manos. ¿Está bien ahora?
right-now = {"["}+] Ahora está bien
still-deficient = {"["}!] Sigue mal
what-do-you-see-now = ¿Qué ve ahora?
count-again-enter-what-you = Cuente otra vez y ponga lo que contó.
measure-again-enter-what-you = Mida otra vez y ponga lo que leyó.
enter-what-you-see-now = Ponga lo que ve ahora.
reinspect-title = Reinspección
finding-closed-reinspected-good = El hallazgo { $number } queda cerrado: reinspeccionado, bien.
why-does-not-apply-load = ¿Por qué no procede en esta carga? Pocas palabras.
not-applicable = No procede
ask-which-piece = ¿Qué pieza? Su número de serie: sale del servicio y ninguna carga que la nombre es apta.
rejected-piece = Pieza rechazada
ask-what-is-wrong = Diga en pocas palabras qué está mal.
note-if-more-say-enter = Una nota, si hay más que decir. Solo Intro: sin nota.
note-deficiency = Nota a la deficiencia
who-corrected-call-sign-enter = ¿Quién lo corrigió? Un distintivo; solo Intro: sin nombre.
corrected = Corregido
still-deficient-title = Sigue mal
finding-closed-now = El hallazgo { $finding } queda cerrado: reinspeccionado, bien.
all-keys = Todas las teclas
inspection-paused = La inspección está en pausa.
inspection-ends-without-decision-no = La inspección termina sin decisión y de ella no puede salir sello.
ask-why-stop = ¿Por qué? Pocas palabras; solo Intro vuelve.
stop-inspection = Detener la inspección
load-stays-ground = La carga queda en tierra.
ask-why-not-fit = ¿Por qué? Pocas palabras. Si hay hallazgos anotados basta Intro.
decide-not-fit = Decidir NO APTA
your-pin-puts-your-name = Su PIN le pone su nombre. No se muestra.
seal-title = Sellar
sign-title = Firmar
sign-pin = firmar con el PIN
fit-not-signed-yet = {"["}+]  APTO, sin firmar todavía
not-fit-not-signed-yet = {"["}!]  NO APTO, sin firmar todavía
decided-fit-now-sign = Decidido: APTO. Ahora fírmelo.
decided-signature-carries-it = Decidido. Viaja con su firma: sin ella nadie más se entera.
inspection-signed = { $name }: firmado por { $inspector }. Viaja con el próximo lote.
deficiency-which-point = Deficiencia: ¿en qué punto?
something-else-your-words = Otra cosa, con sus palabras
deficiency-what-wrong = Deficiencia: ¿qué está mal?
applies-answer = Procede: responderlo
not-applicable-load-why = No procede en esta carga, y por qué
good-takes-back = Bien: { $prompt }.  * lo deshace.
source = Fuente: { $source }.
good-point-alone = {"["}+] Bien, solo este punto
deficient = {"["}!] Deficiente
takes-back = { $prompt }: { $shown }.  * lo deshace.
which-one-do-you-see = ¿Cuál ve?
count-enter-what-you-counted = Cuente y ponga lo que contó.
measure-enter-what-you-read = Mida y ponga lo que leyó, en { $unit }.
read-serial-number-off-plate = Lea el número de serie en la placa.
your-words = Con sus palabras.
pause-inspection = Pausar la inspección
go-inspection = Seguir con la inspección
cautions-statics-full = Advertencias y estática completas
other-loads = Otras cargas
leave-program-inspection-stays-where = Salir del programa; la inspección queda donde está
more-title = Más
manual-stands-above = El manual vigente, las normas locales y su propio juicio están por encima de este programa.
tag-carries-no-rigging-so = La etiqueta no trae el eslingado, así que no se calculó la estática.
cautions-statics = Advertencias y estática
not-yet = Todavía no: { $first }.
you-say-it-is-rigged = Usted dice que la carga { $load } está eslingada como pide el procedimiento.
you-looked-at-all = Usted miró todos y cada uno de los { $points } puntos.
decide-fit = ¿Decidir APTA?
yes-fit-lifted = {"["}+] Sí, APTA para el izado
decided-fit-now-seal = Decidido: APTA. Ahora séllelo.
sealed-show-code-hookup-team = Sellado. Muestre este código al equipo de enganche; que compruebe los datos en voz alta.
sealed-written-png-svg-txt = Sellado y guardado: { $shown }.png, .svg y .txt
nobody-who-trusted = nadie en quien se confíe aquí
gross-under-allowed = { $gross } bajo un { $aircraft }, que admite { $allowable }
rigged-planned = Eslingada por { $rigger }; planificada { $dtg } por { $planner }
procedure-titled = Procedimiento: { $title }
play-load-stands-before-you = Imagine que tiene la carga delante. Ningún sello de ella vale en una zona de verdad.
load-load = Carga { $load }: ¿es esta la carga?
inspect-this-load = Sí, inspeccionarla
clock-runs-call-what-you = El reloj corre. Cante lo que halle; nada se corrige.
run-goes-clock-never-stopped = El recorrido sigue; su reloj no se paró.
call-recorded-when-rest-card = Anotado, cantado número { $called }. + cuando el resto de la tarjeta esté bien; * lo deshace.
every-card-answered = Todas las tarjetas tienen respuesta.
card-not-answered-what-planted = 1 tarjeta sin respuesta; lo puesto en ella cuenta como no hallado.
cards-not-answered-what-planted = { $left } tarjetas sin respuesta; lo puesto en ellas cuenta como no hallado.
end-run-clock-stops = Terminar el recorrido: el reloj se para
go-on-back = Seguir
ask-end-run = ¿Terminar el recorrido?
run-ended-give-device-instructor = El recorrido ha terminado. Dé el dispositivo al instructor o lleve la hoja.
end-run-title = Terminar el recorrido
leave-program = Salir del programa
leave-program-clock-runs = Salir del programa; el reloj sigue
nothing-called-so-far = Hasta ahora no se cantó nada.
called-at-card = {"["}!] { $shown }  (tarjeta { $card })
called-so-far-go-card = Cantado hasta ahora: ir a su tarjeta
over-time = {"  "}[!] pasado de tiempo
device-clock-jumped = {"  "}[!] el reloj del dispositivo saltó
called-key = {" "}Cantados { $calls }.   Clave { $key }
clock-line = {" "}Tiempo { $clock }{ $over }{ $jumped }
examination-training-no-inspection-governing = {" "}Examen: instrucción y no inspección. Manda el manual vigente.
run-ended = El recorrido ha terminado: { $clock }.
no-seal-comes-instructor-scores = De él no sale sello. Lo puntúa el instructor:
device-slingseal-exam-result = {"  "}en este dispositivo   slingseal exam result { $sheet }
another-slingseal-exam-sheet-out = {"  "}en otro               slingseal exam sheet { $sheet } --out ARCHIVO
ends-run-goes-back-card = + termina el recorrido; . vuelve a una tarjeta.
run-load-ended-score-slingseal = El recorrido de { $student } con la carga { $load } ha terminado: { $clock }. Puntúelo: slingseal exam result { $sheet }
run-load-goes-clock-back = El recorrido de { $student } con la carga { $load } sigue, y su reloj con él. Para volver: slingseal exam run --run { $id }
key-held-down = Hay una tecla apretada. Suéltela y mire: * deshace la última respuesta.
sealed-show-again = { $practice }La carga { $load } está sellada; muestre el sello otra vez con: slingseal { $home }records seal { $digest }
stands-at-card = en la tarjeta { $number } de { $of }
load-was-stopped = { $practice }Carga { $load }: la inspección está detenida.
decided-not-sealed = decidida y sin sellar
stands-at-decision = en la decisión
load-stands = { $practice }La carga { $load } está { $at }; se guardan todas las respuestas. Siga con: slingseal inspect
terminal-cannot-used-try-another = no se puede usar el terminal: { $plain }; pruebe con otro
someone-not-named = alguien sin nombrar

## Junto a las teclas: quince letras a lo sumo

hint-back = volver
hint-done = listo
hint-erase = borrar
hint-leave = salir
hint-pick = elegir
hint-called = cantado
hint-findings = hallazgos
hint-not-fit = NO APTA
hint-fit = APTA
hint-later = después
hint-number = número
hint-deficiency = deficiencia
hint-reinspect = reinspeccionar

## Los datos del sello

found-label = Hallados
count-corrected = { $found }, corregidos { $corrected }
fit-sealed = {"["}+]  APTA, SELLADA
not-fit-sealed = {"["}!]  NO APTA, SELLADA

all-keys-text =
    En una tarjeta
    +  toda la tarjeta está bien (también g); pide antes lo que haya que contar o leer
    -  una deficiencia: el punto por su número, y después qué está mal (también d)
    1 a 9  un solo punto: bien, deficiente, o su cuenta, elección o medida
    {"*"}  deshace la última respuesta (también u, Retroceso)
    /  hallazgos: corregir, reinspeccionar (también f)
    {"."}  todas las tarjetas; teclee un número e Intro para ir (también c)
    0  más: pausa, estática, detener, salir (también m, ?, Esc)

    En una lista
    1 a 9  elegir    +  página siguiente    -  volver (también Esc)

    Donde se teclea algo
    Intro  listo    *  borrar (también Retroceso)    -  volver si no hay nada tecleado (también Esc)

    El código en la pantalla
    +  guardar PNG, SVG y texto    .  código o datos    0  otras cargas

    En cualquier sitio
    Ctrl-C  salir. Cada respuesta está en el disco antes de que se vea, así que nada se pierde.
fact-check = Control

## Lo que se hace con la carga, o con la pieza, tras el nombre de una deficiencia

fate-rerig = {"   "}(se eslinga de nuevo y se inspecciona otra vez)
fate-new-tag = {"   "}(etiqueta nueva e inspección nueva)
fate-reject = {"   "}(se rechaza la pieza)

## Franjas, teclas y títulos

from-to = de { $from } a { $to }
examination-band = {" "}EXAMEN{" "}
run-is-ended = {"["}x]  EL EXAMEN HA TERMINADO
inspection-is-paused = {"["}=]  EN PAUSA
inspection-is-stopped = {"["}x]  DETENIDA
point-count = cuente
point-choose = elija
point-measure = mida: { $unit }
deficient-what = {"["}!] DEFICIENTE  { $what }
reinspect-what = {"["}?] REINSPECCIONE  { $what }
stands-paused = en pausa
a-pin = Un PIN
manual-rules-alone = {" "}Manda el manual vigente.
own-eyes = {" "}Mire con sus propios ojos.
examination-no-inspection = {" "}Examen: instrucción, no inspección.
