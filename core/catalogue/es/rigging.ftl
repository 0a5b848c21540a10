## Pesaje, búsqueda, vuelo y hojas de una carga eslingada.

### Qué está mal en un pesaje

weigh-nothing = no se pesó nada; escriba puntos [[weighed]], o [[item]] con masa y lugar
weigh-too-many = hay más de { $most } { $what }; escriba { $most } como máximo
weigh-net = la báscula en { $point } marca menos que su tara; revise reads y tare
weigh-tolerance = { $tolerance } no es una tolerancia de { $of }; escriba cero o más, y 50 % como máximo
weigh-no-height = no se conoce la altura de la carga; pésela también inclinada ([tilted]), o escriba height = "…" en [load]
weigh-two-heights = la altura está dada y pesada; escriba height en [load] o [tilted], no ambas
weigh-angle = una inclinación de { $angle } no da altura; incline la carga de 1 a 45 grados, con su tolerancia incluida
weigh-differ = nivelada pesa { $level }, inclinada { $tilted }: más diferencia de la que permiten las básculas; pese otra vez, o escriba rest_at si no todos los puntos estaban sobre básculas
weigh-not-positive = lo que se quita pesa más que lo que hay; revise los elementos
weighed-and-given = { $key } está dado y pesado
weighed-and-given-mend = quite { $key } de [load], o quite [[weighed]] e [[item]]
tilt-how = [tilted] no dice cuánto se inclinó la carga
tilt-how-mend = escriba pitch = "8 deg", o roll = "8 deg", o raised = "20 in" y over = "110 in"
tolerance-unit = { $tolerance } no es una tolerancia; escriba una masa o una parte, como "10 lb" o "0.5 %"
no-rigging = el archivo pesa una carga y no la eslinga; añada [[hook]] y [[leg]]
not-weighed = el archivo da masa y centro y no pesa nada; escriba puntos [[weighed]] o [[item]] en su lugar

### Un pesaje, contado

weighed-mass = La carga pesa { $mass }; dentro de las tolerancias, de { $least } a { $most }.
axis-x = adelante
axis-y = izquierda
axis-z = arriba
weighed-centre = Centro de gravedad, { $axis }: { $at }; dentro de las tolerancias, de { $least } a { $most }.
weighed-untold = No se da tolerancia para { $names }: lo que puedan errar no está en estos márgenes.
weighed-hangs = { $state }: según lo leído, cuelga { $attitude }.
weighed-does-not-hang = { $state }, tal como está eslingada.
weighed-worst = Dentro de las tolerancias, en el peor caso: { $worst } ({ $corners } esquinas de las lecturas revisadas, todas).
weighed-worst-box = Dentro de las tolerancias, en el peor caso: { $worst } ({ $corners } esquinas de una caja alrededor de las lecturas, mayor que lo que pueden ser).
weighed-not-hanging = { $count ->
    [one] En { $count } de ellas no cuelga.
   *[other] En { $count } de ellas no cuelga.
}
weighed-tilt = El cabeceo queda entre { $pitch }, el alabeo entre { $roll }.
weighed-governs = { $part } gobierna en el peor caso, con { $percent }.
weighed-leg = Ramal { $leg }: de { $least } a { $most }; como máximo { $percent } de su capacidad.
weighed-planned-height = La altura del centro de gravedad no se pesó: es la del plan, { $height }.
weighed-over-gross = Puede pesar { $most }: MÁS que los { $gross } planificados. Hace falta una etiqueta nueva.
weighed-within-gross = Pesa { $most } como máximo; se planificaron { $gross }.
weighed-over-allowable = Puede pesar { $most }: MÁS que los { $allowable } que permite la tripulación.
weighed-beside-plan = Centro de gravedad, { $axis }: pesado { $at }, planeado { $planned }.
weighed-leaves-out = No incluye: dónde se midieron los puntos, carga que se desplaza, líquidos, ni básculas que erran más que su tolerancia.

### A load weighed in the field, by keys and without a file

