### Lo que dicen y piden las órdenes del programa de escritorio. No lo ha leído todavía ningún eslingador.

place-not-written = { $path }: { $plain }; nombre un sitio donde se pueda escribir
name-is-a-link = { $path } es un enlace; nombre el archivo al que lleva
name-is-a-folder = { $path } es una carpeta; nombre un archivo
folder-full-of-name = { $folder } está llena de archivos { $name }; nombre otra carpeta
standard-input-not-read = entrada estándar: { $plain }; délo otra vez
file-not-read = { $path }: { $plain }; nombre un archivo que se pueda leer
file-too-large = { $path } tiene { $size } bytes, más que cualquier código o imagen; nombre otro archivo
file-is-no-text = { $path } no es texto; nombre un archivo de texto en UTF-8
no-home-known = no se conoce carpeta; nombre una con --home CARPETA
home-not-written = { $home }: { $plain }; elija con --home una carpeta donde se pueda escribir
home-rights-wrong = { $path }: { $plain }; corrija los permisos de la carpeta
home-secret-damaged = { $path } está dañado; restáurelo de donde se copió la carpeta
pin = PIN
new-pin = PIN nuevo
passphrase = frase de paso
secret-again = { $what } otra vez:{" "}
no-terminal-to-ask = no hay terminal donde pedir: { $what }; ponga { $variable }
terminal-not-read = no se puede leer el terminal: { $plain }; pruebe con otro
secrets-differ = los dos difieren; pruebe otra vez

## Lo que se recibió

known-already-or-older = {" "}(ya se conocía, o es anterior a lo de aquí)
trusted-already = Aquí ya se confía en { $name } ({ $fingerprint }).
card-not-trusted-yet = Tarjeta de { $name }: todavía NO es de confianza. Que le lean su huella desde el dispositivo de la autoridad y después: slingseal authority trust TARJETA
key-request-received = Petición de clave de { $holder }, huella { $fingerprint }. La atiende una autoridad con: slingseal authority issue PETICIÓN --roles … --expires …
own-credential-until = Credencial de este dispositivo: { $holder } ({ $roles }), hasta { $until }.
others-credential-until = Credencial de otro: { $holder } ({ $roles }), hasta { $until }.
credential-is-revoked = { $credential } REVOCADA: nada firmado con ella cuenta.
credential-has-run-out = { $credential } CADUCADA.
roster-received = { $approved ->
    [one] Lista { $sequence } de { $authority }, { $revoked } revocados, 1 procedimiento aprobado{ $newness }.
   *[other] Lista { $sequence } de { $authority }, { $revoked } revocados, { $approved } procedimientos aprobados{ $newness }.
}
tag-received = Etiqueta de la carga { $load }: { $description }, { $gross } para { $aircraft }.
seal-received = Sello de { $word }: { $first }.
examination-received = { $what } ({ $id }) de { $by } con la carga { $load }: instrucción, no inspección{ $newness }.
piece-fit-until = Inspección de { $name } por { $by }: apta hasta { $until }{ $newness }.
piece-fit = Inspección de { $name } por { $by }: apta{ $newness }.
piece-not-fit = Inspección de { $name } por { $by }: no apta, retirada{ $newness }.
inspection-not-fit = Inspección de { $name } por { $by }: no apta{ $newness }.
inspected-piece = la pieza { $name }
inspected-aircraft = los ganchos de la aeronave { $name }
inspected-zone = la zona { $name }
inspected-handling = lo hecho con la carga { $name }
void-received = { $by } anuló el sello de la carga { $load }: { $cause }{ $newness }.

## Un veredicto

