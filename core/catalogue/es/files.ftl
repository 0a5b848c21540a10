### Faltas de los archivos que la gente escribe. No lo ha leído todavía ningún eslingador.

## Todo archivo en TOML

file-too-large = el archivo tiene { $size } octetos
write-below-one-mib = escriba uno de menos de 1 MiB
see-toml = vea la especificación de TOML, toml.io
wanted-text = un texto
wanted-texts = una lista de textos
wanted-number = un número entero
wanted-sensible-number = un número entero de tamaño razonable
wanted-flag = true o false
wanted-quantities = una lista de { $count } cantidades
wanted-table = una tabla
wanted-tables = una lista de tablas
part-has-no = { $part } no tiene { $key }
add-text = añada { $key } = "…"
not-only-texts = { $key } contiene algo que no es un texto
not-only-tables = { $key } contiene algo que no es una tabla
write-this = escriba { $example }
number-without-unit = { $key } tiene un número sin unidad
part-has-no-section = { $part } no tiene [{ $key }]
add-section = añada una sección [{ $key }]
did-you-mean = ¿quiso decir "{ $known }"?
known-here = aquí se conocen: { $known }
key-not-known = "{ $key }" no se conoce en { $part }
mend-the-value = corrija el valor
either-units = { $one }, o { $other }
use-units = use { $units }
write-the-unit = escriba la unidad: { $units }
at-most-three-decimals = escriba a lo sumo tres decimales, o una unidad menor
write-number-and-unit = escriba un número y una unidad: { $units }
wrong-kind-of-unit = { $key } = "{ $text }" tiene una unidad que no corresponde
key-is-wrong = { $key }: { $error }
key-is-not = { $key } no es { $wanted }
write-key = escriba { $key } = { $example }

## Una lista de cargas

list-too-large = la lista tiene { $size } octetos
split-it = divídala
head-line-unreadable = no se puede leer la cabecera: { $error }
write-column-names = escriba los nombres de las columnas, separados por comas
no-column = no hay columna "{ $column }"
add-to-head-line = añádala a la cabecera
use-columns = use { $needed } o { $other }, o quítela
column-not-known = no se conoce ninguna columna "{ $column }"
column-twice = la columna "{ $column }" está dos veces
take-one-out = quite una
line-unreadable = no se puede leer la línea
close-quotes = cierre sus comillas; escriba UTF-8
more-loads-than = hay más de { $most } cargas
split-the-list = divida la lista
fields-and-columns = hay { $fields } campos y { $columns } columnas
quote-the-comma = ponga entre comillas el campo que lleva una coma
load-stands-already = la carga { $load } ya está en la línea { $line }
own-number-each = dé a cada carga un número propio
list-has-no-load = la lista no tiene ninguna carga
one-line-a-load = escriba bajo la cabecera una línea por carga
field-is-wrong = { $field }: { $what }
write-it-anew = escríbalo de nuevo
field-is-empty = el campo está vacío
fill-it-in = rellénelo
mass-is-wrong = { $error }; escriba un número con kg, lb o t, como 5000 lb
mass-not-above-zero = no es mayor que cero; escriba la masa
leg-twice-one-serial = un ramal está dos veces; dé a cada ramal una serie
rigging-file-beside = { $name }: { $error }; nombre un archivo de eslingado junto a la lista
file-is-wrong = { $name }: { $error }
no-place-write-degrees = { $text } no es un lugar; escriba grados
more-than-fit-keep = { $count } son más de los que caben en una etiqueta; deje { $most } como máximo
piece-no-kind-and-serial = "{ $text }" no tiene tipo y número de serie; escriba tipo | serie | capacidad | fuente de la capacidad | próxima revisión
piece-more-than-five = "{ $text }" tiene más de cinco partes; escriba tipo | serie | capacidad | fuente de la capacidad | próxima revisión
piece-rating-no-source = la capacidad de { $serial } no tiene fuente; escriba tipo | serie | capacidad | fuente de la capacidad | próxima revisión
no-rating = "{ $value }" no es una capacidad; escriba un número con lb, kg, t, kN o lbf
no-leg-with-serial = "{ $text }" no es un ramal con su serie; escriba 1:SL-0091; 2:SL-0092 y así
no-manual-with-edition = "{ $text }" no es un manual con su edición; escriba título | edición
airspeed-no-source = "{ $text }" no tiene fuente; escriba límite | fuente, como 80 kt | la fila del manual
airspeed-is-wrong = { $error }; escriba límite | fuente, como 80 kt | la fila del manual
airspeed-not-above-zero = el límite no es mayor que cero; escriba límite | fuente, como 80 kt | la fila del manual
no-leg-with-link = "{ $text }" no es un ramal con su eslabón; escriba 1:3; 2:3 y así