corner-front-left = Delante izquierda
corner-front-right = Delante derecha
corner-rear-left = Detrás izquierda
corner-rear-right = Detrás derecha
field-of-point = { $point }, { $what }: { $why }
field-of = { $what }: { $why }
field-open = pendiente; mídalo y márquelo
field-tilted = marca con un extremo levantado
field-nothing = no se pesó nada; ponga la carga sobre básculas y marque lo que indica cada una
field-nothing-raised = se levantó un extremo y ninguna báscula dice nada de ello; marque lo que indicó cada báscula entonces, o quite la segunda pesada
field-no-height = no se conoce la altura del centro de gravedad; pese otra vez con un extremo levantado, o marque la altura
field-two-heights = la altura está marcada y pesada; quite una de las dos
field-too-many = hay más de { $most } puntos; quite algunos
field-net = { $point }: la báscula marca menos que lo que había encima además de la carga; revise ambos
field-differ = nivelada pesa { $level }, con un extremo levantado { $tilted }: más diferencia de la que permiten las básculas; pese otra vez
field-held-where = los puntos que no estaban sobre básculas no quedan uno sobre otro vistos de lado; marque dónde se sostuvo el extremo levantado
field-scales = Básculas: { $scales }.
field-scales-unsaid = Nadie dice qué básculas son ni de dónde sale su tolerancia.
field-centre-planned = No se pesó dónde está el centro de gravedad: es el del plan.
field-centre-not-kept = No hay eslingado planificado: el centro de gravedad queda aquí y no va en ninguna etiqueta.
field-taken = Para la etiqueta: peso bruto { $gross }, lo máximo que puede pesar; fuente: pesada.
manual-rules = Esto ayuda a un inspector cualificado. Manda el manual aplicable, y las capacidades son las del archivo.

### Cómo cuelga una carga

state-within-limits = DENTRO DE LÍMITES
state-at-rest-only = SOLO EN REPOSO
state-over-limit = SOBRE EL LÍMITE
state-infeasible = NO CUELGA
level = a nivel
nose-up = { $angle } morro arriba
nose-down = { $angle } morro abajo
left-up = { $angle } lado izquierdo arriba
left-down = { $angle } lado izquierdo abajo
both-ways = { $pitch } y { $roll }

### Lo que dice de ello un informe

report-falls = NO CUELGA: { $reason }.
report-note = Nota:
report-warning = - { $warning }.
report-governs = { $state }: en reposo gobierna { $part }, con { $percent }.
report-to-spare = Lleva { $carries } y puede llevar { $rated }: sobran { $left }.
report-too-much = Lleva { $carries } y puede llevar { $rated }: { $left } de más.
rated-from = { $rated } ({ $source })
report-hangs = La carga de { $mass } cuelga { $attitude }.
report-hooks = El gancho { $one } lleva { $carries }, el gancho { $other } lleva { $carries_too }.
report-sharing = «Lleva» reparte la carga según el estiramiento de los ramales; «peor caso» es lo más que cualquier
  reparto pone en el ramal.
report-by-rules = Según los manuales de eslingado: { $rules }.
report-also-over = También sobre el límite: { $part }, con { $percent }. { $margin }
report-one-link = Un eslabón más o menos en el gancho de agarre:
report-carries = lleva
report-of-rating = de su capacidad
report-of = de
report-at-worst = peor caso
report-from-horizontal = desde la horizontal
report-slack = flojo
report-no-bound = sin tope
rules-both-books = si llevan tres ramales (tablas de cadena), { $three }; si llevan dos (regla naval), { $two }
rules-both = si llevan tres ramales, { $three }; si llevan dos, { $two }
rules-two-books = si llevan dos (regla naval), { $two }
rules-two = si llevan dos, { $two }

part-aircraft = lo admisible de la aeronave
part-hook = gancho { $hook }
part-leg = ramal { $leg }
part-of-leg = ramal { $leg }, { $part }
legs-named = { $count ->
    [one] el ramal { $names }
   *[other] los ramales { $names }
}

### Por qué una carga no cuelga

