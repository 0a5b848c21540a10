### La ayuda de la línea de órdenes: órdenes, argumentos, códigos de salida. No la ha leído todavía ningún eslingador.

program = Inspeccionar, sellar y llevar la cuenta de cargas suspendidas de helicóptero, sin red.
program-more = Ayuda a un inspector cualificado; nunca certifica por sí mismo. Manda el manual vigente.

## Códigos de salida y lo que vale para toda orden

exit-codes = Códigos de salida:
exit-done = hecho; GO; eslingado dentro de los límites
exit-refused = denegado, o entrada mala: una línea en la salida de errores dice qué hacer
exit-usage = una línea de órdenes que no se puede leer
exit-wait = WAIT; eslingado que pasa del límite por la regla que nombra su archivo, aunque no en reposo
exit-no-go = NO-GO; eslingado que pasa de un límite, o que no cuelga
exit-reader-gone = quien leía la tubería se fue
exit-line = {" "}{ $code }   { $said }
exit-gravest = verify y receive terminan con el veredicto más grave de todo lo dado; un sello o una etiqueta dañados son NO-GO.
help-secrets = El PIN y la frase de paso se piden en el terminal, o se toman de SLINGSEAL_PIN y SLINGSEAL_PASSPHRASE.
help-code = Donde se pide un CÓDIGO: su texto, un archivo con el texto, una imagen (PNG, JPEG), o - para la entrada estándar.
help-file = Donde se escribe un ARCHIVO, - es la salida estándar. NO_COLOR quita los colores; PAGER muestra las listas largas.

## Encabezados, y lo que el analizador añade por sí mismo

head-usage = Uso:
head-verbs = Órdenes
head-arguments = Argumentos
head-options = Opciones
help-help = Decir esto; --help dice más que -h
help-version = Decir qué versión es
verb-help = Decir esto, o la ayuda de una orden

## Órdenes y sus argumentos

