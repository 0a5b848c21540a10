## Terms that every file of this language may use.

-program = Slingseal
