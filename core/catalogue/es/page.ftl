### La página del jefe. No lo ha leído todavía ningún eslingador.

## El marco de cada página

place-zone = Zona
place-plan = Planificar
place-receive = Recibir
place-deficiencies = Deficiencias
place-people = Personas
place-equipment = Material
place-close = Cierre
place-procedures = Procedimientos
place-class = Clase
place-export = Exportar
skip-to-page = Ir al contenido
pages = Páginas
search = Buscar
search-example = Carga, serie, nombre …
foot = Slingseal ayuda a un inspector cualificado. Manda el manual vigente. Las horas son UTC según el reloj de este dispositivo; lo que no se ha traído aquí no se muestra aquí.
to-zone = A la zona
did-not-work = No ha sido posible
not-here = Aquí no
opened = Abierta

## La zona

loads-touched-since = Cargas con cambios desde { $since }, y todas las que valen o están en el aire.
to-look-into = Por revisar
all-states = Todos los estados
stands-for-it = Responde por ella
all-of-them = todas: { $count }
none-of-them = ninguna
before = Anterior
page-of = página { $page } de { $pages }
next = Siguiente
any = cualquiera
look-back = Mirar atrás
days = { $count ->
    [one] 1 día
   *[other] { $count } días
}
ever = siempre
day = Día
label-from = De
label-to = A
aircraft = Aeronave
show = Mostrar
zones-drawn = Las zonas, norte arriba, con sus cargas
here-and-bound = { $here } aquí, { $bound } en camino
schematic = Esquema, norte arriba; según las cuadrículas de las etiquetas.
by-unsigned-reports = Según partes sin firmar, que no mueven nada: { $told }.
look = Mire:
nothing-counted = nada contado
share-told = { $percent } por ciento, intervalo del 95 % de { $low } a { $high }
found-of = { $found } de { $of }

## Una carga

until-by = hasta { $until }, por { $by }
ran-out = caducó { $at }
sealed-by = sellada { $at } por { $by }
record-pdf = Registro en una hoja (PDF)
sheet-pdf = Hoja de carga (PDF)
what-happened = Lo ocurrido
is-at-it = { $inspector } está en ello: { $state }, empezó { $begun }
leg-link = ramal { $leg }: { $link }
gross-weight = Peso bruto
allowable = Carga admisible
rigger = Eslingador
not-named = sin nombrar
procedure = Procedimiento
tag-signed-by = Etiqueta firmada por
links = Eslabones
table = Tabla
serial = Serie
equipment = Material
rating-and-source = Capacidad, fuente
inspect-by = Revisar antes de
none-given = no consta
how-it-hangs = Cómo cuelga: de lado, de frente y desde arriba. { $summary }
edition-approved = aprobado
edition-withdrawn = retirado antes de esta inspección
edition-not-approved = sin aprobar por la autoridad del inspector
seal = Sello
seal-as-code = El sello como código, para escanearlo en el gancho
sealed = Sellada
inspector = Inspector
holds-until = Vale hasta
walked-by = Inspeccionada según
version-of = { $procedure } versión { $version }
that-list = Esa lista
found-corrected = Halladas, corregidas
check-of-seal = Control del sello
to-compare-by-voice = para compararlo de viva voz
record-digest = Registro { $digest }
only-seal-here = Aquí está solo el sello y no el registro completo: reciba el lote del inspector.
deficiencies = Deficiencias
found = Hallado
card = Tarjeta
where = Dónde
what = Qué
what-became-of-it = Qué fue de ello
open = abierta
every-inspection = Todas las inspecciones

## Planificar