arg-all-home = La carpeta de datos: todo lo que guarda este dispositivo
arg-all-json = Responder en JSON
arg-all-acting = Firmar con la credencial de esta autoridad, si varias dieron una a este dispositivo: su nombre o su huella
arg-all-language = El idioma de todo lo que se lee aquí: en o es; si no, el de LC_ALL, LC_MESSAGES o LANG
verb-demo = Hacer toda la tarea en un puente aéreo inventado, sin intervención, y dejarlo todo para mirarlo
arg-demo-out = Dónde dejarlo; una carpeta propia
verb-inspect = Recorrer una carga: a pantalla completa con teclas sueltas, o una respuesta por línea
more-inspect = Sin ETIQUETA ofrece las cargas en curso y las etiquetas que se conocen aquí; si no hay nada, una carga de práctica.
arg-inspect-tag = La etiqueta de la carga
arg-inspect-out = Dónde poner el sello como PNG, SVG y texto
arg-inspect-walk = Seguir con esta inspección en curso: los primeros dígitos de su identificador, o su número de carga
arg-inspect-list = Inspeccionar lo que no es una carga, por esta lista: gear-web y las demás de material, daily-hooks, zone, hookup, derig; con --of
arg-inspect-of = El número de serie de la pieza, la aeronave, la zona o el número de carga
arg-inspect-kept = Lo que se inspeccionó aquí y no es una carga, y hasta cuándo es apta una pieza
arg-inspect-sign = Con --kept: firmar esta, por los primeros dígitos de su identificador o por su nombre, con el PIN del inspector
verb-verify = Decir GO, WAIT o NO-GO de un sello, de una etiqueta o de ambos
arg-verify-seal = El sello; sin él, lo que aquí se sabe de la etiqueta
arg-verify-tag = La etiqueta de la carga
verb-tag = Escribir y leer etiquetas de carga
verb-read = Escribir lo que dicen los códigos de cada imagen: IMAGEN, un tabulador, TEXTO; `-` donde no se lee nada
arg-read-pictures = Archivos PNG o JPEG
verb-rigging = Cómo cuelga una carga eslingada, quién lleva cuánto, qué manda; 11 si pasa de un límite o no cuelga
verb-procedure = Enumerar, mostrar, comprobar y añadir procedimientos
verb-authority = Ser una autoridad: emitir, revocar, firmar listas; confiar en otra
verb-key = La clave de este dispositivo
verb-receive = Recibir un código de cualquier clase: credencial, lista, anulación, etiqueta, sello, tarjeta de una autoridad
arg-receive-codes = Los códigos
verb-void = Anular un sello: nadie puede ya levantar con él
arg-void-seal = El sello, el número de la carga, o el resumen del registro o sus primeros dígitos
arg-void-cause = rigging-disturbed, load-moved, hookup-aborted, equipment-withdrawn u other
arg-void-note = Algo más, en sus palabras
arg-void-out = Dónde poner el código de la anulación como imagen y texto
verb-report = Decir qué fue de una carga: lifted, refused, lost, set-down, derigged, returned
more-report = Con los códigos de su sello y su etiqueta se juzgan primero, como en el gancho, y el veredicto entra en el parte. Sin --sign el parte va sin firma: cuenta en este dispositivo y en otros se muestra como no firmado.
verb-account = Cerrar un día, una operación o unas cargas: lo que no cuadra, y la declaración que entrega un jefe
verb-arrival = Qué es una carga y qué se hizo con ella, por su etiqueta o su número: para quien la baja; no pide clave
arg-arrival-load = La etiqueta de la carga, o su número
verb-check-page = Escribir la comprobación en el gancho para el teléfono de cualquiera: un archivo que confía en quien usted elija, hasta un día
arg-check-page-out = El archivo que se escribe
arg-check-page-authorities = Una autoridad en la que confía, por nombre o huella, una vez cada una; si no se nombra ninguna, todas las de aquí
arg-check-page-hours = Cuántas horas se puede confiar en ella, de 1 a 168
arg-check-page-page = La página sin contenido, si este programa se hizo sin ella: bindings/web/build hace target/web/check.html
verb-exam = Examinar alumnos con deficiencias plantadas: cerrar, recorrer, resultado, clase
verb-bundle = Llevar registros, etiquetas, anulaciones y listas a otro dispositivo, sin red
verb-records = La cuenta: enumerar, mostrar, comprobar, exportar, imprimir
verb-backup = Escribir todos los datos en un solo archivo, con una suma de control; lleva el secreto del dispositivo: guárdelo bajo llave
arg-backup-out = El archivo
verb-restore = Empezar una carpeta de datos, la de --home, a partir de una copia: un dispositivo nuevo, con el diario del anterior como historia
arg-restore-file = Lo que escribió `backup`
verb-completions = Autocompletado para un intérprete de órdenes, por la salida estándar: bash, zsh, fish, elvish o powershell
arg-completions-shell = El intérprete
verb-manual = Páginas de manual, una por orden, en una carpeta
arg-manual-out = La carpeta
verb-serve = La página del jefe: la zona, la historia de cada carga, recibir, planificar, imprimir; solo en esta máquina
arg-serve-port = El puerto; 0 toma uno libre
arg-serve-open-to-network = Abrir esta dirección de la máquina a su red: otros pueden leer y añadir; sin --tls nada va cifrado
arg-serve-page = La página de comprobación en el gancho sin contenido, si este programa se hizo sin ella
verb-account-close = Todo lo que no cuadra, con lo que se sabe y lo que hay que hacer; --sign cuando todo está explicado
verb-account-manifest = Las cargas de un día en el orden en que se van a elevar; fija ese orden
arg-account-manifest-day = El día, UTC; hoy si no se dice
arg-account-manifest-put = Poner una carga en un lugar, el primero es 1; se puede dar varias veces
arg-account-manifest-order = Tomar el orden de una tabla: CSV con una columna "load", como la escribe --csv
arg-account-manifest-as-planned = Volver al orden de la planificación
arg-account-manifest-pdf = Dónde ponerlo como PDF
arg-account-manifest-letter = Imprimir en carta (US Letter) en vez de A4
arg-account-manifest-csv = Dónde ponerlo como CSV
verb-account-equipment = Cada pieza de material: en qué carga, desde cuándo, elevaciones, peso llevado; primero lo que falta o se perdió
arg-account-equipment-open = Solo lo que está fuera, perdido o dañado
arg-account-equipment-csv = Dónde ponerlo como CSV
verb-account-push = Poner lo que hay aquí en el servidor de la operación: cada cosa una vez
verb-account-pull = Recibir lo que otros puestos pusieron en el servidor de la operación; no se le confía nada
arg-account-pull-again = Desde el principio, y no desde donde paró la última vez
verb-account-follow = Poner y recibir una y otra vez hasta que se detenga; si el servidor se va, se le espera
arg-account-follow-every = Segundos entre dos vueltas, de 1 a 3600
verb-account-server-sql = Escribir el SQL que prepara un servidor, para quien lo lleva: account server-sql | psql BASE
verb-account-withdraw = Retirar una pieza del servicio como jefe o inspector: toda etiqueta que la nombra es NO-GO hasta que un inspector la halle apta
arg-account-withdraw-serial = Su número de serie
arg-account-withdraw-why = Por qué, para que quien la tenga sepa qué buscar
arg-account-withdraw-out = Dónde poner el código como SVG, PNG y texto
verb-account-second-look = Cuántas deficiencias no halló nadie, por pares de inspecciones de una carga hechas por dos que no saben uno del otro
arg-account-second-look-days = Solo inspecciones de tantos días
arg-account-second-look-draw = Sortear cargas que otro debe mirar, de 1 a 100
verb-account-least-seconds = Señalar los recorridos de menos de tantos segundos por tarjeta; sin número, ninguno
arg-account-least-seconds-seconds = Segundos por tarjeta, de 1 a 3600
arg-server-url = Dónde está: postgresql://USUARIO@MÁQUINA/BASE
arg-server-ca = Archivo PEM con el certificado de quien firmó el del servidor; por red hay que nombrarlo
arg-server-photos = Van también las fotografías
arg-close-loads = Las cargas; sin ellas, todas las de aquí
arg-close-day = Cargas de las que algo se dice de este día, UTC
arg-close-name = Cómo la llama la declaración: una operación
arg-close-explain = Decir algo de un punto abierto, por el identificador que lleva delante; puede repetirse
arg-close-sign = Firmar la declaración como jefe; pide el PIN
arg-close-out = Con --sign: dónde poner la declaración como PDF, texto y, si cabe, un código
arg-report-event = lifted, refused, lost, set-down, derigged o returned
arg-report-load = El número de la carga, o los códigos de su sello y su etiqueta
arg-report-cause = Con refused: verdict, rigging, damage, wrong-load, too-heavy, unstable, aircrew, zone u other
arg-report-at = Cuándo ocurrió, si fue antes de ahora: RFC 3339, o un grupo fecha-hora
arg-report-aircraft = La aeronave que la llevó
arg-report-place = Dónde, MGRS
arg-report-pieces = Una pieza de material: SERIAL=back, SERIAL=damaged o SERIAL=back,damaged; puede repetirse
arg-report-photos = Una fotografía, PNG o JPEG; puede repetirse
arg-report-note = Algo más, en sus palabras
arg-report-sign = Firmarlo con la credencial de este dispositivo; pide el PIN
arg-report-out = Dónde poner su código como imagen y texto
verb-tag-write = Hacer la etiqueta de un plan, o las de una lista de cargas: PNG, hoja PDF y texto
arg-tag-write-plan = El plan, TOML, o la lista, CSV; vea core/message/PLAN.md
arg-tag-write-out = Dónde poner los archivos
arg-tag-write-unsigned = Dejar la etiqueta sin firma: al equipo de enganche se le dirá WAIT
verb-tag-read = Decir lo que dice una etiqueta
arg-tag-read-code = La etiqueta
verb-procedure-list = Los que se conocen aquí
verb-procedure-show = El recorrido en que se desarrolla uno, con el identificador de cada punto
arg-procedure-show-id = Su identificador
arg-procedure-show-pdf = Ponerlo como lista en blanco para recorrer con bolígrafo, con casillas, fuentes, advertencias y su código
verb-procedure-check = Comprobar un archivo: cada falta con línea, columna y arreglo
arg-procedure-check-file = El archivo
arg-procedure-check-watch = Comprobarlo otra vez cada vez que se guarda, hasta que se detenga
verb-procedure-table = Cada punto de una lista, o de todas, con su fuente y lo que pasa con lo que se halla: para que lo imprima quien aprueba
arg-procedure-table-id = Su identificador; sin él, todas las que se conocen aquí
verb-procedure-add = Recibir uno propio de la unidad
arg-procedure-add-file = El archivo
verb-procedure-new = Dejar un archivo pequeño y comentado para empezar
arg-procedure-new-id = Cómo se llamará
arg-procedure-new-out = Dónde ponerlo; sin ello, ID.toml aquí
verb-procedure-diff = Decir qué tarjetas y puntos llegaron, se fueron o cambiaron entre dos ediciones: lo que aprueba quien aprueba
arg-procedure-diff-old = El archivo anterior, o el identificador de uno que se conoce aquí
arg-procedure-diff-new = El más nuevo
verb-procedure-schema = El JSON Schema del archivo de un procedimiento, para un editor
verb-procedure-language = Decir las listas en un idioma propio de la unidad, donde lo tienen
arg-procedure-language-code = Dos letras, como fr; sin ello, el idioma del lector
verb-procedure-pack = Llevar procedimientos con las listas que los aprueban, en un archivo
verb-procedure-frames = Mostrar procedimientos como código en movimiento, con las listas que los aprueban: cuadros como imágenes
arg-procedure-frames-ids = Cuáles; sin ello, todos los aprobados
arg-procedure-frames-out = Dónde poner los cuadros
arg-procedure-frames-spare = Por cada cien cuadros que bastan, tantos más
verb-pack-write = Escribir un archivo con los procedimientos propios de la unidad y todos los aprobados, o los que se nombren
arg-pack-write-file = El archivo
arg-pack-write-ids = Cuáles
verb-pack-read = Recibir los procedimientos de un archivo: cada uno que no tenga faltas; lo que nadie aprueba se guarda aparte
arg-pack-read-file = El archivo
verb-authority-init = Hacer de este puesto una autoridad
arg-authority-init-name = Cómo se llama
arg-authority-init-approve = Un procedimiento que cuenta, de los que vienen con el programa: un identificador, o `all`; puede repetirse. Son un comienzo y no un manual. Sin ello se le pregunta, y si no hay nadie no se aprueba nada
arg-authority-init-out = Dónde poner su tarjeta y su lista
verb-authority-issue = Emitir una credencial para una solicitud de clave
arg-authority-issue-request = La solicitud de clave
arg-authority-issue-roles = inspector, planner, hookup, leader, instructor; varios con comas
arg-authority-issue-expires = Hasta cuándo: una fecha, RFC 3339, o un grupo fecha-hora
arg-authority-issue-holder = Otro nombre o indicativo que el que pide la solicitud
arg-authority-issue-validity = Lo más que puede valer un sello
arg-authority-issue-out = Dónde poner la credencial
verb-authority-list = Quién tiene qué de lo emitido aquí, y qué procedimientos están aprobados
verb-authority-show = Mostrar o escribir otra vez la tarjeta de la autoridad y su lista más nueva
arg-authority-show-out = Dónde ponerlas
verb-authority-revoke = Revocar una clave con todo lo emitido a ella, y firmar la lista siguiente
arg-authority-revoke-who = Nombres o indicativos, identificadores de credenciales, huellas de claves
arg-authority-revoke-days = Por cuántos días vale la lista
arg-authority-revoke-out = Dónde poner la lista
verb-authority-approve = Decir qué procedimientos cuentan: lo recorrido por otro da WAIT. Firma la lista siguiente
arg-authority-approve-which = Archivos propios de la unidad, e identificadores de los que se conocen aquí
arg-authority-approve-days = Por cuántos días vale la lista
arg-authority-approve-out = Dónde poner la lista
verb-authority-withdraw = Retirar una aprobación: lo que se recorra por él desde ahora da WAIT. Firma la lista siguiente
arg-authority-withdraw-which = Identificadores, `ID@VERSIÓN` de una edición, o el comienzo de una huella
arg-authority-withdraw-days = Por cuántos días vale la lista
arg-authority-withdraw-out = Dónde poner la lista
verb-authority-roster = Firmar otra vez la lista, para que valga más tiempo
arg-authority-roster-days = Por cuántos días vale
arg-authority-roster-out = Dónde ponerla
verb-authority-trust = Confiar en otra autoridad por su tarjeta
arg-authority-trust-card = La tarjeta
arg-authority-trust-fingerprint = La huella, tal como se leyó en el dispositivo de la propia autoridad; se pide en el terminal
arg-authority-trust-beside = Confiar en ella aunque ya se confíe en otra del mismo nombre
verb-authority-distrust = No confiar más en una autoridad: nada de lo que firmó cuenta aquí; lo recibido queda como prueba
arg-authority-distrust-who = Su nombre, o su huella
verb-key-request = Hacer la clave de este dispositivo bajo un PIN, y la solicitud de credencial; si ya hay clave, escribir otra vez su solicitud
arg-key-request-holder = Su nombre o indicativo
arg-key-request-out = Dónde poner la solicitud
verb-key-change-pin = Poner la clave bajo otro PIN
verb-key-show = Hasta dónde está preparado este dispositivo
verb-table-records = Una línea por registro
verb-table-deficiencies = Una línea por deficiencia
verb-table-equipment = Una línea por pieza de material
verb-records-list = Registros, los más nuevos primero
arg-records-list-words = Palabras que aparecen todas
arg-records-list-most = Cuántos
verb-records-show = La historia entera de un registro
arg-records-show-record = Su resumen, o sus primeros dígitos
verb-records-export = La cuenta para otros programas; la explica core/account/EXPORT.md
more-records-export = --csv ARCHIVO para hojas de cálculo y estadística, --json ARCHIVO para un documento con todo; pueden nombrarse varios archivos si sus terminaciones dicen cuál es cuál.
arg-records-export-files = Dónde ponerla: .csv, .json, o .sql para una base de datos (psql BASE -f ARCHIVO.sql)
arg-records-export-csv = Como CSV, termine como termine el archivo
arg-records-export-parquet = Como Parquet: una carpeta con un archivo por cada una de las siete tablas del guion SQL
arg-records-export-of = Qué tabla: records, deficiencies o equipment
verb-records-verify = Recorrer cada cadena y cada firma, y nombrar lo que no se sostiene
verb-records-print = El PDF de una página de un registro
arg-records-print-record = Su resumen, sus primeros dígitos, o el número de la carga
arg-records-print-out = Dónde poner la página
arg-records-print-letter = Papel carta de EE. UU. en lugar de A4
verb-records-seal = Mostrar otra vez el sello de un registro: en el terminal, o como archivos
arg-records-seal-record = Su resumen, sus primeros dígitos, o el número de su carga
arg-records-seal-out = Dónde poner PNG, SVG y texto
verb-exam-lock = Cerrar lo que está plantado en una carga, firmado como instructor, antes de que empiece el alumno
more-exam-lock = Ponga primero las deficiencias en la carga; --preview dice cuáles. La lista queda en esta carpeta de datos; el código que se muestra lleva solo su resumen con sal, para que no pueda cambiar después.
arg-exam-lock-tag = La etiqueta de la carga
arg-exam-lock-plant = Una deficiencia que plantar: el identificador del punto y el nombre, como los da --preview; una por tarjeta
arg-exam-lock-draw = Sortear tantas en lugar de elegirlas: repartidas por las estaciones, nunca dos en una tarjeta
arg-exam-lock-seed = De qué se sortea: las mismas palabras dan lo mismo
arg-exam-lock-preview = Decir qué preparar y no guardar nada; sin --plant ni --draw, todo lo que se puede plantar, como lo toma --plant
arg-exam-lock-find = Cuántas debe hallar un alumno: la norma de su unidad; se pide en el terminal
arg-exam-lock-within = En este tiempo: segundos, o minutos:segundos; la norma de su unidad; se pide en el terminal
arg-exam-lock-false-calls = Avisos sin causa que se dejan pasar; la norma de su unidad; se pide en el terminal
arg-exam-lock-out = Dónde poner el código de la clave como imagen y texto
verb-exam-keys = Las claves que se conocen aquí; con CLAVE, una de ellas y su código
arg-exam-keys-key = El código de la clave, o los primeros dígitos de una conocida
arg-exam-keys-reveal = Mostrar lo plantado; pide el PIN
verb-exam-run = Recorrer: el alumno recorre la carga contra un reloj que nada detiene
arg-exam-run-key = El código de la clave, o los primeros dígitos de una conocida
arg-exam-run-student = A quién se examina
arg-exam-run-tag = La etiqueta de la carga; no hace falta si se conoce aquí
arg-exam-run-go-on = Seguir con este recorrido: los primeros dígitos de su identificador, o el alumno
arg-exam-run-out = Dónde poner la hoja al terminar el recorrido, para el bundle read del instructor
verb-exam-sheet = Escribir la hoja de un recorrido terminado, para el dispositivo del instructor: la recibe bundle read
arg-exam-sheet-run = El recorrido, por los primeros dígitos que da exam result
arg-exam-sheet-out = El archivo; con --frames, la carpeta de las imágenes
arg-exam-sheet-frames = Como cuadros de un código en movimiento
verb-exam-result = Puntuar un recorrido terminado y firmar el resultado, o mostrar uno; sin CUÁL, enumerar recorridos y resultados
arg-exam-result-which = El recorrido o el resultado por sus primeros dígitos, o el alumno
verb-exam-class = La clase: alumnos, lo más omitido, elementos, tiempo por tarjeta
more-exam-class = Lo omitido, los elementos y las tarjetas se cuentan sobre los primeros intentos. p es la parte que lo halló; D, la parte del 27 % superior de alumnos menos la del 27 % inferior (Kelley 1939); r, la correlación biserial puntual corregida.
arg-exam-class-procedure = De un procedimiento
arg-exam-class-since = Recorridos empezados a esta hora o después
arg-exam-class-until = Recorridos empezados antes de esta hora
arg-exam-class-out = Dónde poner las tablas como CSV
arg-part-of-account-since = Solo registros sellados a esta hora o después: una fecha, RFC 3339, o un grupo fecha-hora
arg-part-of-account-load = Solo lo que es de esta carga
verb-bundle-have = Lo que hay aquí, como un código corto: el otro lado lo deja fuera
arg-bundle-have-out = Dónde ponerlo
verb-bundle-write = Empaquetar lo que le falta al otro lado; con --frames, uno demasiado grande va en varios códigos en movimiento
arg-bundle-write-out = El lote; con --frames, la carpeta de las imágenes
arg-bundle-write-have = El código de lo que tiene el otro lado
arg-bundle-write-no-photos = Dejar fuera las fotografías
arg-bundle-write-frames = Como cuadros de un código en movimiento, sin fotografías
arg-bundle-write-spare = Con --frames: cuántos más de los que bastan, por ciento
verb-bundle-play = Mostrar el código en movimiento en este terminal, cuadro a cuadro, hasta Ctrl-C
arg-bundle-play-have = El código de lo que tiene el otro lado
arg-bundle-play-pace = Cuadros por segundo
arg-bundle-play-rounds = Terminar solo cuando cada código se haya mostrado tantas veces
verb-bundle-read = Recibir un lote, o las imágenes de un código en movimiento
arg-bundle-read-files = Un lote, o imágenes, o su carpeta
arg-rigging-file = El eslingado, TOML; vea core/rigging/FORMAT.md
arg-rigging-links = Qué pasaría: el eslabón que va en el gancho de un ramal; puede repetirse
arg-rigging-factor = Multiplicar cada fuerza por un factor de carga, como 2.5 (14 CFR 29.865)
arg-rigging-picture = Dibujar de lado, de frente y desde arriba, a escala; .svg o .png
arg-rigging-sheet = Imprimir la hoja para eslingadores: qué eslabón en qué gancho, qué ramal dónde
arg-rigging-aircrew = Imprimir la hoja de datos para la tripulación
verb-rigging-weigh = Masa y centro de gravedad por balanzas y partidas, y cómo puede colgar la carga dentro de sus tolerancias
arg-rigging-weigh-file = El eslingado con puntos `[[weighed]]` o `[[item]]`
arg-rigging-weigh-factor = Multiplicar cada fuerza por un factor de carga
verb-rigging-solve = Qué eslabón en qué gancho para que la carga cuelgue como se quiere y cumpla la regla que manda
arg-rigging-solve-file = El eslingado, con las eslingas y cuerdas a mano
arg-rigging-solve-level = A nivel
arg-rigging-solve-pitch = Morro arriba, grados; morro abajo es negativo
arg-rigging-solve-roll = Lado izquierdo arriba, grados
arg-rigging-solve-nose-down-at-least = El morro cuelga al menos tantos grados hacia abajo
arg-rigging-solve-between = Sujetar un ramal a unos eslabones; puede repetirse
arg-rigging-solve-most = Cuántas propuestas, de 1 a 20
arg-rigging-solve-factor = Multiplicar cada fuerza por un factor de carga
arg-rigging-solve-picture = Dibujar la mejor; .svg o .png
arg-rigging-solve-out = Escribir la mejor como archivo de eslingado
verb-rigging-flight = Estática del vuelo que cuenta el archivo: factor de carga, resistencia constante, un gancho que falla. Mandan los ensayos en vuelo y el manual
arg-rigging-flight-file = El eslingado con `[flight]`, o con dos ganchos

