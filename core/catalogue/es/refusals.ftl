### Por qué el programa no hace lo pedido. No lo ha leído todavía ningún eslingador.

gave-device-no-credential-holds = { $name } no dio a este dispositivo credencial que valga; muestre su petición de clave a esa autoridad
no-role = "{ $word }" no es una función
authority-issued-no-such-credential = esta autoridad no dio tal credencial
load-when-procedure-no-condition = carga { $load }: when: el procedimiento { $id } no tiene la condición "{ $unknown }"; { $mend }
preference-name-bytes-shorten = el nombre de una preferencia tiene de 1 a { $most } bytes; acórtelo
preference-up-bytes-shorten = una preferencia tiene hasta { $most } bytes; acórtela
record-names-equipment-serial-number = ningún acta de aquí nombra material con el número de serie { $serial }
such-tag-plan-load-again = aquí no está esa etiqueta; planifique la carga otra vez
page-does-follow-another-begin = esta página no sigue a otra; empiece por la primera
export-cannot-written-name-another = no se puede escribir la exportación: { $error }; nombre otro archivo
nothing-known-load = aquí no se sabe nada de la carga { $load }
bytes-are-no-text = no es texto
such-record-see-records-list = aquí no está ese acta; vea records list
bundle-cannot-read-written-try = no se puede leer o escribir el paquete: { $error }; pruebe con otro soporte
file-bundle-make-one-bundle = este archivo no es un paquete; haga uno con bundle write
code-can-read-picture-take = no se lee ningún código en la imagen; hágala otra vez: más cerca, plana, con los cuatro bordes dentro
sheet-run-see-exam-runs = aquí no está la hoja de este recorrido; vea exam runs
deficiencies-picked-drawn-both-give = las deficiencias se eligen o se sortean, no las dos cosas; dé una de ellas
examination-key-scan-code-instructor = esto es otra cosa ({ $kind }) y no una clave de examen; escanee el código que muestra el instructor
paper-by-code-or-digits = se nombra por su código o por 4 cifras de él o más: { $what }
several-fit-give-more-digits = varios casan con { $digits }; dé más cifras
no-paper-scan-code = aquí no se conoce "{ $digits }" ({ $what }); escanee su código
what-planted-known-device-alone = lo puesto solo lo sabe el dispositivo de { $instructor }; lleve allí el recorrido o lea el resultado que firme
credential-revoked-another-instructor-must = la credencial de { $holder } está revocada; debe cerrar la clave otro instructor
tag-load-known-scan = aquí no se conoce la etiqueta de la carga { $load }; escanéela
student-has-run-already = { $student } ya hizo el recorrido con esta clave; para repetir, cierre otra con otras deficiencias
such-run-see-exam-runs = aquí no está ese recorrido; vea exam runs
events-run-lost-damaged-journal = las anotaciones de este recorrido se perdieron con un diario dañado; hágalo otra vez con otra clave
exam-key-not-here = su clave no está aquí
key-examination-result-known-scan = aquí no se conoce la clave de este resultado de examen; escanee antes el código de la clave
result-key-second-run-after = { $student } ya tiene un resultado con esta clave; otro recorrido después de la crítica no cuenta: cierre otra clave
locked-key-holds-credential-one = { $instructor } cerró esta clave y la credencial es de { $holder }; debe firmar quien la cerró
only-inspection-load-sealed-one = solo se sella la inspección de una carga; firme esta como tal: inspect --kept --sign
walk-decided-decide-fit-fit = la inspección no está decidida; decida antes apta o no apta
walk-sealed-already-show-seal = esta inspección ya está sellada; muestre su sello o inspeccione la carga otra vez
walked-load-holds-credential-one = { $inspector } inspeccionó esta carga y la credencial es de { $holder }; debe sellar quien inspeccionó
seal-credential-may-hold-up = un sello con esta credencial puede valer hasta { $longest }; pida menos
more-than-a-record-carries = esta inspección tiene { $entries } anotaciones y { $photos } fotografías, y un acta lleva { $most_entries } y { $most_photos }; deténgala e inspeccione la carga de nuevo
record-goes-hexadecimal-digits-see = un acta se nombra por 64 cifras hexadecimales; vea records list
such-record-scan-seal-first = aquí no está ese acta; escanee antes su sello o vea records list
record-walks-another-tag-than = el acta { $hex } inspecciona otra etiqueta que la que lleva
record-does-say-which-tag = el acta no dice qué etiqueta se inspeccionó
record-walks-another-tag-procedure = el acta inspecciona otra etiqueta u otro procedimiento que los que lleva
procedure-inspects-load-begin-load = el procedimiento { $procedure } inspecciona una carga; empiece por la etiqueta de la carga
walk-sealed-already-take-seal = esta inspección ya está sellada; anule el sello o inspeccione la carga otra vez
jpeg-png-below-mib-take = no es un JPEG ni un PNG de menos de 16 MiB; haga la fotografía otra vez
no-walk-see-loads-in-hand = no hay tal inspección; vea las cargas en curso
procedure-inspects-load-but-make = el procedimiento { $id } no inspecciona una carga sino { $subject_words }; haga la etiqueta con un procedimiento de cargas
device-does-know-whose-make = este dispositivo no sabe de quién es; haga antes su clave (key request)
card-cards-count-from = no hay tarjeta 0; las tarjetas se cuentan desde 1
digest-photograph-add-photograph-first = eso no es la huella de una fotografía; añada antes la fotografía
no-count-enter-number = "{ $text }" no es una cuenta; ponga un número entero
write-a-number-and-unit = { $error }; escriba un número con su unidad
no-procedure-known = aquí no hay procedimiento "{ $id }"; se conocen: { $list }
procedure-walk-add-file = el procedimiento de esta inspección no está aquí; añada su archivo
credential-issued-authority-list-shows = aquí no se dio credencial a "{ $word }"; authority list muestra nombres e identificadores
may-several-people-give-id = "{ $word }" pueden ser varios: { $list }; dé el identificador de cada uno de los que quiere
home-authority-already-use-begin = esta carpeta ya es una autoridad; úsela o empiece otra
key-request-ask-device-request = esto es otra cosa ({ $kind }) y no una petición de clave; pida la suya al dispositivo
role-use-inspector-planner-hookup = "{ $word }" no es una función; use inspector, planner, hookup, leader, instructor
credential-role-name-one-several = la credencial no tiene función; nombre una o varias
expiry-is-past = { $expires } ya pasó; dé un vencimiento posterior
seal-must-hold-least-give = un sello debe valer 1 h al menos; dé más horas
credential-just-these-terms-issued = ya se dio a { $holder } una credencial idéntica y se revocó; dé otro vencimiento
authority-can-sign-further-roster = esta autoridad no puede firmar más listas; empiece otra autoridad
roster-revoked-keys-credentials-fits = una lista de { $entries } claves y credenciales revocadas y procedimientos aprobados no cabe en un código; deje que caduquen algunas o empiece otra autoridad
passphrase-soon-guessed-use-four = la frase se adivina pronto{ $why }; use cuatro palabras o más que no vayan juntas
home-authority-begin-one-authority = esta carpeta no es una autoridad; empiece una con authority init
authority-roster-home-damaged = esta autoridad no tiene lista; su carpeta está dañada
key-revoked-have-device-make = la clave de { $holder } ({ $fingerprint }) se revocó aquí; que el dispositivo haga otra y dé la credencial con su nueva petición
device-key-already-show-key = este dispositivo ya tiene clave; muestre su petición de clave o empiece otra carpeta
device-key-yet-make-one = este dispositivo no tiene clave todavía; haga una con key request --holder NOMBRE
fingerprint-does-match-card-have = la huella no casa con la tarjeta de "{ $name }"; haga que se la lean otra vez del dispositivo de la autoridad, y no se fíe de esta tarjeta si difiere
another-authority-goes-trusted-already = aquí ya se confía en otra autoridad que se llama "{ $name }" ({ $fingerprint }); confíe en las dos solo si gente de ambas le dice que son dos: authority trust --beside
authority-trusted-key-show-lists = aquí no se confía en ninguna autoridad "{ $who }"; key show muestra en cuáles sí
several-authorities-meant-give-fingerprint = pueden ser varias autoridades: { $list }; dé la huella de una
home-authority-itself-whom-issues = esta carpeta es esa misma autoridad; a quien ella acredita lo revoca ella
authority-card-scan-card = esto es otra cosa ({ $kind }) y no la tarjeta de una autoridad; escanee la tarjeta
key-make-one-first-key = aquí no hay clave; haga antes una (key request o authority init)
nothing-signed-would-count-make = { $line }: nada de lo firmado aquí contaría; haga otra clave y muestre su petición a la autoridad
device-credential-show-key-request = este dispositivo no tiene credencial; muestre su petición de clave a una autoridad
credential-ran-out-ask-authority = la credencial de { $holder } caducó a las { $expires }; pida otra a la autoridad
credentialed-someone-who-must-do = { $holder } está acreditado como { $roles } y no como { $role }; debe hacerlo quien lo esté
frame-moving-code-read-bundle = este es un cuadro de un código en movimiento; léalo con bundle read
another-roster-number-authority-known = aquí se conoce otra lista número { $sequence } de esta autoridad: su carpeta se copió o se repuso; haga que revoque otra vez lo que revocó, con un número mayor
load-tag-seal-scan-code = esto es una etiqueta de carga y no un sello; escanee el código de la pantalla del inspector
seal-load-tag-scan-tag = esto es un sello y no una etiqueta de carga; escanee la etiqueta de la carga
no-record-scan-seal = aquí no está ese acta; escanee antes su sello
no-such-cause = "{ $cause }" no es un motivo; use { $list }
another-cause-needs-note-say = otro motivo necesita una nota; diga por qué
nothing-scanned-scan-seal-tag = no se escaneó nada; escanee el sello o la etiqueta
credential-had-run-out-when = la credencial de { $holder } había caducado al firmar esta anulación; no cuenta
roster-comes-from-authority-device = esta lista es de una autoridad en la que este dispositivo no confía; añada antes su tarjeta
load-comes-from-authority-device = carga { $load }: esto ({ $kind }) es de una autoridad en la que este dispositivo no confía; añada antes su tarjeta
of-load = carga { $load }: { $error }
load-nobody-signed = carga { $load }: nadie firmó esto ({ $kind })
load-tag-scan-tag-load = esto es otra cosa ({ $kind }) y no una etiqueta de carga; escanee la etiqueta de la carga
load-rated-load-weighs-take = carga { $load }: { $kind } { $serial } admite { $rating } y la carga pesa { $gross }; tome una pieza que la aguante o una carga menor
no-load-tag-here = esto no es una etiqueta de carga; escanee la etiqueta de la carga
nothing-given-write-give-tag = no se dio nada que grabar; dé una etiqueta, un sello o ambos
sticker-holds-one-message-kind = un adhesivo lleva un mensaje de cada clase; grabe el otro en otro adhesivo
too-many-wrong-pins = demasiados PIN equivocados; espere { $wait } y pruebe otra vez
pin-wrong-in-a-row = { $wrong ->
    [one] el PIN está mal; espere { $wait } y pruebe otra vez
   *[other] el PIN está mal, { $wrong } veces seguidas; espere { $wait } y pruebe otra vez
}
list-of-rejected-damaged = no se puede leer la lista de piezas rechazadas: { $error }
record-has-no-bytes = el acta { $digest } no tiene contenido; vea records verify
subject-of-newer-kind = una inspección es de una clase que este programa no conoce; use un programa más nuevo
list-of-inspections-damaged = no se puede leer la lista de inspecciones: { $error }
walk-entry-damaged = no se puede leer una anotación de la inspección: { $error }