field-load = Número de carga
field-description = Qué es
field-allowable = Carga admisible, según la tripulación
field-pickup = Zona de recogida
field-pickup-grid = Su cuadrícula, o latitud y longitud
field-destination = Destino
field-destination-grid = Su cuadrícula
field-links = Eslabones, ramal:eslabón
field-legs = Series de los ramales, ramal:serie
field-weight-source = Peso: weighed (pesado), data plate (placa), added up (sumado), estimated (estimado)
field-manual = Eslingada según: manual | edición
field-airspeed = Velocidad máxima | la fila de donde sale
field-conditions = Condiciones, o ninguna
field-equipment = Material, una pieza por línea
example-description = Par de bidones de agua
example-manual = el manual vigente, su página | 2024
example-airspeed = 80 kt | la fila del manual
no-tag-made = No se hizo ninguna etiqueta.
one-load = Una carga
may-be-left-out = (puede omitirse)
choose = elija
example-equipment = juego de eslingas | SS-0417 | 10000 lb | placa de datos | 2027-03-31
make-tag = Hacer la etiqueta
load-list = Una lista de cargas
list-is-csv = CSV con línea de cabecera, una carga por línea:
list-also = también
a-file = Un archivo
the-list = La lista
make-tags = Hacer las etiquetas
pin-of = PIN de { $holder }
empty-unsigned = (vacío: sin firma, y el gancho dirá que se espere)
tags-unsigned-here = Las etiquetas hechas aquí van sin firma: esta página no tiene credencial de planificador, o está abierta a una red. Fírmelas en la terminal: slingseal tag write.
print-sheets = { $count ->
    [one] Imprimir 1 hoja (PDF)
   *[other] Imprimir { $count } hojas (PDF)
}
tag-of-load-as-code = La etiqueta de la carga { $load } como código
tag-facts = { $description }, { $gross }, { $aircraft } (admite { $allowable })
signed-by = Firmada por { $who }
as-text = Como texto

## Tablas

load = Carga
says = Dice
standing = Situación
place-and-aircraft = Lugar, aeronave
corrected = Corregidas
record = Registro
found-count = Halladas
fit = apta
not-fit = NO APTA
in-force = vigente
of-the-last = De los últimos
all = todos
inspections = { $count ->
    [one] 1 inspección.
   *[other] { $count } inspecciones.
}
inspections-since = { $count ->
    [one] 1 inspección desde { $since }.
   *[other] { $count } inspecciones desde { $since }.
}
thin-line = La línea fina dice cuánto puede haber movido una proporción el mero azar: con pocas inspecciones es larga, y no juzga a nadie.
by-point = Por punto
nothing-found = no se halló nada
point = Punto
what-was-wrong = Qué estaba mal
inspections-head = Inspecciones
more-in-table = y { $count } más: exporte la tabla de deficiencias
by-procedure = Por procedimiento
by-rigger = Por eslingador
how-share-counted = Cómo se calcula la línea de una proporción
interval-wilson = El intervalo en que cae el 95 % de tales cuentas (Wilson 1927).
with-a-finding = Inspecciones con hallazgos
people-of-roles = Inspectores, planificadores, enganche, jefes
name = Nombre
credential = Credencial
roles = Funciones
authority = Autoridad
fit-count = Aptas
last-seal = Último sello
authorities = Autoridades
fingerprint = Huella
roster = Lista
revoked = Revocados
issued-by = Expedidas por { $name }
roster-good-until = Lista { $number }, vale hasta { $until }.
nothing-yet = nada todavía
until = Hasta
state = Estado
key = Clave
revoked-since = revocada { $since }
loads = Cargas
last = Última
next-page = Página siguiente
not-told = no consta
fit-until = Apto hasta { $until }
inspected-at = revisado { $at }
found-fit-at = Hallado apto { $at }
rating = Capacidad
as-newest-tag = Según la etiqueta más reciente.
where-used = Dónde se usó
no-record-with = Ningún registro con { $asked }. Bastan los comienzos de palabra: una carga, un número de serie, un nombre, un lugar, lo hallado.

## La clase