## El plan de una carga

mend-that-file = corrija ese archivo, u omita la línea
leg-twice = un ramal está dos veces
one-leg-with-serial = dé a cada ramal un [[leg]] con su serie
more-conditions-than-fit = { $count } condiciones son más de las que caben en una etiqueta
keep-at-most = deje { $most } como máximo
rigging-other-mass = el eslingado es para { $rigging } y el plan para { $plan }
same-mass-in-both = escriba el mismo peso bruto en ambos
rigging-names-rule = el archivo de eslingado nombra la regla "{ $rule }" y una etiqueta no lleva ninguna
assess-at-desk = evalúe ese archivo en el puesto y omita la regla en el de la etiqueta
rigging-other-allowable = el eslingado admite { $rigging } y el plan { $plan }
same-allowable-in-both = escriba la misma carga admisible en ambos
rigging-other-link = el plan pide el eslabón { $link } en el ramal { $leg } y el eslingado otro
same-link-in-both = escriba el mismo eslabón en ambos
key-is-that = { $key } es { $value }
write-speed-above-zero = escriba una velocidad mayor que cero
write-mass-above-zero = escriba una masa mayor que cero
more-tables-than-fit = { $count } [[{ $key }]] son más de los que caben en una etiqueta
rating-no-source = la capacidad no tiene fuente
add-source = añada source = "…": el manual o la placa donde se lee
leg-no-link-number = el ramal no tiene un número de eslabón entre 1 y 2000
add-link = añada link = 3

## El archivo de un procedimiento

