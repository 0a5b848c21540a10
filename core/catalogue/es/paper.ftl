### En papel. No lo ha leído todavía ningún eslingador. Una etiqueta cabe en el ancho de una columna.

## La hoja de carga

caution-manual-rules = Manda el manual vigente; ninguna hoja sustituye a un inspector. Nadie viaja en la carga ni cuelga de ella.
caution-only-on-go = Vuele solo con GO, visto antes de que entre la aeronave. Sin inspeccionar, movida, abierta o reeslingada: NO-GO.
caution-static-on-hook = El gancho puede tener 40 000 V de estática. Póngalo a tierra antes de que nadie lo toque.
load-numbered = Carga { $load }
many-load-sheets = { $count ->
    [one] 1 hoja de carga
   *[other] { $count } hojas de carga
}
cut-or-fold = corte o doble aquí
sling-load = CARGA EXTERNA
hang-code-outward = cuélguese en la carga, código hacia fuera
tag-as-code = La etiqueta como código
same-tag-as-code = La misma etiqueta como código
label-aircraft = aeronave
label-allowable-from-aircrew = admisible, según tripulación
label-to = a
label-rigger = eslingador
label-airspeed-limit = velocidad máxima
label-from = de
label-grid = cuadrícula
label-procedure = procedimiento
gross-weight = peso bruto
gross-weight-from = peso bruto, { $source }
tag-signed-by = Etiqueta firmada por { $name }
tag-signed-by-rigged-to = Etiqueta firmada por { $name }   ·   eslingada según { $manual }
check-word = Control { $check }
unsigned-waits = { $state }: WAIT hasta que el jefe la confirme. Control { $check }
copy-for-aircrew = Copia para la tripulación
copy-for-aircrew-head = COPIA PARA LA TRIPULACIÓN
leg-counted = ramal { $leg }: { $count }
link-counts = Eslabones
rigged-to = Eslingada según
edition-ordered = Edición ordenada
verdict-seen-by = VEREDICTO VISTO POR
at-utc = HORA (UTC)
remarks = OBSERVACIONES
head-serial = SERIE
head-equipment = MATERIAL
head-rating = CAPACIDAD
head-rating-source = FUENTE DE LA CAPACIDAD
head-inspect-by = REVISAR ANTES DE
more-in-code = y { $count } más: escanee el código

## La hoja de un registro

record-of-load = Registro de la carga { $load }
inspection-record = REGISTRO DE INSPECCIÓN
seal-as-code = El sello como código
more-in-export = y { $left_out } más: vea la exportación de este registro
deficiencies-none = Deficiencias: no se halló ninguna
deficiencies-all-corrected = { $all ->
    [one] Deficiencias: 1 hallada, corregida y reinspeccionada
   *[other] Deficiencias: { $all } halladas, todas corregidas y reinspeccionadas
}
deficiencies-open = { $all ->
    [one] Deficiencias: 1 hallada, { $open } sin corregir
   *[other] Deficiencias: { $all } halladas, { $open } sin corregir
}
state-corrected = CORREGIDA
state-open = ABIERTA
how-it-hangs = Cómo cuelga: tensiones en reposo, sobre la capacidad de cada parte
what-happened-utc = Lo ocurrido (UTC)
digest-of-record = SHA-256 DEL REGISTRO COMPLETO
copy-proves-nothing = El código lleva la firma del inspector; esta hoja es una copia para personas y por sí misma no prueba nada. Manda el manual vigente; el registro no sustituye a un inspector cualificado.
manual-edition = { $manual }, edición { $edition }
signed-by-stranger = FIRMADA POR ALGUIEN SIN CONFIANZA
forged-tag = ETIQUETA FALSA O ALTERADA
unsigned-tag = ETIQUETA SIN FIRMA
worst-case = Caso peor, se repartan como se repartan: el ramal { $leg } lleva { $carries }, el { $share } de su capacidad
rules-three-and-two = Según los manuales: si llevan tres ramales, { $three }; si llevan dos, { $two } de la capacidad
rules-two = Según los manuales: si llevan dos, { $two } de la capacidad
taken-back = anulada
was-fit = era APTA; { $void }
was-not-fit = era NO APTA; { $void }
took-its-place = la sustituyó una inspección posterior
until-for = hasta { $until } para { $aircraft }
decided-at = decidida { $at }
label-inspector = inspector
version-of = { $procedure } versión { $version }
label-allowable = carga admisible
label-sealed = sellada
label-valid-until = vale hasta
label-tag-signed-by = etiqueta firmada por
reinspected = reinspeccionada
answers-good = { $good ->
    [one] 1 respuesta buena
   *[other] { $good } respuestas buenas
}

## La lista en blanco

not-where = no: { $deficiencies }
page-numbered = Página { $page }
blank-checklist-of = { $id } { $version }, lista en blanco
blank-checklist = LISTA EN BLANCO
load-inspector-date = Carga ____________  Inspector ____________________  Fecha y hora ____________
list-and-edition-as-code = Qué lista y edición es, como código
digest-and-page = SHA-256 { $digest }   página { $page } de { $of }

## La declaración de cierre

closing-of = Cierre de { $name }
closing-statement = DECLARACIÓN DE CIERRE
counted-loads = cargas
counted-inspections = inspecciones
counted-lifted = levantadas
counted-set-down = depositadas
counted-lost = perdidas
signed-by-at = Firmada por { $by }, { $at }. Control { $check }.
account-rests-on = La cuenta se apoya en { $count ->
    [one] { $count } documento
   *[other] { $count } documentos
}; su resumen es
nothing-was-open = No había nada abierto.
one-point-explained = Había 1 punto abierto y se explica:
many-points-explained = Había { $many } puntos abiertos y se explican:

## A part of an authority's copy

copy-part = Parte { $part } de 2: copia de la autoridad { $name }
copy-rows = Si ninguna cámara lee el código: escriba estas filas, sin sus números. Las dos últimas letras de cada fila la comprueban; no hay 0, 1 ni 8.
copy-keep-apart = Guárdela separada de la otra parte. Cada una sola no dice nada; ambas y la frase de paso son la autoridad. Si se pierde su teléfono: en otro recoja todo lo del equipo; después Preparación, Parte de una copia. El teléfono antiguo no debe firmar nunca más.