training-counted = Instrucción y no inspecciones. Lo omitido, los elementos y las tarjetas cuentan primeros intentos cuya hoja está aquí: { $count }. La línea fina dice cuánto puede haber movido una proporción el mero azar.
no-result-yet = Aquí no hay todavía ningún resultado. El instructor lo firma en el dispositivo que cerró la clave; reciba el lote de ese dispositivo.
missed-most = Lo más omitido: enseñe esto ahora
students = Alumnos
attempts = Intentos
items = Elementos
time-by-card = Tiempo por tarjeta
for-spreadsheet = Para hoja de cálculo
results = Resultados
cards = Tarjetas
nothing-missed = No se omitió nada.
deficiency = Deficiencia
missed = Omitida
student = Alumno
loads-passed = Cargas aprobadas
runs = Exámenes
passed-at-once = A la primera
retests = Repeticiones
unclear = Dudosos
false-calls = Avisos falsos
attempt = Intento
outcome = Resultado
time = Tiempo
began = Empezó
instructor = Instructor
result = Documento
how-items-counted = Cómo se calculan
items-explained = Hallada: proporción de alumnos que la hallaron. Buenos menos flojos: proporción entre el 27 % mejor menos la del 27 % más flojo (Kelley 1939). Con el resto: correlación con el resto de la nota (Henrysson 1963). Con pocos alumnos ninguna dice gran cosa.
planted = Puesta
card-and-point = Tarjeta, punto
good-less-weak = Buenos menos flojos
with-the-rest = Con el resto
what-to-make-of-it = Qué deducir
card-numbered = tarjeta { $card }
more-items = y { $count } más: vea la tabla de elementos
station = Puesto
title = Título
middle = Mediana
longest = Máximo
load-and-attempt = { $load }, intento { $attempt }
standard = Norma
what-was-planted = Lo que se puso
result-digest = Resultado { $digest }
to-class = A la clase
in-order-of-load = En el orden de la carga
false-call-at = Tarjeta { $card }, { $title }: avisó «{ $called }» a { $at }, donde nada estaba mal
false-call = Tarjeta { $card }, { $title }: avisó «{ $called }», donde nada estaba mal
passed = aprobado
failed = SUSPENSO
outcome-unclear = dudoso

## Exportar

tables-csv = Tablas (CSV)
for-spreadsheets = Para hojas de cálculo y estadística. Horas en UTC y como grupos fecha-hora, masas en kg y lb, lugares en MGRS.
records = Registros
class-tables = Las tablas de una clase
everything-json = Todo (JSON)
one-document = Un documento, esquema { $schema }. Los mismos registros dan los mismos octetos en todo puesto.
the-account = La cuenta
another-desk = Otro puesto
bundle-carries = Un lote lleva registros, etiquetas, anulaciones, credenciales, listas y fotografías.
bundle-file = Lote (archivo)
or-moving-code = O muéstrelo como código móvil a la cámara de otro puesto (sin fotografías).
other-desks-have-code = El código de existencias del otro puesto, si dio uno
show-moving-code = Mostrar el código móvil
hook-check-for-phones = Control de gancho para cualquier teléfono
hook-check-explained = Un archivo que se abre en un navegador sin red y dice GO, WAIT o NO-GO. Confía en quien confía este puesto, sabe lo que este puesto sabe ahora y dice WAIT pasado su día.
built-without-page = Este programa se construyó sin la página. Véase README: check-page.
leader-signs-here = La firma un jefe, en esta máquina: nadie con esa función y credencial vigente tiene este puesto.
hours-relied-on = Horas en que se puede confiar en ella
make-file = Hacer el archivo
part-of = Parte { $part } de { $parts }.
together-too-much = Juntas eran demasiado para un código. El otro puesto toma cada una por sí misma, en cualquier orden.
part-numbered = Parte { $part }
hold-camera = o algunos más. Sujete la cámara del otro puesto con el código entero en la imagen; avisa cuando lo tiene todo.
frame-of-moving-code = Un cuadro del código móvil
frames-a-second = Cuadros por segundo
hand-file-on = Pase el archivo por cable, memoria o envío, y diga estos cinco grupos a quien lo abra. La primera pantalla muestra los mismos.
signed-by-label = Firmado por
rely-until = Confíe en él hasta
trusts = Confía en
words-inside = Sellos, anulaciones y etiquetas dentro
the-file-hook = El archivo: hook.html

## El cierre

nothing-of-that-day = De ese día no consta nada.
account-counts = { $loads ->
    [one] 1 carga
   *[other] { $loads } cargas
    }, { $inspections ->
    [one] 1 inspección
   *[other] { $inspections } inspecciones
    }, { $lifted ->
    [one] 1 levantada
   *[other] { $lifted } levantadas
    }, { $set_down ->
    [one] 1 depositada
   *[other] { $set_down } depositadas
    }, { $lost ->
    [one] 1 perdida
   *[other] { $lost } perdidas
    }.
reports-unsigned = { $count ->
    [one] 1 parte va sin firma: es lo que se dijo y no prueba nada.
   *[other] { $count } partes van sin firma: son lo que se dijo y no prueban nada.
}
everything-adds-up = Todo cuadra.
of-what = De
known = Lo que se sabe
to-do-or-explained = Qué hacer, o explicación
account-digest = { $count ->
    [one] Cuenta { $digest } de 1 documento
   *[other] Cuenta { $digest } de { $count } documentos
}

## Las listas