## Con qué acaba la ayuda de un argumento

note-values = uno de: { $values }
note-default = si falta: { $value }
note-environment = o en el entorno: { $name }

## Una línea de órdenes que no se puede leer

usage-options = OPCIONES
usage-verb = ORDEN
usage-unknown-verb = no hay ninguna orden «{ $verb }»
usage-unknown-argument = aquí no se admite «{ $argument }»
usage-missing = falta esto: { $arguments }
usage-no-verb = falta una orden
usage-conflict = { $argument } y { $other } no van juntos
usage-twice = { $argument } se da una sola vez
usage-no-value = { $argument } pide un valor
usage-not-one-of = { $argument } no admite «{ $value }», sino uno de: { $values }
usage-not-within = { $argument } admite de { $least } a { $most }, y no «{ $value }»
usage-no-number = { $argument } pide un número, y no «{ $value }»
usage-not-a-value = { $argument } no admite «{ $value }»
usage-number-of-values = { $argument } pide otro número de valores
usage-no-text = un argumento no es texto
usage-unreadable = la línea de órdenes no se puede leer
usage-meant = ¿quería decir { $other }?
usage-more = Más con --help.
arg-serve-tls = Hablar TLS, con un certificado que este puesto hace y guarda; su huella se muestra aquí

## Lo que está tras una opción en lugar de su valor: en mayúsculas, una palabra

