### What an audit and a merge find.

record-of-load = record { $record } (load { $load })
own-journal = this device's journal: { $fault }
strays-kept = { $strays } things ({ $size } MiB) are kept that nobody signed and no record names; of more than { $most } things or { $most_size } MiB the oldest gives way
authority-key-wrong = the key of the authority { $name } cannot be one
authority-not-of-card = the authority { $name } is not the one on its card
authority-card-wrong = the card of the authority { $name }: { $error }
roster-other-number = the roster of { $name } has another number than its row
roster-wrong = the roster of { $name }: { $error }
sealed-is-missing = record { $record }, sealed here { $at } (journal entry { $seq }), is missing
sealed-lost-walk = record { $record }, sealed here { $at } (journal entry { $seq }), has lost its walk
walk-of-load = the walk of load { $load }: { $error }
kept-as-evidence = { $record }: { $what }; it is kept as evidence and is no inspection
line-says-otherwise = { $record }: its line says { $kept }, and by what is known here it is { $is }
without-inspection = without an inspection
state-by-seal = { $state } by seal { $seal }
load-says-otherwise = load { $load }: the account says { $kept }, and by what is known here it is { $is }
journal-of-device = the journal of device { $device }: { $fault }
void-of-load = the void { $void } of load { $load }
thing-wrong = { $what }: { $error }
row-otherwise = { $what }: its row says otherwise than its bytes
credential-wrong = the credential { $id } of { $holder }: { $error }
tag-of-load = the tag of load { $load }

## What a bundle brought

tags-go-by-file = tags that nobody signed and no seal names: they go by bundle file
after-item = after item { $after }, byte { $at }
bytes-damaged = { $length } bytes are damaged; ask the sender for the bundle again
own-journal-gone = another device knows more of this one's journal than is here: this home was copied or put back to an older state; find out when
own-journal-hint = a head that nobody signed says more of this device's journal than is here: if this home was not copied or put back to an older state, the bundle was tampered with
item-numbered = item { $number }
and-more = and { $count } more
item-procedure = item { $number }, procedure { $at } of { $of }
journal-in-two-ways = the journal of device { $device } is told in two ways at entry { $seq }: it was copied or rewritten; run the audit
and-after-that = and after that
more-not-kept = { $count } more, neither listed nor kept; ask the sender for the bundle again
stray-tags = unsigned tags: { $count }
stray-photos = photographs: { $count }
stray-procedures = texts of procedures: { $count }
stray-sheets = examination sheets: { $count }
strays-gave-way = more came than is kept of what nobody signed and no record names; the oldest gave way ({ $which }): ask for them again together with the records that name them
trusted-key-damaged = a trusted key is damaged; add its authority again
older-copy-put-back = an older copy of this home was put back, or part of what it had received is gone; verdicts say WAIT until a roster issued after { $since } has come from every authority that is trusted here
seal-is-damaged = the seal is damaged; sync from another device
