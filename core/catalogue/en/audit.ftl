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
bytes-damaged = { $length ->
    [one] { $length } byte is damaged
   *[other] { $length } bytes are damaged
}; ask the sender for the bundle again
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

## What is wrong with a record, its line, its journal

entry-out-of-order = entry { $seq } is out of order
journal-ends-early = its journal ends before its last entry
entry-changed = entry { $next } of it does not follow entry { $seq }: an entry was changed
entry-told-otherwise = entry { $seq } of its device is told in another way by record { $by }: the device was copied or its journal rewritten
sealed-twice-after = it and record { $other } were both sealed next after record { $before } by one device: the device was copied
sealed-twice-first = it and record { $other } were both sealed as the first by one device: the device was copied
line-other-record = its seal is of another record
line-other-seal = its seal is another one
line-other-load = its line names another load than its seal
line-other-outcome = its line tells another outcome than its seal
line-other-inspector = its line names another inspector than its seal
line-other-procedure = its line names another procedure than its seal
line-other-time = its line tells another time than its seal
line-other-validity = its line tells another validity than its seal
line-other-counts = its line counts other deficiencies than its seal
line-other-tag = its line names another tag than its record
sealed-by-no-inspector = { $name } sealed it and is no inspector
sealed-after-run-out = the credential of { $name } had run out when it was sealed
walked-and-sealed = { $walked } walked and { $sealed } sealed
counts-differ = its seal counts { $found } found and { $corrected } corrected, and its walk { $walked_found } and { $walked_corrected }
own-journal-otherwise = this device's journal has another entry { $seq } than the record
own-journal-lost = this device's journal has lost entry { $seq } of it
another-text-approved = it was walked by another text than { $authority } approves as procedure { $procedure } version { $version }, made to look like it
record-alone = record { $record }: { $what }

## What was found between records, journals and what was heard of them

finding-missing = record { $record } is missing: device { $device } sealed it before record { $next }; ask for that device's bundle
finding-seal-alone = of record { $record }, sealed by device { $device } before record { $next }, only the seal is here
finding-head-otherwise = device { $device }: record { $by } told entry { $seq } of its journal otherwise than record { $other }; it was copied or its journal rewritten
finding-hint-otherwise = a head that nobody signed tells entry { $seq } of device { $device } otherwise than record { $other }: the bundle was tampered with, or the device copied; ask for that device's bundle
finding-forked = the journal of device { $device } has two entries { $seq }: the device was forked
finding-unlinked = entry { $seq } of device { $device } does not follow entry { $before }
finding-journal-otherwise = record { $by } tells entry { $seq } of device { $device } otherwise than the journal that is kept here
finding-between = record { $by }: entries { $first } to { $last } of device { $device } came between its own and are in no record here: a walk that was not sealed, or something left out; ask for that device's home

## Packs of procedures

pack-error-empty = there is no procedure to pack; name some, or have the authority approve them
pack-error-too-many = { $count } procedures are too many for one pack of { $most }; make several
pack-error-too-long = these procedures are too long for one pack; make several
pack-error-damaged = the pack is damaged; ask the sender for it again
pack-error-bomb = the pack inflates to more than { $most } bytes, which no pack does; it is not from this program
audit-stopped = the audit was stopped: nothing is said of this home