nobody-trusted = nadie en quien se confíe aquí
load-procedure = {"  "}Carga { $load }   { $mass }   procedimiento { $procedure }
sealed-holds-until = {"  "}Sellado por { $who }{ $authority } { $at }, vale hasta { $until }
sealed-by = {"  "}Sellado por { $who }{ $authority } { $at }
check-of-seal = {"  "}Comprobación del sello { $check }
check-of-tag = {"  "}Comprobación de la etiqueta { $check }
tag-allowed = {"  "}Etiqueta: { $description }, para { $aircraft } (admite { $allowable })
shown-together = {"  "}Mostrado junto: carga { $load }, { $word }: { $first }
count-records = { $count ->
    [one] 1 registro
   *[other] { $count } registros
}
count-papers = { $count ->
    [one] 1 documento
   *[other] { $count } documentos
}
count-frames = { $count ->
    [one] 1 cuadro
   *[other] { $count } cuadros
}

## authority

issued-with-key = expedida: { $line }   clave { $key }
not-an-authority-card = esto no es la tarjeta de una autoridad; pídasela a la autoridad
now-trusted = Aquí se confía en { $name }. Después: { $next }
trusted-no-longer = Ya no se confía en ella; nada de lo que firmó cuenta aquí. Después: { $next }
no-procedure-approved = no hay ningún procedimiento aprobado y todo sello dirá WAIT; apruebe los que cuentan con authority approve
these-come-with-program = Solo lo inspeccionado según un procedimiento aprobado puede ser GO. Con el programa vienen estos:
a-start-and-no-manual = Son un comienzo y no un manual: apruebe uno solo donde no haya nada mejor, y escriba los suyos.
which-of-them-count = ¿Cuáles cuentan? Escriba sus ids, all (todos), o nada:
edition-withdrawn-since = RETIRADO desde { $since }
edition-approved-since = aprobado desde { $since }
comes-with-program = (viene con el programa: un comienzo, no un manual)
text-not-here = su texto no está aquí
like-named-trusted = Aquí ya se confía en una autoridad que se llama «{ $name }»: { $fingerprint }.
really-another = ¿Es de verdad otra la «{ $name }» de esta tarjeta? Escriba yes (sí) para confiar en ambas:
have-fingerprint-read = haga que le lean la huella de «{ $name }» desde el propio dispositivo de la autoridad (authority show) y dela con --fingerprint
type-what-you-hear = Haga que le lean la huella de «{ $name }» desde el propio dispositivo de la autoridad y escriba lo que oiga:
authority-line = { $name }   huella { $fingerprint }   lista { $roster }, vale hasta { $until }
nothing-issued = Aquí no se ha expedido nada todavía.
credential-line = { $holder }   { $roles }   hasta { $until }   { $state }   { $id }
revoked-line = revocada: { $line }

## bundle

what-home-has = lo que tiene este puesto, para que el otro lo omita: bundle write --have
since-wrong = --since: { $error }
count-photographs = { $count ->
    [one] 1 fotografía
   *[other] { $count } fotografías
}
frames-enough = { $frames ->
    [one] 1 cuadro; bastan { $enough }, en cualquier orden
   *[other] { $frames } cuadros; bastan { $enough }, en cualquier orden
}
part-of-several = Parte { $part } de { $of }: { $said }
held-in-folder = { $records }, { $papers }, en { $folder }
frames-of-another = { $folder } contiene los cuadros de otro código móvil; nombre otra carpeta o vacíela
name-one-bundle = nombre un lote, o las imágenes de un código móvil, o su carpeta
frames-too-few = { $taken ->
    [one] se leyó { $taken } cuadro
   *[other] se leyeron { $taken } cuadros
} y bastan { $enough }; haga más fotos
no-frame-read = no se lee ningún cuadro de un código móvil en estas imágenes; hágalas más cerca y de frente
folder-not-read = { $folder }: { $plain }; nombre una carpeta que se pueda leer
bundle-taken = nuevos: { $records }; { $completed ->
    [one] { $completed } completado
   *[other] { $completed } completados
}, { $known ->
    [one] { $known } conocido
   *[other] { $known } conocidos
}; nuevos: { $papers } y { $photos }
procedure-taken = procedimiento { $id } versión { $version }: { $approval }
procedure-kept-apart = procedimiento { $id } versión { $version }: { $approval }, guardado aparte
set-aside = APARTADO { $place } ({ $kind }): { $reason }