only-approved-counts = Solo lo inspeccionado según una lista que aprueba la autoridad del inspector puede ser GO. Las que vienen con el programa son un comienzo para las propias y no un manual.
the-lists = Las listas
version = Versión
points = Puntos
approval = Aprobación
here = Aquí
what-loads-walked-by = Según qué se inspeccionó cada carga
when-walked = Al inspeccionar
inspectors = Inspectores
list-missing = falta: recíbala de un dispositivo que la tenga
list-in-use = en uso
list-kept-apart = guardada aparte
blank-checklist = Lista en blanco

## Recibir

files = Archivos
bundles-pictures-texts = Lotes, imágenes de códigos, textos.
drop-files = Suelte aquí archivos, o elija
scanner = Escáner
scanner-that-types = Un escáner que teclea: pulse el campo y escanee.
what-scanner-types = Lo que teclea el escáner
take-in = Recibir
text = Texto
codes-as-text = Códigos como texto, uno por línea
one-code-a-line = SL1:… un código por línea
camera = Cámara
hold-code-still = Un código, o un código móvil: sujételo quieto en el centro.
no-camera = No se puede usar ninguna cámara. Permítala en el navegador, o envíe una imagen como archivo.
looking = Mirando …
desk-gone = El puesto no responde. ¿Sigue en marcha slingseal?
frames-seen = { $taken } de unos { $enough } cuadros
start-camera = Encender la cámara
camera-own-page-only = Los navegadores solo dan la cámara a la página de esta misma máquina: abra allí el enlace, o haga una foto y envíe el archivo.
received-since-start = Recibido desde el arranque
taken-in = Recibido:
taken-in-part = Recibido en parte:
refused = Rechazado:
set-aside = Apartado
kept-not-believed = Guardado, no creído. Lo que vuelva a llegar en buen orden se recibe y sale de esta lista.
came = Llegó
why = Por qué
bytes = Octetos
digest = Resumen

## Lo que se pidió a la página y no se puede

more-than-mebibytes = son más de { $most } MiB; envíe menos de una vez
upload-broke-off = el envío se cortó ({ $what }); envíelo otra vez
end-is-missing = falta el final
other-address = Esta dirección no es la que se abrió. Use el enlace que mostró slingseal.
from-other-page = Esta petición vino de otra página. Use la propia página.
browser-not-known = Aquí no se conoce este navegador. Use el enlace que mostró slingseal al arrancar.
opens-every-network = 0.0.0.0 abre todas las redes de esta máquina; nombre la única dirección que quiere
address-not-free = { $wanted }: { $plain }; elija otro con --port, o una dirección de esta máquina
page-until-ctrl-c = La página del jefe, hasta Ctrl-C:
open-to-network = esta dirección está abierta a la red. Quien tenga el enlace puede leer todo lo de aquí y añadir, y quien escuche en la red puede leerlo: nada va cifrado. Iníciela con --tls, o use un cable o una red propia. Por ella no se firma nada ni funcionan las cámaras.
no-signal-caught = no se puede captar ninguna señal: { $plain }

## Lo que llegó y qué fue de ello

