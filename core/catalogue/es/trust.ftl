### En quién confía este dispositivo. No lo ha leído todavía ningún eslingador.

credential-good = en vigor
credential-runs-out-soon = caduca pronto
credential-expired = caducada
credential-revoked = revocada