subject-not-known = el objeto no se conoce; escriba load, piece, aircraft, zone o handling
second-round = hay otra ronda que se llama "{ $name }"
give-another-name = dele otro nombre
second-point = hay otro punto que se llama "{ $id }"
rename-one = cambie el nombre de uno
no-station = el archivo no tiene ningún puesto
add-station = añada [[station]] con tarjetas
round-not-used = ningún puesto, tarjeta o punto tiene each = esta ronda
use-or-take-out = úsela, o quítela
point-not-used = ninguna tarjeta usa el punto "{ $id }"
name-in-use = nómbrelo en el use = ["…"] de una tarjeta, o quítelo
no-version = el archivo no tiene versión
add-version = añada version = 1 y súbala con cada edición
out-of-range = { $key } = { $value } está fuera de rango
write-least-to-most = escriba de { $least } a { $most }
round-has-values = la ronda tiene { $count } valores
write-values = escriba values = ["1", "2"], de 1 a { $most }
values-not-short = los valores van en ids y no son nombres cortos, cada uno propio
write-each-once = escriba cada uno una vez, a lo sumo { $most } minúsculas, cifras y guiones
second-column = hay otra columna que se llama "{ $name }"
column-no-words = la columna no tiene palabras
add-words = añada words = ["…"], una por valor
words-and-values = words tiene { $texts } textos y values tiene { $values }
one-for-each-value = escriba uno por valor, en el mismo orden
station-no-card = el puesto no tiene ninguna tarjeta
add-card = añada [[station.card]]
card-no-point = la tarjeta no tiene ningún punto
add-point = añada use = ["…"] o [[station.card.point]]
add-point-of-id = añada un [[point]] con este id
known-are = se conocen: { $known }
no-point-has-id = ningún [[point]] tiene el id "{ $id }"
add-round-named = añada [[round]] con name = "{ $name }"
no-round-called = ningún [[round]] se llama "{ $name }"
round-open-already = la ronda "{ $name }" ya está abierta alrededor de esto
take-each-out = quite aquí each, o use otra ronda
walk-too-large = el recorrido tiene { $cards } tarjetas y { $points } puntos
keep-walk-to = déjelo en { $cards } tarjetas y { $points } puntos
two-have-id = dos elementos ({ $what }) tienen el id { $id }
point-no-deficiency = el punto no nombra ninguna deficiencia
add-in-place = añada in_place = ["…"] para lo que se corrige en el sitio, rerig = ["…"] para lo que no
two-deficiencies-one-name = dos deficiencias del punto tienen el mismo nombre
name-them-apart = nómbrelas distinto
other-is-kept = "other" se reserva para lo que no tiene nombre
take-out-always-offered = quítelo: siempre se ofrece
again-is-not-card = again no es "card"
write-again-card = escriba again = "card", o quítelo
write-condition-name = escriba un nombre corto, minúsculas, cifras y guiones, como están en las condiciones del plan
when-not-short = when no es un nombre corto
write-measure-of-time = escriba kind = "measure" y most = "366 d", o unit = "d"
fit-for-no-time = fit_for no está en una medida de tiempo
count-needs-expected = una cuenta necesita un solo valor esperado
add-expect = añada expect = 3, o links_of_leg = "1" para la cuenta de eslabones de la etiqueta, o of_manual = true donde lo tiene el manual
choice-has-options = una elección tiene de 2 a 9 opciones
write-options = escriba options = ["…", "…"]
two-options-one-name = dos opciones tienen el mismo nombre
right-names-none = right no nombra una o más de las opciones
write-right = escriba right = ["…"], cada una igual que en options
least-most-differ = least y most miden cosas distintas
use-one-unit = use una sola clase de unidad
most-below-least = most es menor que least
swap-them = intercámbielos
measure-needs-range = una medida necesita un margen
add-range = añada least = "2 in" o most = "3 in", o ambos; o unit = "psi" donde el manual tiene el margen
unit-not-known = la unidad no se conoce; escriba psi
kind-not-known = kind = "{ $other }" no se conoce
use-kinds = use look, count, choice, measure, serial o text
there-in-language-only = { $key } está solo en { $code }
add-in-english = añada { $key } = "…" en inglés
texts-and-english = { $code }.{ $key } tiene { $texts } textos y { $key } tiene { $english }
one-for-each-in-english = escriba uno en { $code } por cada uno en inglés, en el mismo orden
not-a-short-name = { $key } = "{ $text }" no es un nombre corto; use minúsculas, cifras y guiones, a lo sumo { $most }
empty-text = { $key } tiene un texto vacío
write-few-words = escriba unas palabras
control-character = { $key } tiene un carácter de control
write-on-one-line = escríbalo en una línea
brace-not-closed = { $key } tiene un {"{"} que ningún {"}"} cierra
close-or-take-out = ciérrelo, o quítelo
stands-for-nothing = { $key }: { $slot } no significa nada aquí
too-long-filled = { $key } tiene { $longest } caracteres una vez rellenado
keep-it-to = déjelo en { $most }
no-round-open = aquí no hay ninguna ronda abierta: añada each = "…", o escriba las palabras

## Palabras de un plan

no-weight-source = "{ $text }" no es fuente de un peso; escriba weighed (pesado), data plate (placa), added up (sumado) o estimated (estimado)
no-condition-name = "{ $text }" no es nombre de una condición; escriba letras, cifras y guiones, a lo sumo { $most }
source-is-no-mark = la fuente no es una de las tres marcas; escriba "published NOMBRE", "common practice" o "user's own"
units-mass = kg, lb o t
units-length = m, cm, mm, ft o in
units-force = N, kN o lbf
units-pressure = psi, kPa o bar
units-speed = kt, km/h o m/s
units-duration = min, h o d

## Lo que dice un sistema de un archivo

system-not-found = no hay tal archivo ni carpeta
system-not-allowed = permiso denegado
system-is-folder = es una carpeta
system-is-no-folder = no es una carpeta
system-disk-full = no queda sitio en el disco
system-read-only = ahí solo se puede leer