## key

device-has-key = este dispositivo es de { $known } y ya tiene clave; para otra persona empiece otro puesto
say-whose-device = diga de quién es el dispositivo: --holder NOMBRE
key-request-made = solicitud de clave de { $holder }, huella { $key }; la atiende una autoridad: authority issue
key-under-new-pin = La clave de { $holder } está bajo el PIN nuevo.
device-key-under-new-pin = La clave de este dispositivo está bajo el PIN nuevo.
row-holder = Titular
row-key = Clave
row-credential = Credencial
row-revoked = REVOCADA
row-trusts = Confía en
row-next = Después
held-credential = { $holder } ({ $roles }) por { $authority }, hasta { $until }
held-credential-run-out = { $holder } ({ $roles }) por { $authority }, hasta { $until }, CADUCADA
trusts-with-roster = { $name } ({ $fingerprint }), lista { $roster }, vale hasta { $until }
trusts-without-roster = { $name } ({ $fingerprint }), sin lista
or = o
signs-as = firma como { $holder } de { $authority }; --as elegiría { $others }
no-terminal-for-code = no hay terminal en que mostrar el código; escriba imágenes con bundle write --frames
no-signal-caught = no se puede captar ninguna señal: { $plain }
part-and-frame = Parte { $part } de { $parts }, cuadro { $frame } de unos { $frames }
ctrl-c-ends-it = Ctrl-C termina.

## procedure

not-said-in = sin decir en { $line }
file-holds = { $file } es correcto: { $cards ->
    [one] { $cards } tarjeta
   *[other] { $cards } tarjetas
}, { $points ->
    [one] { $points } punto
   *[other] { $points } puntos
}
list-added = Añadido:
file-is-there = { $file } ya existe; nombre otro archivo con --out ARCHIVO
lists-told-in = Las listas se dicen en { $code } donde lo tienen, si no en inglés.
lists-told-in-readers = Las listas se dicen en el idioma de quien lee.
count-procedures = { $count ->
    [one] 1 procedimiento
   *[other] { $count } procedimientos
}
count-rosters = { $count ->
    [one] 1 lista de autoridad
   *[other] { $count } listas de autoridad
}
cards-and-points = { $cards } tarjetas { $points } puntos
kept-apart = (guardado aparte)

## Lo recibido, más

movement-received = Carga { $load }: { $event }, { $at } ({ $origin }){ $newness }.
closing-received = Cierre de { $name }, firmado por { $by } { $at }{ $newness }.

## records

file-with-rows = { $rows ->
    [one] { $file } (1 fila)
   *[other] { $file } ({ $rows } filas)
}
audit-looked-at = se miraron { $records }, { $entries } y { $papers }
count-entries = { $count ->
    [one] 1 asiento del diario
   *[other] { $count } asientos del diario
}
audit-fault = FALLO { $fault }
audit-note = nota: { $note }
everything-holds = toda cadena y toda firma es correcta
csv-or-json = { $file }: ¿CSV, JSON o SQL? termine el nombre en .csv, .json o .sql
built-without-parquet = este programa se compiló sin Parquet; compílelo con --features parquet, o exporte a un archivo .csv, .json o .sql
several-records-start = varios registros empiezan por { $digits }; dé más dígitos
no-such-record = no hay carga «{ $digits }» ni registro que empiece así entre los { $newest } más nuevos; vea records list
fit = apta
not-fit = NO APTA
standing-current = vigente
standing-superseded = sustituida
standing-voided = anulada
standing-refused = rechazada
standing-waiting = en espera
standing-no-inspection = sin inspección
and-expired = , caducada
found-corrected = halladas { $found }, corregidas { $corrected }
tag-in-a-line = { $description }, { $gross } para { $aircraft } (admite { $allowable }), de { $from } a { $to }
void-line = ANULADA { $void }

## Una etiqueta

