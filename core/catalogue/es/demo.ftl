### La historia de la demostración. No la ha leído todavía ningún eslingador.

demo-folder-not-used = { $folder }: { $plain }; elija otra carpeta con --out CARPETA
demo-folder-is-others = { $folder } contiene otra cosa que una demostración; elija otra carpeta con --out CARPETA
the-sela-is-over-its-banks = El Sela se ha desbordado. En Kestrel Meadow un equipo de socorro cuelga cargas bajo helicópteros.
names-are-invented = Nombres, unidades y aeronaves son inventados; toda capacidad es un ejemplo.
chapter-trust = 1  La confianza
desk-becomes-authority = El puesto se hace autoridad «{ $name }», huella { $fingerprint }.
roster-names-lists = Su lista nombra los procedimientos que cuentan: { $lists }. Lo inspeccionado según cualquier otro dice WAIT. Son un comienzo y no un manual.
phone-trusts-card = El teléfono de { $whose } escanea la tarjeta, compara la huella de viva voz y confía en ella.
hook-has-no-key = Thistle 7, en el gancho, no tiene ninguna clave y nunca ha visto a Anvil 3.
chapter-tag = 2  La etiqueta
tag-told = Carga { $load }: { $description }, { $gross } bajo un { $aircraft } que admite { $allowable }. La etiqueta es un código de { $bytes } octetos, firmada por { $by }.
how-it-hangs = Cómo cuelga: { $summary }.
chapter-inspection = 4  La inspección
anvil-scans-the-tag = Anvil 3 escanea la etiqueta de su imagen e inspecciona según «{ $title }»: { $cards } tarjetas, { $points } puntos, las dos manos en la carga.
decides-fit = Todas las tarjetas están respondidas y nada está abierto. Anvil 3 decide: apta.
chapter-seal = 5  El sello
anvil-signs = Anvil 3 firma con el PIN. El sello es un QR versión { $version }; vale hasta { $until } y nombra el registro { $record }….
chapter-hook = 6  En el gancho
thistle-scans = Thistle 7 escanea sello y etiqueta:
read-aloud = Leído en voz alta antes de llamar a la aeronave: «{ $title }», { $points } puntos.
one-letter-changed = Alguien cambia una letra del código:
stranger-seals = Un extraño hace una autoridad del mismo nombre y sella la carga:
seal-carried-over = El sello bueno se lleva a otra carga:
chapter-account = 7  La cuenta
chapter-left = Lo que queda
what-is-left = { $folder }: los puestos desk, inspector y hookup, las imágenes, el registro y esta historia.
pin-and-passphrase = El PIN de todos, 417293, y la contraseña de la autoridad, «{ $passphrase }», valen solo en esta demostración.
try-this = Pruebe: { $command }
leader-signs-page = { $leader } firma hook.html para teléfonos de otros y dice { $groups }; vale hasta { $until }.
chapter-morning = 3  La mañana
listed-nothing-open = { $name }: { $points } puntos de «{ $title }», nada abierto.
piece-fit-until = La pieza { $piece } está apta hasta { $until }, firmado por { $by }: viaja con el lote, y también viajaría lo retirado.
is-credentialed = { $holder } recibe credencial de { $roles } hasta { $until }.
card-deficient = Tarjeta { $card }, «{ $title }»: DEFICIENTE.
mason-corrects = Mason 5 corrige el hallazgo { $finding }; Anvil 3 reinspecciona: bien. Las dos cosas quedan en el registro.
packs-the-day = { $records ->
    [one] Anvil 3 guarda el día en un lote: 1 registro, { $bytes } octetos, o { $frames } cuadros de un código móvil.
   *[other] Anvil 3 guarda el día en un lote: { $records } registros, { $bytes } octetos, o { $frames } cuadros de un código móvil.
}
desk-takes-it-in = El puesto lo recibe: { $new } nuevo; el mismo lote otra vez: { $again } nuevos.
account-goes-out = { $rows ->
    [one] La cuenta sale como account.csv y account.json: 1 registro.
   *[other] La cuenta sale como account.csv y account.json: { $rows } registros.
}
record-tells-moments = El registro cuenta { $moments } momentos; { $entries } asientos del diario y todas las firmas son correctos.
chapter-day = 8  Un día de doce cargas
day-begins = Doce cargas más y tres dispositivos que nunca se encuentran: el de Anvil 4, el del gancho y uno en Alder Bridge. Los dos últimos no tienen clave.
day-inspected = Anvil 4 inspecciona y sella { $count ->
    [one] una carga
   *[other] { $count } cargas
}.
day-at-hook = En el gancho una se rechaza por su eslingado, una queda en WAIT, pues nadie firmó su etiqueta, y se levanta de todos modos, una se pierde en el camino.
day-at-destination = En Alder Bridge se deposita y se deseslinga cada una. Una se levanta otra vez sin inspección, contra { $verdict } Dos juegos de eslingas se quedan allí.
day-does-not-add-up = Tres lotes llegan a dos escritorios, a cada uno en otro orden. Ambos dicen lo mismo, { $points ->
    [one] un punto
   *[other] { $points } puntos
} y nada más:
day-explained = preguntado, y respondido
day-signed = { $leader } dice qué fue de cada uno y firma el cierre, comprobación { $check }.
day-manifest = El manifiesto del día sale como manifest.pdf y manifest.csv, en el orden de elevación que fijó el jefe.
day-name = Kestrel Meadow
day-went-otherwise = el día de la demostración fue de otro modo: { $what }
