### Los procedimientos como los muestra una lista, y las etiquetas. No lo ha leído todavía ningún eslingador.

approved-by = aprobado por: { $authorities }
withdrawn-by = retirado por: { $authorities }
approved-by-nobody-a-start = aprobado por: nadie; un punto de partida para el suyo
approved-by-nobody = aprobado por: nadie
procedure-not-here = no está aquí: recíbalo de otro dispositivo
edition-not-approved = Ninguna autoridad de confianza aprueba el procedimiento { $id } versión { $version }: el gancho dirá WAIT.
procedure-not-approved = Ninguna autoridad de confianza aprueba un procedimiento { $id }: el gancho dirá WAIT.

## En qué se apoya una etiqueta

weight-weighed = pesada
weight-data-plate = placa de datos
weight-added-up = sumada por partes
weight-estimated = estimada
label-weight-from = Peso según
label-rigged-to = Eslingada según
label-airspeed-limit = Velocidad máxima
label-leg-serials = Series de ramales
label-edition-ordered = Edición ordenada
label-conditions = Condiciones
manual-edition = { $manual }, edición { $edition }
no-condition = ninguna

## Avisos sobre una etiqueta

over-allowable = El peso bruto { $gross } supera la carga admisible { $allowable }.
piece-overdue = { $name }: la revisión vencía el { $due }.
piece-rated-below = { $name }: admite { $rating }, menos que la carga.
piece-withdrawn = { $serial }: retirado el { $at }: { $why }.
piece-was-fit-until = { $kind } { $serial }: se halló apto hasta { $until }.
tag-unsigned = Ningún planificador firmó esta etiqueta.
signer-not-trusted = Aquí no se confía en quien firmó como planificador.
tag-forged = La firma no coincide: falsa o alterada.
did-you-mean = ¿quiso decir «{ $near }»?
no-conditions-leave-out = no tiene ninguna: omita when
conditions-are = tiene { $list }
signed-by-somebody = alguien en quien aquí no se confía como planificador
signed-by-nobody-forged = nadie: la firma no coincide
signed-by-nobody = nadie
list-on-paper = Una lista en papel no sella nada. Repítala en un dispositivo antes de que nadie diga GO.
two-texts = dos textos se llaman procedimiento { $id } versión { $version } ({ $one } y { $other }): haga que el autor suba la versión

## What changed between two editions of a procedure

changed-id = identificador
changed-version = versión
changed-title = título
changed-about = descripción
changed-subject = objeto
changed-motion = movimiento
changed-prompt = pregunta
changed-spoken = frase hablada
changed-answer = respuesta
changed-source = fuente
changed-card = tarjeta { $id }
changed-point = punto { $id }
changed-rules = ~ { $of }: otras reglas para su valor
changed-order = ~ las tarjetas se recorren en otro orden
changed-nothing = nada
change-card = { $sign } tarjeta { $id }: { $title }
change-point = { $sign } punto { $id }: { $prompt } ({ $source })
change-deficiency = { $sign } { $of }: deficiencia «{ $name }» ({ $fate })
change-from-to = ~ { $what }: { $old } -> { $new }
change-none = No ha cambiado nada de lo que se recorre.

## What a procedure calls itself, and what it does not say in a language

procedure-of-id = procedimiento «{ $id }»
procedure-without-id = un procedimiento sin identificador
untold-in = { $code }: { $what }
untold-words = palabras de { $of }
untold-station = título de la estación { $id }
untold-title = título de { $of }
untold-motion = movimiento de { $of }
untold-prompt = pregunta de { $of }
untold-deficiencies = deficiencias de { $of }
untold-options = opciones de { $of }
