//! A PostgreSQL server of a test's own: a folder, a socket, nobody else's.

use std::io::{BufRead, BufReader, Write};
use std::os::unix::fs::PermissionsExt;
use std::path::{Path, PathBuf};
use std::process::{Child, ChildStdin, ChildStdout, Command, Stdio};

use slingseal_exchange::{Address, Exchange, ExchangeError, ROLES, SCHEMA};

pub struct Server {
    folder: tempfile::TempDir,
    programs: PathBuf,
    options: String,
}

/// The programs of the newest PostgreSQL that Debian installed.
fn programs() -> PathBuf {
    let mut found: Vec<PathBuf> = std::fs::read_dir("/usr/lib/postgresql")
        .expect("PostgreSQL is missing: run tests/all once, or apt-get install postgresql")
        .map(|entry| entry.unwrap().path().join("bin"))
        .filter(|bin| bin.join("initdb").is_file())
        .collect();
    found.sort();
    found.pop().expect("PostgreSQL is missing: run tests/all once, or apt-get install postgresql")
}

/// The server refuses to run as root.
fn as_keeper(program: &Path) -> Command {
    if rustix::process::getuid().is_root() {
        let mut command = Command::new("runuser");
        command.args(["-u", "postgres", "--"]).arg(program);
        command
    } else {
        Command::new(program)
    }
}

fn run(command: &mut Command) -> String {
    let done = command.stdin(Stdio::null()).output().unwrap();
    assert!(done.status.success(), "{command:?}: {}", String::from_utf8_lossy(&done.stderr));
    String::from_utf8(done.stdout).unwrap()
}

impl Server {
    /// A server that is up, with the common place set up in its database and two logins of desks.
    pub fn new() -> Self {
        let server = Self::empty("");
        server.sql(SCHEMA);
        server.sql(ROLES);
        server.sql("CREATE ROLE lantern LOGIN IN ROLE slingseal_desk; CREATE ROLE stranger LOGIN;");
        server
    }

    /// A server that is up, with nothing in it.
    pub fn empty(more_options: &str) -> Self {
        let folder = tempfile::Builder::new().prefix("pg").tempdir_in("/tmp").unwrap();
        std::fs::set_permissions(folder.path(), PermissionsExt::from_mode(0o755)).unwrap();
        let options = format!(
            "-c listen_addresses='' -c unix_socket_directories={} {more_options}",
            folder.path().join("data").display()
        );
        let server = Self { folder, programs: programs(), options };
        std::fs::create_dir(server.data()).unwrap();
        if rustix::process::getuid().is_root() {
            run(Command::new("chown").arg("postgres").arg(server.data()));
        }
        run(as_keeper(&server.programs.join("initdb")).current_dir("/").arg("-D").arg(server.data()).args([
            "-A",
            "trust",
            "-E",
            "UTF8",
            "--no-locale",
            "-U",
            "keeper",
        ]));
        server.start();
        let port = server.port();
        server.ask(port, "postgres", "CREATE DATABASE slingseal");
        server
    }

    /// The port that names the socket.
    fn port(&self) -> u16 {
        let named = self.options.split("port=").nth(1).and_then(|rest| rest.split(' ').next());
        named.map_or(5432, |port| port.parse().unwrap())
    }

    pub fn data(&self) -> PathBuf {
        self.folder.path().join("data")
    }

    pub fn socket(&self) -> PathBuf {
        self.data()
    }

    fn control(&self) -> Command {
        let mut command = as_keeper(&self.programs.join("pg_ctl"));
        command.current_dir("/").arg("-D").arg(self.data());
        command
    }

    pub fn start(&self) {
        let log = self.data().join("log");
        run(self.control().arg("-l").arg(log).args(["-o", &self.options, "-w", "start"]));
    }

    /// As a power cut would: no goodbye, no checkpoint.
    pub fn kill(&self) {
        run(self.control().args(["-m", "immediate", "-w", "stop"]));
    }

