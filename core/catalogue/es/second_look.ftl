### La segunda mirada: cuántas deficiencias no encontró nadie.

looks-nothing = Ninguna de las dos miradas encontró nada: eso no dice nada de lo que se pasó por alto.
looks-bounded = Se encontraron { $found }; en total había unas { $in_all }, y con un 95 % de confianza de { $low } a { $high }.
looks-unbounded = Se encontraron { $found }, y ninguna por ambos; en total había unas { $in_all }, y al menos { $low }: sin nada en común no hay límite superior.
assumes-more = { $pairs ->
    [one] un par es poco
   *[other] { $pairs } pares son pocos
}: desde { $few } los números empiezan a decir algo.
assumes-independent = El segundo miró sin saber lo que había encontrado el primero. Quien lo sabe mira mejor allí, y parece que se pasa por alto menos.
assumes-alike = Cada deficiencia es tan fácil de encontrar como otra. Lo que es difícil de ver para todos lo pasan por alto los dos, y entonces se pasa por alto más de lo que aquí se dice.
assumes-same = Nada cambió entre las dos miradas. Lo que el primero corrigió no se cuenta; miradas con más de doce horas entre ellas no son un par.
assumes-drawn = Las cargas se sortearon y no se eligieron: account second-look --draw N las sortea.
second-look-title = La segunda mirada: lo que no encontró nadie
second-look-pairs = { $pairs ->
    [one] { $pairs } par
   *[other] { $pairs } pares
} de inspecciones de una carga por dos personas.
second-look-points = Por punto
second-look-inspectors = Por inspector: de lo que encontró el otro
second-look-share = { $inspector }: { $found } de { $of }, { $percent } % (de { $low } a { $high })
second-look-assumes = Lo que esto da por cierto
second-look-source = Estimación de Chapman (1951) con el intervalo hipergeométrico exacto.
second-look-drawn = Pídalo a alguien distinto de quien miró primero, y no le diga lo que se encontró:
second-look-draw-line = { $load }, mirada por { $inspector } { $issued }, lista { $procedure }
second-look-none = Aquí no hay ninguna carga inspeccionada que no se haya izado desde entonces.
