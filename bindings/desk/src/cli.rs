//! The command line, as clap reads it.

use std::path::PathBuf;

use clap::{Parser, Subcommand};

/// Inspect, seal and account for helicopter sling loads, without a network.
///
/// It assists a qualified inspector; it never certifies by itself. The governing manual rules.
#[derive(Debug, Parser)]
#[command(name = "slingseal", version, max_term_width = 100, after_help = EXIT_CODES)]
pub(crate) struct Cli {
    /// The home: everything that this device keeps
    #[arg(long, global = true, value_name = "DIR", env = "SLINGSEAL_HOME")]
    pub(crate) home: Option<PathBuf>,
    /// Answer in JSON
    #[arg(long, global = true)]
    pub(crate) json: bool,
    /// Sign under the credential of this authority, where several gave this device one: its name or fingerprint
    #[arg(long = "as", global = true, value_name = "AUTHORITY")]
    pub(crate) acting: Option<String>,
    /// The language of all that is read here: en or es; else as LC_ALL, LC_MESSAGES or LANG say
    #[arg(long, global = true, value_name = "CODE", env = "SLINGSEAL_LANGUAGE")]
    pub(crate) language: Option<String>,
    #[command(subcommand)]
    pub(crate) verb: Verb,
}

const EXIT_CODES: &str = "\
Exit codes:
   0   done; GO; rigging within limits
   1   refused, or bad input: one line on standard error says what to do
   2   a command line that cannot be read
  10   WAIT; rigging that is over by the rule that its file names, though not at rest
  11   NO-GO; rigging over a limit, or not hanging
 141   the reader of a pipe went away
verify and receive end with the gravest verdict of all that was given; a damaged seal or tag is NO-GO.

PIN and passphrase are asked for at the terminal, or taken from SLINGSEAL_PIN and SLINGSEAL_PASSPHRASE.
Where a CODE is wanted: its text, a file that holds the text, a picture (PNG, JPEG), or - for standard input.
Where a FILE is to be written, - is standard output. NO_COLOR turns colours off; PAGER shows long lists.";