## Lo que inspecciona un procedimiento, si no es una carga

subject-load = una carga
subject-piece = una pieza de material
subject-aircraft = los ganchos de una aeronave
subject-zone = una zona
subject-handling = lo que se hace con una carga inspeccionada

## Funciones

role-inspector = inspector
role-planner = planificador
role-hookup = enganche
role-leader = jefe
role-instructor = instructor

inspection-not-here = no hay tal inspección aquí; vea inspect --kept
inspection-of-load = esta es la inspección de una carga; séllela
inspection-not-decided = la inspección no está decidida; decida primero apta o no apta
inspection-signed-already = esta inspección ya está firmada; vea inspect --kept
inspection-other-holder = inspeccionó { $inspector } y la credencial es de { $holder }; debe firmar quien inspeccionó
inspection-by-no-inspector = inspección de { $name }: { $holder } no es inspector, o la credencial había vencido al firmar; no cuenta
inspection-refused = inspección de { $name }: { $error }
inspection-of-unknown-authority = inspección de { $name }: viene de una autoridad en la que este dispositivo no confía; añada primero su tarjeta
inspection-disagrees = inspección de { $name }: no concuerda con su registro ({ $about }); pídala de nuevo al dispositivo del inspector
piece-withdrawn-at-planning = carga { $load }: la pieza { $serial } fue retirada el { $at }: { $why }; tome otra pieza
edition-approved-with-another-text = la versión { $version } del procedimiento { $procedure } se aprobó con otro texto ({ $print }); dé a este una versión más alta
no-procedure-approved-here = aquí no hay aprobado ningún procedimiento "{ $word }"; authority list muestra los que hay
approved-text-not-here = { $authority } aprueba el procedimiento { $procedure } versión { $version }, y su texto no está aquí; recíbalo de un dispositivo que lo tenga
ordered-text-not-here = la etiqueta ordena el procedimiento { $procedure } versión { $version } ({ $print }), y su texto no está aquí; recíbalo de quien planificó
lists-language-unknown = "{ $code }" no es un idioma que pueda tener una lista; escriba sus dos letras, como fr o pt
no-such-report = aquí no hay tal parte; escanee su código, o incorpore el paquete que lo contiene
withdrawal-needs-reason = di por qué se retira la pieza { $serial }: quien la tenga debe saber qué buscar

## Una copia y lo que es de ella

home-is-there = en esa carpeta hay un puesto; nombre otra con --home CARPETA
no-backup = eso no es la copia de un puesto; nombre un archivo que escribió slingseal backup
backup-broken = la copia está cortada o fue alterada; tome otra
backup-not-written = no se puede escribir la copia ({ $why }); haga sitio y repítalo
backup-not-read = no se puede leer o tomar la copia ({ $why }); revise el disco y repítalo
restored-is-new-device = Este es un dispositivo nuevo: guarda el diario del anterior como historia y sigue con nombre propio. Use solo uno de los dos: ambos tienen las mismas claves.
restored-needs-rosters = Lo que llegó después de la copia no está en ella. Los veredictos dicen WAIT hasta que llegue una lista más nueva de cada autoridad en la que aquí se confía; reciba un lote de otro dispositivo.
restored-walk-again = Se abandonaron las inspecciones en curso; inspeccione otra vez estas cargas: { $loads }.