why-too-short = el ramal "{ $leg }" mide { $length } y no llega al gancho; hágalo de { $closes } como mínimo
why-out-of-step = la carga se inclinaría { $lean } grados, porque el ramal "{ $leg }" mide { $length }; con { $closes } colgaría a nivel
why-hook-below = el gancho quedaría { $below } por debajo del centro de gravedad y la carga volcaría; alargue los ramales: el ramal "{ $leg }" mide { $length }, y debe pasar con holgura de { $level }
why-one-side = todos los puntos de izado quedan { $side } centro de gravedad, que está { $outside } fuera de ellos; ponga un ramal al otro lado
why-turns-over = la carga se inclinaría { $lean } grados antes de quedar en reposo; tome puntos de izado por encima del centro de gravedad y a ambos lados
why-no-balance = no se halló posición en que la carga se equilibre; compruebe puntos de izado y longitudes
side-ahead = por delante del
side-behind = por detrás del
side-left = a la izquierda del
side-right = a la derecha del

### Lo que además debe saber un inspector

warn-just-slack = el ramal "{ $leg }" queda apenas flojo con { $length }; algo más corto y empieza a llevar
warn-slack = el ramal "{ $leg }" queda flojo con { $length }; empieza a llevar con { $closes }
warn-worst-case = con otro reparto, la tensión en { $legs } llegaría al { $percent } de la capacidad; vea que todos los ramales carguen por igual
warn-rule-two = por la regla de que llevan dos ramales, un ramal está al { $percent } de su capacidad; el manual aplicable dice qué regla vale
warn-rule-three = por la regla de que llevan tres ramales, un ramal está al { $percent } de su capacidad; el manual aplicable dice qué regla vale
warn-no-worst-case = un ramal tira de la carga hacia abajo, de modo que los ramales pueden tirar unos contra otros y ninguna tensión es la mayor
warn-flat = el ramal "{ $leg }" está a { $angle } grados de la horizontal; las tablas de eslingado acaban en { $end }
warn-leans = la carga se inclina { $lean } grados; vea que nada pueda desplazarse
warn-neutral = nada impide que la carga gire sobre la línea de sus puntos de izado; un toque podría girarla
warn-unknown-stretch = no se da el estiramiento de { $legs } y se toma 0.5 % a la capacidad; las tensiones dependen de ello
warn-no-source = no se da fuente de la capacidad de { $parts }; nombre el manual o la placa de datos
warn-factor = toda fuerza se multiplica por { $factor } antes de compararla con su capacidad: tal factor es para cargas límite, y un límite de trabajo ya lleva uno

### El dibujo

picture-title = Carga eslingada: { $state }
picture-hangs = { $mass } cuelga { $attitude }
picture-governs = gobierna { $part }: { $percent } de { $rated }
picture-governs-at-rest = en reposo gobierna { $part }: { $percent } de { $rated }
picture-foot = Ayuda a un inspector cualificado; manda el manual aplicable. Las capacidades son las del archivo; el contorno de la carga se dibuja por sus puntos de izado.
picture-parts = Pieza en reposo, por parte de su capacidad
picture-carries-times = lleva × { $factor }
picture-shared = Con otro reparto, el ramal { $leg } lleva { $force } en el peor caso, { $percent } de su capacidad; { $rules }.
picture-not-shown = No se muestran: otras piezas de los ramales, con menor parte ({ $count }).
view-side = Lado, morro a la derecha
view-front = Frente
view-top = Desde arriba, morro a la derecha

### Qué está mal en un archivo de eslingado

rule-wrong = "{ $text }" no es una regla; escriba rule = "rest", "three legs", "two legs" o "worst case"
reeved-wrong = "{ $text }" no es una manera de pasar una cadena; escriba reeved = "loop" o "single"
rope-alone = un cabo sin cadena es el ramal entero
rope-alone-mend = escriba length = "…" en su lugar
length-and-rope = el ramal tiene a la vez longitud y cabo o cadena
length-and-rope-mend = escriba solo length, o rope y chain
links-out = { $key } es { $number }
links-out-mend = escriba un número entero de 1 a 2000
key-missing = falta { $key }
key-missing-mend = añada { $key } = { $example }
the-aircraft = la aeronave
the-load = la carga
named-hook = el gancho "{ $name }"
named-leg = el ramal "{ $name }"
named-part = la pieza "{ $name }"
reach-missing-mend = añada length = "12 ft", o rope = "…" y chain = {"{"} … {"}"}
mend-it = corríjalo

### Qué está mal en las eslingas disponibles o en lo buscado

