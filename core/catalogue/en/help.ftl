### The command line's own help: verbs, arguments, exit codes.

program = Inspect, seal and account for helicopter sling loads, without a network.
program-more = It assists a qualified inspector; it never certifies by itself. The governing manual rules.

## Exit codes and what goes for every verb

exit-codes = Exit codes:
exit-done = done; GO; rigging within limits
exit-refused = refused, or bad input: one line on standard error says what to do
exit-usage = a command line that cannot be read
exit-wait = WAIT; rigging that is over by the rule that its file names, though not at rest
exit-no-go = NO-GO; rigging over a limit, or not hanging
exit-reader-gone = the reader of a pipe went away
exit-line = {" "}{ $code }   { $said }
exit-gravest = verify and receive end with the gravest verdict of all that was given; a damaged seal or tag is NO-GO.
help-secrets = PIN and passphrase are asked for at the terminal, or taken from SLINGSEAL_PIN and SLINGSEAL_PASSPHRASE.
help-code = Where a CODE is wanted: its text, a file that holds the text, a picture (PNG, JPEG), or - for standard input.
help-file = Where a FILE is to be written, - is standard output. NO_COLOR turns colours off; PAGER shows long lists.

## Heads, and what a parser adds by itself

head-usage = Usage:
head-verbs = Commands
head-arguments = Arguments
head-options = Options
help-help = Say this; --help says more than -h
help-version = Say which version this is
verb-help = Say this, or the help of a verb

## Verbs and their arguments

