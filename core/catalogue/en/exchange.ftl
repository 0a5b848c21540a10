### The account's common place: a server that many desks push to and pull from.

exchange-address = the address cannot be read; write postgresql://LOGIN@HOST/DATABASE, with one host
exchange-needs-certificate = a server by network is reached by TLS alone; name the certificate that signed its own with --ca FILE.pem
exchange-certificate-file = { $file } holds no certificate that can be used; give one in PEM
exchange-unreachable = the server cannot be reached ({ $why }); nothing is lost: try again
exchange-certificate = the server is not the one that its certificate should name ({ $why }); ask who keeps it
exchange-login = the server refuses this login ({ $why }); ask who keeps it for a login of the role slingseal_desk
exchange-not-set-up = there is no common place in that database yet; whoever keeps the server runs account server-sql there first
exchange-too-new = the server was set up by a newer program (step { $found }, this one knows { $known }); bring this program up to date
exchange-slow = the server does not answer, or too slowly; nothing is lost: try again
exchange-strange = the server does not keep to what it should: { $what }; nothing of that was taken in: ask who keeps it
exchange-cannot-be-read = what it says cannot be read
exchange-too-long = it sends a message longer than any word
exchange-endless = it sends more than was asked for
exchange-out-of-order = it sends words out of their order
exchange-other-columns = its tables are not as they were set up
exchange-numbers-spent = the numbers of this desk are spent, which only somebody else can have done
exchange-in-vain = { $count ->
    [one] one word of the server is no good here
   *[other] { $count } words of the server are no good here
}, and few are; trust the authorities of this operation first, or ask who keeps it: the next pull goes on behind them
exchange-server = the server could not do it ({ $why }); nothing is lost: try again, or ask who keeps it
exchange-too-many-desks = the server names more desks than are kept apart (10,000); it is not kept as it should be: ask who keeps it
exchange-pushed = Pushed { $words ->
    [one] { $words } word
   *[other] { $words } words
}; { $there } { $there ->
    [one] was
   *[other] were
} there already.
exchange-left-out = { $count ->
    [one] One word is too long to travel and stays here.
   *[other] { $count } words are too long to travel and stay here.
}
exchange-waiting = { $count ->
    [one] One word is being put there by another desk just now; push again to be sure of it.
   *[other] { $count } words are being put there by another desk just now; push again to be sure of them.
}
exchange-pulled = Pulled { $new ->
    [one] { $new } new word
   *[other] { $new } new words
} of { $seen } that { $seen ->
    [one] was
   *[other] were
} looked at.
exchange-set-aside = { $count ->
    [one] One word was set aside, with its reason; records aside shows it.
   *[other] { $count } words were set aside, each with its reason; records aside shows them.
}
exchange-spoiled = { $count ->
    [one] One word of the server is not what it should be; whoever keeps it deletes it, then push again from a desk that has it.
   *[other] { $count } words of the server are not what they should be; whoever keeps it deletes them, then push again from a desk that has them.
}
exchange-newer = { $count ->
    [one] One word is of a kind that this program does not know; bring it up to date, then pull again.
   *[other] { $count } words are of kinds that this program does not know; bring it up to date, then pull again.
}
exchange-gone = { $count ->
    [one] One word is gone from the server that was there once; push from the desks that have it.
   *[other] { $count } words are gone from the server that were there once; push from the desks that have them.
}
exchange-anew = The server was put back to an older state; the words of { $count ->
    [one] one desk
   *[other] { $count } desks
} were read again from the beginning.
exchange-following = Following the server; stop with Ctrl-C.
exchange-away = { $why }; waiting for it.
exchange-back = The server is back.
exchange-progress = { $count ->
    [one] { $count } word
   *[other] { $count } words
}
