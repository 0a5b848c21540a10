### Exámenes. No lo ha leído todavía ningún eslingador.

## Claves

what-can-be-planted = Lo que se puede poner; dé una por tarjeta con --plant:
to-rig-on-load = Para poner en la carga { $load }, { $title }; no se guarda nada:
then-lock-same = Luego cierre lo mismo con --seed { $seed }
no-pick = «{ $text }» no es una elección; escriba PUNTO=NOMBRE, como apex.fitting.cotter="cotter pin is missing"
say-standard = diga la norma de su unidad: --find N deficiencias, --within TIEMPO como 4:30, --false-calls N que se dejan pasar; no se supone ninguna
how-many-to-find = ¿Cuántas debe hallar un alumno según la norma de su unidad?
within-what-time = ¿En cuánto tiempo? Segundos, o minutos:segundos.
how-many-false-calls = ¿Cuántos avisos donde no hay nada mal deja pasar la norma de su unidad? 0 si ninguno.
no-number-of-false-calls = «{ $text }» no es un número de avisos falsos
no-number-of-deficiencies = «{ $text }» no es un número de deficiencias
no-time = «{ $text }» no es un tiempo; escriba segundos, o minutos:segundos como 4:30
card-numbered = tarjeta { $card }
key-line = Clave { $key }: carga { $load }, procedimiento { $procedure }, { $standard }
key-locked = cerrada { $at } por { $by }
planted-for-instructor = puesto, en el orden de la carga; solo para el instructor:
planted-known-here = este dispositivo sabe lo que hay puesto: exam keys { $key } --reveal
planted-known-to-instructor = lo que hay puesto lo sabe solo el dispositivo del instructor
runs-and-results = exámenes { $runs }, resultados { $results }

## Exámenes

name-key-and-student = nombre la clave y --student NOMBRE, o siga con --run ID
several-runs-fit = varios exámenes corresponden a { $digits }; dé más dígitos
no-open-run-fits = ningún examen en curso corresponde a { $digits }; vea exam result
sheet-frames = { $count ->
    [one] { $count } cuadro
   *[other] { $count } cuadros
}, de los que bastan { $enough }, en { $folder }
several-runs-of = varios exámenes corresponden a { $which }; dé más dígitos
go-on-with-run = siga: exam run --run { $id }
score-run = puntúelo: exam result { $id }
bring-to-instructor = llévelo al instructor: exam sheet { $id } --out ARCHIVO
events-were-lost = se perdió lo anotado
load-and-key = carga { $load } clave { $key }
result-figures = halladas { $found } de { $of }, avisos falsos { $calls }, { $time }, intento { $attempt }
run-open = abierto
run-ended = acabado
run-scored = puntuado
run-lost = perdido
result-passed = aprobado
result-failed = suspenso
result-unclear = dudoso
result-line = { $outcome }: { $student } en la carga { $load }, intento { $attempt }; clave { $key }; por { $instructor } ({ $authority })
standard-line = norma: { $standard }
in-order-of-load = En el orden de la carga:
false-call-line = {"["}?] Tarjeta { $card }, { $title }: avisó «{ $called }» a { $at }, donde nada estaba mal
time-by-card = Tiempo por tarjeta:
result-digest = Resultado { $digest }

## La clase

class-is-empty = No hay ningún resultado que contar: puntúe un examen terminado (exam result), o reciba lo que traiga resultados (bundle read).
students = Alumnos
column-runs = exám.
column-passed = aprob.
column-first = prim.
column-retests = repet.
column-unclear = dudos.
column-found = halladas
column-false = falsos
missed-most = Lo más omitido (primeros intentos, { $count }; entre paréntesis, el intervalo en que caen 95 de cada 100 cuentas así)
missed-line = { $missed } de { $of } { $share } % (de { $low } a { $high })  { $procedure }: { $deficiency }
items-head = Elementos (p: proporción que la halló; D: 27 % superior menos inferior; r: con el resto de la nota)
item-line = p { $p }  D { $d }  r { $r }  { $students } alumnos  { $procedure } tarjeta { $card } { $point }: { $deficiency }; { $said }
time-by-card-head = Tiempo por tarjeta (mediana, máximo)
card-time-line = { $middle } { $longest }  { $runs } exám.  { $procedure } tarjeta { $card }  { $title }

## Lo que el núcleo dice de los exámenes

run-in-doubt = { $student } en la carga { $load }: { $doubt }
run-sheet-missing = { $student } en la carga { $load }: la hoja del examen no está aquí; pida su lote
weaker-find-it = la hallan más los alumnos flojos: mire cómo se puso
most-miss-it = la mayoría la omite: enséñela
nearly-all-find-it = casi todos la hallan: ponga otra
tells-but-little = distingue poco entre alumnos buenos y flojos
tells-good-from-weak = distingue entre alumnos buenos y flojos
too-few-students = muy pocos alumnos para saberlo
standard-words = { $calls ->
    [one] { $least } de { $of } en { $time }, 1 aviso falso como máximo
   *[other] { $least } de { $of } en { $time }, { $calls } avisos falsos como máximo
}
key-fault = clave de examen { $paper } (carga { $load }): { $error }
sheet-fault = hoja de examen { $paper } (carga { $load }): { $error }
result-fault = resultado de examen { $paper } (carga { $load }): { $error }
result-does-not-count = el resultado { $result } de { $student } en la carga { $load } no cuenta: { $error }
instructor-revoked = la credencial de { $holder } ya está revocada
clock-jumped-in-run = { $count ->
    [one] el reloj saltó una vez durante el examen; el tiempo es lo seguro, no lo que tardó
   *[other] el reloj saltó { $count } veces durante el examen; el tiempo es lo seguro, no lo que tardó
}
no-debrief-without-sheet = la hoja del examen no está aquí, así que no hay repaso
result-is-training = Resultado de examen: instrucción. No es una inspección y ninguna carga queda apta por él.
reason-found = Halladas { $found } de { $of }; se piden { $least }.
reason-time = Tiempo { $time }; se dan { $given }.
reason-false-calls = Avisos falsos { $calls }; se admiten { $most }.
reason-unclear = El reloj del dispositivo saltó y nadie sabe el tiempo: repita el examen.
found-at = hallada a { $at }
found-at-called = hallada a { $at }, llamada «{ $called }»
missed-not-reached = omitida: no se llegó
missed-passed-as-good = omitida: dada por buena, { $stood } en la tarjeta
debrief-words = Tarjeta { $card }, { $title }: { $shown }: { $what }
run-is-ended = este examen ha terminado; su reloj está parado
not-paused = un examen no se pone en pausa; el reloj corre hasta el final
nothing-corrected = en un examen no se corrige nada; avise de lo que halle y siga
not-decided = un examen no se decide; termínelo
no-place-in-examination = esto no tiene lugar en un examen; siga
standard-of-planted = la norma debe ser de 1 a 12 deficiencias puestas
standard-asks-wrong = la norma no pide ninguna, o más de las puestas; pida de 1 a ese número
standard-time-wrong = el tiempo debe ser de 1 segundo a 4 horas; dé otro
nothing-to-plant = diga qué se pone: --draw 4 sortea cuatro, --plant PUNTO=NOMBRE elige una; --preview enseña todo lo que se puede poner
run-that-ended = examen acabado