value-address = DIRECCIÓN
value-authority = AUTORIDAD
value-card = TARJETA
value-code = CÓDIGO
value-days = DÍAS
value-deg = GRADOS
value-dir = CARPETA
value-event = SUCESO
value-file = ARCHIVO
value-fingerprint = HUELLA
value-hours = HORAS
value-key = CLAVE
value-leg = RAMAL
value-list = LISTA
value-load = CARGA
value-name = NOMBRE
value-new = NUEVA
value-note = NOTA
value-old = ANTERIOR
value-out = SALIDA
value-percent = PORCENTAJE
value-picture = IMAGEN
value-place = LUGAR
value-plan = PLAN
value-point = PUNTO
value-port = PUERTO
value-procedure = PROCEDIMIENTO
value-record = REGISTRO
value-request = SOLICITUD
value-roles = FUNCIONES
value-run = EXAMEN
value-seal = SELLO
value-seconds = SEGUNDOS
value-serial = SERIE
value-shell = INTÉRPRETE
value-state = ESTADO
value-tag = ETIQUETA
value-text = TEXTO
value-time = TIEMPO
value-times = VECES
value-when = CUÁNDO
value-which = CUÁL
value-who = QUIÉN
value-word = PALABRA
value-words = PALABRAS
value-year = AAAA