#[derive(Debug, Subcommand)]
pub(crate) enum Verb {
    /// Play the whole job on an invented airlift, unattended, and leave everything to look at
    Demo {
        /// Where to leave it; a folder of its own
        #[arg(long, value_name = "DIR")]
        out: Option<PathBuf>,
    },
    /// Walk a load: full screen by single keys, or one answer a line
    ///
    /// Without TAG it offers the loads in hand and the tags known here; in an empty home, a load to practise on.
    #[command(after_long_help = crate::terminal::HELP)]
    Inspect {
        /// The tag on the load
        #[arg(value_name = "TAG")]
        tag: Option<String>,
        /// Where to put the seal as PNG, SVG and text
        #[arg(long, value_name = "DIR")]
        out: Option<PathBuf>,
        /// Go on with this walk in hand: the first digits of its id, or its load number
        #[arg(long, value_name = "ID", conflicts_with = "tag")]
        walk: Option<String>,
        /// Inspect what is no load, by this list: gear, daily-hooks, zone, hookup, derig; with --of
        #[arg(long, value_name = "PROCEDURE", requires = "of", conflicts_with_all = ["tag", "walk"])]
        list: Option<String>,
        /// The piece's serial number, the aircraft, the zone, or the load number
        #[arg(long, value_name = "NAME", requires = "list")]
        of: Option<String>,
        /// What was inspected here and is no load, and until when a piece is fit
        #[arg(long, conflicts_with_all = ["tag", "walk", "list", "of"])]
        kept: bool,
        /// With --kept: sign this one, by the first digits of its id or by its name, with the inspector's PIN
        #[arg(long, value_name = "ID", requires = "kept")]
        sign: Option<String>,
    },
    /// Say GO, WAIT or NO-GO to a seal, a tag, or both
    Verify {
        /// The seal; without it, what this home knows of the tag
        #[arg(value_name = "SEAL")]
        seal: Option<String>,
        /// The tag on the load
        #[arg(long, value_name = "TAG")]
        tag: Option<String>,
    },
    /// Write and read load tags
    #[command(subcommand)]
    Tag(TagVerb),
    /// Print what each picture's codes say: PICTURE, a tab, TEXT; `-` where nothing is read
    Read {
        /// PNG or JPEG files
        #[arg(value_name = "PICTURE", required = true)]
        pictures: Vec<PathBuf>,
    },
    /// How a rigged load hangs, who carries what, what governs; 11 where it is over a limit or does not hang
    Rigging(Rigging),
    /// List, show, check and add procedures
    #[command(subcommand)]
    Procedure(ProcedureVerb),
    /// Be an authority: issue, revoke, sign rosters; trust another
    #[command(subcommand)]
    Authority(AuthorityVerb),
    /// This device's key
    #[command(subcommand)]
    Key(KeyVerb),
    /// Take in a code of any kind: credential, roster, void, tag, seal, authority's card
    Receive {
        /// The codes
        #[arg(value_name = "CODE", required = true)]
        codes: Vec<String>,
    },
    /// Take a seal back: nobody may lift on it any more
    Void {
        /// The seal, the load's number, or the record's digest or its first digits
        #[arg(value_name = "SEAL")]
        seal: String,
        /// rigging-disturbed, load-moved, hookup-aborted, equipment-withdrawn or other
        #[arg(long, value_name = "WORD")]
        cause: String,
        /// More, in your words
        #[arg(long, value_name = "TEXT")]
        note: Option<String>,
        /// Where to put the void's code as picture and text
        #[arg(long, value_name = "DIR")]
        out: Option<PathBuf>,
    },
    /// Say what became of a load: lifted, refused, lost, set-down, derigged, returned
    ///
    /// With the codes of its seal and tag they are judged first, as at the hook, and the verdict goes into the report. Without --sign
    /// the report is unsigned: it counts on this device, and is shown as unsigned elsewhere.
    Report(Report),
    /// Close a day, an operation or some loads: what does not add up, and the statement that a leader hands up
    #[command(subcommand)]
    Account(AccountVerb),
    /// What a load is and what was done to it, by its tag or its number: for whoever takes it down; needs no key
    Arrival {
        /// The tag on the load, or its number
        #[arg(value_name = "TAG|LOAD")]
        load: String,
    },
    /// Write the hook check for anyone's phone: one file that trusts whom you choose, until a day
    CheckPage {
        /// The file to write
        #[arg(long, value_name = "FILE.html")]
        out: PathBuf,
        /// An authority that it trusts, by name or fingerprint, once each; all that are trusted here where none is named
        #[arg(long = "authority", value_name = "NAME")]
        authorities: Vec<String>,
        /// How many hours it may be relied on, 1 to 168
        #[arg(long, default_value_t = 24, value_name = "HOURS")]
        hours: u32,
        /// The page without contents, where this program was built without it: bindings/web/build makes target/web/check.html
        #[arg(long, env = "SLINGSEAL_CHECK_PAGE", value_name = "FILE.html")]
        page: Option<PathBuf>,
    },
    /// Examine students on planted deficiencies: lock, run, result, class
    #[command(subcommand)]
    Exam(ExamVerb),
    /// Carry records, tags, voids and rosters to another device, without a network
    #[command(subcommand)]
    Bundle(BundleVerb),
    /// The account: list, show, verify, export, print
    #[command(subcommand)]
    Records(RecordsVerb),
    /// Write the home whole into one file, with a check over all of it; it holds the device secret: keep it closed away
    Backup {
        /// The file
        #[arg(long, value_name = "FILE")]
        out: PathBuf,
    },
    /// Begin a home, by --home, out of a backup: a new device, with the old one's journal as its history
    Restore {
        /// What `backup` wrote
        #[arg(value_name = "FILE")]
        file: PathBuf,
    },
    /// Completions for a shell, to standard output: bash, zsh, fish, elvish or powershell
    Completions {
        /// The shell
        #[arg(value_name = "SHELL")]
        shell: clap_complete::Shell,
    },
    /// Manual pages, one a verb, into a folder
    Manual {
        /// The folder
        #[arg(long, value_name = "DIR")]
        out: PathBuf,
    },
    /// The leader's page: the zone, each load's story, receiving, planning, printing; on this machine alone
    Serve {
        /// The port; 0 takes a free one
        #[arg(long, default_value_t = 8731, value_name = "PORT")]
        port: u16,
        /// Open this address of the machine to its network: others can read and add, and nothing is encrypted
        #[arg(long, value_name = "ADDRESS")]
        open_to_network: Option<std::net::IpAddr>,
        /// The hook check's page without contents, where this program was built without it
        #[arg(long, env = "SLINGSEAL_CHECK_PAGE", value_name = "FILE.html")]
        page: Option<PathBuf>,
    },
}