load-head = Carga { $load }   { $description }
row-check = Control
row-gross = Peso bruto
row-pickup = Recogida
row-destination = Destino
row-procedure = Procedim.
row-rigger = Eslingador
row-planned = Planificada
row-rigging = Eslingado
gross-allowed = { $gross } (admite { $allowable }, { $aircraft })
not-named = sin nombrar
planned-by = { $at } por { $by }
no-rating = sin capacidad
inspection-due = , revisión antes de { $due }
leg-and-link = Ramal { $leg } eslabón { $link }
no-seal-readable = esto no es un sello legible; dé un sello, el número de una carga o el resumen de un registro
seal-void-made = carga { $load }, sellada por { $by }: { $void }; nadie puede levantar con ese sello: entregue este código a cada dispositivo de la zona

## inspect

kept-fit-until = , apto hasta { $until }
kept-signed = , firmada
kept-not-signed = , sin firmar: inspect --kept --sign { $id }
at-by = { $at }  por { $by }
kept-fit = APTO
kept-not-fit = NO APTO
several-inspections-of-id = varias inspecciones corresponden a { $which }; dé más dígitos del id
no-unsigned-inspection = ninguna inspección sin firmar corresponde a { $which }; vea inspect --kept
signed-fit-until = apto hasta { $until }
signed-fit = apto
signed-withdrawn = retirado
signed-not-fit = no apto
inspection-signed = { $name }: { $found }, firmado por { $by }. Viaja con el próximo lote.
several-inspections-fit = varias inspecciones corresponden a { $digits }; dé más dígitos
no-inspection-in-hand = ninguna inspección en curso corresponde a { $digits }; vea inspect sin --walk
say-five-groups = Diga estos cinco grupos a quien abra el archivo; su primera pantalla muestra los mismos:
check-page-made = Firmada por { $leader }, fiable hasta { $until }; { $held }; confía en { $authorities }
count-words = { $count ->
    [one] 1 palabra
   *[other] { $count } palabras
}

piece-is-withdrawn = La pieza { $name } queda retirada por { $by } { $at }: da este código a cada dispositivo de la zona.

## account


## report, arrival

name-one-load = nombre una carga por su número, o dé los códigos de su sello y su etiqueta
hand-code-to-leader = Entregue este código al jefe, o deje que vaya con el próximo lote (control { $check }):
nothing-of-piece = "{ $text }" no dice nada de una pieza; escriba { $serial }=back (devuelta), { $serial }=damaged (dañada) o { $serial }=back,damaged
report-line = Carga { $load }: { $event }, { $at } ({ $origin })
reported-later = comunicado { $at }
report-shown = se mostró: { $verdict }
report-aircraft = aeronave { $aircraft }
report-place = en { $place }
report-note = nota { $note }
piece-back-damaged = pieza { $serial } devuelta, dañada
piece-back = pieza { $serial } devuelta
piece-damaged = pieza { $serial } dañada
load-alone = Carga { $load }
is-back-damaged = devuelta, dañada
is-back = devuelta
is-not-back-damaged = sin devolver, dañada
is-not-back = sin devolver
row-state = Estado

## backup, restore

backup-made = { $records }, { $entries }, del dispositivo { $device }; control { $digest }
backup-keep-safe = Lleva el secreto del dispositivo: a quien tenga el archivo solo le falta el PIN. Guárdelo bajo llave.
home-restored = { $home }: dispositivo { $device }, empezado a partir del dispositivo { $before } ({ $entries }); control { $digest }

## Material
no-kind-of-picture = { $path } no es una clase de imagen; termine su nombre en .svg o .png
output-not-written = salida estándar: { $plain }; haga sitio y pídalo otra vez
too-many-unfinished = hay demasiados archivos sin terminar junto a { $path }; quítelos y pídalo otra vez
window-too-small-for-code = esta ventana tiene { $columns } columnas y { $rows } filas, y el código necesita { $wide } y { $high }: agrándela o reduzca sus letras, o escriba imágenes con bundle write --frames
