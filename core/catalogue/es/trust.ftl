### En quién confía este dispositivo. No lo ha leído todavía ningún eslingador.

credential-good = en vigor
credential-runs-out-soon = caduca pronto
credential-expired = caducada
credential-revoked = revocada
own-credential-runs-out = la credencial de { $holder } caduca a las { $at }; muestre la solicitud de clave a la autoridad para la siguiente: key request
own-credential-ran-out = la credencial de { $holder } caducó a las { $at }; muestre la solicitud de clave a la autoridad para la siguiente: key request
this-authority = esta autoridad
no-procedure-approved = no hay ningún procedimiento aprobado: aquí todo sello dice WAIT hasta que authority approve nombre las listas que cuentan
issued-credential-runs-out = la credencial de { $holder } ({ $roles }) caduca a las { $at }; expida una nueva
roster-ran-out = la lista de { $whose } caducó a las { $at }; consígala firmada de nuevo
roster-runs-out = la lista de { $whose } caduca a las { $at }; consígala firmada de nuevo

## Los pasos hasta un dispositivo que puede sellar

own-credential-revoked = la credencial de { $holder } fue revocada por la lista { $roster } de { $authority }
not-trusted-here = aquí no se confía en ella
ready = Listo.
step-scan-card = Escanee la tarjeta de una autoridad y compare su huella de viva voz.
step-make-key = Para inspeccionar: cree una clave con PIN. Para confirmar sellos: listo.
step-revoked = La autoridad revocó la credencial de este dispositivo: no sella nada. Cree otra clave y muestre la solicitud.
step-run-out = La credencial caducó. Muestre la solicitud a la autoridad y escanee la nueva.
step-not-inspector = La credencial no es de inspector: no sella cargas. Debe hacerlo un inspector.
step-show-request = Muestre la solicitud a la autoridad y escanee la credencial.
step-get-roster = Consiga una lista nueva de la autoridad.