arg-all-home = The home: everything that this device keeps
arg-all-json = Answer in JSON
arg-all-acting = Sign under the credential of this authority, where several gave this device one: its name or fingerprint
arg-all-language = The language of all that is read here: en or es; else as LC_ALL, LC_MESSAGES or LANG say
verb-demo = Play the whole job on an invented airlift, unattended, and leave everything to look at
arg-demo-out = Where to leave it; a folder of its own
verb-inspect = Walk a load: full screen by single keys, or one answer a line
more-inspect = Without TAG it offers the loads in hand and the tags known here; in an empty home, a load to practise on.
arg-inspect-tag = The tag on the load
arg-inspect-out = Where to put the seal as PNG, SVG and text
arg-inspect-walk = Go on with this walk in hand: the first digits of its id, or its load number
arg-inspect-list = Inspect what is no load, by this list: gear-web and its kin, daily-hooks, zone, hookup, derig; with --of
arg-inspect-of = The piece's serial number, the aircraft, the zone, or the load number
arg-inspect-kept = What was inspected here and is no load, and until when a piece is fit
arg-inspect-sign = With --kept: sign this one, by the first digits of its id or by its name, with the inspector's PIN
verb-verify = Say GO, WAIT or NO-GO to a seal, a tag, or both
arg-verify-seal = The seal; without it, what this home knows of the tag
arg-verify-tag = The tag on the load
verb-tag = Write and read load tags
verb-read = Print what each picture's codes say: PICTURE, a tab, TEXT; `-` where nothing is read
arg-read-pictures = PNG or JPEG files
verb-rigging = How a rigged load hangs, who carries what, what governs; 11 where it is over a limit or does not hang
verb-procedure = List, show, check and add procedures
verb-authority = Be an authority: issue, revoke, sign rosters; trust another
verb-key = This device's key
verb-receive = Take in a code of any kind: credential, roster, void, tag, seal, authority's card
arg-receive-codes = The codes
verb-void = Take a seal back: nobody may lift on it any more
arg-void-seal = The seal, the load's number, or the record's digest or its first digits
arg-void-cause = rigging-disturbed, load-moved, hookup-aborted, equipment-withdrawn or other
arg-void-note = More, in your words
arg-void-out = Where to put the void's code as picture and text
verb-report = Say what became of a load: lifted, refused, lost, set-down, derigged, returned
more-report = With the codes of its seal and tag they are judged first, as at the hook, and the verdict goes into the report. Without --sign the report is unsigned: it counts on this device, and is shown as unsigned elsewhere.
verb-account = Close a day, an operation or some loads: what does not add up, and the statement that a leader hands up
verb-arrival = What a load is and what was done to it, by its tag or its number: for whoever takes it down; needs no key
arg-arrival-load = The tag on the load, or its number
verb-check-page = Write the hook check for anyone's phone: one file that trusts whom you choose, until a day
arg-check-page-out = The file to write
arg-check-page-authorities = An authority that it trusts, by name or fingerprint, once each; all that are trusted here where none is named
arg-check-page-hours = How many hours it may be relied on, 1 to 168
arg-check-page-page = The page without contents, where this program was built without it: bindings/web/build makes target/web/check.html
verb-exam = Examine students on planted deficiencies: lock, run, result, class
verb-bundle = Carry records, tags, voids and rosters to another device, without a network
verb-records = The account: list, show, verify, export, print
verb-backup = Write the home whole into one file, with a check over all of it; it holds the device secret: keep it closed away
arg-backup-out = The file
verb-restore = Begin a home, by --home, out of a backup: a new device, with the old one's journal as its history
arg-restore-file = What `backup` wrote
verb-completions = Completions for a shell, to standard output: bash, zsh, fish, elvish or powershell
arg-completions-shell = The shell
verb-manual = Manual pages, one a verb, into a folder
arg-manual-out = The folder
verb-serve = The leader's page: the zone, each load's story, receiving, planning, printing; on this machine alone
arg-serve-port = The port; 0 takes a free one
arg-serve-open-to-network = Open this address of the machine to its network: others can read and add; without --tls nothing is encrypted
arg-serve-page = The hook check's page without contents, where this program was built without it
verb-account-close = Everything that does not add up, each with what is known and what to do; --sign once all is explained
verb-account-manifest = A day's loads in the order in which they are to be lifted; sets that order
arg-account-manifest-day = The day, UTC; today without it
arg-account-manifest-put = Put a load at a place, the first is 1; may be given several times
arg-account-manifest-order = Take the order of a table: CSV with a column "load", as --csv writes it
arg-account-manifest-as-planned = Back to the order of planning
arg-account-manifest-pdf = Where to put it as PDF
arg-account-manifest-letter = Print on US Letter instead of A4
arg-account-manifest-csv = Where to put it as CSV
verb-account-equipment = Every piece of equipment: on which load, since when, lifts, carried; what is out or lost first
arg-account-equipment-open = Only what is out, lost or damaged
arg-account-equipment-csv = Where to put it as CSV
verb-account-push = Put what is here on the operation's server: each word once
verb-account-pull = Take in what other desks put on the operation's server; it is trusted with nothing
arg-account-pull-again = From the beginning, and not from where the last pull stopped
verb-account-follow = Push and pull again and again, until it is stopped; a server that goes away is waited for
arg-account-follow-every = Seconds between two rounds, 1 to 3600
verb-account-server-sql = Print the SQL that sets a server up, for whoever keeps it: account server-sql | psql DATABASE
verb-account-withdraw = Take a piece out of service as a leader or an inspector: each tag that names it is NO-GO until an inspector finds it fit
arg-account-withdraw-serial = Its serial number
arg-account-withdraw-why = Why, so that whoever holds it knows what to look for
arg-account-withdraw-out = Where to put the code as SVG, PNG and text
verb-account-second-look = How many deficiencies nobody found, by pairs of inspections of one load by two people who do not know of each other
arg-account-second-look-days = Only inspections of so many days
arg-account-second-look-draw = Draw loads at random that somebody else is to look at, 1 to 100
verb-account-least-seconds = Mark walks of less than so many seconds a card; without a number, none
arg-account-least-seconds-seconds = Seconds a card, 1 to 3600
arg-server-url = Where it is: postgresql://LOGIN@HOST/DATABASE
arg-server-ca = PEM file with the certificate of whoever signed the server's own; by network it must be named
arg-server-photos = Photographs go along
arg-close-loads = The loads; all that are here without them
arg-close-day = Loads of which anything is told of this day, UTC
arg-close-name = What the statement calls it: an operation
arg-close-explain = Say something of an open point, by the id that stands before it; may be given several times
arg-close-sign = Sign the statement as a leader; asks for the PIN
arg-close-out = With --sign: where to put the statement as PDF, text and, where it fits one, a code
arg-report-event = lifted, refused, lost, set-down, derigged or returned
arg-report-load = The load's number, or the codes of its seal and its tag
arg-report-cause = For refused: verdict, rigging, damage, wrong-load, too-heavy, unstable, aircrew, zone or other
arg-report-at = When it happened, where that was before now: RFC 3339, or a date-time group
arg-report-aircraft = The aircraft that took it
arg-report-place = Where, MGRS
arg-report-pieces = A piece of equipment: SERIAL=back, SERIAL=damaged or SERIAL=back,damaged; may be given several times
arg-report-photos = A photograph, PNG or JPEG; may be given several times
arg-report-note = More, in your words
arg-report-sign = Sign it with this device's credential; asks for the PIN
arg-report-out = Where to put its code as picture and text
verb-tag-write = Make a tag of a plan, or the tags of a load list: PNG, PDF sheet and text
arg-tag-write-plan = The plan, TOML, or the list, CSV; see core/message/PLAN.md
arg-tag-write-out = Where to put the files
arg-tag-write-unsigned = Leave the tag unsigned: the hookup team will be told to WAIT
verb-tag-read = Say what a tag says
arg-tag-read-code = The tag
verb-procedure-list = Those that this home knows
verb-procedure-show = The walk that one expands to, with the id of every point
arg-procedure-show-id = Its id
arg-procedure-show-pdf = Put it as a blank checklist to walk by with a pen, with boxes, sources, cautions and its code
verb-procedure-check = Check a file: every fault with line, column and mend
arg-procedure-check-file = The file
arg-procedure-check-watch = Check again at each save, until it is stopped
verb-procedure-table = Every point of one list, or of all, with its source and what becomes of what is found: for an approver to print
arg-procedure-table-id = Its id; all that this home knows without it
verb-procedure-add = Take in a unit's own
arg-procedure-add-file = The file
verb-procedure-new = Leave a small commented file to begin with
arg-procedure-new-id = What it will go by
arg-procedure-new-out = Where to put it; ID.toml here without it
verb-procedure-diff = Say which cards and points came, went or changed between two editions: what an approver approves
arg-procedure-diff-old = The older file, or the id of one that this home knows
arg-procedure-diff-new = The newer one
verb-procedure-schema = The JSON Schema of a procedure's file, for an editor
verb-procedure-language = Tell lists in a language of a unit's own, where they have it
arg-procedure-language-code = Two letters, such as fr; the reader's own language without it
verb-procedure-pack = Carry procedures with the rosters that approve them, as one file
verb-procedure-frames = Hold procedures up as a moving code, with the rosters that approve them: frames as pictures
arg-procedure-frames-ids = Which; all that are approved without it
arg-procedure-frames-out = Where to put the frames
arg-procedure-frames-spare = Of each hundred frames that are enough, so many more
verb-pack-write = Write a file of the unit's own procedures and of all that are approved, or of those named
arg-pack-write-file = The file
arg-pack-write-ids = Which
verb-pack-read = Take a file's procedures in: each that has no fault; what nobody approves is kept apart
arg-pack-read-file = The file
verb-authority-init = Make this home an authority
arg-authority-init-name = What it goes by
arg-authority-init-approve = A procedure that counts, of those that come with the program: an id, or `all`; may be given several times. They are a start and no manual. Without it you are asked, and unattended nothing is approved
arg-authority-init-out = Where to put its card and roster
verb-authority-issue = Issue a credential on a key request
arg-authority-issue-request = The key request
arg-authority-issue-roles = inspector, planner, hookup, leader, instructor; several with commas
arg-authority-issue-expires = Until when: a date, RFC 3339, or a date-time group
arg-authority-issue-holder = Another name or call sign than the request asks for
arg-authority-issue-validity = The longest that a seal may hold
arg-authority-issue-out = Where to put the credential
verb-authority-list = Who holds what that was issued here, and which procedures are approved
verb-authority-show = Show or write the authority's card and its newest roster again
arg-authority-show-out = Where to put them
verb-authority-revoke = Revoke a key with everything issued to it, and sign the next roster
arg-authority-revoke-who = Names or call signs, ids of credentials, fingerprints of keys
arg-authority-revoke-days = For how many days the roster holds
arg-authority-revoke-out = Where to put the roster
verb-authority-approve = Say which procedures count: what is walked by another says WAIT. Signs the next roster
arg-authority-approve-which = Files of a unit's own, and ids of those that this home knows
arg-authority-approve-days = For how many days the roster holds
arg-authority-approve-out = Where to put the roster
verb-authority-withdraw = Take an approval back: what is walked by it from now on says WAIT. Signs the next roster
arg-authority-withdraw-which = Ids, `ID@VERSION` of one edition, or the beginning of a thumbprint
arg-authority-withdraw-days = For how many days the roster holds
arg-authority-withdraw-out = Where to put the roster
verb-authority-roster = Sign the roster anew, to hold longer
arg-authority-roster-days = For how many days it holds
arg-authority-roster-out = Where to put it
verb-authority-trust = Trust another authority by its card
arg-authority-trust-card = The card
arg-authority-trust-fingerprint = The fingerprint as it was read from the authority's own device; asked for at the terminal
arg-authority-trust-beside = Trust it although another authority of the name is trusted already
verb-authority-distrust = Trust an authority no longer: nothing that it signed counts here; what was received stays as evidence
arg-authority-distrust-who = Its name, or its fingerprint
verb-key-request = Make this device's key under a PIN, and the request for a credential; with a key here, write its request again
arg-key-request-holder = Your name or call sign
arg-key-request-out = Where to put the request
verb-key-change-pin = Put the key under another PIN
verb-key-show = How far this device is set up
verb-table-records = One line a record
verb-table-deficiencies = One line a deficiency
verb-table-equipment = One line a piece of equipment
verb-records-list = Records, newest first
arg-records-list-words = Words that all occur
arg-records-list-most = How many
verb-records-show = A record's whole story
arg-records-show-record = Its digest, or the first digits of it
verb-records-export = The account for other programs; core/account/EXPORT.md documents it
more-records-export = --csv FILE for spreadsheets and statistics, --json FILE for one document with everything in it; several files may be named where their endings tell which is which.
arg-records-export-files = Where to put it: .csv, .json, or .sql for a database (psql DATABASE -f FILE.sql)
arg-records-export-csv = As CSV, whatever the file's ending
arg-records-export-parquet = As Parquet: a folder with a file for each of the seven tables of the SQL script
arg-records-export-of = Which table: records, deficiencies or equipment
verb-records-verify = Walk every chain and signature, and name what does not hold
verb-records-print = A record's one-page PDF
arg-records-print-record = Its digest, the first digits of it, or the load's number
arg-records-print-out = Where to put the page
arg-records-print-letter = US letter paper in place of A4
verb-records-seal = Show a record's seal again: in the terminal, or as files
arg-records-seal-record = Its digest, the first digits of it, or its load number
arg-records-seal-out = Where to put PNG, SVG and text
verb-exam-lock = Lock what is planted on a load, signed as an instructor, before the student starts
more-exam-lock = Rig the deficiencies onto the load first; --preview says what to rig. The list stays in this home; the code that is shown holds its salted digest alone, so that it cannot change afterwards.
arg-exam-lock-tag = The tag on the load
arg-exam-lock-plant = A deficiency to plant: the point's id and the name, as --preview lists them; one a card
arg-exam-lock-draw = Draw so many in place of picking: spread over the stations, never two on a card
arg-exam-lock-seed = What to draw from: the same words draw the same
arg-exam-lock-preview = Say what to rig and keep nothing; without --plant and --draw, all that can be planted, each as --plant takes it
arg-exam-lock-find = How many a student must find: your unit's standard; asked for at the terminal
arg-exam-lock-within = Within this time: seconds, or minutes:seconds; your unit's standard; asked for at the terminal
arg-exam-lock-false-calls = Calls where nothing is wrong that are let pass; your unit's standard; asked for at the terminal
arg-exam-lock-out = Where to put the key's code as picture and text
verb-exam-keys = The keys that are known here; with KEY one of them and its code
arg-exam-keys-key = The key's code, or the first digits of one that is known
arg-exam-keys-reveal = Show what is planted; asks for the PIN
verb-exam-run = Run: the student walks the load against a clock that nothing stops
arg-exam-run-key = The key's code, or the first digits of one that is known
arg-exam-run-student = Who is examined
arg-exam-run-tag = The tag on the load; not needed where it is known here
arg-exam-run-go-on = Go on with this run: the first digits of its id, or the student
arg-exam-run-out = Where to put the sheet once the run is ended, for the instructor's bundle read
verb-exam-sheet = Write the sheet of an ended run, for the instructor's device: bundle read takes it
arg-exam-sheet-run = The run, by the first digits that exam result lists
arg-exam-sheet-out = The file; with --frames the folder of the pictures
arg-exam-sheet-frames = As the frames of a moving code
verb-exam-result = Score an ended run and sign the result, or show one; without WHICH, list runs and results
arg-exam-result-which = The run or the result by its first digits, or the student
verb-exam-class = The class: students, what is missed most, items, time by card
more-exam-class = Missed, items and cards are counted over first attempts. p is the share that found it, D the share among the upper 27 % of students less that among the lower 27 % (Kelley 1939), r the corrected point-biserial correlation.
arg-exam-class-procedure = Of one procedure
arg-exam-class-since = Runs begun at this time or later
arg-exam-class-until = Runs begun before this time
arg-exam-class-out = Where to put the tables as CSV
arg-part-of-account-since = Only records sealed at this time or later: a date, RFC 3339, or a date-time group
arg-part-of-account-load = Only what is of this load
verb-bundle-have = What this home has, as one short code: the other side leaves it out
arg-bundle-have-out = Where to put it
verb-bundle-write = Pack what the other side lacks; with --frames one that is too large goes as several moving codes
arg-bundle-write-out = The bundle; with --frames the folder of the pictures
arg-bundle-write-have = The other side's have code
arg-bundle-write-no-photos = Leave photographs out
arg-bundle-write-frames = As the frames of a moving code, without photographs
arg-bundle-write-spare = With --frames: how many more than are enough, per cent
verb-bundle-play = Show the moving code in this terminal, frame by frame, until Ctrl-C
arg-bundle-play-have = The other side's have code
arg-bundle-play-pace = Frames a second
arg-bundle-play-rounds = End by itself once each code was shown so many times over
verb-bundle-read = Take in a bundle, or the pictures of a moving code
arg-bundle-read-files = One bundle, or pictures, or their folder
arg-rigging-file = The rigging, TOML; see core/rigging/FORMAT.md
arg-rigging-links = What if: the link that sits in a leg's grab hook; may be given several times
arg-rigging-factor = Multiply every force by a load factor, such as 2.5 (14 CFR 29.865)
arg-rigging-picture = Draw side, front and top, to scale; .svg or .png
arg-rigging-sheet = Print the sheet for riggers: which link in which hook, which leg where
arg-rigging-aircrew = Print the data sheet for the aircrew
verb-rigging-weigh = Mass and centre of gravity from scales and items, and how the load may hang within their tolerances
arg-rigging-weigh-file = The rigging with `[[weighed]]` points or `[[item]]`
arg-rigging-weigh-factor = Multiply every force by a load factor
verb-rigging-solve = Which link in which hook so that the load hangs as wanted, and keeps the rule that governs
arg-rigging-solve-file = The rigging, with the slings and ropes at hand
arg-rigging-solve-level = Level
arg-rigging-solve-pitch = Nose up, degrees; nose down is negative
arg-rigging-solve-roll = Left side up, degrees
arg-rigging-solve-nose-down-at-least = The nose hangs at least this far down, degrees
arg-rigging-solve-between = Hold a leg to links; may be given several times
arg-rigging-solve-most = How many proposals, 1 to 20
arg-rigging-solve-factor = Multiply every force by a load factor
arg-rigging-solve-picture = Draw the best one; .svg or .png
arg-rigging-solve-out = Write the best one as a rigging file
verb-rigging-flight = Statics of the flight that the file tells of: load factor, steady drag, a failed hook. Flight tests and the manual rule
arg-rigging-flight-file = The rigging with `[flight]`, or with two hooks