set-legs = un juego de eslingas tiene de uno a ocho ramales
set-legs-mend = escriba legs = 4
set-no-length = el juego de eslingas no tiene ni cabos ni cadena
set-no-length-mend = escriba ropes = ["12 ft"], o chain = {"{"} links = 110, pitch = "1.09 in", reeved = "loop" {"}"}, o ambos
rope-length = "{ $text }" no es la longitud de un cabo
rope-length-mend = escriba más de cero y 1000 m como máximo
ropes-many = hay { $count } cabos
ropes-many-mend = escriba dieciséis como máximo
solve-angle = { $angle } grados no es una posición que se planee; escriba un ángulo de -30 a 30
solve-not-between = "{ $text }" no limita un ramal a eslabones; escriba RAMAL=A-B, como 1=3-40
solve-no-chain = el ramal "{ $leg }" no está o no tiene cadena; limite a eslabones solo ramales con cadena
solve-too-many = con dos ganchos hay { $ways } maneras de asentar los eslabones, y se recorren { $most }; limite cada cadena a { $each } eslabones como máximo, con --between RAMAL=A-B para cada ramal
solve-too-many-ropes = hay { $ways } maneras o más de elegir cabos, y se recorren { $most }; quite cabos
solve-nothing-to-choose = ningún ramal tiene cadena, y no hay cabos ni juegos de eslingas; añada ropes = ["…"] a un ramal, o un [[sling_set]]

### Una búsqueda, contada

solve-wanted = Se busca: { $attitude }.
solve-nothing = Nada cumple la regla y cuelga a menos de { $within } con todos los ramales cargados.
solve-proposal = { $number }. { $state }: cuelga { $attitude }, a { $off } de lo buscado; gobierna { $part }, con { $percent }.
solve-set = Juego de eslingas { $set }.
solve-leg = Ramal { $leg }: { $how }; lleva { $tension }, { $percent } de su capacidad.
leg-link = eslabón { $link } en el gancho de agarre
leg-link-rope = cabo de { $rope }, eslabón { $link } en el gancho de agarre
leg-rope = cabo de { $rope }
leg-as-is = como está
solve-slips = Si se eslinga la primera y algo falla:
slip-link = Ramal { $leg } en el eslabón { $link }: { $attitude }; el ramal { $most } es el más cargado, { $tension }.
slip-link-over = Ramal { $leg } en el eslabón { $link }: { $attitude }; el ramal { $most } es el más cargado, { $tension }: SOBRE EL LÍMITE.
slip-link-falls = Ramal { $leg } en el eslabón { $link }: la carga no colgaría.
slip-without = Ramal { $leg } flojo o perdido: { $attitude }, { $percent } de una capacidad como máximo.
slip-without-falls = Ramal { $leg } flojo o perdido: la carga no colgaría.
slip-moved = Punto de izado del ramal { $leg } errado en { $by }: inclina hasta { $tilts }.
slip-moved-falls = Punto de izado del ramal { $leg } errado en { $by }: la carga podría no colgar.
own-slings = las eslingas del archivo
set-too-few = { $set }: faltan ramales.
set-hangs = { $set }: cuelga a { $off } de lo buscado, { $percent } como máximo.
set-not = { $set }: nada que cumpla la regla.
set-smallest = El juego de ramales más débiles que aún puede llevarla: { $set }.
solve-not-whole = La búsqueda se detuvo: no quedó nada por ver a menos de { $within }; más allá no se miró. Limite ramales a eslabones para seguir.
solve-leaves-out = No incluye: cadena torcida o anudada, eslabones contados desde el otro extremo, una eslinga que roza la carga. Cuente otra vez junto a la carga.

### El vuelo, contado