moving-code = código móvil
no-code-in-file = { $name }: no se lee ningún código; repita la foto: más cerca, plana
more-codes-than-taken = { $name }: { $count } códigos son más de los que se reciben de una vez, { $most }; no se recibió nada, divídalo o envíe un lote
new-records = { $count ->
    [one] 1 registro nuevo
   *[other] { $count } registros nuevos
}
records-completed = { $count ->
    [one] 1 registro completado
   *[other] { $count } registros completados
}
records-known = { $count ->
    [one] 1 registro ya conocido
   *[other] { $count } registros ya conocidos
}
new-papers = { $count ->
    [one] 1 etiqueta, anulación, credencial o lista nueva
   *[other] { $count } etiquetas, anulaciones, credenciales y listas nuevas
}
new-photographs = { $count ->
    [one] 1 fotografía nueva
   *[other] { $count } fotografías nuevas
}
nothing-new = nada nuevo
set-aside-line = apartado, { $place } ({ $kind }): { $reason }
and-more = y { $count } más
trusted-here = Aquí se confía en ella.
have-fingerprint-read = Haga que le lean su huella desde el propio dispositivo de la autoridad.
trust-in-terminal = Luego confíe en ella en la terminal: slingseal authority trust CARD
card-of-authority = la tarjeta de la autoridad { $name }
issue-in-terminal = Expida con ella en la terminal: slingseal authority issue REQUEST
key-request-of = una solicitud de clave de { $holder }, huella { $fingerprint }
credential-revoked = la credencial de { $holder }, revocada: nada firmado con ella cuenta
credential-until = la credencial de { $holder }, hasta { $until }
is-new = nueva
no-newer = no más nueva que la de aquí
roster-taken = { $approved ->
    [one] lista { $number } de { $authority }, { $revoked } revocados, 1 procedimiento aprobado, { $new }
   *[other] lista { $number } de { $authority }, { $revoked } revocados, { $approved } procedimientos aprobados, { $new }
}
tag-taken = la etiqueta de la carga { $load }: { $description }
load-taken-back = carga { $load } anulada por { $by }: { $cause }
movement-taken = carga { $load }: { $event }, { $at } ({ $origin })
closing-taken = el cierre de { $name } por { $by }
piece-fit-until = apto hasta { $until }
piece-fit = apto
inspection-not-fit = no apto
piece-withdrawn = no apto; una pieza de material queda retirada
inspection-taken = Inspección de { $name } por { $by }: { $found }
examination-taken = examen ({ $what }) de { $by } en la carga { $load }
training-says-nothing = Instrucción y no inspección: no dice nada de una carga.
seal-of-load = un sello de la carga { $load }: { $word }, { $first }
seal-taken = un sello: { $word }, { $first }
shown-together = carga { $load }: { $word }, { $first }
known-already = { $what }; ya constaba

## Títulos de páginas

not-asked-so = Aquí nada se pide de esa manera.
link-of-other-start = Este enlace es de otro arranque. Use el último que mostró slingseal.
list-of-other-start = Esta lista se hizo en otro arranque. Hágala de nuevo, o abra cada carga por su número.
home-without-name = un puesto sin nombre
the-zone = La zona
closing = El cierre
load-numbered = Carga { $load }
tag-without-rigging = la etiqueta de esta carga no trae el eslingado
equipment-of = Material { $serial }
the-class = La clase
examination-of = Examen de { $student }
the-tags = { $count ->
    [one] La etiqueta
   *[other] Las etiquetas
}
hook-check = Control de gancho
moving-code-title = Código móvil
no-such-frame = no hay tal cuadro; muestre otra vez el código móvil
no-such-page = aquí no hay tal página
every-record = Todos los registros
search-for = Búsqueda: { $asked }
no-tag-named = no se nombró ninguna etiqueta; imprima desde la página de la carga
no-such-class-table = la clase no tiene tal tabla
export-not-written = no se puede escribir la exportación: { $plain }; libere espacio
no-such-export = no hay tal exportación
plan-and-print = Planificar e imprimir
frames-taken = { $taken ->
    [one] { $taken } cuadro
   *[other] { $taken } cuadros
} de un código móvil; hacen falta unos { $enough }
a-file-named = un archivo
more-than-page-takes = es más de lo que la página recibe; use slingseal bundle read
upload-not-kept = no se puede guardar el envío: { $plain }; libere espacio y envíelo otra vez
upload-cut = el envío se cortó; envíelo otra vez
photographs = Fotografías
photograph-of = Fotografía: { $of }, { $at }
photograph-away = No está aquí; reciba un lote que lleve fotografías.

## Cifrado, o no

certificate-told = El navegador no conoce el certificado de este puesto y avisa. Siga solo donde muestre esta huella SHA-256:
open-encrypted = esta dirección está abierta a la red, cifrada. Quien tenga el enlace puede leer todo lo de aquí y añadir; no se lo dé a nadie más.
pin-not-in-the-clear = en esta red nada va cifrado, así que no se admite ningún PIN ni frase de paso; inicie slingseal serve con --tls, o actúe en esta máquina
certificate-not-made = no se hizo el certificado: { $plain }
form-was-sent = Este formulario ya se envió, o es demasiado antiguo. Mire si quedó hecho; si no, empiece de nuevo.

## Actos