## Una respuesta por línea: lo que está en la primera columna se escribe tal como está

inspect-lines =
    En un terminal la inspección es a pantalla completa, con teclas sueltas que tiene un teclado numérico; están al pie.

    Cuando la entrada o la salida estándar no es un terminal, una respuesta por línea:
      good                          toda la tarjeta está bien
      good PUNTO                    un punto está bien
      deficient PUNTO NOMBRE [NOTA] una deficiencia, por su nombre o número; other pide una nota
      value PUNTO VALOR             una cuenta, elección, medida, serie o texto
      na PUNTO MOTIVO               el punto no se aplica a esta carga
      reject N SERIE                la pieza que rechaza el hallazgo N
      undo                          deshacer la última respuesta
      go N                          ir a la tarjeta N
      right N [QUIÉN]               el hallazgo N está corregido, por quién
      again N good [VALOR]          reinspeccionado: bien, con el nuevo valor donde se pide
      again N bad [NOTA]            reinspeccionado: sigue deficiente
      pause, resume, show
      abandon MOTIVO                terminar sin decisión
      fit, notfit [MOTIVO]          decidir
      pin PIN                       el PIN con que se sella; si no, SLINGSEAL_PIN
      seal                          firmar; con --out se escriben PNG, SVG y texto
    PUNTO es su número en la tarjeta o su identificador. Se saltan las líneas vacías y las que empiezan con #.

    Al principio y después de cada línea viene una línea:
      ok load=L stage=S card=N/M state=S cards=D/M points=D/M open=N findings=F
         next=PASO undo=N title=TÍTULO
      refused load=… (lo mismo) … undo=N why=MOTIVO
      sealed load=L outcome=fit|notfit verdict=GO|WAIT|NO-GO record=RESUMEN seal=TEXTO
      stage: walking paused decided abandoned    card, undo: 0 donde no hay ninguna
      findings: los que no están cerrados, ! abierto, ? corregido y por reinspeccionar: 2!,3? o -
      state: unanswered partly good deficient awaits_second_look, - donde no hay tarjeta
      next: answer_card look_again decide seal resume nothing
    Con --json cada una es una línea de JSON: la vista (con `refused` dentro), el sello, o {"{"}"error": …{"}"}.
    El fin de la entrada deja la inspección donde está. Código de salida 0; 1 si se rechazó una línea.
run-lines =
    En un terminal el examen es a pantalla completa, con las mismas teclas sueltas que una inspección; están al pie.

    Cuando la entrada o la salida estándar no es un terminal, una respuesta por línea:
      good, good PUNTO, deficient PUNTO NOMBRE [NOTA], value PUNTO VALOR, undo, go N
                                    como en una inspección; vea slingseal inspect --help
      show                          la línea de abajo, con el reloj
      end                           terminar el examen, llegue donde llegue; el reloj se para
    Al principio y después de cada línea viene una línea:
      ok load=L stage=running|ended card=N/M state=S cards=D/M called=N seconds=T/LÍMITE
         jumped=yes|no sheet=RESUMEN|- undo=N title=TÍTULO
      refused load=… (lo mismo) … undo=N why=MOTIVO
    Con --json cada una es una línea de JSON: el examen, o {"{"}"error": …{"}"}.
    El fin de la entrada deja el examen donde está, y su reloj sigue. Código de salida 0; 1 si se rechazó una línea.