#[derive(Debug, Subcommand)]
pub(crate) enum AccountVerb {
    /// Everything that does not add up, each with what is known and what to do; --sign once all is explained
    Close(Close),
    /// A day's loads in the order in which they are to be lifted; sets that order
    Manifest(Manifest),
    /// Every piece of equipment: on which load, since when, lifts, carried; what is out or lost first
    Equipment {
        /// Only what is out, lost or damaged
        #[arg(long)]
        open: bool,
        /// Where to put it as CSV
        #[arg(long, value_name = "FILE")]
        csv: Option<PathBuf>,
    },
    /// Put what is here on the operation's server: each word once
    #[cfg(feature = "exchange")]
    Push(Server),
    /// Take in what other desks put on the operation's server; it is trusted with nothing
    #[cfg(feature = "exchange")]
    Pull {
        #[command(flatten)]
        server: Server,
        /// From the beginning, and not from where the last pull stopped
        #[arg(long)]
        again: bool,
    },
    /// Push and pull again and again, until it is stopped; a server that goes away is waited for
    #[cfg(feature = "exchange")]
    Follow {
        #[command(flatten)]
        server: Server,
        /// Seconds between two rounds, 1 to 3600
        #[arg(long, default_value_t = 10, value_name = "SECONDS", value_parser = clap::value_parser!(u64).range(1..=3600))]
        every: u64,
    },
    /// Print the SQL that sets a server up, for whoever keeps it: account server-sql | psql DATABASE
    #[cfg(feature = "exchange")]
    ServerSql,
    /// Take a piece out of service as a leader or an inspector: each tag that names it is NO-GO until an inspector finds it fit
    Withdraw {
        /// Its serial number
        #[arg(value_name = "SERIAL")]
        serial: String,
        /// Why, so that whoever holds it knows what to look for
        #[arg(long, value_name = "TEXT")]
        why: String,
        /// Where to put the code as SVG, PNG and text
        #[arg(long, value_name = "DIR")]
        out: Option<PathBuf>,
    },
    /// How many deficiencies nobody found, by pairs of inspections of one load by two people who do not know of each other
    SecondLook {
        /// Only inspections of so many days
        #[arg(long, value_name = "N")]
        days: Option<u32>,
        /// Draw loads at random that somebody else is to look at, 1 to 100
        #[arg(long, value_name = "N", conflicts_with = "days", value_parser = clap::value_parser!(u32).range(1..=100))]
        draw: Option<u32>,
    },
    /// Mark walks of less than so many seconds a card; without a number, none
    LeastSeconds {
        /// Seconds a card, 1 to 3600
        #[arg(value_name = "SECONDS")]
        seconds: Option<u32>,
    },
}

/// The operation's server.
#[cfg(feature = "exchange")]
#[derive(Clone, clap::Args)]
pub(crate) struct Server {
    /// Where it is: postgresql://LOGIN@HOST/DATABASE
    #[arg(value_name = "URL", env = "SLINGSEAL_SERVER", hide_env_values = true)]
    pub(crate) url: String,
    /// PEM file with the certificate of whoever signed the server's own; by network it must be named
    #[arg(long, value_name = "FILE.pem", env = "SLINGSEAL_SERVER_CA")]
    pub(crate) ca: Option<PathBuf>,
    /// Photographs go along
    #[arg(long)]
    pub(crate) photos: bool,
}

/// An address may hold a password.
#[cfg(feature = "exchange")]
impl std::fmt::Debug for Server {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("Server")
    }
}

#[derive(Debug, clap::Args)]
pub(crate) struct Close {
    /// The loads; all that are here without them
    #[arg(value_name = "LOAD")]
    pub(crate) loads: Vec<String>,
    /// Loads of which anything is told of this day, UTC
    #[arg(long, value_name = "YYYY-MM-DD")]
    pub(crate) day: Option<String>,
    /// What the statement calls it: an operation
    #[arg(long, value_name = "TEXT")]
    pub(crate) name: Option<String>,
    /// Say something of an open point, by the id that stands before it; may be given several times
    #[arg(long, value_name = "POINT=NOTE")]
    pub(crate) explain: Vec<String>,
    /// Sign the statement as a leader; asks for the PIN
    #[arg(long)]
    pub(crate) sign: bool,
    /// With --sign: where to put the statement as PDF, text and, where it fits one, a code
    #[arg(long, value_name = "DIR", requires = "sign")]
    pub(crate) out: Option<PathBuf>,
}

