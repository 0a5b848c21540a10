### Lo que hallan la auditoría y la sincronización. No lo ha leído todavía ningún eslingador.

record-of-load = registro { $record } (carga { $load })
own-journal = el diario de este dispositivo: { $fault }
strays-kept = se guardan { $strays } cosas ({ $size } MiB) que nadie firmó y ningún registro nombra; de más de { $most } cosas o { $most_size } MiB cede la más antigua
authority-key-wrong = la clave de la autoridad { $name } no puede ser una clave
authority-not-of-card = la autoridad { $name } no es la de su tarjeta
authority-card-wrong = la tarjeta de la autoridad { $name }: { $error }
roster-other-number = la lista de { $name } tiene otro número que su fila
roster-wrong = la lista de { $name }: { $error }
sealed-is-missing = falta el registro { $record }, sellado aquí { $at } (asiento { $seq } del diario)
sealed-lost-walk = el registro { $record }, sellado aquí { $at } (asiento { $seq } del diario), ha perdido su inspección
walk-of-load = la inspección de la carga { $load }: { $error }
kept-as-evidence = { $record }: { $what }; se guarda como prueba y no es una inspección
line-says-otherwise = { $record }: su línea dice { $kept } y, por lo que aquí consta, es { $is }
without-inspection = sin inspección
state-by-seal = { $state } por el sello { $seal }
load-says-otherwise = carga { $load }: la cuenta dice { $kept } y, por lo que aquí consta, es { $is }
journal-of-device = el diario del dispositivo { $device }: { $fault }
void-of-load = la anulación { $void } de la carga { $load }
thing-wrong = { $what }: { $error }
row-otherwise = { $what }: su fila dice otra cosa que sus octetos
credential-wrong = la credencial { $id } de { $holder }: { $error }
tag-of-load = la etiqueta de la carga { $load }

## Lo que trajo un lote

tags-go-by-file = etiquetas que nadie firmó y ningún sello nombra: van por archivo de lote
after-item = tras el elemento { $after }, octeto { $at }
bytes-damaged = { $length } octetos están dañados; pida otra vez el lote al remitente
own-journal-gone = otro dispositivo sabe más del diario de este de lo que hay aquí: este puesto se copió o se repuso a un estado anterior; averigüe cuándo
own-journal-hint = un extremo que nadie firmó dice más del diario de este dispositivo de lo que hay aquí: si este puesto no se copió ni se repuso a un estado anterior, el lote fue manipulado
item-numbered = elemento { $number }
and-more = y { $count } más
item-procedure = elemento { $number }, procedimiento { $at } de { $of }
journal-in-two-ways = el diario del dispositivo { $device } se cuenta de dos maneras en el asiento { $seq }: se copió o se reescribió; haga la auditoría
and-after-that = y después de eso
more-not-kept = { $count } más, ni anotados ni guardados; pida otra vez el lote al remitente
stray-tags = etiquetas sin firma: { $count }
stray-photos = fotografías: { $count }
stray-procedures = textos de procedimientos: { $count }
stray-sheets = hojas de examen: { $count }
strays-gave-way = llegó más de lo que se guarda sin firma y sin que un registro lo nombre; cedió lo más antiguo ({ $which }): pídalo otra vez junto con los registros que lo nombran
trusted-key-damaged = una clave de confianza está dañada; añada otra vez su autoridad
older-copy-put-back = se repuso una copia anterior de este puesto, o falta parte de lo que había recibido; los veredictos dicen WAIT hasta que llegue una lista posterior a { $since } de cada autoridad en la que aquí se confía
seal-is-damaged = el sello está dañado; sincronice desde otro dispositivo