flight-statics = Solo estática. Sin balanceo, ráfagas, flujo del rotor ni sustentación; sin giros que crecen; no lo que puede la aeronave.
no-source = sin fuente
flight-factor = Factor de carga { $factor }, la eslinga a { $angle } de la vertical ({ $source }).
flight-factored = { $state }: gobierna { $part }, con { $percent }.
flight-hook = El gancho recibe { $along } a lo largo de la eslinga, { $aside } de ello de lado.
flight-factor-leaves-out = No incluye: una carga que no oscila como una pieza con su eslinga, tirones al tensar, ni aquello que el factor representa.
flight-drag = Área de resistencia { $area }, aire { $density } ({ $source }).
flight-drag-at-centre = Sin drag_at: la resistencia actúa en el centro de gravedad e inclina la carga como una pieza con su eslinga.
flight-at = { $speed }: la eslinga se atrasa { $trail }; la carga cuelga { $attitude }; un ramal al { $percent } de su capacidad.
flight-slack = Desde { $speed }: el ramal { $leg } está flojo.
flight-over = Desde { $speed }: el ramal { $leg } supera su capacidad, sin factor de carga.
flight-leans = Desde { $speed }: se inclina más de { $limit } ({ $source }).
flight-turns = Desde { $speed }: se aparta de su rumbo; más rápido no se mira.
flight-no-rest = Desde { $speed }: no llega a reposo.
flight-nothing = Hasta { $speed } ningún ramal está flojo ni supera su capacidad, y no se pasa ningún límite del archivo.
flight-drag-leaves-out = No incluye: resistencia que cambia con la posición de la carga, sustentación, fuerza lateral, balanceo, ráfagas. Una carga puede volverse inestable muy por debajo de estas velocidades.
flight-failed = Falla el gancho { $failed }: el gancho { $holds } lleva todo, { $carries }.
flight-failed-hangs = { $state }: quedaría en reposo { $attitude }; { $part } al { $percent }.
flight-failed-falls = { $state }: los ramales que quedan no la sostienen derecha.
flight-failed-leaves-out = No incluye: la caída y el balanceo antes de ese reposo, cuyo tirón es mayor que todo lo de aquí; los límites laterales del otro gancho y de la estructura.
flight-manual-rules = Mandan los ensayos en vuelo, el manual de vuelo y la tripulación. Esto ayuda a un inspector cualificado; las capacidades son las del archivo.

### Qué está mal en un vuelo

sling-angle = ninguna eslinga se atrasa tanto
sling-angle-mend = escriba un ángulo de 0 a 60 deg desde la vertical
lean-limit = ningún límite de inclinación es así
lean-limit-mend = escriba un ángulo de 0.1 a 45 deg
speed-to = ninguna carga se vuela a tal velocidad
speed-to-mend = escriba una velocidad de 1 a 250 kt
drag-whole = una resistencia necesita su área, la densidad del aire y la fuente de ambas
drag-whole-mend = escriba drag_area = "…", density = "…" y drag_source = "…"; nada se supone
measure-wrong = "{ $text }" no se puede leer; escriba un número mayor que cero y una de { $units }
no-flight = el archivo no dice nada de un vuelo; añada [flight] con un factor de carga o una resistencia, y su fuente

### En el recorrido

link-beside-plan = Ramal { $leg }: eslabón { $planned } planeado, eslabón { $counted } contado.
link-not-counted = Ramal { $leg }: eslabón { $planned } planeado, sin contar todavía.
expected-picture = Como está planeado que cuelgue, de lado, con el morro a la derecha:
two-hooks-left-out = carga { $load }: su eslingado cuelga de dos ganchos y sus condiciones omiten { $condition }; añádalo a when

### Hojas

sheet-title = Hoja de eslingado, { $load }
aircrew-title = Hoja de datos para la tripulación, { $load }
sheet-head = HOJA DE ESLINGADO
aircrew-head = DATOS PARA LA TRIPULACIÓN: ESTÁTICA
link-of = { $link } de { $of }
column-leg = Ramal
column-link = Eslabón
column-rope = Cabo
column-hook = Gancho
column-point = Punto de izado
column-carries = Lleva
column-part = Pieza
column-rated = Puede llevar
column-share = Parte
column-source = De dónde consta
count-from-free = Los eslabones se cuentan desde el extremo libre de la cadena; el que está en el gancho de agarre también cuenta. Puntos de izado: adelante, izquierda y arriba desde la referencia de la carga.
hooks-carry = Llevan
more-in-the-file = hay más: slingseal rigging flight
fact-mass = peso bruto
fact-centre = centro de gravedad: adelante, izquierda, arriba
picture-says = Cómo cuelga: lado, frente y planta. { $summary }
sheet-caution = Manda el manual aplicable; ninguna hoja sustituye a un inspector cualificado. Las capacidades son las dadas al plan. Cuente otra vez junto a la carga.
sheet-leaves-out = Estática en reposo. No incluye balanceo, ráfagas, flujo del rotor ni tirones; mandan los ensayos en vuelo y el manual de vuelo.