#[derive(Debug, clap::Args)]
pub(crate) struct Manifest {
    /// The day, UTC; today without it
    #[arg(long, value_name = "YYYY-MM-DD")]
    pub(crate) day: Option<String>,
    /// Put a load at a place, the first is 1; may be given several times
    #[arg(long, value_name = "LOAD=PLACE", conflicts_with = "order")]
    pub(crate) put: Vec<String>,
    /// Take the order of a table: CSV with a column "load", as --csv writes it
    #[arg(long, value_name = "FILE.csv", conflicts_with = "as_planned")]
    pub(crate) order: Option<PathBuf>,
    /// Back to the order of planning
    #[arg(long, conflicts_with = "put")]
    pub(crate) as_planned: bool,
    /// Where to put it as PDF
    #[arg(long, value_name = "FILE.pdf")]
    pub(crate) pdf: Option<PathBuf>,
    /// Print on US Letter instead of A4
    #[arg(long, requires = "pdf")]
    pub(crate) letter: bool,
    /// Where to put it as CSV
    #[arg(long, value_name = "FILE.csv")]
    pub(crate) csv: Option<PathBuf>,
}

#[derive(Debug, clap::Args)]
pub(crate) struct Report {
    /// lifted, refused, lost, set-down, derigged or returned
    #[arg(value_name = "EVENT")]
    pub(crate) event: String,
    /// The load's number, or the codes of its seal and its tag
    #[arg(value_name = "LOAD|CODE", required = true)]
    pub(crate) load: Vec<String>,
    /// For refused: verdict, rigging, damage, wrong-load, too-heavy, unstable, aircrew, zone or other
    #[arg(long, value_name = "WORD")]
    pub(crate) cause: Option<String>,
    /// When it happened, where that was before now: RFC 3339, or a date-time group
    #[arg(long, value_name = "TIME")]
    pub(crate) at: Option<String>,
    /// The aircraft that took it
    #[arg(long, value_name = "TEXT")]
    pub(crate) aircraft: Option<String>,
    /// Where, MGRS
    #[arg(long, value_name = "MGRS")]
    pub(crate) place: Option<String>,
    /// A piece of equipment: SERIAL=back, SERIAL=damaged or SERIAL=back,damaged; may be given several times
    #[arg(long = "piece", value_name = "SERIAL=STATE")]
    pub(crate) pieces: Vec<String>,
    /// A photograph, PNG or JPEG; may be given several times
    #[arg(long = "photo", value_name = "FILE")]
    pub(crate) photos: Vec<PathBuf>,
    /// More, in your words
    #[arg(long, value_name = "TEXT")]
    pub(crate) note: Option<String>,
    /// Sign it with this device's credential; asks for the PIN
    #[arg(long)]
    pub(crate) sign: bool,
    /// Where to put its code as picture and text
    #[arg(long, value_name = "DIR")]
    pub(crate) out: Option<PathBuf>,
}

#[derive(Debug, Subcommand)]
pub(crate) enum TagVerb {
    /// Make a tag of a plan, or the tags of a load list: PNG, PDF sheet and text
    Write {
        /// The plan, TOML, or the list, CSV; see core/message/PLAN.md
        #[arg(value_name = "PLAN.toml|LIST.csv")]
        plan: PathBuf,
        /// Where to put the files
        #[arg(long, value_name = "DIR")]
        out: PathBuf,
        /// Leave the tag unsigned: the hookup team will be told to WAIT
        #[arg(long)]
        unsigned: bool,
    },
    /// Say what a tag says
    Read {
        /// The tag
        #[arg(value_name = "CODE")]
        code: String,
    },
}

