//! What `--help` says of one answer a line: the same words that a program writes and reads.

/// What `inspect --help` says of this.
pub(crate) const HELP: &str = "\
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
With --json each is one line of JSON: the view (with `refused` in it), the seal, or {\"error\": …}.
The end of input leaves the inspection where it stands. Exit code 0; 1 if a line was refused.";

/// What `exam run --help` says of this.
pub(crate) const RUN_HELP: &str = "\
At a terminal the run is full screen, by the same single keys as an inspection; they stand at its foot.

When standard input or output is no terminal, one answer a line:
  good, good POINT, deficient POINT NAME [NOTE], value POINT VALUE, undo, go N
                                as in an inspection; see slingseal inspect --help
  show                          the line below, with the clock
  end                           end the run, however far it is; the clock stops
At the beginning and after each line comes one line:
  ok load=L stage=running|ended card=N/M state=S cards=D/M called=N seconds=T/LIMIT
     jumped=yes|no sheet=DIGEST|- undo=N title=TITLE
  refused load=... (the same) ... undo=N why=REASON
With --json each is one line of JSON: the run, or {\"error\": ...}.
The end of input leaves the run where it stands, and its clock goes on. Exit code 0; 1 if a line was refused.";
