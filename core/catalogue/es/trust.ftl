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
ready-seals-nothing = Listo como { $roles }. No sella cargas: debe hacerlo un inspector.
step-scan-card = Escanee la tarjeta de una autoridad y compare su huella de viva voz.
step-make-key = Para inspeccionar: cree una clave con PIN. Para confirmar sellos: listo.
step-revoked = La autoridad revocó la credencial de este dispositivo: no sella nada. Cree otra clave y muestre la solicitud.
step-run-out = La credencial caducó. Muestre la solicitud a la autoridad y escanee la nueva.
step-show-request = Muestre la solicitud a la autoridad y escanee la credencial.
step-get-roster = Consiga una lista nueva de la autoridad.

## La clave de una autoridad en dos partes

copy-no-part = esto no es parte de la copia de una autoridad, o una letra está mal; escanéela o escríbala de nuevo
copy-row = la fila { $row } no es como se anotó; compare cada una de sus letras
copy-part-twice = es la misma parte dos veces; falta la otra
copy-other-pair = son partes de dos copias; busque la que se hizo con esta
copy-damaged = las dos partes no dan una copia; escanee o escriba ambas de nuevo
copy-wrong-passphrase = la frase de paso está mal; escriba la frase con que se creó la autoridad
copy-needs-card = escanee primero la tarjeta de la autoridad y compare su huella: esta copia es de una autoridad que aquí no goza de confianza
copy-needs-roster = la lista más nueva aquí es la número { $here }, y al hacer la copia ya se había firmado la número { $made }; recoja antes lo de todos los teléfonos del equipo