#[derive(Debug, Subcommand)]
pub(crate) enum ProcedureVerb {
    /// Those that this home knows
    List,
    /// The walk that one expands to, with the id of every point
    Show {
        /// Its id
        #[arg(value_name = "ID")]
        id: String,
        /// Put it as a blank checklist to walk by with a pen, with boxes, sources, cautions and its code
        #[arg(long, value_name = "FILE.pdf")]
        pdf: Option<PathBuf>,
    },
    /// Check a file: every fault with line, column and mend
    Check {
        /// The file
        #[arg(value_name = "FILE")]
        file: PathBuf,
        /// Check again at each save, until it is stopped
        #[arg(long)]
        watch: bool,
    },
    /// Every point of one list, or of all, with its source and what becomes of what is found: for an approver to print
    Table {
        /// Its id; all that this home knows without it
        #[arg(value_name = "ID")]
        id: Option<String>,
    },
    /// Take in a unit's own
    Add {
        /// The file
        #[arg(value_name = "FILE")]
        file: PathBuf,
    },
    /// Leave a small commented file to begin with
    New {
        /// What it will go by
        #[arg(value_name = "ID")]
        id: String,
        /// Where to put it; ID.toml here without it
        #[arg(long, value_name = "FILE")]
        out: Option<PathBuf>,
    },
    /// Say which cards and points came, went or changed between two editions: what an approver approves
    Diff {
        /// The older file, or the id of one that this home knows
        #[arg(value_name = "OLD")]
        old: String,
        /// The newer one
        #[arg(value_name = "NEW")]
        new: String,
    },
    /// The JSON Schema of a procedure's file, for an editor
    Schema,
    /// Tell lists in a language of a unit's own, where they have it
    Language {
        /// Two letters, such as fr; the reader's own language without it
        #[arg(value_name = "CODE")]
        code: Option<String>,
    },
    /// Carry procedures with the rosters that approve them, as one file
    #[command(subcommand)]
    Pack(PackVerb),
    /// Hold procedures up as a moving code, with the rosters that approve them: frames as pictures
    Frames {
        /// Which; all that are approved without it
        #[arg(value_name = "ID")]
        ids: Vec<String>,
        /// Where to put the frames
        #[arg(long, value_name = "DIR")]
        out: PathBuf,
        /// Of each hundred frames that are enough, so many more
        #[arg(long, default_value_t = 50, value_name = "PERCENT")]
        spare: u32,
    },
}

#[derive(Debug, Subcommand)]
pub(crate) enum PackVerb {
    /// Write a file of the unit's own procedures and of all that are approved, or of those named
    Write {
        /// The file
        #[arg(value_name = "FILE")]
        file: PathBuf,
        /// Which
        #[arg(value_name = "ID")]
        ids: Vec<String>,
    },
    /// Take a file's procedures in: each that has no fault; what nobody approves is kept apart
    Read {
        /// The file
        #[arg(value_name = "FILE")]
        file: PathBuf,
    },
}

#[derive(Debug, Subcommand)]
pub(crate) enum AuthorityVerb {
    /// Make this home an authority
    Init {
        /// What it goes by
        #[arg(long, value_name = "NAME")]
        name: String,
        /// A procedure that counts, of those that come with the program: an id, or `all`; may be given several times. They are a
        /// start and no manual. Without it you are asked, and unattended nothing is approved
        #[arg(long, value_name = "ID")]
        approve: Vec<String>,
        /// Where to put its card and roster
        #[arg(long, value_name = "DIR")]
        out: Option<PathBuf>,
    },
    /// Issue a credential on a key request
    Issue {
        /// The key request
        #[arg(value_name = "REQUEST")]
        request: String,
        /// inspector, planner, hookup, leader, instructor; several with commas
        #[arg(long, value_name = "ROLES")]
        roles: String,
        /// Until when: a date, RFC 3339, or a date-time group
        #[arg(long, value_name = "TIME")]
        expires: String,
        /// Another name or call sign than the request asks for
        #[arg(long, value_name = "NAME")]
        holder: Option<String>,
        /// The longest that a seal may hold
        #[arg(long, value_name = "HOURS")]
        validity: Option<u32>,
        /// Where to put the credential
        #[arg(long, value_name = "DIR")]
        out: Option<PathBuf>,
    },
    /// Who holds what that was issued here, and which procedures are approved
    List,
    /// Show or write the authority's card and its newest roster again
    #[command(alias = "card")]
    Show {
        /// Where to put them
        #[arg(long, value_name = "DIR")]
        out: Option<PathBuf>,
    },
    /// Revoke a key with everything issued to it, and sign the next roster
    Revoke {
        /// Names or call signs, ids of credentials, fingerprints of keys
        #[arg(value_name = "WHO", required = true)]
        who: Vec<String>,
        /// For how many days the roster holds
        #[arg(long, value_name = "DAYS")]
        days: Option<u32>,
        /// Where to put the roster
        #[arg(long, value_name = "DIR")]
        out: Option<PathBuf>,
    },
    /// Say which procedures count: what is walked by another says WAIT. Signs the next roster
    Approve {
        /// Files of a unit's own, and ids of those that this home knows
        #[arg(value_name = "FILE|ID", required = true)]
        which: Vec<String>,
        /// For how many days the roster holds
        #[arg(long, value_name = "DAYS")]
        days: Option<u32>,
        /// Where to put the roster
        #[arg(long, value_name = "DIR")]
        out: Option<PathBuf>,
    },
    /// Take an approval back: what is walked by it from now on says WAIT. Signs the next roster
    Withdraw {
        /// Ids, `ID@VERSION` of one edition, or the beginning of a thumbprint
        #[arg(value_name = "ID", required = true)]
        which: Vec<String>,
        /// For how many days the roster holds
        #[arg(long, value_name = "DAYS")]
        days: Option<u32>,
        /// Where to put the roster
        #[arg(long, value_name = "DIR")]
        out: Option<PathBuf>,
    },
    /// Sign the roster anew, to hold longer
    Roster {
        /// For how many days it holds
        #[arg(long, value_name = "DAYS")]
        days: Option<u32>,
        /// Where to put it
        #[arg(long, value_name = "DIR")]
        out: Option<PathBuf>,
    },
    /// Trust another authority by its card
    Trust {
        /// The card
        #[arg(value_name = "CARD")]
        card: String,
        /// The fingerprint as it was read from the authority's own device; asked for at the terminal
        #[arg(long, value_name = "FINGERPRINT")]
        fingerprint: Option<String>,
        /// Trust it although another authority of the name is trusted already
        #[arg(long)]
        beside: bool,
    },
    /// Trust an authority no longer: nothing that it signed counts here; what was received stays as evidence
    Distrust {
        /// Its name, or its fingerprint
        #[arg(value_name = "WHO")]
        who: String,
    },
}