## What an argument's help ends with

note-values = one of: { $values }
note-default = without it: { $value }
note-environment = or in the environment: { $name }

## A command line that cannot be read

usage-options = OPTIONS
usage-verb = COMMAND
usage-unknown-verb = there is no verb "{ $verb }"
usage-unknown-argument = "{ $argument }" is not taken here
usage-missing = this is missing: { $arguments }
usage-no-verb = a verb is missing
usage-conflict = { $argument } and { $other } do not go together
usage-twice = { $argument } may be given once
usage-no-value = { $argument } wants a value
usage-not-one-of = { $argument } does not take "{ $value }", but one of: { $values }
usage-not-within = { $argument } takes { $least } to { $most }, and not "{ $value }"
usage-no-number = { $argument } wants a number, and not "{ $value }"
usage-not-a-value = { $argument } does not take "{ $value }"
usage-number-of-values = { $argument } wants another number of values
usage-no-text = an argument is no text
usage-unreadable = the command line cannot be read
usage-meant = did you mean { $other }?
usage-more = More with --help.
arg-serve-tls = Speak TLS, with a certificate that this desk makes and keeps; its fingerprint is told here

## What stands behind a flag for its value: in capitals, one word

value-address = ADDRESS
value-authority = AUTHORITY
value-card = CARD
value-code = CODE
value-days = DAYS
value-deg = DEG
value-dir = DIR
value-event = EVENT
value-file = FILE
value-fingerprint = FINGERPRINT
value-hours = HOURS
value-key = KEY
value-leg = LEG
value-list = LIST
value-load = LOAD
value-name = NAME
value-new = NEW
value-note = NOTE
value-old = OLD
value-out = OUT
value-percent = PERCENT
value-picture = PICTURE
value-place = PLACE
value-plan = PLAN
value-point = POINT
value-port = PORT
value-procedure = PROCEDURE
value-record = RECORD
value-request = REQUEST
value-roles = ROLES
value-run = RUN
value-seal = SEAL
value-seconds = SECONDS
value-serial = SERIAL
value-shell = SHELL
value-state = STATE
value-tag = TAG
value-text = TEXT
value-time = TIME
value-times = TIMES
value-when = WHEN
value-which = WHICH
value-who = WHO
value-word = WORD
value-words = WORDS
value-year = YYYY