### El editor

editor-title = Eslingado
editor-intro = Cambie un campo, arrastre un punto o muévalo con las flechas (con mayúsculas, diez pasos), cambie un eslabón con más y menos. El puesto calcula cómo cuelga.
editor-example = Un ejemplo para escribir encima. Sus capacidades no son de ningún equipo real: escriba las suyas del manual o de la placa, con la fuente.
editor-look = Mirar
editor-level = Buscar los eslabones que la cuelgan a nivel
editor-add-leg = Añadir un ramal
editor-save = Guardar como archivo
editor-open = Abrir un archivo
editor-file = Un archivo de eslingado
editor-text = Su texto; las eslingas disponibles y el vuelo quedan en el archivo
editor-faults = No se puede calcular.
editor-report = El informe
editor-load = Carga
editor-allowable = permitido, según la tripulación
editor-rule = regla del manual
editor-parts = Piezas por las que pasa todo: nombre | puede llevar | fuente
editor-leg-parts = Piezas del ramal: nombre | puede llevar | fuente
editor-name = nombre
editor-links = eslabones de la cadena
editor-seated = eslabón en el gancho de agarre
editor-pitch = de eslabón a eslabón
editor-reeved = paso
editor-stretch = alargamiento a su capacidad
editor-less = un eslabón menos
editor-more = un eslabón más
editor-top = Desde arriba, morro a la derecha
editor-side = De lado, morro a la derecha
editor-weighing = Pesada
editor-weighing-intro = Lo que marca cada báscula con la carga a nivel, y por dónde pasa su empuje; para la altura, una segunda pesada con la carga inclinada, o la altura misma. Lo pesado se toma como masa y centro de gravedad.
editor-weigh = Pesar
editor-add-scale = Otra báscula
editor-add-item = Otra pieza
editor-scale = Báscula { $number }
editor-scale-tilted = Báscula { $number }, carga inclinada
editor-item = Pieza { $number }
editor-reads = marca
editor-tare = de ello no es carga
editor-tolerance = puede errar en
editor-height = altura del centro de gravedad
editor-tilt = Segunda pesada, con la carga inclinada
editor-nose-up = morro arriba en
editor-left-up = lado izquierdo arriba en
editor-raised = frente levantado en
editor-over = sobre una longitud de
editor-rest = el resto del peso se sostuvo en: { $axis }
editor-mass = masa
editor-place-tolerance = el lugar puede errar en
editor-item-out = puesta, o quitada
editor-put-on = puesta
editor-taken-off = quitada tras la pesada
editor-point = Punto de izado del ramal { $leg }: { $place }. Las flechas lo mueven.
editor-centre = CG, centro de gravedad: { $place }. Las flechas lo mueven.

## Lo que se supera aunque no en reposo; { $whose } puede ser el mensaje siguiente

beyond-at-rest = NO en reposo{ $whose }: { $share }.
beyond-three-legs = NO si cargan tres ramales{ $whose }: { $share }.
beyond-two-legs = NO si cargan dos ramales{ $whose }: { $share }.
beyond-worst-case = NO en el peor caso{ $whose }: { $share }.
beyond-chosen-rule = , la regla que este archivo nombra
beyond-share = { $leg } está al { $percent } de su capacidad
beyond-no-largest = ninguna tensión de { $leg } es la mayor
beyond-leg = el ramal { $leg }
beyond-a-leg = un ramal

## Lo que manda, en una línea

summary-does-not-hang = La carga no cuelga así eslingada.
summary-does-not-hang-because = La carga no cuelga así eslingada: { $reason }
summary-lean = cabeceo { $pitch }, alabeo { $roll }
summary-pulls-most = { $lean }; el ramal { $leg } es el que más tira, { $force }
summary-governs = { $part } al { $percent } de { $rated }; { $lean }