#[derive(Debug, Subcommand)]
pub(crate) enum KeyVerb {
    /// Make this device's key under a PIN, and the request for a credential; with a key here, write its request again
    Request {
        /// Your name or call sign
        #[arg(long, value_name = "NAME")]
        holder: Option<String>,
        /// Where to put the request
        #[arg(long, value_name = "DIR")]
        out: Option<PathBuf>,
    },
    /// Put the key under another PIN
    ChangePin,
    /// How far this device is set up
    Show,
}

/// A table of the account.
#[derive(Clone, Copy, Debug, PartialEq, Eq, clap::ValueEnum)]
pub(crate) enum Table {
    /// One line a record.
    Records,
    /// One line a deficiency.
    Deficiencies,
    /// One line a piece of equipment.
    Equipment,
}

#[derive(Debug, Subcommand)]
pub(crate) enum RecordsVerb {
    /// Records, newest first
    List {
        /// Words that all occur
        #[arg(value_name = "WORD")]
        words: Vec<String>,
        /// How many
        #[arg(long, default_value_t = 50, value_name = "N")]
        most: u32,
    },
    /// A record's whole story
    Show {
        /// Its digest, or the first digits of it
        #[arg(value_name = "RECORD")]
        record: String,
    },
    /// The account for other programs; core/account/EXPORT.md documents it
    ///
    /// --csv FILE for spreadsheets and statistics, --json FILE for one document with everything in it; several files may be
    /// named where their endings tell which is which.
    Export {
        /// Where to put it: .csv, .json, or .sql for a database (psql DATABASE -f FILE.sql)
        #[arg(value_name = "FILE", required = true)]
        files: Vec<PathBuf>,
        /// As CSV, whatever the file's ending
        #[arg(long)]
        csv: bool,
        /// Which table: records, deficiencies or equipment
        #[arg(long, value_enum, default_value_t = Table::Records)]
        of: Table,
    },
    /// Walk every chain and signature, and name what does not hold
    Verify,
    /// A record's one-page PDF
    Print {
        /// Its digest, the first digits of it, or the load's number
        #[arg(value_name = "RECORD")]
        record: String,
        /// Where to put the page
        #[arg(long, value_name = "FILE.pdf")]
        out: PathBuf,
        /// US letter paper in place of A4
        #[arg(long)]
        letter: bool,
    },
    /// Show a record's seal again: in the terminal, or as files
    Seal {
        /// Its digest, the first digits of it, or its load number
        #[arg(value_name = "RECORD")]
        record: String,
        /// Where to put PNG, SVG and text
        #[arg(long, value_name = "DIR")]
        out: Option<PathBuf>,
    },
}

