### Una respuesta por línea. No lo ha leído todavía ningún eslingador.

standard-input-not-text = entrada estándar: { $plain }; dé líneas en UTF-8
no-load-in-hand = no hay carga en curso; nombre una etiqueta
several-loads-in-hand = hay varias cargas en curso: { $loads }; nombre una con --walk
only-an-examination-ends = solo un examen se termina; decida con fit o notfit
value-missing = falta el valor; escriba value PUNTO VALOR
reason-missing = falta el motivo; escriba na PUNTO MOTIVO
nothing-to-undo = no hay nada que deshacer; siga
again-good-or-bad = escriba again N good, o again N bad
examination-gives-no-seal = de un examen no sale sello; termínelo
not-an-answer = "{ $other }" no es una respuesta; vea slingseal inspect --help
at-no-card = la inspección no está en ninguna tarjeta; vea next=
card-has-no-such-point = la tarjeta { $card } no tiene el punto "{ $which }"; nombre del 1 al { $last }, o un id
no-pin-to-seal-with = no hay PIN para sellar; ponga SLINGSEAL_PIN o escriba una línea pin PIN
not-a-deficiency-of = "{ $text }" no es deficiencia de { $point }; use su número, other con una nota, o: { $names }
not-a-number = "{ $text }" no es un número; escriba { $form }
standard-output-failed = salida estándar: { $plain }; la inspección queda como está
rigger-may-not-practise = { $rigger } eslingó la carga de práctica y nadie inspecciona lo que armó; tome otro distintivo
