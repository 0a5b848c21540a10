### No lo ha leído todavía ningún eslingador.

## Motivos

reason-unreadable = No se puede leer el código: { $why }
reason-no-inspection-known = Aquí no consta ninguna inspección de esta carga. Escanee el sello.
reason-bad-signature = El sello es falso o fue alterado. No levante la carga y avise al jefe.
reason-unknown-authority = El sello es de una autoridad en la que este dispositivo no confía.
reason-not-an-inspector = { $who } firmó y no es inspector.
reason-credential-expired = La credencial de { $inspector } había caducado ({ $expired }).
reason-revoked = La autoridad revocó la credencial de { $who }.
reason-not-fit = El inspector halló la carga NO apta.
reason-open-deficiency = { $count ->
    [one] El sello deja 1 deficiencia sin corregir. Inspeccione otra vez.
   *[other] El sello deja { $count } deficiencias sin corregir. Inspeccione otra vez.
}
reason-expired = El sello caducó a las { $at }. Inspeccione otra vez.
reason-valid-too-long = El sello pretende valer más de lo permitido ({ $most }).
reason-other-load = El sello es de la carga { $sealed }; esta es la { $tag }.
reason-tag-changed = La etiqueta no es la que se inspeccionó. Inspeccione otra vez.
reason-procedure-not-ordered = La etiqueta ordena el procedimiento { $ordered }; se usó { $walked }. Inspeccione otra vez por el ordenado.
reason-tag-forged = La etiqueta de la carga es falsa o fue alterada.
reason-own-work = { $who } eslingó esta carga y no puede inspeccionarla.
reason-newer-fit = Hay una inspección más nueva ({ $at }). Escanee ese sello.
reason-newer-not-fit = Una inspección más nueva halló la carga NO apta ({ $at }).
reason-voided = { $by } anuló el sello a las { $at }: { $cause }.
reason-voided-said = { $by } anuló el sello a las { $at }: { $note }
reason-roster-too-old = La lista de { $authority } está vencida desde { $since }. Consiga una nueva.
reason-no-roster = Falta la lista de { $authority }. Consígala: puede haber revocados.
reason-from-the-future = El sello está { $ahead } por delante de este reloj. Revise ambos.
reason-clock-behind-itself = Este reloj va atrasado: el dispositivo ya estuvo a las { $time }. Ajústelo.
reason-clock-behind = Este reloj va atrasado: { $by } firmó a las { $time }. Ajústelo.
reason-copy-out-of-date = Esta página valía hasta { $until }. Pida un archivo nuevo al jefe.
reason-memory-put-back = Se repuso una copia anterior de la memoria de este dispositivo ({ $since }). Reciba una lista posterior de cada autoridad.
reason-procedure-not-approved = { $authority } no aprobó el procedimiento { $procedure } versión { $version }. Reciba una lista nueva o inspeccione por uno aprobado.
reason-nothing-approved = { $authority } no aprobó ningún procedimiento; se usó { $procedure } versión { $version }. Reciba una lista nueva.
reason-procedure-withdrawn = { $authority } retiró el procedimiento { $procedure } versión { $version } ({ $since }). Inspeccione por uno aprobado.
reason-tag-unsigned = Ningún planificador firmó la etiqueta. Confirme peso y aeronave con el jefe.
reason-tag-planner-unknown = No se conoce al planificador de la etiqueta. Confirme peso y aeronave.
reason-planner-expired = La credencial de { $planner }, que planificó, caducó ({ $expired }). Haga firmar la etiqueta de nuevo.
reason-equipment-rated-below = { $kind } { $serial } admite { $rating } y la carga pesa { $gross }. Eslinge de nuevo.
reason-equipment-overdue = { $kind } { $serial }: su revisión vencía el { $since }. Revíselo o cámbielo.
reason-equipment-withdrawn = { $kind } { $serial } fue retirado el { $at }: { $why }. Tome otra pieza; eslinge e inspeccione de nuevo.
reason-equipment-list-not-approved = { $kind } { $serial } se halló apto según el procedimiento { $procedure } versión { $version }, que { $authority } no aprueba. Revíselo según uno aprobado.
reason-rigger-not-known = Aquí no consta quién eslingó la carga. Compruebe que la inspeccionó otra persona.
reason-examination-key = Es una clave de examen: instrucción y no inspección. En esa carga hay deficiencias puestas.
reason-examination-result = Es un resultado de examen: instrucción y no inspección. No dice nada de una carga.
reason-tag-not-seen = Etiqueta sin escanear. El sello es solo de la carga { $load }: compare.
reason-mass-over-allowable = La carga pesa { $mass }; la aeronave admite { $allowable }.
reason-corrected = { $count ->
    [one] Se halló y corrigió 1 deficiencia.
   *[other] Se hallaron y corrigieron { $count } deficiencias.
}
reason-expires-soon = El sello caduca en { $left }.

## Por qué se anuló un sello

void-rigging-disturbed = se tocó el eslingado
void-load-moved = se movió la carga
void-hookup-aborted = se interrumpió un enganche
void-equipment-withdrawn = se retiró material de la carga
void-other = otro motivo, véase la nota

## El veredicto, hablado

spoken-go = Apta. Puede engancharse. { $first }
spoken-wait = Espere. No enganche todavía. { $first }
spoken-no-go = No levante la carga. { $first }
verdict-inspected-by = Carga { $load } inspeccionada por { $who }, { $at }.

## Lo que hiere a la gente bajo una aeronave en estacionario.

caution-static = Ponga a tierra el gancho antes de tocarlo: estática de hasta 40 000 V.
caution-obstacle = Nunca se ponga entre la carga y un obstáculo. Tenga clara su salida.
caution-manual = Esto ayuda al equipo de enganche; mandan el manual vigente y la tripulación.
caution-persons = Nadie viaja en esta carga ni cuelga de ella: aquí no hay procedimiento para personas.

## En qué estado está una carga

state-planned = Planificada
state-walking = En inspección
state-fit = Apta
state-waits = Espere
state-not-fit = No apta
state-refused = Rechazada
state-expired = Caducada
state-voided = Anulada
state-lifted = Levantada
state-set-down = Depositada
state-lost = Perdida

## Nada que juzgar

nothing-scanned-scan-seal-tag = no se escaneó nada; escanee el sello o la etiqueta

## Funciones de una credencial

role-inspector = inspector
role-planner = planificador
role-hookup = enganche
role-leader = jefe
role-instructor = instructor