#[derive(Debug, Subcommand)]
pub(crate) enum ExamVerb {
    /// Lock what is planted on a load, signed as an instructor, before the student starts
    ///
    /// Rig the deficiencies onto the load first; --preview says what to rig. The list stays in this home; the code that is
    /// shown holds its salted digest alone, so that it cannot change afterwards.
    Lock {
        /// The tag on the load
        #[arg(value_name = "TAG")]
        tag: String,
        /// A deficiency to plant: the point's id and the name, as --preview lists them; one a card
        #[arg(long, value_name = "POINT=NAME")]
        plant: Vec<String>,
        /// Draw so many in place of picking: spread over the stations, never two on a card
        #[arg(long, value_name = "N", conflicts_with = "plant", required_unless_present_any = ["plant", "preview"])]
        draw: Option<u32>,
        /// What to draw from: the same words draw the same
        #[arg(long, value_name = "WORDS", requires = "draw")]
        seed: Option<String>,
        /// Say what to rig and keep nothing; without --plant and --draw, all that can be planted, each as --plant takes it
        #[arg(long)]
        preview: bool,
        /// How many a student must find: your unit's standard; asked for at the terminal
        #[arg(long, value_name = "N")]
        find: Option<u32>,
        /// Within this time: seconds, or minutes:seconds; your unit's standard; asked for at the terminal
        #[arg(long, value_name = "TIME")]
        within: Option<String>,
        /// Calls where nothing is wrong that are let pass
        #[arg(long, value_name = "N", default_value_t = 0)]
        false_calls: u32,
        /// Where to put the key's code as picture and text
        #[arg(long, value_name = "DIR")]
        out: Option<PathBuf>,
    },
    /// The keys that are known here; with KEY one of them and its code
    Keys {
        /// The key's code, or the first digits of one that is known
        #[arg(value_name = "KEY")]
        key: Option<String>,
        /// Show what is planted; asks for the PIN
        #[arg(long, requires = "key")]
        reveal: bool,
    },
    /// Run: the student walks the load against a clock that nothing stops
    #[command(after_long_help = crate::terminal::RUN_HELP)]
    Run {
        /// The key's code, or the first digits of one that is known
        #[arg(value_name = "KEY")]
        key: Option<String>,
        /// Who is examined
        #[arg(long, value_name = "NAME")]
        student: Option<String>,
        /// The tag on the load; not needed where it is known here
        #[arg(long, value_name = "TAG")]
        tag: Option<String>,
        /// Go on with this run: the first digits of its id, or the student
        #[arg(long = "run", value_name = "ID", conflicts_with_all = ["key", "student", "tag"])]
        go_on: Option<String>,
        /// Where to put the sheet once the run is ended, for the instructor's bundle read
        #[arg(long, value_name = "FILE")]
        out: Option<PathBuf>,
    },
    /// Write the sheet of an ended run, for the instructor's device: bundle read takes it
    Sheet {
        /// The run, by the first digits that exam result lists
        #[arg(value_name = "RUN")]
        run: String,
        /// The file; with --frames the folder of the pictures
        #[arg(long, value_name = "FILE")]
        out: PathBuf,
        /// As the frames of a moving code
        #[arg(long)]
        frames: bool,
    },
    /// Score an ended run and sign the result, or show one; without WHICH, list runs and results
    Result {
        /// The run or the result by its first digits, or the student
        #[arg(value_name = "WHICH")]
        which: Option<String>,
    },
    /// The class: students, what is missed most, items, time by card
    ///
    /// Missed, items and cards are counted over first attempts. p is the share that found it, D the share among the upper 27 %
    /// of students less that among the lower 27 % (Kelley 1939), r the corrected point-biserial correlation.
    Class {
        /// Of one procedure
        #[arg(long, value_name = "ID")]
        procedure: Option<String>,
        /// Runs begun at this time or later
        #[arg(long, value_name = "TIME")]
        since: Option<String>,
        /// Runs begun before this time
        #[arg(long, value_name = "TIME")]
        until: Option<String>,
        /// Where to put the tables as CSV
        #[arg(long, value_name = "DIR")]
        out: Option<PathBuf>,
    },
}

/// Which part of the account goes along.
#[derive(Clone, Debug, Default, clap::Args)]
pub(crate) struct PartOfAccount {
    /// Only records sealed at this time or later: a date, RFC 3339, or a date-time group
    #[arg(long, value_name = "TIME")]
    pub(crate) since: Option<String>,
    /// Only what is of this load
    #[arg(long, value_name = "LOAD")]
    pub(crate) load: Option<String>,
}

