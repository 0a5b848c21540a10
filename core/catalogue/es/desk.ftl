### Lo que dicen y piden las órdenes del programa de escritorio. No lo ha leído todavía ningún eslingador.

name-place-can-written = { $path }: { $plain }; nombre un sitio donde se pueda escribir
link-name-file-leads = { $path } es un enlace; nombre el archivo al que lleva
folder-name-file = { $path } es una carpeta; nombre un archivo
full-files-named-name-another = { $folder } está llena de archivos { $name }; nombre otra carpeta
standard-input-give-again = entrada estándar: { $plain }; délo otra vez
name-file-can-read = { $path }: { $plain }; nombre un archivo que se pueda leer
bytes-more-than-any-code = { $path } tiene { $size } bytes, más que cualquier código o imagen; nombre otro archivo
no-text-name-text-file = { $path } no es texto; nombre un archivo de texto en UTF-8
no-home-known-name-one = no se conoce carpeta; nombre una con --home CARPETA
choose-home-can-written-home = { $home }: { $plain }; elija con --home una carpeta donde se pueda escribir
mend-rights-home = { $path }: { $plain }; corrija los permisos de la carpeta
damaged-restore-from-where-home = { $path } está dañado; restáurelo de donde se copió la carpeta
pin = PIN
new-pin = PIN nuevo
passphrase = frase de paso
secret-again = { $what } otra vez:{" "}
no-terminal-ask-set = no hay terminal donde pedir: { $what }; ponga { $variable }
terminal-cannot-read-try-another = no se puede leer el terminal: { $plain }; pruebe con otro
two-differ-try-again = los dos difieren; pruebe otra vez

## Lo que se recibió

known-already-older-than-what = {" "}(ya se conocía, o es anterior a lo de aquí)
trusted-already = Aquí ya se confía en { $name } ({ $fingerprint }).
card-not-trusted-yet-have = Tarjeta de { $name }: todavía NO es de confianza. Que le lean su huella desde el dispositivo de la autoridad y después: slingseal authority trust TARJETA
key-request-fingerprint-authority-answers-b = Petición de clave de { $holder }, huella { $fingerprint }. La atiende una autoridad con: slingseal authority issue PETICIÓN --roles … --expires …
own-credential-until = Credencial de este dispositivo: { $holder } ({ $roles }), hasta { $until }.
others-credential-until = Credencial de otro: { $holder } ({ $roles }), hasta { $until }.
credential-is-revoked = { $credential } REVOCADA: nada firmado con ella cuenta.
credential-has-run-out = { $credential } CADUCADA.
roster-revoked = { $approved ->
    [one] Lista { $sequence } de { $authority }, { $revoked } revocados, 1 procedimiento aprobado{ $newness }.
   *[other] Lista { $sequence } de { $authority }, { $revoked } revocados, { $approved } procedimientos aprobados{ $newness }.
}
tag-load = Etiqueta de la carga { $load }: { $description }, { $gross } para { $aircraft }.
seal = Sello de { $word }: { $first }.
load-training-no-inspection = { $what } ({ $id }) de { $by } con la carga { $load }: instrucción, no inspección{ $newness }.
piece-fit-until = Inspección de { $name } por { $by }: apta hasta { $until }{ $newness }.
piece-fit = Inspección de { $name } por { $by }: apta{ $newness }.
piece-not-fit = Inspección de { $name } por { $by }: no apta; una pieza de material queda retirada{ $newness }.
voided-seal-load = { $by } anuló el sello de la carga { $load }: { $cause }{ $newness }.

## Un veredicto

nobody-trusted = nadie en quien se confíe aquí
load-procedure = {"  "}Carga { $load }   { $mass }   procedimiento { $procedure }
sealed-holds-until = {"  "}Sellado por { $who }{ $authority } { $at }, vale hasta { $until }
sealed-by = {"  "}Sellado por { $who }{ $authority } { $at }
check-of-seal = {"  "}Comprobación del sello { $check }
check-of-tag = {"  "}Comprobación de la etiqueta { $check }
tag-allowed = {"  "}Etiqueta: { $description }, para { $aircraft } (admite { $allowable })
shown-together-load = {"  "}Mostrado junto: carga { $load }, { $word }: { $first }
piece-is-withdrawn = La pieza { $name } queda retirada por { $by } { $at }: da este código a cada dispositivo de la zona.
