### Whom this device trusts, and how papers stand.

credential-good = good
credential-runs-out-soon = runs out soon
credential-expired = expired
credential-revoked = revoked
