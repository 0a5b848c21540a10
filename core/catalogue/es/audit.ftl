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
bytes-damaged = { $length ->
    [one] { $length } octeto está dañado
   *[other] { $length } octetos están dañados
}; pida otra vez el lote al remitente
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

## Lo que no cuadra en un registro, en su línea o en su diario

entry-out-of-order = el asiento { $seq } está fuera de orden
journal-ends-early = su diario termina antes de su último asiento
entry-changed = su asiento { $next } no sigue al asiento { $seq }: se alteró un asiento
entry-told-otherwise = el registro { $by } cuenta de otro modo el asiento { $seq } de su dispositivo: el dispositivo fue copiado o su diario, reescrito
sealed-twice-after = un mismo dispositivo selló este y el registro { $other }, ambos a continuación del registro { $before }: el dispositivo fue copiado
sealed-twice-first = un mismo dispositivo selló este y el registro { $other }, ambos como el primero: el dispositivo fue copiado
line-other-record = su sello es de otro registro
line-other-seal = su sello es otro
line-other-load = su línea nombra otra carga que su sello
line-other-outcome = su línea dice otro resultado que su sello
line-other-inspector = su línea nombra otro inspector que su sello
line-other-procedure = su línea nombra otro procedimiento que su sello
line-other-time = su línea dice otra hora que su sello
line-other-validity = su línea dice otra validez que su sello
line-other-counts = su línea cuenta otras deficiencias que su sello
line-other-tag = su línea nombra otra etiqueta que su registro
sealed-by-no-inspector = lo selló { $name }, que no es inspector
sealed-after-run-out = la credencial de { $name } había vencido cuando se selló
walked-and-sealed = inspeccionó { $walked } y selló { $sealed }
counts-differ = su sello cuenta { $found ->
    [one] { $found } hallada
   *[other] { $found } halladas
} y { $corrected ->
    [one] { $corrected } corregida
   *[other] { $corrected } corregidas
}, y su inspección { $walked_found } y { $walked_corrected }
own-journal-otherwise = el diario de este dispositivo tiene otro asiento { $seq } que el registro
own-journal-lost = el diario de este dispositivo ha perdido su asiento { $seq }
another-text-approved = se inspeccionó según otro texto que el que { $authority } aprueba como procedimiento { $procedure } versión { $version }, hecho para parecérsele
record-alone = registro { $record }: { $what }

## Lo que se halló entre registros, diarios y lo que de ellos se supo

finding-missing = falta el registro { $record }: el dispositivo { $device } lo selló antes del registro { $next }; pida el lote de ese dispositivo
finding-seal-alone = del registro { $record }, sellado por el dispositivo { $device } antes del registro { $next }, solo está aquí el sello
finding-head-otherwise = dispositivo { $device }: el registro { $by } contó el asiento { $seq } de su diario de otro modo que el registro { $other }; fue copiado o su diario, reescrito
finding-hint-otherwise = un encabezado que nadie firmó cuenta el asiento { $seq } del dispositivo { $device } de otro modo que el registro { $other }: se manipuló el lote o se copió el dispositivo; pida el lote de ese dispositivo
finding-forked = el diario del dispositivo { $device } tiene dos asientos { $seq }: el dispositivo se bifurcó
finding-unlinked = el asiento { $seq } del dispositivo { $device } no sigue al asiento { $before }
finding-journal-otherwise = el registro { $by } cuenta el asiento { $seq } del dispositivo { $device } de otro modo que el diario que se guarda aquí
finding-between = registro { $by }: los asientos { $first } a { $last } del dispositivo { $device } cayeron entre los suyos y no están en ningún registro de aquí: una inspección sin sellar, o algo omitido; pida los datos de ese dispositivo

## Paquetes de procedimientos

pack-error-empty = no hay procedimiento que empaquetar; nombre algunos, o haga que la autoridad los apruebe
pack-error-too-many = { $count } procedimientos son demasiados para un paquete de { $most }; haga varios
pack-error-too-long = estos procedimientos son demasiado largos para un paquete; haga varios
pack-error-damaged = el paquete está dañado; pídalo otra vez al remitente
pack-error-bomb = el paquete se infla a más de { $most } octetos, lo que no hace ninguno; no es de este programa
audit-stopped = la revisión se detuvo: no se dice nada de este directorio
