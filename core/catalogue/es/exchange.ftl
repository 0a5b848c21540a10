### El lugar común de las cuentas: un servidor al que muchos puestos envían y del que toman.

exchange-address = la dirección no se puede leer; escriba postgresql://USUARIO@SERVIDOR/BASE, con un solo servidor
exchange-needs-certificate = a un servidor en la red se llega solo por TLS; indique con --ca ARCHIVO.pem el certificado que firmó el suyo
exchange-certificate-file = { $file } no contiene ningún certificado utilizable; dé uno en PEM
exchange-unreachable = no se llega al servidor ({ $why }); no se ha perdido nada: inténtelo de nuevo
exchange-certificate = el servidor no es el que su certificado debería nombrar ({ $why }); pregunte a quien lo lleva
exchange-login = el servidor rechaza este usuario ({ $why }); pida a quien lo lleva un usuario con el papel slingseal_desk
exchange-not-set-up = en esa base de datos aún no hay lugar común; quien lleva el servidor ejecuta antes allí account server-sql
exchange-too-new = el servidor lo preparó un programa más nuevo (paso { $found }, este conoce { $known }); actualice este programa
exchange-slow = el servidor no contesta, o demasiado despacio; no se ha perdido nada: inténtelo de nuevo
exchange-strange = el servidor no se atiene a lo debido: { $what }; nada de eso se ha tomado: pregunte a quien lo lleva
exchange-cannot-be-read = lo que dice no se puede leer
exchange-too-long = envía un mensaje más largo que cualquier palabra
exchange-endless = envía más de lo que se pidió
exchange-out-of-order = envía palabras fuera de su orden
exchange-other-columns = sus tablas no son como se prepararon
exchange-numbers-spent = los números de este puesto están gastados, y solo otro puede haberlo hecho
exchange-in-vain = { $count ->
    [one] una palabra del servidor no vale aquí
   *[other] { $count } palabras del servidor no valen aquí
}, y pocas valen; confíe primero en las autoridades de esta operación, o pregunte a quien lo lleva: la próxima vez se sigue tras ellas
exchange-server = el servidor no pudo hacerlo ({ $why }); no se ha perdido nada: inténtelo de nuevo, o pregunte a quien lo lleva
exchange-too-many-desks = el servidor nombra más puestos de los que se distinguen (10.000); no se lleva como se debe: pregunte a quien lo lleva
exchange-pushed = { $words ->
    [one] Enviada { $words } palabra
   *[other] Enviadas { $words } palabras
}; { $there } ya { $there ->
    [one] estaba
   *[other] estaban
}.
exchange-left-out = { $count ->
    [one] Una palabra es demasiado larga para viajar y se queda aquí.
   *[other] { $count } palabras son demasiado largas para viajar y se quedan aquí.
}
exchange-waiting = otro puesto está enviando ahora mismo { $count } de esas palabras; envíe de nuevo para estar seguro.
exchange-pulled = { $new ->
    [one] Tomada { $new } palabra nueva
   *[other] Tomadas { $new } palabras nuevas
} de { $seen ->
    [one] { $seen } mirada
   *[other] { $seen } miradas
}.
exchange-set-aside = { $count ->
    [one] Una palabra quedó apartada, con su motivo; records aside la muestra.
   *[other] { $count } palabras quedaron apartadas, cada una con su motivo; records aside las muestra.
}
exchange-spoiled = { $count ->
    [one] Una palabra del servidor no es lo que debería; quien lo lleva la borra, y después se envía de nuevo desde un puesto que la tenga.
   *[other] { $count } palabras del servidor no son lo que deberían; quien lo lleva las borra, y después se envían de nuevo desde un puesto que las tenga.
}
exchange-newer = { $count ->
    [one] Una palabra es de una clase que este programa no conoce; actualícelo y tome de nuevo.
   *[other] { $count } palabras son de clases que este programa no conoce; actualícelo y tome de nuevo.
}
exchange-gone = { $count ->
    [one] Una palabra que estuvo en el servidor ya no está; envíe desde los puestos que la tienen.
   *[other] { $count } palabras que estuvieron en el servidor ya no están; envíe desde los puestos que las tienen.
}
exchange-anew = El servidor volvió a un estado anterior; las palabras de { $count ->
    [one] un puesto
   *[other] { $count } puestos
} se leyeron otra vez desde el principio.
exchange-following = Siguiendo al servidor; se para con Ctrl-C.
exchange-away = { $why }; se le espera.
exchange-back = El servidor ha vuelto.
exchange-progress = { $count ->
    [one] { $count } palabra
   *[other] { $count } palabras
}