    /// As the system would where memory runs out: its first process is gone, and the others find that out by themselves.
    pub fn kill_nine(&self) {
        let file = std::fs::read_to_string(self.data().join("postmaster.pid")).unwrap();
        let number: i32 = file.lines().next().unwrap().trim().parse().unwrap();
        let process = rustix::process::Pid::from_raw(number).unwrap();
        rustix::process::kill_process(process, rustix::process::Signal::KILL).unwrap();
    }

    /// Starts a server whose processes may not be gone yet: until they are, their memory is in the way.
    pub fn start_again(&self) {
        let log = self.data().join("log");
        for _ in 0..300 {
            let mut start = self.control();
            start.arg("-l").arg(&log).args(["-o", &self.options, "-w", "start"]);
            if start
                .stdin(Stdio::null())
                .stdout(Stdio::null())
                .stderr(Stdio::null())
                .status()
                .unwrap()
                .success()
            {
                return;
            }
            std::thread::sleep(std::time::Duration::from_millis(100));
        }
        panic!("the server does not start: {}", std::fs::read_to_string(log).unwrap_or_default());
    }

    fn psql(&self, port: u16, database: &str) -> Command {
        let mut command = Command::new("psql");
        command.arg("-h").arg(self.socket()).args(["-p", &port.to_string()]).args([
            "-U",
            "keeper",
            "-d",
            database,
            "-X",
            "-q",
            "-A",
            "-t",
            "-v",
            "ON_ERROR_STOP=1",
        ]);
        command
    }

    fn ask(&self, port: u16, database: &str, sql: &str) -> String {
        run(self.psql(port, database).args(["-c", sql])).trim().to_owned()
    }

    /// Asks a server that listens elsewhere.
    pub fn sql_on(&self, port: u16, sql: &str) -> String {
        self.ask(port, "slingseal", sql)
    }

    /// Says who may come in how by network; by the socket everybody of this test may.
    pub fn hosts(&self, port: u16, lines: &str) {
        std::fs::write(self.data().join("pg_hba.conf"), format!("local all all trust\n{lines}")).unwrap();
        self.sql_on(port, "SELECT pg_reload_conf()");
        std::thread::sleep(std::time::Duration::from_millis(300));
    }

    /// Asks as whoever keeps the server.
    pub fn sql(&self, sql: &str) -> String {
        self.ask(5432, "slingseal", sql)
    }

    /// Reads a script in, as an analyst would.
    pub fn file(&self, file: &Path) {
        run(self.psql(5432, "slingseal").arg("-f").arg(file));
    }

    pub fn number(&self, sql: &str) -> u64 {
        self.sql(sql).parse().unwrap()
    }

    /// A session that stays open: a transaction in it can be held.
    pub fn session(&self) -> Session {
        let mut child =
            self.psql(5432, "slingseal").stdin(Stdio::piped()).stdout(Stdio::piped()).spawn().unwrap();
        let (input, output) = (child.stdin.take().unwrap(), BufReader::new(child.stdout.take().unwrap()));
        Session { child, input, output }
    }

    pub fn address(&self) -> Address {
        self.address_of("lantern")
    }

    pub fn address_of(&self, login: &str) -> Address {
        Address::new(&format!("host={} user={login} dbname=slingseal", self.socket().display()), None, None)
            .unwrap()
    }

    pub fn connect(&self) -> Result<Exchange, ExchangeError> {
        Exchange::connect(&self.address())
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        // It may be killed already.
        let _ = self.control().args(["-m", "immediate", "-w", "stop"]).output();
    }
}

pub struct Session {
    child: Child,
    input: ChildStdin,
    output: BufReader<ChildStdout>,
}

impl Session {
    /// Says something and waits until it is done.
    pub fn say(&mut self, sql: &str) {
        writeln!(self.input, "{sql}\n\\echo done").unwrap();
        let mut line = String::new();
        while line.trim() != "done" {
            line.clear();
            assert_ne!(self.output.read_line(&mut line).unwrap(), 0, "the session ended at: {sql}");
        }
    }
}

impl Drop for Session {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}