act-void = Retirar este sello
act-void-title = Retirar un sello
act-approve-title = Aprobar un procedimiento
act-withdraw-title = Retirar una aprobación
act-issue-title = Emitir una credencial
act-revoke-title = Revocar una credencial
act-revoke = Revocar
act-distrust-title = Dejar de confiar en una autoridad
act-distrust = Dejar de confiar
act-go-on = Seguir
act-nothing-done = Aún no se ha hecho nada. Léalo y después firme.
act-nothing-done-unsigned = Aún no se ha hecho nada. Léalo primero.
act-leave = Dejarlo; no se hace nada
act-not-done = No se hizo
act-done = Hecho
field-record = Registro
field-cause = Por qué
field-note = Nota
field-request = Petición de clave, como texto
field-holder = Otro nombre que el que pide la petición
field-validity = Un sello vale como máximo, en horas
field-expires = Hasta
field-edition = Edición
field-edition-text = O su texto, de un archivo
field-roster-days = La lista vale, en días
field-whose = De quién
passphrase-of = Frase de paso de { $holder }
usual-hours = { $hours } si no se indica
usual-days = { $days } si no se indica
void-was-made = El sello de la carga { $load } queda retirado. Quien lo tenga debe tener este código.
was-issued = Emitida a { $holder }, { $roles }, hasta { $until }. Devuelva este código al dispositivo que la pidió.
roster-was-signed = La lista { $number } de { $name } está firmada. Entréguela a cada dispositivo.
trusted-no-longer = Ya no se confía en { $name }. { $next }
code-as-picture = El código
distrust-needs-no-pin = No se firma nada: esto solo afecta a este puesto.

## Un archivo de eslingado en un plan

field-rigging = Archivo de eslingado (TOML)
look-at-rigging = Mostrar cómo cuelga
rigging-shown = Cómo cuelga
rigging-of-list = Archivos de eslingado de la lista
files-together = Todos a la vez, por sus nombres
file-not-named = La lista no nombra { $name }.
look-at-listed = Mostrar cómo cuelgan sus cargas
listed-not-given = aún no se dio: elija el archivo o pegue su texto
give-listed = La lista nombra archivos de eslingado. Dé cada uno junto a la lista y mírelo.
too-many-listed = la lista nombra más de { $most } archivos de eslingado y una página no dibuja más a la vez; divida la lista o use slingseal tag write
look-then-make = Aún no se hizo nada. Mire cada dibujo y luego haga las etiquetas.
list-names-no-rigging = Aún no se hizo nada. La lista está bien y no nombra ningún archivo de eslingado.

## Lo que cambia mientras se mira

live-on = Se mantiene al día
live-off = No se mantiene al día; cargue la página de nuevo
live-many = Ya miran tantos que esta página no se mantiene al día
keys = Teclas
keys-told = Las flechas van de carga en carga y de fila en fila, cuando una tiene el foco. Con las teclas de acceso de su navegador: S busca, de 1 a 9 se abren las páginas.

## Tiempos, y orden

from-day = Desde
until-day = Hasta
weeks-title = Por semana
week = Semana
weeks-told = Inspecciones en las que se halló algo, semana a semana; la línea fina es el intervalo del 95 % (Wilson).
sorted-by = Ordenar por { $column }
up = ascendente
down = descendente

## Trabajo largo

work = Trabajo
work-export = Exportar { $name }
work-bundle = Incorporando { $name }
work-audit = Revisión
work-goes-on = En curso
work-stopped = Detenido
work-failed = Fallido
work-done-in = Hecho
work-bytes = { $done } kB de { $of } kB
work-bytes-so-far = { $done } kB
work-items = { $done } de { $of }
work-begun = Empezado
stop = Detener
stop-named = Detener: { $what }
take-file = Tomar el archivo
audit-door = Revisión
audit-explained = Este puesto revisado entero: su diario, la cadena y la firma de cada registro, cada documento.
audit-begin = Empezar la revisión
audit-holds = Todo se sostiene: { $records } registros, { $entries } entradas, { $papers } documentos.
audit-faults = { $count ->
    [one] Una cosa no se sostiene.
   *[other] { $count } cosas no se sostienen.
}
stopped-partly = Detenido. Lo incorporado antes queda; el resto se incorpora cuando se envíe de nuevo.
no-such-work = Ese trabajo ya no se conoce aquí.
too-much-work = Hay tanto trabajo largo en curso como cabe; espere a que acabe alguno, o deténgalo.
sending = Enviando { $name } …
not-sent = { $name } no se envió. ¿Sigue en marcha slingseal?
work-by-itself = Esta página vuelve a mirar por sí sola.
not-a-whole-number = «{ $value }» no es un número entero
