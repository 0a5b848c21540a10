### Exámenes. No lo ha leído todavía ningún eslingador.

## Claves

what-can-be-planted = Lo que se puede poner; dé una por tarjeta con --plant:
to-rig-on-load = Para poner en la carga { $load }, { $title }; no se guarda nada:
then-lock-same = Luego cierre lo mismo con --seed { $seed }
no-pick = «{ $text }» no es una elección; escriba PUNTO=NOMBRE, como apex.fitting.cotter="cotter pin is missing"
say-standard = diga la norma de su unidad: --find N deficiencias, --within TIEMPO como 4:30; no se supone ninguna
how-many-to-find = ¿Cuántas debe hallar un alumno según la norma de su unidad?
within-what-time = ¿En cuánto tiempo? Segundos, o minutos:segundos.
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
sheet-frames = { $count } cuadros, de los que bastan { $enough }, en { $folder }
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

students = Alumnos
column-runs = exám.
column-passed = aprob.
column-first = prim.
column-retests = repet.
column-unclear = dudos.
column-found = halladas
column-false = falsos
missed-most = Lo más omitido (primeros intentos, { $count }; 95 %, Wilson)
missed-line = { $missed } de { $of } { $share } % (de { $low } a { $high })  { $procedure }: { $deficiency }
items-head = Elementos (p: proporción que la halló; D: 27 % superior menos inferior; r: con el resto de la nota)
item-line = p { $p }  D { $d }  r { $r }  { $students } alumnos  { $procedure } tarjeta { $card } { $point }: { $deficiency }; { $said }
time-by-card-head = Tiempo por tarjeta (mediana, máximo)
card-time-line = { $middle } { $longest }  { $runs } exám.  { $procedure } tarjeta { $card }  { $title }
