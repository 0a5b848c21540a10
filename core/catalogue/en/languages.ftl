# What the language's own speakers call it.
language-name = English
language-unknown = there is no language "{ $asked }" here; say one of { $known }
