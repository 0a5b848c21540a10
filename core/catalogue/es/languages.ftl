# What the language's own speakers call it.
language-name = Español
language-unknown = aquí no hay idioma «{ $asked }»; diga uno de { $known }