## One answer a line: what stands in the first column is typed, or written, as it stands

inspect-lines =
    At a terminal the walk is full screen, by single keys that a numeric keypad has; the keys stand at its foot.

    When standard input or output is no terminal, one answer a line:
      good                          the whole card is good
      good POINT                    one point is good
      deficient POINT NAME [NOTE]   a deficiency, by its name or number; other needs a note
      value POINT VALUE             a count, choice, measure, serial or text
      na POINT REASON               the point does not apply to this load
      reject N SERIAL               the piece that finding N rejects
      undo                          take the last answer back
      go N                          go to card N
      right N [BY]                  finding N is corrected, by whom
      again N good [VALUE]          reinspected: good, with the new value where one is wanted
      again N bad [NOTE]            reinspected: still deficient
      pause, resume, show
      abandon REASON                end without a decision
      fit, notfit [REASON]          decide
      pin PIN                       the PIN to seal with; otherwise SLINGSEAL_PIN
      seal                          sign; with --out, PNG, SVG and text are written
    POINT is its number on the card or its id. Empty lines and lines that begin with # are passed over.

    At the beginning and after each line comes one line:
      ok load=L stage=S card=N/M state=S cards=D/M points=D/M open=N findings=F
         next=STEP undo=N title=TITLE
      refused load=… (the same) … undo=N why=REASON
      sealed load=L outcome=fit|notfit verdict=GO|WAIT|NO-GO record=DIGEST seal=TEXT
      stage: walking paused decided abandoned    card, undo: 0 where there is none
      findings: those that are not closed, ! open, ? corrected and to be reinspected: 2!,3? or -
      state: unanswered partly good deficient awaits_second_look, - where there is no card
      next: answer_card look_again decide seal resume nothing
    With --json each is one line of JSON: the view (with `refused` in it), the seal, or {"{"}"error": …{"}"}.
    The end of input leaves the inspection where it stands. Exit code 0; 1 if a line was refused.
run-lines =
    At a terminal the run is full screen, by the same single keys as an inspection; they stand at its foot.

    When standard input or output is no terminal, one answer a line:
      good, good POINT, deficient POINT NAME [NOTE], value POINT VALUE, undo, go N
                                    as in an inspection; see slingseal inspect --help
      show                          the line below, with the clock
      end                           end the run, however far it is; the clock stops
    At the beginning and after each line comes one line:
      ok load=L stage=running|ended card=N/M state=S cards=D/M called=N seconds=T/LIMIT
         jumped=yes|no sheet=DIGEST|- undo=N title=TITLE
      refused load=… (the same) … undo=N why=REASON
    With --json each is one line of JSON: the run, or {"{"}"error": …{"}"}.
    The end of input leaves the run where it stands, and its clock goes on. Exit code 0; 1 if a line was refused.
