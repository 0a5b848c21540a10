### The demo's story.

demo-folder-not-used = { $folder }: { $plain }; choose another folder with --out DIR
demo-folder-is-others = { $folder } holds something else than a demo; choose another folder with --out DIR
the-sela-is-over-its-banks = The Sela is over its banks. At Kestrel Meadow a relief team hangs loads under helicopters.
names-are-invented = Names, units and aircraft are invented; every rating is an example.
chapter-trust = 1  Trust
desk-becomes-authority = The desk becomes the authority "{ $name }", fingerprint { $fingerprint }.
roster-names-lists = Its roster names the lists that count: { $lists }. What is walked by any other says WAIT. These are a start and no manual.
phone-trusts-card = { $whose }'s phone scans the card, compares the fingerprint by voice, and trusts it.
hook-has-no-key = Thistle 7 at the hook has no key at all, and has never met Anvil 3.
chapter-tag = 2  The tag
tag-told = Load { $load }: { $description }, { $gross } under a { $aircraft } that is allowed { $allowable }. The tag is a code of { $bytes } bytes, signed by { $by }.
how-it-hangs = How it hangs: { $summary }.
chapter-inspection = 4  The inspection
anvil-scans-the-tag = Anvil 3 scans the tag from its picture and inspects by "{ $title }": { $cards } cards, { $points } points, both hands on the load.
decides-fit = Every card is answered and nothing is open. Anvil 3 decides: fit.
chapter-seal = 5  The seal
anvil-signs = Anvil 3 signs with the PIN. The seal is QR version { $version }; it holds until { $until } and names the record { $record }….
chapter-hook = 6  At the hook
thistle-scans = Thistle 7 scans seal and tag:
read-aloud = Read aloud before the aircraft is called: "{ $title }", { $points } points.
one-letter-changed = Someone changes one letter of the code:
stranger-seals = A stranger makes an authority of the same name and seals the load:
seal-carried-over = The good seal is carried to another load:
chapter-account = 7  The account
chapter-left = What is left
what-is-left = { $folder }: the homes desk, inspector and hookup, the pictures, the record and this story.
pin-and-passphrase = Everyone's PIN 417293 and the authority's passphrase "{ $passphrase }" hold in this demo alone.
try-this = Try: { $command }
leader-signs-page = { $leader } signs hook.html for strangers' phones and says { $groups }; it holds until { $until }.
chapter-morning = 3  The morning
listed-nothing-open = { $name }: { $points } points of "{ $title }", nothing open.
piece-fit-until = Piece { $piece } is fit until { $until }, signed by { $by }: it travels with the bundle, and what was withdrawn would too.
is-credentialed = { $holder } is credentialed as { $roles } until { $until }.
card-deficient = Card { $card }, "{ $title }": DEFICIENT.
mason-corrects = Mason 5 corrects finding { $finding }; Anvil 3 reinspects: good. Both stay on the record.
packs-the-day = { $records ->
    [one] Anvil 3 packs the day in a bundle: 1 record, { $bytes } bytes, or { $frames } frames of a moving code.
   *[other] Anvil 3 packs the day in a bundle: { $records } records, { $bytes } bytes, or { $frames } frames of a moving code.
}
desk-takes-it-in = The desk takes it in: { $new } new; the same bundle again: { $again } new.
account-goes-out = { $rows ->
    [one] The account goes out as account.csv and account.json: 1 record.
   *[other] The account goes out as account.csv and account.json: { $rows } records.
}
record-tells-moments = The record tells { $moments } moments; { $entries } journal entries and every signature hold.
chapter-day = 8  A day of twelve loads
day-begins = Twelve loads more, and three devices that never meet: Anvil 4's, the hook's, one at Alder Bridge. The last two have no key.
day-inspected = Anvil 4 inspects and seals { $count ->
    [one] one load
   *[other] { $count } loads
}.
day-at-hook = At the hook one is refused for its rigging, one WAITs, since nobody signed its tag, and is lifted all the same, one is lost on its way.
day-at-destination = At Alder Bridge each is set down and derigged. One is lifted again without an inspection, against { $verdict } Two sling sets stay there.
day-does-not-add-up = Three bundles reach two desks, each in another order. Both say the same { $points ->
    [one] one point
   *[other] { $points } points
} and nothing else:
day-explained = asked, and answered
day-signed = { $leader } says what became of each and signs the closing, check { $check }.
day-manifest = The day's manifest goes out as manifest.pdf and manifest.csv, in the order of lifting that the leader set.
day-name = Kestrel Meadow
day-went-otherwise = the demo's day went otherwise: { $what }