#[derive(Debug, Subcommand)]
pub(crate) enum BundleVerb {
    /// What this home has, as one short code: the other side leaves it out
    Have {
        /// Where to put it
        #[arg(long, value_name = "DIR")]
        out: Option<PathBuf>,
    },
    /// Pack what the other side lacks; with --frames one that is too large goes as several moving codes
    Write {
        /// The bundle; with --frames the folder of the pictures
        #[arg(long, value_name = "FILE")]
        out: PathBuf,
        /// The other side's have code
        #[arg(long, value_name = "CODE")]
        have: Option<String>,
        #[command(flatten)]
        part: PartOfAccount,
        /// Leave photographs out
        #[arg(long)]
        no_photos: bool,
        /// As the frames of a moving code, without photographs
        #[arg(long)]
        frames: bool,
        /// With --frames: how many more than are enough, per cent
        #[arg(long, value_name = "PERCENT", default_value_t = 50)]
        spare: u32,
    },
    /// Show the moving code in this terminal, frame by frame, until Ctrl-C
    Play {
        /// The other side's have code
        #[arg(long, value_name = "CODE")]
        have: Option<String>,
        #[command(flatten)]
        part: PartOfAccount,
        /// Frames a second
        #[arg(long, value_name = "N", default_value_t = 4, value_parser = clap::value_parser!(u32).range(1..=15))]
        pace: u32,
        /// End by itself once each code was shown so many times over
        #[arg(long, value_name = "TIMES")]
        rounds: Option<u32>,
    },
    /// Take in a bundle, or the pictures of a moving code
    Read {
        /// One bundle, or pictures, or their folder
        #[arg(value_name = "FILE", required = true)]
        files: Vec<PathBuf>,
    },
}

/// A rigging file as it stands, or one of the ways to plan a lift by it.
#[derive(Debug, clap::Args)]
#[command(args_conflicts_with_subcommands = true, subcommand_negates_reqs = true)]
pub(crate) struct Rigging {
    #[command(subcommand)]
    pub(crate) verb: Option<RiggingVerb>,
    /// The rigging, TOML; see core/rigging/FORMAT.md
    #[arg(value_name = "FILE.toml", required = true)]
    pub(crate) file: Option<PathBuf>,
    /// What if: the link that sits in a leg's grab hook; may be given several times
    #[arg(long, value_name = "LEG=N")]
    pub(crate) links: Vec<String>,
    /// Multiply every force by a load factor, such as 2.5 (14 CFR 29.865)
    #[arg(long, value_name = "F")]
    pub(crate) factor: Option<f64>,
    /// Draw side, front and top, to scale; .svg or .png
    #[arg(long, value_name = "OUT")]
    pub(crate) picture: Vec<PathBuf>,
    /// Print the sheet for riggers: which link in which hook, which leg where
    #[arg(long, value_name = "OUT.pdf")]
    pub(crate) sheet: Option<PathBuf>,
    /// Print the data sheet for the aircrew
    #[arg(long, value_name = "OUT.pdf")]
    pub(crate) aircrew: Option<PathBuf>,
}

#[derive(Debug, Subcommand)]
pub(crate) enum RiggingVerb {
    /// Mass and centre of gravity from scales and items, and how the load may hang within their tolerances
    Weigh {
        /// The rigging with `[[weighed]]` points or `[[item]]`
        #[arg(value_name = "FILE.toml")]
        file: PathBuf,
        /// Multiply every force by a load factor
        #[arg(long, value_name = "F")]
        factor: Option<f64>,
    },
    /// Which link in which hook so that the load hangs as wanted, and keeps the rule that governs
    Solve {
        /// The rigging, with the slings and ropes at hand
        #[arg(value_name = "FILE.toml")]
        file: PathBuf,
        /// Level
        #[arg(long, conflicts_with_all = ["pitch", "roll", "nose_down_at_least"])]
        level: bool,
        /// Nose up, degrees; nose down is negative
        #[arg(long, value_name = "DEG", allow_negative_numbers = true)]
        pitch: Option<f64>,
        /// Left side up, degrees
        #[arg(long, value_name = "DEG", allow_negative_numbers = true)]
        roll: Option<f64>,
        /// The nose hangs at least this far down, degrees
        #[arg(long, value_name = "DEG")]
        nose_down_at_least: Option<f64>,
        /// Hold a leg to links; may be given several times
        #[arg(long, value_name = "LEG=A-B")]
        between: Vec<String>,
        /// How many proposals, 1 to 20
        #[arg(long, value_name = "N")]
        most: Option<u32>,
        /// Multiply every force by a load factor
        #[arg(long, value_name = "F")]
        factor: Option<f64>,
        /// Draw the best one; .svg or .png
        #[arg(long, value_name = "OUT")]
        picture: Vec<PathBuf>,
        /// Write the best one as a rigging file
        #[arg(long, value_name = "OUT.toml")]
        out: Option<PathBuf>,
    },
    /// Statics of the flight that the file tells of: load factor, steady drag, a failed hook. Flight tests and the manual rule
    Flight {
        /// The rigging with `[flight]`, or with two hooks
        #[arg(value_name = "FILE.toml")]
        file: PathBuf,
    },
}
